/** What a stored wish names, under the names that it has after an edit: places, bands and chart colours. */
import type { Place } from "../garment/place.ts";
import type { StoredWish } from "./wish.ts";

export interface WishNames {
  readonly place?: (place: Place) => Place | null;
  readonly band?: (band: string) => string | null;
  readonly colour?: (colour: string) => string | null;
}

/** What names something that is no more goes, and what would be said twice is said once, as it was said first. */
export function wishNamed(
  wish: object,
  { place = (at) => at, band = (id) => id, colour = (id) => id }: WishNames,
): object {
  const { keep, look, bands, share } = wish as StoredWish;
  return {
    ...wish,
    ...(keep && { keep: keptNamed(keep, place, colour) }),
    ...(look && {
      look: look.flatMap((one): typeof look => {
        const named = one.band === undefined ? colour(one.colour!) : band(one.band);
        return named === null ? [] : [{ ...one, ...(one.band === undefined ? { colour: named } : { band: named }) }];
      }),
    }),
    ...(bands && {
      bands: bands.flatMap((one): typeof bands => {
        const named = band(one.band);
        return named === null ? [] : [{ ...one, band: named }];
      }),
    }),
    ...(share && {
      share: { ...share, allow: typeof share.allow === "boolean" ? share.allow : pairsNamed(share.allow, colour) },
    }),
  };
}

type Kept = NonNullable<StoredWish["keep"]>;

function keptNamed(keep: Kept, place: (at: Place) => Place | null, colour: (id: string) => string | null): Kept {
  const named = keep.flatMap((one): Kept => {
    const [id, at] = [colour(one.colour), one.at === undefined ? undefined : place(one.at)];
    return id === null || at === null ? [] : [{ ...one, colour: id, ...(at && { at }) }];
  });
  const firstOf = (wanted: string): number => named.findIndex((one) => !one.at && one.colour === wanted);
  return named.filter((one, index) => one.at !== undefined || index === firstOf(one.colour));
}

function pairsNamed(pairs: readonly [string, string][], colour: (id: string) => string | null): [string, string][] {
  return pairs.flatMap((pair): [string, string][] => {
    const [one, other] = [colour(pair[0]), colour(pair[1])];
    return one === null || other === null || one === other ? [] : [[one, other]];
  });
}
