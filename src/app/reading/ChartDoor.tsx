/** The door to charts on pictures, pages and drawings: chosen, read, held against their picture, put right, and taken on. */
import { useCallback, useEffect, useMemo, useRef, useState, type ReactNode } from "react";
import { useBench } from "../shell/bench.ts";
import { DoorHead } from "../ui/DoorHead.tsx";
import { Icon } from "../ui/Icon.tsx";
import { useDrop } from "../ui/useDrop.ts";
import "../style/photo.css";
import "../style/reading.css";
import { AcceptChart } from "./AcceptChart.tsx";
import { ByHand } from "./ByHand.tsx";
import { ChartCheck } from "./ChartCheck.tsx";
import { ChartList } from "./ChartList.tsx";
import { JoinPanel } from "./JoinPanel.tsx";
import { readyCharts } from "./joining.ts";
import { PageChoice } from "./PageChoice.tsx";
import { ChartFilesButton, ReadChoice } from "./ReadChoice.tsx";
import { changed, sheetName, type SheetInHand } from "./reading.ts";
import { useReading, type Progress, type Reading } from "./useReading.ts";
import { countWords } from "./words.ts";

export function ChartDoor({ onClose }: { readonly onClose: () => void }): ReactNode {
  const { say } = useBench();
  const reading = useReading();
  const { sources, sheets, charts, history } = reading;
  const heading = useRef<HTMLHeadingElement>(null);
  const work = useRef<HTMLDivElement>(null);
  const [shown, setShown] = useState<string | null>(null);
  const [byHand, setByHand] = useState<string | null>(null);
  const [isAccepting, setAccepting] = useState(false);
  useEffect(() => heading.current?.focus(), []);

  const { travel } = reading;
  const back = useCallback(
    (direction: "undo" | "redo") => {
      const name = travel(direction);
      if (name === null) say(direction === "undo" ? "Nothing to undo." : "Nothing to redo.");
      else say(`${direction === "undo" ? "Undone" : "Done again"}: ${name}.`);
    },
    [travel, say],
  );
  // In the door its own acts are taken back; the bench's wait outside. While she names what she takes on, too.
  useEffect(() => {
    const onKey = (event: KeyboardEvent) => {
      if (!(event.ctrlKey || event.metaKey) || event.altKey || isTyping(event.target)) return;
      const key = event.key.toLowerCase();
      if (key !== "z" && !(key === "y" && !event.shiftKey)) return;
      event.preventDefault();
      event.stopImmediatePropagation();
      back(key === "y" || event.shiftKey ? "redo" : "undo");
    };
    addEventListener("keydown", onKey, { capture: true });
    return () => removeEventListener("keydown", onKey, { capture: true });
  }, [back]);
  useLeaveGuard(history.past.length > 0);

  const { add: addFiles } = reading;
  const add = useCallback(
    (files: readonly File[]) => {
      if (files.length === 0) return;
      addFiles(files);
      setAccepting(false);
      // The button that was pressed goes away with the first choice.
      requestAnimationFrame(() => work.current?.focus());
    },
    [addFiles],
  );
  useEffect(() => {
    const onPaste = (event: ClipboardEvent) => {
      const files = [...(event.clipboardData?.files ?? [])];
      if (files.length === 0) return;
      event.preventDefault();
      add(files);
    };
    addEventListener("paste", onPaste);
    return () => removeEventListener("paste", onPaste);
  }, [add]);
  const drop = useDrop((dropped) => add([...dropped.files]));

  const choosing = sources.find(({ state }) => state === "choosing") ?? null;
  const handSheet = sheets.find(({ key }) => key === byHand) ?? null;
  const chart = charts.find(({ key }) => key === shown) ?? charts[0] ?? null;
  const taken = useMemo(() => charts.filter(({ isTaken }) => isTaken), [charts]);
  const ready = useMemo(() => (isAccepting ? readyCharts(taken) : []), [isAccepting, taken]);
  useToldWhenRead(reading, say);
  const hasChart = ({ key }: SheetInHand): boolean =>
    charts.some(({ parts }) => parts.some(({ sheet }) => sheet === key));
  const wordsOf = (sheet: SheetInHand): ReactNode => (
    <SheetWords
      key={sheet.key}
      sheet={sheet}
      hasChart={hasChart(sheet)}
      onByHand={() => {
        setByHand(sheet.key);
        requestAnimationFrame(() => document.getElementById("grid-title")?.focus());
      }}
    />
  );

  if (isAccepting && taken.length > 0)
    return (
      <section className="reading" aria-labelledby="reading-title">
        <DoorHead
          id="reading-title"
          title={taken.length === 1 ? "Take the chart on" : `Take ${taken.length} charts on`}
          back="Back to the chart"
          heading={heading}
          onClose={() => setAccepting(false)}
        />
        <AcceptChart
          charts={ready}
          onDone={() => {
            reading.clear();
            onClose();
          }}
        />
      </section>
    );
  return (
    <section className="reading" aria-labelledby="reading-title" {...drop}>
      <DoorHead
        id="reading-title"
        title="A chart from a picture, a PDF or a drawing"
        back="Back to the pattern"
        heading={heading}
        onClose={onClose}
      />
      {sources.length === 0 ? (
        <ReadChoice onFiles={add} />
      ) : (
        <div ref={work} className="reading-work" tabIndex={-1}>
          <div className="reading-bar">
            <SourceList reading={reading} onFiles={add} />
            <div className="tool-group" role="group" aria-label="Way back in this door">
              <UndoButton direction="undo" step={history.past.at(-1)?.name} onPress={() => back("undo")} />
              <UndoButton direction="redo" step={history.future.at(-1)?.name} onPress={() => back("redo")} />
            </div>
            {!choosing && taken.length > 0 && (
              <button type="button" className="button strong" data-go-on onClick={() => setAccepting(true)}>
                {taken.length === 1 ? "Take it on" : `Take ${countWords(taken.length, "chart")} on`}
              </button>
            )}
          </div>
          <ProgressLine reading={reading} />
          {sources.map(
            ({ id, file, state, told }) =>
              state === "refused" && <Refused key={id} title={`${file.name} was not opened`} sentences={told} />,
          )}
          {choosing ? (
            <PageChoice
              key={choosing.id}
              source={choosing}
              desk={reading.desk}
              done={sheets.filter(({ source }) => source === choosing.id).map(({ page }) => page)}
              onRead={(pages) => {
                reading.readPages(choosing.id, pages);
                work.current?.focus();
              }}
            />
          ) : handSheet ? (
            <ByHand
              key={handSheet.key}
              reading={reading}
              sheet={handSheet}
              say={say}
              onRead={(key) => {
                setByHand(null);
                setShown(key);
                requestAnimationFrame(() => document.getElementById("cells-title")?.focus());
              }}
            />
          ) : (
            <>
              {charts.length > 0 && (
                <ChartList
                  charts={charts}
                  sheets={sheets}
                  shown={chart?.key ?? null}
                  onShow={setShown}
                  onTake={(key, isTaken) =>
                    reading.act(isTaken ? "a chart taken" : "a chart left", (all) =>
                      changed(all, key, (one) => ({ ...one, isTaken })),
                    )
                  }
                  onName={(key, name) =>
                    reading.act(`called “${name}”`, (all) => changed(all, key, (one) => ({ ...one, name })))
                  }
                />
              )}
              {taken.length > 1 && !reading.progress && (
                <JoinPanel
                  charts={taken}
                  onJoin={(joined) => {
                    const parts = new Set(taken.map(({ key }) => key));
                    reading.act("put together", (all) => [...all.filter(({ key }) => !parts.has(key)), joined]);
                    setShown(joined.key);
                    say(`Put together: ${joined.state.looks.columns} stitches, ${joined.state.looks.rows} rows.`);
                    requestAnimationFrame(() => document.getElementById("cells-title")?.focus());
                  }}
                />
              )}
              {sheets.filter((sheet) => !hasChart(sheet)).map(wordsOf)}
              {chart && <ChartCheck reading={reading} chart={chart} say={say} />}
              {sheets.filter(hasChart).map(wordsOf)}
            </>
          )}
          {handSheet && !choosing && (
            <button type="button" className="button reading-back" onClick={() => setByHand(null)}>
              Leave the grid by hand
            </button>
          )}
        </div>
      )}
    </section>
  );
}

interface SourceListProps {
  readonly reading: Reading;
  readonly onFiles: (files: readonly File[]) => void;
}

function SourceList({ reading, onFiles }: SourceListProps): ReactNode {
  return (
    <ul className="source-list" aria-label="Files">
      {reading.sources.map(({ id, file, pages, state }) => (
        <li key={id}>
          <span className="source-name">{file.name}</span>
          {pages > 1 && state === "opened" && (
            <button type="button" className="button" onClick={() => reading.choosePages(id)}>
              Other pages
            </button>
          )}
          <button
            type="button"
            className="tool"
            aria-label={`Take ${file.name} away`}
            onClick={() => reading.remove(id)}
          >
            <svg width="14" height="14" viewBox="0 0 16 16" aria-hidden="true">
              <path d="M3 3 13 13M13 3 3 13" stroke="currentColor" strokeWidth="1.7" strokeLinecap="round" />
            </svg>
          </button>
        </li>
      ))}
      <li>
        <ChartFilesButton words="More files" onFiles={onFiles} />
      </li>
    </ul>
  );
}

interface UndoButtonProps {
  readonly direction: "undo" | "redo";
  readonly step: string | undefined;
  readonly onPress: () => void;
}

function UndoButton({ direction, step, onPress }: UndoButtonProps): ReactNode {
  const word = direction === "undo" ? "Undo" : "Redo";
  const words = step === undefined ? `Nothing to ${direction} on the chart` : `${word} on the chart: ${step}`;
  return (
    <button
      type="button"
      className="tool"
      disabled={step === undefined}
      title={words}
      aria-label={words}
      onClick={onPress}
    >
      <Icon name={direction} />
    </button>
  );
}

const STAGES: Readonly<Record<Progress["stage"], string>> = { opening: "Opening", reading: "Reading" };

/** What is being done, how far it has come, and the way to stop it. */
function ProgressLine({ reading }: { readonly reading: Reading }): ReactNode {
  const { progress, isStopped } = reading;
  const line = useRef<HTMLDivElement>(null);
  const act = (how: () => void) => () => {
    how();
    line.current?.focus();
  };
  const words = progress ? `${STAGES[progress.stage]} ${progress.words}…` : isStopped ? "Stopped." : "";
  return (
    <div ref={line} tabIndex={-1} className="read-progress" data-busy={progress !== null || isStopped}>
      <p role="status">{words}</p>
      {progress && (
        <>
          <progress max={1} value={progress.share} aria-label={words} />
          <button type="button" className="button" onClick={act(reading.stop)}>
            Stop
          </button>
        </>
      )}
      {isStopped && (
        <button type="button" className="button" onClick={act(reading.goOn)}>
          Go on
        </button>
      )}
    </div>
  );
}

function Refused({ title, sentences }: { readonly title: string; readonly sentences: readonly string[] }): ReactNode {
  return (
    <div role="alert" className="photo-refused">
      <h3>{title}</h3>
      {sentences.map((sentence) => (
        <p key={sentence}>{sentence}</p>
      ))}
    </div>
  );
}

interface SheetWordsProps {
  readonly sheet: SheetInHand;
  readonly hasChart: boolean;
  readonly onByHand: () => void;
}

/** What is to be known of a sheet: why it has no chart, and the other way on; or what is doubtful of it. */
function SheetWords({ sheet, hasChart, onByHand }: SheetWordsProps): ReactNode {
  const { state, told } = sheet;
  if (state === "waiting") return null;
  if (state === "refused") return <Refused title={`${sheetName(sheet)} was not opened`} sentences={told} />;
  if (!hasChart)
    return (
      <div role="alert" className="photo-refused">
        <h3>No chart was found in {sheetName(sheet)}</h3>
        {told.map((sentence) => (
          <p key={sentence}>{sentence}</p>
        ))}
        <p>If there is one, show where: its four corners, and how many stitches and rows lie between them.</p>
        <div>
          <button type="button" className="button strong" onClick={onByHand}>
            Lay the grid by hand
          </button>
        </div>
      </div>
    );
  return (
    <details className="sheet-words">
      <summary>
        {sheetName(sheet)}: {told.length === 0 ? "read without a remark" : countWords(told.length, "remark")}
      </summary>
      {told.map((sentence) => (
        <p key={sentence}>{sentence}</p>
      ))}
      <p>
        Another chart on it, or none of those found is right?{" "}
        <button type="button" className="button" onClick={onByHand}>
          Lay a grid by hand
        </button>
      </p>
    </details>
  );
}

/** When the last file is read, what came of it is said once. */
function useToldWhenRead({ sources, sheets, charts }: Reading, say: (sentence: string) => void): void {
  const isBusy = [...sources, ...sheets].some(({ state }) => state === "waiting");
  const was = useRef(isBusy);
  useEffect(() => {
    if (was.current && !isBusy && sheets.length > 0) {
      const words = charts.map(({ state: { looks } }) => `${looks.columns} by ${looks.rows}`).join(", ");
      say(charts.length === 0 ? "No chart was found." : `${countWords(charts.length, "chart")} found: ${words}.`);
    }
    was.current = isBusy;
  }, [isBusy, sheets.length, charts, say]);
}

/** The browser asks before a page with her corrections is closed. */
function useLeaveGuard(hasWork: boolean): void {
  useEffect(() => {
    if (!hasWork) return;
    const onLeave = (event: BeforeUnloadEvent) => event.preventDefault();
    addEventListener("beforeunload", onLeave);
    return () => removeEventListener("beforeunload", onLeave);
  }, [hasWork]);
}

/** In a text field the keys take back typing, as they do everywhere. */
function isTyping(target: EventTarget | null): boolean {
  return (
    (target instanceof HTMLInputElement && !["range", "radio", "checkbox", "button", "file"].includes(target.type)) ||
    target instanceof HTMLTextAreaElement
  );
}
