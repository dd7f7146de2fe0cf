/** How far some rows read in each light that she may have: by a lamp, in a room, by a window. */
import { judgeMemory } from "../audit/judge.ts";
import { doubtOf } from "../audit/verdicts.ts";
import { assert } from "../base/assert.ts";
import type { Project } from "../document/project.ts";
import { clothOf } from "../fabric/cloth.ts";
import { readsToIn } from "../fabric/contrast.ts";
import type { ReadsTo } from "../fabric/visibility.ts";
import { asSeenBy } from "./deficient.ts";
import { asKnitted } from "./knitted.ts";
import type { LookedAt } from "./lookedAt.ts";
import { colourwayOf, eyeOf, viewingOf } from "./parts.ts";

/** Lux by the sofa of an evening, in a lit room, by a window by day (common practice, no source). */
export const LIGHTS_OF_A_DAY: readonly number[] = [50, 500, 10_000];

export interface ReadsInLight extends ReadsTo {
  readonly lux: number;
}

/**
 * @returns for each light the farthest distance at which the rows are clear, with its least and most as `ReadsTo` has them; empty
 * where there is nothing to see. The chart and colourway were checked by the caller.
 */
export function readsInLights(
  project: Project,
  options: Omit<LookedAt, "distance" | "light" | "texture"> & {
    readonly chart: string;
    readonly rows: readonly [number, number];
  },
): ReadsInLight[] {
  const memory = options.memory ?? judgeMemory();
  const { deficiency, severity = 1 } = options;
  const { pattern, yarns } = asKnitted(deficiency ? asSeenBy(project, deficiency, severity) : project);
  const chart = pattern.charts.find(({ id }) => id === options.chart);
  assert(chart, `a chart called ${options.chart} exists`);
  const cloth = clothOf({ chart, pattern, yarns, colourway: colourwayOf(project, options.colourway) });
  const doubt = doubtOf(eyeOf(project, memory));
  return LIGHTS_OF_A_DAY.flatMap((light) => {
    const reads = readsToIn(cloth, options.rows, viewingOf(project, { light }), memory, doubt);
    return reads ? [{ lux: light, ...reads }] : [];
  });
}
