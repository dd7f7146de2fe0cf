/** An order of deciding, and options that are what solving around them gives. */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import type { Project } from "../document/project.ts";
import { decideNext, decidingOrder, recolourProject } from "../jobs.ts";
import { greyYarns, inputOf } from "../../test/garments/small.ts";
import { judgeMemory } from "../audit/judge.ts";
import { assignExhaustively } from "./exhaustive.ts";
import { decidingSteps, optionsFor } from "./deciding.ts";
import { findingsIn, prepare } from "./prepare.ts";

const project = JSON.parse(readFileSync("examples/weather-station-vest.twostrand.json", "utf8")) as Project;
const memory = judgeMemory();

describe("the order", () => {
  const steps = decidingOrder(project, { memory });

  it("has every colour once, the main pair first and the accent of one band last", () => {
    expect(steps.flatMap(({ colours }) => colours).toSorted()).toEqual([..."ABCDEFGHIJK"]);
    expect(steps[0]!.title).toBe("The main pair");
    expect(steps[0]!.colours[0]).toBe("A");
    // Rowan is knitted in two narrow bands and leads none that comes again.
    expect(steps.at(-1)!.colours).toContain("K");
    for (const { colours, why } of steps) {
      expect(colours.length).toBeLessThanOrEqual(4);
      expect(why).toMatch(/\.$/);
    }
  });

  it("is short where there is little to decide", () => {
    expect(decidingSteps(inputOf(greyYarns([30, 50, 84]))).map(({ colours }) => colours)).toEqual([["A", "B"], ["C"]]);
  });
});

describe("options", () => {
  it("are the best of all, one after the other, by trying everything", () => {
    const input = inputOf(greyYarns([20, 33, 46, 58, 72, 88]));
    const search = prepare(input);
    const options = optionsFor(input, ["C"], 4);
    expect(options.length).toBeGreaterThan(1);
    const place = search.colours.indexOf("C");
    for (const option of options) {
      const best = assignExhaustively({
        ...search.problem,
        accept: (assignment) =>
          search.yarns[assignment[place]!]!.id === option.yarns.C &&
          findingsIn(search, assignment, "without").length === 0,
      });
      expect(option.score).toBeCloseTo(best.cost, 3);
      expect(option.completion.yarns.C).toBe(option.yarns.C);
    }
    expect(new Set(options.map(({ yarns }) => yarns.C)).size).toBe(options.length);
    expect(options.map(({ more }) => more)).toEqual(options.map(({ more }) => more).toSorted((a, b) => a - b));
  });

  it("taken one by one, the best of each step comes to the best way", () => {
    const decided: Record<string, string> = {};
    for (const { colours } of decidingOrder(project, { memory })) {
      const { options, problems } = decideNext(project, { colourway: "w2", colours, decided, memory, options: 1 });
      expect(problems).toEqual([]);
      Object.assign(decided, options[0]!.yarns);
    }
    expect(decided).toEqual(recolourProject(project, { colourway: "w2", ways: 1, memory }).ways[0]!.yarns);
  });

  it("are solved around what is decided, and say when that names nothing", () => {
    const decided = { B: "y16" };
    const { options } = decideNext(project, { colourway: "w2", colours: ["A", "G"], decided, memory, options: 2 });
    for (const { completion } of options) expect(completion.yarns.B).toBe("y16");
    expect(decideNext(project, { colours: ["A"], decided: { Z: "y16" }, memory }).problems[0]?.severity).toBe("fault");
  });
});
