/** Which yarn, if its shade were better known, would settle most: rows whose word hangs on shades that nobody has measured well. */
import { shadeOff } from "../colour/shadeDraw.ts";
import type { Lab } from "../colour/lab.ts";
import type { Cloth } from "../fabric/cloth.ts";
import { rowContrast, type Contrast, type SpectrumMemory } from "../fabric/contrast.ts";
import { wordOf, type Word } from "../fabric/visibility.ts";
import { isOwned } from "../yarn/owned.ts";
import { labOfYarn, uncertaintyOfYarn, type Yarn } from "../yarn/yarn.ts";
import type { AuditContext } from "./context.ts";
import { offsOf } from "./likely.ts";

export interface WorthMeasuring {
  readonly yarn: string;
  /** ΔE00 as it is, and as it would be. */
  readonly uncertainty: number;
  readonly measured: number;
  /** Rows in doubt that it would likely settle: the sum of their chances, of so many. */
  readonly settles: number;
  readonly inDoubt: number;
  readonly sentence: string;
}

/**
 * What a shade is known to when it has been photographed beside a chart of 24 patches, ΔE00. Birthplace: docs/vision.md F, the range that
 * painted photographs in even light are told with in the median; patches of real charts are told with 4.7.
 */
const MEASURED = 4;

/** A word is settled when it holds in so many of the draws, as everywhere where a range is told. */
const HOLDS = 0.8;

/** Draws of all shades, and places at which a measured yarn may turn out to lie. Our choice, to be done in half a second. */
const DRAWS = 30;
const OUTCOMES = 8;

/**
 * The yarns worth measuring, first the one that settles most; none where nothing is in doubt, or nothing would be settled.
 *
 * All shades are drawn as they may be (`likely.ts`). A row is in doubt where no word holds in four of five draws. A measured yarn may turn
 * out to lie anywhere where it may lie now, and is then known to `measured`: in each of several such outcomes it is counted whether
 * the row is still in doubt. Her threshold and the weight of hue stay as they are, for no photograph of a yarn tells of them.
 * @param measured ΔE00 that holds the truth in 80 % of cases once a yarn is measured
 */
export function worthMeasuring(
  { charts, yarns, viewing, limits }: AuditContext,
  memory: SpectrumMemory,
  { measured = MEASURED, stop }: { readonly measured?: number; readonly stop?: (() => boolean) | undefined } = {},
): WorthMeasuring[] {
  // What a drawn cloth looks like is asked for once: it must not push out what is asked for often.
  const apart = { ...memory, looks: new Map() };
  const mayBeMeasured = (yarn: string | null): boolean => {
    const known = yarn === null ? undefined : yarnOf.get(yarn);
    return known !== undefined && isOwned(known) && uncertaintyOfYarn(known) > measured;
  };
  const yarnOf = new Map(yarns.map((yarn) => [yarn.id, yarn]));
  if (!charts.some(({ now }) => now.cloth.inks.some(({ yarn }) => mayBeMeasured(yarn)))) return [];
  const drawn = new Map(yarns.map((yarn) => [yarn.id, drawsOf(yarn, labOfYarn(yarn), uncertaintyOfYarn(yarn))]));
  const wordsOf = (cloth: Cloth, row: number, shadesOf: (yarn: string) => readonly Lab[]): Word[] =>
    Array.from({ length: DRAWS }, (_, draw) => {
      const inks = cloth.inks.map((ink) => (ink.yarn === null ? ink : { ...ink, lab: shadesOf(ink.yarn)[draw]! }));
      return wordOf(rowContrast({ ...cloth, inks }, row, viewing, apart).V ?? 0, limits);
    });
  const rows = charts.flatMap(({ now }) =>
    now.rows.flatMap(({ row, contrast }) =>
      contrast.V !== null && !stop?.() && isOpen(wordsOf(now.cloth, row, (yarn) => drawn.get(yarn)!))
        ? [{ cloth: now.cloth, row, yarns: yarnsIn(contrast) }]
        : [],
    ),
  );
  const candidates = [...new Set(rows.flatMap((row) => row.yarns))].filter(mayBeMeasured).map((id) => yarnOf.get(id)!);
  return candidates
    .flatMap((yarn): WorthMeasuring[] => {
      if (stop?.()) return [];
      const outcomes = outcomesOf(yarn, measured);
      const settles = rows
        .filter((row) => row.yarns.includes(yarn.id))
        .reduce((sum, { cloth, row }) => {
          const settled = outcomes.filter(
            (shades) => !isOpen(wordsOf(cloth, row, (id) => (id === yarn.id ? shades : drawn.get(id)!))),
          );
          return sum + settled.length / outcomes.length;
        }, 0);
      const told = Math.round(settles);
      if (told === 0) return [];
      return [
        {
          yarn: yarn.id,
          uncertainty: uncertaintyOfYarn(yarn),
          measured,
          settles,
          inDoubt: rows.length,
          sentence: `Measuring ${yarn.name || yarn.id} would likely settle ${settledWords(told, rows.length)}: photograph it beside a colour chart.`,
        },
      ];
    })
    .sort((a, b) => b.settles - a.settles || (a.yarn < b.yarn ? -1 : 1));
}

/** A yarn's shade in every draw. */
const drawsOf = ({ id }: Yarn, centre: Lab, uncertainty: number): Lab[] =>
  Array.from({ length: DRAWS }, (_, draw) => shadeOff(centre, uncertainty, offsOf(id, draw)));

/**
 * Where it may turn out to lie, each with its draws about there. Squares add: where it turns out to lie and what is left open make up
 * what was open before, so that measuring moves nothing on the whole.
 */
function outcomesOf(yarn: Yarn, measured: number): Lab[][] {
  const between = Math.sqrt(uncertaintyOfYarn(yarn) ** 2 - measured ** 2);
  return Array.from({ length: OUTCOMES }, (_, outcome) => {
    const centre = shadeOff(labOfYarn(yarn), between, offsOf(yarn.id, DRAWS + outcome));
    return drawsOf(yarn, centre, measured);
  });
}

/** Whether no word holds in four draws of five. */
function isOpen(words: readonly Word[]): boolean {
  const counts = new Map<Word, number>();
  for (const word of words) counts.set(word, (counts.get(word) ?? 0) + 1);
  return Math.max(...counts.values()) < HOLDS * words.length;
}

/** The yarns of a row; of a stripe also what it is most easily confused with. */
const yarnsIn = ({ areas, figures }: Contrast): string[] => [
  ...new Set(
    [...areas, ...(areas.length === 1 ? figures.map(({ against }) => against) : [])].flatMap(({ yarn }) => yarn ?? []),
  ),
];

const settledWords = (settles: number, of: number): string =>
  of === 1 ? "the one row in doubt" : `${settles} of the ${of} rows in doubt`;
