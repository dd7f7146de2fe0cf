/** Keeps the two canvases of the desk up to date: once a frame, and only what has changed. */
import type { Grid } from "../../chart/chart.ts";
import type { Region } from "../../chart/draw.ts";
import { paintDesk, type DeskScene } from "./paintDesk.ts";
import { paintMarks, type DeskMarks } from "./paintMarks.ts";

export interface DeskPainter {
  /** How the chart is looked at; everything is painted anew. */
  readonly look: (scene: Omit<DeskScene, "picture">) => void;
  /** The stitches as they are to be seen. @param pixels by the value of a cell */
  readonly show: (grid: Grid, pixels: Uint32Array) => void;
  readonly mark: (marks: DeskMarks) => void;
  readonly close: () => void;
}

interface Stitches {
  readonly grid: Grid;
  readonly pixels: Uint32Array;
}

export function createDeskPainter(base: HTMLCanvasElement, over: HTMLCanvasElement): DeskPainter {
  const contexts = { base: base.getContext("2d")!, over: over.getContext("2d")! };
  const picture = document.createElement("canvas");
  const pen = picture.getContext("2d")!;
  let image: ImageData | null = null;
  let packed = new Uint32Array(0);
  let scene: DeskScene | null = null;
  let wanted = null as Stitches | null;
  let shown = null as Stitches | null;
  let marks: DeskMarks | null = null;
  let isAllNew = true;
  let areMarksNew = true;
  let frame = 0;

  /** Brings the picture to what is wanted. @returns the stitches that changed; null: none did; "all" */
  const bring = (): Region | "all" | null => {
    if (!wanted || wanted === shown) return null;
    const { grid, pixels } = wanted;
    const last = grid.cells.length - 1;
    const before = shown;
    shown = wanted;
    if (
      !image ||
      !before ||
      before.pixels !== pixels ||
      before.grid.width !== grid.width ||
      before.grid.height !== grid.height
    ) {
      picture.width = grid.width;
      picture.height = grid.height;
      image = pen.createImageData(grid.width, grid.height);
      packed = new Uint32Array(image.data.buffer);
      for (let at = 0; at <= last; at++) packed[last - at] = pixels[grid.cells[at]!]!;
      pen.putImageData(image, 0, 0);
      return "all";
    }
    const { width, cells } = grid;
    const old = before.grid.cells;
    let [bottom, top, right, left] = [Infinity, 0, Infinity, 0];
    for (let at = 0; at <= last; at++) {
      if (cells[at] === old[at]) continue;
      packed[last - at] = pixels[cells[at]!]!;
      const row = Math.floor(at / width) + 1;
      const column = (at % width) + 1;
      if (row < bottom) bottom = row;
      top = row;
      if (column < right) right = column;
      if (column > left) left = column;
    }
    if (top === 0) return null;
    pen.putImageData(image, 0, 0, width - left, grid.height - top, left - right + 1, top - bottom + 1);
    return { rows: [bottom, top], columns: [right, left] };
  };

  const paint = (): void => {
    frame = 0;
    const changed = bring();
    if (!scene) return;
    const isAll = isAllNew || changed === "all";
    if (isAll) paintDesk(contexts.base, scene, null);
    else if (changed) paintDesk(contexts.base, scene, changed);
    if (marks && (isAll || areMarksNew)) paintMarks(contexts.over, scene, marks);
    isAllNew = areMarksNew = false;
  };
  const ask = (): void => {
    if (frame === 0) frame = requestAnimationFrame(paint);
  };

  return {
    look: (next) => {
      scene = { ...next, picture };
      isAllNew = true;
      ask();
    },
    show: (grid, pixels) => {
      wanted = { grid, pixels };
      ask();
    },
    mark: (next) => {
      marks = next;
      areMarksNew = true;
      ask();
    },
    close: () => cancelAnimationFrame(frame),
  };
}
