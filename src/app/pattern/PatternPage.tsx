/** The pattern: its charts, how they are built, and the ways in which another chart comes in. */
import {
  lazy,
  useEffect,
  Suspense,
  useRef,
  useState,
  useSyncExternalStore,
  type ComponentType,
  type ReactNode,
} from "react";
import "../style/pattern.css";
import { useBench } from "../shell/bench.ts";
import { ChartHead } from "./ChartHead.tsx";
import { ChartList, type ChartDoor } from "./ChartList.tsx";

const ChartDesk = lazy(() => import("../drawing/ChartDesk.tsx").then((module) => ({ default: module.ChartDesk })));
const PictureDoor = lazy(() => import("../reading/ChartDoor.tsx").then((module) => ({ default: module.ChartDoor })));
const StructureView = lazy(() =>
  import("../structure/StructureView.tsx").then((module) => ({ default: module.StructureView })),
);
const TextDoor = lazy(() => import("../typed/TextDoor.tsx").then((module) => ({ default: module.TextDoor })));
const NewChart = lazy(() => import("./NewChart.tsx").then((module) => ({ default: module.NewChart })));

type PatternPart = "charts" | "draw" | "built";

interface DoorProps {
  readonly onClose: () => void;
}

/** What takes the page's place while a chart comes in; each is loaded when it is asked for. */
const DOORS = [
  { key: "picture", name: "From a picture, a PDF or a drawing", Door: PictureDoor },
  { key: "text", name: "From text", Door: TextDoor },
  { key: "empty", name: "A new, empty chart", Door: NewChart },
] satisfies readonly {
  readonly key: string;
  readonly name: string;
  readonly Door: ComponentType<DoorProps>;
}[];

const PARTS: readonly { readonly part: PatternPart; readonly name: string }[] = [
  { part: "charts", name: "Charts" },
  { part: "draw", name: "Draw" },
  { part: "built", name: "How it is built" },
];

export function PatternPage(): ReactNode {
  const { project, chart, look } = useBench();
  const page = useRef<HTMLElement>(null);
  const [part, setPart] = useState<PatternPart>("charts");
  const [door, setDoor] = useState<(typeof DOORS)[number] | null>(null);
  const isNarrow = useSyncExternalStore(onNarrow, isNarrowNow);
  // Where parts take turns, a chart that has come in or was chosen is the next thing to be seen.
  const known = useRef(chart?.id);
  useEffect(() => {
    if (known.current !== chart?.id) setPart((now) => (now === "charts" ? "draw" : now));
    known.current = chart?.id;
  }, [chart?.id]);
  if (!project) return null;

  const closeDoor = (): void => {
    const from = `[data-door="${door?.key}"]`;
    const before = chart?.id;
    setDoor(null);
    requestAnimationFrame(() => {
      const button = page.current?.querySelector<HTMLElement>(from);
      if (known.current === before && button?.checkVisibility()) button.focus();
      else toTitle();
    });
  };
  const doors: readonly ChartDoor[] = DOORS.map((one) => ({
    key: one.key,
    name: one.name,
    open: () => setDoor(one),
  }));
  const choose = (id: string): void => {
    look({ chart: id });
    if (!isNarrow) return;
    setPart("draw");
    requestAnimationFrame(toTitle);
  };
  // Where the list has room beside the chart it is always there.
  const shown: PatternPart = part === "charts" && !isNarrow ? "draw" : part;

  if (door)
    return (
      <main ref={page} className="pattern-door">
        <Suspense fallback={<p role="status">One moment…</p>}>
          <door.Door onClose={closeDoor} />
        </Suspense>
      </main>
    );
  return (
    <main ref={page} className="pattern-page" data-part={shown}>
      <ChartList pattern={project.pattern} chosen={chart?.id ?? null} doors={doors} onChoose={choose} />
      {chart ? (
        <>
          <ChartHead key={chart.id} chart={chart} />
          <section className="pattern-chart" aria-labelledby="chart-title">
            <Suspense fallback={<p role="status">One moment…</p>}>
              {shown === "draw" && <ChartDesk key={chart.id} chart={chart.id} />}
              {shown === "built" && <StructureView chart={chart.id} />}
            </Suspense>
          </section>
        </>
      ) : (
        <p className="empty pattern-chart">A chart that you bring in or begin is drawn here.</p>
      )}
      <nav className="pattern-parts" aria-label="Part of the pattern">
        {PARTS.map(({ part: one, name }) => (
          <button key={one} type="button" data-part={one} aria-pressed={shown === one} onClick={() => setPart(one)}>
            {name}
          </button>
        ))}
      </nav>
    </main>
  );
}

/** What was pressed may be out of sight now. */
const toTitle = (): void => document.getElementById("chart-title")?.focus();

/** The width in pattern.css below which one part is shown at a time. */
const NARROW = "(max-width: 999px)";
const isNarrowNow = (): boolean => matchMedia(NARROW).matches;
function onNarrow(listener: () => void): () => void {
  const query = matchMedia(NARROW);
  query.addEventListener("change", listener);
  return () => query.removeEventListener("change", listener);
}
