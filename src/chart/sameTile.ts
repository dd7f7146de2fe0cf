/** Whether two tiles are the same motif: shifted round the end, and in other colours where that is allowed. */
import { oncePer } from "../base/oncePer.ts";
import { NO_STITCH } from "./chart.ts";
import { turnsBetween } from "./recurrence.ts";
import type { Tile } from "./strip.ts";

export interface Sameness {
  /** Columns by which the second lies further on than the first, 0 up to the width: first[c] is second[c + shift]. */
  readonly shift: number;
  readonly recoloured: boolean;
}

/**
 * How the second tile is the first again, or null: in its own colours before others, then by the least shift. Other colours are one for one
 * throughout; a place without a stitch stays one.
 */
export function sameTile(first: Tile, second: Tile, colours: "same colours" | "any colours"): Sameness | null {
  if (first.width !== second.width || first.height !== second.height) return null;
  const there = edgesInRows(second);
  if (edgesInRows(first).some((edges, row) => edges !== there[row])) return null;
  let recoloured: Sameness | null = null;
  // Where edges between colours lie does not depend on the colours, so that few shifts are left to look at.
  for (const shift of turnsBetween(edgesOf(first), edgesOf(second))) {
    const found = sameAt(first, second, shift);
    if (found === "same colours") return { shift, recoloured: false };
    if (found === "other colours" && colours === "any colours") recoloured ??= { shift, recoloured: true };
  }
  return recoloured;
}

/** How often the colour changes along each row, round the end: what no shift and no recolouring alters. */
const edgesInRows = oncePer(({ width, height, cells }: Tile): Int32Array => {
  const edges = new Int32Array(height);
  for (let row = 0; row < height; row++) {
    let before = cells[(row + 1) * width - 1];
    for (let at = row * width; at < (row + 1) * width; at++) {
      const here = cells[at]!;
      if (here !== before) edges[row]! += 1;
      before = here;
    }
  }
  return edges;
});

/** For each column a number made of where it differs from its left neighbour and from row to row: equal for columns of equal edges. */
function edgesOf({ width, height, cells }: Tile): Int32Array {
  const edges = new Int32Array(width);
  for (let row = 0; row < height; row++) {
    const start = row * width;
    for (let column = 0; column < width; column++) {
      const here = cells[start + column]!;
      const beside = here === cells[start + (column + 1 === width ? 0 : column + 1)] ? 0 : 1;
      const below = row === 0 || here === cells[start - width + column] ? 0 : 2;
      const missing = here === NO_STITCH ? 4 : 0;
      // A mixing step after Knuth's multiplicative hash: what it confuses is looked at stitch by stitch afterwards.
      const mixed = Math.imul(edges[column]! ^ (beside + below + missing + 1), 0x9e3779b1);
      edges[column] = mixed ^ (mixed >>> 15);
    }
  }
  return edges;
}

function sameAt(first: Tile, second: Tile, shift: number): "same colours" | "other colours" | null {
  const { width, height } = first;
  const newName = new Int16Array(NO_STITCH + 1).fill(-1);
  const oldName = new Int16Array(NO_STITCH + 1).fill(-1);
  newName[NO_STITCH] = oldName[NO_STITCH] = NO_STITCH;
  let same = true;
  for (let row = 0; row < height; row++) {
    for (let column = 0; column < width; column++) {
      const one = first.cells[row * width + column]!;
      const other = second.cells[row * width + ((column + shift) % width)]!;
      if (newName[one] === -1 && oldName[other] === -1) {
        newName[one] = other;
        oldName[other] = one;
      } else if (newName[one] !== other || oldName[other] !== one) return null;
      same &&= one === other;
    }
  }
  return same ? "same colours" : "other colours";
}
