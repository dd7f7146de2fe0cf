/** One round against its floats counted one by one. */
import fc from "fast-check";
import { expect, it } from "vitest";
import { floatsInRow } from "../chart/floats.ts";
import { useOfRound } from "./roundUse.ts";

it("carries each strand behind as many stitches as its floats pass, in the round and flat", () => {
  fc.assert(
    fc.property(
      fc.array(fc.constantFrom("a", "b", "c"), { minLength: 1, maxLength: 40 }),
      fc.constantFrom("round" as const, "flat" as const),
      (strands, worked) => {
        const ids = [...new Set(strands)];
        const cells = Uint8Array.from(strands, (strand) => ids.indexOf(strand));
        const floats = floatsInRow({ width: strands.length, height: 1, ids, cells }, 1, worked);
        const carried = ids.map((_, index) =>
          floats.reduce((sum, { colour, length }) => sum + (colour === index ? length : 0), 0),
        );
        expect(useOfRound(strands, worked)).toEqual(
          ids.map((strand, index) => ({
            strand,
            stitches: strands.filter((one) => one === strand).length,
            carried: carried[index],
          })),
        );
      },
    ),
    { seed: 11, numRuns: 300 },
  );
});
