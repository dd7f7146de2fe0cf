/** How she is looking: from how far, in which light, at which colourway. None of it belongs to the project. */
import type { Deficiency } from "../../vision/deficiency.ts";

export type Panel = "fabric" | "ladder" | "findings";

/** What lies before her: the bench with its fabric, the pattern's charts, or the page of her yarns. */
export type Stage = "pattern" | "bench" | "yarns";

export interface View {
  readonly stage: Stage;
  readonly colourway: string | null;
  readonly chart: string | null;
  /** Metres, one of DISTANCES. */
  readonly distance: number;
  /** Lux, one of LIGHTS. */
  readonly light: number;
  readonly grey: boolean;
  readonly seen: boolean;
  /** Whose eyes look: hers, or a model of eyes that tell fewer colours apart. */
  readonly eye: Eye;
  /** 0 to 1, how far these differ from ordinary ones; 1: one kind of cone is missing. An ordinary eye has none of it. */
  readonly severity: number;
  /** On a narrow screen one of the three is shown at a time. */
  readonly panel: Panel;
}

export type Eye = "ordinary" | Deficiency;

export const EYES: readonly { readonly eye: Eye; readonly name: string }[] = [
  { eye: "ordinary", name: "ordinary" },
  { eye: "protan", name: "weak red" },
  { eye: "deutan", name: "weak green" },
  { eye: "tritan", name: "weak blue" },
];

/** How far a deficiency goes; most people who have one have a part of it. The steps are our choice. */
export const SEVERITIES: readonly { readonly severity: number; readonly name: string }[] = [
  { severity: 0.3, name: "a little" },
  { severity: 0.6, name: "half" },
  { severity: 1, name: "wholly" },
];

/** What jobs ask for where the eye is not an ordinary one. */
export const deficiencyOf = ({
  eye,
  severity,
}: Pick<View, "eye" | "severity">): { readonly deficiency?: Deficiency; readonly severity?: number } =>
  eye === "ordinary" ? {} : { deficiency: eye, severity };

/** What a check and a picture as seen depend on, beside the colourway. */
export type Look = Pick<View, "distance" | "light" | "eye" | "severity">;

/** Metres. Steps of about a tenth, as a hand would move: equal steps of the slider are near-equal ratios. */
export const DISTANCES: readonly number[] = [
  0.5, 0.55, 0.6, 0.65, 0.7, 0.75, 0.8, 0.9, 1, 1.1, 1.2, 1.35, 1.5, 1.65, 1.8, 2, 2.2, 2.4, 2.7, 3, 3.3, 3.6, 4, 4.5,
  5, 5.5, 6,
];

/** Where people look at a garment from; distances by common practice. */
export const STANDS: readonly { readonly metres: number; readonly name: string }[] = [
  { metres: 0.6, name: "at hand" },
  { metres: 1.5, name: "across a table" },
  { metres: 4, name: "across a room" },
];

/** Lux: a lamp-lit corner, a lit living room, open shade by day (common practice, no source). */
export const LIGHTS: readonly { readonly lux: number; readonly name: string }[] = [
  { lux: 50, name: "dim" },
  { lux: 500, name: "room" },
  { lux: 10_000, name: "daylight" },
];

export const FIRST_VIEW: View = {
  stage: "bench",
  colourway: null,
  chart: null,
  distance: 1.5,
  light: 500,
  grey: false,
  seen: false,
  eye: "ordinary",
  severity: 1,
  panel: "fabric",
};

const KEY = "twostrand-view";

/** The view of last time, as far as it can still be read; a browser without storage gives the first view. */
export function recallView(): View {
  try {
    const kept = JSON.parse(localStorage.getItem(KEY) ?? "{}") as Partial<View>;
    return {
      stage: kept.stage === "yarns" || kept.stage === "pattern" ? kept.stage : "bench",
      colourway: typeof kept.colourway === "string" ? kept.colourway : null,
      chart: typeof kept.chart === "string" ? kept.chart : null,
      distance: DISTANCES.includes(kept.distance ?? NaN) ? kept.distance! : FIRST_VIEW.distance,
      light: LIGHTS.some(({ lux }) => lux === kept.light) ? kept.light! : FIRST_VIEW.light,
      grey: kept.grey === true,
      seen: kept.seen === true,
      eye: EYES.some(({ eye }) => eye === kept.eye) ? kept.eye! : FIRST_VIEW.eye,
      severity: SEVERITIES.some(({ severity }) => severity === kept.severity) ? kept.severity! : FIRST_VIEW.severity,
      panel: "fabric",
    };
  } catch {
    return FIRST_VIEW;
  }
}

export function keepView(view: View): void {
  try {
    localStorage.setItem(KEY, JSON.stringify(view));
  } catch {
    // Without storage she sets the distance again next time; nothing of her work is lost.
  }
}
