/** Where a picture's colours change: the steps between neighbouring pixels, summed into a profile along each axis. */
import type { Pixels } from "../raster/pixels.ts";
import type { Box } from "../raster/raster.ts";

export interface Edges {
  readonly width: number;
  readonly height: number;
  /** Encoded RGBA bytes: steps of encoded light are about as large as they look. */
  readonly bytes: Uint8ClampedArray;
  /** Steps of fewer bytes than this are taken for noise. */
  readonly threshold: number;
  /** The colour of the page, encoded; null where the picture's rim has no one colour. */
  readonly paper: readonly [number, number, number] | null;
  /**
   * Steps between column x − 1 and x: the root of the sum of the squares of the unbroken runs of steps, in pixels, so
   * that a border as long as a chart speaks louder than many strokes of letters. `across[0]` is 0.
   */
  readonly across: Float64Array;
  /** Steps between row y − 1 and y, likewise. */
  readonly down: Float64Array;
}

export function edgesOf({ width, height, rgba }: Pixels): Edges {
  return edgesOfBytes(rgba, width, height, paperOf(rgba, width, height));
}

/** A part of the picture, with its own threshold and profiles, on the same paper. */
export function cropEdges({ bytes, width: stride, paper }: Edges, { x, y, width, height }: Box): Edges {
  const part = new Uint8ClampedArray(width * height * 4);
  for (let row = 0; row < height; row++) {
    const from = ((y + row) * stride + x) * 4;
    part.set(bytes.subarray(from, from + width * 4), row * width * 4);
  }
  return edgesOfBytes(part, width, height, paper);
}

function edgesOfBytes(bytes: Uint8ClampedArray, width: number, height: number, paper: Edges["paper"]): Edges {
  const threshold = thresholdOf(bytes, width, height);
  // A part of the picture often makes the whole one needless, so the long sums wait until they are asked for.
  let profiles: Profiles | null = null;
  const summed = (): Profiles => (profiles ??= profilesOf(bytes, width, height, threshold));
  return {
    width,
    height,
    bytes,
    threshold,
    paper,
    get across() {
      return summed().across;
    },
    get down() {
      return summed().down;
    },
  };
}

type Profiles = Pick<Edges, "across" | "down">;

function profilesOf(bytes: Uint8ClampedArray, width: number, height: number, threshold: number): Profiles {
  const across = new Float64Array(width);
  const down = new Float64Array(height);
  const columnRuns = new Int32Array(width);
  const stride = width * 4;
  for (let y = 0; y < height; y++) {
    let at = y * stride;
    let sum = 0;
    let rowRun = 0;
    for (let x = 0; x < width; x++, at += 4) {
      if (x > 0) {
        if (stepBetween(bytes, at - 4, at) >= threshold) columnRuns[x]!++;
        else if (columnRuns[x]! > 0) {
          across[x]! += columnRuns[x]! ** 2;
          columnRuns[x] = 0;
        }
      }
      if (y > 0 && stepBetween(bytes, at - stride, at) >= threshold) rowRun++;
      else if (rowRun > 0) {
        sum += rowRun ** 2;
        rowRun = 0;
      }
    }
    down[y] = Math.sqrt(sum + rowRun ** 2);
  }
  for (let x = 0; x < width; x++) across[x] = Math.sqrt(across[x]! + columnRuns[x]! ** 2);
  return { across, down };
}

/** The largest difference of the three channels, in bytes. */
export function stepBetween(bytes: Uint8ClampedArray, one: number, other: number): number {
  const red = Math.abs(bytes[one]! - bytes[other]!);
  const green = Math.abs(bytes[one + 1]! - bytes[other + 1]!);
  const blue = Math.abs(bytes[one + 2]! - bytes[other + 2]!);
  return red > green ? (red > blue ? red : blue) : green > blue ? green : blue;
}

/**
 * The page's colour: what most of a side of the picture has, a few pixels deep, so that a line around a chart is not
 * taken for it. Of several sides the most even one counts.
 */
function paperOf(bytes: Uint8ClampedArray, width: number, height: number): Edges["paper"] {
  const depth = Math.min(RIM_DEPTH, width - 1, height - 1);
  let best: { part: number; colour: [number, number, number] } = { part: 0, colour: [0, 0, 0] };
  const strips: [number, number, number, number][] = [
    [0, 0, width, depth],
    [0, height - depth, width, height],
    [0, 0, depth, height],
    [width - depth, 0, width, height],
  ];
  for (const [left, top, right, bottom] of strips) {
    const counts = new Map<number, { count: number; sum: [number, number, number] }>();
    for (let y = top; y < bottom; y++) {
      for (let x = left; x < right; x++) {
        const at = (y * width + x) * 4;
        const key = ((bytes[at]! + 8) >> 4) * 400 + ((bytes[at + 1]! + 8) >> 4) * 20 + ((bytes[at + 2]! + 8) >> 4);
        let entry = counts.get(key);
        if (!entry) counts.set(key, (entry = { count: 0, sum: [0, 0, 0] }));
        entry.count++;
        for (let channel = 0; channel < 3; channel++) entry.sum[channel]! += bytes[at + channel]!;
      }
    }
    const most = [...counts.values()].sort((one, other) => other.count - one.count)[0]!;
    const part = most.count / ((right - left) * (bottom - top));
    if (part > best.part) best = { part, colour: most.sum.map((sum) => sum / most.count) as [number, number, number] };
  }
  return best.part >= RIM ? best.colour : null;
}

/** A drawn picture has no small steps; a compressed one has many beside each clear one, and they are its noise. */
function thresholdOf(bytes: Uint8ClampedArray, width: number, height: number): number {
  let small = 0;
  let clear = 0;
  const every = Math.max(1, Math.floor(height / SAMPLED_ROWS));
  for (let y = 0; y < height; y += every) {
    for (let x = 1, at = (y * width + 1) * 4; x < width; x++, at += 4) {
      const step = stepBetween(bytes, at - 4, at);
      if (step > 0 && step <= 8) small++;
      else if (step > 16) clear++;
    }
  }
  return small > 0.5 * clear ? NOISY_STEP : CLEAN_STEP;
}

/** Bytes: the least step of a drawn and of a compressed picture that may be a border. Our choice, on JPEG of quality 80. */
const CLEAN_STEP = 3;
const NOISY_STEP = 11;
const SAMPLED_ROWS = 400;
/** Part of a side of the picture that paper takes, at least, and how deep that is looked at in pixels. */
const RIM = 0.9;
const RIM_DEPTH = 4;
