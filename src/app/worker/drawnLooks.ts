/** The looks of cells that were drawn, typed or put together: as even as their colours, so that they are corrected like cells of a picture. */
import type { CellLooks } from "../../intake/cellLooks.ts";
import type { ReadChart } from "../../intake/readChart.ts";
import type { Lab } from "../../colour/lab.ts";

/** L*, a*, b* of a cell without a stitch: the paper. */
const PAPER: Lab = [100, 0, 0];

export function drawnLooks({ rows, colours, symbols = {} }: ReadChart): CellLooks {
  const columns = rows[0]?.length ?? 0;
  const count = columns * rows.length;
  const labs = new Float32Array(count * 3);
  const signs = new Int16Array(count).fill(-1);
  const numbers = new Map(Object.keys(symbols).map((id, number) => [id, number]));
  rows.forEach((row, at) => {
    Array.from(row).forEach((id, column) => {
      const cell = at * columns + column;
      labs.set(colours[id]?.lab ?? PAPER, cell * 3);
      signs[cell] = numbers.get(id) ?? -1;
    });
  });
  return {
    columns,
    rows: rows.length,
    labs,
    spread: new Float32Array(count),
    signs,
    evenness: new Float32Array(count).fill(1),
  };
}
