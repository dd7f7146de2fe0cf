/** Yarns that come in, held against those she has: what is new, what has changed, what is the same, and what only she can tell. */
import type { Problem } from "../base/problem.ts";
import { deltaE2000 } from "../colour/difference.ts";
import { labOfShade, type Shade, type ShadeSource } from "../colour/shade.ts";
import { gramsOwned } from "./lots.ts";
import { mergeAmounts } from "./mergeLots.ts";
import { shadeWords } from "./fieldWords.ts";
import { shelved } from "./shelf.ts";
import { hasShade } from "./stash.ts";
import { DEFAULT_UNCERTAINTY, type Yarn } from "./yarn.ts";

export interface StashMerge {
  /** Under ids that are free beside hers. */
  added: Yarn[];
  changed: StashChange[];
  /** Hers, of which the incoming ones tell nothing new. */
  same: Yarn[];
  /** Incoming yarns without a shade that are none of hers: nothing can be made of them yet. */
  unshaded: Yarn[];
  /** What was kept as she has it although the incoming yarn differs, and why. */
  doubts: Problem[];
}

export interface StashChange {
  before: Yarn;
  after: Yarn;
  /** Those that differ between the two; one that `after` lacks is taken away. */
  fields: (keyof Yarn)[];
}

/**
 * Nothing of hers is lost: what the incoming yarns do not tell stays, notes are added to, lots are added and not doubled. A
 * shade that is better known (by its uncertainty, and by how it is known) is kept, and so is a lot that was put on the scales;
 * each is told in `doubts`. The same yarns in again change nothing.
 */
export function mergeStash(have: readonly Yarn[], incoming: readonly Yarn[]): StashMerge {
  const matches = matched(have, incoming);
  const merge: StashMerge = { added: [], changed: [], same: [], unshaded: [], doubts: [] };
  const fresh: Yarn[] = [];
  incoming.forEach((yarn, index) => {
    const before = matches[index];
    if (!before) {
      (hasShade(yarn) ? fresh : merge.unshaded).push(yarn);
      return;
    }
    const after = mergedYarn(before, yarn, merge.doubts);
    const fields = fieldsOf(before, after);
    if (fields.length === 0) merge.same.push(before);
    else merge.changed.push({ before, after, fields });
  });
  merge.added = shelved(have, fresh);
  return merge;
}

/** The shelf after a merge: hers in their order, changed where they are, then the new ones. */
export function mergedStash(have: readonly Yarn[], { added, changed }: StashMerge): Yarn[] {
  const after = new Map(changed.map(({ before, after }) => [before.id, after]));
  return [...have.map((yarn) => after.get(yarn.id) ?? yarn), ...added];
}

/** Which of hers each incoming yarn is; each of hers once. By id first, then by name. */
function matched(have: readonly Yarn[], incoming: readonly Yarn[]): (Yarn | undefined)[] {
  const byId = new Map(have.map((yarn) => [yarn.id, yarn]));
  const byName = new Map<string, Yarn[]>();
  for (const yarn of have)
    byName.set(nameKey(yarn), [...(byName.get(nameKey(yarn)) ?? []).slice(-MOST_COMPARED), yarn]);
  const namesakes = new Map<string, number>();
  for (const yarn of incoming) namesakes.set(nameKey(yarn), (namesakes.get(nameKey(yarn)) ?? 0) + 1);
  const used = new Set<Yarn>();
  const matches = incoming.map((yarn) => {
    const own = byId.get(yarn.id);
    if (!own || used.has(own) || !isSameById(own, yarn)) return undefined;
    used.add(own);
    return own;
  });
  return incoming.map((yarn, index) => {
    if (matches[index]) return matches[index];
    const free = (byName.get(nameKey(yarn)) ?? []).filter((own) => !used.has(own) && sameMaker(own, yarn));
    const far = (own: Yarn): number => apart(own, yarn) ?? 0;
    const nearest = free.toSorted((one, other) => far(one) - far(other))[0];
    const alone = free.length === 1 && namesakes.get(nameKey(yarn)) === 1;
    if (!nearest || (!alone && far(nearest) > SAME_SHADE)) return undefined;
    used.add(nearest);
    return nearest;
  });
}

/** An id alone may be chance: two lists number their yarns alike. */
function isSameById(own: Yarn, yarn: Yarn): boolean {
  const near = (apart(own, yarn) ?? Infinity) <= SAME_SHADE;
  if (nameKey(own) !== nameKey(yarn)) return near && sameMaker(own, yarn) && !/^\d+$/.test(yarn.id);
  // The maker was put right in a table of hers, or it is another maker's yarn of that name.
  return (
    sameMaker(own, yarn) || (near && gramsOwned(own) === gramsOwned(yarn) && own.metresPer100g === yarn.metresPer100g)
  );
}

const nameKey = ({ name }: Yarn): string => plain(name);
const plain = (text: string): string => text.toLowerCase().replace(/\s+/g, " ").trim();
const sameMaker = ({ maker }: Yarn, other: Yarn): boolean =>
  maker === undefined || other.maker === undefined || plain(maker) === plain(other.maker);

/** CIEDE2000; null where one of them has no shade of its own. */
const apart = (one: Yarn, other: Yarn): number | null =>
  one.shade && other.shade ? deltaE2000(labOfShade(one.shade), labOfShade(other.shade)) : null;

function mergedYarn(before: Yarn, yarn: Yarn, doubts: Problem[]): Yarn {
  const keep = (what: string, hers: string, theirs: string): void => {
    doubts.push({
      where: `${before.name}, ${what}`,
      expected: hers,
      got: `${theirs}; kept as it is`,
      severity: "doubt",
    });
  };
  const after: Yarn = { ...mergeAmounts(before, yarn, keep) };
  if (nameKey(before) !== nameKey(yarn)) after.name = yarn.name;
  for (const field of ["maker", "fibre"] as const) {
    const [own, told] = [before[field], yarn[field]];
    if (told !== undefined && (own === undefined || plain(own) !== plain(told))) after[field] = told;
  }
  for (const field of ["plies", "weightClass"] as const) if (yarn[field] !== undefined) after[field] = yarn[field];
  for (const field of ["superwash", "handDyed"] as const) if (yarn[field] !== undefined) after[field] = yarn[field];
  const [thickness, told] = [before.metresPer100g, yarn.metresPer100g];
  if (told !== undefined && (thickness === undefined || Math.abs(told - thickness) > SAME_LENGTH * thickness))
    after.metresPer100g = told;
  if (yarn.note !== undefined && !before.note?.includes(yarn.note))
    after.note =
      before.note === undefined || yarn.note.includes(before.note) ? yarn.note : `${before.note} ${yarn.note}`;
  const shade = mergedShade(before.shade, yarn.shade, keep);
  if (shade) after.shade = shade;
  if (yarn.flecks && !alike(before.flecks, yarn.flecks)) {
    if (before.flecks?.some((fleck) => isSeen(fleck.shade)) && !yarn.flecks.some((fleck) => isSeen(fleck.shade)))
      keep("its flecks", "her own, as she looked at them", "others");
    else after.flecks = yarn.flecks;
  }
  return after;
}

function mergedShade(
  own: Shade | undefined,
  told: Shade | undefined,
  keep: (what: string, hers: string, theirs: string) => void,
): Shade | undefined {
  if (!told || !own) return told ?? own;
  const sameHex = told.hex === undefined || told.hex.toLowerCase() === own.hex?.toLowerCase();
  if (sameHex && (told.lab === undefined || alike(told.lab, own.lab))) {
    const { hex: _, ...rest } = told;
    return { ...own, ...rest };
  }
  if (!isBetterKnown(own, told)) return told;
  if (deltaE2000(labOfShade(own), labOfShade(told)) > UNSEEN) keep("its shade", shadeWords(own), shadeWords(told));
  return own;
}

/** The smaller range, and with the same range the better source. What a table says without a range has not been measured. */
function isBetterKnown(own: Shade, told: Shade): boolean {
  const measured = own.from === "photo" || own.from === "screen";
  if (measured && told.from === undefined && told.uncertainty === undefined) return true;
  const [ours, theirs] = [own, told].map(({ uncertainty }) => uncertainty ?? DEFAULT_UNCERTAINTY) as [number, number];
  if (ours !== theirs) return ours < theirs;
  if (told.from === undefined) return isSeen(own);
  return TRUST[own.from ?? "label"] > TRUST[told.from];
}

const isSeen = ({ from }: Shade): boolean => from === "photo" || from === "screen" || from === "eye";

/** Which of two shades with the same range is believed; our choice. */
const TRUST: Readonly<Record<ShadeSource, number>> = { photo: 4, screen: 3, label: 2, eye: 1, picture: 0 };

function fieldsOf(before: Yarn, after: Yarn): (keyof Yarn)[] {
  const fields = new Set([...Object.keys(before), ...Object.keys(after)]) as Set<keyof Yarn>;
  return [...fields].filter((field) => !alike(before[field], after[field]));
}

/** The same content, in whatever order its fields stand. */
function alike(one: unknown, other: unknown): boolean {
  if (typeof one !== "object" || typeof other !== "object" || one === null || other === null)
    return Object.is(one, other);
  const fields = Object.keys(one);
  return (
    fields.length === Object.keys(other).length &&
    fields.every(
      (field) =>
        field in other && alike((one as Record<string, unknown>)[field], (other as Record<string, unknown>)[field]),
    )
  );
}

/** CIEDE2000 between two statements of one yarn's shade: twice the doubt about a stated shade. Our choice. */
const SAME_SHADE = 2 * DEFAULT_UNCERTAINTY;
/** CIEDE2000 below which two statements are of one shade: about what can just be seen (common practice, no source). */
const UNSEEN = 1;
/** Half a per cent: what rounding does to a length by weight. Our choice. */
const SAME_LENGTH = 0.005;
/** Yarns of one name that are held against each other. Our choice. */
const MOST_COMPARED = 40;
