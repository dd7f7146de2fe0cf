/** CIEDE2000 against the libraries that are known for it: nanoseconds a pair, median of interleaved rounds. */
import Color, { type PlainColorObject } from "colorjs.io";
import { deltaE2000 as colorJs } from "colorjs.io/fn";
import { differenceCiede2000, type Lab65 } from "culori";
import { deltaE2000, deltaE2000Batch } from "../src/colour/difference.ts";
import type { Lab } from "../src/colour/lab.ts";
import { seededRandom } from "../src/base/random.ts";

const PAIRS = 100_000;
const ROUNDS = 15;
const random = seededRandom(2000);
const labs: Lab[] = Array.from({ length: 2 * PAIRS }, () => [
  100 * random(),
  200 * (random() - 0.5),
  200 * (random() - 0.5),
]);
const firsts = Float64Array.from(labs.slice(0, PAIRS).flat());
const seconds = Float64Array.from(labs.slice(PAIRS).flat());
const out = new Float64Array(PAIRS);

// Every library is given its colours in its own form beforehand, so that only the formula is timed.
const ofCulori = labs.map(([l, a, b]): Lab65 => ({ mode: "lab65", l, a, b }));
const culori = differenceCiede2000();
const ofColorJs = labs.map(([l, a, b]) => new Color("lab", [l, a, b]) as unknown as PlainColorObject);

const ways: { name: string; run: () => number; times: number[] }[] = [
  {
    name: "ours, single",
    run: () => {
      let sum = 0;
      for (let pair = 0; pair < PAIRS; pair++) sum += deltaE2000(labs[pair]!, labs[PAIRS + pair]!);
      return sum;
    },
    times: [],
  },
  {
    name: "ours, batch",
    run: () => deltaE2000Batch(firsts, seconds, out).reduce((sum, value) => sum + value, 0),
    times: [],
  },
  {
    name: "culori",
    run: () => {
      let sum = 0;
      for (let pair = 0; pair < PAIRS; pair++) sum += culori(ofCulori[pair]!, ofCulori[PAIRS + pair]!);
      return sum;
    },
    times: [],
  },
  {
    name: "colorjs.io",
    run: () => {
      let sum = 0;
      for (let pair = 0; pair < PAIRS; pair++) sum += colorJs(ofColorJs[pair]!, ofColorJs[PAIRS + pair]!);
      return sum;
    },
    times: [],
  },
];

const checksums = ways.map(({ run }) => run());
for (let round = 0; round < ROUNDS; round++) {
  for (const way of ways) {
    const start = performance.now();
    way.run();
    way.times.push(((performance.now() - start) * 1e6) / PAIRS);
  }
}
const median = (values: number[]): number => values.toSorted((a, b) => a - b)[values.length >> 1]!;
const medians = ways.map(({ times }) => median(times));
const peer = Math.min(medians[2]!, medians[3]!);

console.log(`CIEDE2000, ${PAIRS} pairs, median of ${ROUNDS} rounds`);
ways.forEach(({ name, times }, at) => {
  const least = Math.min(...times).toFixed(1);
  const ratio = (peer / medians[at]!).toFixed(2);
  console.log(
    `${name.padEnd(14)} ${medians[at]!.toFixed(1).padStart(7)} ns (least ${least}), ${ratio} × the fastest peer, checksum ${checksums[at]!.toFixed(3)}`,
  );
});
