/** A page before a camera: from places on its grid to pixels, by a perspective and what the page's curl adds to it. */
import type { Point } from "../chartGrid.ts";
import { homographyBetween, place, type Homography } from "../yarnPhoto/homography.ts";

export interface Sheet {
  /** Where a place of the grid, in columns and rows, lies in the picture. */
  at(column: number, row: number): [number, number];
}

export interface Tie {
  readonly column: number;
  readonly row: number;
  readonly x: number;
  readonly y: number;
  /** Above 0. */
  readonly weight: number;
}

/**
 * The sheet through the ties, by weighted least squares in which ties that lie far off lose their say. With few ties it is
 * held near a parallelogram; the curl comes in as ties allow.
 */
export function sheetThrough(ties: readonly Tie[]): Sheet {
  const frame = framing(ties);
  const spots: Spot[] = ties.map(({ column, row, x, y, weight }) => ({
    u: (column - frame.column) / frame.span,
    v: (row - frame.row) / frame.span,
    x: (x - frame.x) / frame.size,
    y: (y - frame.y) / frame.size,
    weight,
    trust: 1,
  }));
  let perspective: Homography = [1, 0, 0, 0, 1, 0, 0, 0];
  let bend: Bend = NO_BEND;
  const settle = (curls: boolean): number => {
    for (let round = 0; round < ROUNDS; round++) {
      perspective = fitPerspective(spots, perspective);
      bend = curls ? fitBend(spots, perspective) : NO_BEND;
      distrust(spots, perspective, bend);
    }
    const [sum, total] = spots.reduce(
      ([sum, total], { u, v, x, y, weight }) => {
        const [atX, atY] = bent(perspective, bend, u, v);
        // What lies far off has no say in which of the two is better.
        const away = Math.min(Math.hypot(atX - x, atY - y), FAR_OFF);
        return [sum + weight * away, total + weight];
      },
      [0, 0],
    );
    return sum / total;
  };
  const flatAway = settle(false);
  if (spots.length >= LEAST_FOR_BEND) {
    const flat = perspective;
    // A page is taken for flat unless its curl shows.
    if (settle(true) > WORTH_BENDING * flatAway) [perspective, bend] = [flat, NO_BEND];
  }
  return {
    at: (column, row) => {
      const [x, y] = bent(perspective, bend, (column - frame.column) / frame.span, (row - frame.row) / frame.span);
      return [x * frame.size + frame.x, y * frame.size + frame.y];
    },
  };
}

interface Spot {
  readonly u: number;
  readonly v: number;
  readonly x: number;
  readonly y: number;
  readonly weight: number;
  trust: number;
}

function framing(ties: readonly Tie[]): {
  column: number;
  row: number;
  span: number;
  x: number;
  y: number;
  size: number;
} {
  const middle = (value: (tie: Tie) => number): [number, number] => {
    let [least, most] = [Infinity, -Infinity];
    for (const tie of ties) {
      least = Math.min(least, value(tie));
      most = Math.max(most, value(tie));
    }
    return [(least + most) / 2, (most - least) / 2];
  };
  const [[column, wide], [row, high]] = [middle((tie) => tie.column), middle((tie) => tie.row)];
  const [[x, across], [y, down]] = [middle((tie) => tie.x), middle((tie) => tie.y)];
  return { column, row, span: Math.max(wide, high, 1), x, y, size: Math.max(across, down, 1) };
}

/** x·(g·u + h·v + 1) = a·u + b·v + c and so for y, each divided by the depth found before, so that distances count as pixels do. */
function fitPerspective(spots: readonly Spot[], before: Homography): Homography {
  const normal = new Float64Array(8 * 9);
  const factors = new Float64Array(9);
  const add = (weight: number): void => {
    for (let i = 0; i < 8; i++)
      if (factors[i] !== 0) for (let j = 0; j < 9; j++) normal[i * 9 + j]! += weight * factors[i]! * factors[j]!;
  };
  let total = 0;
  for (const { u, v, x, y, weight, trust } of spots) {
    const depth = before[6]! * u + before[7]! * v + 1;
    const share = (weight * trust) / Math.max(0.05, depth * depth);
    total += share;
    factors.set([u, v, 1, 0, 0, 0, -x * u, -x * v, x]);
    add(share);
    factors.set([0, 0, 0, u, v, 1, -y * u, -y * v, y]);
    add(share);
  }
  // A page held aslant is the exception: few ties do not make it one.
  for (let i = 0; i < 8; i++) normal[i * 9 + i]! += i < 6 ? 1e-9 * total : SLANT_PULL + 1e-5 * total;
  return solve(normal, 8);
}

/** What a polynomial adds to x and y. */
interface Bend {
  readonly x: Float64Array | number[];
  readonly y: Float64Array | number[];
}

const TERMS = 12;
const NO_BEND: Bend = { x: new Float64Array(TERMS), y: new Float64Array(TERMS) };

function termsOf(u: number, v: number): number[] {
  return [
    u * u,
    u * v,
    v * v,
    u ** 3,
    u * u * v,
    u * v * v,
    v ** 3,
    u ** 4,
    u ** 3 * v,
    u * u * v * v,
    u * v ** 3,
    v ** 4,
  ];
}

function fitBend(spots: readonly Spot[], perspective: Homography): Bend {
  const width = TERMS + 1;
  const forX = new Float64Array(TERMS * width);
  const forY = new Float64Array(TERMS * width);
  let total = 0;
  for (const { u, v, x, y, weight, trust } of spots) {
    const [flatX, flatY] = place(perspective, u, v);
    const terms = termsOf(u, v);
    const share = weight * trust;
    total += share;
    for (let i = 0; i < TERMS; i++) {
      const part = share * terms[i]!;
      for (let j = 0; j < TERMS; j++) {
        const product = part * terms[j]!;
        forX[i * width + j]! += product;
        forY[i * width + j]! += product;
      }
      forX[i * width + TERMS]! += part * (x - flatX);
      forY[i * width + TERMS]! += part * (y - flatY);
    }
  }
  for (let i = 0; i < TERMS; i++) {
    const pull = BEND_PULL + (i < 3 ? 1e-4 : i < 7 ? 3e-4 : 1e-3) * total;
    forX[i * width + i]! += pull;
    forY[i * width + i]! += pull;
  }
  return { x: solve(forX, TERMS), y: solve(forY, TERMS) };
}

function bent(perspective: Homography, bend: Bend, u: number, v: number): [number, number] {
  const [flatX, flatY] = place(perspective, u, v);
  let [x, y] = [flatX, flatY];
  if (bend === NO_BEND) return [x, y];
  // Beyond the ties the curl goes on straight at most, so its place is held at their edge.
  const [heldU, heldV] = [Math.max(-EDGE, Math.min(EDGE, u)), Math.max(-EDGE, Math.min(EDGE, v))];
  const terms = termsOf(heldU, heldV);
  for (let i = 0; i < TERMS; i++) {
    x += bend.x[i]! * terms[i]!;
    y += bend.y[i]! * terms[i]!;
  }
  return [x, y];
}

/** Ties lose their say by the square of how far off they are, beyond a few times the usual distance (Tukey's weights). */
function distrust(spots: Spot[], perspective: Homography, bend: Bend): void {
  const away = spots.map(({ u, v, x, y }) => {
    const [atX, atY] = bent(perspective, bend, u, v);
    return Math.hypot(atX - x, atY - y);
  });
  const usual = Float64Array.from(away).sort()[away.length >> 1]! + 1e-6;
  for (const [index, spot] of spots.entries()) {
    const far = away[index]! / (FAR * usual);
    spot.trust = far >= 1 ? 1e-6 : (1 - far * far) ** 2;
  }
}

/** Gauss's elimination with the largest pivot; each row of `size` ends with its right side. */
function solve(rows: Float64Array, size: number): number[] {
  const width = size + 1;
  for (let at = 0; at < size; at++) {
    let best = at;
    for (let row = at + 1; row < size; row++)
      if (Math.abs(rows[row * width + at]!) > Math.abs(rows[best * width + at]!)) best = row;
    if (best !== at)
      for (let column = 0; column < width; column++) {
        const kept = rows[at * width + column]!;
        rows[at * width + column] = rows[best * width + column]!;
        rows[best * width + column] = kept;
      }
    const pivot = rows[at * width + at]!;
    for (let row = 0; row < size; row++) {
      if (row === at || rows[row * width + at] === 0) continue;
      const part = rows[row * width + at]! / pivot;
      for (let column = at; column < width; column++) rows[row * width + column]! -= part * rows[at * width + column]!;
    }
  }
  return Array.from({ length: size }, (_, at) => rows[at * width + size]! / rows[at * width + at]!);
}

/** The sheet that four corners and the counts between them make, clockwise from the top left; null where they make none. */
export function sheetOfCorners(corners: readonly Point[], columns: number, rows: number): Sheet | null {
  const from: Point[] = [
    [0, 0],
    [1, 0],
    [1, 1],
    [0, 1],
  ];
  const found = homographyBetween(from, corners);
  return found && { at: (column, row) => place(found, column / columns, row / rows) };
}

const ROUNDS = 4;
const SLANT_PULL = 0.02;
const LEAST_FOR_BEND = 24;
const BEND_PULL = 0.02;
const WORTH_BENDING = 0.75;
/** Half spans of the ties. */
const FAR_OFF = 0.05;
/** Beyond the half span that the ties take. */
const EDGE = 1.1;
/** Times the usual distance, from which on a tie has no say. */
const FAR = 6;
