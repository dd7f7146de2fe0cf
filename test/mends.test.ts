/** Holds mends to what they promise, on the worked example and on invented vests: done edit by edit and checked afresh, the fault is gone and none has come. */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { atLeast, audit } from "../src/audit/audit.ts";
import type { Finding, Mend } from "../src/audit/finding.ts";
import { contextOf, judgeMemory, type Case } from "../src/audit/judge.ts";
import { withMends } from "../src/audit/mends.ts";
import { edited } from "../src/audit/mends/attempt.ts";
import { applyEdit, tryEdit, type Edit } from "../src/document/edit.ts";
import type { Project } from "../src/document/project.ts";
import { readProject } from "../src/document/read.ts";
import { USUAL_VIEWING } from "../src/fabric/contrast.ts";
import { colourwayOf, needsOf, suppliesOf } from "../src/jobs/parts.ts";
import { inventedVest, PLANTED } from "./inventedVests.ts";

/** Spectra and the like, which no yarn changes. */
const memory = judgeMemory();

const caseOf = (project: Project, id: string): Case => {
  const { pattern, yarns } = project;
  const colourway = colourwayOf(project, id);
  return { pattern, yarns, colourway, viewing: USUAL_VIEWING, supplies: suppliesOf(project, colourway) };
};
const worse = (project: Project, colourway: string): Finding[] =>
  audit(contextOf(caseOf(project, colourway), memory)).filter((finding) => atLeast(finding, "doubt"));
const mended = (project: Project, id: string): Finding[] => {
  const input = caseOf(project, id);
  return withMends(worse(project, id), input, memory, {
    needs: needsOf(project, input.colourway),
    suppliesFor: (colourway) => suppliesOf(project, colourway),
  });
};

/** The project after a mend; each of its steps is a named edit that is not refused. */
function kept(project: Project, { edits }: Mend): Project {
  const named: readonly Edit[] = edits;
  for (const [index, edit] of named.entries())
    expect(tryEdit(named.slice(0, index).reduce(applyEdit, project), edit).problems).toEqual([]);
  const after = named.reduce(applyEdit, project);
  // What was tried out is what the edits make of it.
  for (const colourway of project.colourways.filter(({ id }) =>
    named.some((edit) => "colourway" in edit && edit.colourway === id),
  ))
    expect(after.colourways.find(({ id }) => id === colourway.id)).toEqual(
      edited({ pattern: project.pattern, colourway }, edits).colourway,
    );
  expect(after.pattern).toEqual(edited({ pattern: project.pattern, colourway: project.colourways[0]! }, edits).pattern);
  return after;
}

const kindOf = ({ id }: Finding): string => id.split("/")[0]!;
/** The ladder has no rows: it is told where two colours first meet. */
const overlap = (a: Finding, b: Finding): boolean => kindOf(a) === "valueOrder" || rowsMeet(a, b);
const rowsMeet = ({ where: one }: Finding, { where: other }: Finding): boolean =>
  one.chart === other.chart && one.rows[0] <= other.rows[1] && other.rows[0] <= one.rows[1];
const sameColours = ({ where: one }: Finding, { where: other }: Finding): boolean =>
  (one.colours ?? []).some((colour) => other.colours?.includes(colour));

describe("the worked example", () => {
  const project = readProject(readFileSync("examples/weather-station-vest.twostrand.json", "utf8")).value!;

  it("w2, row 68: the first mend takes Pale oat away again, and only the float is left", () => {
    const [lost] = mended(project, "w2");
    const [first] = lost!.mends!;
    // E is Bracken stem (y05) in w2 but in row 68: what the README plants there is undone.
    expect([first!.kind, first!.colour, first!.from, first!.to]).toEqual(["yarnInRows", "E", "y14", "y05"]);
    for (const mend of lost!.mends!)
      expect(worse(kept(project, mend), "w2").map(({ headline }) => headline)).toEqual([
        "Row 85: Spruce floats over 12 stitches",
      ]);
  });
  it("w2, row 68: ranked by what is to be done, stitches that are laid on last", () => {
    const kinds = mended(project, "w2")[0]!.mends!.map(({ kind }) => kind);
    expect(kinds).toEqual(["yarnInRows", "yarnInRows", "pairInRows", "overStitch"]);
  });
  it("w2, row 85: the float is laid on as in w1, and only the lost row is left", () => {
    const [, float] = mended(project, "w2");
    const [first] = float!.mends!;
    const after = kept(project, first!);
    // The README: knitted in the ground's yarn, its two stitches in each repeat laid on.
    const [good, second] = ["w1", "w2"].map((id) => after.colourways.find((one) => one.id === id)!);
    expect(second!.overStitched).toEqual(good!.overStitched);
    expect(worse(after, "w2").map(({ headline }) => headline)).toEqual(["Row 68, Pale oat on Oatmeal: lost"]);
  });
  it("w3: Marigold gives way to a quiet yarn of the scree's value, and nothing is left", () => {
    const [takesOver] = mended(project, "w3");
    const [first] = takesOver!.mends!;
    // The README: y05 is what w1 has there.
    expect([first!.kind, first!.colour, first!.from, first!.to]).toEqual(["yarn", "E", "y19", "y05"]);
    for (const mend of takesOver!.mends!) expect(worse(kept(project, mend), "w3")).toEqual([]);
  });
  it("both in turn leave a second try without a fault", () => {
    const [lost] = mended(project, "w2");
    const once = kept(project, lost!.mends![0]!);
    const [float] = mended(once, "w2");
    expect(worse(kept(once, float!.mends![0]!), "w2")).toEqual([]);
  });
});

describe("a band that was charted one stitch off", () => {
  const project = readProject(readFileSync("examples/weather-station-vest.twostrand.json", "utf8")).value!;
  // Cairns over cairns, without the line and the star between: rows 36 to 42 once more on top of themselves and a plain row, the upper ones moved.
  const [chart] = project.pattern.charts;
  const rows = (from: number, to: number): string[] => chart!.rows.slice(120 - to, 120 - from + 1);
  const moved = rows(36, 42).map((row) => row.slice(1) + row.slice(0, 1));
  const off: Project = {
    ...project,
    pattern: {
      ...project.pattern,
      charts: [{ ...chart!, rows: [...rows(43, 43), ...moved, ...rows(35, 42)], bands: [] }],
      sections: [],
    },
    colourways: [{ id: "w1", yarns: project.colourways[0]!.yarns }],
    swatches: [],
    knitting: {},
  };

  it("is mended by a shift of one stitch back, on to half its repeat of 8, or a plain row between, and by nothing else", () => {
    const [finding, ...more] = mended(off, "w1");
    expect(more).toEqual([]);
    expect(
      finding!.mends!.map(({ edits }) => edits.map((edit) => (edit.kind === "shiftBand" ? edit.by : edit.kind))),
    ).toEqual([[-1], [3], ["insertRows"]]);
    for (const mend of finding!.mends!) expect(worse(kept(off, mend), "w1")).toEqual([]);
  });
});

describe("invented vests", () => {
  it.each(Array.from({ length: 20 }, (_, seed) => [seed, PLANTED[seed % PLANTED.length]!] as const))(
    "vest %i, %s",
    (seed) => {
      const { project, planted, rows, colour } = inventedVest(seed);
      const before = mended(project, "bad");
      if (planted !== "float") expect(worse(project, "good")).toEqual([]);
      const found = before.filter(
        ({ where }) => where.rows[0] <= rows[1] && where.rows[1] >= rows[0] && where.colours?.includes(colour),
      );
      expect(found.length).toBeGreaterThan(0);
      const [finding] = found;
      // What was there before the fault was planted still lies on the shelf, so that there is always a way out.
      expect(finding!.mends?.length ?? 0).toBeGreaterThan(0);
      // One thing was planted, and one thing undoes it: after the first mend nothing is left.
      expect(worse(kept(project, before.find(({ mends }) => mends)!.mends![0]!), "bad")).toEqual([]);
      // Swapped back, the colourway is the good one again.
      if (planted === "turned pair") expect(finding!.mends!.map(({ kind }) => kind)).toContain("swap");
      for (const mend of finding!.mends!) {
        const after = worse(kept(project, mend), "bad");
        expect(
          after.filter(
            (one) => kindOf(one) === kindOf(finding!) && overlap(one, finding!) && sameColours(one, finding!),
          ),
        ).toEqual([]);
        const fresh = after.filter(
          (one) =>
            !before.some((other) => kindOf(other) === kindOf(one) && overlap(one, other) && sameColours(one, other)),
        );
        expect(fresh).toEqual([]);
      }
    },
  );
});
