/** How strokes are drawn: mirrored, in every repeat, filled, across the round's end. */
import { useMemo, useState } from "react";
import { findBands } from "../../chart/bands.ts";
import { gridOf, type Chart, type Grid } from "../../chart/chart.ts";
import type { Selection } from "../../chart/draw.ts";
import type { Manner } from "../../chart/draw/stroke.ts";
import { repeatOf } from "../../chart/repeats.ts";

export interface Manners {
  readonly manner: Manner;
  readonly isMirrored: boolean;
  readonly isRepeated: boolean;
  readonly isFilled: boolean;
  readonly acrossEnd: boolean;
  /** Stitches after which a stroke comes again; null: as the band at that row recurs. */
  readonly every: number | null;
  readonly turn: (part: Partial<Switches>) => void;
}

type Switches = Pick<Manners, "isMirrored" | "isRepeated" | "isFilled" | "acrossEnd" | "every">;

const FIRST: Switches = { isMirrored: false, isRepeated: false, isFilled: true, acrossEnd: true, every: null };

export function useManner(chart: Chart, grid: Grid, selection: Selection | null): Manners {
  const [on, setOn] = useState(FIRST);
  const { isRepeated, every } = on;
  // What is drawn in every repeat leaves the repeats as they are: they are not looked for after each stroke.
  const bands = JSON.stringify(chart.bands);
  const repeats = useMemo(() => {
    if (!isRepeated) return null;
    return every === null ? repeatsOf(chart) : chart.rows.map(() => every);
  }, [isRepeated, every, chart.id, bands, grid.width, grid.height]);
  // Her line is the middle of what is chosen, or of the chart.
  const [right, left] = selection?.columns ?? [1, grid.width];
  const mirror = on.isMirrored ? (right + left) / 2 : null;
  const manner = useMemo(() => ({ mirror, repeats }), [mirror, repeats]);
  return { ...on, manner, turn: (part) => setOn((now) => ({ ...now, ...part })) };
}

/** The width of the repeat in each row from the lowest, by the band it is in; 0 where nothing recurs. */
function repeatsOf(chart: Chart): number[] {
  const grid = gridOf(chart);
  const repeats = new Array<number>(grid.height).fill(0);
  for (const { rows, declared } of findBands(chart, grid)) {
    const stitches = declared?.repeat ?? repeatOf(grid, rows).stitches;
    // A plain row has every repeat; a stitch drawn there is meant as one stitch, not as a stripe.
    if (stitches > 1 && stitches < grid.width) repeats.fill(stitches, rows[0] - 1, rows[1]);
  }
  return repeats;
}
