/** Which colours weigh about alike: visual weight is an estimate, and no rank closer than a tenth is told. */

/** Birthplace: docs/vision.md C3. */
const ONE_RANK = 1.1;

/** Shares below this much of the whole are all "under 1 %", and have no rank among each other. */
const LEAST_TOLD = 0.01;

/**
 * Groups from heaviest to lightest. Within a group each is lighter than its heaviest by less than a tenth, and they stand in the
 * order in which they came.
 */
export function alikeGroups<T extends { readonly share: number }>(lines: readonly T[]): T[][] {
  const groups: T[][] = [];
  for (const line of lines.toSorted((a, b) => b.share - a.share)) {
    const heaviest = groups.at(-1)?.[0]?.share ?? Infinity;
    if (line.share * ONE_RANK > heaviest || heaviest < LEAST_TOLD) groups.at(-1)!.push(line);
    else groups.push([line]);
  }
  const place = new Map(lines.map((line, at) => [line, at]));
  return groups.map((group) => group.toSorted((a, b) => place.get(a)! - place.get(b)!));
}
