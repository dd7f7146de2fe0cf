/** The jobs on the worked example: what the whole chain comes to, and that every answer is plain data. */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { judgeMemory } from "../audit/judge.ts";
import { applyEdit } from "../document/edit.ts";
import type { Project } from "../document/project.ts";
import { readProject } from "../document/read.ts";
import { writeProject } from "../document/write.ts";
import { visibility } from "../fabric/visibility.ts";
import { labOfYarn } from "../yarn/yarn.ts";
import {
  amountsOfProject,
  applyWay,
  checkProject,
  compareProject,
  fabricOfProject,
  newProject,
  recolourProject,
  sheetOfProject,
} from "../jobs.ts";

const text = readFileSync("examples/weather-station-vest.twostrand.json", "utf8");
const project = readProject(text).value as Project;
const memory = judgeMemory();
const labOf = (id: string) => labOfYarn(project.yarns.find((yarn) => yarn.id === id)!);

describe("check", () => {
  const check = (colourway: string) => checkProject(project, { colourway, memory });

  it("tells the planted faults and nothing else", () => {
    const told = (colourway: string) =>
      check(colourway).findings.map(({ severity, where }) => [severity, ...where.rows]);
    expect(told("w1")).toEqual([]);
    expect(told("w2")).toEqual([
      ["fault", 68, 68],
      ["doubt", 85, 85],
    ]);
    expect(check("w3").findings.map(({ id }) => id.split("/")[0])).toEqual(["visualWeight"]);
  });

  it("has a line for every row, and the row's V is the plain measure of that row alone", () => {
    const { rows } = check("w1");
    expect(rows.length).toBe(project.pattern.charts[0]!.rows.length);
    // Row 3 is a 1×1 row of J on A.
    const row = rows.find(({ row }) => row === 3)!;
    const { yarns } = project.colourways[0]!;
    const { V } = visibility({
      background: labOf(yarns.A!),
      foreground: labOf(yarns.J!),
      motif: ["10"],
      rows: "once",
      gauge: project.pattern.gauge,
      distance: 1.5,
    });
    expect(row.V).toBeCloseTo(V, 9);
  });

  it("keeps what a soft band is wanted for", () => {
    const fog = check("w1").bands.find(({ want }) => want === "soft")!;
    expect(fog.shows).toBe("faint");
  });

  it("offers a mend that takes its finding away, tried out again from nothing", () => {
    const [lost] = check("w2").findings;
    const [mend] = lost!.mends!;
    const after = checkProject(mend!.edits.reduce(applyEdit, project), { colourway: "w2" });
    expect(after.findings.map(({ id }) => id)).not.toContain(lost!.id);
    expect(after.findings.length).toBeLessThan(check("w2").findings.length);
  });

  it("sees farther off less", () => {
    const near = checkProject(project, { distance: 1, memory }).rows;
    const far = checkProject(project, { distance: 12, memory }).rows;
    const strong = (rows: typeof near) => rows.filter(({ shows }) => shows === "strong").length;
    expect(strong(far)).toBeLessThan(strong(near));
  });
});

describe("every answer is plain data", () => {
  it.each([
    ["check", () => checkProject(project, { memory })],
    ["recolour", () => recolourProject(project, { memory, ways: 1 })],
    ["amounts", () => amountsOfProject(project)],
    ["compare", () => compareProject(project, { memory })],
    ["fabric", () => fabricOfProject(project, { pixelsPerStitch: 4, distance: 2 })],
  ])("%s", (_, job) => {
    const answer = job();
    expect(structuredClone(answer)).toEqual(answer);
    expect(JSON.stringify(answer)).not.toMatch(/NaN|Infinity/);
  });
});

describe("recolour and apply", () => {
  it("keeps a way beside the others, and the audit lets it pass", () => {
    const { ways } = recolourProject(project, { colourway: "w2", memory, ways: 1 });
    const { project: kept, colourway } = applyWay(project, ways[0]!, { from: "w2" });
    expect(kept.colourways.slice(0, -1)).toEqual(project.colourways);
    expect(checkProject(kept, { colourway }).findings).toEqual([]);
    expect(readProject(writeProject(kept)).value).toEqual(kept);
  });

  it("a way is judged by the wish that it was found under, and keeps it", () => {
    const wish = { ladder: "free" as const, bands: [{ band: "drift", want: "soft" as const }], ways: 1 };
    const { ways } = recolourProject(project, { colourway: "w1", wish, memory });
    const { project: kept, colourway } = applyWay(project, ways[0]!, { from: "w1" });
    expect(kept.colourways.at(-1)!.wish).toEqual(wish);
    const again = readProject(writeProject(kept)).value as Project;
    const check = checkProject(again, { colourway, memory, mends: "without" });
    expect(check.findings.filter(({ severity }) => severity !== "note")).toEqual([]);
    expect(check.bands.find(({ name }) => name === "drift")!.want).toBe("soft");
    // The other colourways are judged as they were.
    expect(
      checkProject(again, { colourway: "w1", memory }).bands.find(({ name }) => name === "drift")!.want,
    ).toBeNull();
  });

  it("an order that she set free, or turned over, is not told of", () => {
    const { yarns } = project.colourways[0]!;
    const crossed = { ...yarns, D: yarns.H!, H: yarns.D! };
    const told = (wish: object | undefined) =>
      checkProject(
        { ...project, colourways: [{ id: "w9", yarns: crossed, ...(wish && { wish }) }] },
        { memory, mends: "without" },
      ).findings.filter(({ id }) => id.startsWith("valueOrder/"));
    expect(told(undefined).length).toBeGreaterThan(0);
    expect(told({ ladder: "free" })).toEqual([]);
  });

  it("answers a wish for what is not there with a problem", () => {
    const { ways, problems } = recolourProject(project, { wish: { keep: [{ colour: "Z", yarn: "none" }] } });
    expect(ways).toEqual([]);
    expect(problems.map(({ where }) => where)).toEqual(["keep[0].colour", "keep[0].yarn"]);
  });
});

describe("new", () => {
  it("makes a project that reads back, its first colourway by value", () => {
    const { value, problems } = newProject({
      name: "a sampler",
      chart: { rows: ["AAAA", "ABAB"], colours: { A: { hex: "#f0ead8" }, B: { hex: "#22304a" } } },
      yarns: [
        { id: "dark", name: "dark", shade: { lab: [22, 0, -10] } },
        { id: "light", name: "light", shade: { lab: [90, 0, 8] } },
      ],
    });
    expect(value!.colourways[0]!.yarns).toEqual({ A: "light", B: "dark" });
    expect(value!.pattern.colours.map(({ role }) => role)).toEqual(["main", "contrast"]);
    expect(problems.map(({ where, severity }) => [where, severity])).toEqual([["gauge", "note"]]);
    expect(readProject(writeProject(value!)).value).toEqual(value);
  });
});

describe("fabric and sheet", () => {
  it("draws the pattern itself where no colourway is asked for", () => {
    const own = fabricOfProject(project, { colourway: null, pixelsPerStitch: 2 });
    expect(own.width).toBe(48);
    // 24 stitches by 120 rows at 28 × 30: a stitch is 30/28 as wide as high.
    expect(own.height).toBe(Math.round((120 * 2 * 28) / 30));
    expect(own.millimetresPerPixel).toBeCloseTo(100 / 28 / 2, 9);
  });

  it("is without colour in grey", () => {
    const { rgba } = fabricOfProject(project, { colours: "grey", pixelsPerStitch: 1 });
    for (let at = 0; at < rgba.length; at += 4) {
      expect(Math.abs(rgba[at]! - rgba[at + 1]!)).toBeLessThanOrEqual(1);
      expect(Math.abs(rgba[at + 1]! - rgba[at + 2]!)).toBeLessThanOrEqual(1);
    }
  });

  it("makes a PDF", async () => {
    const fonts = {
      regular: new Uint8Array(readFileSync("src/print/fonts/NotoSans-Regular.ttf")),
      bold: new Uint8Array(readFileSync("src/print/fonts/NotoSans-Bold.ttf")),
    };
    const { bytes, pages } = await sheetOfProject(project, { fonts });
    expect(new TextDecoder().decode(bytes.slice(0, 5))).toBe("%PDF-");
    expect(pages).toBeGreaterThan(0);
  });
});
