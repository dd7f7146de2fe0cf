/** The ModelFest stimuli that can be drawn from their published definitions: contrast over the field, in degrees. */

/**
 * One stimulus of unit peak contrast at (x, y) degrees from the middle. Definitions: Carney et al. 1999 (SPIE 3644:542) and Watson
 * & Ahumada 2005 (Journal of Vision 5(9):6), in part from memory: waves of 15 to 21 run along y, and the five Gabors of 33 and 34
 * stand five standard deviations apart. 35 is one certain sample of noise and 43 a photograph: neither can be drawn from words. 32 is drawn two pixels apart, a guess.
 */
export interface Stimulus {
  readonly n: number;
  readonly contrast: (x: number, y: number) => number;
  /** What is left of the contrast by where it is: 1 in the middle of its window, nothing far outside. */
  readonly window: (x: number, y: number) => number;
}

/** Pixels to the degree, and pixels across the field. */
export const PIXELS_PER_DEGREE = 120;
export const FIELD_PIXELS = 256;

const gaussian =
  (sdX: number, sdY = sdX) =>
  (x: number, y: number) =>
    Math.exp(-((x / sdX) ** 2 + (y / sdY) ** 2) / 2);
const ARC_MINUTE = 1 / 60;

type Shape = (x: number, y: number) => number;

/** A cosine of so many cycles per degree across a direction. */
const wave =
  (cycles: number, degrees = 0): Shape =>
  (x, y) => {
    const turn = (degrees * Math.PI) / 180;
    return Math.cos(2 * Math.PI * cycles * (x * Math.cos(turn) + y * Math.sin(turn)));
  };
const within = (n: number, window: Shape, carrier: Shape): Stimulus => ({
  n,
  window,
  contrast: (x, y) => window(x, y) * carrier(x, y),
});
const mean =
  (one: Shape, other: Shape): Shape =>
  (x, y) =>
    (one(x, y) + other(x, y)) / 2;
const even: Shape = () => 1;

/** Half a pixel: lines are one pixel wide. */
const HALF = 0.5 / PIXELS_PER_DEGREE;
const line =
  (at: number): Shape =>
  (x) =>
    Math.abs(x - at) < HALF ? 1 : 0;

/** Five Gabors in a column, five standard deviations apart; the window is where they are. */
function five(n: number, signs: readonly number[]): Stimulus {
  const sd = 0.07;
  const places = [-2, -1, 0, 1, 2].map((step) => 5 * sd * step);
  const one = gaussian(sd);
  const sum =
    (weights: readonly number[]): Shape =>
    (x, y) =>
      places.reduce((all, place, at) => all + weights[at]! * one(x, y - place), 0);
  const carrier = wave(8);
  return { n, window: sum([1, 1, 1, 1, 1]), contrast: (x, y) => sum(signs)(x, y) * carrier(x, y) };
}

/** Bessel function of order nought, from its integral (1/π) ∫ cos(z sin t) dt. */
function bessel(z: number): number {
  const steps = 64 + Math.ceil(2 * Math.abs(z));
  let sum = 0;
  for (let step = 0; step < steps; step++) sum += Math.cos(z * Math.sin((Math.PI * (step + 0.5)) / steps));
  return sum / steps;
}

const WIDE = gaussian(0.5);
const SMALL = gaussian(0.14);
const disk: Shape = (x, y) => (Math.hypot(x, y) <= 0.125 ? 1 : 0);

export const STIMULI: readonly Stimulus[] = [
  ...[1.12, 2, 2.83, 4, 5.66, 8, 11.3, 16, 22.6, 30].map((cycles, at) => within(at + 1, WIDE, wave(cycles))),
  within(11, gaussian(0.28), wave(2)),
  within(12, SMALL, wave(4)),
  within(13, gaussian(0.07), wave(8)),
  within(14, gaussian(0.035), wave(16)),
  within(15, gaussian(0.5, 0.28), wave(4, 90)),
  within(16, gaussian(0.5, 0.14), wave(8, 90)),
  within(17, gaussian(0.5, 0.07), wave(16, 90)),
  within(18, gaussian(0.28, 0.14), wave(4, 90)),
  within(19, gaussian(0.5, 0.14), wave(4, 90)),
  within(20, gaussian(0.14, 0.28), wave(4, 90)),
  within(21, gaussian(0.14, 0.5), wave(4, 90)),
  within(22, WIDE, mean(wave(2), wave(2.83))),
  within(23, WIDE, mean(wave(2), wave(4))),
  within(24, WIDE, mean(wave(4), wave(5.66))),
  within(25, WIDE, mean(wave(4), wave(8))),
  ...[30, 8.43, 2.106, 1.05].map((minutes, at) => within(26 + at, gaussian(minutes * ARC_MINUTE), even)),
  within(30, WIDE, (x) => Math.sign(x)),
  within(31, (x, y) => line(0)(x, y) * WIDE(0, y), even),
  within(32, (x, y) => (line(HALF * 2)(x, y) + line(-HALF * 2)(x, y)) * WIDE(x, y), Math.sign),
  five(33, [1, 1, 1, 1, 1]),
  five(34, [1, -1, 1, -1, 1]),
  within(36, SMALL, wave(4, 45)),
  within(37, SMALL, wave(4)),
  within(38, SMALL, mean(wave(4), wave(4, 90))),
  within(39, SMALL, mean(wave(4, 45), wave(4, 135))),
  { n: 40, window: disk, contrast: disk },
  within(41, WIDE, (x, y) => bessel(2 * Math.PI * 4 * Math.hypot(x, y))),
  // Squares whose diagonals are the periods of the fundamental, at 45 degrees.
  within(42, WIDE, (x, y) => Math.sign(Math.cos(2 * Math.PI * 4 * Math.SQRT1_2 * x) * Math.cos(2 * Math.PI * 4 * Math.SQRT1_2 * y))), // prettier-ignore
];
