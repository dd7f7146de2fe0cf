/** Smaller and smaller copies of a picture, so that a grid of any pitch can be looked for where it costs least. */
import type { Pixels } from "../../raster/pixels.ts";

export interface Level {
  readonly width: number;
  readonly height: number;
  /** Pixels of the picture to a pixel of the level, each way. */
  readonly scale: number;
  /** Encoded, four bytes to the pixel; the fourth is not used. */
  readonly rgba: Uint8ClampedArray;
}

/** The finest first, no longer than `FINEST` pixels, then halved while the shorter side allows. */
export function levelsOf({ width, height, rgba }: Pixels): Level[] {
  const picture: Level = { width, height, scale: 1, rgba };
  const shrunk = Math.ceil(Math.max(width, height) / FINEST);
  const levels = [shrunk > 1 ? shrink(picture, shrunk) : picture];
  for (;;) {
    const { width, height } = levels.at(-1)!;
    if (Math.min(width, height) < 2 * SHORTEST || Math.max(width, height) < 2 * COARSEST) return levels;
    levels.push(shrink(levels.at(-1)!, 2));
  }
}

/** Means over squares; what is left over at the right and below is cut off. Encoded light, as what is asked for is where it changes. */
function shrink({ width, height, scale, rgba }: Level, by: number): Level {
  const [columns, rows] = [Math.max(1, Math.floor(width / by)), Math.max(1, Math.floor(height / by))];
  const across = Math.min(by, width);
  const down = Math.min(by, height);
  const out = new Uint8ClampedArray(columns * rows * 4);
  const part = 1 / (across * down);
  for (let row = 0, to = 0; row < rows; row++)
    for (let column = 0; column < columns; column++, to += 4) {
      let [red, green, blue] = [0, 0, 0];
      for (let y = 0; y < down; y++) {
        let at = ((row * by + y) * width + column * by) * 4;
        for (let x = 0; x < across; x++, at += 4) {
          red += rgba[at]!;
          green += rgba[at + 1]!;
          blue += rgba[at + 2]!;
        }
      }
      out[to] = red * part;
      out[to + 1] = green * part;
      out[to + 2] = blue * part;
      out[to + 3] = 255;
    }
  return { width: columns, height: rows, scale: scale * by, rgba: out };
}

/** Pixels: 400 stitches across are five pixels each on it. */
const FINEST = 2400;
/** Pixels. */
const COARSEST = 300;
const SHORTEST = 24;
/** Pixels of a level to a stitch, at least, where lines are placed. */
export const FINE_PITCH = 6;
