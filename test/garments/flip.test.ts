/** A dark garment wanted light: the ladder turned over on a chart whose main colour is dark. */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { judgeMemory } from "../../src/audit/judge.ts";
import { labOfShade } from "../../src/colour/shade.ts";
import { valueClass } from "../../src/colour/value.ts";
import type { Project } from "../../src/document/project.ts";
import { readProject } from "../../src/document/read.ts";
import { applyWay, checkProject, recolourProject } from "../../src/jobs.ts";
import { labOfYarn } from "../../src/yarn/yarn.ts";

const vest = readProject(readFileSync("examples/weather-station-vest.twostrand.json", "utf8")).value as Project;

/** The vest's pattern as its negative in light and dark, and yarn enough of every shade. */
const dark: Project = {
  ...vest,
  pattern: {
    ...vest.pattern,
    colours: vest.pattern.colours.map((colour) => {
      const [L, a, b] = labOfShade(colour.shade);
      return { ...colour, shade: { lab: [107 - L, a, b] } };
    }),
  },
  yarns: vest.yarns.map(({ lots: _, ...yarn }) => ({ ...yarn, grams: 500 })),
  colourways: [{ id: "w1", yarns: {} }],
  swatches: [],
};

describe("a chart with a dark main colour, turned over", () => {
  const memory = judgeMemory();
  const wish = { ladder: "reversed" as const, ways: 1 };
  const { ways, clash } = recolourProject(dark, { wish, memory });
  const { project, colourway } = applyWay(dark, ways[0]!);
  const check = checkProject(project, { colourway, memory, mends: "without" });
  const was = new Map(dark.pattern.colours.map(({ id, shade }) => [id, labOfShade(shade)[0]]));
  const now = new Map(
    Object.entries(ways[0]!.yarns).map(([colour, id]) => [
      colour,
      labOfYarn(dark.yarns.find((yarn) => yarn.id === id)!)[0],
    ]),
  );

  it("has a way that the checks let pass", () => {
    expect(clash).toBeNull();
    expect(check.findings).toEqual([]);
  });

  it("has a light ground where the pattern's is dark", () => {
    const main = dark.pattern.colours.find(({ role }) => role === "main")!.id;
    expect(valueClass(was.get(main)!)).toBe("dark");
    expect(valueClass(now.get(main)!)).toBe("light");
    expect(check.turnedOver).toBe(true);
  });

  it("has its contrasts mirrored: what was plainly lighter is darker", () => {
    const ids = [...now.keys()];
    for (const one of ids)
      for (const other of ids) {
        // Common practice: under 8 vanishes, over 15 reads.
        const apart = was.get(one)! - was.get(other)!;
        if (apart > 15) expect(now.get(one)! - now.get(other)!).toBeLessThan(0);
      }
  });

  it("has every row readable that is wanted so", () => {
    const soft = new Set(check.bands.filter(({ want }) => want === "soft").map(({ id }) => id));
    for (const { band, shows, row } of check.rows)
      if (shows !== null && !soft.has(band)) expect([row, shows]).toEqual([row, expect.stringMatching(/clear|strong/)]);
  });
});
