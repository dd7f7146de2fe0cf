/** CIELAB, the space in which shades are stored, told and compared. */
import type { Vector3 } from "../base/matrix3.ts";
import { hexFromLinear, parseHex, type LinearRgb } from "./srgb.ts";
import { linearFromXyz, WHITE_D65, xyzFromLinear, type Xyz } from "./xyz.ts";

/** L* 0 (black) to 100 (white), a* and b* about −130 to 130. D65 and 2° unless a white is named. */
export type Lab = Vector3;

/** L*, chroma C*ab and hue angle in degrees, 0 to 360. */
export type Lch = Vector3;

/** CIELAB of XYZ. Source: CIE 15:2018, 8.2.1, with the exact fractions 216/24389 and 24389/27. */
export function labFromXyz(xyz: Xyz, white: Xyz = WHITE_D65): Lab {
  const x = response(xyz[0] / white[0]);
  const y = response(xyz[1] / white[1]);
  const z = response(xyz[2] / white[2]);
  return [116 * y - 16, 500 * (x - y), 200 * (y - z)];
}

/** XYZ of CIELAB: the inverse of `labFromXyz`. */
export function xyzFromLab(lab: Lab, white: Xyz = WHITE_D65): Xyz {
  const y = (lab[0] + 16) / 116;
  return [
    white[0] * responseInverse(y + lab[1] / 500),
    white[1] * responseInverse(y),
    white[2] * responseInverse(y - lab[2] / 200),
  ];
}

/** Below this part of white the cube root gives way to a straight line: (6/29)³. Source: CIE 15:2018. */
const LINE_ENDS = 216 / 24389;
const LINE_SLOPE = 24389 / 27;

function response(part: number): number {
  return part > LINE_ENDS ? Math.cbrt(part) : (LINE_SLOPE * part + 16) / 116;
}

function responseInverse(response: number): number {
  return response > 6 / 29 ? response ** 3 : (116 * response - 16) / LINE_SLOPE;
}

/** Hue of a neutral is 0. */
export function lchFromLab([lightness, a, b]: Lab): Lch {
  const degrees = (Math.atan2(b, a) * 180) / Math.PI;
  return [lightness, Math.hypot(a, b), degrees < 0 ? degrees + 360 : degrees];
}

/** Hue in degrees, any turn; chroma from 0. */
export function labFromLch([lightness, chroma, hueDegrees]: Lch): Lab {
  const hue = (hueDegrees * Math.PI) / 180;
  return [lightness, chroma * Math.cos(hue), chroma * Math.sin(hue)];
}

/** CIELAB (D65) of linear sRGB. */
export function labFromLinear(rgb: LinearRgb): Lab {
  return labFromXyz(xyzFromLinear(rgb));
}

/** Linear sRGB of CIELAB (D65); outside the gamut its channels leave 0 to 1. */
export function linearFromLab(lab: Lab): LinearRgb {
  return linearFromXyz(xyzFromLab(lab));
}

/** CIELAB (D65) of "#rgb" or "#rrggbb"; null where the text is no such code. */
export function labFromHex(hex: string): Lab | null {
  const linear = parseHex(hex);
  return linear && labFromLinear(linear);
}

/** The nearest "#rrggbb", clipped to the gamut channel by channel. */
export function hexFromLab(lab: Lab): string {
  return hexFromLinear(linearFromLab(lab));
}
