/** How well yarns were found in a painted photograph: which of them, what besides, and whether their shade is looked at in them. */
import { rasterFromBytes, type Raster } from "../../src/raster/raster.ts";
import type { FoundYarn, Outline } from "../../src/intake/yarnPhoto/findYarns.ts";
import type { PaintedTable } from "./tablePainter.ts";

export interface TableScore {
  readonly yarns: number;
  /** Yarns with an outline of which at least half is shared: intersection over union, with or without band and card. */
  readonly found: number;
  /** Outlines that are no yarn… */
  readonly wrong: number;
  /** …or a part of one only. */
  readonly parts: number;
  /** For each yarn found, the part of the pixels in its inner box that are its yarn. */
  readonly purity: readonly number[];
}

export function tableRaster({ width, height, rgb }: PaintedTable): Raster {
  const rgba = new Uint8Array(width * height * 4).fill(255);
  for (let at = 0; at < width * height; at++) rgba.set(rgb.subarray(3 * at, 3 * at + 3), 4 * at);
  return rasterFromBytes(width, height, rgba);
}

export function scoreTable(painted: PaintedTable, found: readonly FoundYarn[]): TableScore {
  const { width, height, yarnAt, thingAt, yarns } = painted;
  const areas = [yarnAt, thingAt].map((truth) => {
    const area = new Float64Array(yarns.length + 1);
    for (const yarn of truth) area[yarn]!++;
    return area;
  });
  const isFound = new Set<number>();
  const purity: number[] = [];
  let [wrong, parts] = [0, 0];
  for (const { outline, inner } of found) {
    const shared = [new Float64Array(yarns.length + 1), new Float64Array(yarns.length + 1)];
    let area = 0;
    eachPixel(outline, width, height, (at) => {
      area++;
      shared[0]![yarnAt[at]!]!++;
      shared[1]![thingAt[at]!]!++;
    });
    let [best, most] = [0, 0];
    for (let yarn = 1; yarn <= yarns.length; yarn++)
      for (const truth of [0, 1]) {
        const both = shared[truth]![yarn]!;
        const overlap = both / (area + areas[truth]![yarn]! - both);
        if (overlap > most) [best, most] = [yarn, overlap];
      }
    if (most >= 0.5 && !isFound.has(best)) {
      isFound.add(best);
      let own = 0;
      for (let y = inner.y; y < inner.y + inner.height; y++)
        for (let x = inner.x; x < inner.x + inner.width; x++) own += yarnAt[y * width + x] === best ? 1 : 0;
      purity.push(own / (inner.width * inner.height));
    } else if (best > 0 && shared[1]![best]! > 0.8 * area) parts++;
    else wrong++;
  }
  const there = yarns.filter(({ onTable }) => onTable).length;
  return { yarns: there, found: isFound.size, wrong, parts, purity };
}

/** Even and odd crossings, row by row: not the finder's own. */
function eachPixel(outline: Outline, width: number, height: number, take: (at: number) => void): void {
  for (let y = 0; y < height; y++) {
    const middle = y + 0.5;
    const crossings: number[] = [];
    outline.forEach(([x1, y1], at) => {
      const [x2, y2] = outline[(at + 1) % outline.length]!;
      if (Math.min(y1, y2) <= middle && Math.max(y1, y2) > middle)
        crossings.push(x1 + ((middle - y1) * (x2 - x1)) / (y2 - y1));
    });
    crossings.sort((one, other) => one - other);
    for (let pair = 0; pair + 1 < crossings.length; pair += 2)
      for (let x = Math.max(0, Math.ceil(crossings[pair]! - 0.5)); x < Math.min(width, crossings[pair + 1]! - 0.5); x++)
        take(y * width + x);
  }
}
