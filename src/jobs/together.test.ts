/** Yarns exchanged on a chart small enough to be reasoned out by hand, and on the worked example beside the trial of one place. */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { judgeMemory } from "../audit/judge.ts";
import type { Project } from "../document/project.ts";
import { readProject } from "../document/read.ts";
import { tryTogether } from "./together.ts";
import { tryYarns } from "./trial.ts";

/** Rows 1–3 are stripes of the light A and the dark B, rows 5–7 of A and the middle C; a plain row of A between. */
const stripes: Project = readProject(
  JSON.stringify({
    format: "twostrand-project",
    version: 1,
    name: "stripes",
    pattern: {
      name: "stripes",
      gauge: { stitches: 28, rows: 30 },
      colours: [
        { id: "A", name: "light", role: "main", shade: { lab: [95, 0, 0] } },
        { id: "B", name: "dark", shade: { lab: [15, 0, 0] } },
        { id: "C", name: "middle", shade: { lab: [50, 0, 0] } },
      ],
      charts: [
        {
          id: "c1",
          name: "stripes",
          worked: "round",
          rows: ["AACCAACC", "AACCAACC", "AACCAACC", "AAAAAAAA", "AABBAABB", "AABBAABB", "AABBAABB"],
        },
      ],
    },
    yarns: [
      { id: "y1", name: "White", shade: { lab: [95, 0, 0] } },
      { id: "y2", name: "Black", shade: { lab: [15, 0, 0] } },
      // Half a step of L* from the white: by the trade's rule a difference under 8 vanishes.
      { id: "y3", name: "Off-white", shade: { lab: [94.5, 0, 0] } },
    ],
    colourways: [{ id: "w1", name: "one", yarns: { A: "y1", B: "y2", C: "y3" } }],
  }),
).value!;

describe("yarns exchanged", () => {
  const memory = judgeMemory();
  const { now, tries } = tryTogether(stripes, {
    colourway: "w1",
    sets: [{ B: "y3", C: "y2" }, { A: "y2", B: "y1" }, {}],
    memory,
  });

  it("carry what shows along with them", () => {
    expect(now.row).toMatchObject({ shows: "lost" });
    expect(now.row!.row).toBeGreaterThanOrEqual(5);
    expect(tries[0]!.row).toMatchObject({ shows: "lost" });
    expect(tries[0]!.row!.row).toBeLessThanOrEqual(3);
    // Black beside off-white everywhere: nothing is lost.
    expect(tries[1]!.rows.lost).toBe(0);
    expect(tries[2]).toEqual(now);
  });

  it("tell which pairs would lie the other way", () => {
    // As it is C is lighter than B, as in the pattern.
    expect(now.crossed).toEqual([]);
    // The pattern has A 95, C 50, B 15. B on the off-white and C on the black lie the other way, and only these.
    expect(tries[0]!.crossed).toEqual([["C", "B"]]);
  });

  it("of one yarn say what the trial of its place says", () => {
    const vest = readProject(readFileSync("examples/weather-station-vest.twostrand.json", "utf8")).value!;
    const yarn = vest.yarns.find(({ id }) => id === "y29")!;
    const [together] = tryTogether(vest, { colourway: "w1", sets: [{ A: "y29" }], memory }).tries;
    const [alone] = tryYarns(vest, { colourway: "w1", colour: "A", yarns: [yarn], memory }).trials;
    expect(together!.rows).toEqual(alone!.rows);
    expect(together!.crossed).toHaveLength(alone!.orderChanges);
  });
});
