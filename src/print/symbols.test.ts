import { describe, expect, it } from "vitest";
import { drawSymbol, inkOf, SYMBOLS, symbolsFor } from "./symbols.ts";

describe("symbols", () => {
  it("are at least twelve, and no two are the same shape", () => {
    expect(SYMBOLS.length).toBeGreaterThanOrEqual(12);
    expect(new Set(SYMBOLS.map(({ filled, drawn }) => JSON.stringify([filled, drawn]))).size).toBe(SYMBOLS.length);
    expect(new Set(SYMBOLS.map(({ id }) => id)).size).toBe(SYMBOLS.length);
  });

  it("stay in their box, but for the points of the star", () => {
    for (const { filled, drawn } of SYMBOLS) {
      for (const [x, y] of [...filled, ...drawn].flat())
        expect(Math.max(Math.abs(x), Math.abs(y))).toBeLessThanOrEqual(0.53);
    }
  });

  it("ink by hand: a filled square of 0.8 is 0.64; a plus of two bars of 0.84 at 0.13 is 0.218", () => {
    expect(inkOf(SYMBOLS.find(({ id }) => id === "square")!)).toBeCloseTo(0.64, 6);
    expect(inkOf(SYMBOLS.find(({ id }) => id === "plus")!)).toBeCloseTo(0.2184, 6);
  });

  it("leave single slants, rings, dots and single bars to shaping, yarn overs and purls (trade.md 6)", () => {
    for (const { filled, drawn } of SYMBOLS)
      expect(filled.length + drawn.length > 1 || drawn[0]?.length !== 2).toBe(true);
    for (const { drawn } of SYMBOLS) for (const path of drawn) expect(path.length).toBeLessThan(10);
  });

  it.each([1, 2, 5, 12, 13, 24])("%d yarns: each its own, the darker the heavier", (count) => {
    const symbols = symbolsFor(count).map((symbol) => symbol!);
    expect(new Set(symbols).size).toBe(count);
    const ink = symbols.map(inkOf);
    expect(ink).toEqual(ink.toSorted((a, b) => a - b));
  });

  it("more yarns than shapes get none, so that numbers stand for them", () => {
    expect(symbolsFor(40)).toEqual(Array.from({ length: 40 }, () => null));
  });

  it("are placed about a centre", () => {
    const [square] = drawSymbol(
      SYMBOLS.find(({ id }) => id === "square")!,
      [10, 20],
      5,
      "#000000",
    );
    expect(square).toMatchObject({ kind: "polygon", points: [[8, 18], [12, 18], [12, 22], [8, 22]] }); // prettier-ignore
  });
});
