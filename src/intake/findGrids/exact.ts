/** Charts whose stitches and lines are rectangles to the pixel: their grids are read, not estimated. */
import type { Pixels } from "../../raster/pixels.ts";
import { gridOfLines, type ChartGrid } from "../chartGrid.ts";
import type { Span } from "../crisp.ts";
import { chooseCrisp, type ChosenChart } from "../crispChoice.ts";
import { edgesOf } from "../edges.ts";

export interface ExactGrid {
  readonly grid: ChartGrid;
  readonly lined: boolean;
  /** Whether the picture leaves open where the chart ends. */
  readonly edgeOpen: boolean;
}

export interface ExactReading {
  readonly grids: ExactGrid[];
  /** The whole picture as one pixel to the stitch, for want of anything better; null where it has too many colours for that. */
  readonly single: ExactGrid | null;
}

export function exactGrids(pixels: Pixels): ExactReading {
  if (pixels.width < 2 || pixels.height < 2) return { grids: [], single: null };
  const charts = chooseCrisp(edgesOf(pixels));
  const [first] = charts;
  if (!first || first.columns.length < first.box.width || first.rows.length < first.box.height)
    return { grids: charts.map(gridOf), single: null };
  // Any picture could be read so, but then it has more colours, or changes at few of its pixels' borders.
  const changing = first.stretches / (first.columns.length + first.rows.length);
  if (changing < LEAST_CHANGING || !hasFewColours(pixels)) return { grids: [], single: null };
  const single = gridOf(first);
  return changing < MOSTLY_CHANGING ? { grids: [], single } : { grids: [single], single: null };
}

function gridOf({ columns, rows, lined, edgeOpen }: ChosenChart): ExactGrid {
  return { grid: gridOfLines(bordersOf(columns), bordersOf(rows)), lined, edgeOpen };
}

/** In the middle between two stitches; half as far beyond the first and the last. */
function bordersOf(spans: readonly Span[]): number[] {
  const gap = (spans.at(-1)!.from - spans.at(-2)!.to) / 2;
  return [
    spans[0]!.from - gap,
    ...spans.slice(1).map(({ from }, index) => (from + spans[index]!.to) / 2),
    spans.at(-1)!.to + gap,
  ];
}

function hasFewColours({ rgba }: Pixels): boolean {
  const colours = new Set<number>();
  for (let at = 0; at < rgba.length; at += 4) {
    colours.add((rgba[at]! << 16) | (rgba[at + 1]! << 8) | rgba[at + 2]!);
    if (colours.size > MOST_COLOURS) return false;
  }
  return colours.size > 1;
}

/** What is drawn between pixels has more colours than this, by its blends. */
const MOST_COLOURS = 24;
/** Parts of the borders between pixels: a stitch of more pixels than one has none within it. */
const LEAST_CHANGING = 0.35;
const MOSTLY_CHANGING = 0.75;
