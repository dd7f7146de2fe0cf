/** How a chart is built, as data: its bands with repeat, axes, roles and echoes, its main colour, and how the bands lie. */
import { alignmentsOf, type Alignment } from "../chart/alignment.ts";
import { findBands } from "../chart/bands.ts";
import { gridOf, type Chart } from "../chart/chart.ts";
import { mainColour } from "../chart/mainColour.ts";
import type { Repeat } from "../chart/repeats.ts";
import { structureOf, type BandEcho, type BandStructure } from "../chart/structure.ts";

export interface ChartStructure {
  /** Chart colours; null for a chart without a stitch. */
  readonly main: string | null;
  readonly contrasts: readonly string[];
  readonly bands: readonly {
    readonly id: string;
    readonly rows: readonly [number, number];
    readonly kind: BandStructure["kind"];
    readonly ground: readonly string[];
    readonly pattern: readonly string[];
    readonly repeat: Repeat;
    readonly axes: { readonly across: readonly number[]; readonly up: readonly number[] };
    readonly shaded: BandStructure["shaded"];
    readonly echo: BandEcho | null;
  }[];
  readonly alignments: readonly Alignment[];
}

/** @param chart rows of one length, at most 255 colours */
export function chartStructure(chart: Pick<Chart, "rows" | "bands">): ChartStructure {
  const grid = gridOf(chart);
  const built = structureOf(grid, findBands(chart, grid));
  const idsOf = (colours: readonly number[]): string[] => colours.map((colour) => grid.ids[colour]!);
  const { main, contrasts } = mainColour(grid, built);
  return {
    main: main === null ? null : grid.ids[main]!,
    contrasts: idsOf(contrasts),
    bands: built.map(({ band, kind, repeat, mirrors: { across, up }, shaded, echo }) => ({
      id: band.id,
      rows: band.rows,
      kind,
      ground: idsOf(band.grounds),
      pattern: idsOf(band.pattern),
      repeat,
      axes: { across, up },
      shaded,
      echo,
    })),
    alignments: alignmentsOf(grid, built),
  };
}
