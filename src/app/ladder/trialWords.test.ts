/** What a yarn would do, in words, and the orders of the list. */
import { describe, expect, it } from "vitest";
import { crossWords, inOrder, rowsShownWords, weakestWords, weightWords, type OrderedYarn } from "./trialWords.ts";

const rows = (lost: number, faint: number, clear = 5, strong = 0) => ({ lost, faint, clear, strong });
const weight = (share: number) => ({ area: 0.1, share, standsOut: null, recurs: { bands: 1, height: 0.1 } });
const rowAt = (V: number) => ({ chart: "c1", row: 31, V, shows: "faint" as const });

describe("words of a trial", () => {
  it("counts the rows that do not show", () => {
    expect(rowsShownWords(rows(2, 3))).toBe("2 rows lost, 3 faint");
    expect(rowsShownWords(rows(1, 0))).toBe("1 row lost");
    expect(rowsShownWords(rows(0, 1))).toBe("1 row faint");
    expect(rowsShownWords(rows(0, 0))).toBe("all rows show");
    expect(rowsShownWords(rows(0, 0, 0))).toBe("no row has two colours");
  });

  it("names the weaker of row and figure", () => {
    const figure = { chart: "c1", band: "b1", against: "I", V: 2.9, shows: "faint" as const };
    expect(weakestWords({ row: rowAt(11), figure })).toBe("weakest against I: faint");
    expect(weakestWords({ row: rowAt(1.2), figure })).toBe("weakest in row 31: faint");
    expect(weakestWords({ row: null, figure: null })).toBeNull();
  });

  it("names a few of those it would cross", () => {
    expect(crossWords([])).toBeNull();
    expect(crossWords(["B"])).toBe("changes places with B");
    expect(crossWords(["B", "C", "D"])).toBe("changes places with B, C and D");
    expect(crossWords(["B", "C", "D", "E", "F", "G"])).toBe("changes places with B, C, D and 3 more");
  });

  it("says what it draws beside the pattern's colour, and nothing where a share tells nothing", () => {
    const reading = (share: number, counts = rows(0, 0)) => ({ weight: weight(share), rows: counts });
    expect(weightWords(reading(0.4), reading(0.2))).toBe("draws the eye about twice as much as the pattern’s own");
    expect(weightWords(reading(0), reading(0))).toBeNull();
    expect(weightWords(reading(1), reading(1))).toBeNull();
    expect(weightWords(reading(0.4, rows(9, 0, 0)), reading(0.2))).toBeNull();
    expect(weightWords({ weight: null, rows: rows(0, 0) }, { weight: null })).toBeNull();
  });
});

describe("orders", () => {
  const yarn = (name: string, apart: number, deltaE00: number, trial: OrderedYarn["trial"]): OrderedYarn => ({
    name,
    apart,
    deltaE00,
    trial,
  });
  const near = yarn("Near", -1, 30, { rows: rows(2, 0), row: rowAt(0.5), figure: null, weight: weight(0.5) });
  const far = yarn("Far", 20, 9, { rows: rows(0, 1), row: rowAt(2), figure: null, weight: weight(0.22) });
  const mid = yarn("Mid", 5, 20, { rows: rows(0, 1), row: rowAt(2.5), figure: null, weight: weight(0.05) });
  const names = (order: Parameters<typeof inOrder>[1]) =>
    inOrder([mid, far, near], order, {
      row: null,
      band: null,
      figure: null,
      rows: rows(0, 0),
      weight: weight(0.2),
    }).map(({ name }) => name);

  it("each puts first what it promises", () => {
    expect(names("lightness")).toEqual(["Near", "Mid", "Far"]);
    expect(names("colour")).toEqual(["Far", "Mid", "Near"]);
    // No lost row before some; of equal counts the one whose weakest row has more V.
    expect(names("shows")).toEqual(["Mid", "Far", "Near"]);
    // 0.22 is nearest to 0.2; 0.5 is 2.5 times it, 0.05 a quarter.
    expect(names("weight")).toEqual(["Far", "Near", "Mid"]);
  });

  it("a yarn that is still being tried stands by its lightness", () => {
    const list = [yarn("B", 3, 1, null), yarn("A", 3, 2, null), yarn("C", 1, 3, null)];
    expect(inOrder(list, "shows", null).map(({ name }) => name)).toEqual(["C", "A", "B"]);
  });
});
