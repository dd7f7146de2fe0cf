/** Standard sizes against the inches that are published, and ease against the trade's words. */
import { describe, expect, it } from "vitest";
import inches from "../../test/tables/bodySizesInches.json" with { type: "json" };
import { BODY_FIELDS, EASE, fitOf, SIZE_GROUPS, sizesIn, standardBody } from "./body.ts";

const GROUPS = Object.entries(inches).filter(([group]) => group !== "source") as [
  "women" | "men" | "children",
  Record<string, Record<string, number | number[]>>,
][];

describe("standard sizes", () => {
  it.each(GROUPS)("%s: the centimetres are the published inches", (group, sizes) => {
    expect(sizesIn(group)).toEqual(expect.arrayContaining(Object.keys(sizes)));
    for (const [size, measures] of Object.entries(sizes)) {
      const body = standardBody(group, size)!;
      for (const [field, inch] of Object.entries(measures)) {
        const middle = Array.isArray(inch) ? (inch[0]! + inch[1]!) / 2 : inch;
        // The table is rounded to a millimetre, and so is its middle.
        expect(Math.abs(body[field as "chest"] - middle * 2.54), `${size} ${field}`).toBeLessThanOrEqual(0.11);
      }
    }
  });

  it("every size of every group has every measure, and grows with the size", () => {
    for (const group of SIZE_GROUPS) {
      const bodies = sizesIn(group).map((size) => standardBody(group, size)!);
      for (const body of bodies) for (const field of BODY_FIELDS) expect(body[field]).toBeGreaterThan(0);
      for (const [index, body] of bodies.slice(1).entries()) expect(body.chest).toBeGreaterThan(bodies[index]!.chest);
    }
  });

  it("what is reckoned for a medium lies where an adult's does: body 36–42 cm, sleeve 43–48 cm (trade.md 3)", () => {
    const { bodyLength, underarmLength } = standardBody("women", "M")!;
    expect(bodyLength).toBeGreaterThanOrEqual(36);
    expect(bodyLength).toBeLessThanOrEqual(42);
    expect(underarmLength).toBeGreaterThanOrEqual(43);
    expect(underarmLength).toBeLessThanOrEqual(48);
  });

  it("a size that is not there is not guessed", () => {
    expect(standardBody("men", "XS")).toBeNull();
  });
});

it.each([
  // trade.md 3: very close up to 0; close 1–2 in; standard 2–4; loose 4–6; oversized from 6.
  [-2, "very close"],
  [0, "very close"],
  [2 * 2.54 - 0.1, "close"],
  [3 * 2.54, "standard"],
  [5 * 2.54, "loose"],
  [7 * 2.54, "oversized"],
] as const)("%f cm of ease sits %s", (cm, fit) => {
  expect(fitOf(cm)).toBe(fit);
  expect(EASE[fit].usual).toBeGreaterThanOrEqual(EASE[fit].from);
  expect(EASE[fit].usual).toBeLessThanOrEqual(EASE[fit].to);
});
