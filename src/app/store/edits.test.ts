/** Edits of charts, which the page has apart from the others, and the others, which it has at once. */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import * as document from "../../document/edit.ts";
import type { Edit } from "../../document/edit.ts";
import { readProject } from "../../document/read.ts";
import { applyEdit, bringChartEdits, tryEdit, withEdits } from "./edits.ts";

const project = readProject(readFileSync("examples/weather-station-vest.twostrand.json", "utf8")).value!;
const chart = project.pattern.charts[0]!;
const rename: Edit = { kind: "setName", name: "Other name" };
const shift: Edit = { kind: "shiftBand", chart: chart.id, rows: [1, 4], by: 1, repeat: 4 };
const insert: Edit = { kind: "insertRows", chart: chart.id, at: 1, rows: [chart.rows[0]!] };

const noFailure = (reason: unknown): never => {
  throw reason;
};

describe("edits on the page", () => {
  it("are the document's own at once, but for those of charts, which are ours to bring first", async () => {
    for (const edit of [rename, shift]) expect(tryEdit(project, edit)).toEqual(document.tryEdit(project, edit));
    expect(() => tryEdit(project, insert)).toThrow("edits of charts were brought before insertRows");
    const told: string[] = [];
    withEdits([rename], () => told.push("plain"), noFailure);
    expect(told).toEqual(["plain"]);
    await new Promise<void>((resolve) => {
      withEdits([rename, insert], () => resolve(void told.push("chart")), noFailure);
      expect(told).toEqual(["plain"]);
    });
    expect(told).toEqual(["plain", "chart"]);
    await bringChartEdits();
    withEdits([insert], () => told.push("brought"), noFailure);
    expect(told.at(-1)).toBe("brought");
    expect(applyEdit(project, insert).pattern.charts[0]!.rows).toEqual([...chart.rows, chart.rows[0]!]);
    expect(tryEdit(project, insert)).toEqual(document.tryEdit(project, insert));
  });
});
