/** The corners and sides of a grid as handles on the sheet: pulled by a hand, or moved by arrow keys once they are in focus. */
import { useRef, type KeyboardEvent, type PointerEvent, type ReactNode } from "react";
import type { Point } from "../../intake/chartGrid.ts";
import {
  CORNER_NAMES,
  cornerMoved,
  middleOfSide,
  sideMoved,
  SIDE_CORNERS,
  type GridDraft,
  type Side,
} from "./laying.ts";
import type { Look } from "./sheetDraw.ts";

interface GridHandlesProps {
  readonly draft: GridDraft;
  readonly size: { readonly width: number; readonly height: number };
  readonly look: Look;
  readonly onChange: (draft: GridDraft) => void;
}

const ARROWS: Readonly<Record<string, Point>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, -1],
  ArrowDown: [0, 1],
};
/** Pixels of the sheet by which an arrow key moves with Shift; alone it is one pixel as shown. Our choice. */
const LARGE_STEP = 10;

export function GridHandles({ draft, size, look, onChange }: GridHandlesProps): ReactNode {
  const handles = [
    ...CORNER_NAMES.map((name, corner) => ({
      key: name,
      name: `${name} corner`,
      isSide: false,
      at: draft.corners[corner]!,
      move: (across: number, down: number, from: GridDraft) => {
        const [x, y] = from.corners[corner]!;
        return cornerMoved(from, corner, [x + across, y + down], size);
      },
    })),
    ...(Object.keys(SIDE_CORNERS) as Side[]).map((side) => ({
      key: side,
      name: `${side} side`,
      isSide: true,
      at: middleOfSide(draft, side),
      move: (across: number, down: number, from: GridDraft) => sideMoved(from, side, [across, down], size),
    })),
  ];
  return (
    <>
      {handles.map(({ key, ...handle }) => (
        <Handle key={key} {...handle} draft={draft} look={look} onChange={onChange} />
      ))}
    </>
  );
}

interface HandleProps {
  readonly name: string;
  readonly isSide: boolean;
  readonly at: Point;
  readonly draft: GridDraft;
  readonly look: Look;
  readonly move: (across: number, down: number, from: GridDraft) => GridDraft;
  readonly onChange: (draft: GridDraft) => void;
}

function Handle({ name, isSide, at, draft, look, move, onChange }: HandleProps): ReactNode {
  const hold = useRef<{ readonly x: number; readonly y: number; readonly draft: GridDraft } | null>(null);
  const onKeyDown = (event: KeyboardEvent) => {
    const arrow = ARROWS[event.key];
    if (!arrow || event.ctrlKey || event.metaKey) return;
    event.preventDefault();
    event.stopPropagation();
    const step = event.shiftKey ? LARGE_STEP / look.scale : Math.max(0.25, 1 / look.scale);
    onChange(move(arrow[0] * step, arrow[1] * step, draft));
  };
  const onPointerMove = (event: PointerEvent) => {
    const held = hold.current;
    if (held) onChange(move((event.clientX - held.x) / look.scale, (event.clientY - held.y) / look.scale, held.draft));
  };
  const end = () => (hold.current = null);
  return (
    <button
      type="button"
      className={isSide ? "grid-handle side" : "grid-handle"}
      aria-label={`${name}: ${Math.round(at[0])} from the left, ${Math.round(at[1])} from the top; arrow keys move it`}
      style={{ left: (at[0] - look.x) * look.scale, top: (at[1] - look.y) * look.scale }}
      onKeyDown={onKeyDown}
      onPointerDown={(event) => {
        if (event.button !== 0) return;
        event.stopPropagation();
        event.currentTarget.setPointerCapture(event.pointerId);
        hold.current = { x: event.clientX, y: event.clientY, draft };
      }}
      onPointerMove={onPointerMove}
      onPointerUp={end}
      onPointerCancel={end}
    >
      <span />
    </button>
  );
}
