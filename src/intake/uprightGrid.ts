/** Charts that lie straight in their picture, between pixels: by the steps of colour summed along both axes. */
import type { Box } from "../raster/raster.ts";
import { readCells, type Cells } from "./cells.ts";
import { findBox, type CellBox, type FoundBox } from "./chartBox.ts";
import { gridOfLines, type ChartGrid } from "./chartGrid.ts";
import { regionsOf } from "./chartRegions.ts";
import type { Span } from "./crisp.ts";
import { chooseSoft } from "./crispChoice.ts";
import { cropEdges, type Edges } from "./edges.ts";
import { findLattice, latticeAt, sidesOf, type Borders, type Lattice } from "./grid.ts";
import { dividedPitch } from "./pitch.ts";

export interface UprightGrid {
  readonly grid: ChartGrid;
  readonly lined: boolean;
  /** The part of its stitches that are of one colour, and how regular it is: 0 to 1. */
  readonly trust: number;
  /** Whether the picture leaves open where the chart ends. */
  readonly edgeOpen: boolean;
}

/** The chart that hangs together best, or null. Limit: one chart, of colours; signs in stitches make it look uneven. */
export function uprightGrid(edges: Edges): UprightGrid | null {
  const soft = softReading(edges);
  if (soft && evenness(soft.cells, soft.box) >= TRUSTED) return found(soft);
  const readings: Reading[] = [];
  for (const region of regionsOf(edges)) {
    // What is hardly larger than a good reading has nothing to add to it.
    if (readings.some((done) => done.trust >= TRUSTED && area(done) * ADDS > region.width * region.height)) continue;
    const reading = readRegion(edges, region);
    if (reading) readings.push(reading);
    // A chart with lines hangs together, so nothing larger need be looked at.
    if (reading?.linesOnPage && reading.trust >= TRUSTED && area(reading) > LARGE * edges.width * edges.height) break;
  }
  const [best] = readings
    .filter(({ cells, box, trust }) => trust >= LEAST_TRUST && evenness(cells, box) >= LEAST_EVEN)
    .sort((one, other) => worth(other) - worth(one));
  return best ? found(best) : null;
}

interface Reading extends FoundBox {
  readonly lattice: Lattice;
  readonly cells: Cells;
  /** Pixels by which the part that was read lies from the picture's left and top. */
  readonly offset: readonly [number, number];
  /** 0 to 1. */
  readonly trust: number;
  readonly edgeOpen: boolean;
}

function found({ lattice: { x, y }, box, offset, lined, trust, edgeOpen }: Reading): UprightGrid {
  const across = Array.from(x.at.slice(box.left, box.right + 2), (at) => at + offset[0]);
  const down = Array.from(y.at.slice(box.top, box.bottom + 2), (at) => at + offset[1]);
  return { grid: gridOfLines(across, down), lined, trust, edgeOpen };
}

/** A chart that was made larger or smaller, or compressed, without lines: its stitches' places are known, its colours nearly. */
function softReading(edges: Edges): Reading | null {
  const chosen = chooseSoft(edges);
  if (!chosen) return null;
  const { columns, rows, lined, edgeOpen } = chosen;
  const lattice: Lattice = { x: bordersAround(columns), y: bordersAround(rows) };
  const cells = readCells(edges, lattice);
  const box: CellBox = { left: 0, right: columns.length - 1, top: 0, bottom: rows.length - 1 };
  const none = new Uint8Array(0);
  const trust = evenness(cells, box);
  return {
    box,
    lined,
    page: none,
    sidesDrawn: none,
    linesOnPage: false,
    lattice,
    cells,
    offset: [0, 0],
    trust,
    edgeOpen,
  };
}

function bordersAround(spans: readonly Span[]): Borders {
  const ends = [spans[0]!.from, ...spans.map(({ to }) => to)];
  const begins = [...spans.map(({ from }) => from), spans.at(-1)!.to];
  const at = ends.map((end, index) => (end + begins[index]!) / 2);
  return { pitch: (at.at(-1)! - at[0]!) / spans.length, spread: 0, phase: 0, explained: 1, at, ends, begins };
}

/** A reading of more of the picture is worth more, if it is as even. */
const worth = (reading: Reading): number => reading.trust ** 2 * Math.sqrt(area(reading));

function area({ lattice: { x, y }, box }: Reading): number {
  return (x.at[box.right + 1]! - x.at[box.left]!) * (y.at[box.bottom + 1]! - y.at[box.top]!);
}

function readRegion(edges: Edges, region: Box): Reading | null {
  const whole = region.width === edges.width && region.height === edges.height;
  const part = whole ? edges : cropEdges(edges, region);
  let reading = readLattice(part, findLattice(part), [region.x, region.y]);
  if (!reading) return null;
  const again = readAgain(edges, reading, region) ?? { edges: part, reading };
  if (again.reading.trust >= reading.trust * 0.98) reading = again.reading;
  if (reading.trust >= 0.998) return reading;
  const { x, y } = reading.lattice;
  const finer = [dividedPitch(again.edges.across, x), dividedPitch(again.edges.down, y)] as const;
  for (const [across, down] of [[finer[0], null], [null, finer[1]], finer] as const) {
    if (!across && !down) continue;
    const lattice = latticeAt(again.edges, across ?? x, down ?? y);
    const other = readLattice(again.edges, lattice, again.reading.offset);
    if (other && 1 - other.trust < 0.5 * (1 - reading.trust)) reading = other;
  }
  return reading;
}

function readLattice(
  edges: Edges,
  lattice: Lattice | null,
  offset: readonly [number, number] = [0, 0],
): Reading | null {
  if (!lattice || lattice.x.at.length < 3 || lattice.y.at.length < 3) return null;
  const cells = readCells(edges, lattice);
  const lying = findBox(edges, lattice, cells, sidesOf(edges, lattice));
  if (!lying) return null;
  const { left, right, top, bottom } = lying.box;
  if (right - left + 1 < LEAST_STITCHES || bottom - top + 1 < LEAST_STITCHES) return null;
  const even = evenness(cells, lying.box);
  const trust = even * Math.sqrt(lattice.x.explained * lattice.y.explained);
  return {
    ...lying,
    lattice,
    cells,
    offset,
    trust,
    edgeOpen: !lying.linesOnPage && hasPage(lying, cells),
  };
}

/** Whether stitches have the page's colour. */
function hasPage({ box: { left, right, top, bottom }, page }: FoundBox, { columns }: Cells): boolean {
  for (let row = top; row <= bottom; row++) {
    for (let column = left; column <= right; column++) if (page[row * columns + column]) return true;
  }
  return false;
}

/** Once more with only the chart, so that letters and lines elsewhere have no say. */
function readAgain(
  edges: Edges,
  { lattice: { x, y }, box, offset }: Reading,
  region: Box,
): { edges: Edges; reading: Reading } | null {
  const left = Math.max(0, offset[0] + Math.floor(x.ends[box.left]! - 1));
  const top = Math.max(0, offset[1] + Math.floor(y.ends[box.top]! - 1));
  const right = Math.min(edges.width, offset[0] + Math.ceil(x.begins[box.right + 1]! + 1));
  const bottom = Math.min(edges.height, offset[1] + Math.ceil(y.begins[box.bottom + 1]! + 1));
  const cut = region.width - (right - left) + region.height - (bottom - top);
  if (cut <= LITTLE) return null;
  const part = cropEdges(edges, { x: left, y: top, width: right - left, height: bottom - top });
  const reading = readLattice(part, findLattice(part), [left, top]);
  return reading && { edges: part, reading };
}

/** The part of the box's cells that are of one colour. */
function evenness({ columns, even }: Cells, { left, right, top, bottom }: CellBox): number {
  let sum = 0;
  for (let row = top; row <= bottom; row++) {
    for (let column = left; column <= right; column++) sum += even[row * columns + column]! >= EVEN ? 1 : 0;
  }
  return sum / ((right - left + 1) * (bottom - top + 1));
}

const LEAST_STITCHES = 2;
/** Part of a cell that has its colour. */
const EVEN = 0.7;
/** Ours, on painted charts: a reading below the first, or with fewer even cells than the second, is none. */
const LEAST_TRUST = 0.45;
const LEAST_EVEN = 0.85;
const TRUSTED = 0.95;
/** Times the area. */
const ADDS = 1.06;
/** Pixels beside a chart that cannot hold letters. */
const LITTLE = 8;
/** Part of the picture. */
const LARGE = 0.15;
