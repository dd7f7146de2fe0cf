/** Which of her yarns is worth measuring better: asked for by itself, for it takes longer than a check. */
import { contextOf, judgeMemory } from "../audit/judge.ts";
import { doubtOf } from "../audit/verdicts.ts";
import { worthMeasuring, type WorthMeasuring } from "../audit/worthMeasuring.ts";
import type { Project } from "../document/project.ts";
import { asSeenBy } from "./deficient.ts";
import { asKnitted } from "./knitted.ts";
import type { LookedAt } from "./lookedAt.ts";
import { colourwayOf, eyeOf, viewingOf } from "./parts.ts";

export interface MeasureOptions extends Omit<LookedAt, "texture"> {
  /** True when the time is up; what was found by then is given. */
  readonly stop?: (() => boolean) | undefined;
}

/** The yarns worth measuring, first the one that settles most; none where none would settle anything. */
export function measureNext(known: Project, options: MeasureOptions = {}): WorthMeasuring[] {
  const memory = options.memory ?? judgeMemory();
  const { deficiency, severity = 1, stop } = options;
  const viewing = viewingOf(known, options);
  const doubt = doubtOf(eyeOf(known, memory, viewing.texture));
  const colourway = colourwayOf(known, options.colourway);
  const { pattern, yarns } = asKnitted(deficiency ? asSeenBy(known, deficiency, severity) : known);
  return worthMeasuring(contextOf({ pattern, yarns, colourway, viewing, doubt }, memory), memory, { stop });
}
