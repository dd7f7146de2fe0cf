/** What lies on the desk: the chart, the tool in the hand, what is chosen and what is held; and all that she can do there. */
import { useEffect, useMemo, useRef, useState, type RefObject } from "react";
import { problemSentence } from "../../base/problem.ts";
import { NO_STITCH, rowsOfGrid, type Chart, type Grid } from "../../chart/chart.ts";
import { cellIndex, gridOver, holds, isOn, maskOf, regionOn, sameColour, wholeOf } from "../../chart/draw.ts";
import type { Region, Selection, Stitch } from "../../chart/draw.ts";
import { filled, replaced } from "../../chart/draw/fill.ts";
import { mirrored } from "../../chart/draw/move.ts";
import {
  mirroredAcross,
  mirroredUp,
  pieceOf,
  pieceText,
  readPiece,
  stamped,
  tiled,
  turned,
} from "../../chart/draw/piece.ts";
import type { PatternColour } from "../../fabric/pattern.ts";
import { useBench } from "../shell/bench.ts";
import { capital } from "../shell/words.ts";
import { cellPixels } from "./cellPicture.ts";
import type { DeskPainter } from "./deskPainter.ts";
import {
  actName,
  changedCells,
  chosenWords,
  regionSize,
  regionWords,
  stitchesWords,
  stitchWords,
  valueName,
} from "./deskWords.ts";
import { beginGesture, drawnWith, floodedBy, goOn, selectionBy, type Gesture, type Tool, type Way } from "./gesture.ts";
import { heldBy, isSquare, pieceAt, withHeld, type Held } from "./held.ts";
import { useManner, type Manners } from "./useManner.ts";

export interface Desk {
  readonly chart: Chart;
  readonly grid: Grid;
  readonly colours: readonly PatternColour[];
  readonly pixels: Uint32Array;
  readonly manners: Manners;
  readonly tool: Tool;
  readonly takeTool: (tool: Tool) => void;
  /** The value of the cells that are drawn. */
  readonly value: number;
  readonly takeValue: (value: number) => void;
  /** By its id, which the pattern need not have had until now. */
  readonly takeColour: (id: string) => void;
  readonly cursor: Stitch;
  /** "point": the pointer took it there, and has said so itself. */
  readonly moveCursor: (to: Stitch, way: "go" | "extend" | "point") => void;
  readonly selection: Selection | null;
  readonly choose: (selection: Selection | null) => void;
  readonly chooseAll: () => void;
  readonly chooseColour: () => void;
  readonly held: Held | null;
  /** A hand on the chart: down, on and up; or it is called off. */
  readonly begin: (at: Stitch) => void;
  readonly go: (to: Stitch) => void;
  readonly end: () => void;
  readonly callOff: () => void;
  /** Space or Enter at the cursor. `stays`: the pen stays down until `end`. */
  readonly press: (stays: boolean) => void;
  /** One thing less: what is being drawn, what is held, what is chosen. False where there is nothing. */
  readonly stepBack: () => boolean;
  readonly layDown: () => void;
  readonly pickUp: () => void;
  readonly moveHeld: (rows: number, columns: number) => void;
  readonly copyText: () => string | null;
  readonly paste: (text: string) => void;
  readonly change: (act: "across" | "up" | "right" | "left" | "about") => void;
  readonly fillChosen: (value: number) => void;
  /** No stitch where she has chosen, or where the keys are. */
  readonly takeOut: () => void;
  readonly replace: (from: number, to: number) => void;
  readonly tile: (over: Region) => void;
  /** Any act on the whole chart as one step. */
  readonly keep: (after: Grid, name: string) => boolean;
  readonly tell: (words: string) => void;
}

interface DeskParts {
  readonly chart: Chart;
  readonly painter: RefObject<DeskPainter | null>;
  /** The sentence that is read aloud, and shown. */
  readonly tell: (words: string) => void;
  /** Only shown: the bench reads it aloud itself. */
  readonly note: (words: string) => void;
}

export function useDesk({ chart, painter, tell, note }: DeskParts): Desk {
  const { project, commit } = useBench();
  const { colours } = project!.pattern;
  const idsKey = colours.map(({ id }) => id).join("");
  const grid = useMemo(() => gridOver(chart.rows, [...idsKey]), [chart.rows, idsKey]);
  const shades = JSON.stringify(colours.map(({ shade }) => shade));
  const pixels = useMemo(() => cellPixels([...idsKey], colours), [idsKey, shades]);

  const [tool, setTool] = useState<Tool>("pencil");
  const toolBefore = useRef<Tool>("pencil");
  const [wantedId, setWantedId] = useState(colours[0]?.id ?? "-");
  const value = idsKey.includes(wantedId) ? idsKey.indexOf(wantedId) : NO_STITCH;
  const [wantedCursor, setCursor] = useState<Stitch>([1, 1]);
  const cursor = onGrid(grid, wantedCursor);
  const [wantedSelection, choose] = useState<Selection | null>(null);
  const selection = fitting(grid, wantedSelection);
  const [held, setHeld] = useState<Held | null>(null);
  const manners = useManner(chart, grid, selection);
  const gesture = useRef<Gesture | null>(null);
  const dragged = useRef<Stitch | null>(null);
  const wraps = chart.worked !== "flat";

  const way: Way = {
    tool,
    value,
    isFilled: manners.isFilled,
    manner: manners.manner,
    wraps: wraps && manners.acrossEnd,
    mask: selection && maskOf(grid, selection),
  };
  const name = (of: number): string => valueName(of, grid.ids, colours);

  // Whoever else changes the chart — undo, another tab — takes away what was begun on the old one.
  useEffect(() => {
    gesture.current = null;
    setHeld(null);
  }, [grid]);
  const shown = useMemo(() => (held ? withHeld(grid, held, wraps) : null), [grid, held, wraps]);
  useEffect(() => {
    painter.current?.show(shown?.grid ?? grid, pixels);
  }, [painter, shown, grid, pixels]);
  const mark = (choosing?: Selection): void =>
    painter.current?.mark({
      grid,
      selection: choosing ?? (held ? null : selection),
      held: shown?.selection ?? null,
      mirror: manners.manner.mirror,
      cursor,
    });
  useEffect(() => mark());

  const keep = (after: Grid, what: string): boolean => {
    if (changedCells(grid, after) === 0) {
      painter.current?.show(grid, pixels);
      tell("Nothing has changed.");
      return false;
    }
    const done = commit([{ kind: "setStitches", chart: chart.id, rows: rowsOfGrid(after) }], what);
    if (done) note(`${capital(what)}.`);
    else painter.current?.show(grid, pixels);
    return done;
  };
  const keepDrawn = (after: Grid): boolean => keep(after, actName(tool, changedCells(grid, after), name(value)));

  const callOff = (): void => {
    gesture.current = null;
    dragged.current = null;
    painter.current?.show(shown?.grid ?? grid, pixels);
    mark();
  };
  const show = (): void => {
    const { current } = gesture;
    if (!current) return;
    painter.current?.show(drawnWith(grid, current, way), pixels);
    if (current.kind === "ends" && current.tool === "select") mark(selectionBy(grid, current.from, current.to));
  };
  const pick = (at: Stitch): void => {
    if (!isOn(grid, at)) return;
    const found = grid.cells[cellIndex(grid, at)]!;
    setWantedId(grid.ids[found] ?? "-");
    setTool(toolBefore.current);
    tell(`${name(found)} is taken up.`);
  };
  const layDown = (): void => {
    if (!held || !shown) return;
    const words = held.kind === "piece" ? "laid down" : "moved";
    keep(shown.grid, `${chosenWords(shown.selection)} ${words}`);
    const on = regionOn(grid, shown.selection);
    choose(on && { ...on, mask: shown.selection.mask });
    setHeld(null);
  };
  const pickUp = (): void => {
    if (!selection) return;
    setHeld({ kind: "stitches", selection, by: [0, 0] });
    tell(`${chosenWords(selection)} in the hand. Arrow keys move it, Enter lays it down, Escape leaves it.`);
  };
  const begin = (at: Stitch): void => {
    if (held) {
      if (shown && holds(grid, { ...shown.selection, mask: null }, at)) dragged.current = at;
      else layDown();
      return;
    }
    if (tool === "pick") return pick(at);
    if (tool === "fill") {
      if (way.mask && isOn(grid, at) && way.mask[cellIndex(grid, at)] !== 1)
        return tell("That stitch is not among the chosen ones; filling is held to these.");
      keepDrawn(floodedBy(grid, at, way));
      return;
    }
    if (tool === "select" && selection && holds(grid, selection, at)) {
      setHeld({ kind: "stitches", selection, by: [0, 0] });
      dragged.current = at;
      return;
    }
    gesture.current = beginGesture(grid, at, way);
    show();
  };
  const go = (to: Stitch): void => {
    if (dragged.current && held) {
      const from = dragged.current;
      const next = heldBy(grid, held, [to[0] - from[0], to[1] - from[1]], wraps);
      dragged.current = to;
      setHeld(next);
      return;
    }
    const { current } = gesture;
    if (!current) return;
    gesture.current = goOn(current, to, way);
    show();
  };
  const end = (): void => {
    if (dragged.current) {
      dragged.current = null;
      if (held?.kind === "stitches") {
        if (held.by[0] !== 0 || held.by[1] !== 0) layDown();
        else setHeld(null);
      }
      return;
    }
    const { current } = gesture;
    gesture.current = null;
    if (!current) return;
    if (current.kind === "ends" && current.tool === "select") {
      const next = selectionBy(grid, current.from, current.to);
      choose(next);
      tell(`Chosen: ${regionWords(next)}.`);
    } else keepDrawn(drawnWith(grid, current, way));
  };

  const moveCursor: Desk["moveCursor"] = (to, how) => {
    const next = onGrid(grid, to);
    setCursor(next);
    if (how === "point") return;
    if (gesture.current) go(next);
    if (how === "extend") {
      // The corner that stays is the one across from where the keys were.
      const anchor = anchorOf(selection, cursor);
      const chosen = selectionBy(grid, anchor, next);
      choose(chosen);
      tell(`${stitchWords(grid, next, colours)}; chosen: ${regionSize(chosen)}`);
    } else tell(stitchWords(shown?.grid ?? grid, next, colours));
  };
  const press = (stays: boolean): void => {
    if (held) return layDown();
    if (gesture.current) return end();
    if (tool === "select" && selection && holds(grid, selection, cursor)) return pickUp();
    begin(cursor);
    if (tool === "pencil" && !stays) return end();
    if (tool === "line" || tool === "rectangle" || tool === "select")
      tell(`${stitchWords(grid, cursor, colours)}: one end. Go to the other and press Enter.`);
  };
  const stepBack = (): boolean => {
    if (gesture.current) {
      callOff();
      tell("Called off.");
    } else if (held) {
      setHeld(null);
      tell("Let go; nothing has changed.");
    } else if (selection) {
      choose(null);
      tell("Nothing is chosen.");
    } else return false;
    return true;
  };

  const change: Desk["change"] = (act) => {
    const turn = act === "right" || act === "left" || act === "about";
    const made = { across: "mirrored left to right", up: "mirrored upside down" };
    const words = turn ? (act === "about" ? "turned by a half" : `turned to the ${act}`) : made[act];
    const by = (piece: Grid): Grid =>
      turn ? turned(piece, act) : act === "across" ? mirroredAcross(piece) : mirroredUp(piece);
    if (held?.kind === "piece") {
      setHeld({ ...held, piece: by(held.piece) });
      return tell(`In the hand: ${words}.`);
    }
    const of = selection ?? wholeOf(grid);
    if (act === "across" || act === "up" || act === "about") {
      const after = mirrored(grid, of, act);
      if (keep(after.grid, `${chosenWords(of)} ${words}`) && selection) choose(after.selection);
      return;
    }
    const corner: Stitch = [of.rows[0], of.columns[0]];
    const piece = by(pieceOf(grid, of));
    if (!isSquare(of) || of.mask) {
      setHeld(pieceAt(grid, piece, corner));
      const around = of.mask ? "The rectangle around them is in the hand" : "It is in the hand";
      return tell(
        `A quarter turn makes ${regionSize(of)} into ${stitchesWords(piece.width)} × ${piece.height} rows. ${around}, turned: move it to its place, Enter lays it down.`,
      );
    }
    keep(stamped(grid, piece, corner), `${regionSize(of)} ${words}`);
  };

  return {
    chart,
    grid,
    colours,
    pixels,
    manners,
    tool,
    takeTool: (next) => {
      callOff();
      if (next !== "pick") toolBefore.current = next;
      setTool(next);
    },
    value,
    takeValue: (next) => {
      setWantedId(grid.ids[next] ?? "-");
      tell(`${name(next)} is taken up.`);
    },
    takeColour: setWantedId,
    cursor,
    moveCursor,
    selection,
    choose,
    chooseAll: () => {
      choose(wholeOf(grid));
      tell(`Chosen: the whole chart, ${regionSize(wholeOf(grid))}.`);
    },
    chooseColour: () => {
      const found = sameColour(grid, value);
      choose(found);
      tell(
        found
          ? `Chosen: ${stitchesWords(found.mask!.reduce((sum, one) => sum + one, 0))} in ${name(value)}.`
          : `There is no stitch in ${name(value)}.`,
      );
    },
    held,
    begin,
    go,
    end,
    callOff,
    press,
    stepBack,
    layDown,
    pickUp,
    moveHeld: (rows, columns) => {
      if (!held) return;
      const next = heldBy(grid, held, [rows, columns], wraps);
      setHeld(next);
      tell(`In the hand: ${regionWords(withHeld(grid, next, wraps).selection)}.`);
    },
    copyText: () => {
      if (held?.kind === "piece") return pieceText(held.piece);
      return selection ? pieceText(pieceOf(grid, selection)) : null;
    },
    paste: (text) => {
      const { value: piece, problems } = readPiece(text, grid.ids);
      if (!piece) return tell(`Not pasted. ${problems.slice(0, 3).map(problemSentence).join(" ")}`);
      callOff();
      setHeld(pieceAt(grid, piece, selection ? [selection.rows[0], selection.columns[0]] : cursor));
      tell(
        `${stitchesWords(piece.width)} × ${piece.height} rows in the hand. Arrow keys move it, Enter lays it down, Escape leaves it.`,
      );
    },
    change,
    fillChosen: (next) => {
      const after = filled(grid, maskOf(grid, selection ?? wholeOf(grid)), next);
      keep(after, `${stitchesWords(changedCells(grid, after))} made ${name(next)}`);
    },
    takeOut: () => {
      const after = filled(grid, maskOf(grid, selection ?? selectionBy(grid, cursor, cursor)), NO_STITCH);
      keep(after, `${stitchesWords(changedCells(grid, after))} taken out`);
    },
    replace: (from, to) => {
      const after = replaced(grid, maskOf(grid, selection ?? wholeOf(grid)), from, to);
      keep(after, `${name(from)} replaced by ${name(to)}, ${stitchesWords(changedCells(grid, after))}`);
    },
    tile: (over) => {
      if (selection) keep(tiled(grid, selection, over), `${regionSize(selection)} laid over ${regionWords(over)}`);
    },
    keep,
    tell,
  };
}

const onGrid = ({ width, height }: Grid, [row, column]: Stitch): Stitch => [
  Math.min(height, Math.max(1, row)),
  Math.min(width, Math.max(1, column)),
];

/** A selection of a chart that has become smaller is none. */
function fitting(grid: Grid, selection: Selection | null): Selection | null {
  if (!selection) return null;
  const { rows, columns, mask } = selection;
  const isThere = rows[1] <= grid.height && columns[1] <= grid.width && rows[0] >= 1 && columns[0] >= 1;
  return isThere && (mask === null || mask.length === grid.cells.length) ? selection : null;
}

function anchorOf(selection: Selection | null, cursor: Stitch): Stitch {
  if (!selection) return cursor;
  const { rows, columns } = selection;
  const isCorner = rows.includes(cursor[0]) && columns.includes(cursor[1]);
  if (!isCorner) return cursor;
  return [rows[0] === cursor[0] ? rows[1] : rows[0], columns[0] === cursor[1] ? columns[1] : columns[0]];
}
