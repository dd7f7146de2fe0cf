/** Her yarns by amount: a bar in the yarn's own colour for each, what is promised hatched. */
import { useMemo, type ReactNode } from "react";
import { gramsWords, wholeWords } from "../shell/words.ts";
import { useCursorKeys, type Cursor } from "./cursor.ts";
import type { StashLine } from "./lines.ts";
import { yarnPaint } from "./paintBall.ts";
import { useWindowed } from "./useWindowed.ts";
import { lineWords } from "./yarnWords.ts";

export type Measure = "grams" | "metres";

interface AmountViewProps {
  readonly cursor: Cursor;
  readonly all: readonly StashLine[];
  readonly measure: Measure;
}

/** CSS pixels. */
const ROW = 34;

export function AmountView({ cursor, all, measure }: AmountViewProps): ReactNode {
  const { lines, active, chosen } = cursor;
  const at = lines.findIndex(({ id }) => id === active);
  const { box, from, to, onScroll } = useWindowed(lines.length, ROW, { above: 0, show: at });
  const onKeyDown = useCursorKeys(cursor);
  const most = useMemo(() => Math.max(1, ...all.map((line) => line[measure] ?? 0)), [all, measure]);
  const isThere = at >= from && at < to;
  return (
    <div
      ref={box}
      className="windowed bars"
      role="listbox"
      aria-multiselectable="true"
      aria-label={`Your yarns by ${measure}`}
      tabIndex={0}
      {...(isThere && { "aria-activedescendant": `bar-${at}` })}
      onScroll={onScroll}
      onKeyDown={onKeyDown}
      onFocus={() => at < 0 && lines[0] && cursor.onActive(lines[0].id)}
    >
      <div className="windowed-all" role="presentation" style={{ height: lines.length * ROW }}>
        {lines.slice(from, to).map((line, index) => (
          <div
            key={line.id}
            id={`bar-${from + index}`}
            className="bar-row"
            role="option"
            aria-selected={chosen.has(line.id)}
            aria-setsize={lines.length}
            aria-posinset={from + index + 1}
            aria-label={lineWords(line)}
            data-active={line.id === active}
            style={{ top: (from + index) * ROW, height: ROW }}
            onClick={(event) => {
              if (event.ctrlKey || event.metaKey || event.shiftKey) cursor.onChoose(line.id);
              else cursor.onOpen(line.id);
            }}
          >
            <span className="bar-name">{line.yarn.name}</span>
            <Bar line={line} measure={measure} most={most} />
          </div>
        ))}
      </div>
    </div>
  );
}

interface BarProps {
  readonly line: StashLine;
  readonly measure: Measure;
  readonly most: number;
}

function Bar({ line, measure, most }: BarProps): ReactNode {
  const amount = line[measure];
  if (amount === null) return <span className="bar-words">not known</span>;
  const share = line.grams ? Math.min(1, line.promised / line.grams) : 0;
  return (
    <span className="bar-track">
      <span
        className="bar"
        style={{ width: `calc((100% - 74px) * ${amount / most})`, background: yarnPaint(line.yarn, line.hex) }}
      >
        {share > 0 && <span className="bar-promised" style={{ width: `${share * 100}%` }} />}
      </span>
      <span className="bar-words">{measure === "grams" ? gramsWords(amount) : `${wholeWords(amount)}\u202fm`}</span>
      {line.free !== null && line.free < 0 && <strong className="bar-words">short by {gramsWords(-line.free)}</strong>}
    </span>
  );
}
