/** What is knitted in one size, round by round: the sections that are on, or one use of each chart where there are none. */
import type { Problem } from "../base/problem.ts";
import { gridOf, NO_STITCH, type Grid } from "../chart/chart.ts";
import type { Worked } from "../chart/floats.ts";
import type { Pattern } from "../fabric/pattern.ts";
import type { Gauge } from "../garment/gauge.ts";
import { roundsOf, type Section } from "../garment/sections.ts";
import { columnsOfRound } from "./roundUse.ts";

export interface KnittedRound {
  readonly round: number;
  readonly chartRow: number;
  /** Chart column of every stitch, right to left. */
  readonly columns: readonly number[];
}

export interface KnittedSection {
  readonly id: string;
  readonly name: string;
  readonly chart: string;
  readonly grid: Grid;
  readonly worked: Worked;
  readonly gauge: Gauge;
  readonly rounds: readonly KnittedRound[];
  /** Null where the chart stands for itself, because the pattern has no sections. */
  readonly section: string | null;
  /** Whether its first round is worked on the stitches that the section before it ended with. */
  readonly continues: boolean;
  /** Whether the section after it does so. */
  readonly continued: boolean;
}

export interface Knitting {
  readonly size: string | null;
  readonly sections: readonly KnittedSection[];
  readonly problems: readonly Problem[];
}

export function knittingOf(pattern: Pattern, wantedSize?: string): Knitting {
  const sections = pattern.sections ?? [];
  if (sections.length === 0) return { size: null, sections: oneUseOfEachChart(pattern), problems: [] };
  const sizes = sizesOf(pattern);
  const size = wantedSize ?? sizes[0];
  if (size === undefined || !sizes.includes(size)) {
    const expected = sizes.length > 0 ? `one of ${sizes.map((id) => `"${id}"`).join(", ")}` : "a section with rounds";
    const got = size === undefined ? "none" : `"${size}"`;
    return { size: size ?? null, sections: [], problems: [{ where: "size", expected, got, severity: "fault" }] };
  }
  const problems: Problem[] = [];
  const knitted: KnittedSection[] = [];
  for (const section of sections) {
    if (section.on === false) continue;
    const before = knitted.at(-1)?.rounds.at(-1)?.columns.length;
    const next = knittedSection(pattern, section, size, before, problems);
    if (next && next.rounds.length > 0) knitted.push(next);
  }
  const joined = knitted.map((section, index) => ({ ...section, continued: knitted[index + 1]?.continues ?? false }));
  return { size, sections: joined, problems };
}

/** Ids of the sizes by the pattern's own list, else as its sections name them. */
export function sizesOf({ sizes = [], sections = [] }: Pattern): string[] {
  const named = sizes.map(({ id }) => id);
  return named.length > 0 ? named : [...new Set(sections.flatMap((section) => Object.keys(section.rounds)))];
}

function knittedSection(
  pattern: Pattern,
  section: Section,
  size: string,
  stitchesBefore: number | undefined,
  problems: Problem[],
): KnittedSection | null {
  const where = `section "${section.name ?? section.id}"`;
  const chart = pattern.charts.find(({ id }) => id === section.chart);
  if (!chart || chart.rows.length === 0) {
    problems.push({ where, expected: "a chart of the pattern", got: `"${section.chart}"`, severity: "fault" });
    return null;
  }
  const grid = gridOf(chart);
  const rounds: KnittedRound[] = [];
  for (const { round, chartRow, stitches, startColumn } of roundsOf(section, grid.height, size)) {
    const columns = columnsOfRound(grid, chartRow, stitches, startColumn);
    if (columns.length === 0) {
      const got = stitches === 0 ? "none" : `row ${chartRow} of the chart, which has none`;
      problems.push({ where: `${where}, round ${round}`, expected: "stitches", got, severity: "fault" });
    } else rounds.push({ round, chartRow, columns });
  }
  return {
    id: section.id,
    name: section.name ?? section.id,
    chart: chart.id,
    grid,
    worked: chart.worked ?? "round",
    gauge: section.gauge ?? pattern.gauge,
    rounds,
    section: section.id,
    continues: stitchesBefore !== undefined && stitchesBefore === rounds[0]?.columns.length,
    continued: false,
  };
}

function oneUseOfEachChart(pattern: Pattern): KnittedSection[] {
  return pattern.charts
    .filter((chart) => chart.rows.length > 0)
    .map((chart) => {
      const grid = gridOf(chart);
      const rounds = Array.from({ length: grid.height }, (_, index) => {
        const cells = grid.cells.subarray(index * grid.width, (index + 1) * grid.width);
        const stitches = cells.reduce((sum, cell) => sum + (cell === NO_STITCH ? 0 : 1), 0);
        return { round: index + 1, chartRow: index + 1, columns: columnsOfRound(grid, index + 1, stitches) };
      }).filter(({ columns }) => columns.length > 0);
      return {
        id: chart.id,
        name: chart.name ?? chart.id,
        chart: chart.id,
        grid,
        worked: chart.worked ?? "round",
        gauge: pattern.gauge,
        rounds,
        section: null,
        continues: false,
        continued: false,
      };
    });
}
