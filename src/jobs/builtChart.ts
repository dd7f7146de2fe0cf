/** How a chart is built, as a screen shows it: band by band what is found and what she has said, how bands lie, and the strands at the back. */
import { comfortableFloat, strandsOf } from "../audit/floats.ts";
import type { Mend } from "../audit/finding.ts";
import { shifts, spacing } from "../audit/lyingMends.ts";
import { THRESHOLDS } from "../audit/thresholds.ts";
import type { Alignment } from "../chart/alignment.ts";
import { laddersIn } from "../chart/catches.ts";
import type { ChartBand } from "../chart/chart.ts";
import { floatsInRow } from "../chart/floats.ts";
import { mainColour } from "../chart/mainColour.ts";
import type { Repeat } from "../chart/repeats.ts";
import type { RowKind } from "../chart/rowRoles.ts";
import type { BandEcho, BandStructure } from "../chart/structure.ts";
import type { Project } from "../document/project.ts";
import { clothOf, clothOfPattern, type Cloth } from "../fabric/cloth.ts";
import type { Pattern } from "../fabric/pattern.ts";
import { valueSides } from "../fabric/valueSides.ts";
import { bandRounds, meetingsThroughDecreases } from "../garment/rounds.ts";
import { structureIn } from "../fabric/structure.ts";
import { oppositeShows } from "../garment/fitting.ts";
import { colourwayOf } from "./parts.ts";

export interface BuiltChartQuestion {
  readonly chart: string;
  /** Whose yarns tell which colours are one strand; the first where missing. */
  readonly colourway?: string | undefined;
}

export interface BuiltBand {
  readonly id: string;
  readonly rows: readonly [number, number];
  readonly kind: BandStructure["kind"];
  readonly colours: readonly string[];
  readonly ground: readonly string[];
  readonly pattern: readonly string[];
  readonly repeat: Repeat;
  readonly axes: { readonly across: readonly number[]; readonly up: readonly number[] };
  /** The column of one middle of its motif, .5 between two; the others follow a repeat apart. null where it has none. */
  readonly middle: number | null;
  readonly shaded: BandStructure["shaded"];
  readonly echo: (BandEcho & { readonly rows: readonly [number, number] }) | null;
  /** Rows in which, in the pattern's own colours, the figure lies on the other side of its ground in value than in the rest of the band. */
  readonly crossed: readonly number[];
  /** What she has said of it; null where all is found. */
  readonly said: ChartBand | null;
}

export interface BuiltRow {
  readonly row: number;
  readonly kind: RowKind;
  /** null in a row without a ground of its own. */
  readonly ground: string | null;
  readonly pattern: readonly string[];
  /** Of each strand that passes stitches its longest, in the row: the longest first. */
  readonly floats: readonly { readonly colour: string; readonly longest: number }[];
  /** Columns behind which a strand is caught. */
  readonly catches: readonly number[];
  /** Columns of ladders behind a strand that is too long to catch. */
  readonly ladders: readonly number[];
}

export interface BuiltAlignment extends Alignment {
  /** What would line the two up, set them off by half a repeat, or set them apart. */
  readonly ways: readonly Mend[];
}

export interface BuiltRounds {
  readonly section: string;
  readonly size: string;
  readonly band: string;
  readonly stitches: number;
  readonly repeat: number;
  /** Stitches over whole repeats; null where the piece is shaped at its edges there. */
  readonly over: number | null;
  readonly opposite: ReturnType<typeof oppositeShows>;
}

export interface BuiltChart {
  /** Chart colours; null for a chart without a stitch. */
  /** By her word, else as found; null without a stitch. */
  readonly main: string | null;
  readonly foundMain: string | null;
  readonly contrasts: readonly string[];
  /** Lowest first. */
  readonly bands: readonly BuiltBand[];
  readonly rows: readonly BuiltRow[];
  readonly alignments: readonly BuiltAlignment[];
  readonly rounds: readonly BuiltRounds[];
  readonly throughDecreases: readonly (ReturnType<typeof meetingsThroughDecreases>[number] & {
    readonly section: string;
    readonly size: string;
  })[];
  /** Stitches that a strand may pass uncaught, and the length in cm that it comes from. */
  readonly limit: { readonly stitches: number; readonly cm: number; readonly usualCm: number };
}

/** null where there is no such chart. */
export function builtChart(project: Project, question: BuiltChartQuestion): BuiltChart | null {
  const { pattern, yarns, knitting } = project;
  const chart = pattern.charts.find(({ id }) => id === question.chart);
  if (!chart) return null;
  const colourway = colourwayOf(project, question.colourway);
  const cloth = clothOf({ chart, pattern, yarns, colourway });
  const { grid } = cloth;
  const { bands: built, alignments, bandOfRow } = structureIn(cloth);
  const idsOf = (colours: readonly number[]): string[] => colours.map((colour) => grid.ids[colour]!);
  const plain = clothOfPattern({ chart, pattern });
  const found = mainColour(grid, built);
  // Her word, where the colour is knitted here.
  const said = grid.ids.findIndex((id) => pattern.colours.some((colour) => colour.id === id && colour.role === "main"));
  const main = said >= 0 ? said : found.main;
  const contrasts = [found.main, ...found.contrasts].flatMap((one) => (one === null || one === main ? [] : [one]));
  const bandOf = new Map(built.map((one) => [one.band.id, one]));
  const cm = knitting?.floatCm ?? THRESHOLDS.floatCm;
  return {
    main: main === null ? null : grid.ids[main]!,
    foundMain: found.main === null ? null : grid.ids[found.main]!,
    contrasts: idsOf(contrasts),
    bands: built.map((one) => ({
      id: one.band.id,
      rows: one.band.rows,
      kind: one.kind,
      colours: idsOf(one.band.colours),
      ground: idsOf(one.band.grounds),
      pattern: idsOf(one.band.pattern),
      repeat: one.repeat,
      axes: { across: one.mirrors.across, up: one.mirrors.up },
      middle: bandOfRow[one.band.rows[0] - 1]?.centre?.column ?? null,
      shaded: one.shaded,
      echo: one.echo && { ...one.echo, rows: bandOf.get(one.echo.of)!.band.rows },
      crossed: valueSides(plain, one.band).crossed,
      said: one.band.declared ?? null,
    })),
    rows: rowsOf(built, cloth, pattern, cm),
    alignments: alignments.map((one) => ({ ...one, ways: waysOf(one) })),
    ...roundsOf(),
    limit: { stitches: comfortableFloat(pattern.gauge.stitches, cm), cm, usualCm: THRESHOLDS.floatCm },
  };

  function waysOf(one: Alignment): Mend[] {
    const both = [bandOf.get(one.below)!, bandOf.get(one.above)!] as const;
    const laid = { chart: chart!, now: { cloth } };
    const moves = one.offBy !== null && Number.isInteger(one.offBy) && one.meets !== "drifting";
    return [
      ...(moves ? shifts({ pattern, colourway }, laid, one, both) : []),
      ...(one.between <= THRESHOLDS.rowsBetween ? [spacing({ pattern, colourway }, laid, one, both)] : []),
    ];
  }

  function roundsOf(): Pick<BuiltChart, "rounds" | "throughDecreases"> {
    const knitted = (pattern.sections ?? [])
      .filter((section) => section.chart === chart!.id && section.on !== false)
      .flatMap((section) =>
        Object.keys(section.rounds).map((size) => ({ section, size, bands: bandRounds(section, bandOfRow, size) })),
      );
    return {
      rounds: knitted.flatMap(({ section, size, bands }) =>
        bands.map(({ band, stitches: [stitches], over }) => ({
          section: section.name ?? section.id,
          size,
          band: band.id,
          stitches,
          repeat: band.repeat,
          over,
          opposite: oppositeShows(stitches, band.repeat),
        })),
      ),
      throughDecreases: knitted.flatMap(({ section, size, bands }) =>
        meetingsThroughDecreases(section, bands, size).map((one) => ({
          ...one,
          section: section.name ?? section.id,
          size,
        })),
      ),
    };
  }
}

function rowsOf(built: readonly BandStructure[], cloth: Cloth, pattern: Pattern, cm: number): BuiltRow[] {
  const { laid, catches, limit } = strandsOf(cloth, cm, pattern);
  const caught = new Map<number, number[]>();
  for (const { row, column } of catches) caught.set(row, [...(caught.get(row) ?? []), column]);
  return built.flatMap(({ rows }) =>
    rows.map(({ row, kind, ground, pattern }): BuiltRow => {
      const floats = floatsInRow(laid, row, cloth.chart.worked ?? "round").toSorted((a, b) => b.length - a.length);
      const longest = new Map<number, number>();
      for (const float of floats) if (!longest.has(float.colour)) longest.set(float.colour, float.length);
      return {
        row,
        kind,
        ground: cloth.grid.ids[ground] ?? null,
        pattern: pattern.map((colour) => cloth.grid.ids[colour]!),
        floats: [...longest].map(([strand, length]) => ({ colour: cloth.inks[strand]!.colour, longest: length })),
        catches: caught.get(row) ?? [],
        ladders: floats.filter(({ length }) => length > 2 * limit).flatMap((float) => laddersIn(laid, float)),
      };
    }),
  );
}
