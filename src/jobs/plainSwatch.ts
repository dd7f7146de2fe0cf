/** A photograph of a plain swatch tells what her own knitting is like: how strong its texture is, and how much darker than its yarn. */
import type { Outcome, Problem } from "../base/problem.ts";
import { xyzFromLinear } from "../colour/xyz.ts";
import { clipBox, crop, meanColour, type Box, type Raster } from "../raster/raster.ts";
import { textureContrast, type Octave } from "../vision/textureContrast.ts";

export interface PlainSwatchQuestion {
  /** Plain cloth and nothing else, pixels; the whole picture where missing. */
  readonly area?: Box | undefined;
  /** Stitches across and rows up in that area. */
  readonly stitches: number;
  readonly rows: number;
  /** The same yarn, wound and in the same light, in the same picture. */
  readonly yarn?: Box | undefined;
}

export interface PlainSwatch {
  /** c_t and c_f of vision.md B7. */
  readonly texture: { readonly stitch: number; readonly floor: number };
  readonly octaves: readonly Octave[];
  /** k of vision.md E; null where no yarn was shown. */
  readonly factor: { readonly value: number; readonly low: number; readonly high: number } | null;
}

/**
 * Both numbers are ratios within one picture, so neither exposure nor the colour of the lamp comes into them; the camera's
 * tone curve does, and `low` and `high` of the factor allow for it.
 * @param picture square on and in even light, decoded to linear light
 * @returns a problem and no value where boxes lie outside, stitches are too small or too few, or nothing but black is there
 */
export function plainSwatch(picture: Raster, question: PlainSwatchQuestion): Outcome<PlainSwatch> {
  const { area = { x: 0, y: 0, width: picture.width, height: picture.height }, stitches, rows, yarn } = question;
  const outside = [
    ...outsideProblem(picture, area, "the area of plain cloth"),
    ...(yarn ? outsideProblem(picture, yarn, "the area of wound yarn") : []),
  ];
  if (outside.length > 0) return { value: null, problems: outside };
  const measured = textureContrast(crop(picture, area), { width: area.width / stitches, height: area.height / rows });
  if (!measured.value) return { value: null, problems: measured.problems };
  const { stitch, floor, octaves } = measured.value;
  const light = yarn ? lightOf(picture, yarn) : null;
  if (light !== null && !(light > 0))
    return { value: null, problems: [problem("the area of wound yarn", "some light", "black")] };
  return {
    value: {
      texture: { stitch, floor },
      octaves,
      factor: light === null ? null : factorOf(lightOf(picture, area) / light),
    },
    problems: measured.problems,
  };
}

/**
 * A camera's curve makes a power of a ratio, and a light falls off across a picture: powers from 0.8 to 1.25 and a twentieth of
 * uneven light. Our choice; both lie inside what phones were seen to do (vision.md F).
 */
const CURVE = 1.25;
const UNEVEN = 1.05;

function factorOf(value: number): NonNullable<PlainSwatch["factor"]> {
  const ends = [value ** CURVE, value ** (1 / CURVE)];
  return { value, low: Math.min(...ends) / UNEVEN, high: Math.max(...ends) * UNEVEN };
}

const lightOf = (picture: Raster, box: Box): number => xyzFromLinear(meanColour(picture, box))[1];

function outsideProblem(picture: Raster, box: Box, where: string): Problem[] {
  const inside = clipBox(picture, box);
  if (box.width > 0 && box.height > 0 && inside.width === box.width && inside.height === box.height) return [];
  const { x, y, width, height } = box;
  return [problem(where, `a box within ${picture.width} × ${picture.height} pixels`, `${x},${y},${width},${height}`)];
}

const problem = (where: string, expected: string, got: string): Problem => ({
  where,
  expected,
  got,
  severity: "fault",
});
