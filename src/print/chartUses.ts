/** Which charts a knitter needs in front of her: each once, and again wherever a change by round gives it other yarns. */
import { findBands, type Band } from "../chart/bands.ts";
import { gridOf, NO_STITCH, type Chart, type Grid } from "../chart/chart.ts";
import { rowColours } from "../chart/counts.ts";
import { horizontalPeriod } from "../chart/repeats.ts";
import { yarnInRound, yarnInRow, type Colourway } from "../fabric/colourway.ts";
import type { Pattern } from "../fabric/pattern.ts";
import type { Gauge } from "../garment/gauge.ts";
import { roundsOf, type Section } from "../garment/sections.ts";
import { UNASSIGNED } from "../plan/tallySection.ts";
import { range } from "./page.ts";

export interface ChartUse {
  readonly chart: Chart;
  /** The chart's colours. */
  readonly grid: Grid;
  /** The same stitches by strand: its ids are yarns, or UNASSIGNED and a chart colour. */
  readonly strands: Grid;
  /** Rows that are knitted, inclusive. */
  readonly rows: readonly [number, number];
  readonly gauge: Gauge;
  readonly bands: readonly Band[];
  /** Width of the repeat of all these rows, in stitches. */
  readonly repeat: number;
  /** Ids of the sections that knit the chart. */
  readonly sections: readonly string[];
  /** "body, rounds 1–60"; null where the chart is the same wherever it is used. */
  readonly places: string | null;
}

/**
 * Each chart once; where a change is named by a section's rounds, once for each different set of yarns, with the rounds
 * it is for. A section's pass through its chart is compared row by row with those before it.
 */
export function chartUses(pattern: Pattern, colourway: Colourway, size?: string): ChartUse[] {
  const byRound = (colourway.changes ?? []).some(({ at }) => "section" in at);
  const sections = (pattern.sections ?? []).filter(({ on }) => on !== false);
  return pattern.charts
    .filter(({ rows }) => rows.length > 0)
    .flatMap((chart) => {
      const here = sections.filter((section) => section.chart === chart.id);
      const passes =
        byRound && size !== undefined ? here.flatMap((section) => passesOf(section, chart, colourway, size)) : [];
      const grid = gridOf(chart);
      const ids = here.map(({ id }) => id);
      const bands = findBands(chart, grid);
      const gauge = here.find((section) => section.gauge)?.gauge ?? pattern.gauge;
      if (passes.length === 0) {
        const yarnsOf = rowsOf([1, grid.height]).map((row) =>
          grid.ids.map((colour) => yarnInRow(colourway, colour, chart.id, row) ?? UNASSIGNED + colour),
        );
        return [
          useOf(
            { chart, grid, gauge, bands, rows: [1, grid.height], sections: ids, places: null },
            (row) => yarnsOf[row - 1]!,
          ),
        ];
      }
      return merged(passes, grid).map(({ rows, yarnsOf, places }) =>
        useOf({ chart, grid, gauge, bands, rows, sections: ids, places: placesText(places) }, (row) =>
          yarnsOf.get(row)!,
        ),
      );
    });
}

/** One way through the chart, from the bottom or where the section begins, up to its top or where the section ends. */
interface Pass {
  rows: [number, number];
  /** Strand of each chart colour, by chart row. */
  yarnsOf: Map<number, string[]>;
  places: Span[];
}

interface Span {
  readonly name: string;
  readonly rounds: readonly [number, number];
}

function passesOf(section: Section, chart: Chart, colourway: Colourway, size: string): Pass[] {
  const grid = gridOf(chart);
  const passes: Pass[] = [];
  let rounds: [number, number] = [1, 0];
  const name = section.name ?? section.id;
  for (const { round, chartRow: row } of roundsOf(section, grid.height, size)) {
    const strands = grid.ids.map(
      (colour) =>
        yarnInRound(colourway, colour, { section: section.id, round, chart: chart.id, row }) ?? UNASSIGNED + colour,
    );
    let pass = passes.at(-1);
    if (!pass || row <= pass.rows[1]) {
      rounds = [round, round];
      pass = { rows: [row, row], yarnsOf: new Map(), places: [] };
      passes.push(pass);
    }
    rounds = [rounds[0], round];
    pass.rows[1] = row;
    pass.yarnsOf.set(row, strands);
    pass.places = [{ name, rounds }];
  }
  return passes;
}

function merged(passes: readonly Pass[], grid: Grid): Pass[] {
  const distinct: Pass[] = [];
  for (const pass of passes) {
    const same = distinct.find((other) => agree(other, pass, grid));
    if (!same) {
      distinct.push({ ...pass, yarnsOf: new Map(pass.yarnsOf) });
      continue;
    }
    same.rows = [Math.min(same.rows[0], pass.rows[0]), Math.max(same.rows[1], pass.rows[1])];
    for (const [row, strands] of pass.yarnsOf) same.yarnsOf.set(row, strands);
    same.places = joined([...same.places, ...pass.places]);
  }
  return distinct;
}

/** Rounds that follow one another are one span. */
function joined(spans: readonly Span[]): Span[] {
  const joint: Span[] = [];
  for (const span of spans) {
    const last = joint.at(-1);
    if (last?.name === span.name && last.rounds[1] + 1 === span.rounds[0]) {
      joint[joint.length - 1] = { name: span.name, rounds: [last.rounds[0], span.rounds[1]] };
    } else joint.push(span);
  }
  return joint;
}

const placesText = (spans: readonly Span[]): string =>
  spans.map(({ name, rounds }) => `${name}, rounds ${range(rounds)}`).join("; ");

/** Whether two passes share rows and knit all of these with the same strands. */
function agree(a: Pass, b: Pass, grid: Grid): boolean {
  const shared = [...b.yarnsOf.keys()].filter((row) => a.yarnsOf.has(row));
  return (
    shared.length > 0 &&
    shared.every((row) =>
      rowColours(grid, row).every((colour) => a.yarnsOf.get(row)![colour] === b.yarnsOf.get(row)![colour]),
    )
  );
}

function useOf(use: Omit<ChartUse, "strands" | "repeat">, strandsOf: (row: number) => readonly string[]): ChartUse {
  const { grid } = use;
  const ids: string[] = [];
  const indexOf = new Map<string, number>();
  const cells = new Uint8Array(grid.cells.length).fill(NO_STITCH);
  for (const row of rowsOf(use.rows)) {
    const strands = strandsOf(row);
    for (let at = (row - 1) * grid.width; at < row * grid.width; at++) {
      const colour = grid.cells[at]!;
      if (colour === NO_STITCH) continue;
      const strand = strands[colour]!;
      if (!indexOf.has(strand)) {
        indexOf.set(strand, ids.length);
        ids.push(strand);
      }
      cells[at] = indexOf.get(strand)!;
    }
  }
  const repeat = horizontalPeriod(grid, use.rows[0], use.rows[1]);
  return { ...use, repeat, strands: { width: grid.width, height: grid.height, ids, cells } };
}

const rowsOf = ([from, to]: readonly [number, number]): number[] =>
  Array.from({ length: to - from + 1 }, (_, index) => from + index);
