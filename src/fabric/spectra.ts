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

/**
 * The spectrum of a piece, in bins by log radius. Source: vision.md B1 and B2.
 * Only a quarter of the plane is walked: a real pattern has the same power on both sides of each axis once the two are added.
 */
export function spectrumOf(piece: Piece, setting: Setting): RadialSpectrum {
  const { widthMm, heightMm } = setting.stitch;
  const rows = setting.rows === "once" ? PADDING * piece.height : piece.height;
  const shares = sharesOf(piece);
  const { lines, total } = foldedPowers(piece, shares, rows);
  const pairs = lines.length;
  const scaleOfHeight = rows / piece.height;
  const across = aliases(piece.width);
  const upwards = aliases(rows);
  const stepX = 1 / (piece.width * widthMm);
  const stepY = 1 / (rows * heightMm);
  const reachX = HARMONICS * piece.width;
  const reachY = HARMONICS * rows;
  const empty = total.reduce((sum, power) => sum + power, 0) * NOTHING;

  const logLow = Math.log(Math.min(stepX, stepY)) - 1e-9;
  const perBin = BINS / (Math.log(Math.hypot(reachX * stepX, reachY * stepY)) + 1e-9 - logLow);
  const ends = Float64Array.from({ length: BINS }, (_, bin) => Math.exp(2 * (logLow + (bin + 1) / perBin)));

  // Radii are averaged as squares: within a bin of 3 % that is the mean of their logarithms to 1e-4, without a logarithm.
  const weight = new Float64Array(BINS);
  const weightedSquare = new Float64Array(BINS);
  const powers = Array.from({ length: pairs }, () => new Float64Array(BINS));
  const squares = Array.from({ length: pairs }, () => new Float64Array(BINS));
  let lowest = Infinity;
  for (let k = 0; k <= reachX; k++) {
    const wrapped = k % piece.width;
    const column = Math.min(wrapped, piece.width - wrapped);
    const squareX = (k * stepX) ** 2;
    let bin = 0;
    for (let l = k === 0 ? 1 : 0; l <= reachY; l++) {
      const square = squareX + (l * stepY) ** 2;
      while (square >= ends[bin]!) bin += 1;
      const at = column * rows + (l % rows);
      if (total[at]! <= empty) continue;
      const envelope = across[k]! * upwards[l]!;
      if (envelope < NOTHING) continue;
      // On an axis the two sides are one.
      const share = (k === 0 || l === 0 ? 1 : 2) * envelope * scaleOfHeight;
      const power = share * total[at]!;
      weight[bin]! += power;
      weightedSquare[bin]! += power * square;
      for (let pair = 0; pair < pairs; pair++) {
        const ofPair = share * lines[pair]![at]!;
        powers[pair]![bin]! += ofPair;
        squares[pair]![bin]! += ofPair * square;
      }
      if (square < lowest) lowest = square;
    }
  }

  const filled = Array.from({ length: BINS }, (_, bin) => bin).filter((bin) => weight[bin]! > 0);
  const means = filled.map((bin) => weightedSquare[bin]! / weight[bin]!);
  const patch = setting.patch ?? { widthMm: piece.width * widthMm, heightMm: piece.height * heightMm };
  return {
    count: piece.count,
    shares,
    frequencies: Float64Array.from(means, Math.sqrt),
    powers: powers.map((power) => Float64Array.from(filled, (bin) => power[bin]!)),
    moments: squares.map((square, pair) =>
      Float64Array.from(filled, (bin, index) => (square[bin]! / means[index]! - powers[pair]![bin]!) / 2),
    ),
    lowest:
      setting.rows === "once"
        ? Math.min(stepX, 1 / (piece.height * heightMm))
        : Math.sqrt(lowest === Infinity ? (reachX * stepX) ** 2 + (reachY * stepY) ** 2 : lowest),
    areaMm2: patch.widthMm * patch.heightMm,
    textureFrequency: 1 / Math.sqrt(widthMm * heightMm),
  };
}

/** sinc² of every harmonic: what is left of its power when each stitch is one flat colour. */
const aliases = (count: number): Float64Array =>
  Float64Array.from({ length: HARMONICS * count + 1 }, (_, k) => sinc(k / count) ** 2);

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

interface FoldedPowers {
  /** For each pair of areas, at `column * rows + row`, the negated real cross-power at (column, row) plus that at (column, −row). */
  readonly lines: readonly Float64Array[];
  /** The sum of all pairs: decides the bins, so that every pair shares them. */
  readonly total: Float64Array;
}

/** Columns 0 to half the width; the rest mirrors them. */
function foldedPowers(piece: Piece, shares: readonly number[], rows: number): FoldedPowers {
  const { width, height, count } = piece;
  assert(height > 0 && width > 0, "a piece has stitches");
  const columns = Math.floor(width / 2) + 1;
  const along = alongRows(piece, shares, columns);
  const turn = circle(rows);
  const size = columns * rows;
  const lines = Array.from({ length: (count * (count - 1)) / 2 }, () => new Float64Array(size));
  const total = new Float64Array(size);
  const norm = 1 / (width * rows) ** 2;
  // Of one frequency: each area's sums with the cosine and with the sine of the row, real and imaginary.
  const cosines = Array.from({ length: count }, () => new Float64Array(2));
  const sines = Array.from({ length: count }, () => new Float64Array(2));
  for (let column = 0; column < columns; column++) {
    for (let row = 0; row <= rows / 2; row++) {
      for (let area = 0; area < count; area++) {
        const { real, imaginary } = along[area]!;
        let cosReal = 0;
        let cosImaginary = 0;
        let sinReal = 0;
        let sinImaginary = 0;
        for (let y = 0; y < height; y++) {
          const place = (row * y) % rows;
          const cosine = turn.cosine[place]!;
          const sine = turn.sine[place]!;
          const re = real[y * columns + column]!;
          const im = imaginary[y * columns + column]!;
          cosReal += re * cosine;
          cosImaginary += im * cosine;
          sinReal += re * sine;
          sinImaginary += im * sine;
        }
        cosines[area]!.set([cosReal, cosImaginary]);
        sines[area]!.set([sinReal, sinImaginary]);
      }
      for (let j = 0; j < count; j++) {
        for (let k = j + 1; k < count; k++) {
          // (C − iS)(C' − iS')* plus the same with +i leaves twice the products of the like sums.
          const folded =
            cosines[j]![0]! * cosines[k]![0]! +
            cosines[j]![1]! * cosines[k]![1]! +
            sines[j]![0]! * sines[k]![0]! +
            sines[j]![1]! * sines[k]![1]!;
          const power = -2 * norm * folded;
          const mirrored = (rows - row) % rows;
          const line = lines[pairIndex(count, j, k)]!;
          line[column * rows + row] = power;
          line[column * rows + mirrored] = power;
          total[column * rows + row]! += power;
          if (mirrored !== row) total[column * rows + mirrored]! += power;
        }
      }
    }
  }
  return { lines, total };
}

/** Discrete Fourier transform of each area's indicator, its share removed, along every row; a chart's width is seldom a power of two. */
function alongRows(
  piece: Piece,
  shares: readonly number[],
  columns: number,
): { real: Float64Array; imaginary: Float64Array }[] {
  const { width, height, cells, count } = piece;
  const turn = circle(width);
  const sums = Array.from({ length: count }, () => ({
    real: new Float64Array(columns * height),
    imaginary: new Float64Array(columns * height),
  }));
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      const cell = cells[y * width + x]!;
      if (cell === NO_STITCH) continue;
      const { real, imaginary } = sums[cell]!;
      for (let k = 0, place = 0; k < columns; k++) {
        real[y * columns + k]! += turn.cosine[place]!;
        imaginary[y * columns + k]! -= turn.sine[place]!;
        place += x;
        if (place >= width) place -= width;
      }
    }
  }
  // Every stitch belongs to one area: together they are the outline of the piece, of which each area's share is taken off.
  for (let at = 0; at < columns * height; at++) {
    let real = 0;
    let imaginary = 0;
    for (const sum of sums) {
      real += sum.real[at]!;
      imaginary += sum.imaginary[at]!;
    }
    sums.forEach((sum, area) => {
      sum.real[at]! -= shares[area]! * real;
      sum.imaginary[at]! -= shares[area]! * imaginary;
    });
  }
  return sums;
}

function circle(count: number): { cosine: Float64Array; sine: Float64Array } {
  const angle = (2 * Math.PI) / count;
  return {
    cosine: Float64Array.from({ length: count }, (_, turn) => Math.cos(angle * turn)),
    sine: Float64Array.from({ length: count }, (_, turn) => Math.sin(angle * turn)),
  };
}
