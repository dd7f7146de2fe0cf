/** Bands: neighbouring rows that read as one strip of motif, with the roles that colours have in them. */
import type { Chart, ChartBand, Grid, Want } from "./chart.ts";
import { countStitches, rowColours } from "./counts.ts";
import { sameBand } from "./echoes.ts";
import { NO_GROUND, rowGrounds } from "./grounds.ts";
import { horizontalPeriod } from "./repeats.ts";
import { stripsOf } from "./shading.ts";
import type { Rows } from "./strip.ts";

export interface Band {
  /** "b1", "b2" … from the bottom of the chart. */
  readonly id: string;
  readonly rows: Rows;
  /** Colours that occur, most stitches first. */
  readonly colours: readonly number[];
  /** The ground of most stitches; NO_GROUND in rows without a stitch. */
  readonly ground: number;
  /** All shades of the ground, most stitches first: one unless the ground is shaded. */
  readonly grounds: readonly number[];
  /** The ground of each row, lowest first, or NO_GROUND. */
  readonly groundOfRow: readonly number[];
  /** Colours that lie on a ground in some row, most stitches first; none in a band of plain rows. */
  readonly pattern: readonly number[];
  readonly want?: Want;
  readonly name?: string;
  /** Width of the repeat in stitches. */
  readonly period: number;
  /** The first band from the bottom that this is again, shifted or in other colours; only from 3 rows high. */
  readonly echoOf: string | null;
  /** What the chart says of it; missing where it was found. */
  readonly declared?: ChartBand;
}

/** Lower strips recur by chance. Birthplace: our choice. */
export const LOWEST_ECHO = 3;

/**
 * The bands of a chart from the bottom; every row lies in exactly one. Bands that the chart declares win, and where
 * two of them overlap the lower keeps the rows. Between them:
 *
 * - rows of one colour belong to no motif; neighbouring ones are a band of their own, without pattern. The exception
 *   is a single plain row that is the centre of a vertically mirrored motif whose halves are not mirrored themselves
 *   (a star has one; a diamond, a plain row and the same diamond are three bands);
 * - rows of two and more colours part where the set of colours changes, except inside a motif that mirrors about a
 *   centre row and is shaded: see `stripsOf` in shading.ts;
 * - rows of the same colours part where the motif changes: see `motifsIn` in motifChange.ts.
 *
 * Limits, where the chart should declare its bands: two motifs in the same colours without a plain row between them
 * stay one band where their repeats go into one another and one of them does not mirror about a row of its own; a shaded motif that does not mirror about a row (a zigzag, an even number of rows) is cut at each
 * change of colours, and so is a shaded one where ground and pattern change on the same row; all-over fillings with
 * plain rows in them (scattered seeds) are cut at those; so is a star with two plain centre rows.
 */
export function findBands(chart: Pick<Chart, "bands">, grid: Grid): Band[] {
  const bands: Band[] = [];
  const chartStitches = countStitches(grid);
  for (const strip of strips(chart, grid)) {
    const band = { id: `b${bands.length + 1}`, ...strip, ...roles(grid, strip, chartStitches) };
    bands.push({ ...band, echoOf: echoed(grid, band, bands)?.id ?? null });
  }
  return bands;
}

/** The first of the bands below that a band is again; her word for it before what is found. */
function echoed(
  grid: Grid,
  band: Pick<Band, "rows" | "pattern" | "declared">,
  below: readonly Band[],
): Band | undefined {
  const said = band.declared?.echoOf;
  if (said !== undefined) return said === null ? undefined : below.find(({ rows }) => overlap(rows, said));
  const [from, to] = band.rows;
  if (band.pattern.length === 0 || to - from + 1 < LOWEST_ECHO) return undefined;
  return below.find((earlier) => earlier.pattern.length > 0 && sameBand(grid, earlier, band));
}

const overlap = (one: Rows, other: Rows): boolean => one[0] <= other[1] && other[0] <= one[1];

interface Strip {
  readonly rows: Rows;
  readonly want?: Want;
  readonly name?: string;
  readonly declared?: ChartBand;
}

function strips(chart: Pick<Chart, "bands">, grid: Grid): Strip[] {
  const found: Strip[] = [];
  let next = 1;
  for (const declared of (chart.bands ?? []).toSorted((a, b) => a.rows[0] - b.rows[0])) {
    const from = Math.max(next, declared.rows[0]);
    const to = Math.min(grid.height, declared.rows[1]);
    if (to < from) continue;
    const { want, name } = declared;
    found.push(...automaticStrips(grid, next, from - 1), {
      rows: [from, to],
      ...(want === undefined ? {} : { want }),
      ...(name === undefined ? {} : { name }),
      declared,
    });
    next = to + 1;
  }
  return [...found, ...automaticStrips(grid, next, grid.height)];
}

function automaticStrips(grid: Grid, from: number, to: number): Strip[] {
  return to < from ? [] : stripsOf(grid, from, to).map((rows) => ({ rows }));
}

function roles(
  grid: Grid,
  strip: Strip,
  chartStitches: readonly number[],
): Pick<Band, "colours" | "ground" | "grounds" | "groundOfRow" | "pattern" | "period"> {
  const [from, to] = strip.rows;
  const stitches = countStitches(grid, from, to);
  const onGround = grid.ids.map(() => 0);
  const asGround = grid.ids.map(() => 0);
  const said = (strip.declared?.ground ?? []).map((id) => grid.ids.indexOf(id));
  const groundOfRow = rowGrounds(grid, from, to, chartStitches, said);
  for (const [index, ground] of groundOfRow.entries()) {
    const row = from + index;
    const inRow = countStitches(grid, row, row);
    for (const colour of rowColours(grid, row)) (colour === ground ? asGround : onGround)[colour]! += inRow[colour]!;
  }
  const colours = byCount(stitches);
  const grounds = byCount(asGround);
  const ground = grounds[0] ?? colours[0] ?? NO_GROUND;
  const pattern = byCount(onGround).filter((colour) => colour !== ground);
  return { colours, ground, grounds, groundOfRow, pattern, period: horizontalPeriod(grid, from, to) };
}

/** Indices that occur, most first. */
const byCount = (counts: readonly number[]): number[] =>
  counts.flatMap((count, index) => (count > 0 ? [index] : [])).sort((a, b) => counts[b]! - counts[a]!);
