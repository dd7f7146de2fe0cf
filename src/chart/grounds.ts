/** Which colour of each row is the ground, and which lie on it. */
import type { Grid } from "./chart.ts";
import { countStitches, rowColours } from "./counts.ts";

/** A row that has no ground of its own: a plain row in a pattern colour. */
export const NO_GROUND = -1;

/**
 * The weights are our choice and order the evidence; "common practice, no source". A colour keeps its role from row to
 * row; at its lower and upper edge a motif thins out, so that the ground runs there; plain rows beside a band are
 * mostly ground; otherwise there is more ground than pattern, in the row and last of all in the chart.
 */
const ROLE_KEPT = 1000;
const EDGE = 10;
const PLAIN_BESIDE = 3;
const SHARE = 0.1;
const SHARE_OF_CHART = 1e-4;

/**
 * The ground of every row from `fromRow` to `toRow`, lowest first, as a colour index or NO_GROUND: the roles that agree
 * best with the evidence over the whole strip. A shaded ground gives a ground that changes from row to row.
 * Limits: a motif that covers its own edges (its lowest and highest row mostly pattern) is taken for its ground,
 * and in an even pattern (a check) with no plain row beside it the choice is arbitrary, though always the same.
 * `chartStitches`, the stitches of each colour in the whole chart, is handed in where many strips of one chart are read.
 * Of the colours that are `known` to be ground one is it in every row that has any.
 */
export function rowGrounds(
  grid: Grid,
  fromRow: number,
  toRow: number,
  chartStitches: readonly number[] = countStitches(grid),
  known: readonly number[] = [],
): number[] {
  const chartShare = chartStitches.map((count) => count / Math.max(1, grid.cells.length));
  const below = plainColour(grid, fromRow - 1);
  const above = plainColour(grid, toRow + 1);
  const paths: { roles: Roles; score: number; before: number }[][] = [];
  for (let row = fromRow; row <= toRow; row++) {
    const rowShare = sharesOfRow(grid, row);
    const colours = rowColours(grid, row);
    const edge = row === fromRow || row === toRow;
    const stated = colours.filter((colour) => known.includes(colour));
    const choices = stated.length > 0 ? stated : colours.length > 1 ? colours : [...colours, NO_GROUND];
    const lower = paths.at(-1);
    paths.push(
      choices.map((ground) => {
        const roles = { colours, ground };
        const own =
          ground === NO_GROUND ? 0 : (edge ? EDGE : SHARE) * rowShare[ground]! + SHARE_OF_CHART * chartShare[ground]!;
        const sides = Number(row === fromRow && ground === below) + Number(row === toRow && ground === above);
        let best = { score: 0, before: -1 };
        lower?.forEach((path, before) => {
          const score = path.score + ROLE_KEPT * rolesKept(path.roles, roles);
          if (best.before < 0 || score > best.score) best = { score, before };
        });
        return { roles, score: best.score + own + PLAIN_BESIDE * sides, before: best.before };
      }),
    );
  }
  return bestPath(paths);
}

interface Roles {
  readonly colours: readonly number[];
  readonly ground: number;
}

/** How many of the colours that two rows share are ground in both or pattern in both. */
function rolesKept(lower: Roles, upper: Roles): number {
  return upper.colours.filter(
    (colour) => lower.colours.includes(colour) && (colour === lower.ground) === (colour === upper.ground),
  ).length;
}

function bestPath(paths: readonly (readonly { roles: Roles; score: number; before: number }[])[]): number[] {
  const grounds: number[] = [];
  let at = -1;
  for (const choices of paths.toReversed()) {
    if (at < 0) choices.forEach((path, index) => (at = at < 0 || path.score > choices[at]!.score ? index : at));
    grounds.push(choices[at]!.roles.ground);
    at = choices[at]!.before;
  }
  return grounds.reverse();
}

/** Part of the row's stitches by colour, 0 to 1. */
function sharesOfRow(grid: Grid, row: number): number[] {
  const stitches = countStitches(grid, row, row);
  const sum = stitches.reduce((total, count) => total + count, 0);
  return stitches.map((count) => count / Math.max(1, sum));
}

/** The colour of a one-colour row; undefined for any other row and outside the chart. */
function plainColour(grid: Grid, row: number): number | undefined {
  if (row < 1 || row > grid.height) return undefined;
  const colours = rowColours(grid, row);
  return colours.length === 1 ? colours[0] : undefined;
}
