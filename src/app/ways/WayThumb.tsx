/** A way as a small true fabric: the same stitches, the same distance and light as the large one. */
import { useEffect, useRef, useState, type ReactNode } from "react";
import type { Project } from "../../document/project.ts";
import { useBench } from "../shell/bench.ts";
import type { Way } from "../worker/api.ts";
import { quickJobs } from "../worker/client.ts";

/** CSS pixels. Three stand side by side in the panel. */
const WIDTH = 100;
const HEIGHT = 150;
/** Stitches across: one repeat of most charts, large enough to be seen as knitting. */
const STITCHES = 36;

export function WayThumb({ project, way }: { readonly project: Project; readonly way: Way }): ReactNode {
  const { chart, view } = useBench();
  const canvas = useRef<HTMLCanvasElement>(null);
  const [failed, setFailed] = useState(false);
  useEffect(() => {
    if (!chart) return;
    let live = true;
    const draw = async () => {
      const density = Math.min(2, window.devicePixelRatio || 1);
      const columns = chart.rows[0]!.length;
      const { gauge } = project.pattern;
      const pixelsPerStitch = (WIDTH * density) / Math.min(STITCHES, Math.max(columns, 24));
      const aspect = gauge.stitches / gauge.rows;
      const rows = Math.min(chart.rows.length, Math.ceil((HEIGHT * density) / (pixelsPerStitch * aspect)));
      const { project: applied, colourway } = await quickJobs().applyWay(project, way, { name: way.name });
      const picture = await quickJobs().fabric(applied, {
        colourway,
        chart: chart.id,
        grey: view.grey,
        pixelsPerStitch,
        repeats: Math.max(1, Math.ceil(STITCHES / columns)),
        rows: middleRows(chart.rows.length, rows),
      });
      if (!live || !canvas.current) return;
      canvas.current.width = Math.round(WIDTH * density);
      canvas.current.height = Math.min(picture.height, Math.round(HEIGHT * density));
      canvas.current
        .getContext("2d")
        ?.putImageData(new ImageData(new Uint8ClampedArray(picture.rgba), picture.width, picture.height), 0, 0);
    };
    draw().catch(() => live && setFailed(true));
    return () => {
      live = false;
    };
  }, [project, way, chart, view.grey]);
  return failed ? (
    <span className="way-picture empty">no picture</span>
  ) : (
    <canvas ref={canvas} className="way-picture" style={{ width: WIDTH, maxHeight: HEIGHT }} aria-hidden="true" />
  );
}

/** The middle of the chart, where its large bands are. */
function middleRows(height: number, count: number): [number, number] {
  const from = Math.max(1, Math.floor((height - count) / 2) + 1);
  return [from, Math.min(height, from + count - 1)];
}
