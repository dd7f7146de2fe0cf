/** Rows in words, as a knitter reads them aloud: "Rnd 7: *k3 MC, k1 CC1, k4 MC; rep from * to end." */
import { cellAt, NO_STITCH, type Chart, type Grid } from "../chart/chart.ts";
import { workingOrder } from "../chart/working.ts";

/** What a chart colour is called in the words: "MC", a letter, a yarn's name. */
export type ColourName = (colour: string, row: number) => string;

/**
 * One row as it is worked: right to left, or left to right and purled on the wrong side of flat work. Places without a
 * stitch are passed over; stitches at the two edges are not merged, so that the words of one repeat match its markers.
 * Example: the row `...#...#` in the round reads "k1 CC, k3 MC, k1 CC, k3 MC".
 */
export function writtenRow(chart: Pick<Chart, "worked">, grid: Grid, row: number, nameOf: ColourName): string {
  const { direction, side } = workingOrder(chart, row);
  const stitch = side === "WS" ? "p" : "k";
  const runs: { name: string; stitches: number }[] = [];
  for (let step = 1; step <= grid.width; step++) {
    const cell = cellAt(grid, row, direction === "right-to-left" ? step : grid.width + 1 - step);
    if (cell === NO_STITCH) continue;
    const name = nameOf(grid.ids[cell]!, row);
    const last = runs.at(-1);
    if (last?.name === name) last.stitches++;
    else runs.push({ name, stitches: 1 });
  }
  if (runs.length === 0) return "no stitches";
  if (runs.length === 1) return `${stitch} all ${runs[0]!.name}`;
  return runs.map(({ name, stitches }) => `${stitch}${stitches} ${name}`).join(", ");
}

/** Every row of a chart in words, row 1 first. */
export function writtenRows(chart: Pick<Chart, "worked">, grid: Grid, nameOf: ColourName): string[] {
  return Array.from({ length: grid.height }, (_, index) => {
    const row = index + 1;
    const words = writtenRow(chart, grid, row, nameOf);
    if (chart.worked === "flat") return `Row ${row} (${workingOrder(chart, row).side}): ${words}.`;
    return words.includes(",") ? `Rnd ${row}: *${words}; rep from * to end.` : `Rnd ${row}: ${words}.`;
  });
}

/** MC for the main colour, CC for a single contrast, else CC1, CC2 … in the order of `colours`. */
export function tradeNames(colours: readonly { id: string; role?: "main" | "contrast" }[]): Map<string, string> {
  const main = colours.find(({ role }) => role === "main") ?? colours[0];
  const contrasts = colours.filter((colour) => colour !== main);
  const names = new Map(contrasts.map(({ id }, index) => [id, contrasts.length === 1 ? "CC" : `CC${index + 1}`]));
  if (main) names.set(main.id, "MC");
  return names;
}
