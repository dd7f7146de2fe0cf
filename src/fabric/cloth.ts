/** The cloth: a chart with its yarns in place, every stitch an ink; what rendering and seeing both start from. */
import { assert } from "../base/assert.ts";
import { gridOf, NO_STITCH, type Chart, type Grid } from "../chart/chart.ts";
import type { Lab } from "../colour/lab.ts";
import { labOfShade } from "../colour/shade.ts";
import { placeHoldsRow } from "../garment/place.ts";
import type { Gauge } from "../garment/gauge.ts";
import type { Section } from "../garment/sections.ts";
import { labOfYarn, uncertaintyOfYarn, type Fleck, type Yarn } from "../yarn/yarn.ts";
import { yarnInRound, yarnInRow, type Colourway } from "./colourway.ts";
import type { Pattern } from "./pattern.ts";

/** What a stitch is knitted with: a chart colour in the yarn that it has there. */
export interface Ink {
  /** Chart colour. */
  readonly colour: string;
  /** null: no yarn is assigned and the pattern's own colour stands in, or this is the pattern itself. */
  readonly yarn: string | null;
  readonly lab: Lab;
  /** ΔE00 that holds the truth in 80 % of cases. */
  readonly uncertainty: number;
  /** The pattern's own colour of this chart colour. */
  readonly was: Lab;
  /** ΔE00 of `was`; a colour picked off a picture has one. 0 where missing. */
  readonly wasUncertainty?: number;
  readonly flecks: readonly Fleck[];
  /** Laid on in duplicate stitch. */
  readonly over: boolean;
}

export interface OverLine {
  readonly from: readonly [number, number];
  readonly to: readonly [number, number];
  readonly lab: Lab;
}

export interface Cloth {
  readonly chart: Chart;
  /** Chart colours. */
  readonly grid: Grid;
  readonly inks: readonly Ink[];
  /** Ink of every stitch, laid out as `grid.cells`; NO_STITCH where there is none. */
  readonly cells: Uint8Array;
  /** What is knitted underneath duplicate stitch: `cells` without it. */
  readonly knitted: Uint8Array;
  readonly gauge: Gauge;
  readonly lines: readonly OverLine[];
}

export interface ClothParts {
  readonly chart: Chart;
  readonly pattern: Pattern;
  readonly yarns: readonly Yarn[];
  readonly colourway: Colourway;
  /** The chart as this section's first rounds use it; without it as every use of the chart has it. */
  readonly section?: Section;
}

/** A chart in a colourway's yarns. The project was validated: every yarn that the colourway names exists. */
export function clothOf({ chart, pattern, yarns, colourway, section }: ClothParts): Cloth {
  const grid = gridOf(chart);
  const yarnOf = new Map(yarns.map((yarn) => [yarn.id, yarn]));
  const startRow = section?.startRow ?? 1;
  const palette = paletteOf(pattern, yarnOf);
  const cells = new Uint8Array(grid.cells.length).fill(NO_STITCH);
  const everywhere = colourway.changes?.length ? null : grid.ids.map((colour) => colourway.yarns[colour]);
  for (let row = 1; row <= grid.height; row++) {
    const yarnHere = (colour: string): string | undefined => {
      if (!section) return yarnInRow(colourway, colour, chart.id, row);
      const round = ((row - startRow + grid.height) % grid.height) + 1;
      return yarnInRound(colourway, colour, { section: section.id, round, chart: chart.id, row });
    };
    const yarnIds = everywhere ?? grid.ids.map(yarnHere);
    const inks: (number | undefined)[] = [];
    for (let at = (row - 1) * grid.width; at < row * grid.width; at++) {
      const colour = grid.cells[at]!;
      if (colour === NO_STITCH) continue;
      cells[at] = inks[colour] ??= palette.ink(grid.ids[colour]!, yarnIds[colour] ?? null, { over: false });
    }
  }
  // Without duplicate stitch what is seen is what is knitted.
  const knitted = colourway.overStitched?.length ? cells.slice() : cells;
  const lines: OverLine[] = [];
  for (const over of colourway.overStitched ?? []) {
    const chosen = (row: number): boolean =>
      "chart" in over.at ? placeHoldsRow(over.at, chart.id, row) : over.at.section === section?.id;
    for (const [row, column] of over.cells ?? []) {
      if (row < 1 || row > grid.height || column < 1 || column > grid.width || !chosen(row)) continue;
      const at = (row - 1) * grid.width + (column - 1);
      const colour = grid.cells[at]!;
      if (colour !== NO_STITCH) cells[at] = palette.ink(grid.ids[colour]!, over.yarn, { over: true });
    }
    const yarn = yarnOf.get(over.yarn);
    if (!yarn) continue;
    for (const [from, to] of over.lines ?? []) if (chosen(from[0] + 1)) lines.push({ from, to, lab: labOfYarn(yarn) });
  }
  return { chart, grid, inks: palette.inks, cells, knitted, gauge: section?.gauge ?? pattern.gauge, lines };
}

/** The chart in the pattern's own colours. */
export function clothOfPattern(parts: { readonly chart: Chart; readonly pattern: Pattern }): Cloth {
  return clothOf({ ...parts, yarns: [], colourway: { id: "", yarns: {} } });
}

/** The same stitches in the pattern's own colours, ink by ink, so that places can be compared. */
export function asPattern(cloth: Cloth): Cloth {
  return {
    ...cloth,
    inks: cloth.inks.map((ink) => ({
      ...ink,
      yarn: null,
      lab: ink.was,
      flecks: [],
      uncertainty: ink.wasUncertainty ?? 0,
    })),
  };
}

function paletteOf(pattern: Pattern, yarnOf: ReadonlyMap<string, Yarn>) {
  const shadeOf = new Map(pattern.colours.map(({ id, shade }) => [id, shade]));
  const inks: Ink[] = [];
  const indexOf = new Map<string, number>();
  const ink = (colour: string, yarnId: string | null, { over }: { over: boolean }): number => {
    const key = JSON.stringify([colour, yarnId, over]);
    const known = indexOf.get(key);
    if (known !== undefined) return known;
    const shade = shadeOf.get(colour);
    assert(shade, `chart colour ${colour} is in the key`);
    const pattern = { was: labOfShade(shade), wasUncertainty: shade.uncertainty ?? 0 };
    const yarn = yarnId === null ? undefined : yarnOf.get(yarnId);
    const index = inks.length;
    assert(index < NO_STITCH, "a cloth has at most 255 inks");
    inks.push(
      yarn
        ? {
            colour,
            yarn: yarn.id,
            lab: labOfYarn(yarn),
            uncertainty: uncertaintyOfYarn(yarn),
            ...pattern,
            flecks: yarn.flecks ?? [],
            over,
          }
        : { colour, yarn: null, lab: pattern.was, uncertainty: pattern.wasUncertainty, ...pattern, flecks: [], over },
    );
    indexOf.set(key, index);
    return index;
  };
  return { inks, ink };
}
