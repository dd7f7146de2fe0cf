/** The invented world tells the truth of its pictures, and the reader of charts reads them as well as we say. */
import { describe, expect, it } from "vitest";
import { seededRandom } from "../../src/base/random.ts";
import { deltaE2000 } from "../../src/colour/difference.ts";
import { labFromHex } from "../../src/colour/lab.ts";
import { crossing } from "../../src/intake/chartGrid.ts";
import type { Pixels } from "../../src/raster/pixels.ts";
import { problemSentence } from "../../src/base/problem.ts";
import { readChartPicture } from "../../src/intake/chartPicture.ts";
import { paintChart, paintScene, score, type Family, type TruthChart } from "./chartWorld.ts";
import { paintStranger, type Stranger } from "./chartWorld/strangers.ts";
import { UNDAMAGED } from "./chartWorld/camera.ts";
import { chanceOf } from "./chartWorld/chance.ts";
import { sceneOf } from "./chartWorld/families.ts";

/** ΔE00 between each cell's drawn colour and the pixel in its middle. */
function offAtMiddles({ width, rgba }: Pixels, { rows, palette, grid }: TruthChart): number[] {
  const off: number[] = [];
  for (const [y, row] of rows.entries())
    for (const [x, id] of Array.from(row).entries()) {
      if (id === "-") continue;
      const corners = [crossing(grid, y, x), crossing(grid, y, x + 1), crossing(grid, y + 1, x), crossing(grid, y + 1, x + 1)]; // prettier-ignore
      const [cx, cy] = [0, 1].map((axis) => corners.reduce((sum, corner) => sum + corner[axis]!, 0) / 4) as [
        number,
        number,
      ];
      const at = (Math.floor(cy) * width + Math.floor(cx)) * 4;
      const hex = `#${[0, 1, 2].map((channel) => rgba[at + channel]!.toString(16).padStart(2, "0")).join("")}`;
      off.push(deltaE2000(labFromHex(hex)!, labFromHex(palette[id]!)!));
    }
  return off;
}

describe("the world's truth", () => {
  it.each<Family>([
    "clean: no lines",
    "clean: heavy every 5 or 10",
    "clean: several",
    "clean: near colours",
    "clean: pixels",
  ])("%s: the middle of every cell has the colour that was drawn", async (family) => {
    for (let seed = 1; seed <= 3; seed++) {
      const { pixels, truth } = await paintChart(family, seed);
      for (const chart of truth.charts) expect(offAtMiddles(pixels, chart).filter((off) => off > 1)).toEqual([]);
    }
  });

  it("is bent as the picture is: by tilt, curl of the page and lens", async () => {
    for (let seed = 1; seed <= 4; seed++) {
      const chance = chanceOf(seededRandom(seed));
      const { designs, style } = sceneOf("photo: thin lines", chance);
      const damage = { ...UNDAMAGED, scale: 1, roll: 4, pitch: 17, yaw: -11, curl: 0.02, lens: 0.02, around: 0.1, curlAt: seed % 2 === 0 ? "spine" : "middle" } as const; // prettier-ignore
      const { pixels, truth } = await paintScene("photo: thin lines", { designs, style, damage }, chance);
      const off = offAtMiddles(pixels, truth.charts[0]!);
      // A pixel beside a blend or a line now and then, no more.
      expect(off.filter((one) => one > 2).length / off.length).toBeLessThan(0.005);
    }
  });

  it("is the same for the same seed", async () => {
    const [one, two] = [await paintChart("photo: yoke", 5), await paintChart("photo: yoke", 5)];
    expect(one.truth).toEqual(two.truth);
    expect(Buffer.from(one.pixels.rgba).equals(Buffer.from(two.pixels.rgba))).toBe(true);
  });
});

describe("the score", () => {
  const painted = paintChart("clean: thin lines", 4);
  const readOf = ({ rows, palette, grid }: TruthChart) => ({
    rows,
    colours: Object.fromEntries(Object.entries(palette).map(([id, hex]) => [id, { hex, lab: labFromHex(hex)! }])),
    confidence: 1, box: null, page: 1, uncertain: [] as [number, number][], grid,
  }); // prettier-ignore

  it("is full for the truth under other names, with no difference of colour", async () => {
    const { truth } = await painted;
    const read = readOf(truth.charts[0]!);
    const renamed = { ...read, rows: read.rows.map((row) => row.toLowerCase()), colours: Object.fromEntries(Object.entries(read.colours).map(([id, colour]) => [id.toLowerCase(), colour])) }; // prettier-ignore
    const { fileRight, charts } = score(truth, { charts: [renamed], problems: [] });
    expect(fileRight).toBe(true);
    expect(charts[0]).toMatchObject({ found: true, wrong: 0, cornersOff: 0 });
    expect(Math.max(...charts[0]!.differences)).toBe(0);
  });

  it("counts a wrong cell, and whether it was doubted", async () => {
    const { truth } = await painted;
    const read = readOf(truth.charts[0]!);
    const [first, second] = Object.keys(read.colours) as [string, string];
    const row = Array.from(read.rows[0]!);
    row[0] = row[0] === first ? second : first;
    const rows = [row.join(""), ...read.rows.slice(1)];
    const place: [number, number] = [rows.length, row.length];
    const { charts } = score(truth, { charts: [{ ...read, rows, uncertain: [place] }], problems: [] });
    expect(charts[0]).toMatchObject({ wrong: 1, wrongAt: [place], wrongUncertain: 1, uncertain: 1 });
  });

  it("takes every cell for wrong where a row is missing, and no chart for one", async () => {
    const { truth } = await painted;
    const read = readOf(truth.charts[0]!);
    const short = score(truth, { charts: [{ ...read, rows: read.rows.slice(1) }], problems: [] });
    expect(short.charts[0]!.wrong).toBe(short.charts[0]!.cells);
    expect(score(truth, { charts: [], problems: [] }).fileRight).toBe(false);
    expect(score(truth, { charts: [read, { ...read }], problems: [] })).toMatchObject({ extra: 1, fileRight: false });
  });
});

describe("what is read of the world", () => {
  it.each<Family>([
    "clean: pixels",
    "clean: no lines",
    "clean: thin lines",
    "clean: heavy every 5 or 10",
    "clean: white on colour",
    "clean: dark on dark",
    "clean: page with words",
    "clean: near colours",
    "clean: yoke",
  ])(
    "%s: every stitch of every picture",
    async (family) => {
      for (const seed of [2, 3]) {
        const { pixels, truth } = await paintChart(family, seed);
        expect(score(truth, readChartPicture(pixels)).fileRight, `seed ${seed}`).toBe(true);
      }
    },
    60_000,
  );

  it.each<Stranger>(["text", "gradient", "grey noise", "stripes", "foliage", "blank", "ruled paper"])(
    "%s is said to be no chart, in a sentence",
    async (kind) => {
      const { charts, problems } = readChartPicture(await paintStranger(kind, 1));
      expect(charts).toEqual([]);
      expect(problemSentence(problems[0]!)).toMatch(/^The picture: expected a chart on a regular grid/);
    },
    60_000,
  );
});
