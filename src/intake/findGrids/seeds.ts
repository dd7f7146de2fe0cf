/** First guesses of a grid: where a part of the picture has lines that recur in two directions. */
import type { EdgeField } from "./edgeField.ts";
import { transformSquare } from "./fourier.ts";
import { foldedLift } from "./fold.ts";
import type { Frame } from "./frame.ts";

export interface Seed {
  /** Crossing and steps of the guessed grid, in pixels of the picture. */
  readonly frame: Frame;
  /** How clearly it recurs, 0 to 1. */
  readonly clearness: number;
}

/** Guesses in a square of the field of `side` pixels (a power of two) around a place of the field, the clearest first. */
export function seedsAt(
  field: EdgeField,
  centreX: number,
  centreY: number,
  side: number,
  manner: "all edges" | "long lines",
): Seed[] {
  const { width, height, cosine, sine, scale } = field;
  const left = Math.round(centreX - side / 2);
  const top = Math.round(centreY - side / 2);
  const angle = mainAngle(field, left, top, side);
  if (angle === null) return [];
  const [turnCosine, turnSine] = [Math.cos(2 * angle), Math.sin(2 * angle)];
  const upright = new Float64Array(side * side);
  const level = new Float64Array(side * side);
  const window = Float64Array.from(
    { length: side },
    (_, at) => 0.5 - 0.5 * Math.cos((2 * Math.PI * (at + 0.5)) / side),
  );
  const sums = [0, 0];
  let weights = 0;
  for (let row = 0; row < side; row++) {
    const y = top + row;
    if (y < 0 || y >= height) continue;
    for (let column = 0; column < side; column++) {
      const x = left + column;
      if (x < 0 || x >= width) continue;
      const at = y * width + x;
      const along = cosine[at]! * turnCosine + sine[at]! * turnSine;
      const weight = window[row]! * window[column]!;
      weights += weight;
      if (along > 0) upright[row * side + column] = along;
      else level[row * side + column] = -along;
    }
  }
  if (manner === "long lines") {
    keepLong(upright, side, -Math.sin(angle), Math.cos(angle));
    keepLong(level, side, Math.cos(angle), Math.sin(angle));
  }
  for (let row = 0; row < side; row++)
    for (let column = 0; column < side; column++) {
      const at = row * side + column;
      const weight = window[row]! * window[column]!;
      sums[0]! += upright[at]! *= weight;
      sums[1]! += level[at]! *= weight;
    }
  const plain = [upright.slice(), level.slice()] as const;
  return pairsOf();

  function pairsOf(): Seed[] {
    if (weights === 0 || sums[0]! === 0 || sums[1]! === 0) return [];
    const means = [sums[0]! / weights, sums[1]! / weights] as const;
    for (let row = 0; row < side; row++)
      for (let column = 0; column < side; column++) {
        const [x, y] = [left + column, top + row];
        if (x < 0 || x >= width || y < 0 || y >= height) continue;
        const weight = window[row]! * window[column]!;
        upright[row * side + column]! -= means[0] * weight;
        level[row * side + column]! -= means[1] * weight;
      }
    transformSquare(upright, level, side);
    const spectrum: Spectrum = { real: upright, imaginary: level, side };
    const across = wavesOf(spectrum, 0, angle!, sums[0]!).map((wave) => ({ ...wave, lift: liftOf(wave, 1) }));
    const down = wavesOf(spectrum, 1, angle! + Math.PI / 2, sums[1]!).map((wave) => ({
      ...wave,
      lift: liftOf(wave, -1),
    }));
    for (const waves of [across, down]) {
      waves.sort((one, other) => other.lift - one.lift);
      waves.length = Math.min(waves.length, KEPT_WAVES);
    }
    const seeds: Seed[] = [];
    for (const one of across)
      for (const other of down) {
        const stretch = Math.hypot(...one.wave) / Math.hypot(...other.wave);
        if (stretch > MOST_STRETCH || stretch < 1 / MOST_STRETCH) continue;
        const frame = frameOf(one, other);
        if (frame) seeds.push({ frame, clearness: Math.min(one.lift, other.lift) });
      }
    return seeds.sort((one, other) => other.clearness - one.clearness);
  }

  /** Folded to one turn, edges gather at a true wave's crests; the middle of the square is enough where it holds some turns. */
  function liftOf({ wave, phase }: Wave, sign: 1 | -1): number {
    const turns = Math.hypot(...wave) * side;
    const reach = Math.min(side / 2, Math.max(side / 4, (side * 3) / turns));
    const bins = new Float64Array(BINS);
    for (let row = Math.floor(side / 2 - reach); row < side / 2 + reach; row++) {
      const y = top + row;
      if (y < 0 || y >= height) continue;
      for (let column = Math.floor(side / 2 - reach); column < side / 2 + reach; column++) {
        const x = left + column;
        if (x < 0 || x >= width) continue;
        const strength = plain[sign === 1 ? 0 : 1][row * side + column]!;
        if (strength <= 0) continue;
        const turn = column * wave[0] + row * wave[1] + phase;
        bins[Math.floor((turn - Math.floor(turn)) * BINS)]! += strength;
      }
    }
    return foldedLift(bins);
  }

  function frameOf(one: Wave, other: Wave): Frame | null {
    // The steps are the basis that is dual to the two waves.
    const [[a, b], [c, d]] = [one.wave, other.wave];
    const determinant = a * d - b * c;
    if (Math.abs(determinant) < 0.5 * Math.hypot(a, b) * Math.hypot(c, d)) return null;
    const along: [number, number] = [d / determinant, -c / determinant];
    const down: [number, number] = [-b / determinant, a / determinant];
    // Near the middle of the square, where both phases are whole turns; a pixel's middle is at one half.
    const nearest = (wave: Wave): number => {
      const turns = (wave.wave[0] + wave.wave[1]) * (side / 2) + wave.phase;
      return Math.round(turns) - wave.phase;
    };
    const [p, q] = [nearest(one), nearest(other)];
    const x = along[0] * p + down[0] * q + left + 0.5;
    const y = along[1] * p + down[1] * q + top + 0.5;
    return {
      x: x * scale,
      y: y * scale,
      along: [along[0] * scale, along[1] * scale],
      down: [down[0] * scale, down[1] * scale],
    };
  }
}

/**
 * Leaves of edges only what goes on along a direction: the part of a stretch of it that has edges, squared, so that strokes of
 * signs fade and lines of a grid stay.
 */
function keepLong(edges: Float64Array, side: number, alongX: number, alongY: number): void {
  const steps = Array.from({ length: 2 * LONG + 1 }, (_, index) => (index - LONG) * LONG_STEP);
  const offsets = steps.map((step) => [Math.round(step * alongX), Math.round(step * alongY)] as const);
  const out = new Float64Array(edges.length);
  for (let y = 0; y < side; y++)
    for (let x = 0; x < side; x++) {
      if (edges[y * side + x] === 0) continue;
      let [sum, count] = [0, 0];
      for (const [dx, dy] of offsets) {
        const [px, py] = [x + dx, y + dy];
        if (px < 1 || py < 1 || px >= side - 1 || py >= side - 1) continue;
        count++;
        const at = py * side + px;
        // A pixel beside, as the direction is not known to the last part.
        const sideways = Math.abs(alongX) > Math.abs(alongY) ? side : 1;
        sum += Math.min(LONG_CAP, Math.max(edges[at]!, edges[at - sideways]!, edges[at + sideways]!));
      }
      if (count > 0) out[y * side + x] = (sum / (count * LONG_CAP)) ** 3;
    }
  edges.set(out);
}

/** Samples to each side, and pixels from one to the next; strengths above the cap count as it. */
const LONG = 12;
const LONG_STEP = 3;
const LONG_CAP = 0.5;

/** The direction across which the upright lines run, within 45° of level, from the mean of four times all angles. */
export function mainAngle(
  { width, height, cosine, sine }: EdgeField,
  left: number,
  top: number,
  side: number,
): number | null {
  let [real, imaginary] = [0, 0];
  for (let y = Math.max(0, top); y < Math.min(height, top + side); y++)
    for (let x = Math.max(0, left), at = y * width + x; x < Math.min(width, left + side); x++, at++) {
      const [c, s] = [cosine[at]!, sine[at]!];
      if (c === 0 && s === 0) continue;
      const strength = Math.hypot(c, s);
      real += (c * c - s * s) / strength;
      imaginary += (2 * c * s) / strength;
    }
  return real === 0 && imaginary === 0 ? null : Math.atan2(imaginary, real) / 4;
}

interface Spectrum {
  readonly real: Float64Array;
  readonly imaginary: Float64Array;
  readonly side: number;
}

interface Wave {
  /** Turns to the pixel, across and down. */
  readonly wave: readonly [number, number];
  /** Turns that the crests are before the square's first pixel's middle. */
  readonly phase: number;
  readonly clearness: number;
}

/** The strongest waves of the field of upright (0) or level (1) edges near an angle; two real fields share one transform. */
function wavesOf({ real, imaginary, side }: Spectrum, which: 0 | 1, angle: number, whole: number): Wave[] {
  const value = (u: number, v: number): [number, number] => {
    const here = ((v + side) % side) * side + ((u + side) % side);
    const there = ((side - v) % side) * side + ((side - u) % side);
    const [a, b, c, d] = [real[here]!, imaginary[here]!, real[there]!, imaginary[there]!];
    return which === 0 ? [(a + c) / 2, (b - d) / 2] : [(b + d) / 2, (c - a) / 2];
  };
  const [cosine, sine] = [Math.cos(angle), Math.sin(angle)];
  const most = Math.floor(side * HIGHEST);
  const power = new Map<number, number>();
  const powerAt = (u: number, v: number): number => {
    const key = (v + side) * 4 * side + u + side;
    let known = power.get(key);
    if (known === undefined) {
      const [a, b] = value(u, v);
      power.set(key, (known = Math.hypot(a, b)));
    }
    return known;
  };
  const waves: Wave[] = [];
  // Along the angle, one step of the spectrum at a time, and to both sides of it.
  const steep = Math.abs(sine) > Math.abs(cosine);
  for (let main = LOWEST; main <= most; main++) {
    const slope = steep ? cosine / sine : sine / cosine;
    const reach = Math.ceil(main * ASIDE) + 1;
    const middle = Math.round(main * slope);
    for (let side_ = middle - reach; side_ <= middle + reach; side_++) {
      const [u, v] = steep ? [side_, main] : [main, side_];
      const here = powerAt(u, v);
      if (here < LEAST_CLEARNESS * whole) continue;
      let isPeak = true;
      for (let dv = -1; isPeak && dv <= 1; dv++)
        for (let du = -1; isPeak && du <= 1; du++)
          if ((du !== 0 || dv !== 0) && powerAt(u + du, v + dv) > here) isPeak = false;
      if (!isPeak) continue;
      const between = (before: number, after: number): number => {
        const bend = before - 2 * here + after;
        return bend === 0 ? 0 : Math.max(-0.5, Math.min(0.5, (before - after) / (2 * bend)));
      };
      const wave = [
        (u + between(powerAt(u - 1, v), powerAt(u + 1, v))) / side,
        (v + between(powerAt(u, v - 1), powerAt(u, v + 1))) / side,
      ] as const;
      const [a, b] = value(u, v);
      // The bin's phase is right at the square's middle, whatever the fraction of the bin is.
      const atMiddle = Math.atan2(b, a) / (2 * Math.PI) + (u + v) / 2;
      const phase = atMiddle - ((wave[0] + wave[1]) * side) / 2;
      waves.push({ wave, phase, clearness: here / whole });
    }
  }
  waves.sort((one, other) => other.clearness - one.clearness);
  return waves.slice(0, MOST_WAVES);
}

/** Turns across the square; turns to the pixel. */
const LOWEST = 3;
const HIGHEST = 0.42;
/** The tangent of how far the lines may be from a right angle. */
const ASIDE = 0.2;
const LEAST_CLEARNESS = 0.06;
const MOST_WAVES = 8;
const KEPT_WAVES = 2;
const BINS = 24;
/** How many times wider than high a stitch may be, or higher than wide: knitted ones are 1 to 1.5. */
const MOST_STRETCH = 2.2;
