/** Drawing as plain data, so that the same page becomes SVG text or PDF bytes, and a test can count its stitches. */

/** Which stitch of which chart a rectangle stands for. */
export interface StitchMark {
  readonly chart: string;
  readonly row: number;
  readonly column: number;
}

/** Lengths in mm, from the page's top left corner, y downwards. Colours are "#rrggbb". */
export interface RectOperation {
  readonly kind: "rect";
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
  readonly fill?: string;
  readonly stroke?: string;
  readonly lineWidth?: number;
  readonly stitch?: StitchMark;
}

export interface LineOperation {
  readonly kind: "line";
  readonly from: Point;
  readonly to: Point;
  readonly stroke: string;
  readonly lineWidth: number;
  /** Lengths of dash and gap. */
  readonly dash?: readonly [number, number];
}

export interface PolygonOperation {
  readonly kind: "polygon";
  readonly points: readonly Point[];
  readonly fill?: string;
  readonly stroke?: string;
  readonly lineWidth?: number;
}

export interface TextOperation {
  readonly kind: "text";
  /** Where the text's baseline begins, has its middle or ends. */
  readonly at: Point;
  readonly text: string;
  /** Size of the font's em. */
  readonly size: number;
  readonly weight?: FontWeight;
  readonly anchor?: "start" | "middle" | "end";
  readonly fill?: string;
}

export type Point = readonly [x: number, y: number];
export type FontWeight = "regular" | "bold";
export type Operation = RectOperation | LineOperation | PolygonOperation | TextOperation;

export const BLACK = "#000000";
export const WHITE = "#ffffff";
