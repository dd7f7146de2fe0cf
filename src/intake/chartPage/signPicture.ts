/** A sign as so many squares of darkness, drawn from its own shapes. */
import { labFromHex } from "../../colour/lab.ts";
import type { Point } from "../chartGrid.ts";
import { SYMBOL_SIDE } from "../readChart.ts";
import { SAMPLES, type CellLook, type Mark } from "./paint.ts";

/** Rows from the top, "0" to "9". */
export function signPicture({ ground, pattern, marks }: CellLook): string[] {
  const paper = lightness(ground ?? "#ffffff");
  const dark = (colour: string): number =>
    Math.min(9, Math.round((Math.abs(lightness(colour) - paper) / 100) * 9 + (colour === ground ? 0 : 1)));
  const at = (x: number, y: number): number => {
    const painted = marks.findLast((mark) => isOnMark(mark, [x, y], 0.55 / SYMBOL_SIDE));
    if (painted) return dark(painted.colour);
    const under = pattern?.[Math.floor(y * SAMPLES) * SAMPLES + Math.floor(x * SAMPLES)];
    return under ? dark(under) : 0;
  };
  return Array.from({ length: SYMBOL_SIDE }, (_, row) =>
    Array.from({ length: SYMBOL_SIDE }, (_, column) =>
      String(at((column + 0.5) / SYMBOL_SIDE, (row + 0.5) / SYMBOL_SIDE)),
    ).join(""),
  );
}

const lightness = (hex: string): number => labFromHex(hex)?.[0] ?? 0;

/** Whether a shape has ink at a point of its cell; a line is as wide as `reach` to both sides at least. */
export function isOnMark({ kind, runs }: Mark, point: Point, reach: number): boolean {
  if (kind === "stroke") return nearRuns(runs, point, reach);
  if (kind !== "area" && kind !== "bar") return false;
  let inside = false;
  for (const run of runs)
    for (const [index, [x1, y1]] of run.entries()) {
      const [x2, y2] = run[(index + 1) % run.length]!;
      if (y1 > point[1] !== y2 > point[1] && point[0] < x1 + ((point[1] - y1) / (y2 - y1)) * (x2 - x1))
        inside = !inside;
    }
  // A bar thinner than a square of the picture must not fall between their middles.
  return inside || (kind === "bar" && nearRuns(runs, point, reach));
}

const nearRuns = (runs: Mark["runs"], point: Point, reach: number): boolean =>
  runs.some((run) => run.some((to, index) => index > 0 && distance(point, run[index - 1]!, to) < reach));

function distance([px, py]: Point, [ax, ay]: Point, [bx, by]: Point): number {
  const [dx, dy] = [bx - ax, by - ay];
  const length = dx * dx + dy * dy;
  const part = length === 0 ? 0 : Math.max(0, Math.min(1, ((px - ax) * dx + (py - ay) * dy) / length));
  return Math.hypot(px - ax - part * dx, py - ay - part * dy);
}
