/** Yarns are found in painted photographs of tables whose every pixel is known; the painter knows nothing of the finder. */
import { describe, expect, it } from "vitest";
import { paintTable } from "../../../test/intake/tablePainter.ts";
import { scoreTable, tableRaster } from "../../../test/intake/tableScore.ts";
import { problemSentence } from "../../base/problem.ts";
import { createRaster, type Raster } from "../../raster/raster.ts";
import { findYarns } from "./findYarns.ts";
import { areaOf } from "./pieceShape.ts";

/** A table of one light with discs of yarn on it: striped by strands, darker towards the edge. */
function discs(size: number, places: readonly (readonly [number, number])[], radius: number): Raster {
  const picture = createRaster(size, size);
  for (let y = 0; y < size; y++)
    for (let x = 0; x < size; x++) {
      const on = places.findIndex(([u, v]) => Math.hypot(x + 0.5 - u, y + 0.5 - v) < radius);
      const [u, v] = on < 0 ? [0, 0] : places[on]!;
      const out = Math.hypot(x + 0.5 - u, y + 0.5 - v) / radius;
      const lit = on < 0 ? 1 : (1 - 0.5 * out * out) * ((x + y) % 6 < 2 ? 0.8 : 1);
      const colour = on < 0 ? [0.5, 0.48, 0.42] : on % 2 ? [0.35, 0.08, 0.06] : [0.05, 0.12, 0.3];
      picture.data.set(
        colour.map((light) => light * lit),
        (y * size + x) * 3,
      );
    }
  return picture;
}
const PLACES = [
  [290, 92],
  [80, 100],
  [190, 260],
] as const;

describe("in painted photographs of seeds that nothing was tried on", () => {
  const scores = [1001, 1004, 1009, 1012].map((seed) => {
    const painted = paintTable(seed);
    const avoid = painted.known.map(([x, y, width, height]) => ({ x: x!, y: y!, width: width!, height: height! }));
    return scoreTable(painted, findYarns(tableRaster(painted), { avoid }).value!);
  });
  const total = (of: (score: (typeof scores)[number]) => number): number =>
    scores.reduce((sum, score) => sum + of(score), 0);

  // What a proposal must do to save her work; our choice. The figures over many seeds are in bench/findYarns.bench.ts.
  it("most yarns are outlined, with few outlines too many", () => {
    expect(total(({ found }) => found) / total(({ yarns }) => yarns)).toBeGreaterThan(0.7);
    expect(total(({ wrong, parts }) => wrong + parts)).toBeLessThan(0.3 * total(({ yarns }) => yarns));
  });

  it("the shade is looked at within the yarn", () => {
    const purity = scores.flatMap(({ purity: parts }) => parts);
    expect(purity.filter((part) => part >= 0.95).length / purity.length).toBeGreaterThan(0.85);
  });
});

describe("three balls on a table", () => {
  const found = findYarns(discs(380, PLACES, 50)).value!;

  it("are outlined in the order in which one reads", () => {
    expect(found.map(({ box }) => Math.round((box.x + box.width / 2) / 10))).toEqual([8, 29, 19]);
    for (const { outline, inner, box } of found) {
      expect(outline.length).toBeGreaterThanOrEqual(8);
      expect(outline.length).toBeLessThanOrEqual(32);
      // A disc of radius 50 has 7854 pixels; clockwise is above 0.
      expect(areaOf(outline) / 7854).toBeGreaterThan(0.9);
      expect(areaOf(outline) / 7854).toBeLessThan(1.1);
      // The largest square in it is 71 wide; the edge is left away.
      expect(inner.width).toBeGreaterThan(25);
      expect(inner.width).toBeLessThan(71);
      expect(inner.x).toBeGreaterThan(box.x);
      expect(inner.x + inner.width).toBeLessThan(box.x + box.width);
    }
  });

  it("are found where they are in a picture twice as large", () => {
    const twice = findYarns(
      discs(
        760,
        PLACES.map(([x, y]) => [2 * x, 2 * y] as const),
        100,
      ),
    ).value!;
    twice.forEach(({ box }, at) => expect(Math.abs(box.x - 2 * found[at]!.box.x)).toBeLessThan(8));
    expect(twice).toHaveLength(3);
  });

  it("are left out where no yarn is said to be, by a box or by corners", () => {
    const picture = discs(380, PLACES, 50);
    const avoid = [
      { x: 30, y: 50, width: 100, height: 100 },
      [
        [140, 210],
        [240, 210],
        [240, 310],
        [140, 310],
      ] as const,
    ];
    expect(findYarns(picture, { avoid }).value!.map(({ box }) => Math.round(box.x / 10))).toEqual([24]);
  });

  it("are not looked for to the end once stopped", () => {
    let asked = 0;
    const { value, problems } = findYarns(discs(380, PLACES, 50), { stop: () => ++asked > 1 });
    expect(value).toBeNull();
    expect(problems).toHaveLength(1);
  });
});

it("an empty table gives nothing, and a sentence says what to do", () => {
  const { value, problems } = findYarns(discs(300, [], 1));
  expect(value).toEqual([]);
  expect(problems.map(problemSentence)).toEqual([
    "The picture: expected yarns that lie apart on a plain ground of another colour, found none that stand out; outline them by hand.",
  ]);
});

it("the smallest picture is no fault", () => {
  expect(findYarns(createRaster(1, 1)).value).toEqual([]);
  expect(findYarns(createRaster(3, 900)).value).toEqual([]);
});
