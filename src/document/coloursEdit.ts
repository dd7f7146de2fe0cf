/** Edits of the pattern's colours: one more, one that is not knitted gone, two that turn out to be one. */
import type { Chart, ChartBand } from "../chart/chart.ts";
import type { Change, Colourway } from "../fabric/colourway.ts";
import type { PatternColour } from "../fabric/pattern.ts";
import type { Project } from "./project.ts";
import { wishNamed } from "./wishNames.ts";

export type ColoursEdit =
  /** A main colour takes the role from the one before. */
  | { readonly kind: "addPatternColour"; readonly colour: PatternColour }
  /** Refused while it is stitched. */
  | { readonly kind: "removePatternColour"; readonly id: string }
  /**
   * Every stitch of `from` becomes one of `into`, and `from` is no colour any more. What is said of `into` stands; where it has no yarn in a
   * colourway, it takes the yarn and the changes of `from`.
   */
  | { readonly kind: "mergePatternColours"; readonly from: string; readonly into: string };

/** The project after an edit that is not refused. */
export function coloursEdited(project: Project, edit: ColoursEdit): Project {
  const { pattern, colourways } = project;
  switch (edit.kind) {
    case "addPatternColour": {
      const isMain = edit.colour.role === "main";
      const others = pattern.colours.map((colour): PatternColour =>
        isMain && colour.role === "main" ? { ...colour, role: "contrast" } : colour,
      );
      return { ...project, pattern: { ...pattern, colours: [...others, edit.colour] } };
    }
    case "removePatternColour": {
      const { id } = edit;
      return {
        ...project,
        pattern: {
          ...pattern,
          colours: pattern.colours.filter((colour) => colour.id !== id),
          charts: pattern.charts.map((chart) => withGrounds(chart, (ground) => (ground === id ? null : ground))),
        },
        colourways: colourways.map((colourway) => withoutColour(colourway, id)),
      };
    }
    case "mergePatternColours":
      return {
        ...project,
        pattern: {
          ...pattern,
          colours: mergedColours(pattern.colours, edit),
          charts: pattern.charts.map((chart) => mergedChart(chart, edit)),
        },
        colourways: colourways.map((colourway) => mergedColourway(colourway, edit)),
      };
  }
}

type Merge = Extract<ColoursEdit, { kind: "mergePatternColours" }>;

function mergedColours(colours: readonly PatternColour[], { from, into }: Merge): PatternColour[] {
  const wasMain = colours.some(({ id, role }) => id === from && role === "main");
  return colours
    .filter(({ id }) => id !== from)
    .map((colour) => (wasMain && colour.id === into ? { ...colour, role: "main" } : colour));
}

const mergedChart = (chart: Chart, { from, into }: Merge): Chart =>
  withGrounds({ ...chart, rows: chart.rows.map((text) => text.replaceAll(from, () => into)) }, (ground) =>
    ground === from ? into : ground,
  );

/** Where none of a band's grounds is left, nothing is said of its ground any more. */
function withGrounds(chart: Chart, named: (ground: string) => string | null): Chart {
  if (!chart.bands?.some(({ ground }) => ground?.some((id) => named(id) !== id))) return chart;
  const bands = chart.bands.map((band): ChartBand => {
    if (!band.ground) return band;
    const { ground, ...others } = band;
    const left = [...new Set(ground.map(named).filter((id) => id !== null))];
    return left.length === 0 && ground.length > 0 ? others : { ...band, ground: left };
  });
  return { ...chart, bands };
}

function withoutColour(colourway: Colourway, colour: string): Colourway {
  const { changes, wish } = colourway;
  const { [colour]: _, ...yarns } = colourway.yarns;
  return {
    ...colourway,
    yarns,
    ...(changes && { changes: changes.filter((change) => change.colour !== colour) }),
    ...(wish && { wish: wishNamed(wish, { colour: (id) => (id === colour ? null : id) }) }),
  };
}

function mergedColourway(colourway: Colourway, { from, into }: Merge): Colourway {
  const { changes, wish } = colourway;
  const { [from]: before, ...yarns } = colourway.yarns;
  const takesOver = yarns[into] === undefined && before !== undefined;
  const mergedChange = (change: Change): Change[] => {
    if (change.colour !== from) return [change];
    return takesOver ? [{ ...change, colour: into }] : [];
  };
  return {
    ...colourway,
    yarns: takesOver ? { ...yarns, [into]: before } : yarns,
    ...(changes && { changes: changes.flatMap(mergedChange) }),
    ...(wish && { wish: wishNamed(wish, { colour: (id) => (id === from ? into : id) }) }),
  };
}
