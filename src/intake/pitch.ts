/** How far apart the borders between stitches are, from the steps summed along one axis of a picture. */

export interface Pitch {
  /** Pixels from border to border, not always a whole number. */
  readonly pitch: number;
  /** Pixels within which the steps at a border lie: about the thickness of the lines. */
  readonly spread: number;
  /** Where a border is, in pixels from the picture's edge. */
  readonly phase: number;
  /** The part of all steps that lies at borders, 0 to 1. */
  readonly explained: number;
}

/**
 * The pitch of a profile, or null where nothing recurs. Candidates are the peaks of the profile's spectrum; the profile
 * is then folded at each, and the one is taken whose steps gather most beyond what an even spread would put into the same
 * part of the pitch: a multiple of the true pitch gathers less, a fraction of it needs a larger part.
 */
export function findPitch(profile: Float64Array): Pitch | null {
  if (profile.every((steps) => steps === 0)) return null;
  let best: Pitch | null = null;
  let most = LEAST_LIFT;
  for (const pitch of candidates(profile)) {
    const { lift, ...rest } = fold(profile, pitch);
    // Of two alike the longer pitch is kept, which the order of candidates sees to.
    if (lift > most + 0.005) {
      best = { pitch, ...rest };
      most = lift;
    }
  }
  return best;
}

/** Pitches at the peaks of the spectrum, with their multiples, longest first. */
function candidates(heights: Float64Array): number[] {
  const length = heights.length;
  let size = 1024;
  while (size < length * OVERSAMPLING) size *= 2;
  const real = new Float64Array(size);
  real.set(heights);
  const imaginary = new Float64Array(size);
  transform(real, imaginary);
  const power = (index: number): number => real[index]! ** 2 + imaginary[index]! ** 2;
  const peaks: { index: number; power: number }[] = [];
  for (let index = Math.max(2, Math.floor((size / length) * 1.5)); index <= size / 2; index++) {
    const here = power(index);
    if (here >= power(index - 1) && here >= power(index + 1)) peaks.push({ index, power: here });
  }
  peaks.sort((one, other) => other.power - one.power);
  const pitches = new Set<number>();
  for (const { index } of peaks.slice(0, PEAKS)) {
    const exact = refined(heights, size / index);
    for (const multiple of [1, 2, 3, 4, 5, 6]) {
      const pitch = nearlyWhole(exact * multiple, length);
      if (pitch <= length / 2) pitches.add(Math.round(pitch * 1000) / 1000);
    }
  }
  return [...pitches].sort((one, other) => other - one);
}

/** The pitch near a candidate at which the steps are most in phase, over the first harmonics. */
function refined(heights: Float64Array, candidate: number): number {
  let pitch = candidate;
  // A change of pitch that moves the last border by half of its spread is the finest that matters.
  let step = (candidate * candidate) / heights.length / 4;
  for (let round = 0; round < 6; round++, step /= 2) {
    const options = [pitch - step, pitch, pitch + step].filter((option) => option > 1.5);
    const scores = options.map((option) => coherence(heights, option));
    pitch = options[scores.indexOf(Math.max(...scores))]!;
  }
  return pitch;
}

/** Drawn pictures mostly have cells of whole pixels: such a pitch is taken where it makes no difference over the picture. */
function nearlyWhole(pitch: number, length: number): number {
  const whole = Math.round(pitch);
  return Math.abs(pitch - whole) * length < pitch * 0.7 ? whole : pitch;
}

function coherence(heights: Float64Array, pitch: number): number {
  let sum = 0;
  for (const harmonic of [1, 2]) {
    // A pointer turned by one step at a time, which is quicker than a cosine for every pixel.
    const turn = (2 * Math.PI * harmonic) / pitch;
    const [stepReal, stepImaginary] = [Math.cos(turn), Math.sin(turn)];
    let [pointerReal, pointerImaginary] = [1, 0];
    let [real, imaginary] = [0, 0];
    for (let x = 0; x < heights.length; x++) {
      real += heights[x]! * pointerReal;
      imaginary += heights[x]! * pointerImaginary;
      const next = pointerReal * stepReal - pointerImaginary * stepImaginary;
      pointerImaginary = pointerReal * stepImaginary + pointerImaginary * stepReal;
      pointerReal = next;
    }
    sum += Math.hypot(real, imaginary);
  }
  return sum;
}

/** The window of the pitch whose part of the steps is most above its part of the pitch, and its middle. */
function fold(heights: Float64Array, pitch: number): Omit<Pitch, "pitch"> & { lift: number } {
  const bins = Math.max(2, Math.round(pitch * BINS_PER_PIXEL));
  const folded = new Float64Array(bins);
  let total = 0;
  for (let x = 0; x < heights.length; x++) {
    if (heights[x] === 0) continue;
    total += heights[x]!;
    const part = x / pitch;
    const bin = Math.floor((part - Math.floor(part)) * bins);
    // A step is as wide as a pixel, so that no border is narrower.
    for (let wide = 0; wide < BINS_PER_PIXEL; wide++) folded[(bin + wide) % bins]! += heights[x]! / BINS_PER_PIXEL;
  }
  // The window of the largest sum on the ring, by Kadane's scan over two turns.
  let best = { sum: 0, start: 0, length: 0 };
  let sum = 0;
  let start = 0;
  for (let at = 0; at < 2 * bins; at++) {
    if (sum <= 0 || at - start >= bins) {
      sum = 0;
      start = at;
    }
    sum += folded[at % bins]! / total - 1 / bins;
    if (sum > best.sum) best = { sum, start, length: at - start + 1 };
  }
  const spread = (best.length / bins) * pitch;
  const middle = ((best.start + best.length / 2) / bins) * pitch - 0.5;
  const phase = ((middle % pitch) + pitch) % pitch;
  return { spread, phase, explained: Math.min(1, best.sum + best.length / bins), lift: best.sum };
}

/**
 * A chart whose figures are mostly two stitches wide has few steps at the odd borders, but has them. Where steps are left
 * between the borders of the pitch found, and stand at an even division of it, that division; else null.
 * The profile is of the chart alone.
 */
export function dividedPitch(profile: Float64Array, found: Pitch): Pitch | null {
  const reach = found.spread / 2 + 1;
  const near = Math.max(0.8, reach - 0.7);
  const atDivision = new Map<number, number>();
  let between = 0;
  for (let x = 0; x < profile.length; x++) {
    const turn = (x - found.phase) / found.pitch;
    const part = turn - Math.floor(turn);
    if (profile[x] === 0 || Math.min(part, 1 - part) * found.pitch <= reach) continue;
    between += profile[x]!;
    for (let parts = 2; parts <= MOST_PARTS; parts++) {
      const away = Math.abs(part * parts - Math.round(part * parts)) * (found.pitch / parts);
      if (away <= near) atDivision.set(parts, (atDivision.get(parts) ?? 0) + profile[x]!);
    }
  }
  if (between === 0) return null;
  for (let parts = 2; parts <= MOST_PARTS; parts++) {
    const pitch = found.pitch / parts;
    if (pitch < 2) break;
    // By chance the places of the dividing borders would hold this much of what lies between.
    const chance = ((parts - 1) * 2 * near) / Math.max(1, found.pitch - 2 * reach);
    if ((atDivision.get(parts) ?? 0) / between > Math.min(0.95, 0.6 + 0.5 * chance)) {
      return { ...found, pitch, phase: found.phase % pitch };
    }
  }
  return null;
}

/** An in-place fast Fourier transform of a power of two of numbers (Cooley and Tukey 1965). */
function transform(real: Float64Array, imaginary: Float64Array): void {
  const size = real.length;
  for (let i = 1, j = 0; i < size; i++) {
    let bit = size >> 1;
    for (; j & bit; bit >>= 1) j ^= bit;
    j ^= bit;
    if (i < j) [real[i], real[j]] = [real[j]!, real[i]!];
  }
  for (let span = 2; span <= size; span *= 2) {
    const half = span / 2;
    for (let k = 0; k < half; k++) {
      const cosine = Math.cos((-2 * Math.PI * k) / span);
      const sine = Math.sin((-2 * Math.PI * k) / span);
      for (let i = k; i < size; i += span) {
        const j = i + half;
        const turnedReal = real[j]! * cosine - imaginary[j]! * sine;
        const turnedImaginary = real[j]! * sine + imaginary[j]! * cosine;
        real[j] = real[i]! - turnedReal;
        imaginary[j] = imaginary[i]! - turnedImaginary;
        real[i]! += turnedReal;
        imaginary[i]! += turnedImaginary;
      }
    }
  }
}

/** Part of the steps beyond an even spread: less is nothing that recurs. Our choice. */
const LEAST_LIFT = 0.1;
const MOST_PARTS = 6;
const BINS_PER_PIXEL = 4;
const OVERSAMPLING = 4;
const PEAKS = 24;
