/** How long a check takes and what it remembers: again after one yarn is swapped, and whole for a very large chart. Seeded; medians; nothing is judged here. */
import { readFileSync } from "node:fs";
import { setFlagsFromString } from "node:v8";
import { runInNewContext } from "node:vm";
import { audit } from "../src/audit/audit.ts";
import { contextOf, judgeMemory, type Case } from "../src/audit/judge.ts";
import { seededRandom } from "../src/base/random.ts";
import { readProject } from "../src/document/read.ts";
import { checkProject } from "../src/jobs/check.ts";
import type { Pattern } from "../src/fabric/pattern.ts";
import { LARGE_IDS, largeChart } from "./largeChart.ts";
import { stacked } from "./stackedChart.ts";

const timed = (work: () => unknown): number => {
  const start = performance.now();
  work();
  return performance.now() - start;
};
const told = (times: readonly number[]): string => {
  const sorted = times.toSorted((a, b) => a - b);
  return `${sorted[times.length >> 1]!.toFixed(1)} ms (least ${sorted[0]!.toFixed(1)})`;
};

setFlagsFromString("--expose-gc");
const collect = runInNewContext("gc") as () => void;
/** Megabytes that are held once everything that nobody holds is gone. */
function held(): number {
  collect();
  const { heapUsed, external } = process.memoryUsage();
  return (heapUsed + external) / 1e6;
}

const viewing = { distanceM: 1.5, lux: 500 };
const { value: project } = readProject(readFileSync("examples/weather-station-vest.twostrand.json", "utf8"));
const { yarns, colourways } = project!;

for (const [name, pattern] of [
  ["vest, 24 × 120 in 11 colours", project!.pattern],
  ["24 × 190 in 12 colours", stacked(project!.pattern)],
] as const) {
  const before = held();
  const memory = judgeMemory();
  const first = colourways[0]!;
  const input = (colour: string, yarn: string): Case => ({
    pattern,
    yarns,
    viewing,
    colourway: { ...first, yarns: { L: "y12", ...first.yarns, [colour]: yarn } },
  });
  const whole = timed(() => audit(contextOf(input("A", "y01"), memory)));
  const times: number[] = [];
  let checksum = 0;
  for (let run = 0; run < 240; run++) {
    const colour = pattern.colours[run % pattern.colours.length]!.id;
    const yarn = yarns[(run * 7) % yarns.length]!.id;
    times.push(timed(() => (checksum += audit(contextOf(input(colour, yarn), memory)).length)));
  }
  console.log(`${name}: first ${whole.toFixed(0)} ms, after a swap ${told(times)}, checksum ${checksum}`);
  // The whole answer for a page or a program: also every ladder, range and distance, in the garment's own amounts.
  const answers: number[] = [];
  for (let run = 0; run < 120; run++) {
    const { colourway } = input(pattern.colours[run % pattern.colours.length]!.id, yarns[(run * 7) % yarns.length]!.id);
    const changed = { ...project!, pattern, colourways: [colourway], swatches: [] };
    answers.push(timed(() => checkProject(changed, { memory, mends: "without" })));
  }
  console.log(`  with how far everything reads: ${told(answers)}; remembers ${(held() - before).toFixed(0)} MB`);
}

{
  const random = seededRandom(5);
  const { rows, bands } = largeChart(random, (one, other) =>
    Array.from({ length: 400 }, () => (random() < 0.4 ? other : one)).join(""),
  );
  const pattern: Pattern = {
    gauge: { stitches: 28, rows: 30 },
    colours: [...LARGE_IDS].map((id, index) => ({
      id,
      shade: { lab: [8 + 4.5 * index, 20 * random() - 10, 20 * random() - 10] },
    })),
    charts: [{ id: "c1", rows, bands }],
  };
  const yarns = pattern.colours.map(({ id, shade }) => ({ id, name: id, shade }));
  const colourway = { id: "w", yarns: Object.fromEntries(yarns.map(({ id }) => [id, id])) };
  const before = held();
  const memory = judgeMemory();
  const afresh = Array.from({ length: 5 }, () =>
    timed(() => audit(contextOf({ pattern, yarns, colourway, viewing }, judgeMemory()))),
  );
  audit(contextOf({ pattern, yarns, colourway, viewing }, memory));
  const again = timed(() => audit(contextOf({ pattern, yarns, colourway, viewing }, memory)));
  console.log(
    `400 × 400 in 20 colours, ${bands.length} bands: whole ${told(afresh)}, again ${again.toFixed(0)} ms, remembers ${(held() - before).toFixed(0)} MB`,
  );
}
