/** A table's file made into yarns and held against the shelf; and a shelf made into a table. */
import { isFault, type Outcome, type Problem } from "../base/problem.ts";
import { readStashTable, type StashTable, type TableReading } from "../intake/stashTable.ts";
import { textOfTable, type Encoding } from "../intake/tableText.ts";
import { mergeStash, type StashMerge } from "../yarn/mergeStash.ts";
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
  /** Yarns that would come in: those with a shade, and estimated ones where these are wanted. */
  yarns: Yarn[];
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
  const yarns = [...table.yarns, ...(question.named === "estimated" ? estimated(table) : [])];
  const merge = mergeStash(question.have ?? [], yarns);
  return { value: { table, encoding: text.value.encoding, yarns, merge }, problems };
}

function estimated({ unshaded, byName }: StashTable): Yarn[] {
  return unshaded.flatMap((yarn) => {
    const named = byName[yarn.id];
    if (!named) return [];
    const lab = named.lab.map((part) => Math.round(part * 10) / 10);
    const { id, name, ...rest } = yarn;
    return [{ id, name, shade: { lab, uncertainty: named.uncertainty, from: "eye" as const }, ...rest }];
  });
}
