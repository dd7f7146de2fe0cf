/** The paths of the PDF library as runs of points. */
import type { Point } from "../chartGrid.ts";
import { curve } from "./affine.ts";

/** A buffer of pdfjs' drawing orders: 0 move, 1 line, 2 cubic curve, 3 quadratic curve, 4 close, each before its numbers. */
export function pathOfBuffer(buffer: Float32Array): Point[][] {
  const runs: Point[][] = [];
  let run: Point[] = [];
  let at = 0;
  const next = (): Point => [buffer[at++]!, buffer[at++]!];
  const here = (): Point => run.at(-1) ?? [0, 0];
  while (at < buffer.length) {
    switch (buffer[at++]) {
      case 0:
        run = [next()];
        runs.push(run);
        break;
      case 1:
        run.push(next());
        break;
      case 2:
        run.push(...curve(here(), next(), next(), next()));
        break;
      case 3: {
        const [from, pull, to] = [here(), next(), next()];
        const third = (end: Point): Point => [(end[0] + 2 * pull[0]) / 3, (end[1] + 2 * pull[1]) / 3];
        run.push(...curve(from, third(from), third(to), to));
        break;
      }
      case 4: {
        const [first] = run;
        if (!first) break;
        run.push(first);
        // What follows a closed run without a move begins where it began.
        run = [first];
        runs.push(run);
        break;
      }
      default:
        return runs.filter(({ length }) => length > 1);
    }
  }
  return runs.filter(({ length }) => length > 1);
}
