/** Her yarns as a table that is sorted by a press on a heading, with only those rows on the page that are in view. */
import type { ReactNode } from "react";
import { gramsWords, wholeWords } from "../shell/words.ts";
import { Icon } from "../ui/Icon.tsx";
import { useCursorKeys, type Cursor } from "./cursor.ts";
import type { StashLine } from "./lines.ts";
import type { Column, Order } from "./orders.ts";
import { yarnPaint } from "./paintBall.ts";
import { useWindowed } from "./useWindowed.ts";
import { classesWords, shadeShortWords, weightShortWords } from "./yarnWords.ts";

interface TableViewProps {
  readonly cursor: Cursor;
  readonly order: Order;
  readonly onOrder: (order: Order) => void;
}

/** CSS pixels, as in stash.css. */
const ROW = 36;
const HEAD = 34;

const COLUMNS: readonly {
  readonly by: Column;
  readonly name: string;
  readonly cell: (line: StashLine) => ReactNode;
}[] = [
  { by: "lightness", name: "value", cell: ({ classes }) => classesWords(classes) },
  { by: "grams", name: "grams", cell: ({ grams }) => (grams === null ? "?" : gramsWords(grams)) },
  { by: "metres", name: "metres", cell: ({ metres }) => (metres === null ? "?" : `${wholeWords(metres)}\u202fm`) },
  { by: "free", name: "free", cell: ({ free }) => (free === null ? "?" : gramsWords(free)) },
  { by: "weight", name: "weight", cell: ({ yarn }) => weightShortWords(yarn) },
  { by: "known", name: "shade", cell: ({ yarn }) => shadeShortWords(yarn) },
];

export function TableView({ cursor, order, onOrder }: TableViewProps): ReactNode {
  const { lines, active, chosen } = cursor;
  const at = lines.findIndex(({ id }) => id === active);
  const { box, from, to, onScroll } = useWindowed(lines.length, ROW, { above: HEAD, show: at });
  const onKeyDown = useCursorKeys(cursor);
  // A mark that stands in every line tells nothing.
  const areAllLaidOut = lines.every(({ laidOut }) => laidOut !== null);
  const isThere = at >= from && at < to;
  return (
    <div
      ref={box}
      className="windowed yarn-table"
      role="grid"
      aria-multiselectable="true"
      aria-label="Your yarns as a table"
      aria-rowcount={lines.length + 1}
      tabIndex={0}
      {...(isThere && { "aria-activedescendant": `row-${at}` })}
      onScroll={onScroll}
      onKeyDown={onKeyDown}
      onFocus={(event) => event.target === event.currentTarget && at < 0 && lines[0] && cursor.onActive(lines[0].id)}
    >
      <div className="table-head" role="row" aria-rowindex={1}>
        <Heading by="name" name="name" order={order} onOrder={onOrder} />
        {COLUMNS.map(({ by, name }) => (
          <Heading key={by} by={by} name={name} order={order} onOrder={onOrder} />
        ))}
      </div>
      <div className="windowed-all" role="rowgroup" style={{ height: lines.length * ROW }}>
        {lines.slice(from, to).map((line, index) => (
          <div
            key={line.id}
            id={`row-${from + index}`}
            className="table-row"
            role="row"
            aria-rowindex={from + index + 2}
            aria-selected={chosen.has(line.id)}
            data-active={line.id === active}
            data-short={line.free !== null && line.free < 0}
            style={{ top: (from + index) * ROW, height: ROW }}
            onClick={(event) => {
              const onBox = (event.target as Element).closest(".choose-box");
              if (onBox || event.ctrlKey || event.metaKey || event.shiftKey) cursor.onChoose(line.id);
              else cursor.onOpen(line.id);
            }}
          >
            <span role="rowheader" className="cell-name">
              <span className="choose-box" aria-hidden="true" data-on={chosen.has(line.id)} />
              <span className="swatch round" style={{ background: yarnPaint(line.yarn, line.hex) }} />
              <span className="cell-text">{line.yarn.name}</span>
              {line.laidOut && !areAllLaidOut && (
                <span className="on-bench" title="On the bench">
                  <Icon name="stitch" size={14} />
                  <span className="unseen">, on the bench</span>
                </span>
              )}
            </span>
            {COLUMNS.map(({ by, cell }) => (
              <span key={by} role="gridcell" className={`cell cell-${by}`}>
                {cell(line)}
              </span>
            ))}
          </div>
        ))}
      </div>
    </div>
  );
}

interface HeadingProps {
  readonly by: Column;
  readonly name: string;
  readonly order: Order;
  readonly onOrder: (order: Order) => void;
}

function Heading({ by, name, order, onOrder }: HeadingProps): ReactNode {
  const isOrder = order.by === by;
  const way = isOrder ? (order.turned === isDescending(by) ? "ascending" : "descending") : "none";
  return (
    <span role="columnheader" className={by === "name" ? "cell-name" : `cell cell-${by}`} aria-sort={way}>
      <button type="button" onClick={() => onOrder({ by, turned: isOrder && !order.turned })}>
        {name}
        <svg width="8" height="8" viewBox="0 0 8 8" aria-hidden="true" data-way={way}>
          <path d="M0 2h8L4 7z" fill="currentColor" />
        </svg>
      </button>
    </span>
  );
}

/** Amounts and lightness begin with the most; names and the rest with the first. */
const isDescending = (by: Column): boolean => ["lightness", "grams", "metres", "free"].includes(by);
