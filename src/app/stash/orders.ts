/** The orders in which her yarns may stand, each the same from one day to the next. */
import { isMeasured } from "../../yarn/stash.ts";
import { knownWeightClass } from "../../yarn/weightClass.ts";
import type { StashLine } from "./lines.ts";

export type Column = "name" | "lightness" | "hue" | "grams" | "metres" | "free" | "weight" | "known";

export interface Order {
  readonly by: Column;
  readonly turned: boolean;
}

/** `way`: −1 for a list that is turned. */
type Compare = (one: StashLine, other: StashLine, way: 1 | -1) => number;

/** Chroma under which a hue is hardly seen, so that greys stand together. Our choice. */
const GREY_CHROMA = 6;

/** Made once: making it is what takes the time. */
const NAMES = new Intl.Collator("en-GB", { numeric: true, sensitivity: "base" });
const byName = (one: StashLine, other: StashLine): number => NAMES.compare(one.yarn.name, other.yarn.name);

/** The most first; unknown numbers last, whichever way the list runs. */
const down = (value: (line: StashLine) => number | null): Compare => {
  return (one, other, way) => {
    const [first, second] = [value(one), value(other)];
    if (first !== null && second !== null) return (second - first) * way;
    return Number(first === null) - Number(second === null);
  };
};

const COMPARE: Readonly<Record<Column, Compare>> = {
  name: (one, other, way) => byName(one, other) * way,
  lightness: down(({ L }) => L),
  hue: (one, other, way) => {
    const [grey, otherGrey] = [one.chroma < GREY_CHROMA, other.chroma < GREY_CHROMA];
    if (grey !== otherGrey) return grey ? 1 : -1;
    return (grey ? other.L - one.L : one.hue - other.hue) * way;
  },
  grams: down(({ grams }) => grams),
  metres: down(({ metres }) => metres),
  free: down(({ free }) => free),
  // The finest first: class 0 is lace.
  weight: down((line) => {
    const finest = classOf(line);
    return finest === null ? null : (line.yarn.metresPer100g ?? 0) / MORE_METRES - finest;
  }),
  known: (one, other, way) => (knownAt(one) - knownAt(other)) * way,
};

/** No yarn has so many metres in 100 g: within a class the finer one comes first. */
const MORE_METRES = 100_000;
const classOf = ({ yarn }: StashLine): number | null => knownWeightClass(yarn).classes[0] ?? null;
const knownAt = ({ yarn }: StashLine): number => (isMeasured(yarn) ? 0 : 100) + (yarn.shade?.uncertainty ?? 50);

export function inOrder(lines: readonly StashLine[], { by, turned }: Order): StashLine[] {
  const compare = COMPARE[by];
  const way = turned ? -1 : 1;
  return lines.toSorted((one, other) => compare(one, other, way) || byName(one, other) || (one.id < other.id ? -1 : 1));
}
