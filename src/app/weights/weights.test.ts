/** What the weights say: which are about alike, and in which words a change is told. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { alikeGroups } from "./alike.ts";
import {
  againstWords,
  leadsWords,
  rangeWords,
  readsWords,
  recursWords,
  shareWords,
  standsOutWords,
} from "./weightWords.ts";

const sharesOf = (groups: readonly (readonly { readonly share: number }[])[]): number[][] =>
  groups.map((group) => group.map(({ share }) => share));

describe("about alike", () => {
  it("no rank closer than a tenth; a group keeps the order in which its lines came (docs/vision.md C3)", () => {
    // 0.30 is within a tenth of 0.32; 0.28 is not of 0.32, though it is of 0.30.
    const lines = [0.28, 0.3, 0.05, 0.32].map((share) => ({ share }));
    expect(sharesOf(alikeGroups(lines))).toEqual([[0.3, 0.32], [0.28], [0.05]]);
  });

  it("what is under one per cent has no rank", () => {
    const lines = [0.002, 0.009, 0.9, 0].map((share) => ({ share }));
    expect(sharesOf(alikeGroups(lines))).toEqual([[0.9], [0.002, 0.009, 0]]);
  });

  it("every line is in one group, and groups go downwards", () => {
    const shares = fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { maxLength: 20 });
    fc.assert(
      fc.property(shares, (list) => {
        const groups = sharesOf(alikeGroups(list.map((share) => ({ share }))));
        expect(groups.flat().toSorted()).toEqual(list.toSorted());
        for (const [at, group] of groups.entries())
          for (const lower of groups.slice(at + 1).flat()) expect(Math.max(...group)).toBeGreaterThanOrEqual(lower);
      }),
      { seed: 7, numRuns: 200 },
    );
  });
});

describe("words", () => {
  it("shares are estimates: whole per cents, and no zero for what is little", () => {
    expect([0.336, 0.004, 0].map(shareWords)).toEqual(["34\u202f%", "under 1\u202f%", "0\u202f%"]);
  });

  it("a change is told in words that a ratio of estimates can bear", () => {
    expect(againstWords(0.4, 0.2)).toBe("about twice as much as the pattern’s own");
    expect(againstWords(0.105, 0.1)).toBe("about as the pattern’s own");
    expect(againstWords(0.05, 0.1)).toBe("about half as much as the pattern’s own");
    expect(againstWords(0.002, 0.003)).toBe("hardly, as the pattern’s own");
  });

  it("where it recurs", () => {
    expect(recursWords({ bands: 5, height: 0.4 })).toBe("in 5 bands over 40\u202f% of the height");
    expect(recursWords({ bands: 1, height: 0.008 })).toBe("in one band over under 1\u202f% of the height");
  });

  it("how it stands out, with the pattern's where that is another", () => {
    expect(standsOutWords(2, 0.48)).toBe("stands out 2.0 (pattern 0.5)");
    expect(standsOutWords(1.02, 1.1)).toBe("stands out 1.0");
    expect(standsOutWords(null, 1)).toBeNull();
  });

  it("who leads, and who does in the pattern", () => {
    const name = (colour: string) => ({ E: "Marigold", G: "Dusk" })[colour] ?? colour;
    expect(leadsWords(["E"], ["C"], name)).toBe("Marigold leads; in the pattern C");
    expect(leadsWords(["E", "G"], ["G", "E"], name)).toBe("Marigold and Dusk lead, as in the pattern");
    expect(leadsWords([], ["G"], name)).toBe("none leads; in the pattern G");
  });

  it("how far it reads, with both ends, and never farther than is claimed", () => {
    expect(readsWords({ metres: 3.2, low: 2.1, high: 4.8, beyond: false })).toBe(
      "reads to 3.2\u202fm (2.1\u202fm – 4.8\u202fm)",
    );
    expect(readsWords({ metres: 9, low: 0, high: 20, beyond: false })).toBe(
      "reads past 6\u202fm (never – past 6\u202fm)",
    );
    expect(readsWords({ metres: 9, low: 7, high: 20, beyond: false })).toBe("reads past 6\u202fm");
    expect(readsWords({ metres: 0, low: 0, high: 1.2, beyond: false })).toBe(
      "does not read from anywhere (never – 1.2\u202fm)",
    );
    expect(readsWords({ metres: 0, low: 0, high: 0, beyond: false })).toBe("does not read from anywhere");
  });

  it("a word with its neighbours, where they may be the true ones (limits 1, 3, 10: docs/vision.md B4)", () => {
    expect(rangeWords("faint", 0.8, 4)).toBe("between lost and clear");
    expect(rangeWords("clear", 3.5, 9)).toBeNull();
    expect(rangeWords("clear", null, null)).toBeNull();
  });
});
