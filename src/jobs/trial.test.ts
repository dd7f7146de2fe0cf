/** Every yarn tried in one place of the worked example, against the check of a colourway that has it there. */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { judgeMemory } from "../audit/judge.ts";
import type { Project } from "../document/project.ts";
import { readProject } from "../document/read.ts";
import { checkProject } from "./check.ts";
import { tryPlaces, tryYarns } from "./trial.ts";

const vest = readProject(readFileSync("examples/weather-station-vest.twostrand.json", "utf8")).value!;
const memory = judgeMemory();
/** What `yarnTrials` promises of V. */
const THOUSANDTH = 1e-3;
const near = (one: number, other: number): void =>
  expect(Math.abs(one - other)).toBeLessThanOrEqual(THOUSANDTH * Math.abs(other) + 1e-9);

/** The project with a yarn of its own put in a place of its first colourway. */
const having = (project: Project, colour: string, yarn: string): Project => ({
  ...project,
  colourways: [
    { ...project.colourways[0]!, yarns: { ...project.colourways[0]!.yarns, [colour]: yarn } },
    ...project.colourways.slice(1),
  ],
});

describe("yarns tried in a place", () => {
  it.each(["A", "E", "K"])("%s: say what the check says of each", (colour) => {
    const yarns = vest.yarns.filter((_, at) => at % 6 === 0);
    const { trials } = tryYarns(vest, { colour, yarns, memory });
    expect(trials.map(({ yarn }) => yarn)).toEqual(yarns.map(({ id }) => id));
    for (const trial of trials) {
      const check = checkProject(having(vest, colour, trial.yarn), { memory, mends: "without" });
      const seen = check.rows.filter(({ V }) => V !== null);
      for (const word of ["lost", "faint", "clear", "strong"] as const)
        expect(trial.rows[word]).toBe(seen.filter(({ shows }) => shows === word).length);
      const own = seen.filter(({ colours }) => colours.includes(colour));
      near(trial.row!.V, Math.min(...own.map(({ V }) => V!)));
      const weight = check.weights.find((one) => one.band === null && one.colour === colour)!;
      near(trial.weight!.share, weight.share);
      expect(trial.weight!.standsOut === null).toBe(weight.standsOut === null);
      const rung = check.ladder.find((one) => one.colour === colour)!;
      expect(trial.crosses).toEqual(rung.crosses);
      expect(trial.orderChanges).toBe(check.ladder.flatMap(({ crosses }) => crosses).length / 2);
    }
  });

  it("tells what the place was in the pattern's own colours", () => {
    const { was, yarn } = tryYarns(vest, { colour: "K", yarns: [], memory });
    expect(yarn).toBe(vest.colourways[0]!.yarns.K);
    const check = checkProject(vest, { memory, mends: "without" });
    const own = check.rows.filter(({ colours }) => colours.includes("K"));
    near(was.row!.V, Math.min(...own.map((row) => row.was.V!)));
    near(was.weight!.share, check.weights.find((one) => one.band === null && one.colour === "K")!.was.share);
  });

  it("leaves exceptions by place as they are, and takes yarns that the project has not", () => {
    const at = { chart: "c1", rows: [1, 120] as [number, number] };
    const [first, ...more] = vest.colourways;
    const fixed = { ...first!, changes: [{ at, colour: "K", yarn: "y05" }] };
    const bought = { id: "bought", name: "Bought", shade: { lab: [55, 40, 30] as [number, number, number] } };
    const { trials, was } = tryYarns(
      { ...vest, colourways: [fixed, ...more] },
      { colour: "K", yarns: [bought], memory },
    );
    // The colour's own yarn is knitted nowhere.
    expect(trials[0]).toMatchObject({ yarn: "bought", yarnName: "Bought", row: null, band: null, weight: null });
    expect(was.weight).toBeNull();
    expect(tryYarns(vest, { colour: "K", yarns: [bought], memory }).trials[0]!.row!.V).toBeGreaterThan(0);
  });
});

describe("a yarn carried along the ladder", () => {
  it("says of every place what trying it there says, and what is there now", () => {
    const [carried, colour] = ["y29", "E"];
    const places = tryPlaces(vest, { yarn: carried, memory });
    expect(places.map((place) => place.colour)).toEqual(vest.pattern.colours.map(({ id }) => id));
    const one = tryYarns(vest, { colour, memory });
    const place = places.find((other) => other.colour === colour)!;
    const of = (yarn: string | null) => one.trials.find((trial) => trial.yarn === yarn)!;
    expect(place.was).toEqual(one.was);
    for (const [here, there] of [
      [place, of(carried!)],
      [place.now!, of(one.yarn)],
    ] as const) {
      expect(here.rows).toEqual(there.rows);
      near(here.row!.V, there.row!.V);
      near(here.band!.V, there.band!.V);
      near(here.weight!.share, there.weight!.share);
    }
    expect(place.crosses).toEqual(of(carried!).crosses);
  });
});
