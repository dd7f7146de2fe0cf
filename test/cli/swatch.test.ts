/** The swatch on the command line: its contract, its budgets, and a chart that reads back. */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { bench } from "./program.ts";

const { run, json, at } = bench({
  "vest.json": readFileSync("examples/weather-station-vest.twostrand.json", "utf8"),
  "sure.json": JSON.stringify({
    format: "twostrand-project",
    version: 1,
    name: "sure",
    pattern: {
      gauge: { stitches: 28, rows: 30 },
      colours: [{ id: "A", shade: { hex: "#f4f4f4" } }],
      charts: [{ id: "c1", rows: ["AAAA", "AAAA"] }],
    },
    yarns: [{ id: "y1", name: "Rime", shade: { hex: "#f4f4f4" } }],
    colourways: [{ id: "w1", yarns: { A: "y1" } }],
  }),
});

interface Planned {
  chart: { rows: string[] } | null;
  rows: object[];
  covers: object[];
  leaves: { why: string }[];
  yarns: { yarn: string; metres: number }[];
  minutes: number;
  stitches: number;
}

describe("swatch", () => {
  it("gives chart, rows, covers, leaves, yarns and minutes, within the stitches", async () => {
    const planned = await json<Planned>(
      "swatch",
      "@vest.json",
      "--colourway",
      "w2",
      "--stitches",
      "300",
      "--manner",
      "flat",
    );
    expect(planned.stitches).toBeLessThanOrEqual(300);
    expect(planned.chart!.rows.join("").length).toBe(planned.stitches);
    expect(planned.rows.length).toBeGreaterThan(0);
    expect(planned.covers.length).toBeGreaterThan(0);
    expect(planned.leaves.length).toBeGreaterThan(0);
    expect(planned.yarns.every(({ yarn, metres }) => typeof yarn === "string" && metres > 0)).toBe(true);
    expect(planned.minutes).toBeGreaterThan(0);
  });

  it("tells people what to knit, what to look at, what stays open, and what outranks it", async () => {
    const { code, out } = await run(
      "swatch",
      "@vest.json",
      "--colourway",
      "w2",
      "--minutes",
      "20",
      "--manner",
      "speed",
      "--pace",
      "25",
    );
    expect(code).toBe(0);
    for (const part of [
      "Chart, every row read from right to left",
      "To look at from 1.5 m",
      "It leaves open",
      "outranks everything a screen says",
    ])
      expect(out.replace(/\s+/g, " ")).toContain(part);
    expect(out.split("\n").filter((line) => line.length > 80)).toEqual([]);
  });

  it("writes its chart as text, which read reads back", async () => {
    const { code } = await run("swatch", "@vest.json", "--stitches", "150", "--out", "@swatch.txt");
    expect(code).toBe(0);
    const rows = readFileSync(at("swatch.txt"), "utf8").trimEnd().split("\n");
    const { charts } = await json<{ charts: { rows: string[] }[] }>("read", "@swatch.txt");
    expect(charts[0]!.rows.map((row) => row.length)).toEqual(rows.map((row) => row.length));
  });

  it("says so where nothing is in doubt, and where the budget settles nothing", async () => {
    expect((await run("swatch", "@sure.json")).out).toContain("leaves nothing open");
    expect((await run("swatch", "@vest.json", "--stitches", "20")).out).toContain(
      "No swatch of this budget settles anything.",
    );
    expect((await json<Planned>("swatch", "@vest.json", "--stitches", "20")).chart).toBeNull();
    expect((await run("swatch", "@sure.json", "--out", "@none.txt")).code).toBe(65);
  });

  it.each([
    [["--stitches", "100", "--minutes", "5"], /expected --stitches or --minutes, found both/],
    [["--stitches", "0"], /--stitches: expected a whole number of 1 or more/],
    [["--minutes", "0"], /--minutes: expected a number above 0/],
    [["--manner", "speedy"], /--manner: expected round, flat, speed, found "speedy"\. Did you mean speed\?/],
    [["--pace", "-1"], /--pace: expected a number above 0 up to 200/],
  ])("refuses %j", async (given, sentence) => {
    const { code, err } = await run("swatch", "@vest.json", ...given);
    expect([code, err]).toEqual([64, expect.stringMatching(sentence)]);
  });
});
