/** How a chart is built, as a knitter sees it: band by band the repeat, the lines of mirroring, the roles of rows and what it echoes. */
import { remainder } from "../base/divisors.ts";
import { LOWEST_ECHO, type Band } from "./bands.ts";
import type { Grid } from "./chart.ts";
import { echoBetween, type Echo } from "./echoes.ts";
import { mirrorsOf, type Mirrors } from "./mirrors.ts";
import { repeatNamed, repeatOf, type Repeat } from "./repeats.ts";
import { rowRoles, type RowRole } from "./rowRoles.ts";
import { tileOf, type Rows, type Tile } from "./strip.ts";

export interface BandStructure {
  readonly band: Band;
  /** Seeding: every patterned row is strewn with single stitches; line: a single row of dashes. */
  readonly kind: "plain" | "seeding" | "line" | "motif";
  readonly repeat: Repeat;
  readonly mirrors: Mirrors;
  /** Lowest first. */
  readonly rows: readonly RowRole[];
  /** Neighbouring rows of one ground and the same colours on it, lowest first: more than one in a shaded band. */
  readonly steps: readonly Step[];
  readonly shaded: "no" | "ground" | "pattern" | "both";
  /** The first band below that it is again, and how. */
  readonly echo: BandEcho | null;
}

export interface Step {
  readonly rows: Rows;
  readonly ground: number;
  readonly pattern: readonly number[];
}

export interface BandEcho extends Echo {
  /** Id of that band. */
  readonly of: string;
}

/** The bands as `findBands` gives them; what the chart declares of them stands. */
export function structureOf(grid: Grid, bands: readonly Band[]): BandStructure[] {
  const found: BandStructure[] = [];
  const tiles = new Map<string, Tile>();
  for (const band of bands) {
    const { repeat: stitches, axis } = band.declared ?? {};
    const seen = repeatOf(grid, band.rows);
    const repeat =
      stitches === undefined ? seen : repeatNamed(grid, { stitches: Math.min(stitches, grid.width), rows: seen.rows });
    const mirrors = mirrorsOf(grid, band.rows, repeat);
    const rows = rowRoles(grid, band);
    const steps = stepsOf(rows);
    const built = {
      band,
      kind: kindOf(rows),
      repeat,
      mirrors: axis === undefined ? mirrors : { ...mirrors, across: axesFrom(axis, repeat.stitches) },
      rows,
      steps,
      shaded: shadingOf(steps),
    };
    tiles.set(band.id, tileOf(grid, band.rows, repeat.stitches));
    found.push({ ...built, echo: echoIn(built, found, tiles) });
  }
  return found;
}

/** Her axis and the one half a repeat on, within the first repeat. */
function axesFrom(axis: number | null, repeat: number): number[] {
  if (axis === null) return [];
  return [axis, axis + repeat / 2].map((at) => remainder(at - 1, repeat) + 1).sort((a, b) => a - b);
}

function kindOf(rows: readonly RowRole[]): BandStructure["kind"] {
  const patterned = rows.filter(({ kind }) => kind !== "plain");
  if (patterned.length === 0) return "plain";
  if (patterned.every(({ kind }) => kind === "seeding")) return "seeding";
  return patterned.length === 1 && patterned[0]!.kind === "dashes" ? "line" : "motif";
}

function stepsOf(rows: readonly RowRole[]): Step[] {
  const steps: { rows: [number, number]; ground: number; pattern: readonly number[] }[] = [];
  for (const { row, ground, pattern } of rows) {
    const last = steps.at(-1);
    const goesOn =
      last?.ground === ground &&
      last.pattern.length === pattern.length &&
      pattern.every((colour) => last.pattern.includes(colour));
    if (goesOn) last.rows[1] = row;
    else steps.push({ rows: [row, row], ground, pattern });
  }
  return steps;
}

/** By the patterned rows: a plain centre row of another colour is no shading. */
function shadingOf(steps: readonly Step[]): BandStructure["shaded"] {
  const patterned = steps.filter(({ pattern }) => pattern.length > 0);
  const ground = new Set(patterned.map((step) => step.ground)).size > 1;
  const pattern = new Set(patterned.map((step) => step.pattern.toSorted((a, b) => a - b).join())).size > 1;
  return ground ? (pattern ? "both" : "ground") : pattern ? "pattern" : "no";
}

function echoIn(
  own: Omit<BandStructure, "echo">,
  below: readonly BandStructure[],
  tiles: ReadonlyMap<string, Tile>,
): BandEcho | null {
  const { band } = own;
  const tile = tiles.get(band.id)!;
  const echoOf = (earlier: BandStructure): Echo | null =>
    earlier.kind === "plain" ? null : echoBetween(tiles.get(earlier.band.id)!, tile);
  if (band.declared?.echoOf !== undefined) {
    const said = below.find((earlier) => earlier.band.id === band.echoOf);
    // She sees it again, though stitches may differ.
    return said ? { of: said.band.id, ...(echoOf(said) ?? { mirrored: "none", shift: 0, recoloured: true }) } : null;
  }
  if (own.kind === "plain" || tile.height < LOWEST_ECHO) return null;
  for (const earlier of below) {
    const echo = echoOf(earlier);
    if (echo) return { of: earlier.band.id, ...echo };
  }
  return null;
}
