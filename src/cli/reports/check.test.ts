/** How far a band reads, in words: the estimate first, then its least and most; and what a report leaves open. */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { cautionsOf } from "../../audit/cautions.ts";
import { readProject } from "../../document/read.ts";
import { checkProject } from "../../jobs/check.ts";
import { checkReport, readsToWords } from "./check.ts";

it.each<[number, number, number, string]>([
  [9, 7, 15, "past 6 m"],
  [9, 3.21, 15, "past 6 m (3.2–past 6)"],
  [9, 0, 15, "past 6 m (0–past 6)"],
  [4.2, 3.1, 5, "4.2 m (3.1–5)"],
  [4.2, 0, 15, "4.2 m (0–past 6)"],
  [4.2, 4.2, 4.2, "4.2 m"],
  [0, 0, 2.04, "never (0–2)"],
  [0, 0, 15, "never (0–past 6)"],
  [0, 0, 0, "never"],
])("%d m, from %d to %d: %s", (metres, low, high, words) =>
  expect(readsToWords({ metres, low, high, beyond: false })).toBe(words),
);

it("a row with nothing to see reads nowhere", () => expect(readsToWords(null)).toBe(""));

describe("what is not known", () => {
  const { value } = readProject(readFileSync("examples/weather-station-vest.twostrand.json", "utf8"));
  const vest = value!;
  // Storm (F, L* 44.5) and Dusk (G, 36.5) are known to within 9; Sea mist (L* 73) to within 3, and light begins at 72.
  const yarns = vest.yarns.map((yarn) =>
    yarn.id === "y06" || yarn.id === "y07" ? { ...yarn, shade: { ...yarn.shade, uncertainty: 9 } } : yarn,
  );
  const project = { ...vest, yarns };
  const result = checkProject(project, { colourway: "w1", mends: "without" });
  const said = checkReport(
    project,
    {
      ...result,
      measure: [
        { yarn: "y06", uncertainty: 9, measured: 3, settles: 4.2, inDoubt: 9, sentence: "Measuring Storm would." },
      ],
      cautions: cautionsOf({ yarns, colourway: vest.colourways[0]! }),
    },
    "worst",
  ).replaceAll(/\s+/g, " ");

  it("the ladder has its ranges, its order and its classes as far as they are open", () => {
    expect(said).toContain("Sea mist 73 (70-76) light");
    expect(said).toContain("which is the lighter of Storm (F) and Dusk (G): they may change places.");
    expect(said).toContain("Sea mist (light or light-medium)");
  });
  it("bands that may read otherwise, yarns worth measuring, and cautions are told", () => {
    expect(said).toMatch(/As far as shades, the weight of hue and your eye are known: .* may be /);
    expect(said).toContain("Better known shades, an estimate - Measuring Storm would.");
    expect(said).toContain("Cautions, to be tried on a swatch");
    expect(said).toContain("may bleed into Oatmeal");
  });
  it("nothing is told of it where nobody asked", () => {
    expect(checkReport(project, result, "worst")).not.toMatch(/Better known|Cautions/);
  });
});
