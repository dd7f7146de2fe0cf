/** Named edits of all but charts: apart from those, so that a bench that is only looked at need not wait for what redraws a chart. */
import { isFault, type Outcome, type Problem } from "../base/problem.ts";
import type { Want } from "../chart/chart.ts";
import type { Shade } from "../colour/shade.ts";
import type { Colourway } from "../fabric/colourway.ts";
import { knittedAfter, type KnittedEdit } from "../fabric/colourwayEdit.ts";
import type { PatternColour } from "../fabric/pattern.ts";
import type { Gauge } from "../garment/gauge.ts";
import type { Yarn } from "../yarn/yarn.ts";
import { bandEdited, type BandEdit } from "./bandEdit.ts";
import type { ChartEdit } from "./chartEdit.ts";
import type { ClothMeasure, Knitting, Project } from "./project.ts";
import { patched } from "./patched.ts";
import { judgeProject } from "./judgeProject.ts";
import { refusal } from "./refusals.ts";

export type PlainEdit =
  | { readonly kind: "setName"; readonly name: string }
  | { readonly kind: "setGauge"; readonly gauge: Gauge }
  /** Fields that are left out stay. One main colour: who becomes it takes the role from the one before. */
  | {
      readonly kind: "setPatternColour";
      readonly id: string;
      readonly name?: string;
      readonly shade?: Shade;
      readonly role?: "main" | "contrast";
    }
  /** null: nothing wanted in particular. A band found in the chart becomes a declared one. */
  | {
      readonly kind: "setBandWant";
      readonly chart: string;
      readonly rows: [number, number];
      readonly want: Want | null;
    }
  | BandEdit
  | { readonly kind: "addYarns"; readonly yarns: readonly Yarn[] }
  /** A field given as null goes; fields that are left out stay. */
  | { readonly kind: "changeYarn"; readonly yarn: string; readonly fields: YarnFields }
  /** Refused while a colourway uses it. */
  | { readonly kind: "removeYarn"; readonly yarn: string }
  /** A copy of the colourway `from`, or an empty one. */
  | { readonly kind: "addColourway"; readonly id: string; readonly from: string | null; readonly name?: string }
  | { readonly kind: "renameColourway"; readonly colourway: string; readonly name: string }
  | { readonly kind: "setColourwayNote"; readonly colourway: string; readonly note: string }
  /** Refused for the only one, and while a swatch was knitted in it. */
  | { readonly kind: "removeColourway"; readonly colourway: string }
  | KnittedEdit
  | { readonly kind: "setWish"; readonly colourway: string; readonly wish: object | null }
  /** What a plain swatch measured; null: what is usual. */
  | { readonly kind: "setCloth"; readonly cloth: ClothMeasure | null }
  /** The longest strand that she leaves uncaught, cm; null: what is usual. */
  | { readonly kind: "setFloatLimit"; readonly cm: number | null }
  /** null: the pattern's. */
  | { readonly kind: "setSectionGauge"; readonly section: string; readonly gauge: Gauge | null }
  /** As it was counted washed and dry, and before: null where it was not. */
  | {
      readonly kind: "setSwatchGauge";
      readonly swatch: string;
      readonly gauge: Gauge;
      readonly gaugeBefore: Gauge | null;
    }
  /** What she measured or settled for the whole garment. Fields that are left out stay; null: what is usual. */
  | { readonly kind: "setKnitting"; readonly fields: KnittingFields }
  /** Where she is: the last round that is knitted, 0 before the first. */
  | { readonly kind: "setRound"; readonly section: string; readonly round: number };

export type KnittingFields = {
  readonly [Field in "heldLow" | "loop" | "slack" | "reserve" | "joins"]?: Knitting[Field] | null;
};

export type YarnFields = { readonly [Field in Exclude<keyof Yarn, "id">]?: Yarn[Field] | null };

const OF_CHARTS: Readonly<Record<ChartEdit["kind"], true>> = {
  setStitches: true,
  insertRows: true,
  removeRows: true,
  insertColumns: true,
  removeColumns: true,
  addChart: true,
  removeChart: true,
  renameChart: true,
  setWorked: true,
  addPatternColour: true,
  removePatternColour: true,
  mergePatternColours: true,
  setSections: true,
};

/** Whether only `tryEdit` can do it. */
export const isChartEdit = (edit: PlainEdit | ChartEdit): edit is ChartEdit => Object.hasOwn(OF_CHARTS, edit.kind);

/** As `tryEdit`, for edits that need nothing of what redraws a chart. */
export function tryPlainEdit(project: Project, edit: PlainEdit): Outcome<Project> {
  return outcomeOf(refusal(project, edit), () => edited(project, edit));
}

/** What came of an edit: why it is refused, or how the record that it makes is judged. */
export function outcomeOf(refused: Problem | null, make: () => Project): Outcome<Project> {
  if (refused) return { value: null, problems: [refused] };
  const outcome = judgeProject(make());
  return outcome.value ? outcome : { value: null, problems: outcome.problems.filter(isFault) };
}

function edited(project: Project, edit: PlainEdit): Project {
  const { pattern } = project;
  switch (edit.kind) {
    case "setName":
      return { ...project, name: edit.name };
    case "setGauge":
      return { ...project, pattern: { ...pattern, gauge: { ...pattern.gauge, ...edit.gauge } } };
    case "setPatternColour":
      return {
        ...project,
        pattern: { ...pattern, colours: pattern.colours.map((colour) => recoloured(colour, edit)) },
      };
    case "setBandWant":
      return {
        ...project,
        pattern: {
          ...pattern,
          charts: pattern.charts.map((chart) => (chart.id === edit.chart ? wanted(chart, edit) : chart)),
        },
      };
    case "addYarns":
      return { ...project, yarns: [...project.yarns, ...edit.yarns] };
    case "changeYarn":
      return {
        ...project,
        yarns: project.yarns.map((yarn) => (yarn.id === edit.yarn ? patched(yarn, edit.fields) : yarn)),
      };
    case "removeYarn":
      return { ...project, yarns: project.yarns.filter(({ id }) => id !== edit.yarn) };
    case "addColourway":
      return { ...project, colourways: [...project.colourways, copied(project, edit)] };
    case "removeColourway":
      return { ...project, colourways: project.colourways.filter(({ id }) => id !== edit.colourway) };
    case "setCloth":
      return patched(project, { cloth: edit.cloth });
    case "declareBand":
    case "releaseBand":
    case "shiftBand":
    case "setStartColumn":
      return bandEdited(project, edit);
    case "setFloatLimit":
      return { ...project, knitting: patched<Knitting>(project.knitting ?? {}, { floatCm: edit.cm }) };
    case "setKnitting":
      return { ...project, knitting: patched<Knitting>(project.knitting ?? {}, edit.fields) };
    case "setSwatchGauge": {
      const { gauge, gaugeBefore } = edit;
      return {
        ...project,
        swatches: (project.swatches ?? []).map((swatch) =>
          swatch.id === edit.swatch ? { ...swatch, washed: true, gauge, gaugeBefore } : swatch,
        ),
      };
    }
    case "setSectionGauge":
      return {
        ...project,
        pattern: {
          ...pattern,
          sections: (pattern.sections ?? []).map((section) =>
            section.id === edit.section ? { ...section, gauge: edit.gauge } : section,
          ),
        },
      };
    case "setRound":
      return { ...project, knitting: { ...project.knitting, section: edit.section, round: edit.round } };
    default:
      return {
        ...project,
        colourways: project.colourways.map((colourway) =>
          colourway.id === edit.colourway ? editedColourway(colourway, edit) : colourway,
        ),
      };
  }
}

type ColourwayEdit = Extract<PlainEdit, { colourway: string }>;

function editedColourway(colourway: Colourway, edit: Exclude<ColourwayEdit, { kind: "removeColourway" }>): Colourway {
  switch (edit.kind) {
    case "renameColourway":
      return { ...colourway, name: edit.name };
    case "setColourwayNote":
      return { ...colourway, note: edit.note };
    case "setWish":
      return patched(colourway, { wish: edit.wish });
    default:
      return knittedAfter(colourway, edit);
  }
}

function recoloured(colour: PatternColour, edit: Extract<PlainEdit, { kind: "setPatternColour" }>): PatternColour {
  const { name, shade, role } = edit;
  if (colour.id !== edit.id)
    return role === "main" && colour.role === "main" ? { ...colour, role: "contrast" } : colour;
  return {
    ...colour,
    ...(name !== undefined && { name }),
    ...(role !== undefined && { role }),
    ...(shade !== undefined && { shade }),
  };
}

function wanted(
  chart: Project["pattern"]["charts"][number],
  edit: Extract<PlainEdit, { kind: "setBandWant" }>,
): typeof chart {
  const bands = chart.bands ?? [];
  const [from, to] = edit.rows;
  const isIt = ({ rows }: { rows: [number, number] }): boolean => rows[0] === from && rows[1] === to;
  if (bands.some(isIt))
    return { ...chart, bands: bands.map((band) => (isIt(band) ? patched(band, { want: edit.want }) : band)) };
  return edit.want === null ? chart : { ...chart, bands: [...bands, { rows: [from, to], want: edit.want }] };
}

function copied(project: Project, edit: Extract<PlainEdit, { kind: "addColourway" }>): Colourway {
  const source = project.colourways.find(({ id }) => id === edit.from);
  const name = edit.name === undefined ? {} : { name: edit.name };
  return { ...(source ?? { yarns: {} }), id: edit.id, ...name, from: edit.from };
}
