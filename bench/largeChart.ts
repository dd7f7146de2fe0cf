/** A chart 400 rows high in 20 colours for the benches, in bands of at most 31 rows and five colours; how a row is filled is the bench's own. */
import type { ChartBand } from "../src/chart/chart.ts";

export const LARGE_IDS = "ABCDEFGHIJKLMNOPQRST";
const HEIGHT = 400;

/** @param rowOf fills a row with two of its band’s colours: one of the first two, one of the last three */
export function largeChart(
  random: () => number,
  rowOf: (one: string, other: string) => string,
): { readonly rows: string[]; readonly bands: ChartBand[] } {
  const rows: string[] = [];
  const heights: number[] = [];
  while (rows.length < HEIGHT) {
    const height = Math.min(HEIGHT - rows.length, 9 + Math.floor(random() * 23));
    heights.push(height);
    const colours = Array.from({ length: 5 }, () => LARGE_IDS[Math.floor(random() * LARGE_IDS.length)]!);
    for (let row = 0; row < height; row++) {
      const [one, other] = [colours[Math.floor(random() * 2)]!, colours[2 + Math.floor(random() * 3)]!];
      rows.push(rowOf(one, other));
    }
  }
  // The first that was drawn is the highest.
  let above = HEIGHT;
  return { rows, bands: heights.map((height) => ({ rows: [above - height + 1, (above -= height) + height] })) };
}
