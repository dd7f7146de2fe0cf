/** Words of the page of tables: what a column may mean, how a table is written, what an act would do. */
import type { Problem } from "../../base/problem.ts";
import type { Meaning, Sure } from "../../intake/tableHeaders.ts";
import type { Encoding } from "../../intake/tableText.ts";

export const MEANING_WORDS: Readonly<Record<Meaning, string>> = {
  id: "id",
  name: "name",
  maker: "maker",
  fibre: "fibre",
  "shade name": "name of the shade",
  "shade number": "number of the shade",
  hex: "colour code",
  lab: "Lab in one cell",
  L: "Lab: L*",
  a: "Lab: a*",
  b: "Lab: b*",
  uncertainty: "how far the shade may be off",
  "shade from": "how the shade is known",
  "metres per 100 g": "length by weight",
  "metres per ball": "length of a ball",
  "grams per ball": "weight of a ball",
  grams: "weight that is left",
  metres: "length that is left",
  balls: "number of balls",
  lot: "lot",
  "lot id": "lot’s id",
  weighed: "weighed, yes or no",
  "grams of all lots": "weight of all lots",
  plies: "plies",
  "weight class": "weight class",
  superwash: "superwash, yes or no",
  "hand-dyed": "hand-dyed, yes or no",
  flecks: "flecks",
  note: "note",
  "not used": "not used",
};

/** Why a column was taken so; by its heading goes without saying. */
export const SURE_WORDS: Readonly<Record<Sure, string>> = {
  known: "by its heading",
  cells: "by what stands in it",
  guess: "a guess, without a heading",
  chosen: "as you said",
};

export const SEPARATOR_WORDS: readonly (readonly [string, string])[] = [
  [",", "commas"],
  [";", "semicolons"],
  ["\t", "tabs"],
  ["|", "bars"],
];

export const ENCODING_WORDS: Readonly<Record<Encoding, string>> = {
  "utf-8": "UTF-8",
  "utf-16le": "UTF-16 (LE)",
  "utf-16be": "UTF-16 (BE)",
  "windows-1252": "Windows-1252",
};

export const counted = (count: number, one: string, many = `${one}s`): string => `${count} ${count === 1 ? one : many}`;

/** What was found, as it is told above all else. */
export function foundWords(
  found: number,
  { added, changed, same }: { readonly added: number; readonly changed: number; readonly same: number },
): string {
  const without = found - added - changed - same;
  const parts = [
    `${added} new`,
    `${changed} changed`,
    `${same} the same`,
    ...(without > 0 ? [`${without} without a shade`] : []),
  ];
  return `${counted(found, "yarn")} found: ${parts.join(", ")}.`;
}

/** Hers beside the table's, where hers was kept. */
export const keptWords = ({ where, expected, got }: Problem): string =>
  `${where}: you have ${expected}; the table has ${got}.`;

/** What the one act does; null where nothing is new. */
export function actWords(added: number, changed: number): string | null {
  if (added === 0 && changed === 0) return null;
  const put = `Put ${counted(added, "yarn")} on the shelf`;
  if (changed === 0) return put;
  return added === 0 ? `Change ${counted(changed, "yarn")}` : `${put} and change ${changed}`;
}

/** What was done, as it stands in the way back. */
export function doneWords(added: number, changed: number): string {
  const put = `${counted(added, "yarn")} put on the shelf`;
  if (changed === 0) return put;
  const change = `${counted(changed, "yarn")} changed`;
  return added === 0 ? change : `${put}, ${changed} changed`;
}
