/** The rows a swatch can have: how wide they must be to show whole repeats, and what lies in them. */
import { leastCommonMultiple } from "../base/divisors.ts";
import { NO_STITCH } from "../chart/chart.ts";
import { repeatOf } from "../chart/repeats.ts";
import { areaKeyOf } from "../fabric/areas.ts";
import type { Cloth } from "../fabric/cloth.ts";
import { stitchSizeMm, type Gauge } from "../garment/gauge.ts";

/** Neighbouring rows of one of the cloths, by its index. */
export interface SwatchRows {
  readonly cloth: number;
  readonly rows: readonly [number, number];
}

/** One or several runs of rows that are knitted together, once across. */
export interface Strip {
  readonly runs: readonly (SwatchRows & { readonly repeat: number })[];
  /** Stitches after which all of them recur. */
  readonly repeat: number;
  /** Stitches that show it often enough. */
  readonly least: number;
}

/** At least 15 cm, 6 in (trade.md 3): the middle of it is measured. */
const LEAST_WIDTH_MM = 150;

/** Wider is no swatch. Our choice; a single repeat may be wider. */
const MOST_WIDTH_MM = 500;

/**
 * How wide some rows must be: two repeats (trade.md 3), or one that is itself as wide as a swatch.
 * @returns null where rows differ in which places have no stitch: what decreases is knitted in its own shape
 */
export function stripOf(cloths: readonly Cloth[], runs: readonly SwatchRows[], gauge: Gauge): Strip | null {
  const repeated = runs.flatMap((run) => {
    const repeat = repeatIn(cloths[run.cloth]!, run.rows);
    return repeat === null ? [] : [{ ...run, repeat }];
  });
  if (repeated.length < runs.length) return null;
  const repeats = repeated.map(({ repeat }) => repeat);
  const wide = Math.ceil(LEAST_WIDTH_MM / stitchSizeMm(gauge).widthMm - 1e-9);
  const least = Math.max(wide, ...repeats.map((repeat) => (repeat >= wide ? repeat : 2 * repeat)));
  return { runs: repeated, repeat: leastCommonMultiple(repeats), least };
}

function repeatIn(cloth: Cloth, [from, to]: readonly [number, number]): number | null {
  const columns = columnsOf(cloth, from);
  if (columns.length === 0) return null;
  const height = to - from + 1;
  const cells = new Uint8Array(columns.length * height);
  for (let step = 0; step < height; step++) {
    if (columnsOf(cloth, from + step).join() !== columns.join()) return null;
    columns.forEach((column, at) => {
      cells[step * columns.length + at] = cloth.cells[(from + step - 1) * cloth.grid.width + column - 1]!;
    });
  }
  return repeatOf({ ...cloth.grid, width: columns.length, height, cells }, [1, height]).stitches;
}

/** Columns of a row that have a stitch, right to left. */
function columnsOf({ grid, cells }: Cloth, row: number): number[] {
  const columns: number[] = [];
  for (let column = 1; column <= grid.width; column++)
    if (cells[(row - 1) * grid.width + column - 1] !== NO_STITCH) columns.push(column);
  return columns;
}

/** The widths that show whole repeats of some strips, in stitches, the least first. */
export function widthsFor(strips: readonly Strip[], gauge: Gauge): number[] {
  const most = Math.max(
    Math.floor(MOST_WIDTH_MM / stitchSizeMm(gauge).widthMm),
    ...strips.map(({ repeat, least }) => widthOf({ repeat, least })),
  );
  const leasts = [...new Set(strips.map(({ least }) => least))];
  let repeats = new Set([1]);
  for (const repeat of new Set(strips.map((strip) => strip.repeat))) {
    const joined = [...repeats].map((one) => leastCommonMultiple([one, repeat])).filter((one) => one <= most);
    repeats = new Set([...repeats, ...joined]);
  }
  const widths = [...repeats].flatMap((repeat) => leasts.map((least) => widthOf({ repeat, least })));
  return [...new Set(widths)].filter((width) => width <= most).sort((a, b) => a - b);
}

/** The least width in whole repeats that is wide enough. */
export const widthOf = ({ repeat, least }: Pick<Strip, "repeat" | "least">): number =>
  Math.ceil(least / repeat) * repeat;

export const fitsIn = ({ repeat, least }: Strip, width: number): boolean => width >= least && width % repeat === 0;

/** Ink of each stitch of a row in a swatch of so many stitches, right to left: as knitted, and as seen with what is laid on. */
interface RowInks {
  readonly knitted: readonly number[];
  readonly seen: readonly number[];
}

export function rowInks(cloth: Cloth, row: number, repeat: number, width: number): RowInks {
  const columns = columnsOf(cloth, row);
  const at = (step: number): number => (row - 1) * cloth.grid.width + columns[step % repeat]! - 1;
  const across = Array.from({ length: width }, (_, step) => at(step));
  return { knitted: across.map((place) => cloth.knitted[place]!), seen: across.map((place) => cloth.cells[place]!) };
}

/** Equal for rows that look alike and are knitted alike, whatever chart colours they come from. */
export function inksKey({ inks }: Cloth, { knitted, seen }: RowInks): string {
  const keyOf = (ink: number): string => areaKeyOf(inks[ink]!);
  return `${knitted.map(keyOf).join()} ${seen.map((ink) => (inks[ink]!.over ? `over ${keyOf(ink)}` : "")).join()}`;
}
