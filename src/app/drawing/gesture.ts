/** What a hand is doing on the desk, by pointer or by keys, and what of it is drawn so far. */
import type { Grid } from "../../chart/chart.ts";
import { regionBetween, type Selection, type Stitch } from "../../chart/draw.ts";
import { flooded } from "../../chart/draw/fill.ts";
import { drawn, inManner, lineBetween, outlineOf, stitchesOf, type Manner } from "../../chart/draw/stroke.ts";

export type Tool = "pencil" | "line" | "rectangle" | "fill" | "select" | "pick" | "hand";

/** With what, and how, she draws. */
export interface Way {
  readonly tool: Tool;
  /** Of the cells that are drawn. */
  readonly value: number;
  readonly isFilled: boolean;
  readonly manner: Manner;
  /** Whether a filling goes on across the round's end. */
  readonly wraps: boolean;
  /** 1 for each cell that a filling is held to; null: the whole chart. */
  readonly mask: Uint8Array | null;
}

export type Gesture =
  | { readonly kind: "stroke"; readonly last: Stitch; readonly grid: Grid }
  | {
      readonly kind: "ends";
      readonly tool: "line" | "rectangle" | "select";
      readonly from: Stitch;
      readonly to: Stitch;
    };

/** null for tools that have done what they do at the first touch. */
export function beginGesture(grid: Grid, at: Stitch, way: Way): Gesture | null {
  const { tool } = way;
  if (tool === "pencil")
    return { kind: "stroke", last: at, grid: drawn(grid, inManner(grid, [at], way.manner), way.value) };
  if (tool === "line" || tool === "rectangle" || tool === "select") return { kind: "ends", tool, from: at, to: at };
  return null;
}

export function goOn(gesture: Gesture, to: Stitch, { manner, value }: Way): Gesture {
  if (gesture.kind === "ends") return { ...gesture, to };
  const { grid, last } = gesture;
  return { ...gesture, last: to, grid: drawn(grid, inManner(grid, lineBetween(last, to), manner), value) };
}

/** The chart as it is with the gesture. */
export function drawnWith(grid: Grid, gesture: Gesture, { value, manner, isFilled }: Way): Grid {
  if (gesture.kind === "stroke") return gesture.grid;
  const { tool, from, to } = gesture;
  if (tool === "select") return grid;
  if (tool === "line") return drawn(grid, inManner(grid, lineBetween(from, to), manner), value);
  const region = regionBetween(from, to);
  return drawn(grid, inManner(grid, isFilled ? stitchesOf(grid, region) : outlineOf(region), manner), value);
}

export const floodedBy = (grid: Grid, at: Stitch, { value, wraps, mask }: Way): Grid =>
  flooded(grid, at, value, { wraps, mask });

/** What would be chosen; on the grid. */
export function selectionBy({ width, height }: Grid, from: Stitch, to: Stitch): Selection {
  const on = ([row, column]: Stitch): Stitch => [
    Math.min(height, Math.max(1, row)),
    Math.min(width, Math.max(1, column)),
  ];
  return regionBetween(on(from), on(to));
}
