/** A project as her own knitting makes it: the cloth factor on its shades, and the texture that hides fine patterns. */
import { linearFromLab, labFromLinear, type Lab } from "../colour/lab.ts";
import { labOfShade, type Shade } from "../colour/shade.ts";
import type { Project } from "../document/project.ts";
import { KNITTED_WOOL, type Texture } from "../vision/masking.ts";
import { labOfYarn, uncertaintyOfYarn } from "../yarn/yarn.ts";

/**
 * Cloth is k × yarn in linear light, whatever the hue (vision.md E: texture moves a cloth's XYZ on a line of constant
 * chromaticity). The pattern's own colours are yarns that somebody knitted, so they are turned into cloth as well and the two stay
 * comparable. The ladder and the stash tell the yarns as they are; this is for what is looked at.
 * @returns the project itself where no factor was measured
 */
export function asKnitted(project: Project): Project {
  const factor = project.cloth?.factor ?? 1;
  if (factor === 1) return project;
  const { pattern, yarns } = project;
  return {
    ...project,
    pattern: {
      ...pattern,
      colours: pattern.colours.map((colour) => ({ ...colour, shade: darker(colour.shade, factor) })),
    },
    yarns: yarns.map((yarn) => ({
      ...yarn,
      shade: { lab: clothLab(labOfYarn(yarn), factor), uncertainty: uncertaintyOfYarn(yarn) },
      ...(yarn.flecks && {
        flecks: yarn.flecks.map((fleck) => ({ ...fleck, shade: darker(fleck.shade, factor) })),
      }),
    })),
  };
}

function darker(shade: Shade, factor: number): Shade {
  const { hex: _, ...stated } = shade;
  return { ...stated, lab: clothLab(labOfShade(shade), factor) };
}

/** No cloth is lighter than white. */
function clothLab(lab: Lab, factor: number): Lab {
  const [r, g, b] = linearFromLab(lab);
  const [L, ...hue] = labFromLinear([r * factor, g * factor, b * factor]);
  return [Math.min(100, L), ...hue];
}

/** Hand-knit wool's usual texture where none was measured: undefined, as every measure takes it. */
export function textureOf({ cloth }: Project): Texture | undefined {
  return cloth?.texture && { ...KNITTED_WOOL, stitch: cloth.texture.stitch, floor: cloth.texture.floor };
}
