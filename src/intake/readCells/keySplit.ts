/** Near-equal colours are kept apart where the key has them both. */
import { deltaE2000 } from "../../colour/difference.ts";
import type { Lab } from "../../colour/lab.ts";

/** ΔE00 within which an entry of the key is of a kind of cells: a key is lit a little otherwise than its chart. */
const OF_KIND = 10;
/** Part of the entries' distance that the parts must be from each other at least, and may scatter at most. */
const APART = 0.55;
const SCATTERS = 0.3;
/** ΔE00 below which two entries are one colour for anybody. */
const SAME_ENTRY = 1.5;
const ROUNDS = 4;

/** The cells of kinds, some of them cut in parts; `entries` are the key's colours in the light of the cells. */
export function splitByKey(
  kinds: readonly (readonly number[])[],
  labs: readonly Lab[],
  entries: readonly Lab[],
): number[][] {
  const middles = kinds.map((cells) => meanOf(labs, cells));
  const own: Lab[][] = kinds.map(() => []);
  for (const entry of entries) {
    const apart = middles.map((lab) => deltaE2000(lab, entry));
    const nearest = apart.indexOf(Math.min(...apart));
    if (
      nearest < 0 ||
      apart[nearest]! > OF_KIND ||
      own[nearest]!.some((other) => deltaE2000(other, entry) < SAME_ENTRY)
    )
      continue;
    own[nearest]!.push(entry);
  }
  return kinds.flatMap((cells, kind) => (own[kind]!.length < 2 ? [[...cells]] : cut(cells, labs, own[kind]!)));
}

/** In as many parts as entries have cells, or in one where they do not stand apart as the entries do. */
function cut(cells: readonly number[], labs: readonly Lab[], entries: readonly Lab[]): number[][] {
  const whole = [[...cells]];
  const middle = meanOf(labs, cells);
  let best: { parts: number[][]; cost: number } | null = null;
  for (const most of entries) {
    // Most cells are of one of them: that one tells how the key's light differs.
    let centres = entries.map(
      (entry): Lab => [0, 1, 2].map((axis) => entry[axis]! + middle[axis]! - most[axis]!) as unknown as Lab,
    );
    let parts: number[][] = [];
    let cost = 0;
    for (let round = 0; round < ROUNDS; round++) {
      parts = centres.map(() => []);
      cost = 0;
      for (const cell of cells) {
        const away = centres.map((centre) => apart(labs[cell]!, centre));
        const nearest = away.indexOf(Math.min(...away));
        parts[nearest]!.push(cell);
        cost += away[nearest]! ** 2;
      }
      centres = centres.map((centre, index) => (parts[index]!.length > 0 ? meanOf(labs, parts[index]!) : centre));
    }
    if (!best || cost < best.cost) best = { parts, cost };
  }
  const { parts } = best!;
  const filled = parts.flatMap((part, index) =>
    part.length > 0 ? [{ part, entry: entries[index]!, lab: meanOf(labs, part) }] : [],
  );
  for (const [one, first] of filled.entries())
    for (const second of filled.slice(0, one)) {
      const distance = apart(first.lab, second.lab);
      if (distance < APART * apart(first.entry, second.entry)) return whole;
      const scatter = Math.sqrt(
        [first, second].reduce(
          (sum, { part, lab }) =>
            sum + part.reduce((inner, cell) => inner + along(labs[cell]!, lab, first.lab, second.lab) ** 2, 0),
          0,
        ) /
          (first.part.length + second.part.length),
      );
      if (scatter > SCATTERS * distance) return whole;
    }
  return filled.map(({ part }) => part);
}

const apart = (one: Lab, other: Lab): number => Math.hypot(one[0] - other[0], one[1] - other[1], one[2] - other[2]);

/** How far a colour lies from its middle along the way between two. */
function along(lab: Lab, middle: Lab, from: Lab, to: Lab): number {
  return (
    [0, 1, 2].reduce((sum, axis) => sum + (lab[axis]! - middle[axis]!) * (to[axis]! - from[axis]!), 0) / apart(from, to)
  );
}

function meanOf(labs: readonly Lab[], cells: readonly number[]): Lab {
  const part = (axis: 0 | 1 | 2): number => cells.reduce((sum, cell) => sum + labs[cell]![axis], 0) / cells.length;
  return [part(0), part(1), part(2)];
}
