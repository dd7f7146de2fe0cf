/** The files in hand and the work on them: opened, their pages chosen, read one after the other; every act on the charts is a step back. */
import { useCallback, useEffect, useMemo, useRef, useState } from "react";
import { problemSentence } from "../../base/problem.ts";
import type { CellsRead } from "../../intake/cellLooks.ts";
import { A_KEY } from "../../intake/chartPage.ts";
import { brokenSentence } from "../worker/answers.ts";
import type { ChartDesk } from "../worker/chartClient.ts";
import { chartDesk } from "../worker/chartClient.ts";
import type { ChartStage, LaidGrid, LayOptions, OnChartStage } from "../worker/chartApi.ts";
import { Stopped } from "../worker/client.ts";
import { acted, alongside, begun, redone, undone, type History } from "./history.ts";
import { chartsOf, sheetOf, type ChartInHand, type SheetInHand, type SourceInHand } from "./reading.ts";

export interface Progress {
  readonly words: string;
  readonly stage: ChartStage;
  /** 0 to 1 of this stage. */
  readonly share: number;
}

export interface Reading {
  readonly sources: readonly SourceInHand[];
  readonly sheets: readonly SheetInHand[];
  readonly charts: readonly ChartInHand[];
  readonly history: History<readonly ChartInHand[]>;
  readonly desk: ChartDesk;
  /** null while nothing is being done. */
  readonly progress: Progress | null;
  /** She stopped it, and there is more to do. */
  readonly isStopped: boolean;
  readonly add: (files: readonly File[]) => void;
  /** The file goes, with its pages and their charts. */
  readonly remove: (source: string) => void;
  readonly readPages: (source: string, pages: readonly number[]) => void;
  readonly choosePages: (source: string) => void;
  /** One step back. `null` from `how` is no step. */
  readonly act: (name: string, how: (charts: readonly ChartInHand[]) => readonly ChartInHand[]) => void;
  readonly travel: (direction: "undo" | "redo") => string | null;
  /** Cells of a grid she laid; null where it was stopped or cannot be, and why was told. */
  readonly lay: (
    sheet: SheetInHand,
    grid: LaidGrid,
    options: LayOptions,
  ) => Promise<{ readonly value: CellsRead | null; readonly told: readonly string[] } | null>;
  readonly stop: () => void;
  readonly goOn: () => void;
  readonly clear: () => void;
}

interface InHand {
  readonly sources: readonly SourceInHand[];
  readonly sheets: readonly SheetInHand[];
  readonly history: History<readonly ChartInHand[]>;
}
const NOTHING: InHand = { sources: [], sheets: [], history: begun<readonly ChartInHand[]>([]) };

/** What was in hand when she looked at something else: an hour of corrections is not lost by a press on the way back. */
let left: InHand = NOTHING;

type Task =
  { readonly kind: "open"; readonly source: SourceInHand } | { readonly kind: "read"; readonly sheet: SheetInHand };

function nextTask({ sources, sheets }: InHand): Task | null {
  const source = sources.find(({ state }) => state === "waiting");
  if (source) return { kind: "open", source };
  const sheet = sheets.find(({ state }) => state === "waiting");
  return sheet ? { kind: "read", sheet } : null;
}

let last = 0;

export function useReading(): Reading {
  const [inHand, setInHand] = useState(left);
  const [progress, setProgress] = useState<Progress | null>(null);
  const [isStopped, setStopped] = useState(false);
  const [desk] = useState(chartDesk);
  const [runs, setRuns] = useState(0);
  const now = useRef(inHand);
  const running = useRef<Task | null>(null);

  /** Worked out on what is there by then, and there at once for whoever asks next. */
  const change = useCallback((how: (inHand: InHand) => InHand) => {
    now.current = how(now.current);
    setInHand(now.current);
  }, []);
  const changeSource = useCallback(
    (id: string, fields: Partial<SourceInHand>) =>
      change((all) => ({
        ...all,
        sources: all.sources.map((source) => (source.id === id ? { ...source, ...fields } : source)),
      })),
    [change],
  );
  const changeSheet = useCallback(
    (key: string, fields: Partial<SheetInHand>) =>
      change((all) => ({
        ...all,
        sheets: all.sheets.map((sheet) => (sheet.key === key ? { ...sheet, ...fields } : sheet)),
      })),
    [change],
  );

  const perform = useCallback(
    async (task: Task) => {
      const hear =
        (words: string): OnChartStage =>
        (stage, share) =>
          void (running.current === task && setProgress({ words, stage, share }));
      if (task.kind === "open") {
        const { source } = task;
        hear(source.file.name)("opening", 0);
        const { value, problems } = await desk.pages(source);
        const told = problems.map(problemSentence);
        if (!value) return changeSource(source.id, { state: "refused", told });
        const opened: SourceInHand = { ...source, pages: value.pages, told };
        change((all) => ({
          ...all,
          sources: all.sources.map((one) =>
            one.id === source.id ? { ...opened, state: value.pages > 1 ? "choosing" : "opened" } : one,
          ),
          sheets: value.pages > 1 ? all.sheets : [...all.sheets, sheetOf(opened, 1)],
        }));
        return;
      }
      const { sheet } = task;
      const { value, problems } = await desk.read(
        { id: sheet.source, file: sheet.file, page: sheet.page },
        {},
        hear(sheet.hasPages ? `page ${sheet.page}` : sheet.file.name),
      );
      if (!value) return changeSheet(sheet.key, { state: "refused", told: problems.map(problemSentence) });
      const { preview, width, height } = value;
      const all = [...problems, ...value.problems];
      const told = all.filter(({ expected }) => expected !== A_KEY).map(problemSentence);
      const keyless = all.filter(({ expected }) => expected === A_KEY).map(problemSentence);
      const found = chartsOf(sheet, value);
      change((all) => ({
        ...all,
        sheets: all.sheets.map((one) =>
          one.key === sheet.key ? { ...one, state: "read", preview, width, height, told, keyless } : one,
        ),
        history: alongside(all.history, (charts) => [...charts, ...found]),
      }));
    },
    [desk, change, changeSource, changeSheet],
  );

  useEffect(() => {
    if (isStopped || running.current) return;
    const task = nextTask(inHand);
    if (!task) return setProgress(null);
    running.current = task;
    perform(task)
      .catch((reason: unknown) => {
        if (reason instanceof Stopped) return;
        const told = [brokenSentence(reason)];
        if (task.kind === "open") changeSource(task.source.id, { state: "refused", told });
        else changeSheet(task.sheet.key, { state: "refused", told });
      })
      .finally(() => {
        if (running.current === task) running.current = null;
        setRuns((count) => count + 1);
      });
  }, [inHand, isStopped, runs, perform, changeSource, changeSheet]);

  // With the page the worker goes and all that it holds open; what she has done so far waits for her.
  useEffect(
    () => () => {
      running.current = null;
      desk.stop();
      left = now.current;
    },
    [desk],
  );

  const acts = useMemo(
    () => ({
      add: (files: readonly File[]) => {
        setStopped(false);
        const sources = files.map((file): SourceInHand => ({
          id: `file ${++last}`,
          file,
          state: "waiting",
          pages: 0,
          told: [],
        }));
        change((all) => ({ ...all, sources: [...all.sources, ...sources] }));
      },
      remove: (id: string) => {
        const task = running.current;
        if (task && (task.kind === "open" ? task.source.id : task.sheet.source) === id) desk.stop();
        else desk.letGo(id);
        change((all) => {
          const gone = new Set(all.sheets.filter(({ source }) => source === id).map(({ key }) => key));
          return {
            sources: all.sources.filter((source) => source.id !== id),
            sheets: all.sheets.filter(({ key }) => !gone.has(key)),
            history: alongside(all.history, (charts) =>
              charts.filter(({ parts }) => !parts.some(({ sheet }) => gone.has(sheet))),
            ),
          };
        });
      },
      readPages: (id: string, pages: readonly number[]) => {
        setStopped(false);
        change((all) => {
          const source = all.sources.find((one) => one.id === id);
          if (!source) return all;
          const known = new Set(all.sheets.filter((sheet) => sheet.source === id).map(({ page }) => page));
          const more = pages.filter((page) => !known.has(page)).map((page) => sheetOf(source, page));
          return {
            ...all,
            sources: all.sources.map((one) => (one.id === id ? { ...one, state: "opened" } : one)),
            sheets: [...all.sheets, ...more],
          };
        });
      },
      choosePages: (id: string) => changeSource(id, { state: "choosing" }),
      act: (name: string, how: (charts: readonly ChartInHand[]) => readonly ChartInHand[]) =>
        change((all) => ({ ...all, history: acted(all.history, name, how(all.history.now)) })),
      travel: (direction: "undo" | "redo") => {
        const { history } = now.current;
        const step = (direction === "undo" ? history.past : history.future).at(-1);
        if (!step) return null;
        change((all) => ({ ...all, history: direction === "undo" ? undone(all.history) : redone(all.history) }));
        return step.name;
      },
      lay: async (sheet: SheetInHand, grid: LaidGrid, options: LayOptions) => {
        const asked = { id: sheet.source, file: sheet.file, page: sheet.page };
        const hear: OnChartStage = (stage, share) => setProgress({ words: "the grid", stage, share });
        try {
          const { value, problems } = await desk.lay(asked, grid, options, hear);
          return { value, told: problems.map(problemSentence) };
        } catch (reason) {
          return reason instanceof Stopped ? null : { value: null, told: [brokenSentence(reason)] };
        } finally {
          setProgress(null);
        }
      },
      stop: () => {
        running.current = null;
        setStopped(true);
        setProgress(null);
        desk.stop();
      },
      goOn: () => setStopped(false),
      clear: () => {
        desk.stop();
        running.current = null;
        change(() => NOTHING);
      },
    }),
    [desk, change, changeSource],
  );
  return {
    ...inHand,
    charts: inHand.history.now,
    desk,
    progress,
    isStopped: isStopped && nextTask(inHand) !== null,
    ...acts,
  };
}
