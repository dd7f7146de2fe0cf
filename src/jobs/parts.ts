/** What several jobs need of a project: the colourway asked for, and what there is and what it takes of every yarn. */
import { assert } from "../base/assert.ts";
import type { Supply } from "../audit/context.ts";
import type { YarnNeeds } from "../audit/mends.ts";
import { herEye, verdictsOf, type HerEye } from "../audit/verdicts.ts";
import type { Project } from "../document/project.ts";
import type { Colourway } from "../fabric/colourway.ts";
import { USUAL_VIEWING, type SpectrumMemory, type Viewing } from "../fabric/contrast.ts";
import { amountsOf } from "../plan/amounts.ts";
import { inOwnColours } from "../recolour/dress.ts";
import { metresFromGrams } from "../yarn/lengths.ts";
import { gramsOwned } from "../yarn/lots.ts";
import type { Texture } from "../vision/masking.ts";
import { asKnitted, textureOf } from "./knitted.ts";
import { yarnSettings } from "./yarnSettings.ts";

/** The colourway of that id, or the first; one without yarns where the project has none. The id was checked by the caller. */
export function colourwayOf(project: Project, id?: string): Colourway {
  if (id === undefined) return project.colourways[0] ?? { id: "none", name: "no colourway yet", yarns: {} };
  const found = project.colourways.find((colourway) => colourway.id === id);
  assert(found, `a colourway called ${id} exists`);
  return found;
}

/** From where and in which light, before a cloth of which texture: as asked for, as measured, or as usual. */
export const viewingOf = (
  project: Project,
  asked: {
    readonly distance?: number | undefined;
    readonly light?: number | undefined;
    readonly texture?: Texture | undefined;
  },
): Viewing => ({
  distanceM: asked.distance ?? USUAL_VIEWING.distanceM,
  lux: asked.light ?? USUAL_VIEWING.lux,
  texture: asked.texture ?? textureOf(project),
});

/** Her eye as all looks at her swatches tell it; what is known of nobody where there are none. */
export const eyeOf = (project: Project, memory: SpectrumMemory, texture = textureOf(project)): HerEye =>
  herEye(verdictsOf(asKnitted(project), memory, texture));

/** Metres for the audit; none where the pattern is not placed on a garment, for then a chart's own stitches are not the garment's. */
export function suppliesOf(project: Project, colourway: Colourway): Supply[] {
  const { pattern, yarns } = project;
  if (!pattern.sections?.length) return [];
  return [...amountsOf({ pattern, yarns, colourway, settings: yarnSettings(project) }).yarns];
}

/** What every chart colour takes, reserve included, in the first size, and what is owned of every yarn, in metres. */
export function needsOf(project: Project, colourway: Colourway): YarnNeeds {
  const { pattern, yarns } = project;
  const owned = new Map<string, number>();
  for (const yarn of yarns) {
    const grams = gramsOwned(yarn);
    if (grams !== null && yarn.metresPer100g) owned.set(yarn.id, metresFromGrams(grams, yarn.metresPer100g));
  }
  const ofColour = new Map<string, number>();
  if (pattern.sections?.length) {
    const colours = pattern.colours.map(({ id }) => id);
    const placeholders = pattern.colours.map(({ id, name, shade }) => ({ id, name: name ?? id, shade }));
    const own = inOwnColours(colourway, pattern.charts, colours);
    for (const { yarn, metres, reserve } of amountsOf({
      pattern,
      yarns: placeholders,
      colourway: own,
      settings: yarnSettings(project),
    }).yarns)
      ofColour.set(yarn, metres + reserve);
  }
  return { ofColour, owned };
}
