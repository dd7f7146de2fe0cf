/** Everything that is measured of a cloth at one distance and light, row by row, band by band and colour by colour. */
import { NO_GROUND } from "../chart/grounds.ts";
import type { Band } from "../chart/bands.ts";
import { NO_STITCH } from "../chart/chart.ts";
import { labFromXyz, xyzFromLab, type Lab } from "../colour/lab.ts";
import { mixLab } from "../colour/mixing.ts";
import type { Cloth } from "./cloth.ts";
import {
  bandContrast,
  rowContrast,
  UNTUNED,
  type Contrast,
  type Doubt,
  type SpectrumMemory,
  type Viewing,
} from "./contrast.ts";
import { bandsOf, rowsOfInks } from "./layout.ts";
import { seenColours, visualWeight } from "./weight.ts";

export interface Measures {
  readonly cloth: Cloth;
  readonly bands: readonly BandMeasure[];
  readonly rows: readonly RowMeasure[];
  /** The chart as a whole, ink by ink. */
  readonly weights: readonly InkWeight[];
}

export interface BandMeasure {
  readonly band: Band;
  readonly contrast: Contrast;
  /** Its colours added in linear light by area: what it looks like from too far away. */
  readonly cast: Lab;
  readonly weights: readonly InkWeight[];
}

export interface RowMeasure {
  readonly row: number;
  /** Index into `bands`. */
  readonly band: number;
  readonly contrast: Contrast;
}

export interface InkWeight {
  /** Index into the cloth's inks. */
  readonly ink: number;
  /** Part of the stitches, 0 to 1. */
  readonly area: number;
  /** Visual weight, an estimate, 0 to 1. */
  readonly share: number;
  /** null where the colour is too rare for it to mean anything. */
  readonly standsOut: number | null;
  /** C* as it is seen at the distance: fine patterns mix and are quieter than the yarn in the ball. */
  readonly chroma: number;
  readonly recurs: { readonly bands: number; readonly height: number };
}

/** @param mainColour chart colour that is the garment's; the colour of most stitches where missing */
export function measureCloth(
  cloth: Cloth,
  viewing: Viewing,
  memory: SpectrumMemory,
  { mainColour, doubt = UNTUNED }: { mainColour?: string | undefined; doubt?: Doubt } = {},
): Measures {
  const found = bandsOf(cloth);
  const rows: RowMeasure[] = [];
  const seenInBands = cloth.inks.map((): { lab: Lab; stitches: number }[] => []);
  const bands = found.map((band, index): BandMeasure => {
    const contrast = bandContrast(cloth, band, viewing, memory, doubt);
    for (let row = band.rows[0]; row <= band.rows[1]; row++)
      rows.push({ row, band: index, contrast: rowContrast(cloth, row, viewing, memory, doubt) });
    const stitches = stitchesOf(cloth, band.rows[0], band.rows[1]);
    const inks = stitches.flatMap((count, ink) => (count > 0 ? [ink] : []));
    const colours = inks.map((ink) => ({ lab: cloth.inks[ink]!.lab, area: stitches[ink]! }));
    const seen = contrast.channels ? seenColours(colours, contrast.channels) : colours.map(({ lab }) => lab);
    seen.forEach((lab, at) => seenInBands[inks[at]!]!.push({ lab, stitches: colours[at]!.area }));
    const groundColour = band.ground === NO_GROUND ? undefined : cloth.grid.ids[band.ground];
    const ground = mostOf(cloth, inks, stitches, groundColour);
    return { band, contrast, cast: castOf(colours), weights: weigh(cloth, inks, stitches, seen, ground, [index]) };
  });
  const stitches = stitchesOf(cloth, 1, cloth.grid.height);
  const inks = stitches.flatMap((count, ink) => (count > 0 ? [ink] : []));
  const seen = inks.map((ink) => meanLab(seenInBands[ink]!));
  const ground = mostOf(cloth, inks, stitches, mainColour);
  return { cloth, bands, rows, weights: weigh(cloth, inks, stitches, seen, ground, [...found.keys()]) };
}

/** Stitches of each ink in rows `from` to `to`. */
export function stitchesOf(cloth: Cloth, from: number, to: number): number[] {
  const stitches = cloth.inks.map(() => 0);
  for (let at = (from - 1) * cloth.grid.width; at < to * cloth.grid.width; at++) {
    const ink = cloth.cells[at]!;
    if (ink !== NO_STITCH) stitches[ink]! += 1;
  }
  return stitches;
}

function castOf(colours: readonly { lab: Lab; area: number }[]): Lab {
  if (colours.length === 0) return [50, 0, 0];
  return mixLab(colours.map(({ lab, area }) => ({ lab, share: area })));
}

/** Among some inks the one of a chart colour with most stitches, or of all where that colour is not there. */
export function mostOf(
  cloth: Cloth,
  inks: readonly number[],
  stitches: readonly number[],
  colour: string | undefined,
): number {
  const own = inks.filter((ink) => cloth.inks[ink]!.colour === colour);
  const among = own.length > 0 ? own : inks;
  return among.reduce((best, ink) => (stitches[ink]! > stitches[best]! ? ink : best), among[0] ?? 0);
}

/** Rarer than this, and in fewer bands, stands-out is not shown: it always favours the rarest. Birthplace: vision.md C3. */
const RAREST = { area: 0.01, bands: 3 };

/** The weights of some inks as they are seen; `bands` are those in which they may recur. */
export function weigh(
  cloth: Cloth,
  inks: readonly number[],
  stitches: readonly number[],
  seen: readonly Lab[],
  ground: number,
  bands: readonly number[],
): InkWeight[] {
  const all = inks.reduce((sum, ink) => sum + stitches[ink]!, 0);
  const weights = visualWeight({
    colours: inks.map((ink, at) => ({ lab: seen[at]!, area: stitches[ink]! })),
    ground: Math.max(0, inks.indexOf(ground)),
  });
  return inks.map((ink, at) => {
    const area = stitches[ink]! / all;
    const recurs = recurrence(cloth, ink, bands);
    const rare = area < RAREST.area && recurs.bands < RAREST.bands;
    const [, redGreen, yellowBlue] = seen[at]!;
    return {
      ink,
      area,
      share: weights[at]!.share,
      standsOut: rare ? null : weights[at]!.standsOut,
      chroma: Math.hypot(redGreen, yellowBlue),
      recurs,
    };
  });
}

function recurrence(cloth: Cloth, ink: number, bands: readonly number[]): { bands: number; height: number } {
  const found = bandsOf(cloth);
  const rowsOf = rowsOfInks(cloth);
  let inBands = 0;
  let inRows = 0;
  let allRows = 0;
  for (const band of bands) {
    const { rows } = found[band]!;
    const here = rowsOf[band]![ink]!;
    inBands += here > 0 ? 1 : 0;
    inRows += here;
    allRows += rows[1] - rows[0] + 1;
  }
  return { bands: inBands, height: allRows ? inRows / allRows : 0 };
}

/** The mean of an ink's seen colours in XYZ, by stitches. */
function meanLab(parts: readonly { lab: Lab; stitches: number }[]): Lab {
  const sum: [number, number, number] = [0, 0, 0];
  let all = 0;
  for (const { lab, stitches } of parts) {
    xyzFromLab(lab).forEach((part, axis) => (sum[axis]! += part * stitches));
    all += stitches;
  }
  return labFromXyz([sum[0] / all, sum[1] / all, sum[2] / all]);
}
