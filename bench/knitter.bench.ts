/** Five hundred made-up knitters of two swatches: how often the truth lies within what is told of threshold and amounts. Seeded; shares, and nothing is judged. */
import { contextOf, judgeMemory } from "../src/audit/judge.ts";
import { doubtsOf } from "../src/audit/doubts.ts";
import { checkColourway } from "../src/jobs/checked.ts";
import { swatchOfProject } from "../src/jobs/swatch.ts";
import { knitterOf, lookedAtBy, plannedSwatch, vest, withShadesOff } from "../test/simulatedKnitter.ts";

const memory = judgeMemory();
const plans = ["w2", "w3"].map((colourway) =>
  plannedSwatch(colourway, swatchOfProject(vest, { colourway, budget: { stitches: 600 }, memory }), memory),
);
const runs = Array.from({ length: 500 }, (_, seed) => knitterOf(seed + 1, plans, memory));
const share = (of: (run: (typeof runs)[number]) => boolean): string =>
  `${((100 * runs.filter(of).length) / runs.length).toFixed(1)} %`;
const middle = (of: (run: (typeof runs)[number]) => number): number =>
  runs.map(of).sort((a, b) => a - b)[runs.length >> 1]!;
console.log(
  `looks: ${plans.map(({ looks }) => looks.length).join(" and ")}, of swatches of at most 600 stitches; told: 80 %`,
);
console.log(
  `threshold: before ${share(({ threshold }) => threshold.before)}, after ${share(({ threshold }) => threshold.after)}, ` +
    `known to a factor of ${middle(({ threshold }) => threshold.factor).toFixed(2)} in the median`,
);
console.log(
  `amounts: before ${share(({ amounts }) => amounts.before)}, after ${share(({ amounts }) => amounts.after)}, ` +
    `the range ${(100 * middle(({ amounts }) => amounts.widthBefore)).toFixed(1)} % of the metres, then ${(100 * middle(({ amounts }) => amounts.widthAfter)).toFixed(1)} %`,
);
const off = runs.filter((_, at) => knitterOf(at + 1, withShadesOff(plans, at + 1, memory), memory).threshold.after);
console.log(
  `threshold where shades are off as their uncertainties allow: after ${((100 * off.length) / runs.length).toFixed(1)} %`,
);

// What was said to follow from her threshold: how much of it is in fact no doubt any more once she has looked.
const whole = swatchOfProject(vest, { colourway: "w2", memory });
const plan = plannedSwatch("w2", whole, memory);
const following = new Set(whole.covers.filter(({ by }) => by === "threshold").map(({ id }) => id));
let settled = 0;
const KNITTERS = 100;
for (let seed = 1; seed <= KNITTERS; seed++) {
  const swatches = lookedAtBy(seed, [plan]);
  const { input, result, memory: kept } = checkColourway({ ...vest, swatches }, { colourway: "w2", memory });
  const { theta, verdicts, low, high } = result.eye;
  const sd = (high - low) / (2 * 1.2816);
  const open = doubtsOf(contextOf(input, kept), result.findings, { theta, verdicts, low, high, sd }).doubts;
  const left = new Set(open.flatMap(({ id }) => (following.has(id) ? [id] : [])));
  settled += following.size - left.size;
}
console.log(
  `what follows: of ${following.size} doubts of w2 that follow from ${plan.looks.length} looks ${((100 * settled) / (KNITTERS * following.size)).toFixed(1)} % are settled (told: four of five), over ${KNITTERS} knitters`,
);
