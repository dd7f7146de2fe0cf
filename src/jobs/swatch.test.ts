/** The swatch of a project: what it comes to on the worked example, and that a swatch which was looked at leaves less to knit. */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { readProject } from "../document/read.ts";
import { swatchOfProject } from "./swatch.ts";

const vest = readProject(readFileSync("examples/weather-station-vest.twostrand.json", "utf8")).value!;

describe("the worked example", () => {
  it.each(["w1", "w2"])(
    "%s: every doubt is settled in at most 60 % of the stitches of the whole repeat",
    (colourway) => {
      const { covers, leaves, stitches, wholeRepeat, proven } = swatchOfProject(vest, { colourway });
      // 24 stitches twice over, five to cut, all 120 rows.
      expect(wholeRepeat.stitches).toBe(120 * 53);
      expect(covers.length).toBeGreaterThan(15);
      expect([leaves, proven]).toEqual([[], true]);
      expect(stitches / wholeRepeat.stitches).toBeLessThanOrEqual(0.6);
    },
  );

  it("what was planted in w2 is there to look at, with plain rows about it", () => {
    const { rows, covers, chart, key } = swatchOfProject(vest, {
      colourway: "w2",
      budget: { stitches: 900 },
      manner: "flat",
    });
    // Row 68, the scree line in Pale oat (examples/README.md); it is asked about or follows, and the yarns are hers.
    expect(covers.length).toBeGreaterThan(0);
    expect(chart!.rows.length * chart!.rows[0]!.length).toBeLessThanOrEqual(900);
    expect(rows.every(({ rows: [from, to] }) => to - from >= 2)).toBe(true);
    expect(key.every(({ yarn }) => vest.yarns.some(({ id }) => id === yarn))).toBe(true);
  });

  it("survives a structured clone and JSON", () => {
    const swatch = swatchOfProject(vest, { colourway: "w2", budget: { minutes: 30 } });
    expect(structuredClone(swatch)).toEqual(swatch);
    expect(JSON.parse(JSON.stringify(swatch))).toEqual(swatch);
  });

  it("once rows of a swatch were looked at, less is open and less is to be knitted", () => {
    const first = swatchOfProject(vest, { colourway: "w1", budget: { stitches: 600 } });
    const looks = [
      [11, "clear"],
      [85, "clear"],
      [98, "faint"],
      [44, "clear"],
      [3, "clear"],
    ] as const;
    const looked = {
      ...vest,
      swatches: [
        {
          id: "t1",
          chart: "c1",
          colourway: "w1",
          looks: looks.map(([row, verdict]) => ({
            at: { chart: "c1", rows: [row, row] as [number, number] },
            distanceM: 1.5,
            verdict,
          })),
        },
      ],
    };
    const next = swatchOfProject(looked, { colourway: "w1" });
    expect(next.threshold.now).toBeLessThan(first.threshold.now);
    expect(next.covers.length).toBeLessThan(first.covers.length + first.leaves.length);
    expect(next.stitches).toBeLessThan(swatchOfProject(vest, { colourway: "w1" }).stitches);
  });
});
