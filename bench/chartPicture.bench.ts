/**
 * What is read of charts drawn, scanned, photographed and made small, by family of pictures, and what is refused.
 * Arguments: pictures a family, first seed, words that a family's name holds. Bars: clean pictures all right; scans 99.8 %
 * of cells; photographs 95 % of grids and 99.5 % of cells there; colours within 3 ΔE00 (clean: 1), half of them nearer;
 * 90 % of wrong cells among the doubtful; of what is no chart, nothing read.
 */
import { readChartPicture } from "../src/intake/chartPicture.ts";
import { HELD_OUT, paintChart, score, TUNED, type Family } from "../test/intake/chartWorld.ts";
import {
  addScore,
  HEADING,
  joined,
  lineOf,
  median,
  noFigures,
  type Figures,
} from "../test/intake/chartWorld/figures.ts";
import { paintStranger, STRANGERS } from "../test/intake/chartWorld/strangers.ts";

const [count = "8", first = "10001", words = ""] = process.argv.slice(2);
const seeds = Array.from({ length: Number(count) }, (_, index) => Number(first) + index);

for (const [heading, families] of [
  ["Families known while the reader was made", TUNED],
  ["Families held out", HELD_OUT],
] as const) {
  const all = new Map<Family, Figures>();
  console.log(`\n${heading}\n${HEADING}`);
  for (const family of families) {
    if (!family.includes(words)) continue;
    const figures = noFigures();
    for (const seed of seeds) {
      const { pixels, truth } = await paintChart(family, seed);
      const begun = performance.now();
      const read = readChartPicture(pixels);
      addScore(figures, score(truth, read), performance.now() - begun);
    }
    all.set(family, figures);
    console.log(lineOf(family, figures));
  }
  for (const way of new Set([...all.keys()].map((family) => family.split(":")[0]!)))
    console.log(lineOf(`all: ${way}`, joined([...all].filter(([name]) => name.startsWith(`${way}:`)).map(([, one]) => one)))); // prettier-ignore
}

console.log("\nNo charts: refused, median and longest milliseconds");
for (const kind of STRANGERS) {
  if (!kind.includes(words)) continue;
  let refused = 0;
  const times: number[] = [];
  for (const seed of seeds) {
    const pixels = await paintStranger(kind, seed);
    const begun = performance.now();
    const { charts, problems } = readChartPicture(pixels);
    times.push(performance.now() - begun);
    refused += charts.length === 0 && problems.length > 0 ? 1 : 0;
  }
  console.log(`${kind.padEnd(32)} ${refused} of ${seeds.length}  ${median(times).toFixed(0)}  ${Math.max(...times).toFixed(0)}`); // prettier-ignore
}
