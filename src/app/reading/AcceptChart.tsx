/** What becomes of charts that were read: named, coloured, and taken into this pattern or into a new project. */
import { useEffect, useMemo, useRef, useState, type ReactNode, type RefObject } from "react";
import { problemSentence } from "../../base/problem.ts";
import { hexFromLab } from "../../colour/lab.ts";
import { labOfShade } from "../../colour/shade.ts";
import type { ReadChart, ReadColour } from "../../intake/readChart.ts";
import { useBench } from "../shell/bench.ts";
import { useShelf } from "../stash/useShelf.ts";
import { Choice } from "../wishes/controls.tsx";
import "../style/reading.css";
import {
  begunProject,
  comingColours,
  edits,
  matchedColours,
  withHerWord,
  type AcceptDraft,
  type ComingChart,
  type ComingColour,
} from "./accepting.ts";
import { ChartThumb } from "./ChartThumb.tsx";
import { ColourRow } from "./ColourRow.tsx";
import { countWords, sizeWords } from "./words.ts";

interface AcceptChartProps {
  readonly charts: readonly ReadChart[];
  /** Kept by the door, so that her names are there again when she comes back from a look at the chart. */
  readonly draft: RefObject<AcceptDraft | null>;
  readonly onDone: () => void;
}

/** CSS pixels of the longer side. */
const PICTURE = 220;

type Into = AcceptDraft["into"];

export function AcceptChart({ charts, draft, onDone }: AcceptChartProps): ReactNode {
  const { project, commit, store, look, tell, say, note } = useBench();
  const { shelf } = useShelf();
  const first = useRef<HTMLInputElement>(null);
  const [before] = useState(draft.current);
  const read = useMemo(() => comingColours(charts), [charts]);
  const [coming, setComing] = useState(() => withHerWord(read, before));
  const [named, setNamed] = useState<readonly ComingChart[]>(() =>
    charts.map(({ name, rows }, at) => {
      const { name: hers, worked = "round" } = (before?.named.length === charts.length && before.named[at]) || {};
      return { name: hers ?? name ?? `chart ${at + 1}`, worked, rows };
    }),
  );
  const [into, setInto] = useState<Into>(before?.into ?? "project");
  const [projectName, setProjectName] = useState(() => before?.projectName ?? charts[0]?.name ?? "chart");
  const found = useMemo(
    () => (project ? matchedColours(coming, project.pattern.colours) : new Map<string, string>()),
    [coming, project],
  );
  /** Her own word: a colour of the pattern, or "" for a new one. */
  const [said, setSaid] = useState<ReadonlyMap<string, string>>(() => before?.said ?? new Map());
  useEffect(() => {
    const colours = new Map(read.map(({ key, colour }, at) => [key, { read: colour, hers: coming[at]!.colour }]));
    draft.current = { named, into, projectName, colours, said };
  }, [draft, read, coming, named, into, projectName, said]);
  // Typed at once, another name takes the place of the one that was read.
  useEffect(() => first.current?.select(), []);
  const matched = useMemo(() => {
    const all = new Map([...found, ...said]);
    return new Map([...all].filter(([, id]) => id !== ""));
  }, [found, said]);
  const twice = [...matched.values()].find((id, at, all) => all.indexOf(id) !== at);
  const shaded = useMemo(() => charts.map((_, at) => coloursIn(coming, at)), [charts, coming]);
  const unknown = coming.filter(({ colour }) => colour.assumed && colour.uncertainty === undefined);
  const laid = shelf.yarns.length;

  const change = (at: number, part: Partial<ComingChart>): void =>
    setNamed((now) => now.map((one, index) => (index === at ? { ...one, ...part } : one)));
  const take = (): void => {
    const named0 = named.map((one, at) => ({ ...one, name: one.name.trim() || `chart ${at + 1}` }));
    if (into === "pattern") {
      if (!project) return;
      const made = edits(project, named0, coming, matched);
      const words = named0.length === 1 ? `the chart ${named0[0]!.name} added` : `${named0.length} charts added`;
      if (!commit(made.edits, words)) return;
      look({ chart: made.charts[0] ?? null });
      return onDone();
    }
    const name = projectName.trim() || named0[0]!.name;
    const { value, problems } = begunProject(name, named0, coming, shelf.yarns);
    if (!value) return tell({ title: "No project could be begun", sentences: problems.map(problemSentence) });
    store.replace(value, { name: `beginning ${name}`, colourway: null });
    look({ colourway: value.colourways[0]?.id ?? null, chart: null, panel: "fabric", stage: "bench" });
    note.set(false);
    say(`${name} is begun. Undo brings back what was on the bench.`);
    onDone();
  };

  return (
    <form
      className="accept"
      onSubmit={(event) => {
        event.preventDefault();
        take();
      }}
    >
      <section className="accept-charts" aria-label="Charts">
        {named.map((chart, at) => (
          <div
            key={at}
            className="accept-chart"
            role="group"
            aria-label={named.length > 1 ? `Chart ${at + 1} of ${named.length}` : "The chart"}
          >
            <div className="accept-chart-words">
              <p>{sizeWords(chart.rows[0]?.length ?? 0, chart.rows.length)}</p>
              <label>
                <span>Name</span>
                <input
                  ref={at === 0 ? first : undefined}
                  className="field"
                  value={chart.name}
                  maxLength={120}
                  aria-label={named.length > 1 ? `Name of chart ${at + 1}` : "Name of the chart"}
                  onChange={(event) => {
                    change(at, { name: event.target.value });
                    if (at === 0 && projectName === chart.name) setProjectName(event.target.value);
                  }}
                />
              </label>
              <Choice
                legend="Worked"
                value={chart.worked}
                options={[
                  ["round", "in the round"],
                  ["flat", "flat"],
                ]}
                onChoose={(worked) => change(at, { worked })}
              />
            </div>
            <ChartThumb rows={chart.rows} colours={shaded[at]!} side={PICTURE} />
          </div>
        ))}
      </section>
      <section className="accept-end" aria-label="What becomes of it">
        <Choice
          legend="It goes"
          value={into}
          options={[
            ["project", "into a new project"],
            ["pattern", "into this pattern"],
          ]}
          onChoose={setInto}
        />
        {into === "project" ? (
          <>
            <label className="accept-name">
              <span>Project</span>
              <input
                className="field"
                value={projectName}
                maxLength={120}
                aria-label="Name of the project"
                onChange={(event) => setProjectName(event.target.value)}
              />
            </label>
            <p className="reading-hint">
              {laid === 0
                ? "Your shelf is empty, so the first colourway has no yarns yet."
                : `${countWords(laid, "yarn")} of your shelf ${laid === 1 ? "is" : "are"} laid out; the first colourway takes the nearest in value.`}{" "}
              A gauge of 28 stitches and 30 rows is assumed. What is on the bench now comes back with Undo.
            </p>
          </>
        ) : (
          <p className="reading-hint">
            Colours that the pattern has already are given their letters there; the others come in as new ones.
          </p>
        )}
        {unknown.length > 0 && (
          <p className="reading-hint">
            {unknown.length === 1 ? "One colour has" : `${unknown.length} colours have`} no shade yet: say what it is,
            or what it is called, and its words give an estimate.
          </p>
        )}
        {into === "pattern" && twice !== undefined && (
          <p role="alert" className="reading-wrong">
            Two of the colours are to be {twice}: expected each as another colour of the pattern, or new.
          </p>
        )}
      </section>
      <section className="accept-colours" aria-labelledby="accept-colours-title">
        <h3 id="accept-colours-title">
          Colours <span className="count">{coming.length}</span>
        </h3>
        <ul className="read-colours">
          {coming.map((one) => (
            <ColourRow
              key={one.key}
              id={one.ids.find((id) => id !== null)!}
              colour={one.colour}
              symbol={one.symbol}
              count={one.stitches}
              onChange={(colour) =>
                setComing((now) => now.map((other) => (other.key === one.key ? { ...other, colour } : other)))
              }
              aside={
                into === "pattern" && project ? (
                  <label className="accept-match">
                    <span>in the pattern</span>
                    {matched.has(one.key) && (
                      <span
                        className="swatch small"
                        style={{
                          background: hexFromLab(
                            labOfShade(project.pattern.colours.find(({ id }) => id === matched.get(one.key))!.shade),
                          ),
                        }}
                      />
                    )}
                    <select
                      className="field"
                      aria-label={`${one.colour.name ?? one.key} is in the pattern`}
                      value={matched.get(one.key) ?? ""}
                      onChange={(event) => setSaid((now) => new Map(now).set(one.key, event.target.value))}
                    >
                      <option value="">a new colour</option>
                      {project.pattern.colours.map(({ id, name }) => (
                        <option key={id} value={id}>
                          {name ? `${id}, ${name}` : id}
                        </option>
                      ))}
                    </select>
                  </label>
                ) : null
              }
            />
          ))}
        </ul>
      </section>
      <div className="accept-go">
        <button type="submit" className="button strong" disabled={into === "pattern" && twice !== undefined}>
          {into === "project" ? "Begin the project" : "Add to this pattern"}
        </button>
      </div>
    </form>
  );
}

/** By the letters of one of the charts. */
const coloursIn = (coming: readonly ComingColour[], at: number): Record<string, ReadColour> =>
  Object.fromEntries(coming.flatMap(({ colour, ids }) => (typeof ids[at] === "string" ? [[ids[at], colour]] : [])));
