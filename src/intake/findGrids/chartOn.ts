/** From a sheet that goes through a chart to the chart's own grid: what a stitch is, where the chart ends, how sure that is. */
import type { Problem } from "../../base/problem.ts";
import type { Point } from "../chartGrid.ts";
import type { FoundGrid } from "../findGrids.ts";
import { extentsOf, type Extent } from "./extent.ts";
import { gridOfSheet } from "./gridShape.ts";
import type { Grown } from "./grow.ts";
import type { Level } from "./levels.ts";
import { stepsOf } from "./pitchCheck.ts";
import { sheetThrough, type Sheet, type Tie } from "./sheet.ts";
import { noiseOf, sidesOf } from "./sides.ts";
import { straighten } from "./straight.ts";
import type { Box } from "./worthiest.ts";

/** Every chart on the sheet that was followed over a page, that of most stitches first. */
export function chartsOn(levels: readonly Level[], grown: Grown, lift: number): FoundGrid[] {
  const counted = restepped(levels, grown);
  const charts: FoundGrid[] = [];
  for (const { box, extent } of laidStraight(levels, counted.sheet, boxOfTies(counted.ties))) {
    const placed: Box = { ...extent, left: box.left + extent.left, top: box.top + extent.top };
    // What was taken for the grid outside the chart has drawn the sheet its way.
    const own = counted.ties.filter(({ column, row }) => isOn(placed, column, row));
    const isAlone = own.length === counted.ties.length || own.length < LEAST_TIES;
    const sheet = isAlone ? counted.sheet : sheetThrough(own);
    const again = isAlone ? null : mostOver(laidStraight(levels, sheet, placed), placed);
    const found = again
      ? chartWithin(sheet, again.box, again.extent, lift)
      : chartWithin(counted.sheet, box, extent, lift);
    if (found) charts.push(found);
  }
  return charts;
}

interface Laid {
  /** The columns and rows of the sheet that were laid straight. */
  readonly box: Box;
  readonly extent: Extent;
}

function laidStraight(levels: readonly Level[], sheet: Sheet, core: Box): Laid[] {
  const reach: Reach = { left: MARGIN, top: MARGIN, right: MARGIN, bottom: MARGIN };
  for (let round = 0; ; round++) {
    const box: Box = {
      left: core.left - reach.left,
      top: core.top - reach.top,
      columns: core.columns + reach.left + reach.right,
      rows: core.rows + reach.top + reach.bottom,
    };
    if (box.columns * box.rows > MOST_CELLS) return [];
    const straight = straighten(levels, sheet, box);
    const extents = extentsOf(sidesOf(straight), straight.seen, { ...core, left: reach.left, top: reach.top });
    // A chart that goes on to the end of what was laid straight may go on beyond it.
    const far = {
      left: extents.some(({ left }) => left < NEAR_END),
      top: extents.some(({ top }) => top < NEAR_END),
      right: extents.some(({ left, columns }) => box.columns - left - columns < NEAR_END),
      bottom: extents.some(({ top, rows }) => box.rows - top - rows < NEAR_END),
    };
    if (round === MOST_WIDENINGS || !(far.left || far.top || far.right || far.bottom))
      return extents.map((extent) => ({ box, extent }));
    for (const side of ["left", "top", "right", "bottom"] as const) if (far[side]) reach[side] += WIDENING;
  }
}

/** The one that shares most cells with a place. */
function mostOver(laid: readonly Laid[], place: Box): Laid | null {
  let [best, most] = [null as Laid | null, 0];
  for (const one of laid) {
    const left = one.box.left + one.extent.left;
    const top = one.box.top + one.extent.top;
    const wide = Math.min(left + one.extent.columns, place.left + place.columns) - Math.max(left, place.left);
    const high = Math.min(top + one.extent.rows, place.top + place.rows) - Math.max(top, place.top);
    if (wide > 0 && high > 0 && wide * high > most) [best, most] = [one, wide * high];
  }
  return best;
}

const isOn = ({ left, top, columns, rows }: Box, column: number, row: number): boolean =>
  column >= left && column <= left + columns && row >= top && row <= top + rows;

interface Reach {
  left: number;
  top: number;
  right: number;
  bottom: number;
}

function chartWithin(sheet: Sheet, box: Box, extent: Extent, lift: number): FoundGrid | null {
  if (extent.columns < 2 || extent.rows < 2 || extent.columns * extent.rows < LEAST_CELLS) return null;
  const { columns, rows } = extent;
  const worst = Math.min(...extent.ends);
  const clear = Math.min(1, LEAST_FOR_LIFT + LIFT_SAYS * lift);
  return {
    grid: gridOfSheet(sheet, { left: box.left + extent.left, top: box.top + extent.top, columns, rows }),
    confidence: Math.min(1, extent.trust) * clear * (ENDS_UNSEEN + (1 - ENDS_UNSEEN) * Math.min(1, worst / ENDS_SEEN)),
    lined: extent.lined,
    exact: false,
    doubts: doubtsOf(extent, clear),
  };
}

function doubtsOf({ ends, trust }: Extent, clear: number): Problem[] {
  const doubts: Problem[] = ["left", "top", "right", "bottom"].flatMap((side, at) =>
    ends[at]! >= ENDS_SEEN
      ? []
      : [
          {
            where: `the ${side} edge of the chart`,
            expected: "a line or a change of colour where the chart ends",
            got: "stitches that may go on; compare the number of rows and stitches",
            severity: "doubt" as const,
          },
        ],
  );
  if (trust * clear >= SURE) return doubts;
  return [
    ...doubts,
    {
      where: "the grid",
      expected: "even steps from stitch to stitch",
      got: "a grid that is not quite regular; compare the number of rows and stitches",
      severity: "doubt",
    },
  ];
}

/** The grid counted in stitches, where it was found in parts of them or in several. */
function restepped(levels: readonly Level[], grown: Grown): Grown {
  const { sheet, ties } = grown;
  const { left, top, columns, rows } = boxOfTies(ties);
  // The middle of what was found lies within the chart, whatever was found beside it.
  const wide = Math.min(columns, MOST_CHECKED, Math.max(LEAST_CHECKED_SPAN, Math.round(columns * 0.6)));
  const high = Math.min(rows, MOST_CHECKED, Math.max(LEAST_CHECKED_SPAN, Math.round(rows * 0.6)));
  const box = {
    left: left + ((columns - wide) >> 1),
    top: top + ((rows - high) >> 1),
    columns: Math.max(3, wide),
    rows: Math.max(3, high),
  };
  const straight = straighten(levels, sheet, box, CHECKED_SIDE);
  const { across, down } = stepsOf(straight, Math.max(LEAST_CHECKED, CHECKED_NOISE * noiseOf(straight)));
  if (across.step === 1 && down.step === 1) return grown;
  const from: Point = [box.left + across.offset, box.top + down.offset];
  return {
    ...grown,
    sheet: { at: (column, row) => sheet.at(from[0] + column * across.step, from[1] + row * down.step) },
    ties: ties.map((tie) => ({
      ...tie,
      column: (tie.column - from[0]) / across.step,
      row: (tie.row - from[1]) / down.step,
    })),
  };
}

function boxOfTies(ties: readonly Tie[]): Box {
  let [left, right, top, bottom] = [Infinity, -Infinity, Infinity, -Infinity];
  for (const { column, row } of ties) {
    left = Math.min(left, column);
    right = Math.max(right, column);
    top = Math.min(top, row);
    bottom = Math.max(bottom, row);
  }
  [left, top] = [Math.floor(left), Math.floor(top)];
  return { left, top, columns: Math.ceil(right) - left, rows: Math.ceil(bottom) - top };
}

/** Stitches around what was seen first that are looked at, and by how many more where the chart goes on. */
const MARGIN = 8;
const LEAST_TIES = 9;
const WIDENING = 16;
const NEAR_END = 2;
const MOST_WIDENINGS = 5;
const MOST_CELLS = 400_000;
const LEAST_CELLS = 9;
/** Ours, on painted charts: what is left of confidence where edges gather little, and where an end of the chart is not seen. */
const LEAST_FOR_LIFT = 0.4;
const LIFT_SAYS = 3;
const ENDS_UNSEEN = 0.6;
const ENDS_SEEN = 0.6;
const SURE = 0.7;
/** Stitches each way, samples and bytes, when the pitch is checked. */
const MOST_CHECKED = 24;
const CHECKED_SIDE = 48;
const LEAST_CHECKED_SPAN = 8;
const CHECKED_NOISE = 2.2;
const LEAST_CHECKED = 5;
