/** How many colours a picture has and which they are, when its stitches, or pixels, scatter around them. */
import { assert } from "../base/assert.ts";
import { deltaE2000 } from "../colour/difference.ts";
import { din99FromLab } from "../colour/din99.ts";
import type { Lab } from "../colour/lab.ts";

export interface Clustering {
  /** The median colour of each cluster, heaviest first. */
  readonly centres: Lab[];
  /** For each colour given, the index of its centre. */
  readonly assignment: Uint16Array;
  /** The weight of each cluster: the number of its colours where no weights were given. */
  readonly weights: number[];
  /** How far its colours lie from the centre: root mean square, about ΔE00. */
  readonly scatter: number[];
}

export interface ClusterOptions {
  /** How many clusters are wanted; without it the number is found. Fewer come back where there are fewer colours. */
  readonly count?: number;
  /** How many sightings each colour stands for, above 0; 1 where not given. */
  readonly weights?: ArrayLike<number>;
}

/**
 * Gathers colours (CIELAB, D65) into clusters. Without chance: the same colours give the same clusters.
 *
 * The colours are first cut into many small pieces, then the two pieces that are least apart are joined, again and
 * again. Two heaps are two colours when the valley between them is surely lower than half the lower heap, or, for heaps
 * too small to show a valley, when they are many times their scatter apart. So colours 3 ΔE00 apart stay apart while
 * their scatter is small, and a broad scatter stays one colour, because it has no valley.
 */
export function clusterColours(labs: readonly Lab[], options: ClusterOptions = {}): Clustering {
  const { count, weights } = options;
  assert(count === undefined || (Number.isInteger(count) && count > 0), `${count} clusters wanted`);
  assert(
    weights === undefined || weights.length === labs.length,
    `${weights?.length} weights for ${labs.length} colours`,
  );
  const { grains, grainOf } = grind(labs, weights);
  const pieces = cut(grains, count ?? 1);
  const lone = Math.min(LONE_COLOUR, SAME_COLOUR + LONE_PER_SCATTER * typicalScatter(pieces));
  const heaps = settle(join(pieces, count, (one, other) => separation(one, other, lone)));
  heaps.sort((one, other) => other.weight - one.weight || one.grains[0]!.first - other.grains[0]!.first);
  const heapOfGrain = new Map(heaps.flatMap((heap, index) => heap.grains.map((grain) => [grain, index] as const)));
  const centres = heaps.map(medianLab);
  return {
    centres,
    assignment: Uint16Array.from(grainOf, (grain) => heapOfGrain.get(grains[grain]!)!),
    weights: heaps.map(({ weight }) => weight),
    scatter: heaps.map((heap, index) => scatterAround(heap, centres[index]!)),
  };
}

/** Colours so near each other that nobody could tell, taken as one. */
interface Grain {
  /** Where its first colour stands in what was given; orders what is otherwise equal. */
  readonly first: number;
  readonly weight: number;
  readonly lab: Lab;
  /** DIN99o. */
  readonly at: readonly [number, number, number];
}

interface Heap {
  readonly grains: readonly Grain[];
  readonly weight: number;
  /** The mean in DIN99o… */
  readonly centre: readonly [number, number, number];
  /** …and in CIELAB. */
  readonly lab: Lab;
}

/** Edge of a grain in DIN99o units, well below a just noticeable difference; widened until a photo's grains are few. */
const GRAIN_EDGE = 0.3;
const MOST_GRAINS = 6000;

function grind(labs: readonly Lab[], weights?: ArrayLike<number>): { grains: Grain[]; grainOf: Uint32Array } {
  const points = labs.map(din99FromLab);
  const grainOf = new Uint32Array(labs.length);
  for (let edge = GRAIN_EDGE; ; edge *= 1.5) {
    const sums = new Map<number, { index: number; first: number; weight: number; sum: Float64Array }>();
    points.forEach((point, index) => {
      // Coordinates are within ±200, so that each takes less than 2^11 steps of 0.3.
      const key = point.reduce((key, value) => key * 4096 + Math.floor(value / edge) + 2048, 0);
      let grain = sums.get(key);
      if (!grain) sums.set(key, (grain = { index: sums.size, first: index, weight: 0, sum: new Float64Array(6) }));
      const weight = weights ? weights[index]! : 1;
      grain.weight += weight;
      for (let axis = 0; axis < 3; axis++) {
        grain.sum[axis]! += weight * point[axis]!;
        grain.sum[axis + 3]! += weight * labs[index]![axis]!;
      }
      grainOf[index] = grain.index;
    });
    if (sums.size > MOST_GRAINS) continue;
    const grains = Array.from(sums.values(), ({ first, weight, sum }): Grain => {
      const [x, y, z, l, a, b] = sum.map((value) => value / weight) as unknown as [number, number, number, ...Lab];
      return { first, weight, at: [x, y, z], lab: [l, a, b] };
    });
    return { grains, grainOf };
  }
}

/** Pieces to begin with: several for each of the dozen colours of a rich chart, and still quick to join. */
const PIECES = 96;
/** Pieces closer than this in DIN99o units are never two colours, so cutting finer would be idle. */
const FINEST_PIECE = 0.8;
const SETTLING_ROUNDS = 6;

/** Pieces around seeds, each the grain farthest from all seeds before: no colour that stands apart is missed. */
function cut(grains: readonly Grain[], atLeast: number): Heap[] {
  if (grains.length === 0) return [];
  const heaviest = grains.reduce((best, grain) => (grain.weight > best.weight ? grain : best));
  const most = Math.min(grains.length, Math.max(PIECES, 2 * atLeast));
  const seeds = [heaviest.at];
  const distance = grains.map((grain) => squaredDistance(grain.at, heaviest.at));
  while (seeds.length < most) {
    let farthest = 0;
    for (let index = 1; index < grains.length; index++) if (distance[index]! > distance[farthest]!) farthest = index;
    if (distance[farthest]! < FINEST_PIECE ** 2 && seeds.length >= atLeast) break;
    const seed = grains[farthest]!.at;
    seeds.push(seed);
    grains.forEach(({ at }, index) => (distance[index] = Math.min(distance[index]!, squaredDistance(at, seed))));
  }
  let centres: Heap["centre"][] = seeds;
  let heaps: Heap[] = [];
  for (let round = 0; round < SETTLING_ROUNDS; round++) {
    const members: Grain[][] = centres.map(() => []);
    for (const grain of grains) members[nearest(grain.at, centres)]!.push(grain);
    heaps = members.filter((piece) => piece.length > 0).map(heapOf);
    centres = heaps.map(({ centre }) => centre);
  }
  return heaps;
}

/** Joins the two least apart until all are at least 1 apart, or until so many are left as were wanted. */
function join(
  pieces: readonly Heap[],
  count: number | undefined,
  separation: (one: Heap, other: Heap) => number,
): Heap[] {
  const heaps = [...pieces];
  const apart = heaps.map((heap, row) =>
    heaps.map((other, column) => (column < row ? separation(heap, other) : Infinity)),
  );
  while (heaps.length > (count ?? 1)) {
    let row = 1;
    let column = 0;
    for (let i = 1; i < heaps.length; i++)
      for (let j = 0; j < i; j++) if (apart[i]![j]! < apart[row]![column]!) [row, column] = [i, j];
    if (count === undefined && apart[row]![column]! >= 1) break;
    const joined = heapOf([...heaps[column]!.grains, ...heaps[row]!.grains]);
    heaps.splice(row, 1);
    apart.splice(row, 1);
    for (const line of apart) line.splice(row, 1);
    heaps[column] = joined;
    heaps.forEach((other, index) => {
      if (index !== column) apart[Math.max(index, column)]![Math.min(index, column)] = separation(joined, other);
    });
  }
  return heaps;
}

/** ΔE00 below which two heaps are one colour however clean they are; near-equal colours of a chart are about 3 apart. */
const SAME_COLOUR = 2;
/** The part of the lower heap to which the valley must surely fall. */
const DEEP_VALLEY = 0.5;
/** Half the width of the windows in which heaps and valley are counted, as part of the way between the centres. */
const WINDOW = 0.15;
/**
 * Neighbours must besides be this many times their scatter apart: a compressed picture gives one colour several small
 * heaps, of which pictures of charts saved as JPEG showed distances of 2 to 4.5 times their scatter.
 */
const NEAR_IN_SCATTER = 5;
/** ΔE00 from which a deep valley is enough. */
const NEEDS_NO_PROOF = 7;
/** Heaps this many times their scatter apart are two colours, even if one is too small to show a valley… */
const FAR_IN_SCATTER = 8;
/**
 * …and if this far apart in ΔE00: a stray stitch in a compressed picture is nearer to its colour. In a clean picture
 * there are no strays, so the distance grows from SAME_COLOUR with the picture's scatter, and is full from about 0.3.
 */
const LONE_COLOUR = 6;
const LONE_PER_SCATTER = 15;
/** Scatter in DIN99o units that is never taken as less: the rounding of bytes. */
const LEAST_SCATTER = 0.25;

/** A colour this much nearer to another heap's centre than to its own has strayed; less tells nothing in long heaps. */
const STRAYED = 0.6;

/** Moves the colours that were joined to the wrong one of two neighbours. */
function settle(heaps: readonly Heap[]): Heap[] {
  const centres = heaps.map((heap) => din99FromLab(medianLab(heap)));
  const members: Grain[][] = heaps.map(() => []);
  heaps.forEach(({ grains }, own) => {
    for (const grain of grains) {
      const other = nearest(grain.at, centres);
      const isStray =
        squaredDistance(grain.at, centres[other]!) < STRAYED ** 2 * squaredDistance(grain.at, centres[own]!);
      members[isStray ? other : own]!.push(grain);
    }
  });
  return members.filter((grains) => grains.length > 0).map(heapOf);
}

/** How surely two heaps are two colours; they are from 1. */
function separation(one: Heap, other: Heap, lone: number): number {
  const difference = deltaE2000(one.lab, other.lab);
  const distance = Math.sqrt(squaredDistance(one.centre, other.centre));
  if (distance === 0) return 0;
  const way = one.centre.map((value, axis) => (other.centre[axis]! - value) / distance) as [number, number, number];
  const profile = new Float64Array(STEPS);
  const spread = Math.max(
    LEAST_SCATTER,
    project(one, one.centre, way, distance, profile, 0),
    project(other, one.centre, way, distance, profile, distance),
  );
  const lower = Math.min(heapTop(profile, -0.2, 0.2, Math.max), heapTop(profile, 0.8, 1.2, Math.max));
  const valley = heapTop(profile, 0.3, 0.7, Math.min);
  // Both counts are pushed against a split by their chance (Poisson, about 95 %), so that few sightings prove little.
  const surelyLower = Math.max(0.1, lower - Math.sqrt(lower));
  const surelyValley = valley + 1.64 * Math.sqrt(valley) + 3;
  const byValley = (DEEP_VALLEY * surelyLower) / surelyValley;
  const byScatter = Math.min(distance / (FAR_IN_SCATTER * spread), difference / lone);
  const needed = Math.min(NEEDS_NO_PROOF, Math.max(SAME_COLOUR, NEAR_IN_SCATTER * spread));
  return Math.max(Math.min(byValley, difference / needed), byScatter);
}

/** The way from centre to centre is laid out in steps of a fortieth, with half the way more on both sides. */
const STEPS = 80;
const STEPS_PER_WAY = 40;

/** Adds a heap to the profile along the way; gives its scatter along it around `own`, its centre's place on the way. */
function project(
  { grains, weight }: Heap,
  from: Heap["centre"],
  way: readonly [number, number, number],
  distance: number,
  profile: Float64Array,
  own: number,
): number {
  let squares = 0;
  for (const grain of grains) {
    const along =
      (grain.at[0] - from[0]) * way[0] + (grain.at[1] - from[1]) * way[1] + (grain.at[2] - from[2]) * way[2];
    squares += grain.weight * (along - own) ** 2;
    const step = Math.floor((along / distance + 0.5) * STEPS_PER_WAY);
    if (step >= 0 && step < STEPS) profile[step]! += grain.weight;
  }
  return Math.sqrt(squares / weight);
}

/** The most or least weight in a window whose middle lies between two parts of the way. */
function heapTop(profile: Float64Array, from: number, to: number, pick: (...counts: number[]) => number): number {
  const half = Math.round(WINDOW * STEPS_PER_WAY);
  const counts: number[] = [];
  for (let middle = Math.round((from + 0.5) * STEPS_PER_WAY); middle <= (to + 0.5) * STEPS_PER_WAY; middle++) {
    let count = 0;
    for (let step = middle - half; step < middle + half; step++) count += profile[step]!;
    counts.push(count);
  }
  return pick(...counts);
}

function heapOf(grains: readonly Grain[]): Heap {
  let weight = 0;
  const centre: [number, number, number] = [0, 0, 0];
  const lab: [number, number, number] = [0, 0, 0];
  for (const grain of grains) weight += grain.weight;
  for (const grain of grains) {
    const part = grain.weight / weight;
    for (let axis = 0; axis < 3; axis++) {
      centre[axis]! += part * grain.at[axis]!;
      lab[axis]! += part * grain.lab[axis]!;
    }
  }
  return { grains, weight, centre, lab };
}

/** The median of each coordinate: a stray stitch does not pull it. */
function medianLab({ grains, weight }: Heap): Lab {
  const median = (axis: 0 | 1 | 2): number => {
    const sorted = grains.toSorted((one, other) => one.lab[axis] - other.lab[axis]);
    let below = 0;
    for (const [index, grain] of sorted.entries()) {
      below += grain.weight;
      if (below > weight / 2) return grain.lab[axis];
      if (below === weight / 2) return (grain.lab[axis] + sorted[index + 1]!.lab[axis]) / 2;
    }
    return sorted.at(-1)!.lab[axis];
  };
  return [median(0), median(1), median(2)];
}

/** The scatter of the picture as a whole, DIN99o units: around heaps of what is surely one colour. */
function typicalScatter(pieces: readonly Heap[]): number {
  const heaps = join(pieces, undefined, (one, other) => deltaE2000(one.lab, other.lab) / SAME_COLOUR);
  let squares = 0;
  let total = 0;
  for (const { grains, weight, centre } of heaps) {
    for (const grain of grains) squares += grain.weight * squaredDistance(grain.at, centre);
    total += weight;
  }
  return total > 0 ? Math.sqrt(squares / total) : 0;
}

function scatterAround({ grains, weight }: Heap, centre: Lab): number {
  return Math.sqrt(grains.reduce((sum, grain) => sum + grain.weight * deltaE2000(grain.lab, centre) ** 2, 0) / weight);
}

function nearest(at: Heap["centre"], centres: readonly Heap["centre"][]): number {
  let best = 0;
  let least = Infinity;
  for (let index = 0; index < centres.length; index++) {
    const distance = squaredDistance(at, centres[index]!);
    if (distance < least) [best, least] = [index, distance];
  }
  return best;
}

function squaredDistance(one: Heap["centre"], other: Heap["centre"]): number {
  return (one[0] - other[0]) ** 2 + (one[1] - other[1]) ** 2 + (one[2] - other[2]) ** 2;
}
