/** The shelf as a table would leave it, and what the same act does to the project's copies of yarns that it changes. */
import type { Edit } from "../../document/edit.ts";
import type { YarnFields } from "../../document/plainEdit.ts";
import type { Shelf } from "../../document/shelf.ts";
import { mergedStash, type StashChange, type StashMerge } from "../../yarn/mergeStash.ts";
import { onShelf } from "../../yarn/shelf.ts";
import type { Yarn } from "../../yarn/yarn.ts";

/** `left`: ids of her yarns that she leaves as they are. */
export function takenOf({ changed }: StashMerge, left: ReadonlySet<string>): StashChange[] {
  return changed.filter(({ before }) => !left.has(before.id));
}

export const shelfAfter = (shelf: Shelf, merge: StashMerge, changed: StashChange[]): Shelf => ({
  ...shelf,
  yarns: mergedStash(shelf.yarns, { ...merge, changed }) as Shelf["yarns"],
});

/** Copies on the bench get what has changed, and keep the rest as it is there. */
export function copyEdits(shelf: readonly Yarn[], project: readonly Yarn[], changed: readonly StashChange[]): Edit[] {
  const byId = new Map(changed.map((change) => [change.before.id, change]));
  return project.flatMap((copy): Edit[] => {
    const change = byId.get(onShelf(shelf, copy)?.id ?? "");
    return change ? [{ kind: "changeYarn", yarn: copy.id, fields: fieldsOf(change) }] : [];
  });
}

const fieldsOf = ({ after, fields }: StashChange): YarnFields =>
  Object.fromEntries(fields.map((field) => [field, after[field] ?? null]));
