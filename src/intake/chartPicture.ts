/** A picture of a chart, drawn by a program or scanned flat, made into rows and colours. */
import type { Problem } from "../base/problem.ts";
import { deltaE2000 } from "../colour/difference.ts";
import { hexFromLab, labFromLinear, type Lab } from "../colour/lab.ts";
import { LINEAR_OF_BYTE } from "../colour/srgb.ts";
import { clusterColours } from "../raster/cluster.ts";
import type { Pixels } from "../raster/pixels.ts";
import type { Box } from "../raster/raster.ts";
import type { Span } from "./crisp.ts";
import { chooseCrisp, chooseSoft, type ChosenChart } from "./crispChoice.ts";
import { cropEdges, edgesOf, type Edges } from "./edges.ts";
import { dividedPitch } from "./pitch.ts";
import { regionsOf } from "./chartRegions.ts";
import { readCells, type Cells } from "./cells.ts";
import { findBox, type CellBox, type FoundBox } from "./chartBox.ts";
import { findLattice, latticeAt, sidesOf, type Borders, type Lattice } from "./grid.ts";
import { ID_ORDER, type ReadChart, type ReadCharts, type ReadColour } from "./readChart.ts";

export interface PictureOptions {
  /** How many colours the chart has, where she knows; otherwise it is found. */
  readonly colours?: number;
}

/**
 * Reads a picture of one chart on a regular grid, one colour to a cell, with or without lines, from 2 × 2 stitches.
 * Never throws. Limit: upright pictures; a photograph taken at an angle is told as one that cannot be read.
 */
export function readChartPicture(pixels: Pixels, options: PictureOptions = {}): ReadCharts {
  if (pixels.width < SMALLEST || pixels.height < SMALLEST) {
    return refused(`a picture of ${pixels.width} × ${pixels.height} pixels, too small for a chart`);
  }
  const edges = edgesOf(pixels);
  const crisp = crispReading(edges, chooseCrisp(edges)[0] ?? null, true);
  if (crisp && Math.min(crisp.lattice.x.pitch, crisp.lattice.y.pitch) > 1) return chartOf(crisp, options);
  const byPixel = readPixels(edges, crisp);
  const soft = byPixel ? null : crispReading(edges, chooseSoft(edges), false);
  if (soft && evenness(soft.cells, soft.box) >= TRUSTED) return chartOf(soft, options);
  const readings: Reading[] = [];
  for (const region of regionsOf(edges)) {
    // What is hardly larger than a good reading has nothing to add to it.
    if (readings.some((done) => done.trust >= TRUSTED && area(done) * ADDS > region.width * region.height)) continue;
    const reading = readRegion(edges, region);
    if (reading) readings.push(reading);
    // A chart with lines hangs together, so nothing larger need be looked at.
    if (reading?.linesOnPage && reading.trust >= TRUSTED && area(reading) > LARGE * edges.width * edges.height) break;
  }
  const [best = byPixel] = readings
    .filter(({ cells, box, trust }) => trust >= LEAST_TRUST && evenness(cells, box) >= LEAST_EVEN)
    // Any picture of few colours could be read by pixels; a good reading by larger stitches goes before it.
    .filter(
      (reading) =>
        !byPixel || (reading.trust >= TRUSTED && sizeOf(reading) >= PROVEN && 2 * area(reading) > area(byPixel)),
    )
    .sort((one, other) => worth(other) - worth(one));
  if (!best) {
    return refused(readings.length > 0 ? "cells that are not of one colour each" : "nothing that recurs at even steps");
  }
  return chartOf(best, options);
}

/** A chart whose stitches and lines are rectangles to the pixel. */
function crispReading(edges: Edges, chosen: ChosenChart | null, exact: boolean): Reading | null {
  if (!chosen) return null;
  const { columns, rows, lined, edgeOpen } = chosen;
  const lattice: Lattice = { x: bordersAround(columns), y: bordersAround(rows) };
  const cells = exact ? exactCells(edges, columns, rows) : readCells(edges, lattice);
  const box: CellBox = { left: 0, right: columns.length - 1, top: 0, bottom: rows.length - 1 };
  return {
    box,
    lined,
    page: new Uint8Array(0),
    sidesDrawn: new Uint8Array(0),
    linesOnPage: false,
    lattice,
    cells,
    offset: [0, 0],
    trust: exact ? 1 : evenness(cells, box),
    exact,
    edgeOpen,
  };
}

/** Every stitch is of the colour of its middle pixel. */
function exactCells({ bytes, width }: Edges, columns: readonly Span[], rows: readonly Span[]): Cells {
  const colours = new Float32Array(columns.length * rows.length * 3);
  let at = 0;
  for (const row of rows) {
    for (const column of columns) {
      const pixel = (((row.from + row.to) >> 1) * width + ((column.from + column.to) >> 1)) * 4;
      for (let channel = 0; channel < 3; channel++) colours[at++] = bytes[pixel + channel]!;
    }
  }
  const even = new Float32Array(columns.length * rows.length).fill(1);
  return { columns: columns.length, rows: rows.length, colours, even };
}

function bordersAround(spans: readonly Span[]): Borders {
  const ends = [spans[0]!.from, ...spans.map(({ to }) => to)];
  const begins = [...spans.map(({ from }) => from), spans.at(-1)!.to];
  const at = ends.map((end, index) => (end + begins[index]!) / 2);
  return { pitch: (at.at(-1)! - at[0]!) / spans.length, spread: 0, phase: 0, explained: 1, at, ends, begins };
}

/** A reading of more of the picture is worth more, if it is as even. */
const worth = (reading: Reading): number => reading.trust ** 2 * Math.sqrt(area(reading));

/** Stitches. */
const sizeOf = ({ box: { left, right, top, bottom } }: Reading): number => (right - left + 1) * (bottom - top + 1);

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

interface Reading extends FoundBox {
  readonly lattice: Lattice;
  readonly cells: Cells;
  /** Pixels by which the part that was read lies from the picture's left and top. */
  readonly offset: readonly [number, number];
  /** 0 to 1. */
  readonly trust: number;
  /** Whether each stitch is of one colour to the last pixel, so that colours need not be gathered. */
  readonly exact: boolean;
  /** Whether the picture leaves open where the chart ends. */
  readonly edgeOpen: boolean;
}

function readLattice(
  edges: Edges,
  lattice: Lattice | null,
  offset: readonly [number, number] = [0, 0],
): Reading | null {
  if (!lattice || lattice.x.at.length < 3 || lattice.y.at.length < 3) return null;
  const cells = readCells(edges, lattice);
  const found = findBox(edges, lattice, cells, sidesOf(edges, lattice));
  if (!found) return null;
  const { left, right, top, bottom } = found.box;
  if (right - left + 1 < LEAST_STITCHES || bottom - top + 1 < LEAST_STITCHES) return null;
  const even = evenness(cells, found.box);
  const trust = even * Math.sqrt(lattice.x.explained * lattice.y.explained);
  return {
    ...found,
    lattice,
    cells,
    offset,
    trust,
    exact: false,
    edgeOpen: !found.linesOnPage && hasPage(found, cells),
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

/** A chart drawn one pixel to a stitch: small, and of few colours that are all exact. */
function readPixels({ bytes }: Edges, crisp: Reading | null): Reading | null {
  if (!crisp) return null;
  const colours = new Set<number>();
  for (let at = 0; at < bytes.length; at += 4) {
    colours.add((bytes[at]! << 16) | (bytes[at + 1]! << 8) | bytes[at + 2]!);
    if (colours.size > MOST_PIXEL_COLOURS) return null;
  }
  if (colours.size < 2) return null;
  return { ...crisp, trust: PIXEL_TRUST };
}

/** The part of the box's cells that are of one colour. */
function evenness({ columns, even }: Cells, { left, right, top, bottom }: CellBox): number {
  let sum = 0;
  for (let row = top; row <= bottom; row++) {
    for (let column = left; column <= right; column++) sum += even[row * columns + column]! >= EVEN ? 1 : 0;
  }
  return sum / ((right - left + 1) * (bottom - top + 1));
}

function chartOf(reading: Reading, options: PictureOptions): ReadCharts {
  const { cells, box, lattice, offset } = reading;
  const width = box.right - box.left + 1;
  const height = box.bottom - box.top + 1;
  const outside = noStitches(reading);
  const seen = new Map<number, { index: number; weight: number }>();
  const kindOf = new Int32Array(width * height).fill(-1);
  const labs: Lab[] = [];
  const weights: number[] = [];
  for (let cell = 0; cell < kindOf.length; cell++) {
    if (outside[cell]) continue;
    const at = ((box.top + Math.floor(cell / width)) * cells.columns + box.left + (cell % width)) * 3;
    const bytes = [0, 1, 2].map((channel) => Math.round(cells.colours[at + channel]!)) as [number, number, number];
    const key = (bytes[0] << 16) | (bytes[1] << 8) | bytes[2];
    let kind = seen.get(key);
    if (!kind) {
      seen.set(key, (kind = { index: labs.length, weight: 0 }));
      labs.push(labFromLinear([LINEAR_OF_BYTE[bytes[0]]!, LINEAR_OF_BYTE[bytes[1]]!, LINEAR_OF_BYTE[bytes[2]]!]));
      weights.push(0);
    }
    weights[kind.index]!++;
    kindOf[cell] = kind.index;
  }
  const { centres, assignment } =
    reading.exact && options.colours === undefined && labs.length <= MOST_EXACT_COLOURS
      ? exactColours(labs, weights)
      : clusterColours(labs, { weights, ...(options.colours === undefined ? {} : { count: options.colours }) });
  if (centres.length > ID_ORDER.length) return refused(`${centres.length} colours, more than a chart has`);
  const rows: string[] = [];
  const uncertain: [number, number][] = [];
  const doubtful = labs.map((lab, kind) => isDoubtful(lab, assignment[kind]!, centres));
  for (let row = 0; row < height; row++) {
    let text = "";
    for (let column = 0; column < width; column++) {
      const kind = kindOf[row * width + column]!;
      text += kind < 0 ? "-" : ID_ORDER[assignment[kind]!]!;
      const cell = (box.top + row) * cells.columns + box.left + column;
      if (kind >= 0 && (doubtful[kind] || cells.even[cell]! < EVEN)) uncertain.push([height - row, width - column]);
    }
    rows.push(text);
  }
  const colours = Object.fromEntries(
    centres.map((lab, index): [string, ReadColour] => [ID_ORDER[index]!, { hex: hexFromLab(lab), lab }]),
  );
  const [x0, x1] = [lattice.x.at[box.left]! + offset[0], lattice.x.at[box.right + 1]! + offset[0]];
  const [y0, y1] = [lattice.y.at[box.top]! + offset[1], lattice.y.at[box.bottom + 1]! + offset[1]];
  const chart: ReadChart = {
    rows,
    colours,
    // A grid of one colour is more often a table or a form than a chart.
    confidence:
      reading.trust *
      (reading.edgeOpen ? OPEN_TRUST : 1) *
      (1 - uncertain.length / (width * height)) *
      (centres.length < 2 ? 0.5 : 1),
    box: [
      [x0, y0],
      [x1, y0],
      [x1, y1],
      [x0, y1],
    ],
    page: 1,
    uncertain,
  };
  return { charts: [chart], problems: problemsOf(chart, reading.edgeOpen) };
}

function problemsOf({ uncertain, confidence }: ReadChart, edgeOpen: boolean): Problem[] {
  if (edgeOpen) {
    return [
      {
        where: "the chart's edge",
        expected: "a line or another colour than the page's around the chart",
        got: "an edge that cannot be seen; compare the number of rows and stitches",
        severity: "doubt",
      },
    ];
  }
  if (uncertain.length > 0) {
    const [row, column] = uncertain[0]!;
    const more = uncertain.length === 1 ? "" : `, and in ${uncertain.length - 1} more`;
    return [
      {
        where: `row ${row}, stitch ${column}`,
        expected: "one of the chart's colours, clearly",
        got: `a colour in doubt${more}; look at these again`,
        severity: "doubt",
      },
    ];
  }
  if (confidence >= SURE) return [];
  return [
    {
      where: "the picture",
      expected: "even steps from stitch to stitch",
      got: "a grid that is not quite regular; compare the number of rows and stitches",
      severity: "doubt",
    },
  ];
}

/** Colours that nobody could tell apart are one; all others are as they were drawn. Most stitches first. */
function exactColours(
  labs: readonly Lab[],
  weights: readonly number[],
): { centres: Lab[]; assignment: ArrayLike<number> } {
  const order = labs.map((_, index) => index).sort((one, other) => weights[other]! - weights[one]! || one - other);
  const centres: Lab[] = [];
  const totals: number[] = [];
  const assignment = new Uint16Array(labs.length);
  for (const index of order) {
    const known = centres.findIndex((centre) => deltaE2000(centre, labs[index]!) < SAME_COLOUR);
    assignment[index] = known >= 0 ? known : centres.push(labs[index]!) - 1;
    totals[assignment[index]!] = (totals[assignment[index]!] ?? 0) + weights[index]!;
  }
  const ranks = centres.map((_, index) => index).sort((one, other) => totals[other]! - totals[one]! || one - other);
  return {
    centres: ranks.map((index) => centres[index]!),
    assignment: assignment.map((index) => ranks.indexOf(index)),
  };
}

/** Page inside the box that is reached from outside it: a lined chart need not be a rectangle. */
function noStitches({ box, cells, page, linesOnPage, sidesDrawn }: Reading): Uint8Array {
  const width = box.right - box.left + 1;
  const height = box.bottom - box.top + 1;
  const outside = new Uint8Array(width * height);
  if (!linesOnPage) return outside;
  const open = (row: number, column: number): boolean => {
    const cell = (box.top + row) * cells.columns + box.left + column;
    return page[cell] === 1 && sidesDrawn[cell]! < 3;
  };
  const stack: number[] = [];
  const visit = (row: number, column: number): void => {
    if (row < 0 || column < 0 || row >= height || column >= width) return;
    const at = row * width + column;
    if (outside[at] || !open(row, column)) return;
    outside[at] = 1;
    stack.push(at);
  };
  for (let column = 0; column < width; column++) {
    visit(0, column);
    visit(height - 1, column);
  }
  for (let row = 0; row < height; row++) {
    visit(row, 0);
    visit(row, width - 1);
  }
  while (stack.length > 0) {
    const at = stack.pop()!;
    const row = Math.floor(at / width);
    const column = at % width;
    visit(row - 1, column);
    visit(row + 1, column);
    visit(row, column - 1);
    visit(row, column + 1);
  }
  return outside;
}

/** Whether a second colour is nearly as near as the one taken. */
function isDoubtful(lab: Lab, index: number, centres: readonly Lab[]): boolean {
  const distance = (centre: Lab): number => Math.hypot(lab[0] - centre[0], lab[1] - centre[1], lab[2] - centre[2]);
  const own = distance(centres[index]!);
  return own > 1 && centres.some((centre, other) => other !== index && distance(centre) * DOUBT < own);
}

function refused(got: string): ReadCharts {
  const problem: Problem = {
    where: "the picture",
    expected: "a chart on a regular grid, seen straight on, one colour to a cell",
    got,
    severity: "fault",
  };
  return { charts: [], problems: [problem] };
}

/** Pixels; stitches. */
const SMALLEST = 4;
const LEAST_STITCHES = 2;
/** What is drawn between pixels has more colours than this, by its blends. */
const MOST_PIXEL_COLOURS = 24;
/** ΔE00 below which two colours of a drawing are one; near-equal colours of a chart are about 3 apart. */
const SAME_COLOUR = 2;
const MOST_EXACT_COLOURS = 256;
/** Part of a cell that has its colour. */
const EVEN = 0.7;
/** Ours, on painted charts: a reading below the first, or with fewer even cells than the second, is refused; below the last it is doubted. */
const LEAST_TRUST = 0.45;
const LEAST_EVEN = 0.85;
const PIXEL_TRUST = 0.75;
/** Stitches, from which on an even reading is hardly chance. */
const PROVEN = 16;
/** Ours: how far to trust a reading whose edge cannot be seen. */
const OPEN_TRUST = 0.75;
const TRUSTED = 0.95;
/** Times the area. */
const ADDS = 1.06;
/** Pixels beside a chart that cannot hold letters. */
const LITTLE = 8;
/** Part of the picture. */
const LARGE = 0.15;
const SURE = 0.7;
/** The own colour's distance as part of the second's, from which on a cell is in doubt. */
const DOUBT = 0.7;
