/** Which pieces of a photograph look like the table: like what lies along the picture's edge, and what nothing was found in. */
import { PLANES, type Look } from "./look.ts";
import type { MergeTree } from "./mergeTree.ts";

/** Half as sure to be table is what looks like this part of the edge. Our choice, tried on painted tables. */
const HALF_SURE = 0.03;
/** Pieces of table that are looked at, those that count most. */
const MOST_LOOKED_AT = 400;

/**
 * How far each basin looks like the table, 0 to 1.
 *
 * @param taken a 1 for each pixel that surely is yarn; then all others count as table, half and half with the edge
 */
export function tableShares(
  { width, height }: Look,
  tree: MergeTree,
  basinAt: Int32Array,
  taken: Uint8Array | null,
): Float32Array {
  const weight = new Float64Array(tree.basins);
  const part = 1 / (2 * (width + height));
  for (let x = 0; x < width; x++) {
    weight[basinAt[x]!]! += part;
    weight[basinAt[(height - 1) * width + x]!]! += part;
  }
  for (let y = 0; y < height; y++) {
    weight[basinAt[y * width]!]! += part;
    weight[basinAt[y * width + width - 1]!]! += part;
  }
  if (taken) {
    const free = new Float64Array(tree.basins);
    let total = 0;
    taken.forEach((isTaken, at) => {
      if (isTaken) return;
      free[basinAt[at]!]!++;
      total++;
    });
    weight.forEach((own, basin) => {
      const isFree = free[basin]! > tree.area[basin]! / 2;
      weight[basin] = isFree ? own / 2 + free[basin]! / (2 * total) : 0;
    });
  }
  const looked = Array.from(weight.keys())
    .filter((basin) => weight[basin]! > 0)
    .toSorted((one, other) => weight[other]! - weight[one]! || one - other)
    .slice(0, MOST_LOOKED_AT);
  return Float32Array.from({ length: tree.basins }, (_, basin) => {
    let support = 0;
    for (const other of looked) if (other !== basin) support += weight[other]! * likeness(tree.means, basin, other);
    return support / (support + HALF_SURE);
  });
}

/**
 * How alike two pieces are, 0 to 1, whatever light falls on them: OKLab of a surface in half the light is the same three
 * numbers times ∛½, so the one is brought to the other's lightness first, and what that took counts little while it is
 * what a lamp or a window does over a table. The widths are our choice, tried on painted tables.
 */
function likeness(means: Float32Array, one: number, other: number): number {
  const at = PLANES * one;
  const to = PLANES * other;
  const scale = means[at]! / means[to]!;
  const light = Math.max(0, Math.abs(Math.log(scale)) - 0.04) / 0.08;
  if (light > 4) return 0;
  const a = (means[at + 1]! - scale * means[to + 1]!) / 1.6;
  const b = (means[at + 2]! - scale * means[to + 2]!) / 1.6;
  const texture = Math.log((means[at + 3]! + 0.15) / (scale * means[to + 3]! + 0.15)) / 0.5;
  return Math.exp(-0.5 * (a * a + b * b + light * light + texture * texture));
}
