/** How long the cloth takes to draw and to be seen: medians in ms, first drawing (stitches worked out) apart. */
import type { Chart } from "../src/chart/chart.ts";
import { seededRandom } from "../src/base/random.ts";
import { labFromHex } from "../src/colour/lab.ts";
import type { Cloth } from "../src/fabric/cloth.ts";
import { renderCloth, renderClothBytes } from "../src/fabric/render.ts";
import { seenCloth } from "../src/fabric/seen.ts";

const HEXES = ["#ede6d6", "#3a3a3a", "#c9992b", "#1f6f78", "#b03a3a", "#1f2a4d"];

function clothOf(width: number, height: number): Cloth {
  const random = seededRandom(7);
  const cells = Uint8Array.from({ length: width * height }, () => Math.floor(random() * HEXES.length));
  const chart: Chart = { id: "c1", rows: [] };
  const ids = HEXES.map((_, at) => String(at));
  const inks = HEXES.map((hex, at) => {
    const lab = labFromHex(hex)!;
    return { colour: ids[at]!, yarn: null, lab, uncertainty: 3, was: lab, flecks: [], over: false };
  });
  return {
    chart,
    grid: { width, height, ids, cells },
    inks,
    cells,
    knitted: cells,
    gauge: { stitches: 28, rows: 30 },
    lines: [],
  };
}

function report(name: string, work: () => { length: number }, times = 7): void {
  const start = performance.now();
  let checksum = work().length;
  const first = performance.now() - start;
  const taken: number[] = [];
  for (let time = 0; time < times; time++) {
    const begin = performance.now();
    checksum += work().length;
    taken.push(performance.now() - begin);
  }
  taken.sort((a, b) => a - b);
  console.log(
    `${name}: first ${first.toFixed(0)}, median ${taken[times >> 1]!.toFixed(1)}, least ${taken[0]!.toFixed(1)} ms (${checksum})`,
  );
}

const panel = clothOf(24, 120);
const large = clothOf(400, 400);
report("24 × 120 at 16 px", () => renderCloth(panel, { pixelsPerStitch: 16 }).data);
report("24 × 120 at 16 px, bytes", () => renderClothBytes(panel, { pixelsPerStitch: 16 }).rgba);
report("400 × 400 at 2 px", () => renderCloth(large, { pixelsPerStitch: 2 }).data);
report("400 × 400 at 1 px", () => renderCloth(large, { pixelsPerStitch: 1 }).data);
report(
  "24 × 120 at 8 px, five across, seen from 1.5 m",
  () => seenCloth(panel, { distanceM: 1.5, lux: 500 }, { pixelsPerStitch: 8, repeatsAcross: 5 }).data,
  3,
);
