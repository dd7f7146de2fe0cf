/** Cells on a grid that is known: pictures are painted here pixel by pixel, so what is expected is what was painted. */
import { describe, expect, it } from "vitest";
import { seededRandom } from "../base/random.ts";
import { deltaE2000 } from "../colour/difference.ts";
import { labFromHex } from "../colour/lab.ts";
import { decodeSrgb, encodeSrgb } from "../colour/srgb.ts";
import type { Pixels } from "../raster/pixels.ts";
import { gridOfLines } from "./chartGrid.ts";
import { findLegend } from "./findLegend.ts";
import { readCells } from "./readCells.ts";
import type { ReadChart } from "./readChart.ts";

type Rgb = readonly [number, number, number];
/** Whether ink lies at a place of the cell, both 0 to 1. */
type Sign = (u: number, v: number) => boolean;

interface Painting {
  readonly rows: readonly string[];
  readonly palette: Readonly<Record<string, string>>;
  readonly cell: number;
  readonly margin: number;
  readonly signs?: Readonly<Record<string, Sign>>;
  /** Pixels; 0 for none. */
  readonly line?: number;
  /** What becomes of the linear light of a pixel, its place being 0 to 1. */
  readonly light?: (x: number, y: number) => Rgb;
  /** Bytes, even chance up and down. */
  readonly noise?: number;
  /** Swatches under the chart, as large as cells. */
  readonly key?: readonly string[];
}

const hexBytes = (hex: string): Rgb =>
  [1, 3, 5].map((at) => Number.parseInt(hex.slice(at, at + 2), 16)) as unknown as Rgb;

/** White paper, black lines and ink. */
function painted({ rows, palette, cell, margin, signs = {}, line = 0, light, noise = 0, key = [] }: Painting): Pixels {
  const [columns, height] = [rows[0]!.length, rows.length];
  const [wide, high] = [2 * margin + columns * cell, 2 * margin + height * cell + (key.length > 0 ? 3 * cell : 0)];
  const rgba = new Uint8ClampedArray(wide * high * 4).fill(255);
  const random = seededRandom(5);
  const colourAt = (x: number, y: number): Rgb => {
    const [column, row] = [Math.floor((x - margin) / cell), Math.floor((y - margin) / cell)];
    const id = rows[row]?.[column];
    if (row === height + 1 && column >= 0 && column % 2 === 0 && key[column / 2]) return hexBytes(key[column / 2]!);
    if (id === undefined || id === "-") return [255, 255, 255];
    const [u, v] = [((x - margin) % cell) + 0.5, ((y - margin) % cell) + 0.5];
    if (u < line || v < line) return [0, 0, 0];
    return signs[id]?.(u / cell, v / cell) ? [20, 20, 20] : hexBytes(palette[id]!);
  };
  for (let y = 0; y < high; y++)
    for (let x = 0; x < wide; x++) {
      const colour = colourAt(x, y);
      const gain = light?.(x / wide, y / high) ?? [1, 1, 1];
      for (let channel = 0; channel < 3; channel++)
        rgba[(y * wide + x) * 4 + channel] =
          255 * encodeSrgb(decodeSrgb(colour[channel]! / 255) * gain[channel]!) + noise * (2 * random() - 1);
    }
  return { width: wide, height: high, rgba };
}

const gridOf = ({ rows, cell, margin }: Painting) =>
  gridOfLines(
    Array.from({ length: rows[0]!.length + 1 }, (_, at) => margin + at * cell),
    Array.from({ length: rows.length + 1 }, (_, at) => margin + at * cell),
  );

/** Letters by the order in which they are met, "-" staying itself: what a chart is, whatever its letters. */
function renamed(rows: readonly string[]): string[] {
  const names = new Map([["-", "-"]]);
  return rows.map((row) =>
    Array.from(row, (id) => names.get(id) ?? (names.set(id, String(names.size)), String(names.size - 1))).join(""),
  );
}

function chance(ids: string, columns: number, rows: number, seed = 3): string[] {
  const random = seededRandom(seed);
  return Array.from({ length: rows }, () =>
    Array.from({ length: columns }, () => ids[Math.floor(random() * ids.length)]!).join(""),
  );
}

const read = (painting: Painting, options: Parameters<typeof readCells>[2] = {}): ReadChart =>
  readCells(painted(painting), gridOf(painting), options).chart;

/** The farthest a painted colour lies from the nearest that was read, ΔE00. */
const worst = (chart: ReadChart, palette: Painting["palette"]): number =>
  Math.max(
    ...Object.values(palette).map((hex) =>
      Math.min(...Object.values(chart.colours).map(({ lab }) => deltaE2000(lab, labFromHex(hex)!))),
    ),
  );

const PALETTE = { A: "#e8e2d2", B: "#8a3b2e", C: "#43607f", D: "#c9a24b" };
const ring: Sign = (u, v) => Math.abs(Math.hypot(u - 0.5, v - 0.5) - 0.29) < 0.06;
const cross: Sign = (u, v) => Math.min(Math.abs(u - v), Math.abs(u + v - 1)) < 0.08 && Math.abs(u - 0.5) < 0.28;
const dot: Sign = (u, v) => Math.hypot(u - 0.5, v - 0.5) < 0.15;
const slash: Sign = (u, v) => Math.abs(u + v - 1) < 0.08 && Math.abs(u - 0.5) < 0.3;

describe("colours", () => {
  it.each([1, 2, 3, 5, 8, 14, 40])("drawn in cells of %i pixels are read to the last cell", (cell) => {
    const painting: Painting = { rows: chance("ABCD", 24, 17), palette: PALETTE, cell, margin: cell * 2 };
    const chart = read(painting, { exact: true });
    expect(renamed(chart.rows)).toEqual(renamed(painting.rows));
    expect(worst(chart, PALETTE)).toBeLessThan(0.5);
    expect(chart.uncertain).toEqual([]);
  });

  it("under a warm lamp at one side, with grain, are read and given as by daylight", () => {
    // Light falls to about a third across the picture, and the lamp takes most of its blue away.
    const light = (x: number, y: number): Rgb => [0.95 - 0.4 * x, 0.85 - 0.4 * x - 0.1 * y, 0.6 - 0.3 * x];
    const painting: Painting = {
      rows: chance("ABCD", 30, 24),
      palette: PALETTE,
      cell: 14,
      margin: 30,
      line: 1,
      light,
      noise: 8,
    };
    const chart = read(painting);
    expect(renamed(chart.rows)).toEqual(renamed(painting.rows));
    expect(worst(chart, PALETTE)).toBeLessThan(3);
    expect(chart.uncertain.length).toBeLessThan(0.05 * 30 * 24);
  });

  it("in a shadow with an edge are the same colours", () => {
    const light = (x: number, y: number): Rgb => {
      const part = 1 - 0.45 / (1 + Math.exp((x + y - 0.9) / 0.02));
      return [part, part, part];
    };
    const painting: Painting = {
      rows: chance("ABCD", 30, 24),
      palette: PALETTE,
      cell: 20,
      margin: 40,
      line: 1,
      light,
      noise: 4,
    };
    expect(renamed(read(painting).rows)).toEqual(renamed(painting.rows));
  });

  it("as many as she says", () => {
    // Two blues 5 apart in one channel byte, under grain: one colour unless told.
    const palette = { A: "#ffffff", B: "#43607f", C: "#48607f" };
    const painting: Painting = { rows: chance("ABC", 20, 20), palette, cell: 16, margin: 20, noise: 6 };
    expect(Object.keys(read(painting).colours)).toHaveLength(2);
    expect(Object.keys(read(painting, { colours: 3 }).colours)).toHaveLength(3);
  });

  it("nearly equal are kept apart where the key has both", () => {
    const palette = { A: "#ffffff", B: "#43607f", C: "#4b6884" };
    const painting: Painting = {
      rows: chance("AAABBBC", 20, 20),
      palette,
      cell: 16,
      margin: 30,
      noise: 5,
      key: Object.values(palette).slice(1),
    };
    const pixels = painted(painting);
    const legend = findLegend(pixels, [gridOf(painting)]);
    const chart = readCells(pixels, gridOf(painting), { legend }).chart;
    expect(renamed(chart.rows)).toEqual(renamed(painting.rows));
  });
});

describe("signs", () => {
  const palette = { A: "#ffffff", B: "#ffffff", C: "#ffffff", D: "#ffffff", E: "#ffffff" };
  const signs = { B: ring, C: cross, D: dot, E: slash };

  it.each([11, 16, 30])("in cells of %i pixels are told apart by their shape, a blank cell being one too", (cell) => {
    const painting: Painting = { rows: chance("ABCDE", 22, 18), palette, cell, margin: 20, line: 1, signs, noise: 5 };
    const { rows, symbols, colours } = read(painting);
    expect(renamed(rows)).toEqual(renamed(painting.rows));
    expect(Object.keys(colours)).toHaveLength(5);
    expect(Object.keys(symbols ?? {})).toHaveLength(4);
    for (const { picture } of Object.values(symbols!))
      expect(picture!.map((row) => row.length)).toEqual(Array(16).fill(16));
  });

  it("the same on other grounds are other colours", () => {
    const grounds = { A: "#e8e2d2", B: "#e8e2d2", C: "#c9a24b", D: "#c9a24b" };
    const painting: Painting = {
      rows: chance("ABCD", 20, 20),
      palette: grounds,
      cell: 18,
      margin: 20,
      signs: { B: cross, D: cross },
    };
    expect(renamed(read(painting).rows)).toEqual(renamed(painting.rows));
  });

  it("black and white squares are two colours and no signs", () => {
    const painting: Painting = {
      rows: chance("AB", 20, 20),
      palette: { A: "#ffffff", B: "#000000" },
      cell: 12,
      margin: 20,
      line: 1,
    };
    const { rows, symbols } = read(painting);
    expect(renamed(rows)).toEqual(renamed(painting.rows));
    expect(symbols).toBeUndefined();
  });
});

describe("no stitch", () => {
  /** Narrows upwards by two stitches at both sides every four rows. */
  const yoke = (rows: readonly string[], id: string): string[] =>
    rows.map((row, y) => {
      const cut = 2 * Math.floor((rows.length - 1 - y) / 4);
      return id.repeat(cut) + row.slice(cut, row.length - cut) + id.repeat(cut);
    });

  it.each([
    ["grey", "#b4b4b4"],
    ["missing", ""],
  ])("%s cells of a yoke that narrows", (_, grey) => {
    const whole = chance("ABC", 26, 18);
    const drawn = yoke(whole, grey === "" ? "-" : "G");
    const painting: Painting = {
      rows: drawn,
      palette: { ...PALETTE, G: grey },
      cell: 15,
      margin: 25,
      line: grey === "" ? 1 : 0,
    };
    expect(renamed(read(painting).rows)).toEqual(renamed(yoke(whole, "-")));
  });

  it("a grey amid the motif is a colour, and so is one in plain rows", () => {
    const palette = { A: "#e8e2d2", B: "#8a3b2e", G: "#b4b4b4" };
    const amid: Painting = { rows: chance("ABG", 20, 16), palette, cell: 15, margin: 25 };
    expect(read(amid).rows.join("")).not.toContain("-");
    const plain: Painting = { ...amid, rows: ["G".repeat(20), "G".repeat(20), ...chance("AB", 20, 12)] };
    expect(read(plain).rows.join("")).not.toContain("-");
  });

  it("a grey that the key has is a colour even where it lies as what is left out does", () => {
    const palette = { ...PALETTE, G: "#b4b4b4" };
    const painting: Painting = {
      rows: yoke(chance("ABC", 26, 18), "G"),
      palette,
      cell: 15,
      margin: 25,
      key: Object.values(palette),
    };
    const pixels = painted(painting);
    const legend = findLegend(pixels, [gridOf(painting)]);
    expect(readCells(pixels, gridOf(painting), { legend }).chart.rows.join("")).not.toContain("-");
  });
});

describe("the key", () => {
  it("is found beside the chart with its colours, and nothing is found where there is none", () => {
    const painting: Painting = {
      rows: chance("ABCD", 20, 12),
      palette: PALETTE,
      cell: 16,
      margin: 30,
      key: Object.values(PALETTE),
    };
    const { entries } = findLegend(painted(painting), [gridOf(painting)]);
    const wanted = Object.values(PALETTE).map((hex) => labFromHex(hex)!);
    expect(entries).toHaveLength(wanted.length);
    for (const lab of wanted)
      expect(Math.min(...entries.map((entry) => deltaE2000(entry.lab!, lab)))).toBeLessThan(0.5);
    const { key: _key, ...bare } = painting;
    expect(findLegend(painted(bare), [gridOf(bare)]).entries).toEqual([]);
    expect(findLegend(painted(bare), []).entries).toEqual([]);
  });
});

it("a cell that is half of another colour is doubtful", () => {
  const painting: Painting = { rows: chance("AB", 20, 20), palette: PALETTE, cell: 16, margin: 20, noise: 4 };
  const pixels = painted(painting);
  // The cell in row 1, column 1: its left half is of a colour between both.
  for (let y = 20 + 19 * 16; y < 20 + 20 * 16; y++)
    for (let x = 20 + 19 * 16; x < 20 + 19 * 16 + 9; x++) pixels.rgba.set([185, 142, 128], (y * pixels.width + x) * 4);
  expect(readCells(pixels, gridOf(painting)).chart.uncertain).toContainEqual([1, 1]);
});

it("whatever the picture, nothing is thrown, and what comes is plain data", () => {
  const random = seededRandom(2);
  const rgba = Uint8ClampedArray.from({ length: 60 * 40 * 4 }, () => 256 * random());
  const told = readCells({ width: 60, height: 40, rgba }, gridOfLines([-20, 3, 9, 70], [-5, 4, 90]));
  expect(told.chart.rows.map((row) => row.length)).toEqual([3, 3]);
  expect(structuredClone(told)).toEqual(told);
});
