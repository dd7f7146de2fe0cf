/** A way as a small true fabric: the same stitches, the same distance and light as the large one. */
import { useEffect, useRef, useState, type ReactNode } from "react";
import type { Project } from "../../document/project.ts";
import { useBench } from "../shell/bench.ts";
import { deficiencyOf } from "../shell/view.ts";
import type { Way } from "../worker/api.ts";
import { pictureJobs } from "../worker/client.ts";

/** CSS pixels: the whole height of most charts at two pixels a stitch. */
const WIDTH = 104;
const HEIGHT = 232;
/** Under this many CSS pixels a stitch is no longer a stitch; of a taller chart the middle is shown. */
const STITCH_LEAST = 1.7;

export function WayThumb({
  project,
  way,
  from,
}: {
  readonly project: Project;
  readonly way: Way;
  readonly from: string;
}): ReactNode {
  const { chart, view } = useBench();
  const { grey, eye, severity } = view;
  const canvas = useRef<HTMLCanvasElement>(null);
  const [failed, setFailed] = useState(false);
  useEffect(() => {
    if (!chart) return;
    let live = true;
    const draw = async () => {
      const density = Math.min(2, window.devicePixelRatio || 1);
      const columns = chart.rows[0]!.length;
      const { gauge } = project.pattern;
      const aspect = gauge.stitches / gauge.rows;
      const stitch = Math.max(STITCH_LEAST, HEIGHT / (chart.rows.length * aspect), WIDTH / 90);
      const pixelsPerStitch = stitch * density;
      const rows = Math.min(chart.rows.length, Math.floor(HEIGHT / (stitch * aspect)));
      const { project: applied, colourway } = await pictureJobs().applyWay(project, way, { name: way.name, from });
      const picture = await pictureJobs().fabric(applied, {
        colourway,
        chart: chart.id,
        ...deficiencyOf({ eye, severity }),
        ...(grey && { colours: "grey" as const }),
        pixelsPerStitch,
        repeats: Math.max(1, Math.ceil(WIDTH / (columns * stitch))),
        rows: middleRows(chart.rows.length, rows),
      });
      if (!live || !canvas.current) return;
      canvas.current.width = Math.round(WIDTH * density);
      canvas.current.height = Math.min(picture.height, Math.round(HEIGHT * density));
      canvas.current.getContext("2d")?.putImageData(new ImageData(picture.rgba, picture.width, picture.height), 0, 0);
    };
    draw().catch(() => live && setFailed(true));
    return () => {
      live = false;
    };
  }, [project, way, from, chart, grey, eye, severity]);
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
