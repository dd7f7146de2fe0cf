/** Her own cloth: what a measured factor and texture change, and what they must leave alone. */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { judgeMemory } from "../audit/judge.ts";
import { xyzFromLab } from "../colour/lab.ts";
import type { Project } from "../document/project.ts";
import { readProject } from "../document/read.ts";
import { labOfYarn } from "../yarn/yarn.ts";
import { checkProject } from "./check.ts";
import { asKnitted } from "./knitted.ts";
import { fabricOfProject } from "./picture.ts";
import { readsInLights } from "./reads.ts";

const vest = readProject(readFileSync("examples/weather-station-vest.twostrand.json", "utf8")).value!;
const memory = judgeMemory();
const check = (project: Project) => checkProject(project, { colourway: "w1", memory, mends: "without" });

describe("a cloth factor", () => {
  const knitted = asKnitted({ ...vest, cloth: { factor: 0.8 } });
  it("takes its part of every yarn's light and leaves its hue", () => {
    vest.yarns.forEach((yarn, at) => {
      const [X, Y, Z] = xyzFromLab(labOfYarn(yarn));
      const [x, y, z] = xyzFromLab(labOfYarn(knitted.yarns[at]!));
      for (const [one, other] of [
        [x, X],
        [y, Y],
        [z, Z],
      ] as const)
        expect(one).toBeCloseTo(0.8 * other, 6);
    });
  });

  it("of 1, or none, is the project itself", () => {
    expect(asKnitted(vest)).toBe(vest);
    expect(asKnitted({ ...vest, cloth: { factor: 1 } }).yarns).toBe(vest.yarns);
  });

  it("darkens the picture, and the ladder still tells the yarns as they are", () => {
    const darker = { ...vest, cloth: { factor: 0.8 } };
    const mean = (project: Project): number => {
      const { rgba } = fabricOfProject(project, { colourway: "w1", pixelsPerStitch: 4 });
      return rgba.reduce((sum, value) => sum + value, 0) / rgba.length;
    };
    expect(mean(darker)).toBeLessThan(mean(vest));
    expect(check(darker).ladder).toEqual(check(vest).ladder);
  });

  it("hardly moves what shows: light and dark keep their ratios, but for the room's own light on them", () => {
    const shown = (project: Project) => check(project).rows.map(({ V }) => V ?? 0);
    const before = shown(vest);
    shown({ ...vest, cloth: { factor: 0.9 } }).forEach((V, at) => expect(V).toBeLessThanOrEqual(before[at]! * 1.02));
  });
});

describe("a measured texture", () => {
  it("replaces the usual wool: smoother cloth hides less, rougher more, the usual as much", () => {
    const sum = (stitch: number, floor: number): number =>
      check({ ...vest, cloth: { texture: { stitch, floor } } }).rows.reduce((total, { V }) => total + (V ?? 0), 0);
    const usual = check(vest).rows.reduce((total, { V }) => total + (V ?? 0), 0);
    expect(sum(0.06, 0.02)).toBeGreaterThan(usual);
    expect(sum(0.25, 0.05)).toBeLessThan(usual);
    // vision.md B7's own c_t and c_f.
    expect(sum(0.12, 0.025)).toBeCloseTo(usual, 9);
  });

  it("is outdone by one that the caller brings", () => {
    const texture = { stitch: 0.12, floor: 0.025, strength: 1 };
    const own = { ...vest, cloth: { texture: { stitch: 0.3, floor: 0.1 } } };
    const asked = checkProject(own, { colourway: "w1", texture, mends: "without" });
    expect(asked.rows).toEqual(check(vest).rows);
  });
});

describe("reads to, light by light", () => {
  it("is told for 50, 500 and 10,000 lux, the middle one as the check tells it", () => {
    const { chart, rows, readsTo } = check(vest).bands.find((band) => band.readsTo !== null)!;
    const lights = readsInLights(vest, { colourway: "w1", chart, rows, memory });
    expect(lights.map(({ lux }) => lux)).toEqual([50, 500, 10_000]);
    const { lux: _, ...room } = lights[1]!;
    expect(room).toEqual(readsTo);
  });

  it("more light reads no less far (contrast sensitivity grows with luminance: castleCSF)", () => {
    for (const { chart, rows } of check(vest).bands.filter(({ readsTo }) => readsTo && !readsTo.beyond)) {
      const metres = readsInLights(vest, { colourway: "w1", chart, rows, memory }).map((one) => one.high);
      expect(metres[1]!).toBeGreaterThanOrEqual(metres[0]! * 0.99);
    }
  });
});
