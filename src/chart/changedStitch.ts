/** What a stitch in another colour would do to the strands behind its row. */
import { NO_STITCH, type Grid } from "./chart.ts";
import { floatsInRow, type Float, type Worked } from "./floats.ts";

export interface ChangedFloats {
  /** Floats of the row as it is. */
  readonly all: readonly Float[];
  /** Floats of the row that would be no more, and those that would come instead, right to left. */
  readonly gone: readonly Float[];
  readonly come: readonly Float[];
  /** The longest of the row, before and after; 0 for none. */
  readonly longest: readonly [number, number];
  /** Colours worked in the row, before and after: a third strand is a change of its own. */
  readonly colours: readonly [number, number];
}

/** @param colour index of the colour that the stitch would have; the place has a stitch */
export function changedFloats(
  grid: Grid,
  { row, column, colour }: { readonly row: number; readonly column: number; readonly colour: number },
  worked: Worked = "round",
): ChangedFloats {
  const { width } = grid;
  const cells = grid.cells.slice((row - 1) * width, row * width);
  const alone = (stitches: Uint8Array): Grid => ({ width, height: 1, ids: grid.ids, cells: stitches });
  const look = (stitches: Uint8Array) => ({
    floats: floatsInRow(alone(stitches), 1, worked).map((float): Float => ({ ...float, row })),
    colours: new Set(stitches.filter((cell) => cell !== NO_STITCH)).size,
  });
  const before = look(cells);
  const after = look(cells.with(column - 1, colour));
  const key = ({ colour: own, fromColumn, length }: Float): string => `${own}/${fromColumn}/${length}`;
  const [were, are] = [before, after].map(({ floats }) => new Set(floats.map(key)));
  const longestOf = (floats: readonly Float[]): number => Math.max(0, ...floats.map(({ length }) => length));
  return {
    all: before.floats,
    gone: before.floats.filter((float) => !are!.has(key(float))),
    come: after.floats.filter((float) => !were!.has(key(float))),
    longest: [longestOf(before.floats), longestOf(after.floats)],
    colours: [before.colours, after.colours],
  };
}
