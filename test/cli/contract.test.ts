/** The contract with programs and scripts: exit codes, what goes to which stream, and what is told when something is wrong. */
import { existsSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { COMMANDS } from "../../src/cli/commands.ts";
import { bench } from "./program.ts";

const everyField = readFileSync("test/files/v1/every-field.twostrand.json", "utf8");
const { run, json, at } = bench({
  "vest.json": everyField,
  "untried.json": JSON.stringify({ ...(JSON.parse(everyField) as object), swatches: [] }),
  "newer.json": everyField.replace('"version": 1', '"version": 2'),
  "broken.json": everyField.slice(0, 100),
  "ragged.json": everyField.replace('"AbbA"', '"Abb"'),
  "loud.json": everyField
    .replaceAll("Vest for", "\\u001b[31mVest\\u0007 for")
    .replaceAll('"Fog"', '"\\u001b]0;x\\u0007Fog"'),
  "empty.json": everyField
    .replace(/"colourways": \[[\s\S]*?\n  \],/, '"colourways": [],')
    .replace(/"swatches": \[[\s\S]*?\n  \],/, '"swatches": [],'),
  "chart.txt": "ABAB\nBABA\n",
  "other.txt": "ABA\nBAB\nAAB\n",
  "bomb.svg": `<?xml version="1.0"?><!DOCTYPE svg [<!ENTITY a "aaaaaaaaaa">${Array.from({ length: 9 }, (_, index) => `<!ENTITY ${"bcdefghij"[index]!} "${`&${"abcdefghi"[index]!};`.repeat(10)}">`).join("")}]><svg xmlns="http://www.w3.org/2000/svg"><text>&j;</text></svg>`,
  "book.xlsx": new Uint8Array([0x50, 0x4b, 3, 4, 20, 0, 6, 0, 8, 0]),
  "page.pdf": "%PDF-1.4\n",
  "drawing.svg": "<svg xmlns='http://www.w3.org/2000/svg'/>",
  "noise.png": new Uint8Array([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 1, 2, 3]),
  "empty.txt": "",
  "slip.json": '{"lader":"reversed","mood":"quiet"}',
  "over.json": JSON.stringify({
    format: "twostrand-project",
    version: 1,
    name: "",
    pattern: {
      gauge: { stitches: 28, rows: 30 },
      colours: [
        { id: "A", shade: { hex: "#eeeeee" } },
        { id: "B", shade: { hex: "#333333" } },
      ],
      charts: [{ id: "c1", rows: ["ABAB", "BABA"] }],
    },
    yarns: [
      { id: "y1", name: "Soot", shade: { hex: "#222222" } },
      { id: "y2", name: "Rime", shade: { hex: "#f4f4f4" } },
    ],
    colourways: [{ id: "w1", yarns: { A: "y1", B: "y2" } }],
  }),
  "short.svg": "<svg/>",
  "page.html": "<!doctype html>\n<p>AB</p>",
  "latin.json": Buffer.from(everyField.replace("Vest for", "K\u00e4se for"), "latin1"),
  "sections.json": everyField.replace(/"sizes": \[[\s\S]*?\n    \],/, ""),
  "latin.csv": Buffer.from("name,hex\nK\u00e4se,#e8d27a\n", "latin1"),
  "ways.json": '{"ways":[]}',
});

describe("every command", () => {
  it.each(COMMANDS.map(({ name }) => name))("%s --help tells usage and an example in 80 columns", async (name) => {
    const { code, out, err } = await run(name, "--help");
    expect([code, err]).toEqual([0, ""]);
    expect(out).toContain(`Usage: twostrand ${name}`);
    expect(out).toContain(`Example:\n  twostrand ${name}`);
    for (const line of out.split("\n")) expect(line.length).toBeLessThanOrEqual(80);
    expect((await run("help", name)).out).toBe(out);
  });

  it("is told by --help, on standard output", async () => {
    const { code, out } = await run("--help");
    expect(code).toBe(0);
    for (const { name } of COMMANDS) expect(out).toMatch(new RegExp(`^  ${name} `, "m"));
  });
});

describe("exit codes and sentences", () => {
  it.each<[string[], number, string]>([
    [[], 64, "Usage: twostrand COMMAND [options]"],
    [["chekc", "@vest.json"], 64, 'There is no command "chekc". Did you mean check?'],
    [["spindle", "@vest.json"], 64, 'There is no command "spindle".'],
    [["__proto__"], 64, 'There is no command "__proto__".'],
    [["check"], 64, "check: expected PROJECT, found nothing."],
    [["check", "@vest.json", "--distnace", "2"], 64, "Did you mean --distance?"],
    [
      ["check", "@vest.json", "--distance", "far"],
      64,
      '--distance: expected a number between 0.1 and 100, found "far".',
    ],
    [["check", "@vest.json", "--fail-on", "fualt"], 64, "Did you mean fault?"],
    [["check", "@vest.json", "--colourway", "w9"], 64, '--colourway: expected w1, w2, found "w9".'],
    [["check", "@gone.json"], 66, "Cannot read DIR/gone.json: it is not there."],
    [["check", "@."], 66, "Cannot read DIR/.: it is a folder."],
    [["check", "@broken.json"], 65, "DIR/broken.json cannot be used:\n  Line "],
    [["check", "@ragged.json"], 65, "Chart c1, row 4: expected 4 stitches, found 3."],
    [["check", "@newer.json"], 65, "Version: expected at most 1, found 2: a newer Twostrand wrote this file"],
    [["check", "@chart.txt"], 65, 'Line 1, column 1: expected a value, found "A".'],
    [["check", "@empty.json"], 65, "The project has no colourway yet."],
    [
      ["read", "@page.pdf"],
      65,
      "DIR/page.pdf cannot be used:\n  The PDF file: expected a whole PDF file, found one that breaks off",
    ],
    [["read", "@drawing.svg"], 65, "DIR/drawing.svg cannot be used:\n  The drawing: expected a chart"],
    [["read", "@bomb.svg"], 65, "DIR/bomb.svg cannot be used:"],
    [["read", "@book.xlsx"], 65, "DIR/book.xlsx cannot be used:\n  The file: expected a table saved as text"],
    [["read"], 64, "read: expected FILE, found nothing."],
    [["read", "@chart.txt", "--page", "x"], 64, '--page: expected pages like 3, 2-5 or 2,4, found "x".'],
    [["read", "@chart.txt", "--page", "4-2"], 64, '--page: expected pages like 3, 2-5 or 2,4, found "4-2".'],
    [
      ["read", "@chart.txt", "--key", "A"],
      64,
      '--key: expected a colour and its shade like "A = #e8e2d2 hoar", found "A".',
    ],
    [["read", "@chart.txt", "--key", "Q = #fff"], 64, '--key: expected A, B, found "Q".'],
    [
      ["read", "@chart.txt", "@other.txt", "--join"],
      65,
      "expected parts of one chart that fit together, found 2 charts of 4 × 2, 3 × 3.",
    ],
    [["read", "@chart.txt", "@gone.txt"], 66, "Cannot read DIR/gone.txt: it is not there."],
    [["read", "@noise.png"], 65, "DIR/noise.png cannot be read as a picture"],
    [["read", "@empty.txt"], 65, "DIR/empty.txt is empty. Charts are read from text, SVG, PDF, and pictures"],
    [["read", "@short.svg"], 65, "DIR/short.svg cannot be used:"],
    [["read", "@page.html"], 65, "DIR/page.html is a web page."],
    [["check", "@latin.json"], 65, "DIR/latin.json cannot be used: expected text in UTF-8, found bytes that are none."],
    [["check", "@a\u0000b"], 66, "a file's name cannot hold that."],
    [["fabric", "@vest.json", "--out", "@a\u0000b"], 73, "a file's name cannot hold that."],
    [
      ["stash", "@empty.txt"],
      65,
      "DIR/empty.txt cannot be used:\n  The table: expected yarns, one to a line, found nothing.",
    ],
    [["schema", "shlef"], 64, "Did you mean shelf?"],
    [["amounts", "@vest.json", "--size", "XL"], 64, '--size: expected M, 38, found "XL".'],
    [["fabric", "@vest.json"], 64, "fabric: expected --out FILE.png, found nothing."],
    [["fabric", "@vest.json", "--out", "@none/x.png"], 73, "Cannot write DIR/none/x.png: there is no folder DIR/none."],
    [["fabric", "@vest.json", "--out", "@vest.json", "--force"], 73, "Cannot write DIR/vest.json: it is what is read."],
    [
      ["apply", "@vest.json", "--ways", "@ways.json", "--way", "1", "--out", "@o.json"],
      64,
      "--way: expected a file with ways; this one has none, found 1.",
    ],
    [
      ["apply", "@vest.json", "--ways", "@vest.json", "--way", "1", "--out", "@o.json"],
      65,
      "Ways: expected a list of ways, found nothing.",
    ],
    [["new", "--chart", "@chart.txt", "--out", "@chart.txt", "--force"], 73, "it is what is read."],
    [
      ["new", "--chart", "@chart.txt", "--out", "@n.json", "--gauge", "28"],
      64,
      '--gauge: expected stitches and rows to 10 cm like 28x30, found "28".',
    ],
  ])("%j ends with %d", async (argv, code, sentence) => {
    const ran = await run(...argv);
    expect(ran.err).toContain(sentence);
    expect([ran.code, ran.out]).toEqual([code, ""]);
  });

  it("a refused file is left as it was", () => {
    expect(readFileSync(at("newer.json"), "utf8")).toBe(everyField.replace('"version": 1', '"version": 2'));
    expect(existsSync(at("o.json"))).toBe(false);
  });

  it("1 comes only when asked for, and only when a finding reaches that far", async () => {
    const { findings } = await json<{ findings: { severity: string }[] }>("check", "@vest.json");
    const has = (severities: string[]): number =>
      findings.some(({ severity }) => severities.includes(severity)) ? 1 : 0;
    expect((await run("check", "@vest.json")).code).toBe(0);
    expect((await run("check", "@vest.json", "--fail-on", "note")).code).toBe(has(["note", "doubt", "fault"]));
    expect((await run("check", "@vest.json", "--fail-on", "doubt")).code).toBe(has(["doubt", "fault"]));
    expect((await run("check", "@vest.json", "--fail-on", "fault")).code).toBe(has(["fault"]));
    expect(findings.length).toBeGreaterThan(0);
  });
});

describe("names from a file", () => {
  it.each([
    [["check", "@loud.json"]],
    [["compare", "@loud.json"]],
    [["amounts", "@loud.json"]],
    [["recolour", "@loud.json"]],
  ])("%j cannot drive the terminal", async (argv) => {
    const { code, out, err } = await run(...argv);
    expect(code).toBe(0);
    expect(out + err).not.toMatch(/[\u0000-\u0009\u000b-\u001f\u007f-\u009f]/);
    expect(out).toContain("Vest for the weather station");
  });
});

describe("text for people", () => {
  it.each([
    [["check", "@vest.json", "--all"]],
    [["compare", "@vest.json"]],
    [["amounts", "@vest.json"]],
    [["recolour", "@vest.json"]],
    [["read", "@chart.txt"]],
  ])("%j fits 80 columns and ends in a line end", async (argv) => {
    const { code, out } = await run(...argv);
    expect(code).toBe(0);
    for (const line of out.split("\n")) expect([...line].length).toBeLessThanOrEqual(80);
    expect(out).toMatch(/[^\n]\n$/);
  });

  it("says what the model is", async () => {
    const caution = "A model of ordinary eyesight, not tested on knitting; a swatch settles it.";
    expect((await run("check", "@untried.json")).out).toContain(caution);
    // The file has one look at one swatch.
    const { out } = await run("check", "@vest.json");
    expect(out).toContain("Tuned by 1 of your swatches' looks.");
    expect(out).not.toContain(caution);
  });
});

describe("a ladder turned over", () => {
  it("is told as that by check and by compare, and not as the pattern's order", async () => {
    const { out } = await run("check", "@over.json");
    expect(out).toContain("The ladder is turned over: what was light is dark.");
    expect(out).not.toContain("The order from light to dark is the pattern's.");
    expect((await run("compare", "@over.json")).out).toContain("turned over");
  });
});

describe("what she has, however it was saved", () => {
  it("sizes that only the sections name can be asked for", async () => {
    const sizes = JSON.parse(everyField).pattern.sizes as { id: string }[];
    for (const { id } of sizes) {
      const { size } = await json<{ size: string }>("amounts", "@sections.json", "--size", id);
      expect(size).toBe(id);
    }
    const { code, err } = await run("amounts", "@sections.json", "--size", "XL");
    expect([code, err.includes('found "XL"')]).toEqual([64, true]);
  });

  it("a table in Windows-1252, as spreadsheets of old save it, keeps its names", async () => {
    const { yarns } = await json<{ yarns: { name: string }[] }>("stash", "@latin.csv");
    expect(yarns.map(({ name }) => name)).toEqual(["K\u00e4se"]);
  });

  it("a slip in the name of a wish's part is told, for the part is passed over", async () => {
    const { code, err } = await run("recolour", "@vest.json", "--wish", "@slip.json", "--ways", "1", "--json");
    expect(code).toBe(0);
    expect(err).toContain('doubt: The wish: expected "ladder", found "lader", which is passed over.');
    expect(err).not.toContain("mood");
  });
});
