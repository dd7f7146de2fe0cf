/** Colours picked off a picture stand among the yarns of a project to be compared with: nothing proposes them as yarns. */
import { describe, expect, test } from "vitest";
import { pattern } from "../../test/garments/small.ts";
import type { Project } from "../document/project.ts";
import { amountsOf } from "../plan/amounts.ts";
import { sheetCautions } from "../print/cautions.ts";
import type { ShadeSource } from "../colour/shade.ts";
import type { Yarn } from "../yarn/yarn.ts";
import { checkProject } from "./check.ts";
import { recolourProject } from "./recolour.ts";
import { tryYarns } from "./trial.ts";

const held: Yarn[] = [62, 58, 50, 82, 30].map((lightness, at) => ({
  id: `y${at}`,
  name: `Grey ${at}`,
  shade: { lab: [lightness, 0, 0], uncertainty: 2 },
}));
/** The pattern's own colours, so that nothing could suit better. */
const perfect = (from: ShadeSource): Yarn[] =>
  pattern.colours.map(({ id, shade }) => ({ id: `p${id}`, name: id, shade: { ...shade, uncertainty: 2, from } }));
const project = (from: ShadeSource): Project => ({
  format: "twostrand-project",
  version: 1,
  name: "small",
  pattern,
  yarns: [...held, ...perfect(from)],
  colourways: [
    { id: "w1", yarns: { A: "y0", B: "y2", C: "y1" } },
    { id: "w2", name: "of the picture", yarns: { A: "pA", B: "pB", C: "pC" } },
  ],
});

const proposed = (from: ShadeSource, colourway: string): { readonly by: string; readonly yarns: string[] }[] => {
  const all = project(from);
  const { ways } = recolourProject(all, { colourway, ways: 2 });
  const { findings } = checkProject(all, { colourway, mends: "with" });
  const { trials } = tryYarns(all, { colourway: "w1", colour: "B" });
  return [
    { by: "ways", yarns: ways.flatMap((way) => Object.values(way.yarns)) },
    { by: "mends", yarns: findings.flatMap(({ mends = [] }) => mends.flatMap(({ to }) => to ?? [])) },
    { by: "trials", yarns: trials.map(({ yarn }) => yarn) },
  ];
};

describe("colours from a picture", () => {
  // The same three as yarns of hers are taken by ways, mends and trials: what is tested below could fail.
  test.each(["ways", "mends", "trials"])("as yarns of hers they are proposed by %s", (by) => {
    const { yarns } = proposed("photo", "w1").find((one) => one.by === by)!;
    expect(yarns.some((id) => id.startsWith("p"))).toBe(true);
  });

  test.each([
    ["ways", "w1"],
    ["mends", "w1"],
    ["trials", "w1"],
    ["ways", "w2"],
    ["mends", "w2"],
  ])("%s never propose them, starting from %s", (by, colourway) => {
    const { yarns } = proposed("picture", colourway).find((one) => one.by === by)!;
    expect(yarns.filter((id) => id.startsWith("p"))).toEqual([]);
    if (by !== "mends") expect(yarns.length).toBeGreaterThan(0);
  });

  test("the amounts say that they are no yarns to knit with", () => {
    const { yarns, colourways } = project("picture");
    const { problems } = amountsOf({ pattern, yarns, colourway: colourways[1]! });
    const told = problems.filter(({ expected }) => expected === "a yarn to knit with");
    expect(told.map(({ where }) => where)).toEqual(['yarn "A"', 'yarn "B"', 'yarn "C"']);
  });

  test("so does the sheet, and only there", () => {
    const { yarns, colourways } = project("picture");
    const parts = { pattern, key: [], longFloats: { rows: 0, longest: 0, limit: 5 } };
    const said = (at: number): string[] => {
      const amounts = amountsOf({ pattern, yarns, colourway: colourways[at]! });
      const used = yarns.filter(({ id }) => amounts.yarns.some(({ yarn }) => yarn === id));
      return sheetCautions({ ...parts, amounts, yarns: used }).filter((sentence) => sentence.includes("picture"));
    };
    expect(said(0)).toEqual([]);
    expect(said(1)).toEqual(["Colours taken from a picture, to compare with, and no yarns to knit with: A, B and C."]);
  });
});
