/** A chart small, in the pattern's own colours and the proportions of its gauge. */
import { useEffect, useRef, type ReactNode } from "react";
import { gridOf, type Chart } from "../../chart/chart.ts";
import type { Pattern } from "../../fabric/pattern.ts";
import { cellPicture, cellPixels } from "../drawing/cellPicture.ts";

interface ChartThumbProps {
  readonly chart: Chart;
  readonly pattern: Pattern;
  /** CSS pixels that it may take. */
  readonly most: { readonly width: number; readonly height: number };
}

export function ChartThumb({ chart, pattern, most }: ChartThumbProps): ReactNode {
  const canvas = useRef<HTMLCanvasElement>(null);
  const { colours, gauge } = pattern;
  useEffect(() => {
    const element = canvas.current;
    const context = element?.getContext("2d");
    if (!element || !context) return;
    const grid = gridOf(chart);
    const high = (grid.height * gauge.stitches) / gauge.rows;
    const density = Math.min(2, window.devicePixelRatio || 1);
    const scale = density * Math.min(most.width / grid.width, most.height / high);
    element.width = Math.max(1, Math.round(grid.width * scale));
    element.height = Math.max(1, Math.round(high * scale));
    element.style.width = `${element.width / density}px`;
    element.style.height = `${element.height / density}px`;
    // Larger than life its stitches stay stitches; smaller they run together as they do to the eye.
    context.imageSmoothingEnabled = scale < 2;
    context.imageSmoothingQuality = "high";
    context.drawImage(cellPicture(grid, cellPixels(grid.ids, colours)), 0, 0, element.width, element.height);
  }, [chart, colours, gauge, most]);
  return (
    <span className="chart-thumb" aria-hidden="true">
      <canvas ref={canvas} />
    </span>
  );
}
