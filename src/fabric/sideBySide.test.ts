import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Lab } from "../colour/lab.ts";
import { seenApart } from "./sideBySide.ts";
import { visibility } from "./visibility.ts";

const view = { gauge: { stitches: 28, rows: 30 }, distance: 1.5, light: 500 };

describe("shades side by side", () => {
  it("is what the same stitches written out as a motif show", () => {
    const motif = ["000000000000111111111111"];
    const patch = { widthMm: (24 * 100) / 28, heightMm: (16 * 100) / 30 };
    const [background, foreground]: Lab[] = [
      [62, 4, 12],
      [55, -6, 3],
    ];
    const plain = visibility({ background: background!, foreground: foreground!, motif, patch, ...view });
    const [seen] = seenApart(background!, [foreground!], view);
    expect(seen!.V).toBeCloseTo(plain.V, 9);
    expect(seen!.shows).toBe(plain.shows);
  });

  it("a shade is not to be told from itself; farther apart in lightness is more to be seen", () => {
    const grey = (L: number): Lab => [L, 0, 0];
    const seen = seenApart(grey(50), [grey(50), grey(52), grey(56), grey(70)], view);
    expect(seen[0]!.V).toBe(0);
    expect(seen[0]!.shows).toBe("lost");
    for (let at = 1; at < seen.length; at++) expect(seen[at]!.V).toBeGreaterThan(seen[at - 1]!.V);
    // Knitters' rule of thumb (common practice): 15–30 apart in L* reads.
    expect(["clear", "strong"]).toContain(seen[3]!.shows);
  });

  it("it does not matter which of the two comes first", () => {
    const lab = fc.tuple(
      fc.integer({ min: 5, max: 95 }),
      fc.integer({ min: -40, max: 40 }),
      fc.integer({ min: -40, max: 40 }),
    );
    fc.assert(
      fc.property(lab, lab, (one, other) => {
        const [there] = seenApart(one as Lab, [other as Lab], view);
        const [back] = seenApart(other as Lab, [one as Lab], view);
        expect(there!.V).toBeCloseTo(back!.V, 6);
      }),
      { seed: 7, numRuns: 20 },
    );
  });
});
