/** How she looks at her shelf: which picture, which words, which filters; remembered from visit to visit, but for the search. */
import { useCallback, useMemo, useState } from "react";
import type { ValueClass } from "../../colour/value.ts";
import { filterStash } from "../../yarn/stash.ts";
import type { Measure } from "./AmountView.tsx";
import type { StashLine } from "./lines.ts";
import { inOrder, type Order } from "./orders.ts";

export type Picture = "value" | "hue" | "amount" | "list";

export interface ShelfLook {
  readonly picture: Picture;
  readonly measure: Measure;
  readonly order: Order;
  readonly words: string;
  readonly make: string;
  readonly classes: readonly ValueClass[];
  readonly weightClasses: readonly number[];
  /** Least grams; null: any. */
  readonly grams: number | null;
  readonly unpromised: boolean;
  readonly unmeasured: boolean;
}

export const FIRST_LOOK: ShelfLook = {
  picture: "value",
  measure: "grams",
  order: { by: "name", turned: false },
  words: "",
  make: "",
  classes: [],
  weightClasses: [],
  grams: null,
  unpromised: false,
  unmeasured: false,
};

/** Which filters are on, the search not counted. */
export const filtersOn = ({ make, classes, weightClasses, grams, unpromised, unmeasured }: ShelfLook): number =>
  [make.trim() !== "", classes.length > 0, weightClasses.length > 0, grams !== null, unpromised, unmeasured].filter(
    Boolean,
  ).length;

/** @param names plain names of their colours by id, as far as they are known yet */
export function seenLines(
  lines: readonly StashLine[],
  look: ShelfLook,
  names: ReadonlyMap<string, string>,
): StashLine[] {
  const { words, make, classes, weightClasses, grams, unpromised, unmeasured, picture, measure } = look;
  const promised = new Set(unpromised ? lines.filter(({ isPromised }) => isPromised).map(({ id }) => id) : []);
  const kept = new Set(
    filterStash(
      lines.map(({ yarn }) => yarn),
      {
        words,
        names,
        make,
        unmeasured,
        ...(classes.length > 0 && { classes }),
        ...(weightClasses.length > 0 && { weightClasses }),
        ...(grams !== null && { grams }),
        ...(unpromised && { without: promised }),
      },
    ),
  );
  const order: Order =
    picture === "list"
      ? look.order
      : { by: picture === "value" ? "lightness" : picture === "hue" ? "hue" : measure, turned: false };
  return inOrder(
    lines.filter(({ yarn }) => kept.has(yarn)),
    order,
  );
}

const KEY = "twostrand-shelf-look";
const PICTURES: readonly Picture[] = ["value", "hue", "amount", "list"];

function recall(): ShelfLook {
  try {
    const kept = JSON.parse(localStorage.getItem(KEY) ?? "{}") as Partial<ShelfLook>;
    return {
      ...FIRST_LOOK,
      picture: PICTURES.includes(kept.picture!) ? kept.picture! : FIRST_LOOK.picture,
      measure: kept.measure === "metres" ? "metres" : "grams",
    };
  } catch {
    return FIRST_LOOK;
  }
}

export function useShelfLook(): readonly [ShelfLook, (part: Partial<ShelfLook>) => void] {
  const [look, setLook] = useState(recall);
  const change = useCallback((part: Partial<ShelfLook>) => {
    setLook((now) => {
      const next = { ...now, ...part };
      try {
        localStorage.setItem(KEY, JSON.stringify({ picture: next.picture, measure: next.measure }));
      } catch {
        // Without storage she chooses the picture again next time.
      }
      return next;
    });
  }, []);
  return useMemo(() => [look, change] as const, [look, change]);
}
