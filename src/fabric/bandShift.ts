/** A band shifted sideways in pattern and colourways: its stitches, and what is laid on them, move together. */
import { remainder } from "../base/divisors.ts";
import type { Chart } from "../chart/chart.ts";
import { shiftedRows } from "../chart/shift.ts";
import type { Colourway, OverStitch } from "./colourway.ts";
import type { Pattern } from "./pattern.ts";

export interface BandShift {
  readonly kind: "shiftBand";
  readonly chart: string;
  readonly rows: readonly [number, number];
  /** Stitches to the left, on in the order of knitting; below 0 to the right. */
  readonly by: number;
  /** The band's repeat in stitches. */
  readonly repeat: number;
}

/** The pattern with the band shifted; a line of mirroring that she has named moves with it. */
export function shiftedPattern(pattern: Pattern, shift: BandShift): Pattern {
  return {
    ...pattern,
    charts: pattern.charts.map((chart) => (chart.id === shift.chart ? shiftedChart(chart, shift) : chart)),
  };
}

function shiftedChart(chart: Chart, { rows, by, repeat }: BandShift): Chart {
  const [from, to] = rows;
  const width = chart.rows[0]!.length;
  return {
    ...chart,
    rows: shiftedRows(chart.rows, { rows, by, repeat }),
    ...(chart.bands && {
      bands: chart.bands.map((band) =>
        typeof band.axis === "number" && band.rows[0] >= from && band.rows[1] <= to
          ? { ...band, axis: remainder(band.axis - 1 + by, width) + 1 }
          : band,
      ),
    }),
  };
}

/** The colourway with what is laid on the band's stitches moved too. The pattern's width stays as it is, before the shift or after. */
export function shiftedColourway(colourway: Colourway, shift: BandShift, pattern: Pattern): Colourway {
  const chart = pattern.charts.find(({ id }) => id === shift.chart);
  if (!colourway.overStitched || !chart) return colourway;
  const width = chart.rows[0]!.length;
  return {
    ...colourway,
    overStitched: colourway.overStitched.map((over) =>
      liesOn(over, shift.chart, pattern) ? shiftedOver(over, shift, width) : over,
    ),
  };
}

export const liesOn = ({ at }: OverStitch, chart: string, { sections = [] }: Pattern): boolean =>
  "chart" in at ? at.chart === chart : sections.some((section) => section.id === at.section && section.chart === chart);

/** Whether a line of embroidery in the band would run out at one edge of the chart and could not come in at the other whole. */
export function partsALine(colourway: Colourway, shift: BandShift, pattern: Pattern): boolean {
  const width = pattern.charts.find(({ id }) => id === shift.chart)?.rows[0]?.length ?? 0;
  return (colourway.overStitched ?? []).some(
    (over) =>
      liesOn(over, shift.chart, pattern) &&
      (over.lines ?? []).some(
        (line) => liesIn(line, shift) && remainder(rightOf(line) + shift.by, width) + lengthOf(line) > width,
      ),
  );
}

type Line = NonNullable<OverStitch["lines"]>[number];

const liesIn = (line: Line, { rows: [from, to] }: BandShift): boolean =>
  line.every(([rowLine]) => rowLine >= from - 1 && rowLine <= to);
const rightOf = (line: Line): number => Math.min(...line.map(([, columnLine]) => columnLine));
const lengthOf = ([one, other]: Line): number => Math.abs(one[1] - other[1]);

function shiftedOver(over: OverStitch, shift: BandShift, width: number): OverStitch {
  const { rows, by } = shift;
  const { cells, lines } = over;
  const moved = (line: Line): Line => {
    const step = remainder(rightOf(line) + by, width) - rightOf(line);
    return line.map(([rowLine, columnLine]) => [rowLine, columnLine + step]) as Line;
  };
  return {
    ...over,
    ...(cells && {
      cells: cells.map(([row, column]): [number, number] =>
        row >= rows[0] && row <= rows[1] ? [row, remainder(column - 1 + by, width) + 1] : [row, column],
      ),
    }),
    ...(lines && { lines: lines.map((line) => (liesIn(line, shift) ? moved(line) : line)) }),
  };
}
