/** A picture split into levels of detail an octave apart, each with a known frequency, that add up to the picture again. */

/** One channel of a picture, rows from the top. */
export interface Plane {
  readonly width: number;
  readonly height: number;
  readonly data: Float32Array;
}

/** What lies past the left and right edges: the picture again, or its mirror image. Past top and bottom it is mirrored. */
export interface Edges {
  readonly x: "wrap" | "mirror";
}

export const MIRRORED: Edges = { x: "mirror" };

export interface Pyramid {
  /** Detail from fine to coarse; level k has half the pixels each way of level k − 1. */
  readonly details: readonly Plane[];
  /** The picture itself, then each blurred and halved; one more than details. The last is what no level holds. */
  readonly blurred: readonly Plane[];
}

/**
 * Cycles per pixel of the wave that a level and its two neighbours share, from their balance: (power in the finer −
 * power in the coarser) / power in all three. Worked out from the 1-4-6-4-1 kernel, which leaves cos⁴(πf): level 1 has
 * cos⁴(πf)·(1 − cos⁸(2πf)), and waves of 0.08, 0.1 and 0.13 have balances −0.33, −0.02 and 0.31 there. The finest level has
 * no finer one: waves of 0.13, 0.2 and 0.25 have −0.65, −0.22 and −0.07.
 */
export function frequencyOf(level: number, balance: number): number {
  return level === 0 ? 0.272 * 2 ** (1.5 * balance) : (0.2026 / 2 ** level) * 2 ** (1.1 * balance);
}

/** Power of a wave in three neighbouring levels over its power in the picture: 0.65 to 0.73 for the first three waves. */
export const POWER_GAIN = 0.68;

/**
 * Laplacian pyramid (Burt & Adelson 1983), as many levels as asked for or as the picture has room for. A level of odd width
 * that wraps has its seam half a pixel of the next level out of step; widths that halve to the end have none.
 */
export function pyramidOf(picture: Plane, levels: number, edges = MIRRORED): Pyramid {
  const details: Plane[] = [];
  const blurred: Plane[] = [picture];
  for (let level = 0; level < levels; level++) {
    const fine = blurred[level]!;
    if (fine.height < 2 || (fine.width < 2 && edges.x === "mirror")) break;
    const coarse = reduce(fine, edges);
    details.push(expanded(coarse, fine, edges, -1, fine.data));
    blurred.push(coarse);
  }
  return { details, blurred };
}

/** The picture again from its details, which may have been changed, and its coarsest blur. */
export function collapse(details: readonly Plane[], base: Plane, edges = MIRRORED): Plane {
  return details.reduceRight((picture, detail) => expanded(picture, detail, edges, 1, detail.data), base);
}

/** Half as many pixels each way. */
export function reduce({ width, height, data }: Plane, edges = MIRRORED): Plane {
  const w = (width + 1) >> 1;
  const h = (height + 1) >> 1;
  const out = new Float32Array(w * h);
  const row = new Float32Array(width + 2 * MARGIN);
  for (let y = 0; y < h; y++) {
    const c = 2 * y * width;
    const l = mirror(2 * y - 1, height) * width;
    const ll = mirror(2 * y - 2, height) * width;
    const r = mirror(2 * y + 1, height) * width;
    const rr = mirror(2 * y + 2, height) * width;
    for (let x = 0; x < width; x++) {
      const near = data[l + x]! + data[r + x]!;
      row[x + MARGIN] = (data[ll + x]! + data[rr + x]! + 4 * near + 6 * data[c + x]!) * (1 / 256);
    }
    pad(row, width, edges);
    for (let to = y * w, end = to + w, x = 0; to < end; to++, x += 2)
      out[to] = row[x]! + row[x + 4]! + 4 * (row[x + 1]! + row[x + 3]!) + 6 * row[x + 2]!;
  }
  return { width: w, height: h, data: out };
}

/** Twice as many pixels each way, smooth, to the size asked for. */
export const expand = (plane: Plane, size: Size, edges = MIRRORED): Plane => expanded(plane, size, edges, 0, null);

export interface Size {
  readonly width: number;
  readonly height: number;
}

/** The level expanded and added to (1) or taken from (−1) another plane, in one pass. */
function expanded(
  { width, height, data }: Plane,
  { width: toWidth, height: toHeight }: Size,
  edges: Edges,
  sign: -1 | 0 | 1,
  other: Float32Array | null,
): Plane {
  const out = new Float32Array(toWidth * toHeight);
  const row = (): Float32Array => new Float32Array(toWidth + 1);
  let [above, own, below] = [row(), row(), row()];
  const read = (y: number, row: Float32Array): void => expandRow(data, y * width, width, row, toWidth, edges);
  read(height > 1 ? 1 : 0, above);
  read(0, own);
  for (let c = 0, to = 0; 2 * c < toHeight; c++) {
    read(c + 1 < height ? c + 1 : c, below);
    const end = to + toWidth;
    if (!other) for (let x = 0; to < end; to++, x++) out[to] = (above[x]! + 6 * own[x]! + below[x]!) * 0.125;
    else if (sign > 0)
      for (let x = 0; to < end; to++, x++) out[to] = other[to]! + (above[x]! + 6 * own[x]! + below[x]!) * 0.125;
    else for (let x = 0; to < end; to++, x++) out[to] = other[to]! - (above[x]! + 6 * own[x]! + below[x]!) * 0.125;
    if (2 * c + 1 < toHeight) {
      const end = to + toWidth;
      if (!other) for (let x = 0; to < end; to++, x++) out[to] = (own[x]! + below[x]!) * 0.5;
      else if (sign > 0) for (let x = 0; to < end; to++, x++) out[to] = other[to]! + (own[x]! + below[x]!) * 0.5;
      else for (let x = 0; to < end; to++, x++) out[to] = other[to]! - (own[x]! + below[x]!) * 0.5;
    }
    [above, own, below] = [own, below, above];
  }
  return { width: toWidth, height: toHeight, data: out };
}

/**
 * The next finer picture: the coarser one expanded and the detail added as far as `part` says, place by place on half its pixels
 * each way (linear between), or everywhere alike.
 */
export function addPart(coarser: Plane, detail: Plane, part: Plane | number, edges = MIRRORED): Plane {
  if (part === 0) return expand(coarser, detail, edges);
  if (part === 1) return expanded(coarser, detail, edges, 1, detail.data);
  const { width, data } = detail;
  const out = expand(coarser, detail, edges);
  const sum = out.data;
  if (typeof part === "number") {
    for (let at = 0; at < sum.length; at++) sum[at]! += part * data[at]!;
    return out;
  }
  forEachDoubledRow(part, out, edges, (row, from) => {
    for (let x = 0, at = from; x < width; x++, at++) sum[at]! += row[x]! * data[at]!;
  });
  return out;
}

/** Twice as many pixels each way, linear between them. */
export function double(plane: Plane, size: Size, edges = MIRRORED): Plane {
  const data = new Float32Array(size.width * size.height);
  forEachDoubledRow(plane, size, edges, (row, from) => data.set(row, from));
  return { width: size.width, height: size.height, data };
}

function forEachDoubledRow(
  plane: Plane,
  { width, height }: Size,
  edges: Edges,
  take: (row: Float32Array, from: number) => void,
): void {
  const row = (): Float32Array => new Float32Array(width + 1);
  let [own, below] = [row(), row()];
  const between = new Float32Array(width);
  doubleRow(plane, 0, own, width, edges);
  for (let y = 0; y < height; y += 2) {
    doubleRow(plane, (y >> 1) + 1, below, width, edges);
    take(own.subarray(0, width), y * width);
    if (y + 1 < height) {
      for (let x = 0; x < width; x++) between[x] = (own[x]! + below[x]!) * 0.5;
      take(between, (y + 1) * width);
    }
    [own, below] = [below, own];
  }
}

/** The mean of each pixel's surroundings, two pixels every way, near ones counting more: weights of 1, 2, 3, 2, 1. */
export function surroundings({ width, height, data }: Plane, edges = MIRRORED): Plane {
  const out = new Float32Array(data.length);
  const row = new Float32Array(width + 2 * MARGIN);
  for (let y = 0; y < height; y++) {
    const c = y * width;
    const l = mirror(y - 1, height) * width;
    const ll = mirror(y - 2, height) * width;
    const r = mirror(y + 1, height) * width;
    const rr = mirror(y + 2, height) * width;
    for (let x = 0; x < width; x++) {
      const near = data[l + x]! + data[r + x]!;
      row[x + MARGIN] = (data[ll + x]! + data[rr + x]! + 2 * near + 3 * data[c + x]!) * (1 / 81);
    }
    pad(row, width, edges);
    for (let x = 0, to = c; x < width; x++, to++)
      out[to] = row[x]! + row[x + 4]! + 2 * (row[x + 1]! + row[x + 3]!) + 3 * row[x + 2]!;
  }
  return { width, height, data: out };
}

/** Pixels past an edge that a kernel of five needs. */
const MARGIN = 2;

/** Fills a row's margins with what lies past its edges. */
function pad(row: Float32Array, width: number, { x }: Edges): void {
  for (let step = 1; step <= MARGIN; step++) {
    row[MARGIN - step] = row[MARGIN + (x === "wrap" ? (2 * width - step) % width : mirror(-step, width))]!;
    const past = width - 1 + step;
    row[MARGIN + past] = row[MARGIN + (x === "wrap" ? past % width : mirror(past, width))]!;
  }
}

/** One row with twice as many pixels, smooth. The row that is written has room for one more. */
function expandRow(
  data: Float32Array,
  from: number,
  width: number,
  to: Float32Array,
  toWidth: number,
  { x: edge }: Edges,
): void {
  const wraps = edge === "wrap";
  let last = data[from + (wraps ? width - 1 : width > 1 ? 1 : 0)]!;
  let own = data[from]!;
  for (let x = 1, at = 0; at < toWidth; x++, at += 2) {
    const next = x < width ? data[from + x]! : wraps ? data[from]! : own;
    to[at] = (last + 6 * own + next) * 0.125;
    to[at + 1] = (own + next) * 0.5;
    last = own;
    own = next;
  }
}

/** One row with twice as many pixels, linear between them; past the lower edge the last row goes on. */
function doubleRow(
  { width, height, data }: Plane,
  y: number,
  to: Float32Array,
  toWidth: number,
  { x: edge }: Edges,
): void {
  const from = Math.min(y, height - 1) * width;
  const wraps = edge === "wrap";
  let own = data[from]!;
  for (let x = 1, at = 0; at < toWidth; x++, at += 2) {
    const next = x < width ? data[from + x]! : wraps ? data[from]! : own;
    to[at] = own;
    to[at + 1] = (own + next) * 0.5;
    own = next;
  }
}

/** The place inside that mirrors one past an edge, as often as needed. */
function mirror(at: number, size: number): number {
  if (at >= 0 && at < size) return at;
  if (size === 1) return 0;
  const period = 2 * size - 2;
  const place = ((at % period) + period) % period;
  return place < size ? place : period - place;
}
