/** The drawing desk: a chart in its true proportions with the tools, colours and acts of drawing around it. */
import { useCallback, useRef, useState, type ReactNode } from "react";
import "../style/drawing.css";
import type { Chart } from "../../chart/chart.ts";
import { chartName } from "../pattern/ChartList.tsx";
import { useBench } from "../shell/bench.ts";
import { ChosenPart } from "./ChosenPart.tsx";
import type { DeskPainter } from "./deskPainter.ts";
import { DeskSurface } from "./DeskSurface.tsx";
import { DeskLook, DeskTools } from "./DeskTools.tsx";
import { LinesPart } from "./LinesPart.tsx";
import { MannerPart } from "./MannerPart.tsx";
import { NumbersPart } from "./NumbersPart.tsx";
import { Palette } from "./Palette.tsx";
import { useDesk } from "./useDesk.ts";
import { useDeskView } from "./useDeskView.ts";

/** @param chart id of a chart of the pattern */
export function ChartDesk({ chart: id }: { readonly chart: string }): ReactNode {
  const { project } = useBench();
  const chart = project?.pattern.charts.find((one) => one.id === id);
  return project && chart ? <Desk chart={chart} aspect={aspectOf(project.pattern.gauge)} /> : null;
}

/** Height of a stitch over its width. */
const aspectOf = (gauge: { readonly stitches: number; readonly rows: number }): number => gauge.stitches / gauge.rows;

const FIRST_WORDS = "Draw with the pointer, or walk with the arrow keys and press Space.";

function Desk({ chart, aspect }: { readonly chart: Chart; readonly aspect: number }): ReactNode {
  const painter = useRef<DeskPainter | null>(null);
  const shown = useRef<HTMLParagraphElement>(null);
  const read = useRef<HTMLParagraphElement>(null);
  const told = useRef(FIRST_WORDS);
  const [thick, setThick] = useState(10);
  // Written past React: the words change with every stitch that a hand passes.
  const note = useCallback((words: string) => {
    told.current = words;
    if (shown.current) shown.current.textContent = words;
  }, []);
  const tell = useCallback(
    (words: string) => {
      note(words);
      if (read.current) read.current.textContent = words;
    },
    [note],
  );
  const onHover = useCallback((words: string) => {
    if (shown.current) shown.current.textContent = words || told.current;
  }, []);
  const desk = useDesk({ chart, painter, tell, note });
  const view = useDeskView({ columns: desk.grid.width, rows: desk.grid.height, aspect, worked: chart.worked });
  return (
    <div className="desk">
      <DeskTools tool={desk.tool} onTool={desk.takeTool} />
      <DeskSurface desk={desk} view={view} painter={painter} thick={thick} name={chartName(chart)} onHover={onHover} />
      <div className="desk-foot">
        <p ref={shown} className="desk-told" aria-hidden="true">
          {FIRST_WORDS}
        </p>
        <DeskLook view={view} thick={thick} onThick={setThick} />
      </div>
      <p ref={read} className="unseen" aria-live="polite" data-told />
      <aside className="panel desk-side" aria-label="Colours and acts">
        <Palette desk={desk} />
        <MannerPart desk={desk} />
        <ChosenPart desk={desk} />
        <NumbersPart desk={desk} />
        <LinesPart desk={desk} />
        <KeysPart />
      </aside>
    </div>
  );
}

function KeysPart(): ReactNode {
  return (
    <details className="desk-part">
      <summary>Keys on the chart</summary>
      <ul id="desk-keys" className="desk-keys">
        <li>Arrow keys walk; Page Up and Page Down go ten rows; Home and End go to the row’s ends.</li>
        <li>Space or Enter does what the tool does; hold Space and walk to draw on.</li>
        <li>Shift with a walking key chooses; Ctrl A chooses all; Delete leaves no stitch.</li>
        <li>Ctrl C, Ctrl X and Ctrl V copy, cut and paste rows as text.</li>
        <li>A colour’s letter takes it up. Plus and minus change the size. Escape goes one step back.</li>
      </ul>
    </details>
  );
}
