/** Two yarns that exchange their places on the ladder: every chart colour that has the one gets the other. */
import type { Edit } from "../../document/edit.ts";
import type { Colourway } from "../../fabric/colourway.ts";
import type { YarnSet } from "../worker/api.ts";

interface HeldColour {
  readonly colour: string;
  readonly yarn: string | null;
}

/** A yarn that no colour has takes the other's places, and leaves it none. */
export const swapped = (rungs: readonly HeldColour[], one: string, other: string): YarnSet =>
  Object.fromEntries(
    rungs.flatMap(({ colour, yarn }) => (yarn === one ? [[colour, other]] : yarn === other ? [[colour, one]] : [])),
  );

/** Of the colourway itself, not of a ladder that may show what is only tried. */
export const swapEdit = ({ id, yarns }: Colourway, one: string, other: string): Edit => ({
  kind: "assignYarns",
  colourway: id,
  yarns: swapped(
    Object.entries(yarns).map(([colour, yarn]) => ({ colour, yarn })),
    one,
    other,
  ),
});
