/** Which pixels of a picture are meant: a box or an outline drawn round a yarn. */
import type { LinearRgb } from "../../colour/srgb.ts";
import type { Box, Raster } from "../../raster/raster.ts";
import type { Point } from "./homography.ts";

/** Drawn round something, in pixels of the picture; three points or more, either way round, the last joined to the first. */
export interface Region {
  readonly outline: readonly Point[];
}

export type Area = Box | Region;

export const isRegion = (area: Area): area is Region => "outline" in area;

/** Enough pixels to see a surface's hump of light without noise. */
const MOST_PIXELS = 40_000;

/** Every pixel of an area that lies on the picture, or evenly so many of them as are quick to look at. */
export function pixelsOf(picture: Raster, area: Area): LinearRgb[] {
  const { x, y, width, height } = wholeBox(picture, boxOf(area));
  const step = Math.max(1, Math.ceil(Math.sqrt((width * height) / MOST_PIXELS)));
  const pixels: LinearRgb[] = [];
  for (let row = y; row < y + height; row += step)
    for (const [from, to] of isRegion(area) ? spansOf(area, row + 0.5) : [[x, x + width] as const])
      // A pixel belongs to an outline where its middle does; columns keep to the same steps in every row.
      for (let column = firstStep(Math.max(from, x), x, step); column < Math.min(to, x + width); column += step) {
        const at = (row * picture.width + column) * 3;
        pixels.push([picture.data[at]!, picture.data[at + 1]!, picture.data[at + 2]!]);
      }
  return pixels;
}

const firstStep = (from: number, start: number, step: number): number =>
  start + Math.ceil((from - start) / step) * step;

/** How many pixels an area takes up; an outline that crosses itself counts by what it goes round one way. */
export function pixelCount(area: Area): number {
  if (!isRegion(area)) return area.width * area.height;
  const twice = area.outline.reduce((sum, [x1, y1], at) => {
    const [x2, y2] = area.outline[(at + 1) % area.outline.length]!;
    return sum + x1 * y2 - x2 * y1;
  }, 0);
  return Math.abs(twice) / 2;
}

/** The least box round an area. */
export function boxOf(area: Area): Box {
  if (!isRegion(area)) return area;
  const xs = area.outline.map(([x]) => x);
  const ys = area.outline.map(([, y]) => y);
  const [x, y] = [Math.min(...xs), Math.min(...ys)];
  return { x, y, width: Math.max(...xs) - x, height: Math.max(...ys) - y };
}

export function middleOf(area: Area): Point {
  const { x, y, width, height } = boxOf(area);
  return [x + width / 2, y + height / 2];
}

/** The same area on a picture that shows `covers` of the first in so many more or fewer pixels. */
export function carriedOver(area: Area, covers: Box, picture: Raster): Area {
  const [across, down] = [picture.width / covers.width, picture.height / covers.height];
  if (isRegion(area))
    return { outline: area.outline.map(([x, y]) => [(x - covers.x) * across, (y - covers.y) * down]) };
  const [left, top] = [Math.round((area.x - covers.x) * across), Math.round((area.y - covers.y) * down)];
  return {
    x: left,
    y: top,
    width: Math.round((area.x + area.width - covers.x) * across) - left,
    height: Math.round((area.y + area.height - covers.y) * down) - top,
  };
}

function wholeBox(picture: Raster, box: Box): Box {
  const [x, y] = [Math.max(0, Math.floor(box.x)), Math.max(0, Math.floor(box.y))];
  const right = Math.min(picture.width, Math.ceil(box.x + box.width));
  const bottom = Math.min(picture.height, Math.ceil(box.y + box.height));
  return { x, y, width: Math.max(0, right - x), height: Math.max(0, bottom - y) };
}

/** Where a row of pixels lies within an outline, as columns from and to; even–odd, so that an outline may cross itself. */
function spansOf({ outline }: Region, middle: number): (readonly [number, number])[] {
  const crossings: number[] = [];
  outline.forEach(([x1, y1], at) => {
    const [x2, y2] = outline[(at + 1) % outline.length]!;
    if (y1 <= middle !== y2 <= middle) crossings.push(x1 + ((middle - y1) / (y2 - y1)) * (x2 - x1));
  });
  crossings.sort((one, other) => one - other);
  const spans: (readonly [number, number])[] = [];
  for (let at = 0; at + 1 < crossings.length; at += 2) spans.push([crossings[at]! - 0.5, crossings[at + 1]! - 0.5]);
  return spans;
}
