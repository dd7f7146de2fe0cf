/** Charts that look like parts of one: what is proposed, her own word on it, and the act that puts them together. */
import { useMemo, useState, type ReactNode } from "react";
import { problemSentence } from "../../base/problem.ts";
import { joinCharts, joinedBy } from "../../intake/joinCharts.ts";
import { joinedInHand, placesOf, readyCharts } from "./joining.ts";
import { sheetName, type ChartInHand, type Joint, type SheetInHand } from "./reading.ts";
import { countWords, sizeWords } from "./words.ts";

interface JoinPanelProps {
  /** Those that are taken, two at least. */
  readonly charts: readonly ChartInHand[];
  readonly sheets: readonly SheetInHand[];
  readonly onJoin: (joined: ChartInHand) => void;
}

const SIDES: readonly (readonly [Joint["side"], string])[] = [
  ["above", "above"],
  ["below", "below"],
  ["left", "left of"],
  ["right", "right of"],
];

export function JoinPanel({ charts, sheets, onJoin }: JoinPanelProps): ReactNode {
  const proposed = useMemo(() => joinCharts(readyCharts(charts)), [charts]);
  const [own, setOwn] = useState<readonly Joint[] | null>(null);
  const [isOpen, setOpen] = useState(false);
  const joints = useMemo(() => own ?? proposed?.joints ?? inARow(charts.length), [own, proposed, charts.length]);
  const isHers = own !== null || proposed === null;
  const joined = useMemo(() => {
    if (!isHers) return proposed;
    const said = joints.map((joint) => ({ ...joint, sureness: 1 }));
    return isOpen ? joinedBy(readyCharts(charts), said) : null;
  }, [charts, isHers, isOpen, joints, proposed]);
  const sizes = charts.map(({ state }) => ({ columns: state.looks.columns, rows: state.looks.rows }));
  const isWhole = placesOf(sizes, joints) !== null;
  const size = joined && sizeWords(joined.chart.rows[0]?.length ?? 0, joined.chart.rows.length);
  const names = useMemo(() => namesOf(charts, sheets), [charts, sheets]);
  const change = (at: number, part: Partial<Joint>): void =>
    setOwn(joints.map((joint, index) => (index === at ? { ...joint, ...part } : joint)));
  return (
    <section className="join-panel" data-quiet={!proposed && !isOpen} aria-label="Parts of one chart">
      <div className="join-words">
        {(proposed || isOpen) && <JoinWords count={charts.length} isHers={isHers} size={isWhole ? size : null} />}
        <div className="join-acts">
          {(proposed || isOpen) && (
            <button
              type="button"
              className="button strong"
              disabled={!joined || !isWhole}
              onClick={() => joined && onJoin(joinedInHand(charts, joined.chart, joints))}
            >
              Put them together
            </button>
          )}
          <button type="button" className="button" aria-expanded={isOpen} onClick={() => setOpen(!isOpen)}>
            {proposed ? "How they lie" : "These are parts of one chart"}
          </button>
        </div>
      </div>
      {(!isHers || isOpen) &&
        joined?.problems.map(problemSentence).map((sentence) => (
          <p key={sentence} className="reading-hint">
            {sentence}
          </p>
        ))}
      {isOpen && (
        <ul className="joints">
          {joints.map((joint, at) => {
            const name = names[joint.second]!;
            return (
              <li key={at}>
                <span>{name}</span> lies
                <select
                  className="field"
                  aria-label={`${name} lies`}
                  value={joint.side}
                  onChange={(event) => change(at, { side: event.target.value as Joint["side"] })}
                >
                  {SIDES.map(([side, words]) => (
                    <option key={side} value={side}>
                      {words}
                    </option>
                  ))}
                </select>
                <select
                  className="field"
                  aria-label={`${name} lies beside`}
                  value={joint.first}
                  onChange={(event) => change(at, { first: Number(event.target.value) })}
                >
                  {charts.map((chart, index) =>
                    index === joint.second ? null : (
                      <option key={chart.key} value={index}>
                        {names[index]}
                      </option>
                    ),
                  )}
                </select>
                , with
                <input
                  className="field"
                  type="number"
                  min={0}
                  max={Math.max(...sizes.map(({ rows, columns }) => Math.max(rows, columns))) - 1}
                  aria-label={`Rows or columns that ${name} shares`}
                  value={joint.overlap}
                  onChange={(event) => change(at, { overlap: Math.max(0, Math.round(Number(event.target.value))) })}
                />
                {joint.side === "above" || joint.side === "below"
                  ? `${countWords(joint.overlap, "row").replace(/^\d+ /, "")} on both`
                  : `${countWords(joint.overlap, "column").replace(/^\d+ /, "")} on both`}
              </li>
            );
          })}
        </ul>
      )}
    </section>
  );
}

interface JoinWordsProps {
  readonly count: number;
  readonly isHers: boolean;
  /** What comes of it, where something does. */
  readonly size: string | null;
}

function JoinWords({ count, isHers, size }: JoinWordsProps): ReactNode {
  if (!size)
    return (
      <p role="alert">
        Put so, they do not make one chart: expected each to lie beside another and none in two places, found otherwise.
      </p>
    );
  return (
    <p>
      {isHers
        ? "By your word, those that are taken make one chart of "
        : `These ${count} continue each other: together they are one chart of `}
      <b>{size}</b>.
    </p>
  );
}

/** Parts of one chart often have one name: then each is called by the page or picture that it is on. */
function namesOf(charts: readonly ChartInHand[], sheets: readonly SheetInHand[]): string[] {
  const own = charts.map(({ name }) => name);
  const places = charts.map(({ parts }) => sheets.find(({ key }) => key === parts[0]?.sheet));
  const onPages = places.map((sheet) => (sheet ? (sheet.hasPages ? `page ${sheet.page}` : sheetName(sheet)) : ""));
  for (const names of [own, onPages]) if (!names.includes("") && new Set(names).size === names.length) return names;
  return own.map((name, at) => `${at + 1}, ${name}`);
}

/** Where nothing is proposed, she begins with one above the other, as pages follow. */
const inARow = (count: number): Joint[] =>
  Array.from({ length: count - 1 }, (_, at) => ({ first: at, second: at + 1, side: "below", overlap: 0 }));
