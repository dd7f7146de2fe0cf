/** Middles on lines, with the trade's worked values, against trying every column by hand. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { startColumnFor } from "./fitting.ts";
import { centred, type CentringOf } from "./centring.ts";

const band = (repeat: number, column: number, rows = 7, id = "b1"): CentringOf["bands"][number] => ({
  band: { id, repeat, centre: { column, repeat } },
  rows,
});
const line = (stitch: number, name = "the front") => ({ name, stitchOf: () => stitch });

describe("one band on one line (trade.md 3)", () => {
  it.each([
    // C = 60; repeat r, axis a and start column, all from 0 in knitting order.
    [24, 0, 12],
    [16, 0, 4],
    [10, 0, 0],
    [8, 3, 7],
  ])("a repeat of %i with its axis at %i: the round begins in column %i", (repeat, axis, start) => {
    const found = centred({ width: repeat, bands: [band(repeat, axis + 1)], lines: [line(60)] });
    expect(found.startColumn - 1).toBe(start);
    expect(found.bands).toEqual([{ band: "b1", line: "the front", offBy: 0 }]);
  });

  it("an axis on a stitch misses a line between two by half a stitch, and that is told", () => {
    const [found] = centred({ width: 8, bands: [band(8, 4)], lines: [line(59.5)] }).bands;
    expect(Math.abs(found!.offBy!)).toBe(0.5);
  });
});

it("in a round that closes the line may lie half a stitch beside, where that brings the motif to it", () => {
  const lines = [line(71.5, "the front"), line(215.5, "the back")];
  const of = { width: 24, bands: [band(24, 4)], lines };
  expect(Math.abs(centred(of).bands[0]!.offBy!)).toBe(0.5);
  expect(centred({ ...of, maySlip: true }).bands.map(({ offBy }) => offBy)).toEqual([0, 0]);
  const between = { ...of, bands: [band(24, 4.5)], maySlip: true };
  expect(centred(between).bands.map(({ offBy }) => offBy)).toEqual([0, 0]);
});

it("the front comes before the back; with 15 repeats of 16 the back shows what lies half a repeat on (trade.md 3)", () => {
  const lines = [line(60, "the front"), line(180, "the back")];
  const found = centred({ width: 16, bands: [band(16, 1)], lines });
  expect(found.bands.map(({ line: name, offBy }) => [name, Math.abs(offBy!)])).toEqual([
    ["the front", 0],
    ["the back", 8],
  ]);
});

it("a band of more rows counts for more, and what has no middle asks for nothing", () => {
  const leans = { band: { id: "b3", repeat: 6, centre: null }, rows: 40 };
  const found = centred({ width: 24, bands: [band(8, 1, 3), band(24, 4, 21, "b2"), leans], lines: [line(60)] });
  expect(found.bands).toMatchObject([
    { offBy: expect.any(Number) as number },
    { band: "b2", offBy: 0 },
    { offBy: null },
  ]);
});

it("agrees with the closed formula for one band, wherever the line is", () => {
  fc.assert(
    fc.property(fc.integer({ min: 1, max: 30 }), fc.nat(59), fc.nat(300), (repeat, twice, stitch) => {
      const axis = (twice % (2 * repeat)) / 2;
      const { startColumn, bands } = centred({
        width: repeat,
        bands: [band(repeat, axis + 1)],
        lines: [line(stitch)],
      });
      const miss = Math.abs(bands[0]!.offBy!);
      expect(miss).toBe(repeat > 1 ? (Number.isInteger(axis) ? 0 : 0.5) : miss);
      if (Number.isInteger(axis) && repeat > 1) expect(startColumn - 1).toBe(startColumnFor({ axis, stitch, repeat }));
    }),
    { seed: 7, numRuns: 200 },
  );
});
