/** Charts with lines that lie straight in their picture: the lines run from end to end, whatever stands in the stitches. */
import type { Box } from "../raster/raster.ts";
import { gridOfLines } from "./chartGrid.ts";
import { regionsOf } from "./chartRegions.ts";
import { cropEdges, type Edges } from "./edges.ts";
import { findLattice, sidesOf, type Lattice } from "./grid.ts";
import type { UprightGrid } from "./uprightGrid.ts";

/** Every part of the picture that hangs together and is ruled from end to end, the largest first. */
export function linedGrids(edges: Edges): UprightGrid[] {
  const found: { grid: UprightGrid; region: Box }[] = [];
  for (const region of regionsOf(edges)) {
    if (found.some((other) => meet(other.region, region))) continue;
    const whole = region.width === edges.width && region.height === edges.height;
    const part = whole ? edges : cropEdges(edges, region);
    const lattice = findLattice(part);
    const grid = lattice && ruled(part, lattice, region);
    if (grid) found.push({ grid, region });
  }
  return found.map(({ grid }) => grid);
}

const meet = (one: Box, other: Box): boolean =>
  one.x < other.x + other.width &&
  other.x < one.x + one.width &&
  one.y < other.y + other.height &&
  other.y < one.y + one.height;

function ruled(edges: Edges, lattice: Lattice, region: Box): UprightGrid | null {
  const { x, y } = lattice;
  const [columns, rows] = [x.at.length - 1, y.at.length - 1];
  if (columns < 2 || rows < 2) return null;
  const sides = sidesOf(edges, lattice);
  const uprights = Array.from({ length: columns + 1 }, (_, line) =>
    meanOf(Array.from({ length: rows }, (_, row) => sides.upright[line * rows + row]!)),
  );
  const levels = Array.from({ length: rows + 1 }, (_, line) =>
    meanOf(Array.from({ length: columns }, (_, column) => sides.level[line * columns + column]!)),
  );
  const [across, down] = [trueLines(uprights), trueLines(levels)];
  if (!across || !down) return null;
  const grid = gridOfLines(
    across.lines.map((line) => x.at[line]! + region.x),
    down.lines.map((line) => y.at[line]! + region.y),
  );
  return { grid, lined: true, trust: Math.min(across.drawn, down.drawn), edgeOpen: false };
}

/** The lines that are drawn from end to end at even steps; what signs recur at between them is none. `drawn`: the part of the length that four in five have. */
function trueLines(drawn: readonly number[]): { lines: number[]; drawn: number } | null {
  for (let step = 1; step <= MOST_STEPS; step++)
    for (let first = 0; first < step; first++) {
      let lines = drawn.flatMap((_, line) => (line % step === first ? [line] : []));
      while (lines.length > 2 && drawn[lines[0]!]! < END) lines = lines.slice(1);
      while (lines.length > 2 && drawn[lines.at(-1)!]! < END) lines = lines.slice(0, -1);
      if (lines.length < 3) continue;
      const low = lowOf(lines.map((line) => drawn[line]!));
      if (low >= LEAST_DRAWN) return { lines, drawn: low };
    }
  return null;
}

const meanOf = (list: readonly number[]): number => list.reduce((sum, one) => sum + one, 0) / list.length;
const lowOf = (list: readonly number[]): number =>
  list.toSorted((one, other) => one - other)[Math.floor(list.length / 5)]!;

/** Signs recur at most at so many parts of a stitch. */
const MOST_STEPS = 6;
/** Parts of its length that a line shows: ours, on painted charts. */
const LEAST_DRAWN = 0.85;
const END = 0.6;
