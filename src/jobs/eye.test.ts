/** Her verdicts through the whole chain: the check of a project with swatches, and what the command tells of it. */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { judgeMemory } from "../audit/judge.ts";
import { checkReport } from "../cli/reports/check.ts";
import type { Look, Project } from "../document/project.ts";
import { readProject } from "../document/read.ts";
import { wordOf, type Word } from "../fabric/visibility.ts";
import { checkProject, compareProject, fabricOfProject, recolourProject } from "../jobs.ts";

const text = readFileSync("examples/weather-station-vest.twostrand.json", "utf8");
const vest = readProject(text).value as Project;
const memory = judgeMemory();

/** The vest after she has looked at seven rows of a swatch of the first colourway. */
function looked(verdictAt: (row: number, V: number) => Word): Project {
  const { rows } = checkProject(vest, { memory, mends: "without" });
  const shown = rows.filter(({ V }) => V !== null && V > 0.5 && V < 12).slice(0, 7);
  const looks = shown.map(({ chart, row, V }): Look => ({
    at: { chart, rows: [row, row] },
    distanceM: 1.5,
    lux: 500,
    verdict: verdictAt(row, V!),
  }));
  return {
    ...vest,
    swatches: [{ id: "t1", chart: vest.pattern.charts[0]!.id, rows: [1, 7], colourway: vest.colourways[0]!.id, looks }],
  };
}

describe("a project with swatches", () => {
  const before = checkProject(vest, { memory });

  it("without looks is checked with ordinary eyes", () => {
    expect(before.eye.verdicts).toBe(0);
    expect(before.eye.theta).toBe(0);
    // 80 % of N(0, ln 3): 1.2816 × 1.0986.
    expect(before.eye.high).toBeCloseTo(1.408, 3);
    expect(checkProject({ ...vest, swatches: [] }, { memory })).toEqual(before);
  });

  it("is checked with hers: V stays, words and ranges move", () => {
    // A knitter who needs three times as much: what the model puts at V she calls as the model calls V/3.
    const dull = looked((_, V) => wordOf(V / 3));
    const after = checkProject(dull, { memory });
    expect(after.eye.verdicts).toBe(7);
    expect(after.eye.theta).toBeGreaterThan(0.4);
    expect(after.eye.high - after.eye.low).toBeLessThan(before.eye.high - before.eye.low);
    expect(after.rows.map(({ V }) => V)).toEqual(before.rows.map(({ V }) => V));
    const order: readonly (Word | null)[] = [null, "lost", "faint", "clear", "strong"];
    const words = (rows: readonly { shows: Word | null }[]) => rows.map(({ shows }) => order.indexOf(shows));
    words(after.rows).forEach((word, at) => expect(word).toBeLessThanOrEqual(words(before.rows)[at]!));
    expect(words(after.rows)).not.toEqual(words(before.rows));
    for (const [at, { V, shows, readsTo }] of after.rows.entries()) {
      if (V !== null) expect(shows).toBe(wordOf(V * Math.exp(-after.eye.theta)));
      if (readsTo) expect(readsTo.metres).toBeLessThanOrEqual(before.rows[at]!.readsTo!.metres);
    }
    expect(structuredClone(after)).toEqual(after);
  });

  it("is drawn as she sees it: an eye that needs more is left with less", () => {
    const left = (project: Project): number => {
      const { rgba } = fabricOfProject(project, { colourway: "w1", distance: 6, pixelsPerStitch: 3, rows: [71, 77] });
      const mean = rgba.reduce((sum, value) => sum + value, 0) / rgba.length;
      return rgba.reduce((sum, value) => sum + (value - mean) ** 2, 0);
    };
    // The fog band, faint to ordinary eyes.
    expect(left(looked((_, V) => wordOf(V / 10)))).toBeLessThan(left(vest));
    // Verdicts as the model would give them move the threshold by little.
    expect(left(looked((_, V) => wordOf(V))) / left(vest)).toBeCloseTo(1, 1);
  });

  it("is compared and recoloured with the same eyes as it is checked", () => {
    const dull = looked((_, V) => wordOf(V / 3));
    const [line] = compareProject(dull, { memory }).rows;
    const checked = checkProject(dull, { memory, mends: "without" });
    expect(line!.clear).toBe(checked.rows.filter(({ shows }) => shows === "clear").length);
    const blunt = looked((_, V) => wordOf(V / 10));
    const { theta } = checkProject(blunt, { memory, mends: "without" }).eye;
    const wish = { keep: Object.entries(vest.colourways[0]!.yarns).map(([colour, yarn]) => ({ colour, yarn })) };
    const [way] = recolourProject(blunt, { wish, ways: 1, memory }).ways;
    const [, word, V] = /weakest row.*: (\w+) \(V ([\d.]+),/.exec(way!.because.join(" "))!;
    expect(word).toBe(wordOf(Number(V) * Math.exp(-theta)));
    expect(word).not.toBe(wordOf(Number(V)));
  });

  it("is told in the report: how many looks, or that nobody has looked", () => {
    const report = (project: Project) =>
      checkReport(project, checkProject(project, { memory, mends: "without" }), "worst");
    expect(report(vest)).toContain("A model of ordinary eyesight, not tested on knitting; a swatch settles it.");
    const tuned = report(looked((_, V) => wordOf(V / 3)));
    expect(tuned).toContain("Tuned by 7 of your swatches' looks.");
    expect(tuned).not.toContain("A model of ordinary eyesight");
  });
});
