/** Lines embroidered along the edges of cells, drawn as a thin strand that dips at every stitch. */
import { linearFromLab } from "../colour/lab.ts";
import type { Raster } from "../raster/raster.ts";
import type { Cloth } from "./cloth.ts";

export interface DrawnPart {
  readonly from: number;
  readonly to: number;
  readonly repeatsAcross: number;
}

/** Radius of the strand in stitch widths. Our choice: embroidery yarn lies thinner than the knitted leg. */
const RADIUS = 0.13;

/** Draws the cloth's lines over the raster that shows its rows `from` to `to`. */
export function drawLines(raster: Raster, cloth: Cloth, { from, to, repeatsAcross }: DrawnPart): void {
  const { width } = cloth.grid;
  const stitch = raster.width / (width * repeatsAcross);
  const row = raster.height / (to - from + 1);
  for (const line of cloth.lines) {
    const linear = linearFromLab(line.lab);
    for (let repeat = 0; repeat < repeatsAcross; repeat++) {
      const right = (repeat + 1) * width * stitch;
      const start: Point = [right - line.from[1] * stitch, raster.height - (line.from[0] - (from - 1)) * row];
      const end: Point = [right - line.to[1] * stitch, raster.height - (line.to[0] - (from - 1)) * row];
      const stitches = Math.max(1, Math.round(Math.hypot((end[0] - start[0]) / stitch, (end[1] - start[1]) / row)));
      for (let part = 0; part < stitches; part++) {
        strand(
          raster,
          between(start, end, part / stitches),
          between(start, end, (part + 1) / stitches),
          stitch,
          linear,
        );
      }
    }
  }
}

type Point = readonly [number, number];

const between = (a: Point, b: Point, t: number): Point => [a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t];

/** One back stitch from a to b: a rounded bar, lit from above-left, with a soft edge one pixel wide. */
function strand(raster: Raster, a: Point, b: Point, stitch: number, linear: readonly number[]): void {
  const radius = RADIUS * stitch;
  const dx = b[0] - a[0];
  const dy = b[1] - a[1];
  const length2 = dx * dx + dy * dy;
  const reach = radius + 1;
  const left = Math.max(0, Math.floor(Math.min(a[0], b[0]) - reach));
  const right = Math.min(raster.width - 1, Math.ceil(Math.max(a[0], b[0]) + reach));
  const top = Math.max(0, Math.floor(Math.min(a[1], b[1]) - reach));
  const bottom = Math.min(raster.height - 1, Math.ceil(Math.max(a[1], b[1]) + reach));
  for (let y = top; y <= bottom; y++) {
    for (let x = left; x <= right; x++) {
      const px = x + 0.5 - a[0];
      const py = y + 0.5 - a[1];
      const t = Math.min(1, Math.max(0, (px * dx + py * dy) / (length2 || 1)));
      const offX = px - t * dx;
      const offY = py - t * dy;
      const far = Math.hypot(offX, offY);
      const thick = radius * (1 - 0.35 * (2 * t - 1) ** 6);
      // Below a pixel the strand thins out instead of vanishing.
      const cover = Math.min(1, Math.max(0, thick + 0.5 - far)) * Math.min(1, 2 * thick);
      if (cover <= 0) continue;
      const tilt = (-offX - offY) / (radius * 2);
      const light = 0.98 + 0.22 * Math.max(-1, Math.min(1, tilt));
      const at = (y * raster.width + x) * 3;
      for (let channel = 0; channel < 3; channel++) {
        const under = raster.data[at + channel]!;
        raster.data[at + channel] = under + (linear[channel]! * light - under) * cover;
      }
    }
  }
}
