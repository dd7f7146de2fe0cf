/** The outline of a yarn on a photograph: proposed or drawn, moved and resized as one thing, always within the picture. */
import type { Area } from "../../jobs/shade.ts";
import type { Box } from "../../raster/raster.ts";
import { boxBetween } from "../ui/FramedPicture.tsx";
import type { FoundOutline, Point } from "../worker/photoApi.ts";

export interface YarnOutline {
  readonly form: "found" | OutlineForm;
  /** Pixels of the photograph, whole: what it lies in. */
  readonly box: Box;
  /** Its corners, as parts of the box; a box has four, an ellipse as many as look round. */
  readonly corners: readonly Point[];
  /** Where its shade is looked at, as parts of the box. */
  readonly inner: Box;
}

/** What a hand can draw. */
export type OutlineForm = "box" | "ellipse";

export interface Size {
  readonly width: number;
  readonly height: number;
}

/** Pixels of the photograph: a smaller outline is a slip of the hand, or hides under its own line. */
export const LEAST_OUTLINE = 8;

const BOX_CORNERS: readonly Point[] = [
  [0, 0],
  [1, 0],
  [1, 1],
  [0, 1],
];
const ROUND_CORNERS: readonly Point[] = Array.from({ length: 28 }, (_, at) => {
  const angle = (2 * Math.PI * at) / 28;
  return [0.5 + Math.cos(angle) / 2, 0.5 + Math.sin(angle) / 2];
});

/** A ball's rim lies in its own shadow, and a hand draws a little too large: the middle of what was drawn is looked at. Our choice. */
const DRAWN_INNER = { box: partOf(0.04), ellipse: partOf(0.06) };
function partOf(edge: number): Box {
  return { x: edge, y: edge, width: 1 - 2 * edge, height: 1 - 2 * edge };
}
const MIDDLE = partOf(0.2);

export function drawnOutline(form: OutlineForm, box: Box, size: Size): YarnOutline {
  return {
    form,
    box: fitted(box, size),
    corners: form === "box" ? BOX_CORNERS : ROUND_CORNERS,
    inner: DRAWN_INNER[form],
  };
}

/** A place to look that is a smaller part of its box than this was squeezed in beside something: the middle is looked at instead. Our choice. */
const LEAST_INNER = 0.2;

export function foundOutline({ outline, inner }: FoundOutline, size: Size): YarnOutline {
  const xs = outline.map(([x]) => x);
  const ys = outline.map(([, y]) => y);
  const [left, top] = [Math.floor(Math.min(...xs)), Math.floor(Math.min(...ys))];
  const box = fitted(
    { x: left, y: top, width: Math.ceil(Math.max(...xs)) - left, height: Math.ceil(Math.max(...ys)) - top },
    size,
  );
  const isSmall = inner.width * inner.height < LEAST_INNER * box.width * box.height;
  return {
    form: "found",
    box,
    corners: outline.map(([x, y]) => [(x - box.x) / box.width, (y - box.y) / box.height]),
    inner: isSmall
      ? MIDDLE
      : {
          x: (inner.x - box.x) / box.width,
          y: (inner.y - box.y) / box.height,
          width: inner.width / box.width,
          height: inner.height / box.height,
        },
  };
}

/** Its corners in pixels of the photograph. */
export const cornersOf = ({ box, corners }: YarnOutline): Point[] =>
  corners.map(([x, y]) => [box.x + x * box.width, box.y + y * box.height]);

/** Where its shade is looked at, in pixels of the photograph. */
export function measuredArea(outline: YarnOutline): Area {
  const { form, box, corners, inner } = outline;
  const place = (x: number, y: number): Point => [
    box.x + (inner.x + x * inner.width) * box.width,
    box.y + (inner.y + y * inner.height) * box.height,
  ];
  if (form === "ellipse") return { outline: corners.map(([x, y]) => place(x, y)) };
  return innerBox(outline);
}

/** Well inside a thing with straight sides, as a card or a sheet: pixels of the photograph. */
export const middleOfOutline = (outline: YarnOutline): Box => innerBox({ ...outline, inner: MIDDLE });

const innerBox = ({ box, inner }: YarnOutline): Box => ({
  x: box.x + inner.x * box.width,
  y: box.y + inner.y * box.height,
  width: inner.width * box.width,
  height: inner.height * box.height,
});

export function moved(outline: YarnOutline, across: number, down: number, size: Size): YarnOutline {
  const { box } = outline;
  return { ...outline, box: fitted({ ...box, x: box.x + across, y: box.y + down }, size) };
}

export const resized = (outline: YarnOutline, box: Box, size: Size): YarnOutline => ({
  ...outline,
  box: fitted(box, size),
});

/** Where a corner of a box is taken hold of: -1 left or top, 1 right or bottom, 0 neither. */
export interface Grip {
  readonly across: -1 | 0 | 1;
  readonly down: -1 | 0 | 1;
}

export const GRIPS: readonly Grip[] = ([-1, 0, 1] as const).flatMap((down) =>
  ([-1, 0, 1] as const).filter((across) => across !== 0 || down !== 0).map((across) => ({ across, down })),
);

/** The box pulled by one of its grips to a place; pulled beyond its other side it turns over. */
export function pulled(box: Box, { across, down }: Grip, [x, y]: Point): Box {
  const [right, bottom] = [box.x + box.width, box.y + box.height];
  return boxBetween([across < 0 ? x : box.x, down < 0 ? y : box.y], [across > 0 ? x : right, down > 0 ? y : bottom]);
}

/** In whole pixels, no smaller than can be seen, and within the photograph: rather moved than cut. */
export function fitted(box: Box, size: Size): Box {
  const width = Math.min(size.width, Math.max(LEAST_OUTLINE, Math.round(box.width)));
  const height = Math.min(size.height, Math.max(LEAST_OUTLINE, Math.round(box.height)));
  const x = Math.min(size.width - width, Math.max(0, Math.round(box.x)));
  const y = Math.min(size.height - height, Math.max(0, Math.round(box.y)));
  return { x, y, width, height };
}

/** Whether the middle of one box lies in another. */
export function liesIn(box: Box, around: Box): boolean {
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  return x >= around.x && x <= around.x + around.width && y >= around.y && y <= around.y + around.height;
}
