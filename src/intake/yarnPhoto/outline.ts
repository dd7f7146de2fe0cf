/** The outline of a piece as few points that a hand can correct, and the box within it where its shade is looked at. */
import { createPlane, smoothed } from "../../raster/plane.ts";
import type { Box } from "../../raster/raster.ts";
import type { Point } from "./homography.ts";
import { areaOf } from "./pieceShape.ts";

/** Points of an outline, at least and at most: what a hand can drag. Our choice. */
const FEWEST = 8;
const MOST = 24;
/** A piece that fills this part of its hull is given the hull: what bites into it is a tag, a shine or a shadow. Our choice. */
const FULL = 0.88;

export interface Mask {
  readonly width: number;
  readonly height: number;
  /** 1 inside. */
  readonly data: Float32Array;
  /** Where its top left pixel lies in the picture. */
  readonly left: number;
  readonly top: number;
}

/** As much of the picture as the piece takes up, and a pixel more all round. */
export function maskOf(pixels: Int32Array, pictureWidth: number): Mask {
  let [left, right, top, bottom] = [Infinity, 0, Infinity, 0];
  for (const pixel of pixels) {
    const y = Math.floor(pixel / pictureWidth);
    const x = pixel - y * pictureWidth;
    left = Math.min(left, x - 1);
    right = Math.max(right, x + 1);
    top = Math.min(top, y - 1);
    bottom = Math.max(bottom, y + 1);
  }
  const mask = createPlane(right - left + 1, bottom - top + 1);
  for (const pixel of pixels) {
    const y = Math.floor(pixel / pictureWidth);
    mask.data[(y - top) * mask.width + pixel - y * pictureWidth - left] = 1;
  }
  return { ...mask, left, top };
}

/** Clockwise on the screen, 8 to 24 points, at the corners of pixels. */
export function outlineOf(mask: Mask, hull: readonly Point[], solidity: number): Point[] {
  const around = solidity >= FULL ? hull : rimOf(mask);
  const points = [...(Math.abs(areaOf(around)) > 0 ? around : hull)];
  while (points.length > MOST) {
    let least = 0;
    let loss = Infinity;
    points.forEach((point, at) => {
      const area = Math.abs(areaOf([points.at(at - 1)!, point, points[(at + 1) % points.length]!]));
      if (area < loss) [least, loss] = [at, area];
    });
    points.splice(least, 1);
  }
  while (points.length < FEWEST) {
    const lengths = points.map(([x, y], at) => {
      const [nextX, nextY] = points[(at + 1) % points.length]!;
      return Math.hypot(nextX - x, nextY - y);
    });
    const at = lengths.indexOf(Math.max(...lengths));
    const [[x, y], [nextX, nextY]] = [points[at]!, points[(at + 1) % points.length]!];
    points.splice(at + 1, 0, [(x + nextX) / 2, (y + nextY) / 2]);
  }
  return points;
}

/** The longest way round the smoothed piece, along the edges of its pixels, with the piece on the right hand. */
function rimOf(mask: Mask): Point[] {
  const { width, height, left, top } = mask;
  const soft = smoothed(mask, 1).data;
  const isIn = (x: number, y: number): boolean =>
    x >= 0 && y >= 0 && x < width && y < height && soft[y * width + x]! >= 0.5;
  const seen = new Set<number>();
  let longest: Point[] = [];
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      if (!isIn(x, y) || isIn(x, y - 1) || seen.has(y * width + x)) continue;
      const way: Point[] = [];
      // Right, down, left, up along the edges, turning as far left as the piece lets it.
      let [cornerX, cornerY, heading] = [x, y, 0];
      do {
        way.push([cornerX + left, cornerY + top]);
        if (heading === 0) seen.add(cornerY * width + cornerX);
        const [stepX, stepY] = STEPS[heading]!;
        cornerX += stepX;
        cornerY += stepY;
        heading = [(heading + 3) % 4, heading, (heading + 1) % 4].find((to) => isIn(...ahead(cornerX, cornerY, to)))!;
      } while (cornerX !== x || cornerY !== y);
      if (way.length > longest.length) longest = way;
    }
  return longest;
}

const STEPS = [
  [1, 0],
  [0, 1],
  [-1, 0],
  [0, -1],
] as const;

/** The pixel on the right hand of an edge that goes on from a corner. */
function ahead(x: number, y: number, heading: number): [number, number] {
  if (heading === 0) return [x, y];
  if (heading === 1) return [x - 1, y];
  if (heading === 2) return [x - 1, y - 1];
  return [x, y - 1];
}

/** A yarn is dark and foreign at its edge: this part of half its width is left away all round. Our choice. */
const EDGE = 0.22;

/** The largest box within the piece and away from its edge, at least one pixel. */
export function innerBoxOf(mask: Mask): Box {
  const { width, height, left, top } = mask;
  const depth = depthOf(mask);
  const deepest = depth.reduce((most, value) => Math.max(most, value), 0);
  const least = Math.min(deepest, 1 + EDGE * deepest);
  // The largest box of deep pixels, by the stack of the largest rectangle under a skyline.
  const tall = new Int32Array(width + 1);
  let best: Box = { x: 0, y: 0, width: 0, height: 0 };
  for (let y = 0; y < height; y++) {
    const stack: { from: number; tall: number }[] = [];
    for (let x = 0; x <= width; x++) {
      tall[x] = x < width && depth[y * width + x]! >= least ? tall[x]! + 1 : 0;
      let from = x;
      while (stack.length > 0 && stack.at(-1)!.tall >= tall[x]!) {
        const last = stack.pop()!;
        from = last.from;
        if (last.tall * (x - from) > best.width * best.height)
          best = { x: from, y: y + 1 - last.tall, width: x - from, height: last.tall };
      }
      stack.push({ from, tall: tall[x]! });
    }
  }
  return { ...best, x: best.x + left, y: best.y + top };
}

/** How many pixels lie between each pixel and what is outside, counted along rows, columns and diagonals. */
function depthOf({ width, height, data }: Mask): Float32Array {
  const depth = new Float32Array(width * height);
  const at = (x: number, y: number): number =>
    x < 0 || y < 0 || x >= width || y >= height ? 0 : depth[y * width + x]!;
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++)
      if (data[y * width + x])
        depth[y * width + x] = 1 + Math.min(at(x - 1, y), at(x, y - 1), at(x - 1, y - 1), at(x + 1, y - 1));
  for (let y = height - 1; y >= 0; y--)
    for (let x = width - 1; x >= 0; x--) {
      const around = Math.min(at(x + 1, y), at(x, y + 1), at(x + 1, y + 1), at(x - 1, y + 1));
      depth[y * width + x] = Math.min(depth[y * width + x]!, 1 + around);
    }
  return depth;
}

/** Whether a point lies within a polygon: a ray from it crosses its edges an odd number of times. */
export function isWithin(outline: readonly Point[], x: number, y: number): boolean {
  let isIn = false;
  outline.forEach(([oneX, oneY], at) => {
    const [otherX, otherY] = outline.at(at - 1)!;
    if (oneY > y !== otherY > y && x < ((otherX - oneX) * (y - oneY)) / (otherY - oneY) + oneX) isIn = !isIn;
  });
  return isIn;
}
