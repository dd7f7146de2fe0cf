/** Holds the audit to what the worked example's README plants in its three colourways, and to its sentences in full. */
import { readFileSync } from "node:fs";
import { expect, it } from "vitest";
import { readProject } from "../src/document/read.ts";
import { checkProject } from "../src/jobs/check.ts";

const project = readProject(readFileSync("examples/weather-station-vest.twostrand.json", "utf8")).value!;
const worse = (colourway: string) =>
  checkProject(project, { colourway }).findings.filter(({ severity }) => severity !== "note");

it("w1, the good one: nothing at doubt or worse", () => expect(worse("w1")).toEqual([]));

it("w2: row 68 is lost, and row 85 has a float of 12", () => {
  const [lost, float, ...more] = worse("w2");
  expect(more).toEqual([]);
  expect([lost!.severity, lost!.headline]).toEqual(["fault", "Row 68, Pale oat on Oatmeal: lost"]);
  expect(lost!.where.rows).toEqual([68, 68]);
  expect(lost!.sentence).toBe(
    "Pale oat and Oatmeal are nearly one value, 4.5 apart in L*: lost at 1.5 m (between lost and clear). " +
      "In the pattern's own colours it is clear. A swatch settles it.",
  );
  expect([float!.severity, float!.headline]).toEqual(["doubt", "Row 85: Spruce floats over 12 stitches"]);
  expect(float!.numbers).toMatchObject({ stitches: 12, limit: 7 });
  for (const { mends } of [lost!, float!]) expect(mends!.length).toBeGreaterThan(0);
});

it("w3: Marigold takes over in five bands", () => {
  const [finding, ...more] = worse("w3");
  expect(more).toEqual([]);
  expect(finding!.headline).toBe("Marigold takes over in 5 bands");
  expect(finding!.mends!.length).toBeGreaterThan(0);
});
