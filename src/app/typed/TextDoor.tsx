/** The door to charts in text: pasted, typed or opened, read while it is written, and taken on. */
import { useDeferredValue, useEffect, useId, useMemo, useRef, useState, type ReactNode } from "react";
import type { Problem } from "../../base/problem.ts";
import { readChartText } from "../../intake/chartText.ts";
import { joinCharts } from "../../intake/joinCharts.ts";
import type { ReadCharts } from "../../intake/readChart.ts";
import { textOfTable } from "../../intake/tableText.ts";
import type { AcceptDraft } from "../reading/accepting.ts";
import { AcceptChart } from "../reading/AcceptChart.tsx";
import { countWords, onwardWords } from "../reading/words.ts";
import { useBench } from "../shell/bench.ts";
import "../style/typed.css";
import { DoorHead } from "../ui/DoorHead.tsx";
import { FileInput } from "../ui/FileInput.tsx";
import { useDrop } from "../ui/useDrop.ts";
import { TextForms } from "./TextForms.tsx";
import { TextProblems } from "./TextProblems.tsx";
import { TypedCharts } from "./TypedCharts.tsx";

const NOTHING: ReadCharts = { charts: [], problems: [] };

/** What was written when she looked at something else: it waits for her as long as the page is open. */
let left = "";

export function TextDoor({ onClose }: { readonly onClose: () => void }): ReactNode {
  const { say } = useBench();
  const heading = useRef<HTMLHeadingElement>(null);
  const field = useRef<HTMLTextAreaElement>(null);
  const picker = useRef<HTMLInputElement>(null);
  const id = useId();
  const [text, setText] = useState(left);
  useEffect(() => void (left = text), [text]);
  /** What was wrong with a file's letters. */
  const [lost, setLost] = useState<readonly Problem[]>([]);
  const [unwanted, setUnwanted] = useState<ReadonlySet<number>>(new Set());
  const [isTogether, setTogether] = useState(false);
  const [isAccepting, setAccepting] = useState(false);
  const draft = useRef<AcceptDraft | null>(null);
  const steady = useDeferredValue(text);
  const read = useMemo(() => (steady.trim() === "" ? NOTHING : readChartText(steady)), [steady]);
  const taken = useMemo(() => read.charts.filter((_, at) => !unwanted.has(at)), [read, unwanted]);
  const joined = useMemo(() => (taken.length > 1 ? joinCharts(taken) : null), [taken]);
  const charts = useMemo(() => (isTogether && joined ? [joined.chart] : taken), [isTogether, joined, taken]);
  useEffect(() => heading.current?.focus(), []);

  const write = (next: string): void => {
    setText(next);
    setUnwanted(new Set());
    setTogether(false);
  };
  /** In place of what is there, as if it were typed: the browser's own way back gives that again. */
  const replace = (next: string): void => {
    const area = field.current;
    if (!area || next === area.value) return;
    area.focus();
    area.select();
    const isTyped = next === "" ? document.execCommand("delete") : document.execCommand("insertText", false, next);
    if (!isTyped) write(next);
    area.setSelectionRange(0, 0);
    area.scrollTop = 0;
  };
  const open = async (file: File): Promise<void> => {
    const { value, problems } = textOfTable(new Uint8Array(await file.arrayBuffer()));
    say(value ? `${file.name} is opened.` : `${file.name} is no text.`);
    if (value) replace(value.text);
    setLost(problems);
  };
  const drop = useDrop((dropped) => {
    const [file] = dropped.files;
    if (file) void open(file);
    else if (dropped.getData("text/plain") !== "") replace(dropped.getData("text/plain"));
  });
  const goOn = (): void => {
    if (charts.length > 0) setAccepting(true);
  };
  const backToText = (): void => {
    setAccepting(false);
    requestAnimationFrame(() => field.current?.focus());
  };
  const showLine = (line: number): void => {
    const area = field.current;
    if (!area) return;
    const [from, to] = lineAt(text, line);
    area.focus();
    area.setSelectionRange(from, to);
    area.scrollTop = Math.max(0, (line - 3) * parseFloat(getComputedStyle(area).lineHeight));
  };

  return (
    <main className="typed" aria-labelledby={`${id}-title`} {...(isAccepting ? {} : drop)}>
      <DoorHead
        id={`${id}-title`}
        title={isAccepting ? onwardWords(charts.length) : "A chart from text"}
        back={isAccepting ? "Back to the text" : "Back to the pattern"}
        heading={heading}
        onClose={isAccepting ? backToText : onClose}
      />
      {isAccepting ? (
        <AcceptChart
          charts={charts}
          draft={draft}
          onDone={() => {
            left = "";
            onClose();
          }}
        />
      ) : (
        <div className="typed-work">
          <section className="typed-text">
            <label htmlFor={id}>The chart as text</label>
            <textarea
              id={id}
              ref={field}
              className="field"
              rows={14}
              spellCheck={false}
              autoCapitalize="off"
              autoCorrect="off"
              wrap="off"
              value={text}
              placeholder={"Rnd 2: k all MC\nRnd 1: *k3 MC, k1 CC; rep from * to end\nMC: cream\nCC = #3b4a63"}
              onChange={(event) => {
                setLost([]);
                write(event.target.value);
              }}
              onKeyDown={(event) => {
                if (event.key !== "Enter" || !(event.ctrlKey || event.metaKey)) return;
                event.preventDefault();
                goOn();
              }}
            />
            <div className="typed-acts">
              <button type="button" className="button" onClick={() => picker.current?.click()}>
                Open a file
              </button>
              <FileInput
                picker={picker}
                name="Chart as text"
                accept=".txt,.csv,.tsv,.tab,.md,text/*"
                onFile={(file) => void open(file)}
              />
              {text !== "" && (
                <button
                  type="button"
                  className="button"
                  onClick={() => {
                    setLost([]);
                    replace("");
                  }}
                >
                  Empty it
                </button>
              )}
            </div>
            <TextForms />
          </section>
          <section className="typed-read" aria-label="What is read" data-waiting={steady !== text}>
            <p className="typed-status" role="status">
              {statusWords(read, text)}
            </p>
            <TypedCharts
              charts={read.charts}
              left={unwanted}
              onTake={(at, isTaken) => {
                setTogether(false);
                setUnwanted((now) => new Set(isTaken ? [...now].filter((one) => one !== at) : [...now, at]));
              }}
            />
            {joined && (
              <label className="typed-together">
                <input type="checkbox" checked={isTogether} onChange={(event) => setTogether(event.target.checked)} />
                <span>
                  They look like parts of one chart of {joined.chart.rows[0]!.length} × {joined.chart.rows.length}: put
                  them together
                </span>
              </label>
            )}
            {read.charts.length > 0 && (
              <button type="button" className="button strong" disabled={charts.length === 0} onClick={goOn}>
                {onwardWords(charts.length)}
              </button>
            )}
            <TextProblems
              problems={[...lost, ...read.problems, ...(isTogether && joined ? joined.problems : [])]}
              onLine={showLine}
            />
          </section>
        </div>
      )}
    </main>
  );
}

function statusWords({ charts }: ReadCharts, text: string): string {
  if (text.trim() === "") return "Nothing is written yet.";
  if (charts.length === 0) return "No chart is read from this.";
  return charts.length === 1 ? "One chart is read." : `${countWords(charts.length, "chart")} are read.`;
}

/** Where a line begins and ends among the characters. */
function lineAt(text: string, line: number): [number, number] {
  const lines = text.split("\n");
  const from = lines.slice(0, line - 1).reduce((sum, one) => sum + one.length + 1, 0);
  return [from, from + (lines[line - 1]?.length ?? 0)];
}
