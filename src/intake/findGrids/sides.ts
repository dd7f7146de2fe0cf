/** What stands between neighbouring stitches of a straightened picture: a drawn line, a step of colour, or nothing. */
import type { Straight } from "./straight.ts";

export interface Sides {
  readonly columns: number;
  readonly rows: number;
  /** Upright sides: (columns + 1) to the row; how far a line there is from both neighbours, in bytes. */
  readonly uprightLine: Float32Array;
  readonly uprightStep: Float32Array;
  /** Level sides: columns to the line, rows + 1 lines. */
  readonly levelLine: Float32Array;
  readonly levelStep: Float32Array;
  /** Lightness of a side and the mean of its two neighbours', in bytes, in the order of the lines. */
  readonly uprightLight: Float32Array;
  readonly uprightBeside: Float32Array;
  readonly levelLight: Float32Array;
  readonly levelBeside: Float32Array;
  /** What the same measure gives within stitches, where no line is: line and step, half-way, each cell upright and level. */
  readonly within: Float32Array;
  /** What single samples differ by where nothing is drawn, in bytes. */
  readonly noise: number;
  /** The usual distance of a stitch's samples from its mean, in bytes, over its middle. */
  readonly spread: Float32Array;
  /** How far apart in bytes the ground is along a stitch's own four sides, one of eight stretches left aside: letters touch several. */
  readonly ring: Float32Array;
  /** Mean colour of a stitch's middle, three to the cell. */
  readonly means: Float32Array;
}

export function sidesOf(straight: Straight): Sides {
  const { columns, rows, side, rgb } = straight;
  const stride = columns * side * 3;
  const zones = zonesOf(side, lineReach(straight));
  const upright = measure(columns, rows, side, rgb, 3, stride, zones);
  const level = measure(rows, columns, side, rgb, stride, 3, zones);
  const turned = (from: Float32Array): Float32Array => {
    const to = new Float32Array(from.length);
    for (let column = 0; column < columns; column++)
      for (let line = 0; line <= rows; line++) to[line * columns + column] = from[column * (rows + 1) + line]!;
    return to;
  };
  const within = new Float32Array(columns * rows * 2);
  for (let row = 0; row < rows; row++)
    for (let column = 0; column < columns; column++) {
      const cell = row * columns + column;
      within[cell * 2] = upright.within[cell]!;
      within[cell * 2 + 1] = level.within[column * rows + row]!;
    }
  return {
    columns,
    rows,
    uprightLine: upright.line,
    uprightStep: upright.step,
    uprightLight: upright.light,
    uprightBeside: upright.beside,
    levelLine: turned(level.line),
    levelStep: turned(level.step),
    levelLight: turned(level.light),
    levelBeside: turned(level.beside),
    within,
    noise: noiseOf(straight),
    ...evenness(straight),
  };
}

/** Samples from a border: what is the border, and what is stitch beside it. */
interface Zones {
  readonly border: number;
  readonly from: number;
  readonly to: number;
  /** First and last sample of each part of a side that is looked at by itself. */
  readonly parts: readonly (readonly [number, number])[];
}

/** Beside a line is where it has ended and a sign has not yet begun. */
function zonesOf(side: number, reach: number): Zones {
  const cut = [0.12, 0.38, 0.62, 0.88].map((share) => Math.round(side * share));
  const border = Math.max(1, Math.round(Math.min(side * 0.12, reach * 0.7)));
  const from = Math.max(border, Math.min(Math.round(side * 0.3), Math.ceil(reach + 0.3)));
  return {
    border,
    from,
    to: from + Math.max(1, Math.round(side * 0.12)),
    parts: [0, 1, 2].map((part) => [cut[part]!, Math.max(cut[part]! + 1, cut[part + 1]!)]),
  };
}

/** Samples from a border at which its line has mostly ended, as the usual profile across borders shows. */
function lineReach({ columns, rows, side, rgb }: Straight): number {
  const half = side >> 1;
  const away = Array.from({ length: half }, () => [] as number[]);
  const every = Math.max(1, Math.floor((columns * rows) / PROFILES));
  const stride = columns * side * 3;
  const look = (place: number, step: number): void => {
    const light = (at: number): number =>
      rgb[place + at * step]! + 2 * rgb[place + at * step + 1]! + rgb[place + at * step + 2]!;
    const beside = [light(-half), light(half - 1)];
    for (let at = 0; at < half; at++)
      away[at]!.push((Math.abs(light(-at - 1) - beside[0]!) + Math.abs(light(at) - beside[1]!)) / 2);
  };
  for (let cell = 0; cell < columns * rows; cell += every) {
    const [row, column] = [Math.floor(cell / columns), cell % columns];
    if (row === 0 || column === 0) continue;
    // A quarter along the side, where signs seldom reach.
    look(((row * side + (side >> 2)) * columns + column) * side * 3, 3);
    look((row * side * columns + column) * side * 3 + (side >> 2) * 3, stride);
  }
  const usual = away.map((values) => Float64Array.from(values).sort()[values.length >> 1] ?? 0);
  const base = Math.min(...usual);
  const top = Math.max(usual[0] ?? 0, usual[1] ?? 0);
  if (top - base < 12) return side * 0.15;
  let reach = 1;
  while (reach < half && usual[reach]! - base > 0.3 * (top - base)) reach++;
  return reach;
}

const PROFILES = 3000;

/**
 * Along one axis: `count` stitches with steps of `step` bytes between samples, in each of `lines` rows whose samples lie `jump`
 * apart. A side is what the middle one of its three parts in strength is, so that a sign beside it has no say.
 */
function measure(
  count: number,
  lines: number,
  side: number,
  rgb: Uint8ClampedArray,
  step: number,
  jump: number,
  { border, from, to, parts }: Zones,
): { line: Float32Array; step: Float32Array; light: Float32Array; beside: Float32Array; within: Float32Array } {
  const light = new Float32Array((count + 1) * lines);
  const beside = new Float32Array((count + 1) * lines);
  const line = new Float32Array((count + 1) * lines);
  const stepping = new Float32Array((count + 1) * lines);
  const within = new Float32Array(count * lines);
  const length = count * side;
  // Sums up to each sample, so that means over any stretch cost the same.
  const sums = parts.map(() => new Float64Array((length + 1) * 3));
  const drawn = [0, 0, 0];
  const stepped = [0, 0, 0];
  let [borderLight, besideLight] = [0, 0];
  const look = (at: number): void => {
    [borderLight, besideLight] = [0, 0];
    for (let part = 0; part < 3; part++) {
      const sum = sums[part]!;
      let [product, square] = [0, 0];
      for (let channel = 0; channel < 3; channel++) {
        const mean = (first: number, last: number): number =>
          (sum[last * 3 + channel]! - sum[first * 3 + channel]!) / (last - first);
        const before = mean(at - to, at - from);
        const after = mean(at + from, at + to);
        const here = mean(at - border, at + border);
        product += (here - before) * (here - after);
        square += (before - after) ** 2;
        borderLight += here / 9;
        besideLight += (before + after) / 18;
      }
      drawn[part] = Math.sqrt(Math.max(0, product));
      stepped[part] = Math.sqrt(square);
    }
  };
  const middle = ([a, b, c]: number[]): number => Math.max(Math.min(a!, b!), Math.min(Math.max(a!, b!), c!));
  for (let row = 0; row < lines; row++) {
    for (const [part, [first, last]] of parts.entries()) {
      const sum = sums[part]!;
      const share = 1 / (last - first);
      for (let at = 0; at < length; at++) {
        let [red, green, blue] = [0, 0, 0];
        for (let along = first; along < last; along++) {
          const place = (row * side + along) * jump + at * step;
          red += rgb[place]!;
          green += rgb[place + 1]!;
          blue += rgb[place + 2]!;
        }
        sum[at * 3 + 3] = sum[at * 3]! + red * share;
        sum[at * 3 + 4] = sum[at * 3 + 1]! + green * share;
        sum[at * 3 + 5] = sum[at * 3 + 2]! + blue * share;
      }
    }
    for (let index = 0; index <= count; index++) {
      if (index > 0 && index < count) {
        look(index * side);
        line[row * (count + 1) + index] = middle(drawn);
        // A step is one from end to end, or it is a letter's.
        stepping[row * (count + 1) + index] = Math.min(...stepped);
        light[row * (count + 1) + index] = borderLight;
        beside[row * (count + 1) + index] = besideLight;
      }
      if (index < count) {
        look(index * side + (side >> 1));
        within[row * count + index] = Math.max(middle(drawn), middle(stepped));
      }
    }
  }
  return { line, step: stepping, light, beside, within };
}

function evenness({ columns, rows, side, rgb }: Straight): Pick<Sides, "spread" | "means" | "ring"> {
  const ring = new Float32Array(columns * rows);
  const inset = Math.max(1, Math.round(side * 0.15));
  const half = side >> 1;
  const stretches = new Float64Array(8);
  const spread = new Float32Array(columns * rows);
  const means = new Float32Array(columns * rows * 3);
  const from = Math.max(1, Math.round(side * 0.2));
  const to = side - from;
  const part = 1 / (to - from) ** 2;
  for (let row = 0; row < rows; row++)
    for (let column = 0; column < columns; column++) {
      const cell = row * columns + column;
      let variance = 0;
      for (let channel = 0; channel < 3; channel++) {
        let [sum, square] = [0, 0];
        for (let y = from; y < to; y++)
          for (let x = from; x < to; x++) {
            const value = rgb[(((row * side + y) * columns + column) * side + x) * 3 + channel]!;
            sum += value;
            square += value * value;
          }
        means[cell * 3 + channel] = sum * part;
        variance += Math.max(0, square * part - (sum * part) ** 2);
      }
      spread[cell] = Math.sqrt(variance);
      const stretch = (x0: number, y0: number, stepX: number, stepY: number): number => {
        let sum = 0;
        for (let at = 0; at < half - inset; at++) {
          const place = (((row * side + y0 + at * stepY) * columns + column) * side + x0 + at * stepX) * 3;
          sum += rgb[place]! + 2 * rgb[place + 1]! + rgb[place + 2]!;
        }
        return sum / (4 * (half - inset));
      };
      const last = side - 1 - inset;
      for (const [index, from] of [inset, half].entries()) {
        stretches[index * 4] = stretch(from, inset, 1, 0);
        stretches[index * 4 + 1] = stretch(from, last, 1, 0);
        stretches[index * 4 + 2] = stretch(inset, from, 0, 1);
        stretches[index * 4 + 3] = stretch(last, from, 0, 1);
      }
      stretches.sort();
      // One stretch may be a sign's.
      ring[cell] = Math.min(stretches[6]! - stretches[0]!, stretches[7]! - stretches[1]!);
    }
  return { spread, means, ring };
}

/** The middle one of the differences between samples that lie beside each other: most of a chart is flat, whatever is drawn on it. */
export function noiseOf({ columns, rows, side, rgb }: Straight): number {
  const stride = columns * side * 3;
  const every = Math.max(1, Math.floor((columns * rows * side * side) / NOISE_SAMPLES));
  const values: number[] = [];
  for (let at = 0; at + stride + 6 < rgb.length; at += every * 3) {
    let square = 0;
    for (let channel = at; channel < at + 3; channel++) square += (rgb[channel]! - rgb[channel + 3]!) ** 2;
    values.push(square);
  }
  return Math.sqrt(Float64Array.from(values).sort()[values.length >> 1] ?? 0);
}

const NOISE_SAMPLES = 20_000;
