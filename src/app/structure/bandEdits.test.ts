/** Her word for a band, given and taken back, on the worked example as the screen has it. */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { applyEdit, type Edit } from "../../document/edit.ts";
import type { Project } from "../../document/project.ts";
import { readProject } from "../../document/read.ts";
import { builtChart } from "../../jobs/builtChart.ts";
import type { BuiltBand } from "../worker/api.ts";
import { joined, sayOf, splitBefore, takeBack } from "./bandEdits.ts";

const vest = readProject(readFileSync("examples/weather-station-vest.twostrand.json", "utf8")).value!;
const bandAt = (project: Project, row: number): BuiltBand =>
  builtChart(project, { chart: "c1" })!.bands.find(({ rows }) => rows[0] <= row && row <= rows[1])!;
const after = (project: Project, ...edits: Edit[]): Project => edits.reduce(applyEdit, project);

describe("a band", () => {
  it("of which one thing is said and taken back is as it was", () => {
    for (const row of [36, 34]) {
      const band = bandAt(vest, row);
      const said = after(vest, sayOf("c1", band, { axis: null }));
      expect(bandAt(said, row).axes.across).toEqual([]);
      expect(after(said, takeBack("c1", bandAt(said, row), "axis")).pattern).toEqual(vest.pattern);
    }
  });

  it("keeps the rest of what is said of it", () => {
    const said = after(vest, sayOf("c1", bandAt(vest, 36), { repeat: 4, seeding: true }));
    const back = after(said, takeBack("c1", bandAt(said, 36), "repeat"));
    expect(bandAt(back, 36).said).toEqual({ rows: [36, 42], name: "cairns", seeding: true });
  });

  it("is two after a split, and one again when they are joined", () => {
    const two = after(vest, ...splitBefore("c1", bandAt(vest, 46), 56));
    expect([bandAt(two, 46).said, bandAt(two, 56).said]).toEqual([
      { rows: [46, 55], name: "star" },
      { rows: [56, 66], name: "star" },
    ]);
    expect(after(two, joined("c1", bandAt(two, 46), bandAt(two, 56))).pattern).toEqual(vest.pattern);
  });

  it("that is found can be split and joined too", () => {
    const found = bandAt(vest, 34);
    expect(found).toMatchObject({ rows: [34, 35], said: null });
    const two = after(vest, ...splitBefore("c1", found, 35));
    expect([bandAt(two, 34).rows, bandAt(two, 35).rows]).toEqual([
      [34, 34],
      [35, 35],
    ]);
    const one = after(two, joined("c1", bandAt(two, 34), bandAt(two, 35)));
    expect(bandAt(one, 34)).toMatchObject({ rows: [34, 35], said: { rows: [34, 35] } });
  });
});
