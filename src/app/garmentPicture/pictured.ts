/** What comes of the places picked on a picture: the pattern's own colours, or a colourway to compare with. */
import { colourOfPlaces, type PictureColour } from "../../intake/garmentPicture.ts";
import type { Edit } from "../../document/edit.ts";
import type { Project } from "../../document/project.ts";
import type { Shade } from "../../colour/shade.ts";
import { freeId } from "../shell/words.ts";
import type { Yarn } from "../../yarn/yarn.ts";
import type { PickedPlace } from "./usePicture.ts";

/** By chart colour, those that a place was picked and read for. */
export function pictureColours(places: readonly PickedPlace[]): ReadonlyMap<string, PictureColour> {
  const colours = [...new Set(places.map(({ colour }) => colour))];
  return new Map(
    colours.flatMap((colour) => {
      const told = places.flatMap((place) => (place.colour === colour && place.told ? [place.told] : []));
      const found = colourOfPlaces(told);
      return found ? [[colour, found] as const] : [];
    }),
  );
}

const rounded = (value: number): number => Math.round(100 * value) / 100 + 0;
const shadeOf = ({ lab, uncertainty }: PictureColour): Shade => ({
  lab: lab.map(rounded),
  uncertainty: Math.round(10 * uncertainty) / 10,
  from: "picture",
});

/** The pattern's own colours become those of the picture; what was not picked stays. */
export const asPatternColours = (colours: ReadonlyMap<string, PictureColour>): Edit[] =>
  [...colours].map(([id, colour]): Edit => ({ kind: "setPatternColour", id, shade: shadeOf(colour) }));

/** A colourway beside the others in yarns that nobody has: they stand there to be compared with. */
export function asColourway(
  project: Project,
  colours: ReadonlyMap<string, PictureColour>,
  name: string,
): { readonly id: string; readonly edits: Edit[] } {
  const id = freeId("w", project.colourways);
  const yarns: Yarn[] = [];
  const assigned: Record<string, string> = {};
  for (const [colour, found] of colours) {
    const yarn = freeId("p", [...project.yarns, ...yarns]);
    yarns.push({ id: yarn, name: `${colour}, from a picture`, shade: shadeOf(found) });
    assigned[colour] = yarn;
  }
  return {
    id,
    edits: [
      { kind: "addYarns", yarns },
      { kind: "addColourway", id, from: null, name },
      { kind: "assignYarns", colourway: id, yarns: assigned },
    ],
  };
}
