/** Light duplicate stitch over what is lost: all stitches of a figure, or every second one, in a yarn that parts from the ground. */
import { NO_STITCH } from "../../chart/chart.ts";
import type { Cloth, Ink } from "../../fabric/cloth.ts";
import { isOwned } from "../../yarn/owned.ts";
import { capital, rowsText, yarnName } from "../context.ts";
import type { Attempt, RowsPlace } from "./attempt.ts";
import { isEnough, LOOPS_LAID_ON } from "./supplies.ts";
import { inkOf, type Target } from "./target.ts";
import type { Tries } from "./tries.ts";

/** Laying on more than this part of the rows is more work than knitting them again in another yarn. Our choice, as for floats. */
const LARGEST_PART = 0.25;

/** Over more rows than these it is no light work any more. Our choice: the height of a large motif. */
const MOST_ROWS = 16;

/** A yarn that she does not use yet counts as so much farther off, L*: it would be fetched for a few stitches. Our choice. */
const NEW_YARN_COSTS = 5;

/** Lists of attempts, the lightest first; within a list the yarn nearest to the pattern's first. */
export function overStitchAttempts(tries: Tries, target: Target, at: RowsPlace): Attempt[][] {
  const { judged } = target;
  if (!judged || at.rows[1] - at.rows[0] >= MOST_ROWS) return [];
  const { cloth } = judged.now;
  const figures = figureColours(target);
  return figures.flatMap((colour) =>
    ([2, 1] as const).map((step) => {
      const cells = figureCells(cloth, colour, at, step);
      return cells ? inYarns(tries, target, cloth, { colour, at, cells, step }) : [];
    }),
  );
}

/** The finding's colours that are not the ground of their band. */
function figureColours({ judged, colours, finding }: Target): string[] {
  const { band } = judged!.now.bands.find(({ band: { id } }) => id === finding.where.band) ?? {};
  const grounds = (band?.grounds ?? []).map((index) => judged!.now.cloth.grid.ids[index]);
  return colours.filter((colour) => !grounds.includes(colour));
}

/**
 * Stitches of a colour, all of them or by turns, row by row from the right and shifted by one from row to row; null where they are too many,
 * or where something lies on them already.
 */
function figureCells(
  { grid, cells: inkAt, inks }: Cloth,
  colour: string,
  { rows }: RowsPlace,
  step: 1 | 2,
): [number, number][] | null {
  const cells: [number, number][] = [];
  let all = 0;
  for (let row = rows[0]; row <= rows[1]; row++) {
    let met = row;
    for (let column = 1; column <= grid.width; column++) {
      const at = (row - 1) * grid.width + column - 1;
      if (grid.cells[at] === NO_STITCH) continue;
      all += 1;
      if (grid.ids[grid.cells[at]!] !== colour) continue;
      if (inks[inkAt[at]!]!.over) return null;
      if (met++ % step === 0) cells.push([row, column]);
    }
  }
  return cells.length > 0 && cells.length <= LARGEST_PART * all ? cells : null;
}

interface Laid {
  readonly colour: string;
  readonly at: RowsPlace;
  readonly cells: [number, number][];
  readonly step: 1 | 2;
}

function inYarns(tries: Tries, target: Target, cloth: Cloth, { colour, at, cells, step }: Laid): Attempt[] {
  const { input, used, needs, near } = tries;
  const { width } = cloth.grid;
  const from = tries.yarnOf(colour, at);
  const under = cloth.inks.find((ink) => ink.colour === colour && !ink.over)!;
  const covered = cloth.cells.slice();
  for (const [row, column] of cells) covered[(row - 1) * width + column - 1] = cloth.inks.length;
  const laid = (ink: Ink): Cloth => ({ ...cloth, inks: [...cloth.inks, ink], cells: covered });
  const all = input.pattern.charts.reduce((sum, { rows }) => sum + rows.join("").split(colour).length - 1, 0);
  const share = (LOOPS_LAID_ON * cells.length) / all;
  const stitches = (at.rows[1] - at.rows[0] + 1) * width;
  return input.yarns
    .filter((yarn) => yarn.id !== from && isOwned(yarn))
    .filter(({ id }) => isEnough({ colour, from: null, to: id, share }, needs))
    .filter((yarn) => target.reachIn(laid({ ...inkOf(under, yarn), over: true })) >= 1)
    .map((yarn): Attempt => {
      const stitched = { at: at.at, cells, yarn: yarn.id };
      const name = from === null ? colour : yarnName(input, from);
      return {
        kind: "overStitch",
        edits: [{ kind: "overStitch", colourway: input.colourway.id, stitched }],
        colour,
        from,
        to: yarn.id,
        at: at.at,
        overStitched: [stitched],
        change:
          `${capital(yarn.name)} laid over ${step === 2 ? "every second stitch of " : ""}${name} in ${rowsText(at.rows)} ` +
          `in duplicate stitch, ${cells.length} of ${stitches} stitches`,
        moves: [{ colour, from: null, to: yarn.id, share }],
        near: near(colour, yarn) + (used.has(yarn.id) ? 0 : NEW_YARN_COSTS),
        stitches: cells.length,
      };
    })
    .sort((a, b) => a.near - b.near);
}
