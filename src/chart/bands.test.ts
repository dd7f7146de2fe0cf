/** Where a knitter would part a chart into bands, case by case, and the laws that every parting keeps. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import table from "../../test/tables/motifs.json" with { type: "json" };
import { findBands, type Band } from "./bands.ts";
import { gridOf, type Chart, type ChartBand } from "./chart.ts";

function motif(id: string, ground = "A", pattern = "B"): string[] {
  const { rows } = table.motifs.find((entry) => entry.id === id)!;
  return rows.map((row) => row.replaceAll(".", ground).replaceAll("#", pattern));
}

/** A motif with the ground and the pattern of each row given, top first, as "ground pattern" in two characters. */
function shaded(id: string, ...pairs: string[]): string[] {
  const { rows } = table.motifs.find((entry) => entry.id === id)!;
  expect(pairs).toHaveLength(rows.length);
  return rows.map((row, index) =>
    row.replaceAll(".", "g").replaceAll("#", "p").replaceAll("g", pairs[index]![0]!).replaceAll("p", pairs[index]![1]!),
  );
}

/** Tiles every block to 48 stitches, the first block at the top. */
const stack = (...blocks: string[][]): string[] => blocks.flat().map((row) => row.repeat(48 / row.length));

const rowsOf = (bands: readonly Band[]): string => bands.map(({ rows: [from, to] }) => `${from}-${to}`).join(" ");

function check(rows: string[], expected: string, bands?: ChartBand[]): Band[] {
  const chart: Pick<Chart, "rows" | "bands"> = bands ? { rows, bands } : { rows };
  const found = findBands(chart, gridOf(chart));
  expect(rowsOf(found)).toBe(expected);
  return found;
}

/** Expected partings are a knitter's reading: common practice, no source. */
describe("automatic bands", () => {
  const plain = ["A"];

  it("a star with its plain centre row is one band, by itself and between others", () => {
    check(motif("star-24"), "1-21");
    check(
      stack(motif("wave-6"), plain, motif("star-24"), plain, plain, motif("dash-1row-2")),
      "1-1 2-3 4-24 25-25 26-30",
    );
  });

  it("two diamonds with a plain row between are two bands, though the whole mirrors", () => {
    check(stack(motif("diamond-8"), plain, motif("diamond-8")), "1-7 8-8 9-15");
  });

  it("two rows of dashes or seeds with a plain row between are not one motif", () => {
    check(stack(motif("dash-1row-2"), plain, motif("dash-1row-2")), "1-1 2-2 3-3");
    check(stack(["AAAB"], plain, ["AAAB"]), "1-1 2-2 3-3");
  });

  it("neighbouring plain rows are one band without pattern, in one colour or two", () => {
    const bands = check(
      stack(
        plain,
        ["C"],
        motif("plus-5").map((row) => `${row}A`),
        plain,
      ),
      "1-1 2-4 5-6",
    );
    expect(bands[2]!.pattern).toEqual([]);
    expect(bands[2]!.period).toBe(1);
  });

  it("parts where the set of colours changes", () => {
    check(stack(motif("wave-6", "A", "C"), motif("diamond-8"), motif("dash-1row-2", "A", "D")), "1-1 2-8 9-13");
    check(stack(motif("wave-6", "C", "D"), motif("diamond-8")), "1-7 8-12");
  });

  it("keeps a mirrored shaded border together: pattern shaded, ground shaded, both by turns", () => {
    const ground = shaded("lozenge-cross-16", ..."A A A C C D D E D D C C A A A".split(" ").map((g) => `${g}P`));
    const pattern = shaded("lozenge-cross-16", ..."P P Q Q Q R R R R R Q Q Q P P".split(" ").map((p) => `A${p}`));
    const both = shaded("lozenge-cross-16", ..."AP AP AQ CQ CQ CR DR DR DR CR CQ CQ AQ AP AP".split(" "));
    for (const border of [ground, pattern, both]) {
      check(stack(border), "1-15");
      check(stack(plain, border, plain, motif("diamond-8"), plain), "1-1 2-8 9-9 10-24 25-25");
      check(stack(motif("dash-1row-2", "C", "D"), border), "1-15 16-16");
    }
  });

  it("keeps a motif shaded one way together while its shape mirrors", () => {
    check(stack(shaded("diamond-8", ..."AP AP BP BP CP CP CP".split(" "))), "1-7");
  });

  it("keeps a shaded star with its plain centre together", () => {
    const outer = "AP ".repeat(10).trim().split(" ");
    const rows = shaded(
      "star-24",
      ...outer.slice(0, 5),
      ...outer.slice(5).map(() => "CP"),
      "CC",
      ...outer.slice(5).map(() => "CP"),
      ...outer.slice(0, 5),
    );
    check(stack(rows), "1-21");
  });

  it("does not join whole motifs, or a motif and the dashes that frame it", () => {
    check(
      stack(
        motif("diamond-8", "A", "C"),
        motif("band-10", "A", "B").map((row) => row.repeat(24).slice(0, 48)),
        motif("diamond-8", "A", "C"),
      ),
      "1-7 8-12 13-19",
    );
    check(stack(motif("dash-1row-2", "A", "C"), motif("diamond-8"), motif("dash-1row-2", "A", "C")), "1-1 2-8 9-9");
    check(stack(motif("pairs-4", "A", "C"), motif("diamond-8"), motif("pairs-4", "A", "C")), "1-1 2-8 9-9");
  });

  it("cuts a shaded motif that does not mirror: a stated limit", () => {
    check(stack(shaded("wave-6", ..."AP AP AP CP CP".split(" "))), "1-2 3-5");
  });

  it("declared bands win, the rows between are parted by rule, an overlap goes to the lower", () => {
    const rows = stack(motif("wave-6"), plain, motif("diamond-8"));
    const bands = check(rows, "1-3 4-7 8-8 9-13", [{ rows: [1, 3], name: "half", want: "soft" }]);
    expect(bands[0]).toMatchObject({ id: "b1", name: "half", want: "soft" });
    check(rows, "1-9 10-13", [{ rows: [8, 99] }, { rows: [1, 9] }]);
  });
});

describe("ground and pattern", () => {
  const colours = (bands: readonly Band[], rows: string[]): string[] => {
    const { ids } = gridOf({ rows });
    const text = (indices: readonly number[]): string => indices.map((index) => ids[index]).join("");
    return bands.map((band) => `${text([band.ground])}<${text(band.grounds)}>${text(band.pattern)}`);
  };

  it("a shaded ground is ground in all its shades, though the pattern has more stitches than each", () => {
    const rows = stack(shaded("lozenge-cross-16", ..."A A A C C D D E D D C C A A A".split(" ").map((g) => `${g}P`)));
    // Ground stitches by hand from the rows, a repeat: A 8+9+8 twice = 48 with its fellows; only the order matters: A, then C or D, last E.
    const [text] = colours(findBands({}, gridOf({ rows })), rows);
    expect(text).toMatch(/^A<A[CD][CD]E>P$/);
  });

  it("a lozenge border has more pattern than ground, and its ground is still what runs round its edges", () => {
    const rows = stack(motif("lozenge-cross-16"));
    expect(colours(findBands({}, gridOf({ rows })), rows)).toEqual(["A<A>B"]);
  });

  it("dashes take the ground of the plain rows beside them", () => {
    const rows = stack(["B"], motif("dash-1row-2"), ["B"]);
    expect(colours(findBands({}, gridOf({ rows })), rows)).toEqual(["B<B>", "B<B>A", "B<B>"]);
  });

  it("three colours in a row: one ground, two on it, most stitches first", () => {
    const rows = ["AAAAAA", "ABBBCA", "AAAAAA"];
    expect(colours(findBands({}, gridOf({ rows })), rows)[1]).toBe("A<A>BC");
  });
});

describe("echoes", () => {
  const name = (bands: readonly Band[]): string =>
    bands
      .filter((b) => b.echoOf)
      .map((b) => `${b.id}=${b.echoOf}`)
      .join(" ");

  it("are found in other colours and shifted, back to the first", () => {
    const shift = (rows: string[], by: number): string[] => rows.map((row) => row.slice(by) + row.slice(0, by));
    const rows = stack(
      motif("diamond-8", "C", "D"),
      ["A"],
      shift(motif("diamond-8", "B", "A"), 3),
      ["A"],
      motif("wave-6"),
      ["A"],
      motif("diamond-8"),
    );
    expect(name(findBands({}, gridOf({ rows })))).toBe("b5=b1 b7=b1");
  });

  it("are at least three rows high and never plain", () => {
    const rows = stack(motif("dash-1row-2"), ["A"], ["A"], ["A"], motif("dash-1row-2"), ["A"], ["A"], ["A"]);
    expect(name(findBands({}, gridOf({ rows })))).toBe("");
  });

  it("are not found upside down, or where two colours become one", () => {
    expect(name(findBands({}, gridOf({ rows: stack(motif("wave-6").reverse(), ["A"], motif("wave-6")) })))).toBe("");
    const three = ["AABA", "ABCB", "AABA"];
    const two = ["AABA", "ABBB", "AABA"];
    expect(name(findBands({}, gridOf({ rows: [...three, "AAAA", ...two] })))).toBe("");
  });
});

describe("laws", () => {
  const rowOf = fc.constantFrom("AAAA", "BBBB", "ABAB", "AABA", "ACAA", "CCCB", "AABC", "A-AB", "----");
  const chart = fc.array(rowOf, { minLength: 1, maxLength: 24 });

  it("every row lies in exactly one band, whatever is declared", () => {
    const declared = fc.array(
      fc
        .tuple(fc.integer({ min: 1, max: 24 }), fc.nat(6))
        .map(([from, more]): ChartBand => ({ rows: [from, from + more] })),
      { maxLength: 4 },
    );
    fc.assert(
      fc.property(chart, declared, (rows, bands) => {
        const found = findBands({ bands }, gridOf({ rows }));
        const covered = found.flatMap(({ rows: [from, to] }) =>
          Array.from({ length: to - from + 1 }, (_, i) => from + i),
        );
        expect(covered).toEqual(rows.map((_, index) => index + 1));
        expect(found.map(({ id }) => id)).toEqual(found.map((_, index) => `b${index + 1}`));
      }),
      { seed: 7, numRuns: 300 },
    );
  });

  it("a shift round the tube and a repetition change no band, role or echo", () => {
    fc.assert(
      fc.property(chart, fc.nat(3), (rows, by) => {
        const turned = rows.map((row) => (row.slice(by) + row.slice(0, by)).repeat(2));
        const plainFacts = (text: string[]): unknown => {
          const grid = gridOf({ rows: text });
          return findBands({}, grid).map(({ rows: at, colours, period, echoOf }) => [
            at,
            colours.map((c) => grid.ids[c]).sort(),
            period,
            echoOf,
          ]);
        };
        expect(plainFacts(turned)).toEqual(plainFacts(rows));
      }),
      { seed: 7, numRuns: 200 },
    );
  });

  it("motifs stacked with plain rows between, in any order and colours, are each a band", () => {
    // Scattered seeds are cut at their own plain rows; the others' widths must divide the stack's.
    const shapes = table.motifs.filter(({ id, width }) => id !== "seed-6" && 48 % width === 0);
    const piece = fc.record({
      motif: fc.constantFrom(...shapes),
      ground: fc.constantFrom("A", "C"),
      pattern: fc.constantFrom("B", "D"),
      plainAbove: fc.array(fc.constantFrom("A", "B", "C"), { minLength: 1, maxLength: 3 }),
    });
    fc.assert(
      fc.property(fc.array(piece, { minLength: 1, maxLength: 5 }), (pieces) => {
        const rows: string[] = [];
        const expected: string[] = [];
        for (const { motif: shape, ground, pattern, plainAbove } of pieces) {
          expected.push(`${rows.length + 1}-${rows.length + shape.height}`);
          rows.push(...stack(motif(shape.id, ground, pattern)).reverse());
          rows.push(...plainAbove.map((colour) => colour.repeat(48)));
        }
        const found = findBands({}, gridOf({ rows: rows.reverse() }));
        expect(rowsOf(found.filter((band) => band.pattern.length > 0))).toBe(expected.join(" "));
      }),
      { seed: 7, numRuns: 300 },
    );
  });
});
