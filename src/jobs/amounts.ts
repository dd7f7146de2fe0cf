/** How much of every yarn a project takes, how far those that are short go, and where they could be saved. */
import type { Project } from "../document/project.ts";
import { coloursKnitted } from "../plan/coloursKnitted.ts";
import { amountsOf, settingsFor, type Amounts } from "../plan/amounts.ts";
import { knittingOf } from "../plan/knitting.ts";
import { savingsOf, type Saving } from "../plan/savings.ts";
import { USUAL_SWATCH, type AmountSettings } from "../plan/settings.ts";
import { yarnEnd, type YarnEnd } from "../plan/yarnEnds.ts";
import { colourwayOf } from "./parts.ts";
import { yarnSettings } from "./yarnSettings.ts";

export interface AmountsOptions {
  readonly colourway?: string | undefined;
  readonly size?: string | undefined;
  /** Whether the swatch is still to be knitted, and counts. */
  readonly swatch?: boolean | undefined;
  /** Grams of the balls in which yarn is bought. */
  readonly ballGrams?: number | undefined;
}

export interface ProjectAmounts extends Amounts {
  /** Of every yarn with less than its need: the last round that it finishes. */
  readonly ends: readonly (YarnEnd & { readonly yarn: string })[];
  readonly savings: readonly Saving[];
}

export function amountsOfProject(project: Project, options: AmountsOptions = {}): ProjectAmounts {
  const { pattern, yarns } = project;
  const colourway = colourwayOf(project, options.colourway);
  const { swatch = false, ballGrams, size } = options;
  const given: Partial<AmountSettings> = {
    ...yarnSettings(project),
    ...(swatch && { swatch: USUAL_SWATCH }),
    ...(ballGrams !== undefined && { ballGrams }),
  };
  const amounts = amountsOf({ pattern, yarns, colourway, size, settings: given });
  if (!pattern.sections?.length) return { ...amounts, ends: [], savings: [] };
  const knitting = knittingOf(pattern, size);
  const settings = settingsFor(pattern, given);
  return {
    ...amounts,
    ends: amounts.yarns
      .filter(({ have, high }) => have !== null && have < high)
      .map(({ yarn, have }) => ({ yarn, ...yarnEnd({ knitting, colourway, settings, yarn, metres: have! }) })),
    savings: savingsOf(amounts, yarns, (section, yarn) => coloursKnitted(knitting, colourway, section, yarn)),
  };
}
