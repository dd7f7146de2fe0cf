/** Yarns of several pieces: variegated ones, and skeins with a paper band, which stand out from the table only as a whole. */
import { PLANES, type Look } from "./look.ts";
import type { Point } from "./homography.ts";
import { isWithin } from "./outline.ts";
import { areaOf, hullOf, shapeOf } from "./pieceShape.ts";
import { LEAST_AREA, scoreOf, sharedPart, type Proposal } from "./proposals.ts";

/** Less likely wholes are left in their pieces; our choice. */
const LEAST_SCORE = 0.6;
/** OKLab × 100, colour counted three times, from which two pieces are two yarns, if they are as sure and as large as this. Our choice. */
const OTHER_COLOUR = 9;
const SURE = 0.5;
const LARGE = 0.07;
/** One piece that is this part of a whole is taken to be it. Our choice. */
const NEARLY_ALL = 0.75;
/** A skein with a band fills its hull so far, and the two ends of it make up so much of it; two balls that touch do not. Our choice. */
const BANDED_SOLIDITY = 0.9;
const BANDED_PART = 0.4;

/**
 * Takes pieces together that are one yarn.
 *
 * @param isTable 1 where a pixel looks like the table
 */
export function joinedWholes(look: Look, isTable: Uint8Array, yarns: readonly Proposal[]): Proposal[] {
  let joined = joinedAcrossBands(look, isTable, yarns);
  for (const pixels of islands(look, isTable)) {
    const inside = new Uint8Array(look.width * look.height);
    for (const pixel of pixels) inside[pixel] = 1;
    const shape = shapeOf(pixels, (pixel) => inside[pixel] === 1, look);
    const score = scoreOf(shape, 1, 0, 0);
    if (score < LEAST_SCORE) continue;
    const within = joined.filter((yarn) => sharedPart(yarn, inside) > 0.6);
    if (within.some((yarn) => yarn.pixels.length > NEARLY_ALL * pixels.length)) continue;
    const large = within
      .filter((yarn) => yarn.score > SURE && yarn.pixels.length > LARGE * pixels.length)
      .toSorted((one, other) => other.pixels.length - one.pixels.length);
    const [first, second] = large;
    const isBanded =
      first !== undefined &&
      second !== undefined &&
      apart(first, second) < OTHER_COLOUR &&
      shape.solidity > BANDED_SOLIDITY &&
      first.pixels.length + second.pixels.length > BANDED_PART * pixels.length;
    const isSeveral = large.some((one) => large.some((other) => apart(one, other) > OTHER_COLOUR));
    if (isSeveral && !isBanded) continue;
    const whole = { pixels, shape, score, seen: new Float32Array(PLANES) };
    joined = joined.filter((yarn) => !within.includes(yarn));
    joined.push(isBanded ? { ...whole, core: first.pixels } : whole);
  }
  return joined;
}

/** The two ends of a skein are alike and of a size, neither is round, and so much of their common hull is the band between. Our choice. */
const SAME_COLOUR = 6;
const SAME_SIZE = 2.5;
const NOT_ROUND = 1.05;
const BAND = { least: 0.14, most: 0.5 };
/** So much of the band may look like the table; our choice. */
const BAND_LIKE_TABLE = 0.4;

function joinedAcrossBands(look: Look, isTable: Uint8Array, yarns: readonly Proposal[]): Proposal[] {
  const order = yarns.toSorted((one, other) => other.pixels.length - one.pixels.length);
  const gone = new Set<Proposal>();
  const wholes: Proposal[] = [];
  for (const one of order)
    for (const other of order) {
      if (one === other || gone.has(one) || gone.has(other) || one.pixels.length < other.pixels.length) continue;
      if (one.pixels.length > SAME_SIZE * other.pixels.length || apart(one, other) > SAME_COLOUR) continue;
      if (Math.min(one.shape.unround, other.shape.unround) < NOT_ROUND) continue;
      const hull = hullOf([...one.shape.hull, ...other.shape.hull]);
      const both = one.pixels.length + other.pixels.length;
      const band = 1 - both / Math.abs(areaOf(hull));
      if (band < BAND.least || band > BAND.most) continue;
      const pixels = pixelsWithin(hull, look.width);
      const inside = new Uint8Array(look.width * look.height);
      for (const pixel of pixels) inside[pixel] = 1;
      const shape = shapeOf(pixels, (pixel) => inside[pixel] === 1, look);
      if (shape.unround > BANDED_UNROUND) continue;
      for (const { pixels: end } of [one, other]) for (const pixel of end) inside[pixel] = 0;
      let like = 0;
      for (const pixel of pixels) like += inside[pixel]! * isTable[pixel]!;
      if (like > BAND_LIKE_TABLE * (pixels.length - both)) continue;
      for (const pixel of pixels) inside[pixel] = 1;
      for (const yarn of order) if (sharedPart(yarn, inside) > 0.6) gone.add(yarn);
      wholes.push({ pixels, shape, score: Math.min(one.score, other.score), seen: one.seen, core: one.pixels });
    }
  return [...order.filter((yarn) => !gone.has(yarn)), ...wholes];
}

/** A skein is long and rounded; two ends of two skeins have a hull with corners. Our choice. */
const BANDED_UNROUND = 1.12;

/** Pixels whose middles lie within a polygon. */
function pixelsWithin(outline: readonly Point[], width: number): Int32Array {
  const pixels: number[] = [];
  const across = outline.map(([x]) => x);
  const down = outline.map(([, y]) => y);
  for (let y = Math.floor(Math.min(...down)); y < Math.max(...down); y++)
    for (let x = Math.floor(Math.min(...across)); x < Math.max(...across); x++)
      if (isWithin(outline, x + 0.5, y + 0.5)) pixels.push(y * width + x);
  return Int32Array.from(pixels);
}

function apart({ seen: one }: Proposal, { seen: other }: Proposal): number {
  return Math.hypot(one[0]! - other[0]!, 3 * (one[1]! - other[1]!), 3 * (one[2]! - other[2]!));
}

/** Connected parts of what is no table, once specks and threads thinner than this many pixels to each side are gone. */
const THREAD = 3;

function islands({ width, height }: Look, isTable: Uint8Array): Int32Array[] {
  let mask = isTable.map((table) => 1 - table);
  for (let pass = 0; pass < THREAD; pass++) mask = grown(mask, width, height, 0);
  for (let pass = 0; pass < THREAD; pass++) mask = grown(mask, width, height, 1);
  const found: Int32Array[] = [];
  const seen = new Uint8Array(mask.length);
  for (let start = 0; start < mask.length; start++) {
    if (!mask[start] || seen[start]) continue;
    const list = [start];
    seen[start] = 1;
    for (let next = 0; next < list.length; next++) {
      const at = list[next]!;
      const x = at % width;
      const around = [x > 0 ? at - 1 : -1, x < width - 1 ? at + 1 : -1, at - width, at + width];
      for (const other of around)
        if (mask[other] && !seen[other]) {
          seen[other] = 1;
          list.push(other);
        }
    }
    if (list.length >= LEAST_AREA * mask.length) found.push(Int32Array.from(list));
  }
  return found;
}

/** The mask with every pixel set that lies beside one of that value. */
function grown(mask: Uint8Array<ArrayBuffer>, width: number, height: number, value: 0 | 1): Uint8Array<ArrayBuffer> {
  const out = mask.slice();
  for (let y = 0, at = 0; y < height; y++)
    for (let x = 0; x < width; x++, at++) {
      const meets =
        (x > 0 && mask[at - 1] === value) ||
        (x < width - 1 && mask[at + 1] === value) ||
        (y > 0 && mask[at - width] === value) ||
        (y < height - 1 && mask[at + width] === value);
      if (meets) out[at] = value;
    }
  return out;
}
