/** Finds every chart of a picture: where the lines of its grid cross, however the page lay before the camera. */
import { assert } from "../base/assert.ts";
import type { Problem } from "../base/problem.ts";
import type { Pixels } from "../raster/pixels.ts";
import { cornersOfGrid, type ChartGrid, type Point } from "./chartGrid.ts";
import { edgeField, type EdgeField } from "./findGrids/edgeField.ts";
import { exactGrids, type ExactGrid } from "./findGrids/exact.ts";
import { between, gridOfSheet, isWithin, overlaps } from "./findGrids/gridShape.ts";
import { refinedSheet } from "./findGrids/grow.ts";
import { FINE_PITCH, levelsOf, type Level } from "./findGrids/levels.ts";
import { ruledGrids, type RuledGrid } from "./findGrids/ruled.ts";
import { mask, nextChart } from "./findGrids/search.ts";
import { sheetOfCorners, type Sheet } from "./findGrids/sheet.ts";

export interface FoundGrid {
  readonly grid: ChartGrid;
  /** 0 to 1 that grid, counts and place are right. */
  readonly confidence: number;
  readonly lined: boolean;
  /** Upright, whole-pixel cells, flat colours. */
  readonly exact: boolean;
  readonly doubts: Problem[];
}

export interface FindOptions {
  readonly onStep?: (share: number) => void;
  readonly within?: readonly Point[];
}

export function findGrids(pixels: Pixels, options: FindOptions = {}): { grids: FoundGrid[]; why: string | null } {
  if (options.within) return findWithin(pixels, options.within);
  if (Math.min(pixels.width, pixels.height) < 2) return { grids: [], why: "a picture too small for a chart" };
  const exact = exactGrids(pixels);
  if (exact.grids.length > 0) return { grids: exact.grids.map(foundExactly), why: null };
  const levels = levelsOf(pixels);
  let told = 0;
  const tell = (share: number): void => {
    if (share > told) options.onStep?.((told = share));
  };
  tell(0.1);
  const fields = new Map<Level, EdgeField>();
  const fieldOf = (level: Level): EdgeField => {
    let field = fields.get(level);
    if (!field) fields.set(level, (field = edgeField(level)));
    tell(0.1 + (0.3 * fields.size) / levels.length);
    return field;
  };
  const grids: FoundGrid[] = [];
  let failures = 0;
  while (grids.length < MOST_CHARTS && failures < MOST_FAILURES) {
    const tried = nextChart(levels, fieldOf);
    if (!tried) break;
    const { found, searched } = tried;
    const isNew =
      found && found.confidence >= LEAST_CONFIDENCE && !grids.some(({ grid }) => overlaps(grid, found.grid));
    if (isNew) grids.push(found);
    else failures++;
    // Nobody knows how many charts there are: each takes half of what is left.
    tell(1 - 0.5 ** (grids.length + failures));
    for (const level of levels)
      for (const grid of found ? [found.grid, searched] : [searched]) mask(fieldOf(level), grid);
  }
  const ruled = ruledGrids(levels[0]!).filter(({ share }) => share >= LEAST_RULED);
  const all = bestApart([...grids, ...ruled.map(foundRuled)]);
  if (all.length === 0 && exact.single) all.push(foundExactly(exact.single));
  return { grids: all, why: all.length === 0 ? "nothing that recurs at even steps" : null };
}

/** The grid between corners that she set: only its counts are looked for. */
function findWithin(pixels: Pixels, corners: readonly Point[]): { grids: FoundGrid[]; why: string | null } {
  assert(corners.length === 4, `${corners.length} corners`);
  const levels = levelsOf(pixels);
  const fields = new Map<Level, EdgeField>();
  const fieldOf = (level: Level): EdgeField => {
    let field = fields.get(level);
    if (!field) fields.set(level, (field = onlyWithin(edgeField(level), corners)));
    return field;
  };
  const found = nextChart(levels, fieldOf)?.found;
  if (!found) return { grids: [], why: "nothing that recurs at even steps between the corners" };
  const [a, b, c, d] = cornersOfGrid(found.grid);
  const span = ([px, py]: Point, [qx, qy]: Point): number => Math.hypot(qx - px, qy - py);
  const [e, f, g, h] = corners as readonly [Point, Point, Point, Point];
  const columns = Math.round((found.grid.columns * (span(e, f) + span(h, g))) / (span(a, b) + span(d, c)));
  const rows = Math.round((found.grid.rows * (span(e, h) + span(f, g))) / (span(a, d) + span(b, c)));
  if (columns < 2 || rows < 2) return { grids: [], why: "fewer than two stitches each way between the corners" };
  return { grids: [{ ...found, grid: refineGrid(pixels, gridBetween(corners, columns, rows)) }], why: null };
}

function onlyWithin(field: EdgeField, corners: readonly Point[]): EdgeField {
  const { width, height, scale, cosine, sine } = field;
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      if (isWithin(corners, (x + 0.5) * scale, (y + 0.5) * scale)) continue;
      cosine[y * width + x] = 0;
      sine[y * width + x] = 0;
    }
  return field;
}

function foundExactly({ grid, lined, edgeOpen }: ExactGrid): FoundGrid {
  const doubt: Problem = {
    where: "the edge of the chart",
    expected: "a line or a change of colour where the chart ends",
    got: "plain stitches or page, which look the same; compare the number of rows and stitches",
    severity: "doubt",
  };
  return { grid, lined, exact: true, confidence: edgeOpen ? OPEN_TRUST : 1, doubts: edgeOpen ? [doubt] : [] };
}

const foundRuled = ({ sheet, columns, rows, share }: RuledGrid): FoundGrid => ({
  grid: gridOfSheet(sheet, { left: 0, top: 0, columns, rows }),
  confidence: Math.min(1, share + 0.1),
  lined: true,
  exact: false,
  doubts: [],
});

/** The best first; what lies on a better one is left out. A part of a chart is found with fewer stitches than the whole. */
function bestApart(found: readonly FoundGrid[]): FoundGrid[] {
  const apart: FoundGrid[] = [];
  for (const one of found.toSorted((a, b) => worthOf(b) - worthOf(a)))
    if (!apart.some(({ grid }) => overlaps(grid, one.grid))) apart.push(one);
  return apart;
}

const worthOf = ({ confidence, grid }: FoundGrid): number => confidence * Math.sqrt(grid.columns * grid.rows);

/** The grid between four corners, clockwise from the top left, as a camera would see it; straight where they make no perspective. */
export function gridBetween(corners: readonly Point[], columns: number, rows: number): ChartGrid {
  assert(corners.length === 4, `${corners.length} corners`);
  const [a, b, c, d] = corners as readonly [Point, Point, Point, Point];
  const sheet = sheetOfCorners(corners, columns, rows) ?? {
    at: (column: number, row: number): [number, number] => {
      const [u, v] = [column / columns, row / rows];
      const mix = (axis: 0 | 1): number =>
        (a[axis] * (1 - u) + b[axis] * u) * (1 - v) + (d[axis] * (1 - u) + c[axis] * u) * v;
      return [mix(0), mix(1)];
    },
  };
  return gridOfSheet(sheet, { left: 0, top: 0, columns, rows });
}

/** A grid that was set roughly, moved to the lines and steps of colour that are drawn; its counts stay. */
export function refineGrid(pixels: Pixels, grid: ChartGrid): ChartGrid {
  const { columns, rows } = grid;
  const levels = levelsOf(pixels);
  const set: Sheet = { at: (column, row) => between(grid, column, row) };
  const [a, b, c] = [set.at(0, 0), set.at(columns, 0), set.at(0, rows)];
  const pitch = Math.min(Math.hypot(b[0] - a[0], b[1] - a[1]) / columns, Math.hypot(c[0] - a[0], c[1] - a[1]) / rows);
  const level = levels.findLast(({ scale }) => pitch / scale >= FINE_PITCH) ?? levels[0]!;
  return gridOfSheet(refinedSheet(edgeField(level), set, columns, rows), { left: 0, top: 0, columns, rows });
}

/** Part of the cells that was seen as patches of their own: signs and dark stitches leave less. Ours, on painted charts. */
const LEAST_RULED = 0.35;
const MOST_CHARTS = 8;
const MOST_FAILURES = 2;
const LEAST_CONFIDENCE = 0.3;
/** Ours: how far to trust a reading whose edge cannot be seen. */
const OPEN_TRUST = 0.75;
