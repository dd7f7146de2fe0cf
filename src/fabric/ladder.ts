/** The value ladder: the pattern's colours from light to dark beside the yarns that took their places. */
import { valueClass, type ValueClass } from "../colour/value.ts";
import { labOfShade } from "../colour/shade.ts";
import type { Lab } from "../colour/lab.ts";
import { labOfYarn, type Yarn } from "../yarn/yarn.ts";
import type { Colourway } from "./colourway.ts";
import type { Pattern } from "./pattern.ts";

export interface Rung {
  readonly colour: string;
  readonly yarn: string | null;
  readonly lab: Lab;
  readonly class: ValueClass;
  /** 1 is the lightest. */
  readonly rank: number;
  readonly main: boolean;
  readonly was: { readonly lab: Lab; readonly class: ValueClass; readonly rank: number };
}

/** Every chart colour of the key, the pattern's lightest first. A colour without a yarn stands with the pattern's own. */
export function valueLadder(pattern: Pattern, yarns: readonly Yarn[], colourway: Colourway): Rung[] {
  const yarnOf = new Map(yarns.map((yarn) => [yarn.id, yarn]));
  const pairs = pattern.colours.map(({ id, role, shade }) => {
    const yarnId = Object.hasOwn(colourway.yarns, id) ? colourway.yarns[id] : undefined;
    const yarn = yarnId === undefined ? undefined : yarnOf.get(yarnId);
    const was = labOfShade(shade);
    return { colour: id, yarn: yarn?.id ?? null, lab: yarn ? labOfYarn(yarn) : was, was, main: role === "main" };
  });
  const rankNow = ranks(pairs.map(({ lab }) => lab));
  const rankWas = ranks(pairs.map(({ was }) => was));
  return pairs
    .map(({ was, ...pair }, index) => ({
      ...pair,
      class: valueClass(pair.lab[0]),
      rank: rankNow[index]!,
      was: { lab: was, class: valueClass(was[0]), rank: rankWas[index]! },
    }))
    .sort((a, b) => a.was.rank - b.was.rank);
}

function ranks(labs: readonly Lab[]): number[] {
  const order = labs.map((lab, index) => ({ lightness: lab[0], index })).sort((a, b) => b.lightness - a.lightness);
  const result: number[] = [];
  order.forEach(({ index }, place) => (result[index] = place + 1));
  return result;
}
