/** The same colours to an eye that lacks, or half lacks, one kind of cone. */
import { assert } from "../base/assert.ts";
import { transform, type Matrix3 } from "../base/matrix3.ts";
import { labFromLinear, linearFromLab, type Lab } from "../colour/lab.ts";
import type { LinearRgb } from "../colour/srgb.ts";
import type { Raster } from "../raster/raster.ts";
import { MACHADO_2009 } from "./data/machado2009.ts";

export type Deficiency = "protan" | "deutan" | "tritan";

/**
 * The matrix on linear sRGB that shows an ordinary eye what a colour-deficient one sees.
 * @param severity 0 (ordinary) to 1 (the cone is missing)
 * Source: Machado, Oliveira, Fernandes (2009) IEEE TVCG 15(6):1291–1298; linear between their tenths of severity.
 * Limits: tritan is the least reliable of the three.
 */
export function deficiencyMatrix(deficiency: Deficiency, severity: number): Matrix3 {
  assert(severity >= 0 && severity <= 1, `severity ${severity}`);
  const steps = MACHADO_2009[deficiency];
  const place = severity * (steps.length - 1);
  const lower = Math.min(Math.floor(place), steps.length - 2);
  const part = place - lower;
  const a = steps[lower]!;
  const b = steps[lower + 1]!;
  const at = (cell: number): number => a[cell]! + (b[cell]! - a[cell]!) * part;
  return [at(0), at(1), at(2), at(3), at(4), at(5), at(6), at(7), at(8)];
}

/** A colour as seen so, clipped to 0 … 1. `severity` 0 to 1. */
export function deficientColour(linear: LinearRgb, deficiency: Deficiency, severity: number): LinearRgb {
  const [red, green, blue] = transform(deficiencyMatrix(deficiency, severity), linear);
  return [clip(red), clip(green), clip(blue)];
}

/** The same in Lab (D65, 2°): a colour outside sRGB is seen as the matrix has it, clipped afterwards. */
export const deficientLab = (lab: Lab, deficiency: Deficiency, severity: number): Lab =>
  labFromLinear(deficientColour(linearFromLab(lab), deficiency, severity));

/** A picture as seen so, clipped to 0 … 1. `severity` 0 to 1. */
export function deficientRaster(raster: Raster, deficiency: Deficiency, severity: number): Raster {
  const [m0, m1, m2, m3, m4, m5, m6, m7, m8] = deficiencyMatrix(deficiency, severity);
  const data = new Float32Array(raster.data.length);
  for (let at = 0; at < data.length; at += 3) {
    const red = raster.data[at]!;
    const green = raster.data[at + 1]!;
    const blue = raster.data[at + 2]!;
    data[at] = clip(m0 * red + m1 * green + m2 * blue);
    data[at + 1] = clip(m3 * red + m4 * green + m5 * blue);
    data[at + 2] = clip(m6 * red + m7 * green + m8 * blue);
  }
  return { ...raster, data };
}

const clip = (light: number): number => Math.min(1, Math.max(0, light));
