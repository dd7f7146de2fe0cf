/** A chart as a small picture, a dot to the stitch. */
import { useEffect, useMemo, useRef, type ReactNode } from "react";
import type { ReadColour } from "../../intake/readChart.ts";
import { cellsTexture } from "./sheetDraw.ts";

interface ChartThumbProps {
  readonly rows: readonly string[];
  readonly colours: Readonly<Record<string, ReadColour>>;
  /** CSS pixels of the longer side. */
  readonly side: number;
}

export function ChartThumb({ rows, colours, side }: ChartThumbProps): ReactNode {
  const canvas = useRef<HTMLCanvasElement>(null);
  const texture = useMemo(() => cellsTexture({ rows, colours }), [rows, colours]);
  const scale = side / Math.max(texture.width, texture.height);
  const [width, height] = [Math.max(2, texture.width * scale), Math.max(2, texture.height * scale)];
  useEffect(() => {
    const context = canvas.current?.getContext("2d");
    if (!context) return;
    context.imageSmoothingEnabled = texture.width > context.canvas.width;
    context.clearRect(0, 0, context.canvas.width, context.canvas.height);
    context.drawImage(texture, 0, 0, context.canvas.width, context.canvas.height);
  }, [texture]);
  return (
    <span className="found-thumb-picture" aria-hidden="true">
      <canvas ref={canvas} width={Math.round(width * 2)} height={Math.round(height * 2)} style={{ width, height }} />
    </span>
  );
}
