/** The pattern as she found it: its gauge, its own colours, its charts and where they are knitted. */
import type { Chart } from "../chart/chart.ts";
import type { Shade } from "../colour/shade.ts";
import type { Gauge } from "../garment/gauge.ts";
import type { Section, Size } from "../garment/sections.ts";

export interface PatternColour {
  /** One printable character, the one that the chart's rows use. */
  id: string;
  name?: string;
  role?: "main" | "contrast";
  shade: Shade;
}

export interface Pattern {
  name?: string;
  gauge: Gauge;
  colours: PatternColour[];
  charts: Chart[];
  sizes?: Size[];
  sections?: Section[];
}
