/** A project's garment from a body: what its sections would be in every size, with the schematic, and the edit that makes them so. */
import type { Problem } from "../base/problem.ts";
import { gridOf, type Chart } from "../chart/chart.ts";
import type { Edit } from "../document/edit.ts";
import type { Project } from "../document/project.ts";
import { lostWithSections } from "../document/sectionsEdit.ts";
import { structureIn } from "../fabric/structure.ts";
import { fitOf, type Body, type Fit } from "../garment/body.ts";
import type { Gauge } from "../garment/gauge.ts";
import { measureOf, shapeOf, usualEaseCm, type Garment, type ShapedGarment } from "../garment/shape.ts";
import { stitchesOf, type ChartFacts, type Lengths, type Part, type PartChoice } from "../garment/shape/parts.ts";
import { sectionsOf } from "../garment/shape/sections.ts";
import type { Section, Size } from "../garment/sections.ts";

export interface ShapeQuestion {
  readonly garment: Garment;
  readonly sizes: readonly { readonly id: string; readonly name?: string; readonly body: Body }[];
  /** Added to the measure around chest, head or hand; the garment's usual where missing. */
  readonly easeCm?: number | undefined;
  /** Ids of charts by the part that is knitted from them; the others are plain. */
  readonly charts?: Partial<Record<Part, string>> | undefined;
  readonly gauges?: Partial<Record<Part, Gauge>> | undefined;
  readonly lengths?: Partial<Lengths> | undefined;
  readonly steekStitches?: number | undefined;
  /** For every size. */
  readonly choices?: Partial<Record<Part, PartChoice>> | undefined;
}

export interface ShapedSize extends ShapedGarment {
  readonly size: string;
  readonly easeCm: number;
  /** How it sits at the chest; null for hats and hands. */
  readonly fit: Fit | null;
  /** All that are knitted, steeks and panels too. */
  readonly stitches: number;
}

export interface ShapeAnswer {
  readonly garment: Garment;
  readonly sizes: readonly ShapedSize[];
  readonly sections: readonly Section[];
  /** Gives the project these sections: one step; null where there is a fault. */
  readonly edit: Edit | null;
  /** Exceptions, looks and weighings that would go with sections that are not knitted any more. */
  readonly loses: number;
  readonly problems: readonly Problem[];
}

export function shapeProject(project: Project, question: ShapeQuestion): ShapeAnswer {
  const { pattern } = project;
  const { garment, sizes, lengths, gauges, steekStitches, choices } = question;
  const problems = questionProblems(project, question);
  if (problems.length > 0) return { garment, sizes: [], sections: [], edit: null, loses: 0, problems };
  const charts = Object.fromEntries(
    Object.entries(question.charts ?? {}).map(([part, id]) => [
      part,
      factsOf(pattern.charts.find((one) => one.id === id)!),
    ]),
  );
  const easeCm = question.easeCm ?? usualEaseCm(garment);
  const shaped = sizes.map(({ id, body }): ShapedSize => {
    const found = shapeOf(garment, {
      size: id,
      body,
      easeCm,
      gauge: pattern.gauge,
      charts,
      ...(gauges && { gauges }),
      ...(lengths && { lengths }),
      ...(steekStitches !== undefined && { steekStitches }),
      ...(choices && { choices }),
    });
    const stitches = found.parts.reduce((sum, part) => sum + stitchesOf(part), 0);
    const fit = measureOf(garment) === "chest" ? fitOf(found.finishedCm - body.chest) : null;
    return { ...found, size: id, easeCm, fit, stitches };
  });
  const plain = plainChartFor(project);
  const sections = sectionsOf(shaped, plain.chart.id);
  const usesPlain = sections.some(({ chart }) => chart === plain.chart.id);
  return {
    garment,
    sizes: shaped,
    sections,
    edit: {
      kind: "setSections",
      sizes: sizes.map(({ id, name }, index): Size => {
        const chestCm = measureOf(garment) === "chest" ? Math.round(10 * shaped[index]!.finishedCm) / 10 : undefined;
        return { id, ...(name !== undefined && { name }), ...(chestCm !== undefined && { chestCm }) };
      }),
      sections,
      charts: plain.isNew && usesPlain ? [plain.chart] : [],
    },
    loses: lostWithSections(project, sections),
    problems,
  };
}

function factsOf(chart: Chart): ChartFacts {
  const grid = gridOf(chart);
  const stitchesOfRow = stitchCounts(chart);
  const narrows = stitchesOfRow.some((stitches) => stitches !== grid.width);
  return {
    id: chart.id,
    width: grid.width,
    bandOfRow: structureIn({ chart, grid }).bandOfRow,
    ...(narrows && { stitchesOfRow }),
  };
}

/** Stitches of each row, lowest first. */
const stitchCounts = ({ rows }: Chart): number[] => rows.map((row) => row.replaceAll("-", "").length).toReversed();

/** One stitch in the main colour: the pattern's own chart for plain knitting, or one to add. */
function plainChartFor({ pattern }: Project): { chart: Chart; isNew: boolean } {
  const main = (pattern.colours.find(({ role }) => role === "main") ?? pattern.colours[0]!).id;
  const known = pattern.charts.find(({ rows, worked }) => worked !== "flat" && rows.join() === main);
  if (known) return { chart: known, isNew: false };
  const ids = new Set(pattern.charts.map(({ id }) => id));
  let id = "plain";
  for (let number = 2; ids.has(id); number++) id = `plain-${number}`;
  return { chart: { id, name: "plain", worked: "round", rows: [main] }, isNew: true };
}

/** Nobody is smaller than a hand's breadth around, or larger than so. Our choice; it keeps a slip of the finger from filling the memory. */
const MEASURE_CM = { least: 2, most: 400 } as const;

function questionProblems({ pattern }: Project, { sizes, charts, gauges, easeCm = 0 }: ShapeQuestion): Problem[] {
  const problems: Problem[] = [];
  const fault = (where: string, expected: string, got: string): void => {
    problems.push({ where, expected, got, severity: "fault" });
  };
  if (sizes.length === 0) fault("sizes", "at least one", "none");
  const seen = new Set<string>();
  for (const { id, body } of sizes) {
    if (seen.has(id)) fault("sizes", "each once", `${JSON.stringify(id)} twice`);
    seen.add(id);
    for (const [field, cm] of Object.entries(body))
      if (!(cm >= MEASURE_CM.least && cm <= MEASURE_CM.most))
        fault(`size ${JSON.stringify(id)}, ${field}`, `${MEASURE_CM.least} to ${MEASURE_CM.most} cm`, String(cm));
    const least = Math.min(body.chest, body.head, body.hand);
    if (!(easeCm > -least / 2 && easeCm <= MEASURE_CM.most))
      fault("ease", `more than minus half of what it is added to, ${least} cm at the least`, `${easeCm} cm`);
  }
  for (const [part, id] of Object.entries(charts ?? {})) {
    const chart = pattern.charts.find((one) => one.id === id);
    if (!chart)
      fault(`chart for ${part}`, `one of ${pattern.charts.map((one) => one.id).join(", ")}`, JSON.stringify(id));
    else if (
      part === "yoke" &&
      stitchCounts(chart).some((stitches, row, all) => stitches === 0 || stitches > (all[row - 1] ?? stitches))
    )
      fault(`chart for ${part}`, "one that never widens upwards, with stitches in every row", "one that does");
    else if (part !== "yoke" && chart.rows.some((row) => row.includes("-")))
      fault(
        `chart for ${part}`,
        "one with a stitch in every place, for decreases are planned here",
        "places without a stitch",
      );
    else if (chart.worked === "flat") fault(`chart for ${part}`, "one that is worked in the round", "one worked flat");
  }
  for (const [part, gauge] of Object.entries(gauges ?? {}))
    if (!(gauge.stitches >= 1 && gauge.rows >= 1 && gauge.stitches <= 200 && gauge.rows <= 200))
      fault(`gauge of ${part}`, "1 to 200 stitches and rows to 10 cm", `${gauge.stitches} × ${gauge.rows}`);
  return problems;
}
