/** The orders in which her yarns may stand, each the same from one day to the next. */
import { isMeasured } from "../../yarn/stash.ts";
import { knownWeightClass } from "../../yarn/weightClass.ts";
import type { StashLine } from "./lines.ts";

export type Column = "name" | "lightness" | "hue" | "grams" | "metres" | "free" | "weight" | "known";

export interface Order {
  readonly by: Column;
  readonly turned: boolean;
}

type Compare = (one: StashLine, other: StashLine) => number;

/** Chroma under which a hue is hardly seen, so that greys stand together. Our choice. */
export const GREY_CHROMA = 6;

const byName: Compare = (one, other) => NAMES.compare(one.yarn.name, other.yarn.name);
/** Made once: making it is what takes the time. */
const NAMES = new Intl.Collator("en-GB", { numeric: true, sensitivity: "base" });

/** Unknown numbers last, whichever way the list runs. */
const down = (value: (line: StashLine) => number | null): Compare => {
  return (one, other) => (value(other) ?? -Infinity) - (value(one) ?? -Infinity) || 0;
};

const COMPARE: Readonly<Record<Column, Compare>> = {
  name: byName,
  lightness: down(({ L }) => L),
  hue: (one, other) => {
    const [grey, otherGrey] = [one.chroma < GREY_CHROMA, other.chroma < GREY_CHROMA];
    if (grey !== otherGrey) return grey ? 1 : -1;
    return grey ? other.L - one.L : one.hue - other.hue;
  },
  grams: down(({ grams }) => grams),
  metres: down(({ metres }) => metres),
  free: down(({ free }) => free),
  weight: (one, other) =>
    classOf(one) - classOf(other) || (other.yarn.metresPer100g ?? 0) - (one.yarn.metresPer100g ?? 0),
  known: (one, other) => knownAt(one) - knownAt(other),
};

const classOf = ({ yarn }: StashLine): number => knownWeightClass(yarn).classes[0] ?? Infinity;
const knownAt = ({ yarn }: StashLine): number => (isMeasured(yarn) ? 0 : 100) + (yarn.shade?.uncertainty ?? 50);

export function inOrder(lines: readonly StashLine[], { by, turned }: Order): StashLine[] {
  const compare = COMPARE[by];
  const way = turned ? -1 : 1;
  return lines.toSorted((one, other) => {
    const apart = compare(one, other);
    return (Number.isNaN(apart) ? 0 : apart) * way || byName(one, other) || (one.id < other.id ? -1 : 1);
  });
}
