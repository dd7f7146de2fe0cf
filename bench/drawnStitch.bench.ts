/**
 * One stitch of a chart of 400 × 400 drawn with the pencil: the edit judged, written into the shared document as one step of undo, and read
 * back; then rows that come in. A hand that draws wants it within one picture of the screen, 16 ms.
 */
import { readFileSync } from "node:fs";
import { createStore } from "../src/app/store/store.ts";
import { seededRandom } from "../src/base/random.ts";
import { tryEdit, type Edit } from "../src/document/edit.ts";
import type { Project } from "../src/document/project.ts";
import { readProject } from "../src/document/read.ts";
import { LARGE_IDS, largeChart } from "./largeChart.ts";

const WIDTH = 400;
const random = seededRandom(6);
const { value: vest } = readProject(readFileSync("examples/weather-station-vest.twostrand.json", "utf8"));
const chart = largeChart(random, (one, other) =>
  Array.from({ length: WIDTH }, () => (random() < 0.6 ? one : other)).join(""),
);
const colours = [...LARGE_IDS].map((id) => ({ id, shade: { hex: "#808080" } }));
const project: Project = {
  ...vest!,
  pattern: { ...vest!.pattern, colours, sections: [], charts: [{ id: "c1", ...chart }] },
  colourways: [{ id: "w1", yarns: Object.fromEntries(colours.map(({ id }) => [id, vest!.yarns[0]!.id])) }],
  swatches: [],
};

const store = createStore();
store.begin(project);
const rowsNow = (): readonly string[] => store.state().project!.pattern.charts[0]!.rows;
const drawn = (): Edit => {
  const rows = [...rowsNow()];
  const at = Math.floor(random() * rows.length);
  const column = Math.floor(random() * WIDTH);
  const colour = rows[at]![column] === "A" ? "B" : "A";
  rows[at] = rows[at]!.slice(0, column) + colour + rows[at]!.slice(column + 1);
  return { kind: "setStitches", chart: "c1", rows };
};
const inserted = (): Edit => ({ kind: "insertRows", chart: "c1", at: 200, rows: ["A".repeat(WIDTH)] });

for (const [name, next] of [
  ["one stitch", drawn],
  ["one row more", inserted],
] as const) {
  const judged: number[] = [];
  const written: number[] = [];
  const undone: number[] = [];
  for (let time = 0; time < 60; time++) {
    const edit = next();
    const start = performance.now();
    const { problems } = tryEdit(store.state().project!, edit);
    judged.push(performance.now() - start);
    if (problems.some(({ severity }) => severity === "fault")) throw new Error("refused");
    const begun = performance.now();
    store.commit(edit, { name, colourway: "w1" });
    written.push(performance.now() - begun);
    if (time % 3 > 0) continue;
    const back = performance.now();
    store.undo();
    undone.push(performance.now() - back);
  }
  const median = (times: number[]): string => times.toSorted((a, b) => a - b)[times.length >> 1]!.toFixed(1);
  console.log(
    `${name} of 400 × 400: judged ${median(judged)} ms, judged and written ${median(written)} ms, undone ${median(undone)} ms`,
  );
}
