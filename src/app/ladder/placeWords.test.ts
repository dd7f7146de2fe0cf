/** What a carried yarn is said to do in each place, against cases reasoned by hand. */
import { describe, expect, it } from "vitest";
import type { Word } from "../../fabric/visibility.ts";
import type { LadderRung, PlaceTrial, TogetherReading, TrialReading } from "../worker/api.ts";
import { placeWords, swapWords } from "./placeWords.ts";
import { swapped } from "./swaps.ts";

const V_OF: Readonly<Record<Word, number>> = { lost: 0.5, faint: 2, clear: 6, strong: 20 };

const reading = (lost: number, faint: number, row: number, shows: Word): TrialReading => ({
  row: { chart: "c1", row, V: V_OF[shows], shows },
  band: null,
  figure: null,
  rows: { lost, faint, clear: 20 - lost - faint, strong: 0 },
  weight: null,
});

const place = (colour: string, then: TrialReading, now: TrialReading | null, crosses: string[] = []): PlaceTrial => ({
  ...then,
  colour,
  yarn: "carried",
  yarnName: "Carried",
  crosses,
  orderChanges: crosses.length,
  was: then,
  now,
});

const GREY = {
  L: 50,
  low: 50,
  high: 50,
  class: "medium-dark",
  mayBe: ["medium-dark"],
  rank: 1,
  hex: "#777777",
} as const;

const rung = (colour: string, yarn: string | null, crosses: string[] = []): LadderRung => ({
  colour,
  name: `colour ${colour}`,
  yarn,
  yarnName: yarn && `Yarn ${yarn}`,
  ...GREY,
  main: false,
  was: GREY,
  crosses,
  mayCross: [],
});

const one = (then: TrialReading, now: TrialReading | null, crosses: string[] = [], had: string[] = []) =>
  placeWords([place("A", then, now, crosses)], [rung("A", now && "there", had)])[0]!;

describe("words of a place", () => {
  it("name the one row that changes, and count where there are more", () => {
    expect(one(reading(0, 0, 68, "clear"), reading(1, 0, 68, "lost")).rows).toBe("row 68 lost → clear");
    expect(one(reading(1, 0, 68, "lost"), reading(0, 0, 68, "clear")).rows).toBe("row 68 clear → lost");
    expect(one(reading(0, 0, 31, "clear"), reading(1, 0, 68, "lost")).rows).toBe("row 68 lost no more");
    expect(one(reading(1, 0, 7, "lost"), reading(0, 0, 68, "clear")).rows).toBe("row 7 lost");
    expect(one(reading(20, 14, 7, "lost"), reading(0, 0, 68, "clear")).rows).toBe("20 lost, 14 faint");
    expect(one(reading(0, 0, 7, "clear"), reading(0, 0, 68, "clear")).rows).toBe("all rows show");
    // Others stay faint beside the one: a count says more than the one row.
    expect(one(reading(0, 7, 68, "clear"), reading(1, 7, 68, "lost")).rows).toBe("row 68 lost no more");
  });

  it("say whether the order is kept, in little room", () => {
    const order = (...crosses: string[]) => one(reading(0, 0, 1, "clear"), null, crosses).order;
    expect(order()).toBe("order kept");
    expect(order("B", "C")).toBe("crosses B, C");
    expect(order("B", "C", "D", "E")).toBe("crosses 4 others");
  });

  it("hold lost rows before faint ones, and these before the order", () => {
    const now = reading(1, 5, 9, "lost");
    const verdict = (lost: number, faint: number, crosses: string[]) =>
      one(reading(lost, faint, 9, "clear"), now, crosses, ["B"]).verdict;
    expect(verdict(0, 9, ["B", "C"])).toBe("better");
    expect(verdict(1, 4, ["B", "C"])).toBe("better");
    expect(verdict(1, 5, [])).toBe("better");
    expect(verdict(1, 5, ["C"])).toBe("same");
    expect(verdict(1, 6, [])).toBe("worse");
    expect(verdict(2, 0, [])).toBe("worse");
  });

  it("mark no more than two places as best, and none that has the yarn or is no better", () => {
    const now = reading(1, 0, 68, "lost");
    const told = placeWords(
      [
        place("A", reading(0, 3, 5, "faint"), now),
        place("B", reading(0, 0, 5, "clear"), now),
        place("C", reading(0, 1, 5, "faint"), now),
        place("D", reading(1, 0, 68, "lost"), now),
        place("E", reading(0, 0, 5, "clear"), now),
      ],
      [rung("A", "y1"), rung("B", "y2"), rung("C", "y3"), rung("D", "y4"), rung("E", "carried")],
    );
    expect(told.filter(({ best }) => best).map(({ colour }) => colour)).toEqual(["B", "C"]);
    expect(told.at(-1)).toMatchObject({ verdict: "here", rows: "has it now" });
  });

  it("make a sentence to be heard", () => {
    expect(one(reading(2, 1, 68, "lost"), reading(0, 0, 68, "clear"), ["B"]).sentence).toBe(
      "2 rows lost, 1 faint; weakest in row 68: lost; changes places with B. Worse than now, Yarn there.",
    );
  });
});

describe("a swap", () => {
  const rungs = [
    { colour: "A", yarn: "y1" },
    { colour: "B", yarn: "y2" },
    { colour: "C", yarn: "y1" },
    { colour: "D", yarn: null },
  ];

  it("exchanges two yarns wherever they are, and twice is as it was", () => {
    const set = swapped(rungs, "y1", "y2");
    expect(set).toEqual({ A: "y2", B: "y1", C: "y2" });
    const after = rungs.map(({ colour, yarn }) => ({ colour, yarn: set[colour] ?? yarn }));
    expect(swapped(after, "y1", "y2")).toEqual({ A: "y1", B: "y2", C: "y1" });
    expect(swapped(rungs, "y9", "y2")).toEqual({ B: "y9" });
  });

  it("is told by its rows, and by the pairs that it would turn", () => {
    const as = (lost: number, shows: Word, crossed: [string, string][]): TogetherReading => ({
      rows: { lost, faint: 0, clear: 9, strong: 0 },
      row: { chart: "c1", row: 68, V: V_OF[shows], shows },
      crossed,
    });
    const now = as(0, "clear", [["B", "C"]]);
    expect(swapWords(as(1, "lost", [["B", "C"]]), now)).toEqual({
      rows: "1 row lost; weakest in row 68: lost",
      order: "order kept",
      verdict: "worse",
    });
    expect(swapWords(as(0, "clear", []), now)).toMatchObject({ order: "fewer pairs out of order", verdict: "better" });
    const many: [string, string][] = ["D", "E", "F", "G", "H"].map((other) => ["A", other]);
    expect(swapWords(as(0, "clear", many), now).order).toBe("changes places: A with D, E, F, G and H");
  });
});
