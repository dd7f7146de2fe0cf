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

/**
 * The spectrum of a piece, in bins by log radius. Source: vision.md B1 and B2.
 * Only a quarter of the plane is walked: a real pattern has the same power on both sides of each axis once the two are added.
 */
export function spectrumOf(piece: Piece, setting: Setting): RadialSpectrum {
  const { widthMm, heightMm } = setting.stitch;
  const rows = setting.rows === "once" ? PADDING * piece.height : piece.height;
  const shares = sharesOf(piece);
  const { lines, pairs, totals } = foldedPowers(piece, shares, rows);
  const across = axisOf(piece.width, widthMm, rows);
  const upwards = axisOf(rows, heightMm, 1);
  // Neighbours along an axis fall into one bin, so running sums along the longer one are taken off at the ends of the bins.
  const [long, short] = across.reach > upwards.reach ? [across, upwards] : [upwards, across];
  const scaleOfHeight = rows / piece.height;
  const empty = totals.reduce((most, total) => Math.max(most, total), 0) * NOTHING;

  const logLow = Math.log(Math.min(across.step, upwards.step)) - 1e-9;
  const farthest = Math.hypot(across.reach * across.step, upwards.reach * upwards.step);
  const perBin = BINS / (Math.log(farthest) + 1e-9 - logLow);
  const ends = Float64Array.from({ length: BINS }, (_, bin) => Math.exp(2 * (logLow + (bin + 1) / perBin)));

  // Radii are averaged as squares: within a bin of 3 % that is the mean of their logarithms to 1e-4, without a logarithm.
  const powers = new Float64Array(BINS * pairs);
  const squares = new Float64Array(BINS * pairs);
  const running = new Float64Array((long.reach + 2) * pairs);
  const runningSquares = new Float64Array((long.reach + 2) * pairs);
  for (let base = 0; base <= short.count / 2; base++) {
    for (let l = 0, place = 0; l <= long.reach; l++) {
      // On an axis the two sides are one.
      const share = (l === 0 ? 1 : 2) * long.envelope[l]! * scaleOfHeight;
      const square = (l * long.step) ** 2;
      const at = (base * short.stride + foldedTo(l, long.count) * long.stride) * pairs;
      for (let pair = 0; pair < pairs; pair++, place++) {
        const power = share * lines[at + pair]!;
        running[place + pairs] = running[place]! + power;
        runningSquares[place + pairs] = runningSquares[place]! + power * square;
      }
    }
    for (let k = base; k <= short.reach; k = nextAlias(k, base, short.count)) {
      const share = (k === 0 ? 0.5 : 1) * short.envelope[k]!;
      const squareK = (k * short.step) ** 2;
      let bin = 0;
      for (let l = k === 0 ? 1 : 0; l <= long.reach;) {
        while (squareK + (l * long.step) ** 2 >= ends[bin]!) bin += 1;
        const next = Math.min(long.reach + 1, Math.max(l + 1, Math.ceil(Math.sqrt(ends[bin]! - squareK) / long.step)));
        for (let pair = 0, into = bin * pairs; pair < pairs; pair++, into++) {
          const power = running[next * pairs + pair]! - running[l * pairs + pair]!;
          const square = runningSquares[next * pairs + pair]! - runningSquares[l * pairs + pair]!;
          powers[into]! += share * power;
          squares[into]! += share * (power * squareK + square);
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
      setting.rows === "once" ? Math.min(across.step, 1 / (piece.height * heightMm)) : (lowestRadius() ?? farthest),
    areaMm2: patch.widthMm * patch.heightMm,
    textureFrequency: 1 / Math.sqrt(widthMm * heightMm),
  };

  /** Whatever folds onto a frequency lies farther out than it. */
  function lowestRadius(): number | null {
    let least: number | null = null;
    totals.forEach((total, at) => {
      const radius = Math.hypot(Math.floor(at / rows) * across.step, (at % rows) * upwards.step);
      if (at > 0 && total > empty && (least === null || radius < least)) least = radius;
    });
    return least;
  }
}

/** One direction of the plane of frequencies. */
interface Axis {
  /** Stitches, or rows, of the period. */
  readonly count: number;
  /** Between two neighbours, cycles per mm. */
  readonly step: number;
  /** The last frequency that is summed. */
  readonly reach: number;
  /** sinc² of every frequency: what is left of its power when each stitch is one flat colour. */
  readonly envelope: Float64Array;
  /** How far neighbours lie apart among the folded powers. */
  readonly stride: number;
}

function axisOf(count: number, millimetres: number, stride: number): Axis {
  const reach = HARMONICS * count;
  const envelope = Float64Array.from({ length: reach + 1 }, (_, k) => sinc(k / count) ** 2);
  return { count, step: 1 / (count * millimetres), reach, envelope, stride };
}

/** Where a frequency's power stands: every frequency has that of its remainder, and that of its mirror image. */
const foldedTo = (k: number, count: number): number => Math.min(k % count, count - (k % count));

/** The next frequency that folds onto a base: c, n − c, n + c, 2 n − c … */
function nextAlias(k: number, base: number, count: number): number {
  const mirrored = (count - base) % count;
  const place = k % count;
  return place < mirrored ? k - place + mirrored : k - place + count + base;
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
  const result = Array.from({ length: count }, () => ({
    real: new Float64Array(columns * height),
    imaginary: new Float64Array(columns * height),
  }));
  // What is no stitch counts as one more area; of all of them the largest is what the others leave of the whole row.
  const indicators = Array.from({ length: count + 1 }, () => ({
    real: new Float64Array(columns),
    imaginary: new Float64Array(columns),
  }));
  const largest = shares.indexOf(Math.max(...shares));
  for (let y = 0; y < height; y++) {
    for (const { real, imaginary } of indicators) {
      real.fill(0);
      imaginary.fill(0);
    }
    for (let x = 0; x < width; x++) {
      const cell = cells[y * width + x]!;
      if (cell === largest) continue;
      const { real, imaginary } = indicators[cell === NO_STITCH ? count : cell]!;
      for (let k = 0, place = 0; k < columns; k++) {
        real[k]! += turn.cosine[place]!;
        imaginary[k]! -= turn.sine[place]!;
        place += x;
        if (place >= width) place -= width;
      }
    }
    const rest = indicators[largest]!;
    const none = indicators[count]!;
    for (let k = 0; k < columns; k++) {
      const whole = k === 0 ? width : 0;
      let real = whole;
      let imaginary = 0;
      indicators.forEach((one, area) => {
        if (area === largest) return;
        real -= one.real[k]!;
        imaginary -= one.imaginary[k]!;
      });
      rest.real[k] = real;
      rest.imaginary[k] = imaginary;
      for (let area = 0; area < count; area++) {
        result[area]!.real[k * height + y] = indicators[area]!.real[k]! - shares[area]! * (whole - none.real[k]!);
        result[area]!.imaginary[k * height + y] = indicators[area]!.imaginary[k]! + shares[area]! * none.imaginary[k]!;
      }
    }
  }
  return result;
}

function circle(count: number): { cosine: Float64Array; sine: Float64Array } {
  const angle = (2 * Math.PI) / count;
  return {
    cosine: Float64Array.from({ length: count }, (_, turn) => Math.cos(angle * turn)),
    sine: Float64Array.from({ length: count }, (_, turn) => Math.sin(angle * turn)),
  };
}
