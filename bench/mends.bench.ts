/** How long mends take: all of them in the vest's two faulty colourways, and the first finding's in a chart of 400 × 400 in 20 colours. Seeded; medians; nothing is judged here. */
import { readFileSync } from "node:fs";
import { audit } from "../src/audit/audit.ts";
import type { Finding } from "../src/audit/finding.ts";
import { contextOf, judgeMemory, type Case } from "../src/audit/judge.ts";
import { mendsOneByOne, type MendOptions } from "../src/audit/mends.ts";
import { seededRandom } from "../src/base/random.ts";
import type { Lab } from "../src/colour/lab.ts";
import { readProject } from "../src/document/read.ts";
import { needsOf, suppliesOf } from "../src/jobs/parts.ts";
import type { Yarn } from "../src/yarn/yarn.ts";
import { LARGE_IDS, largeChart } from "./largeChart.ts";

const viewing = { distanceM: 1.5, lux: 500 };
const RUNS = 7;

const told = (times: readonly number[]): string => {
  const sorted = times.toSorted((a, b) => a - b);
  return `${sorted[times.length >> 1]!.toFixed(0)} ms (least ${sorted[0]!.toFixed(0)}, most ${sorted.at(-1)!.toFixed(0)})`;
};

/** Times of every finding's mends, from a check that was just made; the memory is that of the check. */
function times(input: Case, options: MendOptions): { each: number[]; mended: Finding[] } {
  const memory = judgeMemory();
  const found = audit(contextOf(input, memory));
  const each: number[] = [];
  const mended: Finding[] = [];
  let start = performance.now();
  for (const finding of mendsOneByOne(found, input, memory, options)) {
    each.push(performance.now() - start);
    mended.push(finding);
    start = performance.now();
  }
  return { each, mended };
}

function report(name: string, input: Case, options: MendOptions): void {
  const runs = Array.from({ length: RUNS }, () => times(input, options));
  const all = runs.map(({ each }) => each.reduce((sum, one) => sum + one, 0));
  const { mended } = runs[0]!;
  const mends = mended.reduce((sum, finding) => sum + (finding.mends?.length ?? 0), 0);
  console.log(
    `${name}: first finding ${told(runs.map(({ each }) => each[0] ?? 0))}, all ${mended.length} findings ${told(all)}, ${mends} mends`,
  );
}

const project = readProject(readFileSync("examples/weather-station-vest.twostrand.json", "utf8")).value!;
for (const id of ["w2", "w3"]) {
  const { pattern, yarns } = project;
  const colourway = project.colourways.find((one) => one.id === id)!;
  report(
    `vest ${id}, 24 × 120 in 11 colours`,
    { pattern, yarns, colourway, viewing, supplies: suppliesOf(project, colourway) },
    { needs: needsOf(project, colourway), suppliesFor: (after) => suppliesOf(project, after) },
  );
}

for (const [name, wrong] of [
  ["one colour far off", { F: 86 }],
  ["three colours far off", { F: 86, B: 60, P: 20 }],
] as const)
  report(`400 × 400 in 20 colours, ${name}`, largeCase(wrong), {});

/** Bands of five colours without any repeat across, floats of six at most; some colours in a yarn of another lightness, forty leftovers. */
function largeCase(wrong: Readonly<Record<string, number>>): Case {
  const random = seededRandom(5);
  const { rows, bands } = largeChart(random, (one, other) => {
    let text = "";
    for (let run = 0; text.length < 398; run++) text += (run % 2 ? other : one).repeat(1 + Math.floor(random() * 6));
    return text.slice(0, 398) + one + other;
  });
  const colours = [...LARGE_IDS].map((id, index) => ({
    id,
    shade: { lab: [8 + 4.5 * index, 20 * random() - 10, 20 * random() - 10] as Lab },
    ...(id === "T" ? { role: "main" as const } : {}),
  }));
  const own = colours.map(({ id, shade }): Yarn => ({ id, name: id, shade }));
  const off = Object.entries(wrong).map(([id, L]): Yarn => ({
    id: `off${id}`,
    name: `off ${id}`,
    shade: { lab: [L, 2, 3] },
  }));
  const shelf = Array.from({ length: 40 }, (_, at): Yarn => ({
    id: `s${at}`,
    name: `shelf ${at}`,
    shade: { lab: [10 + 85 * random(), 30 * random() - 15, 30 * random() - 15] },
  }));
  return {
    pattern: { gauge: { stitches: 28, rows: 30 }, colours, charts: [{ id: "c1", rows, bands }] },
    yarns: [...own.filter(({ id }) => !(id in wrong)), ...off, ...shelf],
    colourway: { id: "w", yarns: Object.fromEntries(own.map(({ id }) => [id, id in wrong ? `off${id}` : id])) },
    viewing,
  };
}
