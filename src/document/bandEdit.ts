/** Edits of what she says of a chart's bands and of how they lie: her word for what else would be found. */
import type { Problem } from "../base/problem.ts";
import type { ChartBand } from "../chart/chart.ts";
import { partsALine, shiftedColourway, shiftedPattern, type BandShift } from "../fabric/bandShift.ts";
import { patternBeginning, type StartColumnEdit } from "../fabric/startColumn.ts";
import { withChart } from "./withChart.ts";
import { patched } from "./patched.ts";
import type { Project } from "./project.ts";

export type BandFields = { readonly [Field in Exclude<keyof ChartBand, "rows">]?: ChartBand[Field] | null };

export type BandEdit =
  /**
   * These rows are a band, of which she says so much; fields that are left out stay as she had said them, and null takes
   * her word back, but for axis and echoOf, which `found` takes back: null is her word there. Declared bands that had
   * some of the rows keep the others.
   */
  | {
      readonly kind: "declareBand";
      readonly chart: string;
      readonly rows: [number, number];
      readonly fields: BandFields;
      readonly found?: readonly ("axis" | "echoOf")[];
    }
  /** Her word for just these rows is taken back; they are parted as they are found. */
  | { readonly kind: "releaseBand"; readonly chart: string; readonly rows: [number, number] }
  | BandShift
  | StartColumnEdit;

export function bandEdited(project: Project, edit: BandEdit): Project {
  const { pattern } = project;
  switch (edit.kind) {
    case "declareBand":
      return withChart(project, edit.chart, (chart) => ({ ...chart, bands: declared(chart.bands ?? [], edit) }));
    case "releaseBand":
      return withChart(project, edit.chart, (chart) => ({
        ...chart,
        bands: (chart.bands ?? []).filter(({ rows }) => !isSame(rows, edit.rows)),
      }));
    case "shiftBand":
      return {
        ...project,
        pattern: shiftedPattern(pattern, edit),
        colourways: project.colourways.map((colourway) => shiftedColourway(colourway, edit, pattern)),
      };
    case "setStartColumn":
      return { ...project, pattern: patternBeginning(pattern, edit) };
  }
}

const isSame = (one: readonly [number, number], other: readonly [number, number]): boolean =>
  one[0] === other[0] && one[1] === other[1];

function declared(bands: readonly ChartBand[], edit: Extract<BandEdit, { kind: "declareBand" }>): ChartBand[] {
  const { rows, fields, found = [] } = edit;
  const before = bands.find((band) => isSame(band.rows, rows)) ?? { rows };
  const { axis, echoOf, ...others } = fields;
  const said: ChartBand = {
    ...patched<ChartBand>(before, others),
    ...(axis === undefined ? {} : { axis }),
    ...(echoOf === undefined ? {} : { echoOf }),
  };
  for (const field of found) delete said[field];
  const beside = bands.flatMap((band) => (isSame(band.rows, rows) ? [] : without(band, rows)));
  return [...beside, said].sort((one, other) => one.rows[0] - other.rows[0]);
}

/** What of a band is left beside some rows: below them, above them, or both. */
function without(band: ChartBand, [from, to]: readonly [number, number]): ChartBand[] {
  if (band.rows[1] < from || band.rows[0] > to) return [band];
  const parts: [number, number][] = [
    [band.rows[0], from - 1],
    [to + 1, band.rows[1]],
  ];
  return parts.filter(([low, high]) => low <= high).map((rows) => ({ ...band, rows }));
}

/** Why such an edit cannot be done; null where it may be tried. */
export function bandRefusal({ pattern, colourways }: Project, edit: BandEdit): Problem | null {
  if (edit.kind === "setStartColumn")
    return (pattern.sections ?? []).some(({ id }) => id === edit.section)
      ? null
      : fault("the section", "the id of one of the sections", JSON.stringify(edit.section));
  const chart = pattern.charts.find(({ id }) => id === edit.chart);
  if (!chart) return fault("the chart", "the id of one of the charts", JSON.stringify(edit.chart));
  const [from, to] = edit.rows;
  const height = chart.rows.length;
  if (!(from >= 1 && from <= to && to <= height))
    return fault("the band", `rows between 1 and ${height}`, `[${from}, ${to}]`);
  if (edit.kind === "releaseBand")
    return (chart.bands ?? []).some(({ rows }) => isSame(rows, edit.rows))
      ? null
      : fault("the band", "rows that are declared as a band", `[${from}, ${to}]`);
  if (edit.kind !== "shiftBand") return null;
  const width = chart.rows[0]!.length;
  const { by, repeat } = edit;
  if (!Number.isInteger(by)) return fault("the shift", "a whole number of stitches", String(by));
  if (!(Number.isInteger(repeat) && repeat >= 1 && repeat <= width))
    return fault("the repeat", `a whole number of stitches from 1 to ${width}`, String(repeat));
  const parted = colourways.find((colourway) => partsALine(colourway, edit, pattern));
  return parted
    ? fault(
        "the shift",
        "one that leaves lines of embroidery whole",
        `a line parted by the chart's edge in ${JSON.stringify(parted.name ?? parted.id)}`,
      )
    : null;
}

const fault = (where: string, expected: string, got: string): Problem => ({ where, expected, got, severity: "fault" });
