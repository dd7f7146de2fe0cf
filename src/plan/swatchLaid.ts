/** A question about a swatch in the numbers of the covering: which rows there are at a width, and what they settle. */
import type { Cloth } from "../fabric/cloth.ts";
import type { CoveringProblem } from "./coveringProblem.ts";
import type { SwatchDoubt, SwatchQuestion } from "./swatchQuestion.ts";
import { fitsIn, inksKey, rowInks, stripOf, type Strip, type SwatchRows } from "./swatchRows.ts";

/** The rows that some option of a width has, and everything in their numbers. */
export interface Laid {
  readonly problem: CoveringProblem;
  /** Of each row of the problem where it is from, and after how many stitches it recurs. */
  readonly places: readonly LaidRow[];
}

interface LaidRow {
  readonly cloth: number;
  readonly row: number;
  readonly repeat: number;
}

export function laidOut(question: SwatchQuestion, strips: Strips, width: number, mostRows: number): Laid {
  const { doubts, looks, precision } = question;
  const cloths = question.cloths.map(({ cloth }) => cloth);
  const fitting = (all: readonly (Strip | null)[]): Strip[] =>
    all.filter((strip) => strip !== null && fitsIn(strip, width)) as Strip[];
  const used = { doubts: strips.doubts.map(fitting), looks: strips.looks.map(fitting) };
  const places = placesOf([...used.doubts, ...used.looks].flat());
  const indexOf = new Map(places.map(({ cloth, row }, index) => [`${cloth} ${row}`, index]));
  const indices = ({ runs }: Strip): number[] => {
    const all = runs.flatMap(({ cloth, rows }) => rowsFrom(rows).map((row) => indexOf.get(`${cloth} ${row}`)!));
    return [...new Set(all)].sort((a, b) => a - b);
  };
  return {
    places,
    problem: {
      follows: places.map(({ cloth, row }, index) => {
        const below = places[index - 1];
        return below?.cloth === cloth && below.row === row - 1;
      }),
      alike: alikeIn(places.map((place) => keyOf(cloths[place.cloth]!, place, width))),
      doubts: doubts.map(({ chance, times, precision: from }, at) => ({
        weight: chance,
        times,
        precision: from,
        options: used.doubts[at]!.map(indices),
      })),
      looks: looks.map(({ information }, at) => ({ information, options: used.looks[at]!.map(indices) })),
      precision,
      mostRows,
    },
  };
}

const keyOf = (cloth: Cloth, { row, repeat }: LaidRow, width: number): string =>
  inksKey(cloth, rowInks(cloth, row, repeat, width));

const rowsFrom = ([from, to]: readonly [number, number]): number[] =>
  Array.from({ length: to - from + 1 }, (_, step) => from + step);

/** Every row of the strips, cloth by cloth from the bottom, with the widest repeat that it is part of. */
function placesOf(strips: readonly Strip[]): LaidRow[] {
  const known = new Map<string, LaidRow>();
  for (const { cloth, rows, repeat } of strips.flatMap(({ runs }) => runs))
    for (const row of rowsFrom(rows)) {
      const key = `${cloth} ${row}`;
      known.set(key, { cloth, row, repeat: Math.max(repeat, known.get(key)?.repeat ?? 0) });
    }
  return [...known.values()].sort((a, b) => a.cloth - b.cloth || a.row - b.row);
}

function alikeIn(keys: readonly string[]): number[] {
  const known = new Map<string, number>();
  return keys.map((key) => {
    if (!known.has(key)) known.set(key, known.size);
    return known.get(key)!;
  });
}

/** By doubt or look, by option; null where the stitches of its rows make no rectangle. */
export interface Strips {
  readonly doubts: readonly (readonly (Strip | null)[])[];
  readonly looks: readonly (readonly (Strip | null)[])[];
}

export function stripsOf({ cloths, doubts, looks, gauge }: SwatchQuestion): Strips {
  const all = cloths.map(({ cloth }) => cloth);
  const known = new Map<string, Strip | null>();
  const stripFor = (runs: readonly SwatchRows[]): Strip | null => {
    const key = JSON.stringify(runs);
    if (!known.has(key)) known.set(key, stripOf(all, runs, gauge));
    return known.get(key)!;
  };
  const each = ({ options }: Pick<SwatchDoubt, "options">): (Strip | null)[] => options.map(stripFor);
  return { doubts: doubts.map(each), looks: looks.map(each) };
}
