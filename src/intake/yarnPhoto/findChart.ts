/** A 24-patch chart found in a picture by itself: squares of one colour that stand in a lattice and have the chart's colours. */
import { encodeSrgb } from "../../colour/srgb.ts";
import type { Raster } from "../../raster/raster.ts";
import { shrinkBy } from "../../raster/resample.ts";
import { CHART } from "./chart24.ts";
import { matchPatches, seePatches } from "./chartPatches.ts";
import { homographyBetween, place, type Homography, type Point } from "./homography.ts";
import type { Watch } from "./survey.ts";
import { settledChart, WORST_MISFIT } from "./placeChart.ts";

/** The longer side, pixels, at which is looked: a chart in a corner of the picture still has patches of some pixels. */
const LOOKED_AT: readonly number[] = [640, 1100, 360];
/** Neighbouring pixels of one patch differ by less than this, encoded; noise and JPEG on the one hand, borders on the other. */
const SMOOTH: readonly number[] = [0.03, 0.05, 0.018];
const FEWEST_OF_LATTICE = 9;
/** Rough ground is full of little squares; after so many beginnings of a lattice the largest have been tried. */
const MOST_TRIES = 4000;

/** (column, row) by the middles of patches from 0, to pixels; null where no chart is found. */
export function findChart(picture: Raster, { onStep, stop }: Watch = {}): Homography | null | "stopped" {
  let looks = 0;
  for (const side of LOOKED_AT) {
    const part = Math.min(1, side / Math.max(picture.width, picture.height));
    if (part === 1 && side > LOOKED_AT[0]!) continue;
    const small = shrinkBy(picture, part);
    for (const smooth of SMOOTH) {
      if (stop?.()) return "stopped";
      onStep?.(looks++ / (LOOKED_AT.length * SMOOTH.length));
      const found = findIn(small, smooth);
      if (!found) continue;
      const scale: [number, number] = [picture.width / small.width, picture.height / small.height];
      const settled = settledChart(picture, scaled(found, scale));
      if (settled) return settled.grid;
    }
  }
  return null;
}

const scaled = (h: Homography, [x, y]: readonly [number, number]): Homography => [
  h[0]! * x,
  h[1]! * x,
  h[2]! * x,
  h[3]! * y,
  h[4]! * y,
  h[5]! * y,
  h[6]!,
  h[7]!,
];

function findIn(small: Raster, smooth: number): Homography | null {
  const squares = squaresOf(small, smooth);
  let best: Homography | null = null;
  let least = WORST_MISFIT;
  for (const lattice of latticesOf(squares))
    for (const grid of gridsOf(lattice)) {
      const patches = seePatches(small, grid, 3);
      if (!patches) continue;
      const { misfit, spread } = matchPatches(patches);
      if (misfit + spread / 2 < least) [least, best] = [misfit + spread / 2, grid];
    }
  return best;
}

interface Square {
  readonly at: Point;
  readonly area: number;
}

/** Patches of the picture in one colour that are as full as a square or its slanted picture. */
function squaresOf({ width, height, data }: Raster, smooth: number): Square[] {
  const encoded = Float32Array.from(data, (value) => encodeSrgb(Math.max(0, value)));
  const differs = (one: number, other: number): boolean =>
    Math.abs(encoded[one * 3]! - encoded[other * 3]!) > smooth ||
    Math.abs(encoded[one * 3 + 1]! - encoded[other * 3 + 1]!) > smooth ||
    Math.abs(encoded[one * 3 + 2]! - encoded[other * 3 + 2]!) > smooth;
  const seen = new Uint8Array(width * height);
  const squares: Square[] = [];
  const queue = new Int32Array(width * height);
  for (let start = 0; start < seen.length; start++) {
    if (seen[start]) continue;
    let length = 1;
    queue[0] = start;
    seen[start] = 1;
    let [sx, sy, sxx, sxy, syy] = [0, 0, 0, 0, 0];
    for (let head = 0; head < length; head++) {
      const pixel = queue[head]!;
      const x = pixel % width;
      const y = (pixel - x) / width;
      sx += x;
      sy += y;
      sxx += x * x;
      sxy += x * y;
      syy += y * y;
      const neighbours = [x > 0 ? pixel - 1 : -1, x < width - 1 ? pixel + 1 : -1, pixel - width, pixel + width];
      for (const next of neighbours) {
        if (next < 0 || next >= seen.length || seen[next] || differs(pixel, next) || differs(start, next)) continue;
        seen[next] = 1;
        queue[length++] = next;
      }
    }
    if (length < 16 || length > (width * height) / 24) continue;
    const [mx, my] = [sx / length, sy / length];
    const determinant = (sxx / length - mx * mx) * (syy / length - my * my) - (sxy / length - mx * my) ** 2;
    // A parallelogram's area is 12 times the root of the determinant of its second moments; anything ragged has less.
    const fullness = length / (12 * Math.sqrt(Math.max(1e-9, determinant)));
    const slimness = (sxx / length - mx * mx + syy / length - my * my) / Math.sqrt(Math.max(1e-9, determinant));
    if (fullness > 0.82 && slimness < 4) squares.push({ at: [mx, my], area: length });
  }
  return squares;
}

interface Lattice {
  readonly places: Point[];
  readonly at: Point[];
}

/** Squares that follow each other at even steps, from each square and two of its neighbours. */
function latticesOf(squares: readonly Square[]): Lattice[] {
  const lattices: Lattice[] = [];
  const used = new Set<Square>();
  let tries = 0;
  for (const seed of squares.toSorted((one, other) => other.area - one.area)) {
    if (used.has(seed) || tries > MOST_TRIES) continue;
    const alike = squares.filter(
      ({ area, at }) =>
        area > seed.area / 3 && area < seed.area * 3 && distance(seed.at, at) < 10 * Math.sqrt(seed.area),
    );
    const reach = 2 * Math.sqrt(seed.area);
    const near = alike.filter((other) => other !== seed && distance(seed.at, other.at) < reach);
    let best: { lattice: Lattice; members: Square[] } | null = null;
    for (const [index, one] of near.entries())
      for (const other of near.slice(0, index)) {
        const u: Point = [one.at[0] - seed.at[0], one.at[1] - seed.at[1]];
        const v: Point = [other.at[0] - seed.at[0], other.at[1] - seed.at[1]];
        const sine = Math.abs(u[0] * v[1] - u[1] * v[0]) / (Math.hypot(...u) * Math.hypot(...v));
        if (sine < 0.6) continue;
        tries++;
        const grown = grow(seed, u, v, alike);
        if (!best || grown.members.length > best.members.length) best = grown;
      }
    if (!best || best.members.length < FEWEST_OF_LATTICE) continue;
    for (const member of best.members) used.add(member);
    lattices.push(best.lattice);
  }
  return lattices;
}

/** From a square and two steps outwards; each step is corrected by what was found beside it, so a slant does not matter. */
function grow(seed: Square, u: Point, v: Point, alike: readonly Square[]): { lattice: Lattice; members: Square[] } {
  const found = new Map<string, { square: Square; place: Point; u: Point; v: Point }>();
  const taken = new Set<Square>([seed]);
  const first = { square: seed, place: [0, 0] as Point, u, v };
  found.set("0,0", first);
  const queue = [first];
  for (const from of queue)
    for (const [dx, dy] of [
      [1, 0],
      [-1, 0],
      [0, 1],
      [0, -1],
    ] as const) {
      const place: Point = [from.place[0] + dx, from.place[1] + dy];
      if (Math.abs(place[0]) > 6 || Math.abs(place[1]) > 6 || found.has(place.join())) continue;
      const step = dx !== 0 ? from.u : from.v;
      const sign = dx + dy;
      const at: Point = [from.square.at[0] + sign * step[0], from.square.at[1] + sign * step[1]];
      let nearest: Square | null = null;
      for (const square of alike)
        if (!taken.has(square) && (!nearest || distance(square.at, at) < distance(nearest.at, at))) nearest = square;
      if (!nearest || distance(nearest.at, at) > 0.22 * Math.hypot(...step)) continue;
      const ratio = nearest.area / from.square.area;
      if (ratio < 0.5 || ratio > 2) continue;
      const walked: Point = [sign * (nearest.at[0] - from.square.at[0]), sign * (nearest.at[1] - from.square.at[1])];
      const next = { square: nearest, place, u: dx !== 0 ? walked : from.u, v: dx !== 0 ? from.v : walked };
      taken.add(nearest);
      found.set(place.join(), next);
      queue.push(next);
    }
  const members = [...found.values()];
  return {
    lattice: { places: members.map(({ place }) => place), at: members.map(({ square }) => square.at) },
    members: members.map(({ square }) => square),
  };
}

/** Every way in which a lattice may lie on the chart: which way is along, and what of the chart was not found. */
function gridsOf({ places, at }: Lattice): Homography[] {
  const lattice = homographyBetween(places, at);
  if (!lattice) return [];
  const grids: Homography[] = [];
  const ends: Point[] = [
    [0, 0],
    [CHART.columns - 1, 0],
    [CHART.columns - 1, CHART.rows - 1],
    [0, CHART.rows - 1],
  ];
  for (const [[a, b], [c, d]] of TURNS) {
    const turned = places.map(([x, y]): Point => [a * x + b * y, c * x + d * y]);
    const [left, top] = [Math.min(...turned.map(([x]) => x)), Math.min(...turned.map(([, y]) => y))];
    const [right, bottom] = [Math.max(...turned.map(([x]) => x)), Math.max(...turned.map(([, y]) => y))];
    for (let x = right - CHART.columns + 1; x <= left; x++)
      for (let y = bottom - CHART.rows + 1; y <= top; y++) {
        const corners = ends.map(([column, row]): Point => {
          // A turn's inverse is its transpose.
          const [p, q] = [column + x, row + y];
          return place(lattice, a * p + c * q, b * p + d * q);
        });
        const grid = isWhole(corners) ? homographyBetween(ends, corners) : null;
        if (grid) grids.push(grid);
      }
  }
  return grids;
}

/** The eight turns of a lattice; those that would be a mirror are sorted out by the sense of the corners. */
const TURNS: readonly (readonly [Point, Point])[] = [
  [
    [1, 0],
    [0, 1],
  ],
  [
    [0, -1],
    [1, 0],
  ],
  [
    [-1, 0],
    [0, -1],
  ],
  [
    [0, 1],
    [-1, 0],
  ],
  [
    [1, 0],
    [0, -1],
  ],
  [
    [-1, 0],
    [0, 1],
  ],
  [
    [0, 1],
    [1, 0],
  ],
  [
    [0, -1],
    [-1, 0],
  ],
];

/** Whether four corners go round clockwise, as the picture is looked at. */
function isWhole(corners: readonly Point[]): boolean {
  return corners.every((corner, at) => {
    const next = corners[(at + 1) % 4]!;
    const after = corners[(at + 2) % 4]!;
    return (next[0] - corner[0]) * (after[1] - next[1]) - (next[1] - corner[1]) * (after[0] - next[0]) > 0;
  });
}

const distance = (one: Point, other: Point): number => Math.hypot(one[0] - other[0], one[1] - other[1]);
