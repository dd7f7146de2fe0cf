/** OKLab, for pictures and ramps where hue must hold while lightness changes. */
import { inverse, transform, type Matrix3, type Vector3 } from "../base/matrix3.ts";
import type { LinearRgb } from "./srgb.ts";
import { linearFromXyz, xyzFromLinear, type Xyz } from "./xyz.ts";

/** L 0 (black) to 1 (white), a and b about −0.4 to 0.4 inside sRGB. */
export type Oklab = Vector3;

/** Source: B. Ottosson, "A perceptual color space for image processing", 2020: M1, XYZ (D65) to cone-like responses. */
const RESPONSES_FROM_XYZ: Matrix3 = [
  0.8189330101, 0.3618667424, -0.1288597137, 0.0329845436, 0.9293118715, 0.0361456387, 0.0482003018, 0.2643662691,
  0.633851707,
];
const XYZ_FROM_RESPONSES = inverse(RESPONSES_FROM_XYZ);

/** Source: the same, M2, cube roots of the responses to L, a, b. */
const OKLAB_FROM_ROOTS: Matrix3 = [
  0.2104542553, 0.793617785, -0.0040720468, 1.9779984951, -2.428592205, 0.4505937099, 0.0259040371, 0.7827717662,
  -0.808675766,
];
const ROOTS_FROM_OKLAB = inverse(OKLAB_FROM_ROOTS);

/** OKLab of XYZ (D65, Y of white 1). */
export function oklabFromXyz(xyz: Xyz): Oklab {
  const [long, medium, short] = transform(RESPONSES_FROM_XYZ, xyz);
  return transform(OKLAB_FROM_ROOTS, [Math.cbrt(long), Math.cbrt(medium), Math.cbrt(short)]);
}

/** XYZ (D65) of OKLab: the inverse of `oklabFromXyz`. */
export function xyzFromOklab(oklab: Oklab): Xyz {
  const [long, medium, short] = transform(ROOTS_FROM_OKLAB, oklab);
  return transform(XYZ_FROM_RESPONSES, [long ** 3, medium ** 3, short ** 3]);
}

/** Linear sRGB in, 0 to 1 within the gamut; lightness 1 is white. */
export function oklabFromLinear(rgb: LinearRgb): Oklab {
  return oklabFromXyz(xyzFromLinear(rgb));
}

/** Linear sRGB, not clipped to the gamut. */
export function linearFromOklab(oklab: Oklab): LinearRgb {
  return linearFromXyz(xyzFromOklab(oklab));
}
