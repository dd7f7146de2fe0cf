/** The swatch of a project: what it comes to on the worked example, and that a swatch which was looked at leaves less to knit. */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { readProject } from "../document/read.ts";
import { swatchOfProject } from "./swatch.ts";

const vest = readProject(readFileSync("examples/weather-station-vest.twostrand.json", "utf8")).value!;

const planned = new Map(["w1", "w2"].map((colourway) => [colourway, swatchOfProject(vest, { colourway })]));

describe("the worked example", () => {
  it.each([...planned])(
    "%s: every doubt is settled in at most 60 %% of the stitches of the whole repeat",
    (_, swatch) => {
      const { covers, leaves, stitches, wholeRepeat, proven } = swatch;
      // 24 stitches twice over, five to cut, all 120 rows.
      expect(wholeRepeat.stitches).toBe(120 * 53);
      expect(covers.length).toBeGreaterThan(15);
      expect([leaves, proven]).toEqual([[], true]);
      expect(stitches / wholeRepeat.stitches).toBeLessThanOrEqual(0.6);
    },
  );

  it("what was planted in w2 is there to look at, in her own yarns", () => {
    const { rows, covers, key } = planned.get("w2")!;
    // Row 68, the scree line in Pale oat, and its neighbours (examples/README.md).
    const line = covers.find(({ id }) => id.startsWith("row/c1/68/"))!;
    expect(line.by).toBe("seen");
    expect(rows.some(({ rows: [from, to] }) => from <= 67 && to >= 69)).toBe(true);
    expect(key.some(({ yarn }) => yarn === "y14")).toBe(true);
    expect(key.every(({ yarn }) => vest.yarns.some(({ id }) => id === yarn))).toBe(true);
  });

  it("survives a structured clone and JSON", () => {
    const swatch = planned.get("w2")!;
    expect(structuredClone(swatch)).toEqual(swatch);
    expect(JSON.parse(JSON.stringify(swatch))).toEqual(swatch);
  });

  it("once rows of a swatch were looked at, less is open and less is to be knitted", () => {
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
    const [first, next] = [planned.get("w1")!, swatchOfProject(looked, { colourway: "w1" })];
    expect(next.threshold.now).toBeLessThan(first.threshold.now);
    expect(next.covers.length).toBeLessThan(first.covers.length);
    expect(next.stitches).toBeLessThan(first.stitches);
  });
});
