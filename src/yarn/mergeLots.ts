/** Lots and grams of a yarn that comes in, laid to those she has: added, never doubled. */
import { gramsOwned } from "./lots.ts";
import type { Lot, Yarn } from "./yarn.ts";

type Keep = (what: string, hers: string, theirs: string) => void;

/** The yarn `before` with the amounts that `yarn` tells; `keep` is told what stayed although it differs. */
export function mergeAmounts(before: Yarn, yarn: Yarn, keep: Keep): Yarn {
  const [own, told] = [before.lots ?? [], yarn.lots ?? []];
  if (told.length === 0) return yarn.grams === undefined ? before : withGrams(before, yarn.grams, keep);
  const { grams, ...others } = before;
  if (own.length === 0) {
    // Grams that nobody had put to a lot are what the lots are made of, unless these have no weights.
    const weighed = told.some((lot) => lot.grams !== undefined);
    const alone = told.length === 1 && !weighed && grams !== undefined && yarn.grams === undefined;
    const lots = alone ? [{ ...told[0]!, grams }] : [...told];
    const rest = weighed || alone ? others : before;
    return yarn.grams === undefined ? { ...rest, lots } : { ...rest, lots, grams: yarn.grams };
  }
  const lots = [...own];
  const used = new Set<number>();
  for (const lot of told) {
    const at = sameLot(lots, lot, used);
    used.add(at < 0 ? lots.length : at);
    if (at < 0) lots.push({ ...lot, id: freeLotId(lots, lot.id) });
    else lots[at] = mergedLot(lots[at]!, lot, keep);
  }
  return yarn.grams === undefined ? { ...before, lots } : { ...before, lots, grams: yarn.grams };
}

function withGrams(before: Yarn, grams: number, keep: Keep): Yarn {
  const [first, ...others] = before.lots ?? [];
  if (!first) return { ...before, grams };
  const now = gramsOwned(before);
  if (now !== null && Math.abs(now - grams) < SAME_GRAMS) return before;
  if (others.length > 0) {
    keep("its amount", `${now ?? "an unknown number of"} g in ${others.length + 1} lots`, `${grams} g without a lot`);
    return before;
  }
  return { ...before, lots: [mergedLot(first, { id: first.id, grams }, keep)] };
}

/** The same dye lot; of several of that name the one with the same weight, or the same id. -1 where there is none. */
function sameLot(lots: readonly Lot[], lot: Lot, used: ReadonlySet<number>): number {
  const free = lots.flatMap((own, at) => (used.has(at) ? [] : [{ own, at }]));
  const named = free.filter(({ own }) => own.lot?.trim().toLowerCase() === lot.lot?.trim().toLowerCase());
  const best =
    named.find(({ own }) => own.grams === lot.grams && own.id === lot.id) ??
    named.find(({ own }) => own.id === lot.id) ??
    named.find(({ own }) => own.grams === lot.grams) ??
    named[0] ??
    // A weight without a lot's name is that of a lot she has already named.
    (lot.lot === undefined ? free.find(({ own }) => own.grams !== undefined && own.grams === lot.grams) : undefined);
  return best?.at ?? -1;
}

function mergedLot(own: Lot, told: Lot, keep: Keep): Lot {
  const lot = told.lot === undefined || own.lot !== undefined ? own : { ...own, lot: told.lot };
  const differs = told.grams !== undefined && told.grams !== own.grams;
  if (differs && own.weighed && !told.weighed) {
    keep(own.lot === undefined ? "its amount" : `lot ${own.lot}`, `${own.grams} g, weighed`, `${told.grams} g`);
    return lot;
  }
  return {
    ...lot,
    ...(told.grams === undefined ? {} : { grams: told.grams }),
    ...(told.weighed === undefined ? {} : { weighed: told.weighed }),
  };
}

function freeLotId(lots: readonly Lot[], wanted: string): string {
  let id = wanted;
  for (let number = lots.length + 1; lots.some((lot) => lot.id === id); number++) id = `l${number}`;
  return id;
}

/** Grams: what rounding does. */
const SAME_GRAMS = 0.5;
