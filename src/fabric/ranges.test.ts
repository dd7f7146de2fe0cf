/** A less certain shade makes nothing narrower: contrasts, how far they read, and the ladder. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Lab } from "../colour/lab.ts";
import { wordOf } from "./visibility.ts";
import { asPattern, clothOf, clothOfPattern, type Cloth } from "./cloth.ts";
import { bandContrast, readsToIn, rowContrast, spectrumMemory, USUAL_VIEWING } from "./contrast.ts";
import { partContrasts } from "./figures.ts";
import { mayChangePlaces, valueLadder } from "./ladder.ts";
import type { Pattern } from "./pattern.ts";

const ROWS = ["000000", "011110", "012210", "011110", "000000", "111111", "000000"];
const memory = spectrumMemory();

function patternOf(labs: readonly Lab[], uncertainties: readonly number[]): Pattern {
  return {
    gauge: { stitches: 28, rows: 30 },
    colours: labs.map((lab, at) => ({ id: String(at), shade: { lab, uncertainty: uncertainties[at]! } })),
    charts: [{ id: "c", rows: [...ROWS] }],
  };
}
const clothIn = (labs: readonly Lab[], uncertainties: readonly number[]): Cloth => {
  const pattern = patternOf(labs, uncertainties);
  return clothOfPattern({ chart: pattern.charts[0]!, pattern });
};

const anyLab = fc.tuple(
  fc.double({ min: 8, max: 95, noNaN: true }),
  fc.double({ min: -40, max: 40, noNaN: true }),
  fc.double({ min: -40, max: 40, noNaN: true }),
);
const labs = fc
  .tuple(anyLab, anyLab, anyLab, fc.boolean())
  // Now and then two are one shade.
  .map(([a, b, c, same]): Lab[] => (same ? [a, a, c] : [a, b, c]));
const uncertainties = fc.tuple(
  fc.double({ min: 0, max: 12, noNaN: true }),
  fc.double({ min: 0, max: 12, noNaN: true }),
  fc.double({ min: 0, max: 12, noNaN: true }),
);

interface Ranged {
  readonly low: number | null;
  readonly high: number | null;
}

/** Every range that a cloth has. */
function rangesOf(cloth: Cloth): Ranged[] {
  const bands = bandContrast(cloth, { rows: [1, 5], pattern: [1, 2] }, USUAL_VIEWING, memory);
  const rows = ROWS.map((_, at) => rowContrast(cloth, at + 1, USUAL_VIEWING, memory));
  const reads = ROWS.flatMap((_, at) => readsToIn(cloth, [at + 1, at + 1], USUAL_VIEWING, memory) ?? []);
  const parts = partContrasts(cloth, { rows: [1, 7] }, USUAL_VIEWING, memory);
  return [bands, ...rows, ...[bands, ...rows].flatMap(({ figures }) => figures), ...reads, ...parts];
}

describe("a less certain shade", () => {
  it("makes no contrast, figure or distance narrower", () => {
    fc.assert(
      fc.property(
        labs,
        uncertainties,
        fc.nat(2),
        fc.double({ min: 0, max: 10, noNaN: true }),
        (shades, given, at, more) => {
          const before = rangesOf(clothIn(shades, given));
          const after = rangesOf(clothIn(shades, given.with(at, given[at]! + more)));
          expect(after.length).toBe(before.length);
          before.forEach(({ low, high }, index) => {
            const wider = after[index]!;
            if (low === null || high === null) return;
            expect(wider.low!).toBeLessThanOrEqual(low + 1e-9);
            expect(wider.high!).toBeGreaterThanOrEqual(high - 1e-9);
          });
        },
      ),
      { seed: 7, numRuns: 120 },
    );
  });
  it("has its word within the words of its ends", () => {
    const WORDS = ["lost", "faint", "clear", "strong"];
    fc.assert(
      fc.property(labs, uncertainties, (shades, given) => {
        const cloth = clothIn(shades, given);
        for (let row = 1; row <= ROWS.length; row++) {
          const { shows, low, high } = rowContrast(cloth, row, USUAL_VIEWING, memory);
          if (shows === null) continue;
          expect(WORDS.indexOf(wordOf(low!))).toBeLessThanOrEqual(WORDS.indexOf(shows));
          expect(WORDS.indexOf(wordOf(high!))).toBeGreaterThanOrEqual(WORDS.indexOf(shows));
        }
      }),
      { seed: 7, numRuns: 100 },
    );
  });
  it("of the very shade of its ground may show, as far as the two may be apart; a certain one does not", () => {
    const grey: Lab = [60, 0, 0];
    const other: Lab = [20, 0, 0];
    const row = (uncertainty: number, lab: Lab = grey) =>
      rowContrast(clothIn([grey, lab, other], [uncertainty, uncertainty, 0]), 2, USUAL_VIEWING, memory);
    expect(row(0)).toMatchObject({ V: 0, low: 0, high: 0, shows: "lost" });
    expect(row(5)).toMatchObject({ V: 0, low: 0, shows: "lost" });
    // By hand: ±5 and ±5 may lie 7.07 apart; so may two that are stated 0.6 apart, 7.67 then, a twelfth more.
    const stated = row(5, [60.6, 0, 0]).high!;
    expect(row(5).high!).toBeGreaterThan(0.85 * stated);
    expect(row(5).high!).toBeLessThan(stated);
    const reads = readsToIn(clothIn([grey, grey, other], [5, 5, 0]), [2, 2], USUAL_VIEWING, memory)!;
    expect(reads).toMatchObject({ metres: 0, low: 0 });
    expect(reads.high).toBeGreaterThan(0.3);
  });
  it("of the pattern, picked off a picture, has its range beside hers", () => {
    const pattern = patternOf([[60, 0, 0], [40, 0, 0], [20, 0, 0]], [0, 8, 0]); // prettier-ignore
    const yarns = [{ id: "y", name: "y", shade: { lab: [70, 0, 0], uncertainty: 1 } }];
    const cloth = clothOf({ chart: pattern.charts[0]!, pattern, yarns, colourway: { id: "w", yarns: { "1": "y" } } });
    expect(
      asPattern(cloth)
        .inks.map(({ colour, uncertainty }) => [colour, uncertainty])
        .sort(),
    ).toEqual([
      ["0", 0],
      ["1", 8],
      ["2", 0],
    ]);
  });
});

describe("the ladder", () => {
  const rungsOf = (shades: readonly Lab[], given: readonly number[]) =>
    valueLadder(patternOf(shades, given), [], { id: "w", yarns: {} });
  it("its ranges widen and its classes only grow", () => {
    fc.assert(
      fc.property(labs, uncertainties, fc.double({ min: 0, max: 10, noNaN: true }), (shades, given, more) => {
        const before = rungsOf(shades, given);
        const after = rungsOf(
          shades,
          given.map((one) => one + more),
        );
        before.forEach((rung, index) => {
          const wider = after[index]!;
          expect(wider.low).toBeLessThanOrEqual(rung.low);
          expect(wider.high).toBeGreaterThanOrEqual(rung.high);
          expect(rung.mayBe).toContain(rung.class);
          expect(wider.mayBe).toEqual(expect.arrayContaining([...rung.mayBe]));
          before.forEach((other, at) => {
            if (mayChangePlaces(rung, other)) expect(mayChangePlaces(wider, after[at]!)).toBe(true);
          });
        });
      }),
      { seed: 7, numRuns: 200 },
    );
  });
  it("a yarn near a limit may be of either class: light begins at 72 (trade.md 4, common practice)", () => {
    const [one, two, three] = rungsOf([[73, 0, 0], [60, 0, 0], [36, 0, 0]], [3, 3, 0]); // prettier-ignore
    // By hand: SL about 1.35 at 73, 0.7·3·1.35 = 2.8 either way; about 1.14 at 60, 2.4 either way.
    expect(one!.mayBe).toEqual(["light", "light-medium"]);
    expect(two!.mayBe).toEqual(["light-medium"]);
    expect(three!.mayBe).toEqual(["medium-dark"]);
    expect([one!.low, one!.high]).toEqual([expect.closeTo(70.2, 0), expect.closeTo(75.9, 0)]);
  });
  it("two may change places when they lie nearer than both may be off together", () => {
    // By hand near L* 50, where SL is 1: ±4 gives 2.8 each way, two of them √2·2.8 = 3.96.
    const [one, near, far] = rungsOf([[51, 0, 0], [47.5, 0, 0], [46.5, 0, 0]], [4, 4, 4]); // prettier-ignore
    expect(mayChangePlaces(one!, near!)).toBe(true);
    expect(mayChangePlaces(one!, far!)).toBe(false);
    const [sure, alike] = rungsOf([[51, 0, 0], [51, 0, 0], [20, 0, 0]], [0, 0, 0]); // prettier-ignore
    expect(mayChangePlaces(sure!, alike!)).toBe(false);
  });
});
