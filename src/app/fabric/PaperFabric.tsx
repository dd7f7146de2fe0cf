/** The whole fabric for paper: printing waits for no worker, so its stitches are drawn plainly when the page is printed. */
import { useEffect, useRef, type ReactNode } from "react";
import type { Chart } from "../../chart/chart.ts";
import { NO_STITCH } from "../../chart/chart.ts";
import { hexFromLab } from "../../colour/lab.ts";
import type { Project } from "../../document/project.ts";
import { clothOf } from "../../fabric/cloth.ts";
import { asSeenBy } from "../../jobs/deficient.ts";
import { deficiencyOf, type View } from "../shell/view.ts";
import type { BandLine, RowLine } from "../worker/api.ts";
import { fabricGeometry } from "./geometry.ts";
import { paintScene } from "./paint.ts";

/** CSS pixels of a picture that leaves a margin on A4 and on Letter, and device pixels to each for a sharp print. */
const PAPER = { width: 660, height: 860 };
const DENSITY = 2.5;

interface PaperFabricProps {
  readonly project: Project;
  readonly chart: Chart;
  readonly colourway: string;
  readonly rows: ReadonlyMap<number, RowLine>;
  readonly bands: readonly BandLine[];
  readonly look: Pick<View, "eye" | "severity">;
}

export function PaperFabric(props: PaperFabricProps): ReactNode {
  const canvas = useRef<HTMLCanvasElement>(null);
  const latest = useRef(props);
  latest.current = props;
  useEffect(() => {
    const draw = () => canvas.current && drawOnPaper(canvas.current, latest.current);
    addEventListener("beforeprint", draw);
    return () => removeEventListener("beforeprint", draw);
  }, []);
  return <canvas ref={canvas} className="paper-fabric" style={PAPER} aria-hidden="true" />;
}

function drawOnPaper(
  canvas: HTMLCanvasElement,
  { project: known, chart, colourway, rows, bands, look }: PaperFabricProps,
): void {
  const context = canvas.getContext("2d");
  if (!context) return;
  canvas.width = PAPER.width * DENSITY;
  canvas.height = PAPER.height * DENSITY;
  const { deficiency, severity = 1 } = deficiencyOf(look);
  const project = deficiency ? asSeenBy(known, deficiency, severity) : known;
  const { gauge } = project.pattern;
  const geometry = fabricGeometry({ chart, gauge, view: PAPER, zoom: "whole", split: false });
  const picture = plainStitches(project, chart, colourway, {
    width: Math.max(2, Math.round(geometry.stitch * DENSITY)),
    height: Math.max(2, Math.round(geometry.row * DENSITY)),
  });
  if (!picture) return;
  const scene = {
    geometry,
    scroll: { x: 0, y: 0 },
    size: PAPER,
    panes: geometry.panes.map((pane) => ({
      pane,
      rows,
      pictures: [{ rows: [1, chart.rows.length] as const, picture, repeats: 1, seenFrom: null }],
    })),
    bands,
    spot: null,
    cursor: null,
  };
  paintScene(context, scene, DENSITY);
}

/** One repeat of the chart: a cell in its yarn's colour, and the dent between the two legs of every stitch. */
function plainStitches(
  project: Project,
  chart: Chart,
  colourway: string,
  cell: { readonly width: number; readonly height: number },
): HTMLCanvasElement | null {
  const found = project.colourways.find(({ id }) => id === colourway);
  if (!found) return null;
  const { pattern, yarns } = project;
  const { grid, cells, inks } = clothOf({ chart, pattern, yarns, colourway: found });
  const picture = document.createElement("canvas");
  picture.width = grid.width * cell.width;
  picture.height = grid.height * cell.height;
  const context = picture.getContext("2d")!;
  const fills = inks.map(({ lab }) => hexFromLab(lab));
  for (let row = 0; row < grid.height; row++)
    for (let column = 0; column < grid.width; column++) {
      const ink = cells[row * grid.width + column]!;
      if (ink === NO_STITCH) continue;
      context.fillStyle = fills[ink]!;
      const [x, y] = [(grid.width - 1 - column) * cell.width, (grid.height - 1 - row) * cell.height];
      context.fillRect(x, y, cell.width, cell.height);
      if (cell.width < 6) continue;
      context.strokeStyle = "rgb(0 0 0 / 0.28)";
      context.lineWidth = cell.width / 14;
      context.beginPath();
      context.moveTo(x, y);
      context.lineTo(x + cell.width / 2, y + cell.height * 0.6);
      context.lineTo(x + cell.width, y);
      context.stroke();
    }
  return picture;
}
