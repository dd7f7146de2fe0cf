/** `stash`: yarns out of a table, held against her shelf; a shelf or a table made of them. */
import { isFault, type Problem } from "../../base/problem.ts";
import type { Shelf } from "../../document/shelf.ts";
import { readShelf, writeShelf } from "../../document/shelf.ts";
import { EMPTY_SHELF } from "../../document/shelfEdit.ts";
import { MEANINGS, type Meaning } from "../../intake/tableHeaders.ts";
import { ENCODINGS } from "../../intake/tableText.ts";
import { stashOfTable, stashTableText, type StashAnswer, type StashQuestion } from "../../jobs.ts";
import { mergedStash } from "../../yarn/mergeStash.ts";
import type { Given } from "../args.ts";
import { WRITE_OPTIONS, type Command } from "../command.ts";
import { checkWritable, readBytes, readText, writeWhole } from "../files.ts";
import { EXIT, Refusal } from "../io.ts";
import { nearestWord } from "../nearest.ts";
import { badInput } from "../projectFile.ts";
import { stashJson, stashReport } from "../reports/stash.ts";

export const stashCommand: Command = {
  name: "stash",
  summary: "Reads a table of yarns as a spreadsheet saves it, and keeps them on a shelf.",
  operands: [{ name: "FILE", required: true }],
  options: {
    shelf: { value: "FILE", help: "what she has, NAME.twostrand-shelf.json; the table is held against it" },
    out: { value: "FILE", help: "a shelf (.json) or a table (.csv) of all there is then" },
    column: {
      value: "HEADING=MEANING",
      help: "what a column means, by heading or number; may be given again",
      many: true,
    },
    separator: { value: "SIGN", help: "what parts the cells: , ; | or tab; found out by default" },
    decimal: { value: "SIGN", help: "comma or point; found out by default" },
    encoding: { value: "NAME", help: `${ENCODINGS.join(", ")}; found out by default` },
    "by-name": { help: "yarns with only a colour's name get its shade, an estimate with a wide range" },
    ...WRITE_OPTIONS,
  },
  details: [
    "Columns are known by their headings in many languages: name, hex or lab, grams, metres per 100 g, lot and more.",
    `Meanings: ${MEANINGS.join(", ")}.`,
    "With --shelf the same table in again changes nothing, and a shade that is better known is kept. FILE may be a shelf too: with --out it becomes a table.",
  ],
  example: "twostrand stash leftovers.csv --shelf mine.twostrand-shelf.json --out new.twostrand-shelf.json",
  run: async (given) => {
    const [path, shelfPath, out] = [given.operand(0), given.text("shelf"), given.text("out")];
    const writing = { force: given.flag("force"), inputs: [path, ...(shelfPath === undefined ? [] : [shelfPath])] };
    if (out !== undefined && !/\.(?:json|csv|tsv|txt)$/i.test(out))
      throw new Refusal(EXIT.usage, `--out: expected a name that ends in .json or .csv, found ${JSON.stringify(out)}.`);
    const question = questionOf(given);
    if (out !== undefined) await checkWritable(out, writing);
    const shelf = shelfPath === undefined ? EMPTY_SHELF : shelfIn(shelfPath, await readText(shelfPath));
    const { answer, problems } = await yarnsIn(path, { ...question, have: shelf.yarns });
    const all: Shelf = { ...shelf, yarns: mergedStash(shelf.yarns, answer.merge) as Shelf["yarns"] };
    if (out !== undefined)
      await writeWhole(out, /\.json$/i.test(out) ? writeShelf(all) : tableOf(all, out, question), writing);
    const against = shelfPath !== undefined;
    return {
      json: { ...stashJson(answer, { problems, against }), ...(out === undefined ? {} : { file: out }) },
      text: () => stashReport(answer, { against, out, kept: all.yarns.length }),
      problems: against ? [...problems, ...answer.merge.doubts] : problems,
    };
  },
};

function tableOf(shelf: Shelf, out: string, { separator, decimal }: StashQuestion): string {
  return stashTableText(shelf.yarns, { separator: separator ?? (/\.tsv$/i.test(out) ? "\t" : undefined), decimal });
}

/** A shelf begins as JSON does; anything else is a table. */
async function yarnsIn(path: string, question: StashQuestion): Promise<{ answer: StashAnswer; problems: Problem[] }> {
  const bytes = await readBytes(path);
  const opening = [...bytes.subarray(0, 64)].find((byte) => byte > 0x20 && byte < 0x80);
  const source = opening === 0x7b ? stashTableText(shelfIn(path, await readText(path)).yarns) : bytes;
  const { value, problems } = stashOfTable(source, opening === 0x7b ? { have: question.have } : question);
  if (!value || (value.table.yarns.length + value.table.unshaded.length === 0 && problems.some(isFault)))
    throw badInput(path, problems);
  return { answer: value, problems };
}

function shelfIn(path: string, text: string): Shelf {
  const { value, problems } = readShelf(text);
  if (!value) throw badInput(path, problems);
  return value;
}

function questionOf(given: Given): StashQuestion {
  const decimal = given.choice("decimal", ["point", "comma", ".", ","] as const);
  const separator = given.choice("separator", [",", ";", "|", "tab"] as const);
  return {
    columns: columnsIn(given.texts("column")),
    separator: separator === "tab" ? "\t" : separator,
    decimal: decimal === undefined ? undefined : decimal === "comma" || decimal === "," ? "," : ".",
    encoding: given.choice("encoding", ENCODINGS),
    named: given.flag("by-name") ? "estimated" : "left out",
  };
}

/** Refuses with 64 what is no meaning. */
function columnsIn(texts: readonly string[]): Record<string, Meaning> {
  return Object.fromEntries(
    texts.map((text) => {
      const at = text.lastIndexOf("=");
      const wanted = text.slice(at + 1).trim();
      const meaning = MEANINGS.find((one) => one === wanted);
      if (at > 0 && meaning) return [text.slice(0, at).trim(), meaning] as const;
      const near = at > 0 ? nearestWord(wanted, MEANINGS) : undefined;
      const hint = near ? ` Did you mean ${near}?` : "";
      throw new Refusal(EXIT.usage, `--column: expected HEADING=MEANING, found ${JSON.stringify(text)}.${hint}`);
    }),
  );
}
