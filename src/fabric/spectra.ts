/** The spectrum of a piece of chart: everything about its visibility that depends on chart and gauge alone. */
import { assert } from "../base/assert.ts";
import { NO_STITCH } from "../chart/chart.ts";
import type { StitchSize } from "../garment/gauge.ts";
import type { RadialSpectrum } from "../vision/visibility.ts";

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

/** Powers below this part of the strongest are rounding. */
const NOTHING = 1e-13;

/** Frequencies that fold onto one column, or onto its mirror image: c, W − c, W + c, 2 W − c … */
function nextAlias(k: number, column: number, width: number): number {
  const mirrored = (width - column) % width;
  const place = k % width;
  return place < mirrored ? k - place + mirrored : k - place + width + column;
}

/**
 * The spectrum of a piece, in bins by log radius. Source: vision.md B1 and B2.
 * Only a quarter of the plane is walked: a real pattern has the same power on both sides of each axis once the two are added.
 */
export function spectrumOf(piece: Piece, setting: Setting): RadialSpectrum {
  const { widthMm, heightMm } = setting.stitch;
  const rows = setting.rows === "once" ? PADDING * piece.height : piece.height;
  const shares = sharesOf(piece);
  const { lines, pairs, totals } = foldedPowers(piece, shares, rows);
  const scaleOfHeight = rows / piece.height;
  const across = aliases(piece.width);
  const upwards = aliases(rows);
  const stepX = 1 / (piece.width * widthMm);
  const stepY = 1 / (rows * heightMm);
  const reachX = HARMONICS * piece.width;
  const reachY = HARMONICS * rows;
  const empty = totals.reduce((most, total) => Math.max(most, total), 0) * NOTHING;

  const logLow = Math.log(Math.min(stepX, stepY)) - 1e-9;
  const perBin = BINS / (Math.log(Math.hypot(reachX * stepX, reachY * stepY)) + 1e-9 - logLow);
  const ends = Float64Array.from({ length: BINS }, (_, bin) => Math.exp(2 * (logLow + (bin + 1) / perBin)));

  // Along a column of frequencies neighbours fall into one bin, so running sums are taken off at the ends of the bins.
  // Radii are averaged as squares: within a bin of 3 % that is the mean of their logarithms to 1e-4, without a logarithm.
  const powers = new Float64Array(BINS * pairs);
  const squares = new Float64Array(BINS * pairs);
  const running = new Float64Array((reachY + 2) * pairs);
  const runningSquares = new Float64Array((reachY + 2) * pairs);
  for (let column = 0; column <= piece.width / 2; column++) {
    for (let l = 0, place = 0, at = column * rows * pairs; l <= reachY; l++) {
      // On an axis the two sides are one.
      const share = (l === 0 ? 1 : 2) * upwards[l]! * scaleOfHeight;
      const square = (l * stepY) ** 2;
      for (let pair = 0; pair < pairs; pair++, place++, at++) {
        const power = share * lines[at]!;
        running[place + pairs] = running[place]! + power;
        runningSquares[place + pairs] = runningSquares[place]! + power * square;
      }
      if (l % rows === rows - 1) at -= rows * pairs;
    }
    for (let k = column; k <= reachX; k = nextAlias(k, column, piece.width)) {
      const share = (k === 0 ? 0.5 : 1) * across[k]!;
      const squareX = (k * stepX) ** 2;
      let bin = 0;
      for (let l = k === 0 ? 1 : 0; l <= reachY;) {
        while (squareX + (l * stepY) ** 2 >= ends[bin]!) bin += 1;
        const next = Math.min(reachY + 1, Math.max(l + 1, Math.ceil(Math.sqrt(ends[bin]! - squareX) / stepY)));
        for (let pair = 0, into = bin * pairs; pair < pairs; pair++, into++) {
          const power = running[next * pairs + pair]! - running[l * pairs + pair]!;
          const square = runningSquares[next * pairs + pair]! - runningSquares[l * pairs + pair]!;
          powers[into]! += share * power;
          squares[into]! += share * (power * squareX + square);
        }
        l = next;
      }
    }
  }

  const ofBin = (sums: Float64Array, bin: number): number =>
    sums.subarray(bin * pairs, (bin + 1) * pairs).reduce((sum, one) => sum + one, 0);
  const filled = Array.from({ length: BINS }, (_, bin) => bin).filter((bin) => ofBin(powers, bin) > empty);
  const means = filled.map((bin) => ofBin(squares, bin) / ofBin(powers, bin));
  const each = (read: (place: number, index: number) => number): Float64Array[] =>
    Array.from({ length: pairs }, (_, pair) =>
      Float64Array.from(filled, (bin, index) => read(bin * pairs + pair, index)),
    );
  const patch = setting.patch ?? { widthMm: piece.width * widthMm, heightMm: piece.height * heightMm };
  return {
    count: piece.count,
    shares,
    frequencies: Float64Array.from(means, Math.sqrt),
    powers: each((place) => powers[place]!),
    moments: each((place, index) => (squares[place]! / means[index]! - powers[place]!) / 2),
    lowest:
      setting.rows === "once"
        ? Math.min(stepX, 1 / (piece.height * heightMm))
        : (lowestRadius() ?? Math.hypot(reachX * stepX, reachY * stepY)),
    areaMm2: patch.widthMm * patch.heightMm,
    textureFrequency: 1 / Math.sqrt(widthMm * heightMm),
  };

  /** Whatever folds onto a frequency lies farther out than it. */
  function lowestRadius(): number | null {
    let least: number | null = null;
    totals.forEach((total, at) => {
      const radius = Math.hypot(Math.floor(at / rows) * stepX, (at % rows) * stepY);
      if (at > 0 && total > empty && (least === null || radius < least)) least = radius;
    });
    return least;
  }
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
  /** Pairs of areas. */
  readonly pairs: number;
  /** For each pair, at `(column * rows + row) * pairs + pair`, the negated real cross-power at (column, row) plus that at (column, −row). */
  readonly lines: Float64Array;
  /** The sum of all pairs, at `column * rows + row`. */
  readonly totals: Float64Array;
}

/** Columns 0 to half the width; the rest mirrors them. */
function foldedPowers(piece: Piece, shares: readonly number[], rows: number): FoldedPowers {
  const { width, height, count } = piece;
  assert(height > 0 && width > 0, "a piece has stitches");
  const columns = Math.floor(width / 2) + 1;
  const along = alongRows(piece, shares, columns);
  const turn = circle(rows);
  const pairs = (count * (count - 1)) / 2;
  const lines = new Float64Array(columns * rows * pairs);
  const norm = 1 / (width * rows) ** 2;
  const totals = new Float64Array(columns * rows);
  // Of one frequency: each area's sums with the cosine and with the sine of the row, real and imaginary.
  const sums = new Float64Array(4 * count);
  for (let column = 0; column < columns; column++) {
    for (let row = 0; row <= rows / 2; row++) {
      for (let area = 0; area < count; area++) {
        const { real, imaginary } = along[area]!;
        let cosReal = 0;
        let cosImaginary = 0;
        let sinReal = 0;
        let sinImaginary = 0;
        for (let y = 0, place = 0, at = column * height; y < height; y++, at++) {
          const cosine = turn.cosine[place]!;
          const sine = turn.sine[place]!;
          const re = real[at]!;
          const im = imaginary[at]!;
          cosReal += re * cosine;
          cosImaginary += im * cosine;
          sinReal += re * sine;
          sinImaginary += im * sine;
          place += row;
          if (place >= rows) place -= rows;
        }
        sums[4 * area] = cosReal;
        sums[4 * area + 1] = cosImaginary;
        sums[4 * area + 2] = sinReal;
        sums[4 * area + 3] = sinImaginary;
      }
      const at = column * rows + row;
      const mirrored = column * rows + ((rows - row) % rows);
      let total = 0;
      for (let j = 0, pair = 0; j < count; j++) {
        for (let k = j + 1; k < count; k++, pair++) {
          // (C − iS)(C' − iS')* plus the same with +i leaves twice the products of the like sums.
          let folded = 0;
          for (let part = 0; part < 4; part++) folded += sums[4 * j + part]! * sums[4 * k + part]!;
          const power = -2 * norm * folded;
          lines[at * pairs + pair] = power;
          lines[mirrored * pairs + pair] = power;
          total += power;
        }
      }
      totals[at] = total;
      totals[mirrored] = total;
    }
  }
  return { lines, pairs, totals };
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
        real[k * height + y]! += turn.cosine[place]!;
        imaginary[k * height + y]! -= turn.sine[place]!;
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
