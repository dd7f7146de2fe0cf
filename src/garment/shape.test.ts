/** Garments from bodies: worked counts, whole repeats, conservation of stitches and cloth, for every garment and size. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { SIZE_GROUPS, sizesIn, standardBody, type Body } from "./body.ts";
import type { RoundBand } from "./rounds.ts";
import type { SchematicPoint } from "./schematic.ts";
import { GARMENTS, shapeOf, usualEaseCm, type Garment, type ShapedGarment } from "./shape.ts";
import { stitchesOf, type ChartFacts, type ShapedPart, type ShapeOf } from "./shape/parts.ts";
import { roundsOf } from "./sections.ts";
import { sectionsOf } from "./shape/sections.ts";

const GAUGE = { stitches: 28, rows: 30 };
const MEDIUM = standardBody("women", "M")!;
const of = (more: Partial<ShapeOf> = {}): ShapeOf => ({ size: "M", body: MEDIUM, easeCm: 7.5, gauge: GAUGE, ...more });

/** A chart of bands from the bottom: rows and repeat, 0 for plain rows; motifs about the middle of their repeat. */
function chart(id: string, ...bands: readonly (readonly [rows: number, repeat: number])[]): ChartFacts {
  const bandOfRow = bands.flatMap(([rows, repeat], index) => {
    const band: RoundBand = { id: `b${index + 1}`, repeat, centre: { column: (repeat + 1) / 2, repeat } };
    return Array<RoundBand | null>(rows).fill(repeat > 0 ? band : null);
  });
  return { id, width: bands.reduce((width, [, repeat]) => Math.max(width, repeat), 1), bandOfRow };
}
const part = (shaped: ShapedGarment, id: string): ShapedPart => shaped.parts.find((one) => one.id === id)!;
const lastCount = ({ stitches, decreases }: ShapedPart): number => decreases.at(-1)?.to ?? stitches;

describe("a round yoke at 28 stitches to 10 cm and 100 cm around (trade.md 3)", () => {
  // A body of 92.5 cm with 7.5 of ease; arms narrow enough for the system's own 33 %.
  const shaped = shapeOf("yoke pullover", of({ body: { ...MEDIUM, chest: 92.5 } }));

  it("has K 280, a hem of 252, wrists of 56, upper arms of 92 and a union of 376", () => {
    expect(part(shaped, "body").stitches).toBe(280);
    expect(part(shaped, "hem").stitches).toBe(252);
    expect(part(shaped, "left-sleeve").stitches).toBe(56);
    expect(lastCount(part(shaped, "left-sleeve"))).toBe(92);
    expect(part(shaped, "yoke").stitches).toBe(376);
    expect(
      part(shaped, "yoke")
        .decreases.map(({ to }) => to)
        .slice(0, 2),
    ).toEqual([282, 188]);
    expect(shaped.finishedCm).toBe(100);
  });
  it("is 25 cm deep, half the body's width", () => {
    expect(shaped.heights.find(({ name }) => name === "yoke")).toMatchObject({ wantedCm: 25, cm: 25, rounds: 75 });
  });
  it("asks for short rows at the back of the neck", () => {
    expect(shaped.notes).toContainEqual({ kind: "back neck", cm: 2.5 });
  });
  it("an arm that needs more than 33 % of K gets it, and that is told", () => {
    const wide = shapeOf("yoke pullover", of({ body: { ...MEDIUM, chest: 92.5, upperArm: 36 } }));
    expect((lastCount(part(wide, "left-sleeve")) * 10) / 28).toBeGreaterThanOrEqual(39.5);
    expect(wide.notes).toContainEqual(expect.objectContaining({ kind: "arm widened", from: 92 }));
  });
  it("with bands of 20, 15 and 10 every repeat divides its own rounds", () => {
    const bands = chart("c1", [30, 20], [1, 0], [14, 15], [1, 0], [15, 10]);
    const patterned = shapeOf("yoke pullover", of({ body: { ...MEDIUM, chest: 92.5 }, charts: { yoke: bands } }));
    expect(patterned.yoke!.parts.map(({ stitches }) => stitches)).toEqual([380, 285, 190, 114]);
    expect(part(patterned, "yoke").chart).toBe("c1");
    expect(part(patterned, "yoke").rounds).toBe(61);
    // Middles of 20 and 10 lie between two stitches, of 15 on one: half a stitch beside the front is the best there is.
    for (const { offBy } of part(patterned, "yoke").centring) expect(Math.abs(offBy!)).toBeLessThanOrEqual(0.5);
  });
});

describe("repeats around the body", () => {
  it("a repeat of 24 near 101.9 cm: 288 stitches are within 2.5 cm, and the chest is told as it comes out", () => {
    const shaped = shapeOf("pullover", of({ charts: { body: chart("c1", [24, 24]) } }));
    expect(shaped.measured[0]!.chosen).toMatchObject({ how: "whole repeats", stitches: 288 });
    expect(shaped.finishedCm).toBeCloseTo(288 / 2.8, 9);
  });
  it("she may take panels instead, which stand beside the chart's stitches in every round", () => {
    const shaped = shapeOf(
      "pullover",
      of({ charts: { body: chart("c1", [24, 24]) }, choices: { body: { how: "side panels" } } }),
    );
    const { stitches, beside } = part(shaped, "body");
    expect(stitches).toBe(240);
    expect(beside).toMatchObject([{ kind: "panel" }, { kind: "panel" }]);
    expect(Math.abs(shaped.finishedCm - 101.5)).toBeLessThan(0.72);
  });
  it("a band that is not reached asks for nothing: mittens of a chart as high as a vest's take the bands that they knit", () => {
    const tall = chart("c1", [30, 8], [200, 36]);
    const { chosen } = shapeOf("mittens", of({ easeCm: 1, charts: { hand: tall }, choices: { hand: { rounds: 28 } } }))
      .measured[0]!;
    expect(chosen.stitches % 8).toBe(0);
    expect(chosen.stitches % 36).not.toBe(0);
  });
  it("a cardigan has a stitch more than whole repeats, a steek at the front, and both its edges alike", () => {
    const band = { id: "b1", repeat: 24, centre: { column: 12, repeat: 24 } };
    const onStitch: ChartFacts = { id: "c1", width: 24, bandOfRow: Array<RoundBand>(24).fill(band) };
    const shaped = shapeOf("cardigan", of({ charts: { body: onStitch }, steekStitches: 7 }));
    const body = part(shaped, "body");
    expect((body.stitches - 1) % 24).toBe(0);
    expect(body.beside).toEqual([{ kind: "steek", name: "front", stitches: 7, after: 0 }]);
    expect(body.centring).toMatchObject([{ line: "the middle of the back", offBy: 0 }]);
    // First and last stitch lie as far from the motif's middle, on either side.
    const first = body.startColumn;
    const last = body.startColumn + body.stitches - 1;
    expect((first + last - 2 * 12) % 24).toBe(0);
    expect(shaped.notes).toContainEqual(expect.objectContaining({ kind: "steek", stitches: 7 }));
  });
  it("a motif with its middle between two stitches has edges alike without the stitch more", () => {
    const body = part(shapeOf("cardigan", of({ charts: { body: chart("c1", [24, 24]) } })), "body");
    expect(body.stitches % 24).toBe(0);
    expect((2 * body.startColumn + body.stitches - 1 - 2 * 12.5) % 24).toBe(0);
  });
  it("a sleeve has its motif on the line of the arm from cuff to shoulder", () => {
    const motif = { ...chart("c1", [12, 9]), width: 9 };
    const shaped = shapeOf("pullover", of({ charts: { sleeve: motif } }));
    const sleeve = part(shaped, "left-sleeve");
    const [section] = sectionsOf([{ size: "M", parts: [sleeve] }], "plain");
    for (const { startColumn, stitches } of roundsOf(section!, 12, "M"))
      expect(startColumn + (stitches - 1) / 2).toBe(sleeve.startColumn + (sleeve.stitches - 1) / 2);
    expect(sleeve.centring[0]!.offBy).toBe(0);
  });
});

/** cm² of an outline. */
const areaOf = (outline: readonly SchematicPoint[]): number =>
  Math.abs(
    outline.reduce((sum, [x, y], index) => {
      const [nextX, nextY] = outline[(index + 1) % outline.length]!;
      return sum + x * nextY - nextX * y;
    }, 0) / 2,
  );

const everything = SIZE_GROUPS.flatMap((group) => sizesIn(group).map((size) => [group, size] as const));
const kinds = GARMENTS.flatMap((garment) => everything.map(([group, size]) => [garment, group, size] as const));
const shapeFor = (garment: Garment, body: Body, charts?: ShapeOf["charts"]): ShapedGarment =>
  shapeOf(garment, of({ body, easeCm: usualEaseCm(garment), ...(charts && { charts }) }));

describe("every garment in every standard size", () => {
  it.each(kinds)(
    "%s, %s %s: goes on from what is there, and its counts are whole and never nothing",
    (garment, group, size) => {
      const shaped = shapeFor(garment, standardBody(group, size)!);
      const ids = shaped.parts.map(({ id }) => id);
      expect(new Set(ids).size).toBe(ids.length);
      for (const [index, one] of shaped.parts.entries()) {
        for (const id of one.from) expect(ids.slice(0, index)).toContain(id);
        expect(one.rounds).toBeGreaterThan(0);
        let before = one.stitches;
        let round = 1;
        for (const decrease of one.decreases) {
          expect(Number.isInteger(decrease.to) && decrease.to > 0).toBe(true);
          expect(decrease.round).toBeGreaterThan(round);
          expect(decrease.round).toBeLessThanOrEqual(one.rounds);
          expect(2 * decrease.to).toBeGreaterThanOrEqual(before);
          [before, round] = [decrease.to, decrease.round];
        }
      }
      for (const piece of shaped.pieces) {
        for (const id of piece.sections) expect(ids).toContain(id);
        for (const [x, y] of piece.outline) expect(Number.isFinite(x) && Number.isFinite(y)).toBe(true);
      }
    },
  );

  it("the schematic's cloth is the sections' stitches: cm² and stitches agree within 3 %", () => {
    for (const [garment, group, size] of kinds) {
      const shaped = shapeFor(garment, standardBody(group, size)!);
      const drawn = new Set(shaped.pieces.flatMap(({ sections }) => sections));
      const pair = (id: string): boolean => drawn.has(id) || drawn.has(id.replace(/^right-/, "left-"));
      const knitted = shaped.parts
        .filter(({ id }) => pair(id))
        .reduce((sum, one) => sum + stitchesOf({ ...one, beside: [] }) / 8.4, 0);
      const area = shaped.pieces.reduce(
        (sum, { outline, times, tube }) => sum + areaOf(outline) * times * (tube ? 2 : 1),
        0,
      );
      expect(Math.abs(area / knitted - 1), `${garment} ${group} ${size}: ${area} against ${knitted}`).toBeLessThan(
        0.03,
      );
    }
  });

  it("edges of the schematic say what the parts have", () => {
    const shaped = shapeFor("yoke pullover", MEDIUM);
    const body = shaped.pieces.find(({ id }) => id === "body")!;
    expect(body.edges.find(({ name }) => name === "underarm")).toMatchObject({
      stitches: part(shaped, "body").stitches,
    });
    expect(body.edges.find(({ name }) => name === "body")).toMatchObject({ rows: part(shaped, "body").rounds });
    for (const { outline, edges } of shaped.pieces)
      for (const { points, cm, rows, stitches } of edges) {
        const [[x1, y1], [x2, y2]] = [outline[points[0]]!, outline[points[1]]!];
        if (rows !== null && stitches === null) expect(Math.abs(Math.abs(y1 - y2) - cm)).toBeLessThan(1e-9);
        expect(x1 !== x2 || y1 !== y2).toBe(true);
      }
  });
});

describe("above the underarms every column stands above its own", () => {
  const above = GARMENTS.slice(0, 3).flatMap((garment) =>
    sizesIn("women").flatMap((size) => ["whole repeats", "side panels"].map((how) => [garment, size, how] as const)),
  );

  it.each(above)("%s, women's %s, %s", (garment, size, how) => {
    const motif = { id: "c1", width: 24, bandOfRow: chart("c1", [24, 24]).bandOfRow };
    const { parts } = shapeOf(garment, {
      ...of({ size, body: standardBody("women", size)!, charts: { body: motif } }),
      choices: { body: { how: how as "side panels" } },
    });
    const [body] = parts.filter(({ id }) => id === "body");
    const stitches = body!.stitches;
    const open = garment === "cardigan";
    const sections = sectionsOf([{ size, parts }], "plain");
    let before = new Set(Array.from({ length: stitches }, (_, index) => index));
    for (const id of ["upper-body", "shoulders"]) {
      const section = sections.find((one) => one.id === id);
      if (!section) continue;
      // The stitch of the body's round in which the section's first one begins: where its chart's column is the body's.
      const inMiddle = id === "shoulders" || garment === "vest";
      const first = section.startColumn![size]!;
      const start = [...before].find(
        (index) =>
          (body!.startColumn + index - first) % 24 === 0 && (!inMiddle || open || index >= Math.round(stitches / 4)),
      )!;
      for (const { startColumn, stitches: count, gaps } of roundsOf(section, 24, size)) {
        const here = new Set<number>();
        for (let index = 0; index < count; index++) {
          const passed = gaps.reduce((sum, { after, columns }) => sum + (after <= index ? columns : 0), 0);
          here.add((start + startColumn - first + index + passed) % stitches);
        }
        expect(here.size).toBe(count);
        for (const stitch of here) expect(before.has(stitch), `${id} ${count}`).toBe(true);
        // Left and right are alike, about the middle of the front.
        const middle = open ? 0 : Math.round(stitches / 4);
        for (const stitch of here) expect(here.has((2 * middle - 1 - stitch + 2 * stitches) % stitches)).toBe(true);
        before = here;
      }
    }
  });
});

describe("several sizes as sections", () => {
  const sized = (garment: Garment, charts?: ShapeOf["charts"]) =>
    ["S", "M", "3X"].map((size) => ({
      size,
      parts: shapeFor(garment, standardBody("women", size)!, charts).parts,
    }));

  it.each(GARMENTS)("%s: every size has its parts, in the order of knitting, each with its own counts", (garment) => {
    const parts = sized(garment, { body: chart("c1", [24, 24]), yoke: chart("c2", [20, 12], [1, 0], [9, 6]) });
    const sections = sectionsOf(parts, "plain");
    expect(new Set(sections.map(({ id }) => id)).size).toBe(sections.length);
    for (const { size, parts: own } of parts) {
      const here = sections.filter(({ rounds }) => size in rounds);
      expect(here.map(({ stitches }) => stitches[size])).toEqual(own.map(({ stitches }) => stitches));
      expect(here.map(({ rounds }) => rounds[size])).toEqual(own.map(({ rounds }) => rounds));
      expect(here.map(({ startRow = 1 }) => startRow)).toEqual(own.map(({ startRow }) => startRow));
      for (const [index, { from }] of here.entries()) {
        const before = here.slice(0, index).map(({ id }) => id);
        for (const id of from!) expect(before).toContain(id);
        expect(from!.length).toBe(own[index]!.from.length);
      }
    }
  });
});

it("a larger chest never gives a smaller garment, and every chart's repeats go into its rounds", () => {
  const repeats = fc.array(fc.tuple(fc.integer({ min: 1, max: 9 }), fc.constantFrom(4, 6, 8, 12)), {
    minLength: 1,
    maxLength: 3,
  });
  fc.assert(
    fc.property(
      fc.constantFrom(...GARMENTS),
      fc.integer({ min: 60, max: 130 }),
      fc.integer({ min: 0, max: 30 }),
      repeats,
      (garment, chest, more, bands) => {
        const facts = chart("c1", ...bands.map(([rows, repeat]) => [rows, repeat] as const));
        const charts = { body: { ...facts, width: 24 }, hand: { ...facts, width: 24 } };
        const grown = (by: number) => ({ ...MEDIUM, chest: chest + by, head: 50 + by / 4, hand: 18 + by / 8 });
        const [small, large] = [shapeFor(garment, grown(0), charts), shapeFor(garment, grown(more), charts)];
        expect(large.finishedCm).toBeGreaterThanOrEqual(small.finishedCm - 3);
        for (const { id, stitches, beside } of small.parts) {
          if (!["body", "left-hand", "left-tube"].includes(id)) continue;
          const open = beside.some(({ kind }) => kind === "steek");
          const over = new Set(bands.map(([, repeat]) => stitches % repeat));
          // Cut open: a stitch more in all of them, or in none.
          expect([...over].every((one) => one === 0) || (open && [...over].every((one) => one === 1))).toBe(true);
        }
      },
    ),
    { seed: 7, numRuns: 120 },
  );
});
