/** A cell large beside its own pixels, both with their neighbours, turned upright however the page lay. */
import { useEffect, useRef, type ReactNode } from "react";
import { crossing } from "../../intake/chartGrid.ts";
import type { ChartInHand } from "./reading.ts";
import { partAt } from "./reading.ts";
import type { SheetPictures } from "./useSheetPictures.ts";
import { useSigns } from "./useSigns.ts";

interface CellCloseProps {
  readonly chart: ChartInHand;
  /** From the top left, from 0. */
  readonly place: readonly [row: number, column: number];
  /** null while the picture is being unpacked. */
  readonly pictures: SheetPictures | null;
}

/** CSS pixels of a side, and cells to it: the one in the middle and two on each side. */
const SIDE = 170;
const CELLS = 5;
const CELL = SIDE / CELLS;

export function CellClose({ chart, place, pictures }: CellCloseProps): ReactNode {
  const source = useRef<HTMLCanvasElement>(null);
  const read = useRef<HTMLCanvasElement>(null);
  const [row, column] = place;
  const { rows, colours, symbols } = chart.state;
  const signs = useSigns(symbols, colours);
  const part = partAt(chart, row, column);

  useEffect(() => {
    const context = source.current?.getContext("2d");
    if (!context) return;
    begin(context);
    if (pictures && part && pictures.sheet === part.sheet) {
      const { grid } = part;
      const [down, across] = [row - part.top, column - part.left];
      const [x, y] = crossing(grid, down, across);
      const [rightX, rightY] = crossing(grid, down, across + 1);
      const [downX, downY] = crossing(grid, down + 1, across);
      const scale = pictures.full.width / pictures.width;
      // The picture is laid so that this cell becomes the square in the middle: the inverse of the cell's own directions.
      const [ux, uy, vx, vy] = [rightX - x, rightY - y, downX - x, downY - y];
      const size = ux * vy - uy * vx;
      if (Math.abs(size) > 1e-6) {
        const by = (CELL * devicePixelRatio) / size;
        const middle = ((CELLS - 1) / 2) * CELL * devicePixelRatio;
        const [a, b, c, d] = [vy * by, -uy * by, -vx * by, ux * by];
        context.setTransform(a, b, c, d, middle - a * x - c * y, middle - b * x - d * y);
        context.imageSmoothingEnabled = Math.sqrt(Math.abs(size)) * scale > CELL / 3;
        context.drawImage(pictures.full, 0, 0, pictures.width, pictures.height);
      }
    }
    frame(context);
  }, [pictures, part, row, column]);

  useEffect(() => {
    const context = read.current?.getContext("2d");
    if (!context) return;
    begin(context);
    const half = (CELLS - 1) / 2;
    for (let down = -half; down <= half; down++)
      for (let across = -half; across <= half; across++) {
        const id = rows[row + down]?.[column + across];
        if (id === undefined || id === "-") continue;
        context.fillStyle = colours[id]?.hex ?? "#919191";
        const [x, y] = [(across + half) * CELL, (down + half) * CELL];
        context.fillRect(x, y, CELL, CELL);
        const sign = signs.get(id);
        if (sign) context.drawImage(sign, x + CELL * 0.08, y + CELL * 0.08, CELL * 0.84, CELL * 0.84);
      }
    frame(context);
  }, [rows, colours, signs, row, column]);

  return (
    <div className="cell-close" aria-hidden="true">
      <figure>
        <canvas ref={source} width={SIDE * devicePixelRatio} height={SIDE * devicePixelRatio} />
        <figcaption>as it is there</figcaption>
      </figure>
      <figure>
        <canvas ref={read} width={SIDE * devicePixelRatio} height={SIDE * devicePixelRatio} />
        <figcaption>as it is read</figcaption>
      </figure>
    </div>
  );
}

function begin(context: CanvasRenderingContext2D): void {
  context.setTransform(1, 0, 0, 1, 0, 0);
  context.fillStyle = "#a8a8a8";
  context.fillRect(0, 0, context.canvas.width, context.canvas.height);
  context.setTransform(devicePixelRatio, 0, 0, devicePixelRatio, 0, 0);
}

/** White within black around the cell in the middle. */
function frame(context: CanvasRenderingContext2D): void {
  const from = ((CELLS - 1) / 2) * CELL;
  context.setTransform(devicePixelRatio, 0, 0, devicePixelRatio, 0, 0);
  context.lineWidth = 4;
  context.strokeStyle = "#000";
  context.strokeRect(from, from, CELL, CELL);
  context.lineWidth = 2;
  context.strokeStyle = "#fff";
  context.strokeRect(from, from, CELL, CELL);
}
