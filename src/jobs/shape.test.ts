/** Shaping a project: what comes out is a garment that the house can knit, count and write, and the stitches agree everywhere. */
import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { applyEdit, tryEdit } from "../document/edit.ts";
import type { Project } from "../document/project.ts";
import { readProject } from "../document/read.ts";
import { writeProject } from "../document/write.ts";
import { SIZE_GROUPS, sizesIn, standardBody } from "../garment/body.ts";
import type { Gauge } from "../garment/gauge.ts";
import { GARMENTS } from "../garment/shape.ts";
import { roundsOf, stitchesBeside } from "../garment/sections.ts";
import { knittingOf, stitchesOfRound } from "../plan/knitting.ts";
import { amountsOfProject } from "./amounts.ts";
import { shapeProject, type ShapeQuestion } from "./shape.ts";

const vest = readProject(readFileSync("examples/weather-station-vest.twostrand.json", "utf8")).value!;
const women = (...sizes: string[]): ShapeQuestion["sizes"] =>
  sizes.map((id) => ({ id, body: standardBody("women", id)! }));

/** A plain project at a gauge: one chart in two colours by turns. */
const plainAt = (gauge: Gauge, rows = ["AB", "BA"]): Project => ({
  format: "twostrand-project",
  version: 1,
  name: "plain",
  pattern: {
    gauge,
    colours: [
      { id: "A", role: "main", shade: { hex: "#d9d6cf" } },
      { id: "B", role: "contrast", shade: { hex: "#203040" } },
    ],
    charts: [{ id: "c1", rows }],
  },
  yarns: [
    { id: "y1", name: "chalk", shade: { hex: "#d9d6cf" } },
    { id: "y2", name: "slate", shade: { hex: "#203040" } },
  ],
  colourways: [{ id: "w1", yarns: { A: "y1", B: "y2" } }],
});

describe("the worked example in three sizes", () => {
  const question: ShapeQuestion = {
    garment: "vest",
    sizes: women("S", "M", "L"),
    charts: { body: "c1" },
    steekStitches: 7,
  };
  const answer = shapeProject(vest, question);
  const shaped = applyEdit(vest, answer.edit!);

  it("becomes sections with charts placed, as one edit that writes and reads back", () => {
    expect(answer.problems).toEqual([]);
    expect(tryEdit(vest, answer.edit!).problems.filter(({ severity }) => severity === "fault")).toEqual([]);
    expect(readProject(writeProject(shaped)).value).toEqual(shaped);
    expect(shaped.pattern.charts.map(({ id }) => id)).toEqual(["c1", "plain"]);
    expect(shaped.pattern.sections!.find(({ id }) => id === "body")).toMatchObject({ chart: "c1", from: ["hem"] });
  });
  it("takes the repeat of 24 in every size, and says the chest as it comes out", () => {
    const body = shaped.pattern.sections!.find(({ id }) => id === "body")!;
    for (const { id, chestCm } of shaped.pattern.sizes!) {
      expect(body.stitches[id]! % 24).toBe(0);
      const panels = (body.beside ?? []).filter(({ kind }) => kind === "panel");
      const around = body.stitches[id]! + stitchesBeside({ beside: panels }, id);
      expect(chestCm).toBeCloseTo(around / 2.8, 1);
    }
  });
  it("shaped again it is the same, with no second chart for plain knitting", () => {
    const again = shapeProject(shaped, question);
    expect(applyEdit(shaped, again.edit!)).toEqual(shaped);
  });
  it("tells what goes with sections that go", () => {
    const moved = applyEdit(vest, {
      kind: "addChange",
      colourway: "w1",
      change: { at: { section: "s2" }, colour: "A", yarn: vest.yarns[0]!.id },
    });
    expect(shapeProject(moved, question).loses).toBe(1);
  });
  it("is plain data", () => {
    expect(structuredClone(answer)).toEqual(answer);
    expect(JSON.stringify(answer)).not.toMatch(/NaN|Infinity/);
  });
});

describe("stitches are kept", () => {
  it("in the parts, the sections, the amounts and what is knitted round by round, they are the same", () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...GARMENTS),
        fc.constantFrom(...SIZE_GROUPS.flatMap((group) => sizesIn(group).map((size) => [group, size] as const))),
        fc.constantFrom("c1", undefined),
        (garment, [group, size], chart) => {
          const project = plainAt({ stitches: 28, rows: 30 }, ["AABBAB", "ABABAA", "AAAAAA"]);
          const answer = shapeProject(project, {
            garment,
            sizes: [{ id: "one", body: standardBody(group, size)! }],
            ...(chart && { charts: { body: chart, sleeve: chart, yoke: chart, hand: chart } }),
          });
          const shaped = applyEdit(project, answer.edit!);
          const inSections = shaped.pattern.sections!.reduce((sum, section) => {
            const rows = shaped.pattern.charts.find(({ id }) => id === section.chart)!.rows.length;
            const beside = stitchesBeside(section, "one");
            return sum + roundsOf(section, rows, "one").reduce((all, { stitches }) => all + stitches + beside, 0);
          }, 0);
          const amounts = amountsOfProject(shaped);
          const knitted = knittingOf(shaped.pattern)
            .sections.flatMap(({ rounds }) => rounds)
            .reduce((sum, round) => sum + stitchesOfRound(round), 0);
          expect(answer.sizes[0]!.stitches).toBe(inSections);
          expect(amounts.total.stitches).toBe(inSections);
          expect(amounts.sections.reduce((sum, { stitches }) => sum + stitches, 0)).toBe(inSections);
          expect(amounts.yarns.reduce((sum, { stitches }) => sum + stitches, 0)).toBe(inSections);
          expect(knitted).toBe(inSections);
        },
      ),
      { seed: 7, numRuns: 60 },
    );
  });
});

describe("a whole pullover against published guidance, woman S to M, fitted to loose (trade.md 1.6)", () => {
  // Least of fitted and most of loose, m; fingering, DK and worsted published, bulky and super bulky common practice.
  it.each([
    ["fingering", 28, 36, 1100, 1650],
    ["DK", 22, 28, 910, 1460],
    ["worsted", 18, 24, 730, 1280],
    ["bulky", 14, 20, 550, 800],
    ["super bulky", 10, 14, 370, 550],
  ])("%s, %i × %i: %i to %i m", (_, stitches, rows, least, most) => {
    const project = plainAt({ stitches, rows });
    for (const garment of ["yoke pullover", "pullover"] as const)
      for (const size of ["S", "M"]) {
        const { edit } = shapeProject(project, { garment, sizes: women(size) });
        const { metres } = amountsOfProject(applyEdit(project, edit!)).total;
        expect(metres, `${garment} ${size}`).toBeGreaterThan(least);
        expect(metres, `${garment} ${size}`).toBeLessThan(most);
      }
  });

  it("two strands all over take 22 to 27 % more than plain, and a yoke alone leaves 65 to 80 % to the main colour (trade.md 1.3, 1.6)", () => {
    const project = plainAt({ stitches: 28, rows: 30 });
    const metresOf = (charts: ShapeQuestion["charts"]) => {
      const { edit } = shapeProject(project, { garment: "yoke pullover", sizes: women("M"), charts });
      return amountsOfProject(applyEdit(project, edit!));
    };
    const [plain, all] = [metresOf({}), metresOf({ rib: "c1", body: "c1", sleeve: "c1" })];
    // The yoke itself and what closes it stay plain here, so that the share lies below the whole.
    expect(all.total.metres / plain.total.metres).toBeGreaterThan(1.15);
    expect(all.total.metres / plain.total.metres).toBeLessThan(1.27);
    const tall = plainAt(
      { stitches: 28, rows: 30 },
      Array.from({ length: 50 }, (_, row) => (row % 2 === 0 ? "AB" : "BA")),
    );
    const yoke = shapeProject(tall, { garment: "yoke pullover", sizes: women("M"), charts: { yoke: "c1" } });
    const { yarns, total } = amountsOfProject(applyEdit(tall, yoke.edit!));
    expect(yarns.find(({ yarn }) => yarn === "y1")!.metres / total.metres).toBeGreaterThan(0.65);
  });

  it("garment of a medium: 60 to 75 thousand stitches in 4-ply (trade.md 6)", () => {
    const { sizes } = shapeProject(plainAt({ stitches: 28, rows: 30 }), {
      garment: "yoke pullover",
      sizes: women("M"),
    });
    expect(sizes[0]!.stitches).toBeGreaterThan(60_000);
    expect(sizes[0]!.stitches).toBeLessThan(80_000);
  });
});

it("a yoke from a chart that narrows is knitted in whole charts, each row in its own stitches", () => {
  // Wedges of 8, 6 and 4 stitches, 20 rows each.
  const rows = [..."ABAB----", ..."ABABAB--", ..."ABABABAB"]
    .join("")
    .match(/.{8}/g)!
    .flatMap((row) => Array<string>(20).fill(row));
  const project = plainAt({ stitches: 28, rows: 30 }, rows);
  const { edit, sizes, problems } = shapeProject(project, {
    garment: "yoke pullover",
    sizes: women("M"),
    charts: { yoke: "c1" },
  });
  expect(problems).toEqual([]);
  const shaped = applyEdit(project, edit!);
  const yoke = knittingOf(shaped.pattern).sections.find(({ id }) => id === "yoke")!;
  const times = yoke.rounds[0]!.columns.length / 8;
  expect(Number.isInteger(times)).toBe(true);
  expect(yoke.rounds.map(({ columns }) => columns.length / times)).toEqual(
    [8, 6, 4].flatMap((one) => Array<number>(20).fill(one)),
  );
  expect(amountsOfProject(shaped).total.stitches).toBe(sizes[0]!.stitches);
  const widens = plainAt({ stitches: 28, rows: 30 }, rows.toReversed());
  expect(shapeProject(widens, { garment: "yoke pullover", sizes: women("M"), charts: { yoke: "c1" } }).edit).toBeNull();
});

describe("what cannot be shaped is told", () => {
  const ask = (more: Partial<ShapeQuestion>) =>
    shapeProject(vest, { garment: "vest", sizes: women("M"), ...more }).problems.map(
      ({ where, expected, got }) => `${where}: ${expected}: ${got}`,
    );
  it.each<[string, Partial<ShapeQuestion>, string]>([
    ["a chart that is not there", { charts: { body: "c9" } }, 'chart for body: one of c1: "c9"'],
    ["no size", { sizes: [] }, "sizes: at least one: none"],
    ["a size twice", { sizes: women("M", "M") }, 'sizes: each once: "M" twice'],
    [
      "a chest of no body",
      { sizes: [{ id: "M", body: { ...standardBody("women", "M")!, chest: 1e9 } }] },
      'size "M", chest: 2 to 400 cm: 1000000000',
    ],
    [
      "ease that leaves nothing",
      { easeCm: -90 },
      "ease: more than minus half of what it is added to, 18.8 cm at the least: -90 cm",
    ],
  ])("%s", (_, more, expected) => {
    expect(ask(more)).toContain(expected);
    expect(shapeProject(vest, { garment: "vest", sizes: women("M"), ...more }).edit).toBeNull();
  });
});
