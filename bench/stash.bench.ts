/** How long tables of yarns take: read, held against a shelf and written; medians, and that they do not grow faster than the table. */
import { readStashTable } from "../src/intake/stashTable.ts";
import { stashTableText } from "../src/intake/stashTableText.ts";
import { textOfTable } from "../src/intake/tableText.ts";
import { mergeStash } from "../src/yarn/mergeStash.ts";
import { seededRandom } from "../src/base/random.ts";

const ROUNDS = 7;

/** Invented yarns, each fourth of a name that is there already, a fifth of the lines with something wrong. */
function table(rows: number, names: "many" | "one"): Uint8Array {
  const random = seededRandom(5);
  const whole = (below: number): number => Math.floor(random() * below);
  const lines = Array.from({ length: rows }, (_, row) => {
    const name = names === "one" ? "Garn" : `Heather ${whole(rows * 0.75)}`;
    const hex = row % 10 === 0 ? "" : `#${(0x1000000 + whole(0x1000000)).toString(16).slice(1)}`;
    const grams = row % 10 === 5 ? "etwas" : `${whole(1000) / 10}`.replace(".", ",");
    return `${name};Sample Mill;${hex};${grams};${[420, 210, 105][whole(3)]!} m/100 g;${whole(9999)};"Notiz; mit Zeichen"`;
  });
  return Buffer.from(`Name;Hersteller;Farbe;Gewicht (g);Lauflänge;Partie;Notiz\r\n${lines.join("\r\n")}\r\n`);
}

function median(run: () => unknown): number {
  const times = Array.from({ length: ROUNDS }, () => {
    const began = performance.now();
    run();
    return performance.now() - began;
  });
  return times.sort((one, other) => one - other)[ROUNDS >> 1]!;
}

const read = (bytes: Uint8Array) => readStashTable(textOfTable(bytes).value!.text);
for (const names of ["many", "one"] as const)
  for (const rows of [2_000, 10_000, 50_000]) {
    const bytes = table(rows, names);
    const { yarns, problems } = read(bytes);
    const told = `${rows} rows, ${names === "one" ? "all of one name" : "many names"}`;
    console.log(
      `${told}: read in ${median(() => read(bytes)).toFixed(0)} ms (${yarns.length} yarns, ${problems.length} problems)`,
    );
    if (rows > 10_000) continue;
    console.log(`${told}: held against themselves in ${median(() => mergeStash(yarns, yarns)).toFixed(0)} ms`);
    console.log(`${told}: written in ${median(() => stashTableText(yarns)).toFixed(0)} ms`);
  }
