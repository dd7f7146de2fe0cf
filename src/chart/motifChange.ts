/** Where one motif gives way to another in rows of the same colours, without a plain row between. */

interface MotifRow {
  /** Equal for rows that part their stitches in the same way. */
  readonly shape: string;
  /** Stitches after which the row recurs. */
  readonly repeat: number;
}

/** Fewer rows than these are no motif of their own but the edge of one. Our choice. */
const LOWEST_MOTIF = 3;

/**
 * Parts rows of the same colours into motifs, lowest first, as indices [start, end) into the rows. There are several
 *
 * - where the rows' repeats change so that neither goes into the other (8 below, 6 above), or
 * - where the rows as a whole neither mirror about a row nor recur, but fall into motifs that each mirror about a row of its own.
 *
 * A part is at least three rows high; where that cannot be, all the rows are one motif.
 */
export function motifsIn(rows: readonly MotifRow[]): readonly (readonly [number, number])[] {
  if (rows.length < 2 * LOWEST_MOTIF) return [[0, rows.length]];
  const all: Part = [0, rows.length];
  const byRepeat = partsByRepeat(rows);
  const parts =
    byRepeat.length > 1 && (!mirrors(rows, all) || byRepeat.every((part) => mirrors(rows, part))) ? byRepeat : [all];
  return parts.flatMap((part) => (mirrors(rows, part) || recurs(rows, part) ? [part] : partsByMirror(rows, part)));
}

type Part = readonly [number, number];

function partsByRepeat(rows: readonly MotifRow[]): Part[] {
  const parts: Part[] = [];
  let start = 0;
  let repeat = 1;
  rows.forEach((row, index) => {
    const larger = Math.max(repeat, row.repeat);
    if (larger % repeat === 0 && larger % row.repeat === 0) repeat = larger;
    else {
      parts.push([start, index]);
      start = index;
      repeat = row.repeat;
    }
  });
  parts.push([start, rows.length]);
  return parts.every(([from, to]) => to - from >= LOWEST_MOTIF) ? parts : [[0, rows.length]];
}

/** The fewest motifs that each mirror and together are all of the part; the part itself where it does not fall into such. */
function partsByMirror(rows: readonly MotifRow[], part: Part): Part[] {
  const [from, to] = part;
  const best: (readonly Part[] | undefined)[] = [[]];
  for (let end = LOWEST_MOTIF; end <= to - from; end++) {
    for (let start = 0; start <= end - LOWEST_MOTIF; start++) {
      const before = best[start];
      const motif: Part = [from + start, from + end];
      if (!before || before.length + 1 >= (best[end]?.length ?? Infinity)) continue;
      if (mirrors(rows, motif) && !isAllAlike(rows, motif)) best[end] = [...before, motif];
    }
  }
  return [...(best[to - from] ?? [part])];
}

function mirrors(rows: readonly MotifRow[], [start, end]: Part): boolean {
  for (let low = start, high = end - 1; low < high; low++, high--)
    if (rows[low]!.shape !== rows[high]!.shape) return false;
  return true;
}

/** At least twice over, upwards. */
function recurs(rows: readonly MotifRow[], [start, end]: Part): boolean {
  for (let step = 1; 2 * step <= end - start; step++) {
    let row = start + step;
    while (row < end && rows[row]!.shape === rows[row - step]!.shape) row += 1;
    if (row === end) return true;
  }
  return false;
}

const isAllAlike = (rows: readonly MotifRow[], [start, end]: Part): boolean =>
  rows.slice(start, end).every(({ shape }) => shape === rows[start]!.shape);
