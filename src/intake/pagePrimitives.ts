/** What is drawn on a page, whatever kind of file it came from: shapes, letters and pictures where they lie. */
import type { Pixels } from "../raster/pixels.ts";
import type { Point } from "./chartGrid.ts";

/** Places are in points (1/72 inch) from the page's top left corner as it is looked at, y downwards. In the order of painting. */
export interface PagePrimitives {
  readonly width: number;
  readonly height: number;
  readonly shapes: readonly PageShape[];
  readonly glyphs: readonly PageGlyph[];
  readonly pictures: readonly PagePicture[];
  /** Outlines of what is painted in a way that is not told here, as with a picture of many colours; absent where all is told. */
  readonly untold?: readonly (readonly Point[])[];
}

export interface PageShape {
  /** Each a run of straight lines; curves come as short ones. A fill closes them by itself, a stroke only where the first point returns. */
  readonly outline: readonly (readonly Point[])[];
  /** "#rrggbb"; null where it is not filled. */
  readonly fill: string | null;
  /** "#rrggbb"; null where its outline is not drawn. */
  readonly stroke: string | null;
  /** Points; 0 where there is no stroke. */
  readonly lineWidth: number;
  /** How much of what lies below the fill hides, 0 to 1; absent where it hides all. */
  readonly opacity?: number;
  /** What lies within its outlines an even number of times is outside; absent where their direction decides. */
  readonly evenOdd?: true;
  /** Its line is broken. */
  readonly dashed?: true;
}

export interface PageGlyph {
  /** One letter or sign as text; a private-use character where the font does not say what it is. */
  readonly text: string;
  /** Where its baseline begins. */
  readonly x: number;
  readonly y: number;
  /** The font's em. */
  readonly size: number;
  /** How far the next letter is. */
  readonly width: number;
  /** "#rrggbb". */
  readonly colour: string;
  /** The font's name in the file: the same character of two fonts may be two signs. */
  readonly font: string;
  /** Direction of its baseline: 0 to the right, 90 downwards, degrees. */
  readonly turned: number;
}

export interface PagePicture {
  /** Clockwise from the picture's own top left. */
  readonly corners: readonly [Point, Point, Point, Point];
  /** Null where it was not unpacked. */
  readonly pixels: Pixels | null;
  /** Equal pictures of a page have equal ones; absent where that is not known. */
  readonly id?: string;
}

/** Whether a page shows what its shapes and letters do not tell: pictures, fillings of many colours, more shapes than words would have. */
export function showsMore({ width, height, shapes, glyphs, pictures, untold = [] }: PagePrimitives): boolean {
  const pictured = pictures.reduce((sum, { corners: [origin, right, , down] }) => {
    const [a, b, c, d] = [right[0] - origin[0], right[1] - origin[1], down[0] - origin[0], down[1] - origin[1]];
    return sum + Math.abs(a * d - b * c);
  }, 0);
  return pictured > LEAST_PICTURED * width * height || untold.length > 0 || shapes.length >= Math.max(MANY_SHAPES, glyphs.length); // prettier-ignore
}

/** Part of the page that pictures cover where they are more than a mark; shapes from which on a page is drawn on rather than ruled. Our choice. */
const LEAST_PICTURED = 0.01;
const MANY_SHAPES = 100;
