/** What words of colour mean, on labels and in keys. */
import { describe, expect, it } from "vitest";
import { shadeByKeyWords, shadeByWords } from "./colourWords.ts";

describe("words of colour", () => {
  it("a key's own words are looked for where plain ones say nothing; on a yarn they are its name", () => {
    // From memory: moss is a dark yellowish green, peat a dark brown.
    expect(shadeByKeyWords("moss")).toEqual(shadeByWords(["dark yellowish green"]));
    expect(shadeByKeyWords("MC, Peat")).toEqual(shadeByWords(["dark brown"]));
    expect(shadeByWords(["moss"])).toBeNull();
    // Plain words say more than the pattern's: grey heather is grey.
    expect(shadeByKeyWords("grey heather")).toEqual(shadeByWords(["grey"]));
    for (const nothing of [undefined, "", "CC1", "the usual", "moss ".repeat(40)])
      expect(shadeByKeyWords(nothing)).toBeNull();
  });
});
