/** Visual weight and stands-out against values computed by an independent program from the same equations. */
import { describe, expect, it } from "vitest";
import dominance from "../../test/tables/dominance.json" with { type: "json" };
import type { Lab } from "../colour/lab.ts";
import { seenColours, visualWeight } from "./weight.ts";

const TOLERANCE = 1e-3;

const weighed = (labs: number[][], areas: number[]) =>
  labs.map((lab, index) => ({ lab: lab as unknown as Lab, area: areas[index]! }));

describe("visual weight", () => {
  it.each(dominance.examples)("$sRGB", (example) => {
    const weights = visualWeight({ colours: weighed(example.lab, example.area), ground: example.ground });
    weights.forEach(({ share, standsOut }, index) => {
      expect(Math.abs(share - example.weight_share_from_ground[index]!)).toBeLessThan(TOLERANCE);
      expect(Math.abs(standsOut - example.stands_out[index]!)).toBeLessThan(TOLERANCE);
    });
  });

  it.each(dominance.at_distance)("$pattern at $distance m", (example) => {
    const [lightDark, redGreen, yellowViolet] = example.V_ch as [number, number, number];
    const labs = seenColours(weighed(example.lab, example.area), { lightDark, redGreen, yellowViolet });
    labs.forEach((lab, index) =>
      lab.forEach((part, axis) => expect(Math.abs(part - example.lab_seen[index]![axis]!)).toBeLessThan(0.05)),
    );
    const weights = visualWeight({
      colours: weighed(labs as unknown as number[][], example.area),
      ground: example.ground,
    });
    weights.forEach(({ share, standsOut }, index) => {
      expect(Math.abs(share - example.weight_share_from_ground[index]!)).toBeLessThan(TOLERANCE);
      expect(Math.abs(standsOut - example.stands_out[index]!)).toBeLessThan(TOLERANCE);
    });
  });

  // Common practice, no source: a saturated yarn among quiet ones comes forward, and draws more the more often it recurs.
  it("a saturated yarn among quiet ones stands out and draws more than the quiet one in its place", () => {
    const quiet: Lab[] = [
      [85, 0, 8],
      [30, 2, -6],
      [55, 3, 6],
    ];
    const loud: Lab[] = [
      [85, 0, 8],
      [30, 2, -6],
      [55, 55, 45],
    ];
    const once = [0.6, 0.38, 0.02];
    const often = [0.6, 0.25, 0.15];
    const third = (labs: Lab[], areas: number[]) =>
      visualWeight({ colours: labs.map((lab, i) => ({ lab, area: areas[i]! })), ground: 0 })[2]!;
    expect(third(loud, once).standsOut).toBeGreaterThan(third(quiet, once).standsOut);
    expect(third(loud, once).share).toBeGreaterThan(third(quiet, once).share);
    expect(third(loud, often).share).toBeGreaterThan(third(loud, once).share);
  });

  it("nothing to weigh is no weight", () => {
    expect(visualWeight({ colours: [] })).toEqual([]);
  });
});
