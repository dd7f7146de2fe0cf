/** The value ladder: the pattern's colours from light to dark beside the yarns that took their places. */
import { lightnessRange } from "../colour/shadeRange.ts";
import { valueClass, type ValueClass } from "../colour/value.ts";
import { labOfShade } from "../colour/shade.ts";
import type { Lab } from "../colour/lab.ts";
import { labOfYarn, uncertaintyOfYarn, type Yarn } from "../yarn/yarn.ts";
import type { Colourway } from "./colourway.ts";
import type { Pattern } from "./pattern.ts";

/** How light a colour is, and how light it may be. */
export interface Lightness {
  readonly lab: Lab;
  /** L* between which it lies in 80 % of cases. */
  readonly low: number;
  readonly high: number;
  readonly class: ValueClass;
  /** The classes that the range touches, lightest first. */
  readonly mayBe: readonly ValueClass[];
  /** 1 is the lightest. */
  readonly rank: number;
}

export interface Rung extends Lightness {
  readonly colour: string;
  readonly yarn: string | null;
  readonly main: boolean;
  readonly was: Lightness;
}

/** Every chart colour of the key, the pattern's lightest first. A colour without a yarn stands with the pattern's own. */
export function valueLadder(pattern: Pattern, yarns: readonly Yarn[], colourway: Colourway): Rung[] {
  const yarnOf = new Map(yarns.map((yarn) => [yarn.id, yarn]));
  const pairs = pattern.colours.map(({ id, role, shade }) => {
    const yarnId = Object.hasOwn(colourway.yarns, id) ? colourway.yarns[id] : undefined;
    const yarn = yarnId === undefined ? undefined : yarnOf.get(yarnId);
    const was = { lab: labOfShade(shade), uncertainty: shade.uncertainty ?? 0 };
    const now = yarn ? { lab: labOfYarn(yarn), uncertainty: uncertaintyOfYarn(yarn) } : was;
    return { colour: id, yarn: yarn?.id ?? null, main: role === "main", now, was };
  });
  const now = lightnesses(pairs.map((pair) => pair.now));
  const was = lightnesses(pairs.map((pair) => pair.was));
  return pairs
    .map(({ colour, yarn, main }, index): Rung => ({ colour, yarn, main, ...now[index]!, was: was[index]! }))
    .sort((a, b) => a.was.rank - b.was.rank);
}

/** Whether their ranges leave open which of two is the lighter: they are nearer to each other than both may be off together. */
export function mayChangePlaces(one: Lightness, other: Lightness): boolean {
  const [lighter, darker] = one.lab[0] >= other.lab[0] ? [one, other] : [other, one];
  const apart = lighter.lab[0] - darker.lab[0];
  // Two errors of which neither knows of the other add by their squares.
  return apart < Math.hypot(lighter.lab[0] - lighter.low, darker.high - darker.lab[0]);
}

function lightnesses(stated: readonly { readonly lab: Lab; readonly uncertainty: number }[]): Lightness[] {
  const places = ranks(stated.map(({ lab }) => lab));
  return stated.map(({ lab, uncertainty }, index) => {
    const [low, high] = lightnessRange(lab, uncertainty);
    const mayBe = CLASSES.filter(
      (_, at) => at >= CLASSES.indexOf(valueClass(high)) && at <= CLASSES.indexOf(valueClass(low)),
    );
    return { lab, low, high, class: valueClass(lab[0]), mayBe, rank: places[index]! };
  });
}

/** Lightest first. */
const CLASSES: readonly ValueClass[] = ["light", "light-medium", "medium-dark", "dark"];

function ranks(labs: readonly Lab[]): number[] {
  const order = labs.map((lab, index) => ({ lightness: lab[0], index })).sort((a, b) => b.lightness - a.lightness);
  const result: number[] = [];
  order.forEach(({ index }, place) => (result[index] = place + 1));
  return result;
}
