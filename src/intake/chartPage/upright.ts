/** Turns a page so that its charts stand upright: some are drawn sideways, and some pages lie askew. */
import type { Point } from "../chartGrid.ts";
import { moved, turn } from "../page/affine.ts";
import type { PagePrimitives } from "../pagePrimitives.ts";

export interface Upright {
  readonly page: PagePrimitives;
  /** From the upright page back to the page as it is looked at. */
  readonly back: (point: Point) => Point;
}

export function uprightPage(page: PagePrimitives): Upright {
  const degrees = quarterOfLetters(page) + skewOfLines(page);
  if (degrees === 0) return { page, back: (point) => point };
  const away = turn(-degrees);
  const home = turn(degrees);
  const put = (point: Point): Point => moved(away, point);
  const turned: PagePrimitives = {
    ...page,
    shapes: page.shapes.map((shape) => ({ ...shape, outline: shape.outline.map((run) => run.map(put)) })),
    glyphs: page.glyphs.map((glyph) => {
      const [x, y] = put([glyph.x, glyph.y]);
      return { ...glyph, x, y, turned: (glyph.turned - degrees + 720) % 360 };
    }),
    ...(page.untold ? { untold: page.untold.map((run) => run.map(put)) } : {}),
    pictures: page.pictures.map((picture) => ({
      ...picture,
      corners: picture.corners.map(put) as [Point, Point, Point, Point],
    })),
  };
  return { page: turned, back: (point) => moved(home, point) };
}

/** 0, 90, 180 or 270: how most letters are turned, to the next quarter. */
function quarterOfLetters({ glyphs }: PagePrimitives): number {
  const counts = [0, 0, 0, 0];
  for (const { turned } of glyphs) counts[Math.round(turned / 90) % 4]!++;
  const most = counts.indexOf(Math.max(...counts));
  return counts[most]! > MOST * glyphs.length ? most * 90 : 0;
}

/** Degrees, −45 to 45, by which most of the straight lines lie askew; 0 where they are level. */
function skewOfLines({ shapes }: PagePrimitives): number {
  const bins = new Map<number, { length: number; sum: number }>();
  let all = 0;
  for (const { outline } of shapes)
    for (const run of outline)
      for (let index = 1; index < run.length; index++) {
        const [dx, dy] = [run[index]![0] - run[index - 1]![0], run[index]![1] - run[index - 1]![1]];
        const length = Math.hypot(dx, dy);
        if (length === 0) continue;
        const angle = (Math.atan2(dy, dx) * 180) / Math.PI;
        const askew = angle - 90 * Math.round(angle / 90);
        const bin = Math.round(askew * 10);
        const known = bins.get(bin) ?? { length: 0, sum: 0 };
        bins.set(bin, { length: known.length + length, sum: known.sum + askew * length });
        all += length;
      }
  const [best] = [...bins].sort((one, other) => other[1].length - one[1].length);
  if (!best) return 0;
  // What is all of one slant may fall on both sides of a bin's edge.
  const near = [-1, 0, 1].flatMap((step) => bins.get(best[0] + step) ?? []);
  const length = near.reduce((sum, bin) => sum + bin.length, 0);
  if (length < MOST_LINES * all) return 0;
  const skew = near.reduce((sum, bin) => sum + bin.sum, 0) / length;
  return Math.abs(skew) < LEVEL ? 0 : skew;
}

/** Part of all letters, and of all lines' length, that must agree: half of two triangles is their slant. */
const MOST = 0.6;
const MOST_LINES = 0.4;
/** Degrees that are rounding and not a slant. */
const LEVEL = 0.02;
