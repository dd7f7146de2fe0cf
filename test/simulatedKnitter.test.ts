/** After two swatches the truth lies within what is told of threshold and amounts: a slice of what bench/knitter.bench.ts runs whole. */
import { describe, expect, it } from "vitest";
import { judgeMemory } from "../src/audit/judge.ts";
import { swatchOfProject } from "../src/jobs/swatch.ts";
import { knitterOf, plannedSwatch, vest } from "./simulatedKnitter.ts";

const KNITTERS = 120;

describe("made-up knitters", () => {
  const memory = judgeMemory();
  const plans = ["w1", "w2"].map((colourway) =>
    plannedSwatch(colourway, swatchOfProject(vest, { colourway, budget: { stitches: 450 }, memory }), memory),
  );
  const runs = Array.from({ length: KNITTERS }, (_, seed) => knitterOf(seed + 1, plans, memory));
  const share = (of: (run: (typeof runs)[number]) => boolean): number => runs.filter(of).length / KNITTERS;
  /** Three standard deviations of a share of 0.8 among so many. */
  const luck = 3 * Math.sqrt((0.8 * 0.2) / KNITTERS);

  it("have their threshold within what is told in four of five, and it is told closer than before", () => {
    expect(Math.abs(share(({ threshold }) => threshold.after) - 0.8)).toBeLessThan(luck);
    // Before the first look a factor of e^(1.2816 ln 3) = 4.1.
    expect(runs.every(({ threshold }) => threshold.factor < 4.1)).toBe(true);
  });

  it("take as much yarn as is told between, in four of five and more, and it is told closer than before", () => {
    expect(share(({ amounts }) => amounts.after)).toBeGreaterThan(0.8 - luck);
    expect(share(({ amounts }) => amounts.before)).toBeGreaterThan(0.8 - luck);
    expect(runs.every(({ amounts }) => amounts.widthAfter < amounts.widthBefore)).toBe(true);
  });

  it("are the same every time", () => expect(knitterOf(5, plans, memory)).toEqual(runs[4]));
});
