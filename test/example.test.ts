/** Holds the worked example to what its README says of it, as far as chart, yarns and files alone can tell. */
import { readFileSync } from "node:fs";
import sharp from "sharp";
import { describe, expect, it } from "vitest";
import { gridOf, rowsOfGrid } from "../src/chart/chart.ts";
import { findBands } from "../src/chart/bands.ts";
import { rowColours } from "../src/chart/counts.ts";
import { floatsInRow } from "../src/chart/floats.ts";
import { chartText } from "../src/chart/text.ts";
import { labFromLinear } from "../src/colour/lab.ts";
import { labOfShade } from "../src/colour/shade.ts";
import { linearFromBytes } from "../src/colour/srgb.ts";
import { readProject } from "../src/document/read.ts";
import { writeProject } from "../src/document/write.ts";
import { yarnInRow } from "../src/fabric/colourway.ts";
import { readStashTable } from "../src/intake/stashTable.ts";
import { gramsOwned } from "../src/yarn/lots.ts";
import { labOfYarn } from "../src/yarn/yarn.ts";

const file = readFileSync("examples/weather-station-vest.twostrand.json", "utf8");
const { value, problems } = readProject(file);
const project = value!;
const [chart] = project.pattern.charts as [(typeof project.pattern.charts)[0]];
const grid = gridOf(chart);
const rows = Array.from({ length: grid.height }, (_, index) => index + 1);
const idsIn = (row: number): string[] => rowColours(grid, row).map((index) => grid.ids[index]!);

/** Difference of L* of the two colours of a row, by a colour's lightness. */
function lightnessApart(row: number, lightness: (colour: string) => number): number {
  const [one, other] = idsIn(row);
  return Math.abs(lightness(one!) - lightness(other!));
}

const lightnessIn = (id: string) => (row: number) => {
  const colourway = project.colourways.find((entry) => entry.id === id)!;
  const yarn = (colour: string) =>
    project.yarns.find((entry) => entry.id === yarnInRow(colourway, colour, chart.id, row))!;
  return lightnessApart(row, (colour) => labOfYarn(yarn(colour))[0]);
};

const bandOf = (row: number): string | undefined =>
  chart.bands!.find(({ rows: [from, to] }) => row >= from && row <= to)?.name;
const stranded = rows.filter((row) => idsIn(row).length > 1);

describe("the worked example", () => {
  it("opens without a problem and is written back byte for byte", () => {
    expect(problems).toEqual([]);
    expect(writeProject(project)).toBe(file);
  });

  it("is one chart in three forms", async () => {
    expect(readFileSync("examples/vest-chart.txt", "utf8")).toBe(chartText(chart.rows));
    expect(rowsOfGrid(grid)).toEqual(chart.rows);
    const { data, info } = await sharp("examples/vest-chart.png").raw().toBuffer({ resolveWithObject: true });
    // A line, then fifteen pixels of colour, for each stitch, and a line at the end.
    const cell = 16;
    expect([info.width, info.height]).toEqual([grid.width * cell + 1, grid.height * cell + 1]);
    const lab = new Map(project.pattern.colours.map(({ id, shade }) => [id, labOfShade(shade)]));
    chart.rows.forEach((text, line) =>
      Array.from(text).forEach((id, place) => {
        const at = ((line * cell + cell / 2) * info.width + place * cell + cell / 2) * info.channels;
        const found = labFromLinear(linearFromBytes(data[at]!, data[at + 1]!, data[at + 2]!));
        expect(Math.hypot(...found.map((part, axis) => part - lab.get(id)![axis]!))).toBeLessThan(0.1);
      }),
    );
  });

  it("has two colours a row at most, and the bands that it declares are those that a knitter would see", () => {
    expect(Math.max(...rows.map((row) => idsIn(row).length))).toBe(2);
    expect(findBands(chart, grid).map(({ rows: at }) => at)).toEqual(findBands({}, grid).map(({ rows: at }) => at));
    const echoes = findBands(chart, grid).filter(({ echoOf }) => echoOf !== null);
    expect(echoes.map(({ name }) => name)).toEqual(["drift again", "cairns again"]);
  });

  it("has the float of 12 in row 85, and none above six elsewhere", () => {
    const longest = (row: number): number => Math.max(0, ...floatsInRow(grid, row).map(({ length }) => length));
    expect(longest(85)).toBe(12);
    expect(Math.max(...rows.filter((row) => row !== 85).map(longest))).toBe(6);
  });

  it("keeps the values of the pattern's rows apart, but for the fog", () => {
    const shade = new Map(project.pattern.colours.map((colour) => [colour.id, labOfShade(colour.shade)[0]]));
    for (const row of stranded) {
      const apart = lightnessApart(row, (colour) => shade.get(colour)!);
      if (bandOf(row) === "fog") expect(apart).toBeLessThan(10);
      else expect(apart).toBeGreaterThan(33.5);
    }
  });

  it("w1 keeps them apart too, and knits row 85 in one yarn", () => {
    for (const row of stranded) {
      const apart = lightnessIn("w1")(row);
      if (row === 85) expect(apart).toBe(0);
      else if (bandOf(row) === "fog") expect(apart).toBeLessThan(10);
      else expect(apart).toBeGreaterThan(30);
    }
  });

  it("w2 has the scree line one step apart and strands the far lights", () => {
    expect(lightnessIn("w2")(68)).toBeCloseTo(4.5, 1);
    expect(lightnessIn("w2")(85)).toBeGreaterThan(25);
  });

  it("w3 has a saturated yarn where the pattern is quiet, in five bands, and nothing lost", () => {
    const yarn = project.yarns.find(({ id }) => id === project.colourways[2]!.yarns["E"])!;
    const chroma = ([, a, b]: readonly number[]): number => Math.hypot(a!, b!);
    expect(chroma(labOfYarn(yarn))).toBeGreaterThan(60);
    expect(chroma(labOfShade(project.pattern.colours.find(({ id }) => id === "E")!.shade))).toBeLessThan(12);
    expect(new Set(rows.filter((row) => idsIn(row).includes("E")).map(bandOf)).size).toBe(5);
    for (const row of stranded) {
      if (row !== 85 && bandOf(row) !== "fog") expect(lightnessIn("w3")(row)).toBeGreaterThan(25);
    }
  });

  it("the table of leftovers holds the project's yarns, and one that has no shade yet", () => {
    const table = readStashTable(readFileSync("examples/leftovers.csv", "utf8"));
    expect(table.yarns).toHaveLength(project.yarns.length);
    expect(table.unshaded.map(({ name }) => name)).toEqual(["Unlabelled brown"]);
    for (const yarn of table.yarns) {
      const own = project.yarns.find(({ name }) => name === yarn.name)!;
      expect(Math.hypot(...labOfYarn(yarn).map((part, axis) => part - labOfYarn(own)[axis]!))).toBeLessThan(1.5);
      if (yarn.name !== "Lilac") expect(gramsOwned(yarn)).toBe(gramsOwned(own));
    }
  });
});
