/** The eye's three channels: light–dark (A), red–green (R) and yellow–violet (Y) responses of a colour. */
import { multiply, transform, type Matrix3, type Vector3 } from "../base/matrix3.ts";
import { xyzFromLab, type Lab } from "../colour/lab.ts";
import { WHITE_D65, type Xyz } from "../colour/xyz.ts";

/** CIE 1931 XYZ → LMS 2006 as given for an LED LCD in castleCSF v0.2.4; for yarn in daylight an approximation. */
const XYZ_TO_LMS: Matrix3 = [
  0.187596268556126, 0.585168649077728, -0.026384263306304, -0.133397430663221, 0.405505777260049, 0.034502127690364,
  0.000244379021663, -0.000542995890619, 0.019406849066323,
];

/** LMS → (A, R, Y), castleCSF v0.2.4 (Ashraf, Mantiuk, Chapiro, Wuerger 2024, J. Vision 24(4):5). */
export const LMS_TO_OPPONENT: Matrix3 = [1, 1, 0, 1, -2.3112, 0, -1, -1, 50.9875];

export const XYZ_TO_OPPONENT: Matrix3 = multiply(LMS_TO_OPPONENT, XYZ_TO_LMS);

/** (A, R, Y) of a colour whose white has Y = 1. */
export const opponentFromXyz = (xyz: Xyz): Vector3 => transform(XYZ_TO_OPPONENT, xyz);

export const opponentFromLab = (lab: Lab): Vector3 => opponentFromXyz(xyzFromLab(lab));

/** A of D65 white: 1.0510. */
export const WHITE_RESPONSE = opponentFromXyz(WHITE_D65)[0];
