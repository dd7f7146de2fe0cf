/** A chart of signs on four pages with its key in words, from the PDF to a project that is checked: every act of hers is counted. */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { readProject } from "../../src/document/read.ts";
import { fourPages } from "../intake/fourPages.ts";
import { bench } from "./program.ts";

const truth = await fourPages();
const leftovers = `name,maker,hex,grams,metres per 100 g
Hoar,Sample Mill,#e8e2d2,250,420
Rowan,Sample Mill,#a8502f,60,400
Lichen,Sample Mill,#8d9663,60,420
Slate,Sample Mill,#4f5966,70,420
Gorse,Sample Mill,#d0a12f,50,400
Peat,Sample Mill,#33261e,80,400
`;
const { run, json, at } = bench({ "ridge.pdf": truth.pdf, "leftovers.csv": leftovers });
/** What she knows of the colours that the key only names. */
const SHADES: Readonly<Record<string, string>> = {
  hoar: "#efe9dc",
  rust: "#a4512f",
  moss: "#5d6b3c",
  slate: "#4b5563",
  gorse: "#d9b036",
  peat: "#2c211a",
};

interface Read {
  charts: {
    name?: string;
    rows: string[];
    colours: Record<string, { name?: string; hex: string }>;
    uncertain: unknown[];
  }[];
  joints: { overlap: number; sureness: number }[];
}

describe("four pages with a key in words", () => {
  it("are one named and coloured chart after one command, and a checked project after three", async () => {
    let acts = 0;
    const keys = Object.entries(SHADES).flatMap(([name, hex]) => ["--key", `${name} = ${hex}`]);

    // Each command is an act, and so is each colour that she gives a shade.
    acts += 1 + keys.length / 2;
    const { charts, joints } = await json<Read>("read", "@ridge.pdf", "--join", ...keys);
    const [chart] = charts as [Read["charts"][number]];
    expect(charts).toHaveLength(1);
    expect(chart.name).toBe(truth.title);
    const shown = chart.rows.map((row) => Array.from(row, (id) => chart.colours[id]!.name!));
    expect(shown).toEqual(truth.rows.map((row) => Array.from(row, (sign) => truth.key[sign]!)));
    expect(Object.fromEntries(Object.values(chart.colours).map(({ name, hex }) => [name, hex]))).toEqual(SHADES);
    expect(chart.uncertain).toEqual([]);
    expect(joints.map(({ overlap }) => overlap)).toEqual([1, 1, 1]);
    for (const { sureness } of joints) expect(sureness).toBeGreaterThan(0.9);

    acts += 1;
    const made = await run(
      "new",
      "--chart",
      "@ridge.pdf",
      "--join",
      ...keys,
      "--stash",
      "@leftovers.csv",
      "--out",
      "@ridge.twostrand.json",
    );
    expect(made.code).toBe(0);
    const project = readProject(readFileSync(at("ridge.twostrand.json"), "utf8")).value!;
    expect(project.pattern.charts.map(({ name, rows }) => [name, rows[0]!.length, rows.length])).toEqual([
      ["Ridge watch", 24, 190],
    ]);
    expect(project.pattern.colours.map(({ name }) => name).sort()).toEqual(Object.keys(SHADES).sort());
    // The leftovers were chosen next to the shades, so each colour goes to its own.
    const yarnOf = Object.fromEntries(
      project.pattern.colours.map(({ id, name }) => [
        name,
        project.yarns.find((yarn) => yarn.id === project.colourways[0]!.yarns[id])!.name,
      ]),
    );
    expect(yarnOf).toEqual({
      hoar: "Hoar",
      rust: "Rowan",
      moss: "Lichen",
      slate: "Slate",
      gorse: "Gorse",
      peat: "Peat",
    });

    acts += 1;
    const check = await json<{ rows: unknown[]; ladder: { colour: string }[] }>("check", "@ridge.twostrand.json");
    expect([check.rows.length, check.ladder.length]).toEqual([190, 6]);
    // At half a minute an act, nine acts are under five of the ten minutes that there are.
    expect(acts).toBe(9);
  }, 60_000);

  it("without a word on its shades it is named all the same, and what stands in is told", async () => {
    const { code, out, err } = await run("read", "@ridge.pdf", "--join");
    expect(code).toBe(0);
    expect(out).toContain('Chart "Ridge watch": 24 stitches by 190 rows');
    for (const [sign, name] of Object.entries(truth.key))
      expect(out).toMatch(
        new RegExp(`^  [A-F] +${sign === " " ? "none" : sign.replace(/[/+]/, "\\$&")} +${name} `, "m"),
      );
    expect(err).toContain("greys stand in");
  }, 30_000);
});
