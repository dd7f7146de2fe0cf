/** What becomes of all that is said of a place when places go: it goes with them, and the rest stays. */
import type { Colourway } from "../fabric/colourway.ts";
import type { Place } from "../garment/place.ts";
import type { Project, Swatch } from "./project.ts";
import { wishNamed } from "./wishNames.ts";

/** @param place the place as it is afterwards; null where it has gone */
export function withPlaces(project: Project, place: (at: Place) => Place | null): Project {
  const { colourways, swatches } = project;
  return {
    ...project,
    colourways: colourways.map((colourway): Colourway => {
      const { changes, overStitched, wish } = colourway;
      return {
        ...colourway,
        ...(changes && { changes: placed(changes, place) }),
        ...(overStitched && { overStitched: placed(overStitched, place) }),
        ...(wish && { wish: wishNamed(wish, { place }) }),
      };
    }),
    ...(swatches && {
      swatches: swatches.map((swatch): Swatch => {
        const { looks } = swatch;
        return looks ? { ...swatch, looks: placed(looks, place) } : swatch;
      }),
    }),
  };
}

/** Each at its place afterwards; without those whose place has gone. */
export const placed = <Item extends { at: Place }>(
  items: readonly Item[],
  place: (at: Place) => Place | null,
): Item[] =>
  items.flatMap((item) => {
    const at = place(item.at);
    return at ? [{ ...item, at }] : [];
  });
