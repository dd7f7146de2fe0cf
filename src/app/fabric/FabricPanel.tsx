/** The fabric, stitch by stitch, with the gutter that marks how each row shows; two of it while a change is tried. */
import { useCallback, useEffect, useLayoutEffect, useMemo, useRef, useState, type ReactNode } from "react";
import type { Chart } from "../../chart/chart.ts";
import type { Project } from "../../document/project.ts";
import { useBench } from "../shell/bench.ts";
import type { View } from "../shell/view.ts";
import { metresWords } from "../shell/words.ts";
import { useReadsInLights } from "../worker/answers.ts";
import type { RowLine } from "../worker/api.ts";
import { NumberHelp } from "../ui/NumberHelp.tsx";
import { FabricTools } from "./FabricTools.tsx";
import {
  columnAt,
  fabricGeometry,
  rowAt,
  rowTop,
  STITCH_LEAST,
  STITCH_MOST,
  type ViewSize,
  type Zoom,
} from "./geometry.ts";
import { MarkLegend } from "./MarkLegend.tsx";
import { PaperFabric } from "./PaperFabric.tsx";
import { paintScene, type Scene } from "./paint.ts";
import { PreviewBar } from "./PreviewBar.tsx";
import { lightsSentence, rowSentence, stitchSentence, trustWords } from "./rowWords.ts";
import { usePictures, type PictureLook, type Shown } from "./usePictures.ts";

export function FabricPanel(): ReactNode {
  const { shown: project, chart, colourway, commit } = useBench();
  return (
    <section className="fabric" data-part="fabric" aria-label="Fabric">
      {!project || !chart ? (
        <p className="empty">
          There is no chart here. Open a project file that has one: the fabric is knitted from it.
        </p>
      ) : !colourway ? (
        <div className="empty begin">
          <p>There is a chart and no colourway yet.</p>
          <button
            type="button"
            className="button strong"
            onClick={() =>
              commit([{ kind: "addColourway", id: "w1", from: null, name: "first try" }], "beginning a colourway")
            }
          >
            Begin a colourway
          </button>
        </div>
      ) : (
        <FabricBench project={project} chart={chart} colourway={colourway.id} />
      )}
    </section>
  );
}

interface FabricBenchProps {
  readonly project: Project;
  readonly chart: Chart;
  readonly colourway: string;
}

/** One press of a zoom button. Four presses double the stitch. */
const ZOOM_STEP = 2 ** (1 / 4);
/** Browsers take about half a second for a smooth way; a little more, from memory. */
const LONGEST_WAY_MS = 800;

function FabricBench({ project, chart, colourway }: FabricBenchProps): ReactNode {
  const { preview, view, check, previewCheck, spot, showSpot, say, checkFailed, hand, checking, smalls } = useBench();
  const scroller = useRef<HTMLDivElement>(null);
  const canvas = useRef<HTMLCanvasElement>(null);
  const [size, setSize] = useState<ViewSize | null>(null);
  const [density, setDensity] = useState(() => window.devicePixelRatio || 1);
  const [scroll, setScroll] = useState({ x: 0, y: 0 });
  const [ownZoom, setOwnZoom] = useState<Zoom>("width");
  const [splitZoom, setSplitZoom] = useState<Zoom | null>(null);
  const [cursor, setCursor] = useState<number | null>(null);
  const [hover, setHover] = useState<{ row: number; column: number } | null>(null);

  useEffect(() => {
    const element = scroller.current!;
    const observer = new ResizeObserver(() => {
      setSize({ width: element.clientWidth, height: element.clientHeight });
      setDensity(window.devicePixelRatio || 1);
    });
    observer.observe(element);
    return () => observer.disconnect();
  }, []);
  useEffect(() => setCursor(null), [chart.id]);

  const split = preview !== null;
  // Before and after begin side by side in view, whatever the size was; afterwards it is that again.
  useEffect(() => setSplitZoom(null), [split]);
  const zoom = split ? (splitZoom ?? (ownZoom === "whole" ? "whole" : "width")) : ownZoom;
  const setZoom = split ? setSplitZoom : setOwnZoom;
  const { gauge } = project.pattern;
  const geometry = useMemo(
    () => (size && size.width > 0 ? fabricGeometry({ chart, gauge, view: size, zoom, split }) : null),
    [chart, gauge, size, zoom, split],
  );
  const shown = useMemo<readonly Shown[]>(
    () => [{ project, colourway }, ...(preview ? [{ project: preview.project, colourway: preview.colourway }] : [])],
    [project, colourway, preview],
  );
  const inView = useMemo<readonly [number, number]>(() => {
    if (!geometry || !size) return [1, 1];
    const from = geometry.rows - Math.floor((scroll.y + size.height - geometry.top) / geometry.row);
    const to = geometry.rows - Math.floor((scroll.y - geometry.top) / geometry.row);
    return [Math.max(1, from), Math.min(geometry.rows, to)];
  }, [geometry, size, scroll.y]);
  const look = usePictureLook(view);
  const ahead = usePictureLook(hand);
  const [drawn, setDrawn] = useState(0);
  const { pictures, waiting, failed } = usePictures({
    shown,
    chart,
    look,
    hand: view === hand ? look : ahead,
    geometry,
    density,
    inView,
    smalls,
    onPicture: useCallback(() => setDrawn((count) => count + 1), []),
  });

  const rowsNow = useMemo(() => rowsOf(check?.rows, chart.id), [check, chart.id]);
  const rowsThen = useMemo(() => rowsOf(previewCheck?.rows, chart.id), [previewCheck, chart.id]);

  const bands = useMemo(
    () => check?.bands.filter((band) => band.chart === chart.id && band.section === null) ?? [],
    [check, chart.id],
  );

  useLayoutEffect(() => {
    const context = canvas.current?.getContext("2d");
    if (!context) return;
    if (!geometry || !size) {
      delete context.canvas.dataset.pictureFrom;
      return;
    }
    const scene: Scene = {
      geometry,
      scroll,
      size,
      panes: geometry.panes.map((pane, i) => ({
        pane,
        rows: i === 0 ? rowsNow : rowsThen,
        pictures: pictures(i),
      })),
      bands,
      spot: spot?.chart === chart.id ? spot.rows : null,
      cursor,
    };
    // At once and not in the next frame, so that the picture changes together with the words.
    paintScene(context, scene, density);
    context.canvas.dataset.pictureFrom = String(scene.panes[0]!.pictures.at(-1)?.seenFrom ?? "at hand");
  }, [geometry, scroll, size, rowsNow, rowsThen, bands, chart.id, spot, cursor, density, drawn, pictures]);

  // The row in the middle stays in the middle when the size of a stitch changes.
  const middle = useRef<number | null>(null);
  // … but for a way that has only begun: before and after come side by side while the fabric still goes to its rows.
  const going = useRef<{ readonly rows: readonly [number, number]; readonly since: number } | null>(null);
  const goTo = useCallback(
    (rows: readonly [number, number], smooth: boolean) => {
      const element = scroller.current;
      if (!element || !geometry || !size) return;
      if (smooth) going.current = { rows, since: performance.now() };
      const centre = (rowTop(geometry, rows[1]) + rowTop(geometry, rows[0]) + geometry.row) / 2;
      const calm = matchMedia("(prefers-reduced-motion: reduce)").matches;
      element.scrollTo({ top: centre - size.height / 2, behavior: smooth && !calm ? "smooth" : "instant" });
    },
    [geometry, size],
  );
  useLayoutEffect(() => {
    const element = scroller.current;
    if (!element || !geometry || !size) return;
    if (going.current && performance.now() - going.current.since < LONGEST_WAY_MS) goTo(going.current.rows, false);
    else if (middle.current !== null)
      element.scrollTop = geometry.top + middle.current * geometry.row - size.height / 2;
  }, [geometry, size]);
  const noteMiddle = () => {
    const element = scroller.current!;
    if (!geometry || !size) return;
    setScroll({ x: element.scrollLeft, y: element.scrollTop });
    middle.current = (element.scrollTop + size.height / 2 - geometry.top) / geometry.row;
  };

  const shownSpot = useRef<typeof spot>(null);
  useEffect(() => {
    if (!geometry || shownSpot.current === spot) return;
    shownSpot.current = spot;
    if (spot && spot.chart === chart.id) goTo(spot.rows, true);
  }, [spot, geometry, chart.id, goTo]);

  const zoomBy = (factor: number) => {
    if (geometry) setZoom(Math.min(STITCH_MOST, Math.max(STITCH_LEAST, geometry.stitch * factor)));
  };
  // React listens to the wheel passively; only a listener of our own may keep the page from zooming.
  const zoomLatest = useRef(zoomBy);
  zoomLatest.current = zoomBy;
  useEffect(() => {
    const element = scroller.current!;
    const onWheel = (event: WheelEvent) => {
      if (!event.ctrlKey) return;
      event.preventDefault();
      zoomLatest.current(Math.exp(-event.deltaY / 200));
    };
    element.addEventListener("wheel", onWheel, { passive: false });
    return () => element.removeEventListener("wheel", onWheel);
  }, []);

  const wordsOf = (row: number) => rowSentence(row, rowsNow.get(row), project, view.distance);
  const moveCursor = (row: number) => {
    const next = Math.min(chart.rows.length, Math.max(1, row));
    setCursor(next);
    setHover(null);
    say(wordsOf(next));
    if (next < inView[0] + 1 || next > inView[1] - 1) goTo([next, next], false);
  };
  const onKey = (event: React.KeyboardEvent) => {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    const from = cursor ?? (event.key === "ArrowUp" ? inView[0] : inView[1] + 1);
    const target = {
      ArrowUp: from + 1,
      ArrowDown: from - 1,
      PageUp: from + 10,
      PageDown: from - 10,
      Home: chart.rows.length,
      End: 1,
    }[event.key];
    if (target !== undefined) moveCursor(target);
    else if (event.key === "+" || event.key === "=") zoomBy(ZOOM_STEP);
    else if (event.key === "-") zoomBy(1 / ZOOM_STEP);
    else if (event.key === "Escape" && (cursor !== null || spot)) {
      setCursor(null);
      showSpot(null);
    } else return;
    event.preventDefault();
  };
  const onPointer = (event: React.PointerEvent) => {
    if (!geometry || event.pointerType === "touch") return;
    const box = scroller.current!.getBoundingClientRect();
    const x = event.clientX - box.left + scroll.x;
    const row = rowAt(geometry, event.clientY - box.top + scroll.y);
    const columns = chart.rows[0]!.length;
    const column = geometry.panes.map((pane) => columnAt(geometry, pane, x, columns)).find((found) => found !== null);
    const next = row !== null && column ? { row, column } : null;
    if (next?.row !== hover?.row || next?.column !== hover?.column) setHover(next);
  };

  const asked = cursor ?? (spot?.chart === chart.id ? spot.rows[1] : null);
  const inLights = useReadsInLights(asked !== null && rowsNow.get(asked)?.shows ? asked : null);
  const lights = hover === null && inLights.value ? lightsSentence(inLights.value) : "";
  const readout = hover
    ? `${stitchSentence(hover, chart, project, colourway)} ${wordsOf(hover.row)}`
    : cursor !== null
      ? wordsOf(cursor)
      : spot
        ? wordsOf(spot.rows[1])
        : "Touch a row, or walk them with the arrow keys.";

  return (
    <>
      <FabricTools zoom={zoom} onZoom={setZoom} onStep={(grow) => zoomBy(grow ? ZOOM_STEP : 1 / ZOOM_STEP)} />
      {preview && <PreviewBar preview={preview} />}
      {preview && geometry && (
        <p className="preview-sides" aria-hidden="true">
          {geometry.panes.map(({ side, left, width }) => (
            <span key={side} style={{ left: left - scroll.x, width }}>
              {side === "now" ? "before" : "after"}
            </span>
          ))}
        </p>
      )}
      <div className="fabric-frame">
        <div
          ref={scroller}
          className="fabric-scroll"
          tabIndex={0}
          role="application"
          aria-roledescription="fabric"
          aria-label={`${project.pattern.name ?? project.name}: ${chart.rows.length} rows of ${chart.rows[0]!.length} stitches${view.seen ? `, as seen from ${metresWords(view.distance)}` : ""}${view.grey ? ", in grey" : ""}. Arrow keys walk the rows.`}
          onScroll={noteMiddle}
          onKeyDown={onKey}
          onPointerMove={onPointer}
          onPointerLeave={() => setHover(null)}
          onClick={(event) => {
            if (!geometry) return;
            const row = rowAt(geometry, event.clientY - scroller.current!.getBoundingClientRect().top + scroll.y);
            if (row !== null) moveCursor(row);
          }}
        >
          <div
            className="fabric-size"
            style={geometry ? { width: geometry.content.width, height: geometry.content.height } : {}}
          >
            <canvas
              ref={canvas}
              data-waiting={waiting !== "no" || checking}
              width={Math.round((size?.width ?? 1) * density)}
              height={Math.round((size?.height ?? 1) * density)}
              style={size ? { width: size.width, height: size.height } : {}}
            />
          </div>
        </div>
        {(waiting === "yes" || checking) && (
          <p className="working" role="status">
            {hand.seen
              ? "Working out what is seen from there…"
              : waiting === "yes"
                ? "Knitting…"
                : "Working out how it shows from there…"}
          </p>
        )}
      </div>
      <PaperFabric project={project} chart={chart} colourway={colourway} rows={rowsNow} bands={bands} look={view} />
      <div className="readout">
        <div className="readout-row" data-words-from={check?.distance}>
          <p>{failed ?? checkFailed ?? readout}</p>
          {check && (hover || asked !== null) && (
            <p className="readout-trust">
              {lights} {trustWords(check.eye.verdicts, view.eye)}{" "}
              <NumberHelp of={["words", "V", "range", "readsTo", "lightDark"]} about="how a row shows" />
            </p>
          )}
        </div>
        <MarkLegend />
      </div>
    </>
  );
}

function usePictureLook({ grey, seen, distance, light, eye, severity }: View): PictureLook {
  return useMemo(() => ({ grey, seen, distance, light, eye, severity }), [grey, seen, distance, light, eye, severity]);
}

function rowsOf(rows: readonly RowLine[] | undefined, chart: string): ReadonlyMap<number, RowLine> {
  return new Map(
    (rows ?? []).filter((row) => row.chart === chart && row.section === null).map((row) => [row.row, row]),
  );
}
