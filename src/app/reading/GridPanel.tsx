/** The grid put right: its corners on the chart's corners, its rows and columns counted, one more or less at an end. */
import { useEffect, useState, type ReactNode } from "react";
import { COUNTS, CORNER_NAMES, cornerMoved, draftWrong, type GridDraft, type Side } from "./laying.ts";

interface GridPanelProps {
  readonly draft: GridDraft;
  /** Of a chart put together: where the part that is shown lies, how many there are, and the way to have them one by one. */
  readonly part?: { readonly name: string; readonly count: number; readonly onApart: () => void } | null;
  /** Whether the draft is other than what was read. */
  readonly isMoved: boolean;
  /** Whether something was read by a grid at all. */
  readonly isRead: boolean;
  readonly size: { readonly width: number; readonly height: number };
  readonly isBusy: boolean;
  readonly onDraft: (draft: GridDraft) => void;
  readonly onBack: () => void;
  /** `snap`: lines are moved onto what is drawn. */
  readonly onLay: (snap: boolean) => void;
  readonly onLine: (side: Side, by: 1 | -1) => void;
}

const ENDS: readonly { readonly side: Side; readonly one: string; readonly where: string }[] = [
  { side: "top", one: "row", where: "at the top" },
  { side: "bottom", one: "row", where: "at the bottom" },
  { side: "left", one: "column", where: "at the left" },
  { side: "right", one: "column", where: "at the right" },
];

export function GridPanel(props: GridPanelProps): ReactNode {
  const { draft, part = null, isMoved, isRead, size, isBusy, onDraft, onBack, onLay, onLine } = props;
  const wrong = draftWrong(draft);
  return (
    <div className="reading-panel">
      <h3 id="grid-title" tabIndex={-1}>
        {isRead ? "The grid" : "The grid by your hand"}
      </h3>
      {part && (
        <div className="grid-part">
          <p>
            The part on <b>{part.name}</b>, one of {part.count}. The others stay as they are.
          </p>
          <button type="button" className="button" onClick={part.onApart}>
            Take the chart apart
          </button>
        </div>
      )}
      <p className="reading-hint">
        {isRead
          ? "Pull the corners or sides onto the chart’s edges, or choose one with Tab and move it with the arrow keys."
          : "Put the four corners onto the chart’s corners, say how many stitches and rows lie between them, and it is read."}
      </p>
      <div className="grid-counts">
        <CountField
          name="Stitches across"
          value={draft.columns}
          onChange={(columns) => onDraft({ ...draft, columns })}
        />
        <CountField name="Rows" value={draft.rows} onChange={(rows) => onDraft({ ...draft, rows })} />
      </div>
      <fieldset className="grid-corners">
        <legend>Corners, in pixels from the left and from the top</legend>
        {CORNER_NAMES.map((name, corner) => (
          <div key={name} className="grid-corner">
            <span>{name}</span>
            {([0, 1] as const).map((axis) => (
              <input
                key={axis}
                className="field"
                type="number"
                step="any"
                min={0}
                max={axis === 0 ? size.width : size.height}
                aria-label={`${name} corner, from the ${axis === 0 ? "left" : "top"}`}
                value={Number(draft.corners[corner]![axis].toFixed(1))}
                onChange={(event) => {
                  const value = Number(event.target.value);
                  const [x, y] = draft.corners[corner]!;
                  onDraft(cornerMoved(draft, corner, axis === 0 ? [value, y] : [x, value], size));
                }}
              />
            ))}
          </div>
        ))}
      </fieldset>
      {wrong && (
        <p role="alert" className="reading-wrong">
          {wrong}
        </p>
      )}
      <div className="grid-acts">
        <button
          type="button"
          className="button strong"
          disabled={wrong !== null || isBusy || (isRead && !isMoved)}
          onClick={() => onLay(true)}
        >
          {isRead ? "Read it by this grid" : "Read it so"}
        </button>
        <button type="button" className="button" disabled={wrong !== null || isBusy} onClick={() => onLay(false)}>
          Exactly as it lies
        </button>
        {isMoved && isRead && (
          <button type="button" className="button" onClick={onBack}>
            Back as it was
          </button>
        )}
      </div>
      <p className="reading-hint">
        “Read it” first moves the lines onto those that are drawn. What you have put right stays where it was.
      </p>
      {isRead && (
        <fieldset className="grid-ends" disabled={isMoved || isBusy}>
          <legend>A row or column more or less</legend>
          {ENDS.map(({ side, one, where }) => (
            <div key={side} className="grid-end">
              <span>{where}</span>
              <button
                type="button"
                className="tool"
                aria-label={`One ${one} less ${where}`}
                onClick={() => onLine(side, -1)}
              >
                −
              </button>
              <button
                type="button"
                className="tool"
                aria-label={`One ${one} more ${where}`}
                onClick={() => onLine(side, 1)}
              >
                +
              </button>
            </div>
          ))}
        </fieldset>
      )}
    </div>
  );
}

interface CountFieldProps {
  readonly name: string;
  readonly value: number;
  readonly onChange: (value: number) => void;
}

/** What is being typed may be no number yet. */
function CountField({ name, value, onChange }: CountFieldProps): ReactNode {
  const [typed, setTyped] = useState(String(value));
  useEffect(() => setTyped((now) => (Number(now) === value ? now : String(value))), [value]);
  const step = (by: number): void => onChange(Math.max(COUNTS.least, Math.min(COUNTS.most, value + by)));
  return (
    <div className="lay-count">
      <label>
        <span>{name}</span>
        <input
          className="field"
          inputMode="numeric"
          value={typed}
          onChange={(event) => {
            setTyped(event.target.value);
            const next = Number(event.target.value);
            if (event.target.value.trim() !== "" && Number.isInteger(next)) onChange(next);
          }}
          onBlur={() => setTyped(String(value))}
        />
      </label>
      <button type="button" className="tool" aria-label={`${name}: one less`} onClick={() => step(-1)}>
        −
      </button>
      <button type="button" className="tool" aria-label={`${name}: one more`} onClick={() => step(1)}>
        +
      </button>
    </div>
  );
}
