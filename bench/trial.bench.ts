/** How long it takes to try 500 yarns in one place: the vest, and 24 × 190 in 12 colours. Seeded; medians; nothing is judged here. */
import { readFileSync } from "node:fs";
import { judgeMemory } from "../src/audit/judge.ts";
import { seededRandom } from "../src/base/random.ts";
import { readProject } from "../src/document/read.ts";
import { tryYarns } from "../src/jobs/trial.ts";
import { stacked } from "./stackedChart.ts";

const { value: vest } = readProject(readFileSync("examples/weather-station-vest.twostrand.json", "utf8"));
const random = seededRandom(41);
const shelf = Array.from({ length: 500 - vest!.yarns.length }, (_, at) => ({
  id: `s${at}`,
  name: `Shelf ${at}`,
  shade: { lab: [6 + 88 * random(), 100 * random() - 50, 100 * random() - 50] as [number, number, number] },
}));
const yarns = [...vest!.yarns, ...shelf];
const high = {
  ...vest!,
  pattern: stacked(vest!.pattern),
  colourways: vest!.colourways.map((one) => ({ ...one, yarns: { ...one.yarns, L: "y12" } })),
};

for (const [name, project] of [
  ["vest, 24 × 120 in 11 colours", vest!],
  ["24 × 190 in 12 colours", high],
] as const) {
  const memory = judgeMemory();
  const times: number[] = [];
  let checksum = 0;
  for (const colour of ["", "again "].flatMap(() => project.pattern.colours.map(({ id }) => id))) {
    const start = performance.now();
    const { trials } = tryYarns(project, { colour, yarns, memory });
    times.push(performance.now() - start);
    for (const { row } of trials) checksum += row?.V ?? 0;
  }
  const later = times.slice(1).sort((a, b) => a - b);
  console.log(
    `${name}: first ${times[0]!.toFixed(0)} ms, 500 yarns in the next places ${later[later.length >> 1]!.toFixed(0)} ms ` +
      `(least ${later[0]!.toFixed(0)}, most ${later.at(-1)!.toFixed(0)}), checksum ${checksum.toFixed(1)}`,
  );
}
