/** Drawing by numbers: both ends of a line, a rectangle or a choice typed instead of dragged. */
import type { ReactNode } from "react";
import { regionBetween, type Stitch } from "../../chart/draw.ts";
import { useCounts } from "./CountField.tsx";
import { changedCells, regionWords, stitchesWords, valueName } from "./deskWords.ts";
import { beginGesture, drawnWith, goOn, type Tool, type Way } from "./gesture.ts";
import type { Desk } from "./useDesk.ts";

export function NumbersPart({ desk }: { readonly desk: Desk }): ReactNode {
  const { grid, value, manners, cursor } = desk;
  const { counts, grid: countGrid } = useCounts([
    { key: "fromRow", name: "From row", most: grid.height, first: cursor[0] },
    { key: "fromStitch", name: "stitch", most: grid.width, first: cursor[1] },
    { key: "toRow", name: "To row", most: grid.height, first: grid.height },
    { key: "toStitch", name: "stitch", most: grid.width, first: grid.width },
  ]);
  const isWrong = counts === null;
  const ends = (): readonly [Stitch, Stitch] => {
    const [fromRow, fromStitch, toRow, toStitch] = counts!;
    return [
      [fromRow!, fromStitch!],
      [toRow!, toStitch!],
    ];
  };
  const draw = (tool: Tool, words: string): void => {
    const [from, to] = ends();
    const way: Way = { tool, value, isFilled: manners.isFilled, manner: manners.manner, wraps: false, mask: null };
    const after = drawnWith(grid, goOn(beginGesture(grid, from, way)!, to, way), way);
    const changed = stitchesWords(changedCells(grid, after));
    desk.keep(after, `${words}, ${changed} in ${valueName(value, grid.ids, desk.colours)}`);
  };
  return (
    <details className="desk-part">
      <summary>By numbers</summary>
      {countGrid}
      {isWrong && (
        <p className="desk-wrong" role="alert">
          Expected rows from 1 to {grid.height} and stitches from 1 to {grid.width}.
        </p>
      )}
      <div className="desk-acts">
        <button type="button" className="button" disabled={isWrong} onClick={() => draw("line", "a line")}>
          Draw the line
        </button>
        <button type="button" className="button" disabled={isWrong} onClick={() => draw("rectangle", "a rectangle")}>
          Draw the rectangle
        </button>
        <button
          type="button"
          className="button"
          disabled={isWrong}
          onClick={() => {
            const region = regionBetween(...ends());
            desk.choose(region);
            desk.tell(`Chosen: ${regionWords(region)}.`);
          }}
        >
          Choose it
        </button>
      </div>
    </details>
  );
}
