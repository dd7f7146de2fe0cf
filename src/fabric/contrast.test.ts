/** Contrast of a cloth against the public measure of the same motif, and what must not change it. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import table from "../../test/tables/motifs.json" with { type: "json" };
import type { Lab } from "../colour/lab.ts";
import { clothOfPattern, type Cloth } from "./cloth.ts";
import { bandContrast, rowContrast, spectrumMemory, USUAL_VIEWING } from "./contrast.ts";
import { findBands } from "../chart/bands.ts";
import { visibility } from "./visibility.ts";

const GAUGE = { stitches: 28, rows: 30 };
const LABS: readonly Lab[] = [
  [88, 1, 9],
  [31, 3, -14],
  [55, 28, 20],
];

/** A chart of digits as cloth, digit n in colour n. */
function clothOf(rows: readonly string[], labs: readonly Lab[] = LABS): Cloth {
  const colours = labs.map((lab, at) => ({ id: String(at), shade: { lab } }));
  return clothOfPattern({ chart: { id: "c", rows: [...rows] }, pattern: { gauge: GAUGE, colours, charts: [] } });
}

const memory = spectrumMemory();
const whole = (cloth: Cloth) => ({ rows: [1, cloth.grid.height] as const, pattern: [1] });
const band = (cloth: Cloth) => bandContrast(cloth, whole(cloth), USUAL_VIEWING, memory);
const row = (cloth: Cloth, at: number) => rowContrast(cloth, at, USUAL_VIEWING, memory);
/** Areas are numbered in another order, so sums round in another order. */
const ROUNDING = 1e-9;
const near = (one: number, other: number, tolerance = ROUNDING): void =>
  expect(Math.abs(one - other)).toBeLessThanOrEqual(tolerance * Math.max(1, Math.abs(other)));

describe("a cloth shows as the public measure says of the same motif alone", () => {
  it.each(table.motifs)("$id", ({ rows }) => {
    const motif = rows.map((text) => text.replaceAll(".", "0").replaceAll("#", "1"));
    const [background, foreground] = LABS as [Lab, Lab];
    const plain = { background, foreground, gauge: GAUGE, distance: USUAL_VIEWING.distanceM, rows: "once" as const };
    // Three repeats wide: what recurs is found again.
    const cloth = clothOf(motif.map((text) => text.repeat(3)));
    const { V, lightDark, shows } = band(cloth);
    const expected = visibility({ ...plain, motif });
    near(V!, expected.V);
    near(lightDark!, expected.lightDark);
    expect(shows).toBe(expected.shows);
    motif.toReversed().forEach((text, at) => {
      if (new Set(text).size < 2) return;
      // A row is cut to its own repeat, which may be a part of the motif's.
      const period = [...text].findIndex(
        (_, shift) => shift > 0 && text.length % shift === 0 && text === text.slice(shift) + text.slice(0, shift),
      );
      const once = period > 0 ? text.slice(0, period) : text;
      near(row(cloth, at + 1).V!, visibility({ ...plain, motif: [once] }).V);
    });
  });

  it("three colours", () => {
    const motif = ["000000", "011110", "012210", "011110", "000000"];
    const expected = visibility({
      colours: LABS,
      motif,
      gauge: GAUGE,
      distance: USUAL_VIEWING.distanceM,
      rows: "once",
    });
    near(band(clothOf(motif)).V!, expected.V);
  });
});

describe("laws", () => {
  const cells = fc.tuple(fc.integer({ min: 2, max: 8 }), fc.integer({ min: 1, max: 5 })).chain(([width, height]) =>
    fc.array(
      fc.array(fc.constantFrom("0", "1", "2"), { minLength: width, maxLength: width }).map((row) => row.join("")),
      { minLength: height, maxLength: height },
    ),
  );

  it("a chart shifted sideways in the round shows the same", () =>
    fc.assert(
      fc.property(cells, fc.nat(7), (rows, by) => {
        const shifted = rows.map((text) => text.slice(by % text.length) + text.slice(0, by % text.length));
        const [one, other] = [clothOf(rows), clothOf(shifted)];
        rows.forEach((_, at) => {
          const [a, b] = [row(one, at + 1).V, row(other, at + 1).V];
          if (a === null || b === null) expect(a).toBe(b);
          else near(a, b, 1e-6);
        });
        const [a, b] = [band(one).V, band(other).V];
        if (a === null || b === null) expect(a).toBe(b);
        else near(a, b, 1e-6);
      }),
      { seed: 7, numRuns: 60 },
    ));

  it("equal colours show nothing", () =>
    fc.assert(
      fc.property(cells, (rows) => {
        const same = clothOf(rows, [LABS[0]!, LABS[0]!, LABS[0]!]);
        for (const at of rows.keys()) near(row(same, at + 1).V ?? 0, 0, 1e-6);
      }),
      { seed: 7, numRuns: 40 },
    ));

  it("every figure is a pair that touches, and with two colours its V is the band's", () =>
    fc.assert(
      fc.property(cells, (rows) => {
        const cloth = clothOf(rows.map((text) => text.replaceAll("2", "0")));
        const { V, figures, areas } = band(cloth);
        if (areas.length < 2) return expect(figures).toEqual([]);
        expect(figures).toHaveLength(1);
        near(figures[0]!.V, V!, 1e-6);
      }),
      { seed: 7, numRuns: 60 },
    ));
});

describe("what there is to see", () => {
  it("a plain row in its ground: nothing", () => {
    const cloth = clothOf(["00", "01", "00"]);
    expect([row(cloth, 1).V, row(cloth, 3).V]).toEqual([null, null]);
  });
  it("a stripe is judged against the neighbour it is most easily confused with", () => {
    const stripe = row(
      clothOf(
        ["00", "22", "11"],
        [
          [90, 0, 0],
          [30, 0, 0],
          [34, 0, 0],
        ],
      ),
      2,
    );
    expect(stripe.figures[0]!.against.colours).toEqual(["1"]);
    expect(stripe.deltaL).toBeCloseTo(4, 9);
  });
  it("plain rows are no motif, even in two colours", () => {
    const cloth = clothOf(["00", "11"]);
    expect(findBands({}, cloth.grid).map((one) => bandContrast(cloth, one, USUAL_VIEWING, memory).V)).toEqual([null]);
  });
  it("the range holds V, and widens with doubt of the shades", () => {
    const sure = row(clothOf(["01"]), 1);
    expect(sure.low!).toBeLessThan(sure.V!);
    expect(sure.high!).toBeGreaterThan(sure.V!);
    const unsure = clothOf(["01"]);
    const inks = unsure.inks.map((ink) => ({ ...ink, uncertainty: 8 }));
    expect(row({ ...unsure, inks }, 1).low!).toBeLessThan(sure.low!);
    expect(row({ ...unsure, inks }, 1).high!).toBeGreaterThan(sure.high!);
  });
});
