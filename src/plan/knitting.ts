/** What is knitted in one size, round by round: the sections that are on, or one use of each chart where there are none. */
import type { Problem } from "../base/problem.ts";
import { gridOf, NO_STITCH, type Grid } from "../chart/chart.ts";
import type { Worked } from "../chart/floats.ts";
import type { Pattern } from "../fabric/pattern.ts";
import type { Gauge } from "../garment/gauge.ts";
import { roundsOf, stitchesBeside, type Section } from "../garment/sections.ts";
import { columnsOfRound } from "./roundUse.ts";

export interface KnittedRound {
  readonly round: number;
  readonly chartRow: number;
  /** Chart column of every stitch, right to left. */
  readonly columns: readonly number[];
  /** Stitches of steeks and panels, worked in the round's strands by turns. */
  readonly beside: number;
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
  /** Stitches that are cast on for its first round: all of them, or none. */
  readonly castOn: number;
  /** Stitches that are cast off or grafted after its last round. */
  readonly castOff: number;
  /** Whether a steek lies at its rounds' beginning or in them: where yarns are joined. */
  readonly hasSteek: boolean;
}

/** Stitches of a round, with those beside the chart's. */
export const stitchesOfRound = ({ columns, beside }: KnittedRound): number => columns.length + beside;

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
    const next = knittedSection(pattern, section, size, problems);
    if (next && next.rounds.length > 0) knitted.push(next);
  }
  return { size, sections: withEdges(knitted, sections), problems };
}

/**
 * Where sections say what they go on from, the ones that go on from none are cast on, and what no other takes over is cast off. Where none says
 * so, one that begins with as many stitches as the section before it ended with goes on from there.
 */
function withEdges(knitted: readonly KnittedSection[], sections: readonly Section[]): KnittedSection[] {
  const fromOf = new Map(sections.map(({ id, from }) => [id, from]));
  const first = (one: KnittedSection): number => stitchesOfRound(one.rounds[0]!);
  const last = (one: KnittedSection): number => stitchesOfRound(one.rounds.at(-1)!);
  if (!saysFrom(sections))
    return knitted.map((one, index) => {
      const [before, after] = [knitted[index - 1], knitted[index + 1]];
      const continues = before !== undefined && last(before) === first(one);
      const continued = after !== undefined && last(one) === first(after);
      return { ...one, castOn: continues ? 0 : first(one), castOff: continued ? 0 : last(one) };
    });
  const before = (one: KnittedSection): KnittedSection[] =>
    knitted.filter(({ id }) => fromOf.get(one.id)?.includes(id));
  return knitted.map((one) => {
    const taken = knitted
      .filter((other) => fromOf.get(other.id)?.includes(one.id))
      .reduce((sum, other) => {
        const offered = before(other).reduce((all, lower) => all + last(lower), 0);
        return sum + (first(other) * last(one)) / offered;
      }, 0);
    // A section left out has others that go on from it: they are cast on instead.
    const castOn = before(one).length === 0 ? first(one) : 0;
    return { ...one, castOn, castOff: Math.max(0, Math.round(last(one) - taken)) };
  });
}

/** Whether the sections tell what they go on from. */
export const saysFrom = (sections: readonly Section[]): boolean => sections.some(({ from }) => from !== undefined);

/** Ids of the sizes by the pattern's own list, else as its sections name them. */
export function sizesOf({ sizes = [], sections = [] }: Pattern): string[] {
  const named = sizes.map(({ id }) => id);
  return named.length > 0 ? named : [...new Set(sections.flatMap((section) => Object.keys(section.rounds)))];
}

function knittedSection(pattern: Pattern, section: Section, size: string, problems: Problem[]): KnittedSection | null {
  const where = `section "${section.name ?? section.id}"`;
  const chart = pattern.charts.find(({ id }) => id === section.chart);
  if (!chart || chart.rows.length === 0) {
    problems.push({ where, expected: "a chart of the pattern", got: `"${section.chart}"`, severity: "fault" });
    return null;
  }
  const grid = gridOf(chart);
  const beside = stitchesBeside(section, size);
  const rounds: KnittedRound[] = [];
  for (const { round, chartRow, stitches, startColumn, gaps } of roundsOf(section, grid.height, size)) {
    const columns = columnsOfRound(grid, chartRow, stitches, startColumn, gaps);
    if (columns.length === 0) {
      const got = stitches === 0 ? "none" : `row ${chartRow} of the chart, which has none`;
      problems.push({ where: `${where}, round ${round}`, expected: "stitches", got, severity: "fault" });
    } else rounds.push({ round, chartRow, columns, beside });
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
    castOn: 0,
    castOff: 0,
    hasSteek: (section.beside ?? []).some(({ kind, stitches: by }) => kind === "steek" && (by[size] ?? 0) > 0),
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
        return { round: index + 1, chartRow: index + 1, columns: columnsOfRound(grid, index + 1, stitches), beside: 0 };
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
        castOn: rounds[0]?.columns.length ?? 0,
        castOff: rounds.at(-1)?.columns.length ?? 0,
        hasSteek: false,
      };
    });
}
