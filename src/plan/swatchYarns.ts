/** How much of each yarn a swatch takes: its stitches, cast-on and cast-off, and what goes across its back. */
import type { Problem } from "../base/problem.ts";
import { stitchSizeMm } from "../garment/gauge.ts";
import { gramsFromMetres } from "../yarn/lengths.ts";
import { amountsOf } from "./amounts.ts";
import { CAST_ON_AND_OFF } from "./settings.ts";
import type { SwatchKnitted } from "./swatchChart.ts";
import type { MannerOf } from "./swatchManner.ts";
import type { SwatchQuestion } from "./swatchQuestion.ts";

/** Metres with their least and most, nothing kept in reserve. */
export interface SwatchYarn {
  readonly yarn: string;
  readonly name: string;
  readonly metres: number;
  readonly low: number;
  readonly high: number;
  /** null where the yarn's thickness is not known. */
  readonly grams: number | null;
}

export function swatchYarns(
  { colours, yarns, gauge, settings }: SwatchQuestion,
  { chart, key, colourway }: SwatchKnitted,
  { worked, acrossBack }: MannerOf,
): { readonly yarns: SwatchYarn[]; readonly duplicateStitches: number; readonly problems: readonly Problem[] } {
  const colourOf = new Map(colours.map((colour) => [colour.id, colour]));
  const amounts = amountsOf({
    pattern: {
      gauge,
      colours: key.map(({ colour, of }) => ({ ...colourOf.get(of)!, id: colour })),
      charts: [{ ...chart, worked }],
    },
    yarns,
    colourway,
    settings: { ...settings, ...CAST_ON_AND_OFF },
  });
  const acrossM = (chart.rows[0]!.length * stitchSizeMm(gauge).widthMm) / 1000;
  const rowsOf = (yarn: string): number => {
    const letters = key.filter((entry) => entry.yarn === yarn).map(({ colour }) => colour);
    return chart.rows.filter((row) => letters.some((letter) => row.includes(letter))).length;
  };
  const thickness = new Map(yarns.map(({ id, metresPer100g }) => [id, metresPer100g]));
  return {
    yarns: amounts.yarns.map(({ yarn, name, metres, low, high }) => {
      const back = rowsOf(yarn) * acrossM;
      const all = metres + back * acrossBack.usual;
      const known = thickness.get(yarn);
      return {
        yarn,
        name,
        metres: all,
        low: low + back * acrossBack.least,
        high: high + back * acrossBack.most,
        grams: known === undefined ? null : gramsFromMetres(all, known),
      };
    }),
    duplicateStitches: amounts.yarns.reduce((sum, { duplicateStitches }) => sum + duplicateStitches, 0),
    problems: amounts.problems,
  };
}
