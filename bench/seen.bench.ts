/** How long a cloth takes to be seen: medians in ms, of a new cloth and of one that was taken apart for the last look. */
import { seededRandom } from "../src/base/random.ts";
import { labFromHex } from "../src/colour/lab.ts";
import type { Cloth, Ink } from "../src/fabric/cloth.ts";
import { renderCloth } from "../src/fabric/render.ts";
import { seenCloth, seenMemory } from "../src/fabric/seen.ts";

const HEXES = ["#ede6d6", "#3a3a3a", "#c9992b", "#1f6f78", "#b03a3a", "#1f2a4d"];
const GAUGE = { stitches: 28, rows: 30 };
const DISTANCES = [0.5, 1, 1.5, 2, 3, 4, 6];

/** Bands of two colours each, seven rows high, one stitch of the second in four. */
function clothOf(width: number, height: number): Cloth {
  const random = seededRandom(7);
  const cells = Uint8Array.from({ length: width * height }, (_, at) => {
    const band = Math.floor(at / width / 7);
    return (band + (random() < 0.25 ? 1 : 0)) % HEXES.length;
  });
  const ids = HEXES.map((_, at) => String(at));
  const inks = HEXES.map((hex, at): Ink => {
    const lab = labFromHex(hex)!;
    return { colour: ids[at]!, yarn: null, lab, uncertainty: 3, was: lab, flecks: [], over: false };
  });
  const grid = { width, height, ids, cells };
  return { chart: { id: "c1", rows: [] }, grid, inks, cells, knitted: cells, gauge: GAUGE, lines: [] };
}

function report(name: string, work: (time: number) => void, times = 15): void {
  work(0);
  const taken = Array.from({ length: times }, (_, time) => {
    const begin = performance.now();
    work(time + 1);
    return performance.now() - begin;
  }).sort((a, b) => a - b);
  console.log(`${name}: median ${taken[times >> 1]!.toFixed(0)}, least ${taken[0]!.toFixed(0)} ms`);
}

for (const [size, cloth, pixelsPerStitch, repeatsAcross] of [
  ["960 × 896", clothOf(24, 120), 8, 5],
  ["480 × 624", clothOf(24, 167), 4, 5],
] as const) {
  const options = { pixelsPerStitch, repeatsAcross };
  const lux = 500;
  report(`${size}, drawn alone`, () => renderCloth(cloth, options));
  report(`${size}, a new cloth from 1.5 m`, () => seenCloth(cloth, { distanceM: 1.5, lux }, options));
  const memory = seenMemory();
  report(`${size}, the same cloth from the next distance`, (time) =>
    seenCloth(cloth, { distanceM: DISTANCES[time % DISTANCES.length]!, lux }, options, memory),
  );
  for (const distanceM of DISTANCES)
    report(
      `${size}, the same cloth from ${distanceM} m`,
      () => seenCloth(cloth, { distanceM, lux }, options, memory),
      7,
    );
}
