/** How strong a cloth's own texture is, measured on a picture of plain cloth: what replaces the usual wool in `masking.ts`. */
import type { Outcome } from "../base/problem.ts";
import { xyzFromLinear } from "../colour/xyz.ts";
import { crop, type Raster } from "../raster/raster.ts";
import { shrink } from "../raster/resample.ts";

export interface TextureContrast {
  /** c_t: contrast in the octave about one cycle per stitch. */
  readonly stitch: number;
  /** c_f: contrast an octave of the broadband rest, the mean power of the octaves below the stitch's. */
  readonly floor: number;
  /** Contrast octave by octave, coarsest first. */
  readonly octaves: readonly Octave[];
}

export interface Octave {
  /** Where it begins, in cycles per stitch across and per row up; it ends at twice that. */
  readonly from: number;
  /** Root mean square of luminance over its mean. */
  readonly contrast: number;
}

/**
 * The texture contrasts of plain cloth, as in vision.md B7: root mean squares of luminance over its mean, in linear light. The
 * stitch's octave is taken from 3/4 to 3/2 cycles per stitch and row, so that the waves of the stitches across (1), of the rows
 * (1) and of both (√2) lie well inside it. Finer octaves hold the stitch's own harmonics, which are no broadband floor; the
 * two coarser ones hold the unevenness that patterns lie in. The picture is faded out to its borders (Hann), so it need not hold whole
 * stitches.
 * @param picture plain cloth and nothing else, square on, in even light
 * @param stitchPx one stitch in pixels, w × h; at least 4 each, and at least 16 stitches each way on the picture
 * @returns a problem and no value where the picture is too small, too coarse or black
 * Source: our choice of what B7's c_t and c_f are measured as; no published contrast of knit texture is known.
 */
export function textureContrast(picture: Raster, stitchPx: StitchPixels): Outcome<TextureContrast> {
  const refused = problemWith(picture, stitchPx);
  const looked = refused ? null : middleOf(picture, stitchPx);
  const faded = looked && fadedContrast(looked.picture);
  if (!faded) {
    const got = refused ?? { expected: "some light", got: "black" };
    return { value: null, problems: [{ where: "the picture of plain cloth", ...got, severity: "fault" }] };
  }
  const least = Math.min(looked.stitchPx.width, looked.stitchPx.height);
  const begins = OCTAVES.filter((from) => (2 * from) / least <= NYQUIST);
  const powers = octavePowers(faded, looked.stitchPx, begins);
  const below = powers.slice(0, begins.indexOf(STITCH));
  return {
    value: {
      stitch: Math.sqrt(powers[begins.indexOf(STITCH)]!),
      floor: Math.sqrt(below.reduce((sum, power) => sum + power, 0) / below.length),
      octaves: begins.map((from, at) => ({ from, contrast: Math.sqrt(powers[at]!) })),
    },
    problems: [],
  };
}

/** Where the stitch's octave begins, cycles per stitch. */
const STITCH = 0.75;

/** Where each octave begins. Coarser waves than five stitches are taken to be the lamp's; our choice. */
const OCTAVES: readonly number[] = [STITCH / 4, STITCH / 2, STITCH, 2 * STITCH];

/** Cycles per pixel. */
const NYQUIST = 0.5;

/** Fewer pixels cannot hold the stitch's octave; on fewer stitches the fading spoils the coarsest. */
const LEAST = { pixels: 4, stitches: 16 };

function problemWith({ width, height }: Raster, stitchPx: StitchPixels): { expected: string; got: string } | null {
  const least = Math.min(stitchPx.width, stitchPx.height);
  if (!(least >= LEAST.pixels))
    return { expected: `stitches of at least ${LEAST.pixels} pixels`, got: `${Number(least.toPrecision(2))}` };
  const stitches = Math.floor(Math.min(width / stitchPx.width, height / stitchPx.height));
  if (stitches < LEAST.stitches)
    return { expected: `at least ${LEAST.stitches} stitches each way`, got: `${stitches}` };
  return null;
}

interface StitchPixels {
  readonly width: number;
  readonly height: number;
}

/** No more of a large photograph than tells: its middle, at no more pixels to the stitch than lose 2 % of the stitch's octave. */
const ENOUGH = { pixels: 16, stitches: 32 };

function middleOf(picture: Raster, stitchPx: StitchPixels): { picture: Raster; stitchPx: StitchPixels } {
  const width = Math.min(picture.width, Math.ceil(ENOUGH.stitches * stitchPx.width));
  const height = Math.min(picture.height, Math.ceil(ENOUGH.stitches * stitchPx.height));
  const [x, y] = [Math.floor((picture.width - width) / 2), Math.floor((picture.height - height) / 2)];
  const middle = crop(picture, { x, y, width, height });
  const part = ENOUGH.pixels / Math.max(stitchPx.width, stitchPx.height);
  if (part >= 1) return { picture: middle, stitchPx };
  const small = shrink(middle, { width: Math.round(width * part), height: Math.round(height * part) });
  return {
    picture: small,
    stitchPx: { width: (stitchPx.width * small.width) / width, height: (stitchPx.height * small.height) / height },
  };
}

interface Faded {
  readonly width: number;
  readonly height: number;
  /** Luminance over its mean, less 1, times the window. */
  readonly data: Float64Array;
  /** Sum of the squares of the window. */
  readonly weight: number;
}

function fadedContrast({ width, height, data }: Raster): Faded | null {
  const across = hann(width);
  const down = hann(height);
  const luminance = new Float64Array(width * height);
  let sum = 0;
  let windows = 0;
  let weight = 0;
  for (let at = 0; at < luminance.length; at++) {
    const window = across[at % width]! * down[Math.floor(at / width)]!;
    luminance[at] = xyzFromLinear([data[at * 3]!, data[at * 3 + 1]!, data[at * 3 + 2]!])[1];
    sum += window * luminance[at]!;
    windows += window;
    weight += window * window;
  }
  const mean = sum / windows;
  if (!(mean > 0)) return null;
  const faded = luminance.map((light, at) => (light / mean - 1) * across[at % width]! * down[Math.floor(at / width)]!);
  return { width, height, data: faded, weight };
}

const hann = (count: number): Float64Array =>
  Float64Array.from({ length: count }, (_, at) => Math.sin((Math.PI * (at + 0.5)) / count) ** 2);

/** Power of the contrast in each octave: a discrete Fourier transform of no more frequencies than they hold. */
function octavePowers(
  { width, height, data, weight }: Faded,
  stitchPx: StitchPixels,
  begins: readonly number[],
): number[] {
  // Cycles per stitch and per row of one turn over the picture.
  const [unitX, unitY] = [stitchPx.width / width, stitchPx.height / height];
  const finest = 2 * begins.at(-1)!;
  const across = Math.min(Math.floor(width / 2), Math.floor(finest / unitX));
  const up = Math.min(Math.floor((height - 1) / 2), Math.floor(finest / unitY));
  const powers = begins.map(() => 0);
  const turnX = turns(width);
  const turnY = turns(height);
  const real = new Float64Array(height);
  const imaginary = new Float64Array(height);
  for (let kx = 0; kx <= across; kx++) {
    for (let y = 0; y < height; y++) {
      let re = 0;
      let im = 0;
      for (let at = y * width, end = at + width, turn = 0; at < end; at++) {
        re += data[at]! * turnX.cos[turn]!;
        im -= data[at]! * turnX.sin[turn]!;
        turn += kx;
        if (turn >= width) turn -= width;
      }
      real[y] = re;
      imaginary[y] = im;
    }
    for (let ky = -up; ky <= up; ky++) {
      const frequency = Math.hypot(kx * unitX, ky * unitY);
      const octave = begins.findIndex((from) => frequency >= from && frequency < 2 * from);
      if (octave < 0) continue;
      let re = 0;
      let im = 0;
      const step = (ky + height) % height;
      for (let y = 0, turn = 0; y < height; y++) {
        const cos = turnY.cos[turn]!;
        const sin = turnY.sin[turn]!;
        re += real[y]! * cos + imaginary[y]! * sin;
        im += imaginary[y]! * cos - real[y]! * sin;
        turn += step;
        if (turn >= height) turn -= height;
      }
      // Columns left of the middle stand for their mirror images on the right.
      const mirrored = kx === 0 || 2 * kx === width ? 1 : 2;
      powers[octave]! += (mirrored * (re * re + im * im)) / (width * height * weight);
    }
  }
  return powers;
}

const turns = (count: number): { cos: Float64Array; sin: Float64Array } => ({
  cos: Float64Array.from({ length: count }, (_, at) => Math.cos((2 * Math.PI * at) / count)),
  sin: Float64Array.from({ length: count }, (_, at) => Math.sin((2 * Math.PI * at) / count)),
});
