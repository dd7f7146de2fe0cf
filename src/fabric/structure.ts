/** How the chart of a cloth is built, worked out once however often a yarn is swapped. */
import { alignmentsOf, type Alignment } from "../chart/alignment.ts";
import { centreOf } from "../chart/centres.ts";
import type { Grid } from "../chart/chart.ts";
import { structureOf, type BandStructure } from "../chart/structure.ts";
import type { RoundBand } from "../garment/rounds.ts";
import type { Cloth } from "./cloth.ts";
import { bandsOf } from "./layout.ts";

export interface ChartStructure {
  readonly bands: readonly BandStructure[];
  readonly alignments: readonly Alignment[];
  /** Of each chart row, lowest first, the band of a figure in which it lies, as it tiles the round; null in plain rows. */
  readonly bandOfRow: readonly (RoundBand | null)[];
}

/** A grid is made from one chart and stands for its declared bands too. */
export function structureIn({ chart, grid }: Pick<Cloth, "chart" | "grid">): ChartStructure {
  let known = STRUCTURES.get(grid);
  if (!known) {
    const bands = structureOf(grid, bandsOf({ chart, grid }));
    known = {
      bands,
      alignments: alignmentsOf(grid, bands),
      bandOfRow: bands.flatMap((one) => {
        const { band, kind, repeat } = one;
        const round = {
          id: band.id,
          repeat: repeat.over === 0 ? repeat.stitches : grid.width,
          centre: centreOf(grid, one),
        };
        return Array.from({ length: band.rows[1] - band.rows[0] + 1 }, () => (kind === "plain" ? null : round));
      }),
    };
    STRUCTURES.set(grid, known);
  }
  return known;
}

const STRUCTURES = new WeakMap<Grid, ChartStructure>();
