/** Who leads, by shares set down by hand; the 10 % are vision.md C3's. */
import { describe, expect, it } from "vitest";
import type { Ink } from "./cloth.ts";
import { leadersOf } from "./leaders.ts";

const ink = (colour: string): Ink => ({
  colour,
  yarn: null,
  lab: [50, 0, 0],
  uncertainty: 0,
  was: [50, 0, 0],
  flecks: [],
  over: false,
});
const leads = (shares: Record<string, number>): string =>
  leadersOf(
    Object.values(shares).map((share, at) => ({ ink: at, share })),
    Object.keys(shares).map((name) => ink(name[0]!)),
  ).join("");

describe("leaders", () => {
  it.each([
    [{ A: 0, B: 1 }, "B"],
    [{ A: 0, B: 0.3, C: 0.7 }, "C"],
    // 0.5 against 0.46 is 8.7 % more, 0.5 against 0.45 is 11 %.
    [{ A: 0.04, B: 0.46, C: 0.5 }, "CB"],
    [{ A: 0.05, B: 0.45, C: 0.5 }, "C"],
    // Three about as heavy: none leads.
    [{ A: 0, B: 0.33, C: 0.33, D: 0.34 }, ""],
    [{ A: 0, B: 0 }, ""],
    [{}, ""],
    // One chart colour in two yarns counts together.
    [{ B1: 0.3, B2: 0.3, C: 0.4 }, "B"],
  ])("of %j: %s", (shares, expected) => expect(leads(shares)).toBe(expected));
});
