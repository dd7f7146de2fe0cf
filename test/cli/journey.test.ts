/** Her way through the commands: from a chart and a table of leftovers to a sheet to knit from. */
import { readFileSync, writeFileSync } from "node:fs";
import sharp from "sharp";
import { describe, expect, it } from "vitest";
import { readProject } from "../../src/document/read.ts";
import { bench } from "./program.ts";

/** Six rows of a small diamond, top row first. */
const ROWS = ["AAAAAAAA", "AAABAAAA", "AABCBAAA", "ABCCCBAA", "AABCBAAA", "AAABAAAA"];
const HEX: Readonly<Record<string, string>> = { A: "#e8e2d2", B: "#3b4a63", C: "#a4512f" };
const chartText = `${Object.entries(HEX)
  .map(([id, hex]) => `${id} = ${hex}`)
  .join("\n")}\n\n${ROWS.join("\n")}\n`;

/** Cells of 12 pixels with a grey line of one pixel around each, as charts are printed. */
const CELL = 12;
const LINE = [0x80, 0x80, 0x80];
const [width, height] = [ROWS[0]!.length * CELL + 1, ROWS.length * CELL + 1];
const pixelAt = (x: number, y: number): number[] => {
  if (x % CELL === 0 || y % CELL === 0) return LINE;
  const hex = HEX[ROWS[Math.floor(y / CELL)]![Math.floor(x / CELL)]!]!;
  return [1, 3, 5].map((at) => parseInt(hex.slice(at, at + 2), 16));
};
const pixels = Array.from({ length: width * height }, (_, index) => pixelAt(index % width, Math.floor(index / width)));
const chartPicture = await sharp(Buffer.from(pixels.flat()), { raw: { width, height, channels: 3 } })
  .png()
  .toBuffer();

const table = `name,maker,hex,grams,metres per 100 g,lot
Fog,Sample Mill,#dedad0,43,420,0417
Fog,Sample Mill,#dedad0,12,420,0418
Night,Sample Mill,#2b3049,50,400,
Rowan berry,Sample Mill,#943a26,38,400,
Lichen,Sample Mill,#9aa07a,25,420,
Slate,Sample Mill,#6a7078,60,420,
`;

const { run, json, at } = bench({ "chart.txt": chartText, "chart.png": chartPicture, "leftovers.csv": table });

describe("read", () => {
  it("gives the rows and colours of a text", async () => {
    const { charts } = await json<{ charts: { rows: string[]; colours: Record<string, { hex: string }> }[] }>(
      "read",
      "@chart.txt",
    );
    expect(charts[0]!.rows).toEqual(ROWS);
    expect(Object.fromEntries(Object.entries(charts[0]!.colours).map(([id, { hex }]) => [id, hex]))).toEqual(HEX);
  });

  it("gives the same stitches from a picture, by whatever letters", async () => {
    const { charts } = await json<{
      charts: { rows: string[]; colours: Record<string, { hex: string }>; box: number[][] }[];
    }>("read", "@chart.png");
    const { rows, colours, box } = charts[0]!;
    expect(rows.map((row) => [...row].map((id) => colours[id]!.hex))).toEqual(
      ROWS.map((row) => [...row].map((id) => HEX[id]!)),
    );
    expect(box).toHaveLength(4);
  });
});

describe("stash", () => {
  it("gives yarns with their lots and amounts", async () => {
    const { yarns, problems } = await json<{
      yarns: { name: string; grams: number; lot: string | null; metresPer100g: number }[];
      problems: unknown[];
    }>("stash", "@leftovers.csv");
    expect(yarns.map(({ name, grams, lot, metresPer100g }) => [name, grams, lot, metresPer100g])).toEqual([
      ["Fog", 55, "0417, 0418", 420],
      ["Night", 50, null, 400],
      ["Rowan berry", 38, null, 400],
      ["Lichen", 25, null, 420],
      ["Slate", 60, null, 420],
    ]);
    expect(problems).toEqual([]);
  });
});

describe("from a chart and yarns to a sheet", () => {
  it("new, check, recolour, apply, compare, amounts, fabric and sheet follow each other", async () => {
    const made = await run(
      "new",
      "--chart",
      "@chart.txt",
      "--stash",
      "@leftovers.csv",
      "--out",
      "@snow-vest.twostrand.json",
    );
    expect(made.code).toBe(0);
    expect(made.err).toContain("28");
    const text = readFileSync(at("snow-vest.twostrand.json"), "utf8");
    const project = readProject(text).value!;
    expect(project.name).toBe("snow vest");
    expect(project.pattern.gauge).toEqual({ stitches: 28, rows: 30 });
    expect(project.pattern.colours.find(({ role }) => role === "main")!.id).toBe("A");
    expect(project.yarns).toHaveLength(5);
    // The chart's colours were chosen next to these three yarns, from light to dark: Fog, Rowan berry, Night.
    const named = Object.entries(project.colourways[0]!.yarns).map(([colour, id]) => [
      colour,
      project.yarns.find((yarn) => yarn.id === id)!.name,
    ]);
    expect(named).toEqual([
      ["A", "Fog"],
      ["B", "Night"],
      ["C", "Rowan berry"],
    ]);

    const check = await json<{
      ladder: { colour: string }[];
      rows: { row: number }[];
      bands: unknown[];
      weights: unknown[];
      findings: unknown[];
    }>("check", "@snow-vest.twostrand.json");
    expect(check.ladder.map(({ colour }) => colour)).toEqual(["A", "C", "B"]);
    expect(check.rows).toHaveLength(6);

    const found = await run("recolour", "@snow-vest.twostrand.json", "--ways", "2", "--json");
    expect(found.code).toBe(0);
    const { ways } = JSON.parse(found.out) as { ways: { yarns: Record<string, string>; proven: boolean }[] };
    expect(ways.length).toBeGreaterThan(0);
    writeFileSync(at("ways.json"), found.out);

    const applied = await json<{ file: string; colourway: string }>(
      "apply",
      "@snow-vest.twostrand.json",
      "--ways",
      "@ways.json",
      "--way",
      "1",
      "--out",
      "@second.twostrand.json",
    );
    const second = readProject(readFileSync(at("second.twostrand.json"), "utf8")).value!;
    expect(second.colourways).toHaveLength(2);
    expect(second.colourways.find(({ id }) => id === applied.colourway)!.yarns).toEqual(ways[0]!.yarns);
    expect(readFileSync(at("snow-vest.twostrand.json"), "utf8")).toBe(text);

    const compared = await json<{ rows: { colourway: string }[] }>("compare", "@second.twostrand.json");
    expect(compared.rows.map(({ colourway }) => colourway)).toEqual(second.colourways.map(({ id }) => id));

    const amounts = await json<{ yarns: { yarn: string; stitches: number }[] }>("amounts", "@snow-vest.twostrand.json");
    expect(amounts.yarns.reduce((sum, { stitches }) => sum + stitches, 0)).toBe(ROWS.length * 8);

    const fabric = await json<{ file: string; width: number; height: number; millimetresPerPixel: number }>(
      "fabric",
      "@snow-vest.twostrand.json",
      "--out",
      "@cloth.png",
      "--distance",
      "2",
    );
    const picture = await sharp(at("cloth.png")).metadata();
    expect([picture.width, picture.height]).toEqual([fabric.width, fabric.height]);
    // Eight stitches at 28 to 10 cm are 28.6 mm wide.
    expect(fabric.width * fabric.millimetresPerPixel).toBeCloseTo((8 / 28) * 100, 0);

    const sheet = await json<{ file: string; pages: number }>(
      "sheet",
      "@snow-vest.twostrand.json",
      "--out",
      "@vest.pdf",
    );
    expect(readFileSync(at("vest.pdf")).subarray(0, 5).toString()).toBe("%PDF-");
    expect(sheet.pages).toBeGreaterThan(0);
  });

  it("new does not replace a project unless it is forced to", async () => {
    const first = await run("new", "--chart", "@chart.txt", "--out", "@again.json", "--gauge", "24x32");
    expect([first.code, first.err.includes("fault")]).toEqual([0, false]);
    const other = ["new", "--chart", "@chart.png", "--out", "@again.json", "--gauge", "24x32", "--name", "other"];
    expect((await run(...other)).code).toBe(73);
    expect((await run(...other, "--force")).code).toBe(0);
    expect(readProject(readFileSync(at("again.json"), "utf8")).value!.name).toBe("other");
  });
});
