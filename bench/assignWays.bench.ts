/** How long the whole of recolouring takes: the best way and five that differ, on the worked example and on twenty invented garments. */
import { readFileSync } from "node:fs";
import type { Project } from "../src/document/project.ts";
import { recolourProject } from "../src/jobs.ts";
import { inventedGarment } from "../test/garments/invented.ts";

const GARMENTS = 20;
const WAYS = 5;

/** Milliseconds until the first way and until all, with nothing remembered from before. */
function timed(project: Project, colourway?: string): { first: number; all: number; told: string } {
  const start = performance.now();
  let first = Infinity;
  const { ways, clash } = recolourProject(project, {
    ...(colourway === undefined ? {} : { colourway }),
    ways: WAYS,
    onWay: () => (first = Math.min(first, performance.now() - start)),
  });
  const all = performance.now() - start;
  const flagged = ways.filter(({ findings }) => findings.length > 0).length;
  const proven = ways.filter((way) => way.proven).length;
  return { first, all, told: clash ? "nothing fits" : `${ways.length} ways, ${proven} proven, ${flagged} flagged` };
}

const example = JSON.parse(readFileSync("examples/weather-station-vest.twostrand.json", "utf8")) as Project;
for (const { id } of example.colourways) {
  const { first, all, told } = timed(example, id);
  console.log(`worked example ${id}: best way ${first.toFixed(0)} ms, all ${all.toFixed(0)} ms; ${told}`);
}
const times: { first: number; all: number }[] = [];
for (let seed = 1; seed <= GARMENTS; seed++) {
  const recipe = { seed, colours: 3 + (seed % 10), yarns: 20 + 4 * seed, bands: 4 + (seed % 9) };
  const one = timed(inventedGarment(recipe));
  times.push(one);
  console.log(
    `invented ${String(seed).padStart(2)}, ${recipe.colours} colours × ${recipe.yarns} yarns: best way ${one.first.toFixed(0)} ms, all ${one.all.toFixed(0)} ms; ${one.told}`,
  );
}
for (const which of ["first", "all"] as const) {
  const sorted = times.map((one) => one[which]).sort((a, b) => a - b);
  console.log(
    `${which}: median ${sorted[Math.floor(GARMENTS / 2)]!.toFixed(0)} ms, most ${sorted.at(-1)!.toFixed(0)} ms`,
  );
}
