/** Linear sRGB to CIE XYZ and back, and from one white to another. */
import { inverse, multiply, transform, type Matrix3, type Vector3 } from "../base/matrix3.ts";
import type { LinearRgb } from "./srgb.ts";

/** CIE 1931 tristimulus values, 2°; Y of white is 1. */
export type Xyz = Vector3;

/** White of sRGB. Source: IEC 61966-2-1, the sums of the rows of the matrix below. */
export const WHITE_D65: Xyz = [0.95047, 1, 1.08883];

/** D50 of colour profiles, from its chromaticity x 0.3457, y 0.3585. Source: ICC.1, CIE 15. */
export const WHITE_D50: Xyz = [0.3457 / 0.3585, 1, (1 - 0.3457 - 0.3585) / 0.3585];

/** Source: IEC 61966-2-1 with seven decimals, so that the rows sum to white and greys are neutral. */
const XYZ_FROM_LINEAR: Matrix3 = [
  0.4124564, 0.3575761, 0.1804375, 0.2126729, 0.7151522, 0.072175, 0.0193339, 0.119192, 0.9503041,
];
const LINEAR_FROM_XYZ = inverse(XYZ_FROM_LINEAR);

/** XYZ (D65, 2°, Y 0 to 1) of linear sRGB. */
export function xyzFromLinear(rgb: LinearRgb): Xyz {
  return transform(XYZ_FROM_LINEAR, rgb);
}

/** Linear sRGB of XYZ (D65, 2°); not clipped to the gamut. */
export function linearFromXyz(xyz: Xyz): LinearRgb {
  return transform(LINEAR_FROM_XYZ, xyz);
}

/** Cone-like responses of the Bradford transform. Source: Lam 1985, as carried in ICC.1 annex E. */
const BRADFORD: Matrix3 = [0.8951, 0.2664, -0.1614, -0.7502, 1.7135, 0.0367, 0.0389, -0.0685, 1.0296];
const BRADFORD_INVERSE = inverse(BRADFORD);

/** What looks the same under the white `to` as `xyz` does under the white `from`: linear Bradford, full adaptation. */
export function bradfordAdapt(xyz: Xyz, from: Xyz, to: Xyz): Xyz {
  const source = transform(BRADFORD, from);
  const target = transform(BRADFORD, to);
  const scale: Matrix3 = [target[0] / source[0], 0, 0, 0, target[1] / source[1], 0, 0, 0, target[2] / source[2]];
  return transform(multiply(BRADFORD_INVERSE, multiply(scale, BRADFORD)), xyz);
}
