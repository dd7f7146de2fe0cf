import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { deltaE2000 } from "../colour/difference.ts";
import { labFromHex } from "../colour/lab.ts";
import { problemSentence } from "../base/problem.ts";
import { seededRandom } from "../base/random.ts";
import { pixelsOf, type Pixels } from "../raster/pixels.ts";
import { paint, randomPainting, type Style } from "../../test/intake/chartPainter.ts";
import { FAMILIES, paintCells } from "../../test/intake/cellPainter.ts";
import { readChartPicture } from "./chartPicture.ts";

/** Ids renamed in the order in which they are met, so that two charts can be compared. */
function renamed(rows: readonly string[]): string[] {
  const names = new Map<string, string>();
  const name = (id: string): string =>
    names.get(id) ?? (names.set(id, String.fromCharCode(65 + names.size)), names.get(id)!);
  return rows.map((row) => Array.from(row, name).join(""));
}

// A vest border: four colours, 16 × 11, painted by the drawing library; what was painted is what is expected.
const rows = [
  "AAAABAAAAAAABAAA",
  "AAABBBAAAAABBBAA",
  "AABBABBAAABBABBA",
  "ABBAAABBABBAAABB",
  "CCCCCCCCCCCCCCCC",
  "CDCDCDCDCDCDCDCD",
  "DCDCDCDCDCDCDCDC",
  "CCCCCCCCCCCCCCCC",
  "ABBAAABBABBAAABB",
  "AABBABBAAABBABBA",
  "AAABBBAAAAABBBAA",
];
const palette = { A: "#e8e2d2", B: "#8a3b2e", C: "#43607f", D: "#c9a24b" };
const plain: Style = {
  cellWidth: 14,
  cellHeight: 14,
  lines: "thin",
  lineWidth: 1,
  heavyWidth: 2,
  lineColour: "#222222",
  page: "#ffffff",
  margins: [30, 40, 25, 35],
  rowNumbers: "none",
  numbersEvery: 1,
  columnNumbers: false,
  title: false,
  key: false,
  sharpEdges: true,
  jpeg: null,
};

describe("one chart in many styles", () => {
  it.each<[string, Partial<Style>]>([
    ["thin lines", {}],
    ["no lines", { lines: "none" }],
    ["no lines, no margin", { lines: "none", margins: [0, 0, 0, 0] }],
    ["heavier every five", { lines: "every 5" }],
    ["heavier every ten, soft edges", { lines: "every 10", sharpEdges: false }],
    ["light lines", { lineColour: "#cccccc" }],
    ["white lines on white paper", { lineColour: "#ffffff" }],
    ["white lines on grey paper", { lineColour: "#ffffff", page: "#b0b0b0" }],
    ["cells wider than high", { cellWidth: 15, cellHeight: 14 }],
    ["cells of no whole number of pixels", { cellWidth: 13.37, cellHeight: 12.61, sharpEdges: false }],
    ["row numbers at the right", { rowNumbers: "right" }],
    ["row numbers on both sides, columns below", { rowNumbers: "both", columnNumbers: true }],
    ["title and key", { title: true, key: true }],
    [
      "all of it, compressed",
      { rowNumbers: "both", columnNumbers: true, title: true, key: true, jpeg: 90, sharpEdges: false },
    ],
    ["tiny cells", { cellWidth: 5, cellHeight: 5 }],
    ["blocks of three pixels", { cellWidth: 3, cellHeight: 3, lines: "none", margins: [0, 0, 0, 0] }],
    ["large cells", { cellWidth: 60, cellHeight: 56, lineWidth: 3 }],
    ["a dark page", { page: "#202020", lineColour: "#808080" }],
  ])("%s", async (_, change) => {
    const { charts } = readChartPicture(await paint(rows, palette, { ...plain, ...change }));
    expect(charts).toHaveLength(1);
    expect(renamed(charts[0]!.rows)).toEqual(renamed(rows));
    expect(charts[0]!.uncertain).toEqual([]);
  });

  it("names colours by how many stitches they have, and gives them", async () => {
    const { charts, problems } = readChartPicture(await paint(rows, palette, plain));
    // Counted in the rows above: 66 light and 46 red stitches in the seven rows of figures, 48 blue and 16 yellow between.
    const counts = (id: string): number => charts[0]!.rows.join("").split(id).length - 1;
    expect(["A", "B", "C", "D"].map(counts)).toEqual([66, 48, 46, 16]);
    for (const hex of Object.values(palette)) {
      const nearest = Math.min(
        ...Object.values(charts[0]!.colours).map(({ lab }) => deltaE2000(lab, labFromHex(hex)!)),
      );
      expect(nearest).toBeLessThan(0.5);
    }
    expect(problems).toEqual([]);
  });

  it("tells where the chart is, clockwise from the top left", async () => {
    const { charts } = readChartPicture(await paint(rows, palette, plain));
    // Painted: 30 pixels of margin at the left, 25 at the top, 16 × 11 cells of 14 pixels.
    const wanted = [
      [30, 25],
      [254, 25],
      [254, 179],
      [30, 179],
    ];
    charts[0]!.box!.forEach(([x, y], corner) => {
      expect(Math.abs(x - wanted[corner]![0]!)).toBeLessThanOrEqual(2);
      expect(Math.abs(y - wanted[corner]![1]!)).toBeLessThanOrEqual(2);
    });
    expect(charts[0]!.page).toBe(1);
  });

  it("leaves out what is not a stitch in a chart that is no rectangle", async () => {
    const shaped = ["-AAB-", "BAABA", "ABABA", "AABBA"];
    const style = { ...plain, cellWidth: 20, cellHeight: 20 };
    const whole = await paint(
      shaped.map((row) => row.replaceAll("-", "P")),
      { ...palette, P: "#ffffff" },
      style,
    );
    const bare = withoutCorners(whole, style);
    expect(renamed(readChartPicture(bare).charts[0]!.rows)).toEqual(renamed(shaped));
  });
});

/** Paints the two upper corner cells and their outer lines over with paper. */
function withoutCorners(pixels: Pixels, { cellWidth, margins: [left, , top] }: Style): Pixels {
  const rgba = pixels.rgba.slice();
  const inner = cellWidth - 2;
  for (const from of [left - 3, left + 4 * cellWidth + 2]) {
    for (let y = top - 3; y < top + inner; y++) {
      for (let x = from; x < from + inner + 3; x++)
        rgba.fill(255, (y * pixels.width + x) * 4, (y * pixels.width + x) * 4 + 4);
    }
  }
  return { ...pixels, rgba };
}

describe("painted by chance", () => {
  it("of 24 charts with numbers, titles, keys and compression, all but 2 are read to the last stitch", async () => {
    const wrong: number[] = [];
    for (let seed = 300; seed < 324; seed++) {
      const { rows, palette, style } = randomPainting(seededRandom(seed));
      const { charts } = readChartPicture(await paint(rows, palette, style));
      if (renamed(charts[0]?.rows ?? []).join("\n") !== renamed(rows).join("\n")) wrong.push(seed);
    }
    // The two are cells of five or six pixels, lined and compressed.
    expect(wrong.length, `seeds ${wrong.join()}`).toBeLessThanOrEqual(2);
  }, 60_000);
});

describe("clean pictures", () => {
  // What the painter painted is what is expected; where the picture hides the chart's edge, a wrong reading is to be in doubt.
  const clean = FAMILIES.filter((family) => family !== "resized" && family !== "jpeg" && family !== "text around");
  it.each(clean)(
    "%s: all of 12 by chance are read to the last stitch",
    async (family) => {
      for (let seed = 70_001; seed <= 70_012; seed++) {
        const { rows, pixels, edgeHidden } = await paintCells(family, seededRandom(seed));
        const [chart] = readChartPicture(pixels).charts;
        if (!edgeHidden) expect(renamed(chart!.rows), `seed ${seed}`).toEqual(renamed(rows));
      }
    },
    60_000,
  );

  it("a plain top row is kept without lines and margin", async () => {
    // 8 × 6 stitches of 12 pixels on a ground of the same colour as the top row.
    const painted = ["AAAAAAAA", "AABAABAA", "ABBBABBB", "AABAABAA", "BABBABAB", "ABAABABA"];
    const style: Style = { ...plain, cellWidth: 12, cellHeight: 12, lines: "none", margins: [0, 0, 0, 0] };
    const { charts } = readChartPicture(await paint(painted, palette, style));
    expect(renamed(charts[0]!.rows)).toEqual(renamed(painted));
    expect(charts[0]!.confidence).toBeGreaterThan(0.9);
    const onPage = readChartPicture(await paint(painted, palette, { ...style, margins: [20, 17, 9, 30] }));
    expect(renamed(onPage.charts[0]!.rows)).toEqual(renamed(painted));
  });

  it("an edge that cannot be seen is told", async () => {
    // White stitches at the top of a chart with white lines on white paper.
    const painted = ["AAAAAAAA", "BABBABAB", "ABAABABA", "BBAABBAA"];
    const style: Style = { ...plain, lineColour: "#ffffff" };
    const { charts, problems } = readChartPicture(await paint(painted, { ...palette, A: "#ffffff" }, style));
    expect(charts[0]!.confidence).toBeLessThan(0.9);
    expect(problems.map(problemSentence)[0]).toMatch(/^The edge of the chart: expected a line or a change of colour/);
  });
});

describe("one pixel to a stitch", () => {
  it.each([
    [4, 4],
    [24, 21],
    [60, 40],
    [400, 400],
  ])("%i × %i", (width, height) => {
    const random = seededRandom(width);
    const colours = [
      [232, 226, 210],
      [138, 59, 46],
      [67, 96, 127],
    ];
    const bytes = new Uint8ClampedArray(width * height * 4).fill(255);
    const painted = Array.from({ length: height }, (_, y) =>
      Array.from({ length: width }, (_, x) => {
        const index = Math.floor(random() * 3);
        bytes.set(colours[index]!, (y * width + x) * 4);
        return "ABC"[index]!;
      }).join(""),
    );
    const { charts } = readChartPicture(pixelsOf(width, height, bytes));
    expect(renamed(charts[0]!.rows)).toEqual(renamed(painted));
  });
});

describe("large charts", () => {
  it("400 × 400 in blocks of five pixels", () => {
    const random = seededRandom(4);
    const colours = [
      [232, 226, 210],
      [58, 42, 34],
      [67, 96, 127],
      [201, 162, 75],
    ];
    const cells = Array.from({ length: 160_000 }, () => Math.floor(random() * 4));
    const bytes = new Uint8ClampedArray(2000 * 2000 * 4).fill(255);
    for (let y = 0; y < 2000; y++) {
      for (let x = 0; x < 2000; x++) {
        bytes.set(colours[cells[Math.floor(y / 5) * 400 + Math.floor(x / 5)]!]!, (y * 2000 + x) * 4);
      }
    }
    const { charts } = readChartPicture(pixelsOf(2000, 2000, bytes));
    const painted = Array.from({ length: 400 }, (_, y) => cells.slice(y * 400, y * 400 + 400).join(""));
    expect(renamed(charts[0]!.rows)).toEqual(renamed(painted));
  });
});

describe("what is no chart", () => {
  it.each<[string, Pixels]>([
    ["a blank page", pixelsOf(200, 100, new Uint8ClampedArray(80_000).fill(255))],
    ["a few pixels", pixelsOf(3, 3, new Uint8ClampedArray(36).fill(255))],
    ["noise", noise(200, 150)],
    ["a shaded sky", sky(200, 150)],
  ])("%s", (_, pixels) => {
    const { charts, problems } = readChartPicture(pixels);
    expect(charts).toEqual([]);
    expect(problems[0]!.severity).toBe("fault");
    expect(problemSentence(problems[0]!)).toMatch(/^The picture: expected a chart on a regular grid/);
  });

  it("whatever comes in, nothing is thrown and charts are rectangles", () => {
    const picture = fc
      .tuple(fc.integer({ min: 1, max: 30 }), fc.integer({ min: 1, max: 30 }))
      .chain(([width, height]) =>
        fc
          .array(fc.constantFrom(0, 60, 128, 200, 255), {
            minLength: width * height * 4,
            maxLength: width * height * 4,
          })
          .map((data) => pixelsOf(width, height, Uint8ClampedArray.from(data))),
      );
    fc.assert(
      fc.property(picture, (pixels) => {
        const { charts, problems } = readChartPicture(pixels);
        expect(charts.length + problems.length).toBeGreaterThan(0);
        for (const chart of charts) expect(new Set(chart.rows.map((row) => row.length)).size).toBe(1);
      }),
      { seed: 7, numRuns: 100 },
    );
  });
});

function noise(width: number, height: number): Pixels {
  const random = seededRandom(9);
  return pixelsOf(
    width,
    height,
    Uint8ClampedArray.from({ length: width * height * 4 }, (_, at) => (at % 4 === 3 ? 255 : 256 * random())),
  );
}

function sky(width: number, height: number): Pixels {
  return pixelsOf(
    width,
    height,
    Uint8ClampedArray.from({ length: width * height * 4 }, (_, at) =>
      at % 4 === 3 ? 255 : 120 + (110 * Math.floor(at / 4 / width)) / height,
    ),
  );
}
