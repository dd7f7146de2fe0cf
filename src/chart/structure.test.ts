/** How charts are built, against charts whose truth was found by hand, against a slow and plain reading, and by laws. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { BUILT_CHARTS } from "../../test/builtCharts.ts";
import table from "../../test/tables/motifs.json" with { type: "json" };
import { alignmentsOf } from "./alignment.ts";
import { findBands } from "./bands.ts";
import { cellAt, gridOf, type Chart, type Grid } from "./chart.ts";
import { mainColour } from "./mainColour.ts";
import { mirrorsOf } from "./mirrors.ts";
import { repeatOf } from "./repeats.ts";
import { shiftedRows } from "./shift.ts";
import { structureOf, type BandStructure } from "./structure.ts";

const runs = { seed: 7, numRuns: 300 };

function built(chart: Pick<Chart, "rows" | "bands">): { grid: Grid; bands: BandStructure[] } {
  const grid = gridOf(chart);
  return { grid, bands: structureOf(grid, findBands(chart, grid)) };
}

const motif = (id: string): readonly string[] => table.motifs.find((entry) => entry.id === id)!.rows;
const figures = (bands: readonly BandStructure[]): BandStructure[] => bands.filter(({ kind }) => kind !== "plain");

describe("invented charts, read by hand", () => {
  it.each(BUILT_CHARTS.map((each) => [each.name, each] as const))("%s", (_, { chart, bands: expected, meets }) => {
    const { grid, bands } = built(chart);
    expect(
      figures(bands).map(({ band, kind, repeat, mirrors }) => {
        const over = repeat.over > 0 ? `+${repeat.over}` : "";
        return `${band.rows.join("-")} ${kind} ${repeat.stitches}${over}: ${mirrors.across.join(" ")}`;
      }),
    ).toEqual(expected);
    const found = alignmentsOf(grid, bands);
    expect(found).toHaveLength(meets.length);
    found.forEach((one, index) => {
      const whole = one.offBy === null ? one.meets : `${one.meets} ${one.offBy}`;
      expect([whole, one.meets]).toContain(meets[index]);
    });
  });

  it("are thirty at least", () => expect(BUILT_CHARTS.length).toBeGreaterThanOrEqual(30));
});

describe("the table's motifs", () => {
  it.each(table.motifs.map((each) => [each.id, each] as const))("%s mirrors upwards as the table says", (_, each) => {
    const grid = gridOf(each);
    const repeat = repeatOf(grid, [1, each.height]);
    expect(repeat).toMatchObject({ stitches: each.minimalPeriod, times: 1, over: 0 });
    const { up, turned } = mirrorsOf(grid, [1, each.height], repeat);
    expect(up.length > 0).toBe(each.verticalMirror);
    // What mirrors across and up is the same upside down.
    if (each.verticalMirror && each.mirrorAxes.length > 0) expect(turned).toBe(true);
  });
});

describe("shading and roles of rows", () => {
  const shaded = (pairs: string): string[] =>
    motif("diamond-8").map((row, index) => {
      const [ground, figure] = pairs.split(" ")[index]!;
      return row.replaceAll(".", ground!).replaceAll("#", figure!);
    });

  it.each([
    ["AP AP AP AP AP AP AP", "no", 1],
    ["AP AP CP CP CP AP AP", "ground", 3],
    ["AP AP AQ AQ AQ AP AP", "pattern", 3],
    ["AP AP CP CQ CP AP AP", "both", 5],
  ] as const)("%s: %s", (pairs, expected, steps) => {
    const [band, ...more] = built({ rows: shaded(pairs) }).bands;
    expect(more).toEqual([]);
    expect([band!.shaded, band!.steps.length]).toEqual([expected, steps]);
    expect(band!.mirrors.up).toEqual([4]);
  });

  it("shaded from one side mirrors in shape alone", () => {
    const [band] = built({ rows: shaded("AP AP AP AQ AQ AQ AQ") }).bands;
    expect([band!.mirrors.up, band!.mirrors.upInShape]).toEqual([[], [4]]);
  });

  it("her ground stands, and what lies on it turns over", () => {
    const rows = ["AAAAAAAA", ...shaded("AP AP AP AP AP AP AP"), "AAAAAAAA"];
    const idOf = (chart: Pick<Chart, "rows" | "bands">) => {
      const { grid, bands } = built(chart);
      return bands[1]!.rows.map(({ ground }) => grid.ids[ground]).join("");
    };
    expect(idOf({ rows })).toBe("AAAAAAA");
    expect(idOf({ rows, bands: [{ rows: [2, 8], ground: ["P"] }] })).toBe("PPPPPPP");
  });

  it("lice: single stitches with ground all round, one in three at most", () => {
    const kinds = (rows: string[]) => built({ rows }).bands.flatMap((band) => band.rows.map(({ kind }) => kind));
    expect(kinds(["AAAAAA", "BAAAAA", "AAAAAA"])).toEqual(["plain", "seeding", "plain"]);
    expect(kinds(["BAABAA"])).toEqual(["seeding"]);
    expect(kinds(["BABABA"])).toEqual(["dashes"]);
    expect(kinds(["BBAAAA"])).toEqual(["motif"]);
    // Twill: its stitches touch by their corners.
    expect(kinds(["BAA", "ABA", "AAB"])).toEqual(["motif", "motif", "motif"]);
  });

  it("the main colour is the ground of most stitches, not what is knitted most", () => {
    // 8 + 8 plain stitches and the diamonds' 33 are A's, and B has 23; a third colour is ground once, 16 stitches.
    const rows = [
      "A".repeat(8),
      ...motif("diamond-8").map((row) => row.replaceAll(".", "A").replaceAll("#", "B")),
      "A".repeat(8),
    ];
    const { grid, bands } = built({ rows: ["CCCCCCCC", "CCCCCCCC", ...rows] });
    const { main, contrasts } = mainColour(grid, bands);
    expect([grid.ids[main!], contrasts.map((index) => grid.ids[index])]).toEqual(["A", ["B", "C"]]);
  });
});

/** Two colours, some rows, a width that the tile is repeated to. */
const tiles = fc
  .record({ width: fc.integer({ min: 1, max: 9 }), height: fc.integer({ min: 1, max: 6 }) })
  .chain(({ width, height }) =>
    fc.array(fc.string({ unit: fc.constantFrom("A", "B", "C"), minLength: width, maxLength: width }), {
      minLength: height,
      maxLength: height,
    }),
  );

/** What `repeatOf` says, tried column by column. */
function slowRepeat(grid: Grid): number {
  for (let period = 1; 2 * period <= grid.width; period++) {
    let recurs = true;
    for (let row = 1; row <= grid.height; row++)
      for (let column = period + 1; column <= grid.width; column++)
        recurs &&= cellAt(grid, row, column) === cellAt(grid, row, column - period);
    if (recurs) return period;
  }
  return grid.width;
}

function slowAxes(grid: Grid, repeat: number): number[] {
  const at = (row: number, column: number): number =>
    cellAt(grid, row, ((((column - 1) % repeat) + repeat) % repeat) + 1);
  const axes: number[] = [];
  for (let axis = 1; axis < repeat + 1; axis += 0.5) {
    let mirrors = true;
    for (let row = 1; row <= grid.height; row++)
      for (let column = 1; column <= repeat; column++) mirrors &&= at(row, column) === at(row, 2 * axis - column);
    if (mirrors) axes.push(axis);
  }
  return axes;
}

describe("laws", () => {
  const widened = fc.tuple(tiles, fc.integer({ min: 1, max: 4 }), fc.integer({ min: 0, max: 8 }));

  it("repeat and axes are those of the slow and plain reading, in widths of any size", () => {
    fc.assert(
      fc.property(widened, ([tile, times, more]) => {
        const width = tile[0]!.length * times + Math.min(more, tile[0]!.length);
        const grid = gridOf({ rows: tile.map((row) => row.repeat(times + 1).slice(0, width)) });
        const repeat = repeatOf(grid, [1, grid.height]);
        expect(repeat.stitches).toBe(slowRepeat(grid));
        expect(repeat.times * repeat.stitches + repeat.over).toBe(grid.width);
        expect(mirrorsOf(grid, [1, grid.height], repeat).across).toEqual(slowAxes(grid, repeat.stitches));
      }),
      runs,
    );
  });

  it("a shift moves axes and alignment by as much, there and back is nothing, and a whole repeat is nothing", () => {
    fc.assert(
      fc.property(tiles, tiles, fc.integer({ min: -12, max: 12 }), (lower, upper, by) => {
        const width = lower[0]!.length * upper[0]!.length;
        const wide = (rows: readonly string[]) => rows.map((row) => row.repeat(width / row.length));
        const rows = [...wide(upper), "Z".repeat(width), ...wide(lower)];
        const at: [number, number] = [lower.length + 2, rows.length];
        const repeat = repeatOf(gridOf({ rows }), at).stitches;
        const moved = shiftedRows(rows, { rows: at, by, repeat });
        expect(shiftedRows(moved, { rows: at, by: -by, repeat })).toEqual(rows);
        expect(shiftedRows(rows, { rows: at, by: repeat, repeat })).toEqual(rows);
        const [before, after] = [rows, moved].map(
          (each) => mirrorsOf(gridOf({ rows: each }), at, { stitches: repeat, rows: 99 }).across,
        );
        const on = before!.map((axis) => ((((axis - 1 + by) % repeat) + repeat) % repeat) + 1).sort((a, b) => a - b);
        expect(after).toEqual(on);
      }),
      runs,
    );
  });

  it("a motif is found again wherever it is shifted, mirrored and recoloured, and no colour is lost", () => {
    const both = fc.record({
      tile: tiles.filter((rows) => rows.length >= 3),
      by: fc.nat(20),
      across: fc.boolean(),
      up: fc.boolean(),
      recolour: fc.boolean(),
    });
    fc.assert(
      fc.property(both, ({ tile, by, across, up, recolour }) => {
        const width = tile[0]!.length;
        const again = (up ? tile.toReversed() : tile)
          .map((row) => (across ? Array.from(row).reverse().join("") : row))
          .map((row) => row.slice(by % width) + row.slice(0, by % width))
          .map((row) => (recolour ? row.replace(/[ABC]/g, (colour) => ({ A: "Q", B: "R", C: "S" })[colour]!) : row));
        const rows = [...again, "Z".repeat(width), ...tile];
        const bands: Chart["bands"] = [{ rows: [1, tile.length] }, { rows: [tile.length + 2, rows.length] }];
        const { bands: found } = built({ rows, bands });
        const [first, , second] = found;
        if (first!.kind === "plain") return;
        expect(second!.echo).toMatchObject({ of: "b1", recoloured: recolour });
        if (!across && !up) expect(second!.echo!.mirrored).toBe("none");
        // As little as possible is said to have been done.
        if (second!.echo!.mirrored !== "none") expect(across || up).toBe(true);
      }),
      runs,
    );
  });

  it("the mirror of a mirror is the chart: repeat and axes stay, each at its mirrored place, and what leans still leans", () => {
    fc.assert(
      fc.property(tiles, tiles, (lower, upper) => {
        const width = lower[0]!.length * upper[0]!.length;
        const wide = (rows: readonly string[]) => rows.map((row) => row.repeat(width / row.length));
        const rows = [...wide(upper), "Z".repeat(width), ...wide(lower)];
        const mirrored = rows.map((row) => Array.from(row).reverse().join(""));
        expect(mirrored.map((row) => Array.from(row).reverse().join(""))).toEqual(rows);
        const bands: Chart["bands"] = [{ rows: [1, lower.length] }, { rows: [lower.length + 2, rows.length] }];
        const [one, other] = [rows, mirrored].map((each) => built({ rows: each, bands }));
        const told = (bandsOf: readonly BandStructure[]) =>
          bandsOf.map(({ repeat, mirrors }) => [repeat, mirrors.up, mirrors.upInShape, mirrors.turned]);
        expect(told(other!.bands)).toEqual(told(one!.bands));
        other!.bands.forEach(({ repeat, mirrors }, index) => {
          // Column c of the whole width becomes width + 1 − c.
          const back = mirrors.across.map(
            (axis) => ((((width - axis) % repeat.stitches) + repeat.stitches) % repeat.stitches) + 1,
          );
          expect(back.sort((a, b) => a - b)).toEqual(one!.bands[index]!.mirrors.across);
        });
        const meets = ({ grid, bands: bandsOf }: typeof one & {}) =>
          alignmentsOf(grid, bandsOf).map((met) => met.meets === "leaning");
        expect(meets(other!)).toEqual(meets(one!));
      }),
      runs,
    );
  });
});
