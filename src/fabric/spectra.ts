/** The spectrum of a piece of chart: everything about its visibility that depends on chart and gauge alone. */
import { assert } from "../base/assert.ts";
import { NO_STITCH } from "../chart/chart.ts";
import type { StitchSize } from "../garment/gauge.ts";
import { pairIndex, type RadialSpectrum } from "../vision/visibility.ts";

/** A rectangle of stitches, each of one area; NO_STITCH belongs to none. Laid out in any direction: power has none. */
export interface Piece {
  readonly width: number;
  readonly height: number;
  readonly cells: ArrayLike<number>;
  /** Number of areas. */
  readonly count: number;
}

export interface Setting {
  readonly stitch: StitchSize;
  /** "tiled": the plane is filled with it. "once": it repeats sideways and lies alone above and below. */
  readonly rows: "tiled" | "once";
  /** The patch that is looked at; its own size once where missing. */
  readonly patch?: { readonly widthMm: number; readonly heightMm: number };
}

/** Replicas of the stitch raster that are summed: finer edges are lost in fuzz. Birthplace: vision.md B2, our choice. */
const HARMONICS = 6;

/** An isolated piece is set in this many times its own height of nothing. Birthplace: vision.md B2. */
const PADDING = 8;

/** Birthplace: vision.md B2: V then agrees with the full sum to 1.3e-4. */
const BINS = 256;

/** Powers below this part of the whole are rounding. */
const NOTHING = 1e-20;

/** The spectrum of a piece, in bins by log radius. Source: vision.md B1 and B2. */
export function spectrumOf(piece: Piece, setting: Setting): RadialSpectrum {
  const { widthMm, heightMm } = setting.stitch;
  const rows = setting.rows === "once" ? PADDING * piece.height : piece.height;
  const shares = sharesOf(piece);
  const lines = crossPowers(piece, shares, rows);
  const pairs = lines.length;
  const scaleOfHeight = rows / piece.height;
  const alias = (count: number): Float64Array =>
    Float64Array.from({ length: HARMONICS * count + 1 }, (_, k) => sinc(k / count) ** 2);
  const across = alias(piece.width);
  const upwards = alias(rows);
  const stepX = 1 / (piece.width * widthMm);
  const stepY = 1 / (rows * heightMm);

  // Total power decides the bins, so that every pair shares them.
  const total = new Float64Array(piece.width * rows);
  for (let at = 0; at < total.length; at++) for (let pair = 0; pair < pairs; pair++) total[at]! += lines[pair]![at]!;
  let whole = 0;
  for (const power of total) whole += power;
  const empty = whole * NOTHING;

  const reachX = HARMONICS * piece.width;
  const reachY = HARMONICS * rows;
  const lowRadius = Math.min(stepX, stepY);
  const highRadius = Math.hypot(reachX * stepX, reachY * stepY);
  const logLow = Math.log(lowRadius) - 1e-9;
  const perBin = BINS / (Math.log(highRadius) + 1e-9 - logLow);

  const weight = new Float64Array(BINS);
  const weightedLog = new Float64Array(BINS);
  const powers = Array.from({ length: pairs }, () => new Float64Array(BINS));
  const moments = Array.from({ length: pairs }, () => new Float64Array(BINS));
  let lowest = Infinity;
  for (let k = 0; k <= reachX; k++) {
    const column = k % piece.width;
    for (let l = k === 0 ? 1 : -reachY; l <= reachY; l++) {
      const row = ((l % rows) + rows) % rows;
      const at = row * piece.width + column;
      if (total[at]! <= empty) continue;
      const envelope = across[k]! * upwards[Math.abs(l)]!;
      if (envelope < NOTHING) continue;
      const radiusSquared = (k * stepX) ** 2 + (l * stepY) ** 2;
      const logRadius = 0.5 * Math.log(radiusSquared);
      const bin = Math.floor((logRadius - logLow) * perBin);
      // The other half plane mirrors this one; column 0 is walked on one side only.
      const share = 2 * envelope * scaleOfHeight;
      weight[bin]! += share * total[at]!;
      weightedLog[bin]! += share * total[at]! * logRadius;
      for (let pair = 0; pair < pairs; pair++) {
        const power = share * lines[pair]![at]!;
        powers[pair]![bin]! += power;
        moments[pair]![bin]! += power * logRadius;
      }
      if (radiusSquared < lowest) lowest = radiusSquared;
    }
  }

  const filled = Array.from({ length: BINS }, (_, bin) => bin).filter((bin) => weight[bin]! > 0);
  const logs = filled.map((bin) => weightedLog[bin]! / weight[bin]!);
  const patch = setting.patch ?? { widthMm: piece.width * widthMm, heightMm: piece.height * heightMm };
  return {
    count: piece.count,
    shares,
    frequencies: Float64Array.from(logs, Math.exp),
    powers: powers.map((power) => Float64Array.from(filled, (bin) => power[bin]!)),
    moments: moments.map((moment, pair) =>
      Float64Array.from(filled, (bin, index) => moment[bin]! - powers[pair]![bin]! * logs[index]!),
    ),
    lowest:
      setting.rows === "once"
        ? Math.min(stepX, 1 / (piece.height * heightMm))
        : lowest === Infinity
          ? highRadius
          : Math.sqrt(lowest),
    areaMm2: patch.widthMm * patch.heightMm,
    textureFrequency: 1 / Math.sqrt(widthMm * heightMm),
  };
}

function sinc(x: number): number {
  return x === 0 ? 1 : Math.sin(Math.PI * x) / (Math.PI * x);
}

function sharesOf(piece: Piece): number[] {
  const counts = new Array<number>(piece.count).fill(0);
  let stitches = 0;
  for (let at = 0; at < piece.width * piece.height; at++) {
    const area = piece.cells[at]!;
    if (area === NO_STITCH) continue;
    assert(area < piece.count, "a cell names one of the piece's areas");
    counts[area]! += 1;
    stitches += 1;
  }
  return counts.map((count) => (stitches ? count / stitches : 0));
}

/** The negated real cross-power of each pair of areas, mean removed, at every frequency of the base raster of width × rows. */
function crossPowers(piece: Piece, shares: readonly number[], rows: number): Float64Array[] {
  const { width, height, count } = piece;
  const transforms = shares.map((share, area) => transformOf(piece, area, share, rows));
  const lines: Float64Array[] = Array.from({ length: (count * (count - 1)) / 2 }, () => new Float64Array(width * rows));
  const norm = 1 / (width * rows) ** 2;
  assert(height > 0 && width > 0, "a piece has stitches");
  for (let j = 0; j < count; j++) {
    for (let k = j + 1; k < count; k++) {
      const line = lines[pairIndex(count, j, k)]!;
      const [realJ, imaginaryJ] = transforms[j]!;
      const [realK, imaginaryK] = transforms[k]!;
      for (let at = 0; at < line.length; at++)
        line[at] = -norm * (realJ[at]! * realK[at]! + imaginaryJ[at]! * imaginaryK[at]!);
    }
  }
  return lines;
}

/** Discrete Fourier transform of an area's indicator, first along the rows, then upwards; a chart's size is seldom a power of two. */
function transformOf(piece: Piece, area: number, share: number, rows: number): [Float64Array, Float64Array] {
  const { width, height, cells } = piece;
  const turnX = circle(width);
  const alongReal = new Float64Array(width * height);
  const alongImaginary = new Float64Array(width * height);
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      const cell = cells[y * width + x]!;
      if (cell === NO_STITCH) continue;
      const value = (cell === area ? 1 : 0) - share;
      for (let k = 0; k < width; k++) {
        const turn = (k * x) % width;
        alongReal[y * width + k]! += value * turnX.cosine[turn]!;
        alongImaginary[y * width + k]! -= value * turnX.sine[turn]!;
      }
    }
  }
  const turnY = circle(rows);
  const real = new Float64Array(width * rows);
  const imaginary = new Float64Array(width * rows);
  for (let l = 0; l < rows; l++) {
    for (let y = 0; y < height; y++) {
      const turn = (l * y) % rows;
      const cosine = turnY.cosine[turn]!;
      const sine = turnY.sine[turn]!;
      for (let k = 0; k < width; k++) {
        const re = alongReal[y * width + k]!;
        const im = alongImaginary[y * width + k]!;
        real[l * width + k]! += re * cosine + im * sine;
        imaginary[l * width + k]! += im * cosine - re * sine;
      }
    }
  }
  return [real, imaginary];
}

function circle(count: number): { cosine: Float64Array; sine: Float64Array } {
  const angle = (2 * Math.PI) / count;
  return {
    cosine: Float64Array.from({ length: count }, (_, turn) => Math.cos(angle * turn)),
    sine: Float64Array.from({ length: count }, (_, turn) => Math.sin(angle * turn)),
  };
}
