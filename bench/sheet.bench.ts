/** The working sheet of a 24 × 190 chart in 12 colours, from project to PDF bytes: milliseconds, median of rounds. Bar: under 3 s. */
import { readFileSync } from "node:fs";
import { seededRandom } from "../src/base/random.ts";
import type { Pattern } from "../src/fabric/pattern.ts";
import { amountsOf } from "../src/plan/amounts.ts";
import { pdfOfPages } from "../src/print/pdf.ts";
import { workingSheet } from "../src/print/workingSheet.ts";

const ROUNDS = 7;
const random = seededRandom(190);
const ids = [..."ABCDEFGHIJKL"];
const rows = Array.from({ length: 190 }, () => {
  const pair = [ids[Math.floor(12 * random())]!, ids[Math.floor(12 * random())]!];
  return Array.from({ length: 24 }, () => pair[Math.floor(2 * random())]!).join("");
});
const shades = ids.map((id, index) => ({ id, name: id, shade: { lab: [10 + 7 * index, 20, -10] } }));
const pattern: Pattern = {
  gauge: { stitches: 28, rows: 30 },
  colours: shades,
  charts: [{ id: "c1", rows }],
  sections: [{ id: "s1", chart: "c1", rounds: { M: 190 }, stitches: { M: 288 } }],
};
const yarns = shades.map((yarn) => ({ ...yarn, metresPer100g: 420, grams: 50 }));
const colourway = { id: "w1", yarns: Object.fromEntries(ids.map((id) => [id, id])) };
const fonts = {
  regular: readFileSync("src/print/fonts/NotoSans-Regular.ttf"),
  bold: readFileSync("src/print/fonts/NotoSans-Bold.ttf"),
};

const times = { amounts: [] as number[], sheet: [] as number[], pdf: [] as number[], all: [] as number[] };
let bytes = 0;
let sheets = 0;
for (let round = 0; round < ROUNDS; round++) {
  const begun = performance.now();
  const amounts = amountsOf({ pattern, yarns, colourway });
  const counted = performance.now();
  const pages = workingSheet({ name: "Bench", pattern, yarns, colourway, amounts });
  const drawn = performance.now();
  bytes = (await pdfOfPages(pages, { fonts, title: "Bench" })).length;
  const done = performance.now();
  sheets = pages.length;
  times.amounts.push(counted - begun);
  times.sheet.push(drawn - counted);
  times.pdf.push(done - drawn);
  times.all.push(done - begun);
}
for (const [name, taken] of Object.entries(times)) {
  const sorted = taken.toSorted((a, b) => a - b);
  console.log(
    `${name.padEnd(8)} median ${sorted[ROUNDS >> 1]!.toFixed(0)} ms, least ${sorted[0]!.toFixed(0)}, most ${sorted.at(-1)!.toFixed(0)}`,
  );
}
console.log(`${sheets} pages, ${bytes} bytes`);
