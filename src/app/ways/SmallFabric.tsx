/** A colourway as a small true fabric: the same stitches, eyes, distance and light as the large one. */
import { useEffect, useRef, useState, type ReactNode } from "react";
import type { Project } from "../../document/project.ts";
import { useBench } from "../shell/bench.ts";
import { deficiencyOf } from "../shell/view.ts";
import { pictureJobs } from "../worker/client.ts";

interface SmallFabricProps {
  /** What is drawn, or a promise of it. */
  readonly from: () => Promise<{ readonly project: Project; readonly colourway: string }>;
  /** Another key is another fabric. */
  readonly of: string;
  /** CSS pixels. */
  readonly width: number;
  readonly height: number;
  readonly grey?: boolean;
}

/** Under this many CSS pixels a stitch is no longer a stitch; of a taller chart the middle is shown. */
const STITCH_LEAST = 1.7;

export function SmallFabric({ from, of, width, height, grey = false }: SmallFabricProps): ReactNode {
  const { chart, view } = useBench();
  const { eye, severity, seen, distance, light } = view;
  const inGrey = grey || view.grey;
  const canvas = useRef<HTMLCanvasElement>(null);
  const [failed, setFailed] = useState(false);
  const source = useRef(from);
  source.current = from;
  useEffect(() => {
    if (!chart) return;
    let live = true;
    const draw = async () => {
      const density = Math.min(2, window.devicePixelRatio || 1);
      const columns = chart.rows[0]!.length;
      const { project, colourway } = await source.current();
      const { gauge } = project.pattern;
      const aspect = gauge.stitches / gauge.rows;
      const stitch = Math.max(STITCH_LEAST, height / (chart.rows.length * aspect), width / 90);
      const rows = Math.min(chart.rows.length, Math.floor(height / (stitch * aspect)));
      const picture = await pictureJobs().fabric(project, {
        colourway,
        chart: chart.id,
        ...deficiencyOf({ eye, severity }),
        ...(inGrey && { colours: "grey" as const }),
        ...(seen && { distance, light }),
        pixelsPerStitch: stitch * density,
        repeats: Math.max(1, Math.ceil(width / (columns * stitch))),
        rows: middleRows(chart.rows.length, rows),
      });
      if (!live || !canvas.current) return;
      canvas.current.width = Math.round(width * density);
      canvas.current.height = Math.min(picture.height, Math.round(height * density));
      canvas.current.getContext("2d")?.putImageData(new ImageData(picture.rgba, picture.width, picture.height), 0, 0);
    };
    draw().catch(() => live && setFailed(true));
    return () => {
      live = false;
    };
  }, [of, chart, inGrey, eye, severity, seen, distance, light, width, height]);
  return failed ? (
    <span className="way-picture empty">no picture</span>
  ) : (
    <canvas ref={canvas} className="way-picture" style={{ width, maxHeight: height }} aria-hidden="true" />
  );
}

/** The middle of the chart, where its large bands are. */
function middleRows(height: number, count: number): [number, number] {
  const from = Math.max(1, Math.floor((height - count) / 2) + 1);
  return [from, Math.min(height, from + count - 1)];
}
