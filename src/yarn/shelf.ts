/** Her shelf and a project's copies of what stands on it: which yarn is which, and what goes from one to the other. */
import type { Yarn } from "./yarn.ts";

/**
 * The yarn on the shelf that a project's yarn is a copy of: by its link, or, where it has none, by the same id and the same
 * name; two projects number their yarns alike without meaning the same ones.
 */
export function onShelf(shelf: readonly Yarn[], yarn: Yarn): Yarn | null {
  if (yarn.shelf !== undefined) return shelf.find(({ id }) => id === yarn.shelf) ?? null;
  return shelf.find(({ id, name }) => id === yarn.id && name === yarn.name) ?? null;
}

/** Copies for a project that has the yarns `have`, under ids that are free there; what lies there already is left out. */
export function laidOut(have: readonly Yarn[], shelf: readonly Yarn[], chosen: readonly Yarn[]): Yarn[] {
  const there = new Set(have.map((yarn) => onShelf(shelf, yarn)?.id));
  const taken = new Set(have.map(({ id }) => id));
  return chosen
    .filter(({ id }) => !there.has(id))
    .map((yarn) => ({ ...yarn, id: freeIdFor(yarn.id, taken), shelf: yarn.id }));
}

/** Yarns of a project or of a table as they will stand on the shelf, under ids that are free there. */
export function shelved(shelf: readonly Yarn[], yarns: readonly Yarn[]): Yarn[] {
  const taken = new Set(shelf.map(({ id }) => id));
  return yarns.map(({ shelf: _copyOf, ...yarn }) => ({ ...yarn, id: freeIdFor(yarn.id, taken) }));
}

/** The id itself, or with the first number from 2 that is free; taken from then on. */
function freeIdFor(id: string, taken: Set<string>): string {
  let free = id;
  for (let number = 2; taken.has(free); number++) free = `${id}-${number}`;
  taken.add(free);
  return free;
}
