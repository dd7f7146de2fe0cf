/** Finds every chart of a picture: where the lines of its grid cross, however the page lay before the camera. */
import { assert } from "../base/assert.ts";
import type { Problem } from "../base/problem.ts";
import type { Pixels } from "../raster/pixels.ts";
import { cornersOfGrid, crossing, type ChartGrid, type Point } from "./chartGrid.ts";
import { edgesOf } from "./edges.ts";
import { edgeField, type EdgeField } from "./findGrids/edgeField.ts";
import { chartsOn } from "./findGrids/chartOn.ts";
import { exactGrids, type ExactGrid } from "./findGrids/exact.ts";
import { between, gridOfSheet, isWithin, overlaps } from "./findGrids/gridShape.ts";
import { refinedSheet } from "./findGrids/grow.ts";
import { FINE_PITCH, levelsOf, type Level } from "./findGrids/levels.ts";
import { ruledGrids } from "./findGrids/ruled.ts";
import { mask, nextChart } from "./findGrids/search.ts";
import { sheetOfCorners, type Sheet, type Tie } from "./findGrids/sheet.ts";
import { linedGrids } from "./linedGrids.ts";
import { uprightGrid } from "./uprightGrid.ts";

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
  const tell = options.onStep ?? ((): void => undefined);
  tell(0.1);
  const lattices = [...straightLattices(pixels), ...ruledGrids(levels[0]!).filter(({ share }) => share >= LEAST_RULED)];
  const fields = new Map(levels.map((level) => [level, edgeField(level)]));
  const laid = lattices.flatMap((lattice) => {
    const { sheet, ties, share } = lattice;
    const charts = chartsOn(levels, { sheet, ties, clearness: share }, RULED_LIFT);
    const lying = asItLies(lattice, levels, fields);
    return lying ? [...charts, ...chartsOn(levels, { ...lying, clearness: share }, RULED_LIFT)] : charts;
  });
  tell(0.5);
  const sure = bestApart(laid.filter(({ confidence }) => confidence >= SURE));
  const followed = followedGrids(levels, fields, { known: sure, tell: (share) => tell(0.5 + share / 2) });
  const grids = alike(bestApart([...laid, ...followed]).filter(isLikely));
  // A picture of few colours is one of pixels rather than of stitches that are hardly seen.
  if (exact.single && !grids.some(({ confidence }) => confidence >= SURE))
    return { grids: [foundExactly(exact.single)], why: null };
  return { grids, why: grids.length === 0 ? "nothing that recurs at even steps" : null };
}

/** Charts that lie straight, by their lines or by their steps of colour. */
function straightLattices(pixels: Pixels): Lattice[] {
  if (pixels.width * pixels.height > MOST_UPRIGHT) return [];
  const edges = edgesOf(pixels);
  const upright = uprightGrid(edges);
  const lined = linedGrids(edges).filter(({ trust }) => trust >= LEAST_LINED);
  return [...(upright && upright.trust >= LEAST_UPRIGHT ? [upright] : []), ...lined].map(({ grid, trust }) => {
    const ties: Tie[] = [];
    const [across, down] = [Math.ceil(grid.columns / 20), Math.ceil(grid.rows / 20)];
    for (let row = 0; row <= grid.rows; row += down)
      for (let column = 0; column <= grid.columns; column += across) {
        const [x, y] = crossing(grid, row, column);
        ties.push({ column, row, x, y, weight: 1 });
      }
    const sheet: Sheet = { at: (column, row) => between(grid, column, row) };
    return { sheet, columns: grid.columns, rows: grid.rows, ties, share: trust };
  });
}

interface Lattice {
  readonly sheet: Sheet;
  readonly columns: number;
  readonly rows: number;
  readonly ties: readonly Tie[];
  readonly share: number;
}

/** A lattice that was taken for straight, as the page lies; null where it does lie so. */
function asItLies(
  { sheet, columns, rows, ties }: Lattice,
  levels: readonly Level[],
  fields: ReadonlyMap<Level, EdgeField>,
): { sheet: Sheet; ties: Tie[] } | null {
  const [a, b, c] = [sheet.at(0, 0), sheet.at(columns, 0), sheet.at(0, rows)];
  const pitch = Math.min(Math.hypot(b[0] - a[0], b[1] - a[1]) / columns, Math.hypot(c[0] - a[0], c[1] - a[1]) / rows);
  const level = levels.findLast(({ scale }) => pitch / scale >= FINE_PITCH) ?? levels[0]!;
  const refined = refinedSheet(fields.get(level)!, sheet, columns, rows);
  const moved = ties.map((tie) => {
    const [x, y] = refined.at(tie.column, tie.row);
    return { ...tie, x, y };
  });
  const farthest = Math.max(...moved.map(({ x, y }, at) => Math.hypot(x - ties[at]!.x, y - ties[at]!.y)));
  return farthest < STRAIGHT * pitch ? null : { sheet: refined, ties: moved };
}

/** Charts by lines that recur somewhere and are followed over the page from there; where `known` lie nothing is looked for. */
function followedGrids(
  levels: readonly Level[],
  fields: ReadonlyMap<Level, EdgeField>,
  { known, tell }: { known: readonly FoundGrid[]; tell: (share: number) => void },
): FoundGrid[] {
  const fieldOf = (level: Level): EdgeField => fields.get(level)!;
  for (const level of levels) for (const { grid } of known) mask(fieldOf(level), grid);
  const grids: FoundGrid[] = [];
  let failures = 0;
  while (grids.length < MOST_CHARTS && failures < MOST_FAILURES) {
    const tried = nextChart(levels, fieldOf);
    if (!tried) break;
    const { found, searched } = tried;
    const fresh = found.filter(
      ({ confidence, grid }) => confidence >= LEAST_CONFIDENCE && !grids.some((other) => overlaps(other.grid, grid)),
    );
    grids.push(...fresh);
    if (fresh.length === 0) failures++;
    // Nobody knows how many charts there are: each takes half of what is left.
    tell(1 - 0.5 ** (grids.length + failures));
    for (const level of levels)
      for (const grid of [...found.map(({ grid }) => grid), searched]) mask(fieldOf(level), grid);
  }
  return grids;
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
  const found = nextChart(levels, fieldOf)?.found[0];
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

/** The best first; what lies on a better one is left out. A part of a chart is found with fewer stitches than the whole. */
function bestApart(found: readonly FoundGrid[]): FoundGrid[] {
  const apart: FoundGrid[] = [];
  for (const one of found.toSorted((a, b) => worthOf(b) - worthOf(a)))
    if (!apart.some(({ grid }) => overlaps(grid, one.grid))) apart.push(one);
  return apart;
}

/** Charts of one page are drawn in one manner: what is ruled otherwise than the best, or in much larger or smaller steps, is none. */
function alike(found: readonly FoundGrid[]): FoundGrid[] {
  const [best] = found;
  if (!best) return [];
  const [wide, high] = stepsOf(best.grid);
  const isNear = (one: number, other: number): boolean => one < MOST_APART * other && other < MOST_APART * one;
  return found.filter(({ grid, lined, confidence }) => {
    if (grid === best.grid) return true;
    const [across, down] = stepsOf(grid);
    const isChart = Math.min(grid.columns, grid.rows) >= LEAST_BESIDE && confidence >= SURE_BESIDE;
    return isChart && lined === best.lined && isNear(across, wide) && isNear(down, high);
  });
}

/** A few rows or columns at even steps are met by chance, in ruled paper and in writing. */
const isLikely = ({ grid, confidence }: FoundGrid): boolean =>
  Math.min(...stepsOf(grid)) >= LEAST_STEP &&
  confidence >= (Math.min(grid.columns, grid.rows) < FEW ? SURE : LEAST_CONFIDENCE);

/** Pixels to a stitch, across and down. */
function stepsOf(grid: ChartGrid): [number, number] {
  const [a, b, c, d] = cornersOfGrid(grid);
  const span = ([px, py]: Point, [qx, qy]: Point): number => Math.hypot(qx - px, qy - py);
  return [(span(a, b) + span(d, c)) / 2 / grid.columns, (span(a, d) + span(b, c)) / 2 / grid.rows];
}

/** Square pixels. */
function areaOf(grid: ChartGrid): number {
  const [a, b, c, d] = cornersOfGrid(grid);
  return Math.abs((c[0] - a[0]) * (d[1] - b[1]) - (d[0] - b[0]) * (c[1] - a[1])) / 2;
}

function worthOf({ confidence, grid }: FoundGrid): number {
  return (confidence * Math.sqrt(areaOf(grid)) * grid.columns * grid.rows) / (grid.columns * grid.rows + ENOUGH_CELLS);
}

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
/** What edges gather at drawn lines, about. */
const RULED_LIFT = 0.25;
const SURE = 0.85;
/** Parts of a step that a lattice may lie off before it is taken for one at an angle. */
const STRAIGHT = 0.12;
/** Beside the best chart of a picture: times its steps, stitches each way, and how sure. */
const MOST_APART = 1.5;
const LEAST_BESIDE = 3;
const SURE_BESIDE = 0.65;
/** Pixels to a stitch that lines can be followed by. */
const LEAST_STEP = 2.5;
/** Stitches or rows. */
const FEW = 5;
/** Cells that make half of a good chart. */
const ENOUGH_CELLS = 40;
/** Pixels; a photograph of more never lies straight to the pixel. */
const MOST_UPRIGHT = 5e6;
const LEAST_LINED = 0.9;
const LEAST_UPRIGHT = 0.6;
