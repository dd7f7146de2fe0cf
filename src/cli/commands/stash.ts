/** `stash`: yarns out of a table. */
import { readStashTable } from "../../intake/stashTable.ts";
import { isFault } from "../../base/problem.ts";
import type { Command } from "../command.ts";
import { readBytes, textOfBytes } from "../files.ts";
import { badInput } from "../projectFile.ts";
import { stashJson, stashReport } from "../reports/stash.ts";

export const stashCommand: Command = {
  name: "stash",
  summary: "Reads a table of yarns as a spreadsheet saves it (CSV or tab separated text).",
  operands: [{ name: "FILE", required: true }],
  options: {},
  details: ["Columns are known by their headings: name, hex or lab, grams, metres per 100 g, lot and more."],
  example: "twostrand stash leftovers.csv --json > yarns.json",
  run: async (given) => {
    const path = given.operand(0);
    const result = readStashTable(textOfBytes(await readBytes(path)));
    const { yarns, unshaded, problems } = result;
    if (yarns.length + unshaded.length === 0 && problems.some(isFault)) throw badInput(path, problems);
    return { json: stashJson(result), text: () => stashReport(result), problems };
  },
};
