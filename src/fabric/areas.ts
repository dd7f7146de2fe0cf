/** The areas of a piece of cloth: stitches that share one yarn are one area to the eye, whatever chart colours they come from. */
import { NO_STITCH } from "../chart/chart.ts";
import type { Lab } from "../colour/lab.ts";
import type { Cloth, Ink } from "./cloth.ts";
import type { Piece } from "./spectra.ts";

export interface Area {
  /** The yarn, or the pattern's own colour where there is none. */
  readonly key: string;
  readonly yarn: string | null;
  readonly lab: Lab;
  readonly uncertainty: number;
  /** Chart colours that lie in it here, in order of first stitch. */
  readonly colours: readonly string[];
  readonly stitches: number;
}

export interface AreaPiece {
  readonly piece: Piece;
  readonly areas: readonly Area[];
}

export const areaKeyOf = (ink: Ink): string => (ink.yarn === null ? `colour ${ink.colour}` : `yarn ${ink.yarn}`);

/** Rows `from` to `to` of a cloth as areas, once across their repeat. */
export function areasOf(cloth: Cloth, from: number, to: number): AreaPiece {
  const { width } = cloth.grid;
  const found = new Map<string, { ink: Ink; index: number; colours: Set<string>; stitches: number }>();
  const cells = new Uint8Array(width * (to - from + 1)).fill(NO_STITCH);
  for (let at = 0; at < cells.length; at++) {
    const inkIndex = cloth.cells[(from - 1) * width + at]!;
    if (inkIndex === NO_STITCH) continue;
    const ink = cloth.inks[inkIndex]!;
    const key = areaKeyOf(ink);
    let area = found.get(key);
    if (!area) found.set(key, (area = { ink, index: found.size, colours: new Set(), stitches: 0 }));
    area.colours.add(ink.colour);
    area.stitches += 1;
    cells[at] = area.index;
  }
  const areas = [...found].map(([key, { ink, colours, stitches }]) => ({
    key,
    yarn: ink.yarn,
    lab: ink.lab,
    uncertainty: ink.uncertainty,
    colours: [...colours],
    stitches,
  }));
  return { piece: onceAcross({ width, height: to - from + 1, cells, count: areas.length }), areas };
}

/** A piece cut to the smallest number of columns after which it recurs. */
function onceAcross(piece: Piece): Piece {
  const { width, height, cells } = piece;
  for (let period = 1; period < width; period++) {
    if (width % period !== 0 || !recursAfter(piece, period)) continue;
    const once = new Uint8Array(period * height);
    for (let y = 0; y < height; y++) for (let x = 0; x < period; x++) once[y * period + x] = cells[y * width + x]!;
    return { ...piece, width: period, cells: once };
  }
  return piece;
}

function recursAfter({ width, height, cells }: Piece, period: number): boolean {
  for (let y = 0; y < height; y++)
    for (let x = period; x < width; x++) if (cells[y * width + x] !== cells[y * width + x - period]) return false;
  return true;
}

/** Pairs of areas that touch by a side, the piece repeating sideways; `a` has fewer stitches, or comes first. */
export function touchingAreas({ piece, areas }: AreaPiece): { a: number; b: number }[] {
  const { width, height, cells, count } = piece;
  const touch = new Uint8Array(count * count);
  const meet = (one: number, other: number): void => {
    if (one !== other && one !== NO_STITCH && other !== NO_STITCH)
      touch[Math.min(one, other) * count + Math.max(one, other)] = 1;
  };
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      const here = cells[y * width + x]!;
      meet(here, cells[y * width + ((x + 1) % width)]!);
      if (y + 1 < height) meet(here, cells[(y + 1) * width + x]!);
    }
  }
  const pairs: { a: number; b: number }[] = [];
  for (let one = 0; one < count; one++)
    for (let other = one + 1; other < count; other++)
      if (touch[one * count + other])
        pairs.push(areas[one]!.stitches <= areas[other]!.stitches ? { a: one, b: other } : { a: other, b: one });
  return pairs;
}
