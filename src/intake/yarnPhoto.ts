/** Shades of yarns out of a photograph, with how far each may be off. */
import type { Outcome, Problem } from "../base/problem.ts";
import type { Box, Raster } from "../raster/raster.ts";
import type { Area } from "./yarnPhoto/area.ts";
import { findYarns, type Outline } from "./yarnPhoto/findYarns.ts";
import { surveyPhoto, type PhotoReference, type PhotoSurvey, type Watch } from "./yarnPhoto/survey.ts";
import { yarnReader, type PhotographedYarn, type ReferenceTold } from "./yarnPhoto/yarnReader.ts";

export type { Area, Region } from "./yarnPhoto/area.ts";
export { PAPER_TINTS, type PaperTint } from "./yarnPhoto/neutral.ts";
export { surveyPhoto, type PhotoReference, type PhotoSurvey, type Watch } from "./yarnPhoto/survey.ts";
export {
  yarnReader,
  type PhotographedYarn,
  type ReferenceTold,
  type YarnPiece,
  type YarnReader,
} from "./yarnPhoto/yarnReader.ts";

export interface YarnPhotoQuestion {
  /** Each a yarn and nothing else; "find": those that can be made out, in rows from the top left. */
  readonly yarns: readonly Area[] | "find";
  readonly reference: PhotoReference;
}

export interface YarnPhoto {
  /** One for each yarn asked for; without a shade where it cannot be told, and a problem says why. */
  readonly yarns: readonly ((PhotographedYarn | UntoldYarn) & {
    /** Where it was found, pixels; only of those that were looked for. */
    readonly box?: Box;
  })[];
  readonly reference: ReferenceTold;
}

export interface UntoldYarn {
  readonly lab: null;
  readonly hex: null;
  readonly uncertainty: null;
  readonly flecks: readonly [];
}

const UNTOLD: UntoldYarn = { lab: null, hex: null, uncertainty: null, flecks: [] };

/**
 * @param picture decoded to linear light, upright
 * @returns no value where the reference cannot be used or no yarn can be told; otherwise a line for each yarn asked for
 */
export function readYarnPhoto(picture: Raster, question: YarnPhotoQuestion, watch: Watch = {}): Outcome<YarnPhoto> {
  const surveyed = surveyPhoto(picture, question.reference, watch);
  if (!surveyed.value) return { value: null, problems: surveyed.problems };
  const problems: Problem[] = [...surveyed.problems];
  const sought =
    question.yarns === "find" ? findYarns(picture, { ...watch, avoid: avoided(question, surveyed.value) }) : null;
  problems.push(...(sought?.problems ?? []));
  const found = sought ? (sought.value ?? []) : null;
  if (found?.length === 0) {
    const expected = "yarns that stand out from what they lie on";
    problems.push({ where: "the picture", expected, got: "none; say where they lie", severity: "fault" });
    return { value: null, problems };
  }
  const areas = found?.map(({ outline }): Area => ({ outline })) ?? (question.yarns as readonly Area[]);
  const { reference, shadeOf } = yarnReader(surveyed.value);
  const yarns = areas.map((area, index) => {
    const told = shadeOf({ picture, area, where: `yarn ${index + 1}` });
    problems.push(...told.problems);
    return { ...(told.value ?? UNTOLD), ...(found ? { box: found[index]!.box } : {}) };
  });
  if (yarns.every(({ lab }) => lab === null)) return { value: null, problems };
  return { value: { yarns, reference }, problems };
}

/** What is no yarn: the reference, wherever it lies. */
function avoided({ reference }: YarnPhotoQuestion, { reference: seen }: PhotoSurvey): (Box | Outline)[] {
  if (reference.kind === "grey" || reference.kind === "white")
    return ["outline" in reference.area ? reference.area.outline : reference.area];
  return seen.kind === "patches" ? [seen.corners] : [];
}
