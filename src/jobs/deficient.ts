/** A project as a colour-deficient eye has it: yarns and the pattern's own colours in the colours that are left to that eye. */
import type { Project } from "../document/project.ts";
import { labOfShade } from "../colour/shade.ts";
import { deficientLab, type Deficiency } from "../vision/deficiency.ts";
import { labOfYarn, uncertaintyOfYarn } from "../yarn/yarn.ts";

/**
 * Whatever is then measured of it, an ordinary eye's measure of those colours. Limits: contrast sensitivity is taken to be ordinary, and
 * shades to be as uncertain as they were.
 * @param severity 0 (ordinary: the project itself) to 1 (the cone is missing)
 */
export function asSeenBy(project: Project, deficiency: Deficiency, severity: number): Project {
  if (severity === 0) return project;
  const { pattern, yarns } = project;
  return {
    ...project,
    pattern: {
      ...pattern,
      colours: pattern.colours.map(({ shade, ...colour }) => {
        const { hex: _, ...stated } = shade;
        return { ...colour, shade: { ...stated, lab: deficientLab(labOfShade(shade), deficiency, severity) } };
      }),
    },
    yarns: yarns.map((yarn) => ({
      ...yarn,
      shade: { lab: deficientLab(labOfYarn(yarn), deficiency, severity), uncertainty: uncertaintyOfYarn(yarn) },
      ...(yarn.flecks && {
        flecks: yarn.flecks.map(({ shade, share }) => ({
          shade: { lab: deficientLab(labOfShade(shade), deficiency, severity) },
          share,
        })),
      }),
    })),
  };
}
