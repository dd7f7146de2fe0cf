/** A pattern so small that everything can be tried, and yarns to try it in. */
import { judgeMemory } from "../../src/audit/judge.ts";
import type { Colourway } from "../../src/fabric/colourway.ts";
import type { Pattern } from "../../src/fabric/pattern.ts";
import type { RecolourInput } from "../../src/recolour/ways.ts";
import type { Wish } from "../../src/recolour/wish.ts";
import type { Yarn } from "../../src/yarn/yarn.ts";

export const viewing = { distanceM: 1.5, lux: 500 };
const NO_NEEDS = { ofColour: new Map<string, number>(), owned: new Map<string, number>() };

/** A small chart: a check, a small diamond, a row in a third colour. */
export const pattern: Pattern = {
  gauge: { stitches: 28, rows: 30 },
  colours: [
    { id: "A", role: "main", shade: { lab: [85, 0, 8] } },
    { id: "B", shade: { lab: [35, 2, -8] } },
    { id: "C", shade: { lab: [55, 10, 12] } },
  ],
  charts: [
    { id: "c1", rows: ["AAAAAA", "ACACAC", "AAAAAA", "AABAAA", "ABBBAA", "AABAAA", "AAAAAA", "ABABAB", "AAAAAA"] },
  ],
};

export const greyYarns = (lightnesses: readonly number[]): Yarn[] =>
  lightnesses.map((lightness, index) => ({
    id: `y${index}`,
    name: `yarn ${index}`,
    shade: { lab: [lightness, 0, 0], uncertainty: 2 },
  }));

export const empty: Colourway = { id: "w", yarns: {} };

export const inputOf = (yarns: readonly Yarn[], wish: Wish = {}, more: Partial<RecolourInput> = {}): RecolourInput => ({
  pattern,
  yarns,
  colourway: empty,
  wish,
  viewing,
  needs: NO_NEEDS,
  memory: judgeMemory(),
  suppliesFor: () => [],
  ...more,
});
