/** The door to charts on pictures, pages and drawings: chosen, read, held against their picture, put right, and taken on. */
import { useCallback, useEffect, useMemo, useRef, useState, type ReactNode } from "react";
import { useBench } from "../shell/bench.ts";
import { DoorHead } from "../ui/DoorHead.tsx";
import { Icon } from "../ui/Icon.tsx";
import { Refused } from "../ui/Refused.tsx";
import { useFilesIn } from "../ui/useFilesIn.ts";
import { WorkLine } from "../ui/WorkLine.tsx";
import "../style/reading.css";
import type { AcceptDraft } from "./accepting.ts";
import { AcceptChart } from "./AcceptChart.tsx";
import { ByHand } from "./ByHand.tsx";
import { ChartCheck } from "./ChartCheck.tsx";
import { ChartList } from "./ChartList.tsx";
import { JoinPanel } from "./JoinPanel.tsx";
import { readyCharts } from "./joining.ts";
import { apart } from "./parts.ts";
import { PageChoice } from "./PageChoice.tsx";
import { ReadChoice } from "./ReadChoice.tsx";
import { changed, sheetName, type ChartInHand, type SheetInHand } from "./reading.ts";
import { SheetWaiting } from "./SheetWaiting.tsx";
import { SheetWords } from "./SheetWords.tsx";
import { SourceList } from "./SourceList.tsx";
import { useReading, type Progress, type Reading } from "./useReading.ts";
import { countWords, onwardWords } from "./words.ts";

export function ChartDoor({ onClose }: { readonly onClose: () => void }): ReactNode {
  const { say } = useBench();
  const reading = useReading();
  const { sources, sheets, charts, history } = reading;
  const heading = useRef<HTMLHeadingElement>(null);
  const work = useRef<HTMLDivElement>(null);
  const [shown, setShown] = useState<string | null>(null);
  const [byHand, setByHand] = useState<string | null>(null);
  const [isAccepting, setAccepting] = useState(false);
  const draft = useRef<AcceptDraft | null>(null);
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
  const drop = useFilesIn(add);

  const choosing = sources.find(({ state }) => state === "choosing") ?? null;
  const waiting = sheets.find(({ state }) => state === "waiting") ?? null;
  const handSheet = sheets.find(({ key }) => key === byHand) ?? null;
  const chart = charts.find(({ key }) => key === shown) ?? charts[0] ?? null;
  const taken = useMemo(() => charts.filter(({ isTaken }) => isTaken), [charts]);
  const ready = useMemo(() => (isAccepting ? readyCharts(taken) : []), [isAccepting, taken]);
  useToldWhenRead(reading, say);
  const chartsOn = ({ key }: SheetInHand): ChartInHand[] =>
    charts.filter(({ parts }) => parts.some(({ sheet }) => sheet === key));
  const hasChart = (sheet: SheetInHand): boolean => chartsOn(sheet).length > 0;
  const wordsOf = (sheet: SheetInHand): ReactNode => (
    <SheetWords
      key={sheet.key}
      sheet={sheet}
      charts={chartsOn(sheet)}
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
          title={onwardWords(taken.length)}
          back={taken.length === 1 ? "Back to the chart" : "Back to the charts"}
          heading={heading}
          onClose={() => setAccepting(false)}
        />
        <AcceptChart
          charts={ready}
          draft={draft}
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
                {onwardWords(taken.length)}
              </button>
            )}
          </div>
          <WorkLine
            work={reading.progress && workOf(reading.progress)}
            isTimed
            isStopped={reading.isStopped}
            onStop={reading.stop}
            onGoOn={reading.goOn}
          />
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
              {taken.length > 1 && !reading.progress && (
                <JoinPanel
                  charts={taken}
                  sheets={sheets}
                  onJoin={(joined) => {
                    const parts = new Set(taken.map(({ key }) => key));
                    reading.act("put together", (all) => [...all.filter(({ key }) => !parts.has(key)), joined]);
                    setShown(joined.key);
                    say(`Put together: ${joined.state.looks.columns} stitches, ${joined.state.looks.rows} rows.`);
                    requestAnimationFrame(() => document.getElementById("cells-title")?.focus());
                  }}
                />
              )}
              {reading.progress && charts.length === 0 && waiting && (
                <SheetWaiting file={waiting.file} name={sheetName(waiting)} />
              )}
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
              {sheets.filter((sheet) => !hasChart(sheet)).map(wordsOf)}
              {chart && (
                <ChartCheck
                  reading={reading}
                  chart={chart}
                  say={say}
                  onApart={(whole) => {
                    const pieces = apart(whole);
                    reading.act("taken apart", (all) => all.flatMap((one) => (one.key === whole.key ? pieces : [one])));
                    setShown(pieces[0]!.key);
                    say(`Taken apart: ${countWords(pieces.length, "chart")}.`);
                    requestAnimationFrame(() => work.current?.focus());
                  }}
                />
              )}
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

const workOf = ({ stage, words, share }: Progress): { readonly words: string; readonly share: number } => ({
  words: `${STAGES[stage]} ${words}…`,
  share,
});

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
