/** Parts of a figure: which shapes are told apart, and that each is measured as a piece of its own. Expected values are counted by hand. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Lab } from "../colour/lab.ts";
import { NO_STITCH } from "../chart/chart.ts";
import { clothOfPattern } from "./cloth.ts";
import { bandContrast, spectrumMemory, USUAL_VIEWING } from "./contrast.ts";
import { figureParts } from "./figures.ts";
import { pieceOfMotif, visibility } from "./visibility.ts";

const told = (motif: string[], count: number) =>
  figureParts(pieceOfMotif(motif, count)).map(({ area, against, rows, times, piece }) => ({
    area,
    against,
    rows,
    times,
    stitches: Array.from(piece.cells).filter((cell) => cell === 1).length,
  }));

describe("parts of a figure", () => {
  // Row 0 of a piece is the first that is listed.
  it("a small square beside a large one of its colour", () => {
    const motif = ["0000000000", "0111100000", "0111100110", "0111100110", "0111100000", "0000000000"];
    expect(told(motif, 2)).toEqual([
      { area: 1, against: 0, rows: [1, 4], times: 1, stitches: 16 },
      { area: 1, against: 0, rows: [2, 3], times: 1, stitches: 4 },
    ]);
  });

  it("equal shapes in the same rows are one part, across the edge too", () => {
    const motif = ["000000000000", "101100011001", "000000000000", "000111000000"];
    const [pairs] = told(motif, 2).filter(({ rows }) => rows[0] === 1 && rows[1] === 1);
    expect(pairs).toEqual({ area: 1, against: 0, rows: [1, 1], times: 3, stitches: 6 });
  });

  it("none for a shape that goes all round, that touches two colours, or that is the whole of its colour", () => {
    expect(told(["0000", "1111", "0000"], 2)).toEqual([]);
    expect(told(["0000", "0120", "0000"], 3)).toEqual([]);
    expect(told(["00000", "01100", "00000"], 2)).toEqual([]);
  });

  it("only stitches of the piece, each in one part at most, and a shift sideways changes nothing", () => {
    const cells = fc.array(fc.integer({ min: 0, max: 2 }), { minLength: 48, maxLength: 48 });
    fc.assert(
      fc.property(cells, fc.integer({ min: 1, max: 7 }), (drawn, shift) => {
        const piece = { width: 8, height: 6, cells: Uint8Array.from(drawn), count: 3 };
        const moved = Uint8Array.from(drawn, (_, at) => drawn[at - (at % 8) + ((at + shift) % 8)]!);
        const parts = figureParts(piece);
        const taken = new Set<number>();
        for (const { piece: own, area } of parts)
          Array.from(own.cells).forEach((cell, at) => {
            if (cell !== 1) return;
            expect(drawn[at]).toBe(area);
            expect(taken.has(at)).toBe(false);
            taken.add(at);
          });
        const summary = (found: typeof parts) =>
          found.map(({ area, against, rows, times }) => JSON.stringify([area, against, rows, times])).sort();
        expect(summary(figureParts({ ...piece, cells: moved }))).toEqual(summary(parts));
      }),
      { seed: 7, numRuns: 100 },
    );
  });

  it("where there is no stitch there is no part", () => {
    const piece = {
      width: 2,
      height: 2,
      cells: Uint8Array.from([NO_STITCH, NO_STITCH, NO_STITCH, NO_STITCH]),
      count: 1,
    };
    expect(figureParts(piece)).toEqual([]);
  });

  it("is measured alone: two colours, the V of the plain measure but for the band's own mean and light", () => {
    // With a ground that fills all but a few stitches the band's mean is the part's own mean within a hundredth.
    const colours = { A: [70, 0, 0], B: [62, 0, 0] } as Record<string, Lab>;
    const rows = [
      "A".repeat(40),
      `${"A".repeat(6)}BB${"A".repeat(20)}BBB${"A".repeat(9)}`,
      `${"A".repeat(26)}BBB${"A".repeat(11)}`,
      "A".repeat(40),
    ];
    const chart = { id: "c", rows };
    const pattern = {
      gauge: { stitches: 28, rows: 30 },
      colours: Object.entries(colours).map(([id, lab]) => ({ id, shade: { lab } })),
      charts: [chart],
    };
    const cloth = clothOfPattern({ chart, pattern });
    const band = { rows: [1, 4] as const, pattern: [1] };
    const { parts } = bandContrast(cloth, band, USUAL_VIEWING, spectrumMemory());
    const small = parts.find(({ rows: [from, to] }) => from === to)!;
    expect(small.rows).toEqual([3, 3]);
    const alone = rows.map((row, at) => (at === 1 ? `${"0".repeat(6)}11${"0".repeat(32)}` : "0".repeat(row.length)));
    const { V } = visibility({
      background: colours.A!,
      foreground: colours.B!,
      motif: alone,
      rows: "once",
      gauge: pattern.gauge,
      distance: USUAL_VIEWING.distanceM,
    });
    expect(small.V / V).toBeGreaterThan(0.97);
    expect(small.V / V).toBeLessThan(1.03);
  });
});
