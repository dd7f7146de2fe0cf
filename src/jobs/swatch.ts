/** The swatch that settles most of what a check leaves open, within her budget. */
import { doubtsOf } from "../audit/doubts.ts";
import { contextOf } from "../audit/judge.ts";
import type { Project } from "../document/project.ts";
import { planSwatch, type SwatchPlan } from "../plan/swatch.ts";
import { paceCounted, type SwatchManner } from "../plan/swatchManner.ts";
import type { SwatchBudget } from "../plan/swatchQuestion.ts";
import { checkColourway } from "./checked.ts";
import type { LookedAt } from "./lookedAt.ts";
import { eyeOf } from "./parts.ts";
import { yarnSettings } from "./yarnSettings.ts";

export interface SwatchOptions extends LookedAt {
  /** The most stitches, or minutes at her pace; as many as it takes where missing. */
  readonly budget?: SwatchBudget | undefined;
  /** In the round where missing. */
  readonly manner?: SwatchManner | undefined;
  /** "thorough" goes on for a minute or so before it gives up to prove that nothing smaller does as much. */
  readonly search?: "usual" | "thorough" | undefined;
  /** Stitches a minute in two colours, as she has counted; what is usual where missing. */
  readonly pace?: number | undefined;
}

export interface Swatch extends SwatchPlan {
  /** Metres and lux from which, and in which, it is to be looked at. */
  readonly distance: number;
  readonly light: number;
}

/** Comparisons: twenty times what is usual. Our choice. */
const THOROUGH = 4_000_000_000;

export function swatchOfProject(project: Project, options: SwatchOptions = {}): Swatch {
  const { input, memory, result } = checkColourway(project, options);
  const context = contextOf(input, memory);
  const { doubts, looks, precision } = doubtsOf(
    context,
    result.findings,
    eyeOf(project, memory, input.viewing.texture),
  );
  const plan = planSwatch({
    cloths: context.charts.map(({ now, section }) => ({ cloth: now.cloth, section })),
    doubts,
    looks,
    precision,
    colours: project.pattern.colours,
    yarns: project.yarns,
    gauge: project.pattern.gauge,
    manner: options.manner,
    budget: options.budget,
    settings: yarnSettings(project),
    ...(options.search === "thorough" ? { most: THOROUGH } : {}),
    ...(options.pace === undefined ? {} : { pace: paceCounted(options.pace) }),
  });
  return { ...plan, distance: result.distance, light: result.light };
}
