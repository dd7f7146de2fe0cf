/** A table's file made into yarns and held against the shelf; and a shelf made into a table. */
import { isFault, type Outcome, type Problem } from "../base/problem.ts";
import { readStashTable, type StashTable, type TableReading } from "../intake/stashTable.ts";
import { textOfTable, type Encoding } from "../intake/tableText.ts";
import { mergeStash, type StashMerge } from "../yarn/mergeStash.ts";
import { shelved } from "../yarn/shelf.ts";
import type { Yarn } from "../yarn/yarn.ts";

export { stashTableText } from "../intake/stashTableText.ts";
export type { ColumnPreview, StashTable, TableReading } from "../intake/stashTable.ts";
export type { Encoding } from "../intake/tableText.ts";
export type { StashChange, StashMerge } from "../yarn/mergeStash.ts";

export interface StashQuestion extends TableReading {
  /** What she has already. */
  readonly have?: readonly Yarn[] | undefined;
  /** Yarns of which only a colour's name is known: with the shade that the name means, by eye and with its wide range, or left out. */
  readonly named?: "estimated" | "left out" | undefined;
  readonly encoding?: Encoding | undefined;
}

export interface StashAnswer {
  table: StashTable;
  /** Null where the table came as text. */
  encoding: Encoding | null;
  /** Yarns that have a shade, with those that were estimated. */
  yarns: Yarn[];
  /** Of the yarns without a shade that are none of hers, those that got one by its name. */
  estimated: Yarn[];
  merge: StashMerge;
}

/** A file's bytes, or text that was pasted. No value where it is no table, or where nothing of it is a yarn. */
export function stashOfTable(source: Uint8Array | string, question: StashQuestion = {}): Outcome<StashAnswer> {
  const text =
    typeof source === "string"
      ? { value: { text: source, encoding: null }, problems: [] }
      : textOfTable(source, question.encoding);
  if (!text.value) return { value: null, problems: text.problems };
  const table = readStashTable(text.value.text, question);
  const problems: Problem[] = [...text.problems, ...table.problems];
  if (table.yarns.length + table.unshaded.length === 0 && problems.some(isFault) && table.preview.length === 0)
    return { value: null, problems };
  const have = question.have ?? [];
  const merge = mergeStash(have, [...table.yarns, ...table.unshaded]);
  const estimated = question.named === "estimated" ? byTheirNames(merge.unshaded, table) : [];
  merge.added = [...merge.added, ...shelved([...have, ...merge.added], estimated)];
  // The shade of a yarn that she has is known.
  const strangers = new Set(merge.unshaded.map(({ id }) => id));
  const known = new Set(Object.entries(table.noShade).flatMap(([id, told]) => (strangers.has(id) ? [] : [told])));
  return {
    value: { table, encoding: text.value.encoding, yarns: [...table.yarns, ...estimated], estimated, merge },
    problems: problems.filter((problem) => !known.has(problem)),
  };
}

/** By eye, and as wide as what people call so. */
function byTheirNames(unshaded: readonly Yarn[], { byName }: StashTable): Yarn[] {
  return unshaded.flatMap((yarn) => {
    const named = byName[yarn.id];
    if (!named) return [];
    const lab = named.lab.map((part) => Math.round(part * 10) / 10);
    const { id, name, ...rest } = yarn;
    return [{ id, name, shade: { lab, uncertainty: named.uncertainty, from: "eye" as const }, ...rest }];
  });
}
