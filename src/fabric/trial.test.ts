/** All yarns at once against one by one: the cloth measured anew with each yarn in the place. */
import { describe, expect, it } from "vitest";
import { seededRandom } from "../base/random.ts";
import type { Lab } from "../colour/lab.ts";
import { clothOf } from "./cloth.ts";
import { spectrumMemory, UNTUNED } from "./contrast.ts";
import type { Pattern } from "./pattern.ts";
import { plainTrial, yarnTrials, type YarnTrial } from "./trial.ts";
import { WORD_LIMITS } from "./visibility.ts";

/** Stripes, plain rows, a band of three colours with a figure in a figure, a row of four colours, places without a stitch. */
const chart = {
  id: "c",
  rows: [
    "AAAAAAAA",
    "ABAAABAA",
    "CCCCCCCC",
    "AAAAAAAA",
    "ABBBBBAA",
    "ABCCCBAA",
    "ABCDCBAA",
    "ABBBBBAA",
    "AAAAAAAA",
    "ABCDABCD",
    "BBBBBBBB",
    "DDDDDDDD",
    "A-CA-CA-",
  ],
};
const pattern: Pattern = {
  gauge: { stitches: 28, rows: 30 },
  colours: [
    { id: "A", role: "main", shade: { lab: [88, 1, 9] } },
    { id: "B", shade: { lab: [31, 3, -14] } },
    { id: "C", shade: { lab: [55, 28, 20] } },
    { id: "D", shade: { lab: [62, -5, 12] } },
  ],
  charts: [chart],
};
const random = seededRandom(23);
const yarns = Array.from({ length: 30 }, (_, at) => ({
  id: `y${at}`,
  name: `y${at}`,
  shade: { lab: [4 + 92 * random(), 90 * random() - 45, 90 * random() - 45] as [number, number, number] },
}));
const tried = yarns.map(({ id, shade }) => ({ id, lab: shade.lab as Lab, uncertainty: 2 }));

/** A thousandth of V, and of a share; stands-out is of the order of 1. */
const THOUSANDTH = 1e-3;

function near(one: YarnTrial, other: YarnTrial): void {
  const V = (a: { V: number } | null, b: { V: number } | null): void => {
    expect(a === null).toBe(b === null);
    if (a && b) expect(Math.abs(a.V - b.V)).toBeLessThanOrEqual(THOUSANDTH * b.V + 1e-9);
  };
  expect(one.yarn).toBe(other.yarn);
  V(one.row, other.row);
  V(one.band, other.band);
  V(one.figure, other.figure);
  expect(one.rows).toEqual(other.rows);
  expect(Math.abs(one.weight.share - other.weight.share)).toBeLessThanOrEqual(THOUSANDTH);
  expect(Math.abs(one.weight.standsOut! - other.weight.standsOut!)).toBeLessThanOrEqual(THOUSANDTH);
  expect(one.weight.recurs).toEqual(other.weight.recurs);
}

describe.each(["A", "B", "C", "D"])("yarns in the place of %s", (colour) => {
  it.each([
    { distanceM: 0.7, lux: 60 },
    { distanceM: 1.5, lux: 500 },
    { distanceM: 4, lux: 8000 },
  ])("at %j", (viewing) => {
    const own = { A: "y0", B: "y1", C: "y2", D: "y3", [colour]: "the place" };
    const held = [...yarns, { id: "the place", name: "", shade: { lab: [50, 0, 0] as [number, number, number] } }];
    const cloth = clothOf({ chart, pattern, yarns: held, colourway: { id: "w", yarns: own } });
    const place = cloth.inks.findIndex(({ yarn }) => yarn === "the place");
    const memory = spectrumMemory();
    const options = { mainColour: "A", doubt: UNTUNED };
    const trials = yarnTrials(cloth, place, tried, viewing, memory, options);
    expect(trials).toHaveLength(tried.length);
    trials.forEach((trial, at) =>
      near(trial, plainTrial(cloth, place, tried[at]!, viewing, spectrumMemory(), options)),
    );
    // The yarns differ in what they do, or there is nothing to sort.
    expect(new Set(trials.map(({ row }) => row!.V.toFixed(3))).size).toBeGreaterThan(10);
  });
});

it("a yarn that the next colour has already leaves nothing to see, and a tuned eye hears other words", () => {
  const cloth = clothOf({
    chart: { id: "c", rows: ["ABAB"] },
    pattern,
    yarns,
    colourway: { id: "w", yarns: { A: "y0", B: "y1" } },
  });
  const place = cloth.inks.findIndex(({ colour }) => colour === "B");
  const viewing = { distanceM: 1.5, lux: 500 };
  const [same, other] = yarnTrials(cloth, place, [tried[0]!, tried[5]!], viewing, spectrumMemory());
  expect(same).toMatchObject({ row: { V: 0, shows: "lost" }, rows: { lost: 1 } });
  expect(other!.row!.V).toBeGreaterThan(0);
  // Somebody who needs twice the contrast: each word from twice the V.
  const doubt = { thresholdMean: Math.log(other!.row!.V / WORD_LIMITS.faint) + 0.01, thresholdSd: 1 };
  expect(yarnTrials(cloth, place, [tried[5]!], viewing, spectrumMemory(), { doubt })[0]!.row!.shows).toBe("lost");
});
