/** How sure every cell's reading is: how far it is on its way from its own kind to another. */
import { din99FromLab } from "../../colour/din99.ts";
import type { Lab } from "../../colour/lab.ts";
import type { Kind, Seen } from "./kinds.ts";
import type { Marks } from "./marks.ts";
import { shapeOf, unlike } from "./shapes.ts";
import { twoInOne } from "./twoInOne.ts";

/** Marks nearer than this, root mean square in bytes, tell two kinds apart less than their grounds do. */
const SAME_MARK = 6;

export interface Surely {
  /** For each cell its kind, which may be another than before. */
  readonly of: Int32Array;
  /** 0 to 1 for each cell. */
  readonly sure: Float32Array;
}

/** `even` is the part of a cell that has its ground. */
export function surenessOf(
  kinds: readonly Kind[],
  labs: readonly Lab[],
  marks: Marks | null,
  even: Float32Array,
  { looking, noise }: Seen,
): Surely {
  const points = labs.map(din99FromLab);
  const looks = kinds.map(({ cells }) => marks && meanLook(marks, cells));
  const grounds = kinds.map(({ cells }) => meanPoint(points, cells));
  const of = new Int32Array(labs.length);
  const sure = new Float32Array(labs.length).fill(1);
  for (const [index, kind] of kinds.entries()) for (const cell of kind.cells) of[cell] = index;
  const shapes = marks ? kinds.map(({ cells }) => shapeOf(looking, cells)) : [];
  const measure = { noise, least: SAME_MARK };
  const byGround = kinds.map((one, first) =>
    kinds.map(
      (other, second) =>
        !one.mark ||
        !other.mark ||
        (distance(one.mark, other.mark) < SAME_MARK && unlike(shapes[first]!, shapes[second]!, measure) < 1),
    ),
  );
  const scatters = scattersOf(kinds, points, grounds);
  for (let cell = 0; cell < labs.length; cell++) {
    const own = of[cell]!;
    let [nearest, farthest] = [own, 0];
    let odds = Infinity;
    for (const other of kinds.keys()) {
      if (other === own) continue;
      const way = byGround[own]![other]
        ? partOfWay(points[cell]!, 0, grounds[own]!, grounds[other]!)
        : partOfWay(marks!.looks, cell * marks!.length, looks[own]!, looks[other]!);
      if (byGround[own]![other]) {
        const distance = distanceOf(grounds[own]!, grounds[other]!) / Math.hypot(scatters[own]!, scatters[other]!);
        odds = Math.min(odds, distance * distance * (1 - 2 * way));
        // No farther than its colour scatters anyway.
        if (way < 0.5 && way * distance < SCATTERED) continue;
      }
      if (way > farthest) [nearest, farthest] = [other, way];
    }
    if (farthest > LOOKED_AT && !byGround[own]![nearest] && shapes.length > 0) {
      const shape = shapeOf(looking, [cell]);
      const [mine, its] = [unlike(shape, shapes[own]!, measure), unlike(shape, shapes[nearest]!, measure)];
      farthest = mine / Math.max(1e-6, mine + its);
    }
    if (farthest > 0.5) {
      // A kind of few cells is not known well enough to draw others to it.
      if (farthest > OVER && kinds[nearest]!.cells.length >= KNOWN) {
        of[cell] = nearest;
        farthest = 1 - Math.min(1, farthest);
      } else farthest = 0.5;
    }
    sure[cell] = Math.min(1 - 2 * Math.min(0.5, farthest), Math.max(0, odds) / SURE_ODDS);
    // A plain cell that is not of one colour has something in it.
    if (!kinds[own]!.signed) sure[cell] = Math.min(sure[cell]!, even[cell]! / PLAIN);
  }
  for (const { apart } of kinds) for (const cell of apart) sure[cell] = Math.min(sure[cell]!, KIND_UNSURE);
  for (const { cells, signed } of kinds)
    for (const index of signed ? [] : twoInOne(cells.map((cell) => points[cell]!)))
      sure[cells[index]!] = Math.min(sure[cells[index]!]!, KIND_UNSURE);
  // Of two kinds that are hardly two, the smaller may be the other.
  for (const [index, kind] of kinds.entries()) {
    if (!kind.signed) continue;
    for (const [other, { signed, cells, lab }] of kinds.entries())
      if (
        other !== index &&
        signed &&
        cells.length >= kind.cells.length &&
        Math.hypot(lab[0] - kind.lab[0], lab[1] - kind.lab[1], lab[2] - kind.lab[2]) < ONE_GROUND &&
        unlike(shapes[index]!, shapes[other]!, measure) < HARDLY_TWO
      )
        for (const cell of kind.cells) sure[cell] = Math.min(sure[cell]!, KIND_UNSURE);
  }
  return { of, sure };
}

/** Times its scatter that a cell's colour may lie off without being a mixture. */
const SCATTERED = 2.5;
/**
 * Logarithm of the odds, twice, for its own colour against another from which a cell is quite sure: at 0.4 of it, below which
 * cells are doubted, it is e⁴ : 1.
 */
const SURE_ODDS = 20;
/** DIN99o: no colour scatters less than bytes are rounded. */
const LEAST_SCATTER = 0.25;
/** Cells that show how far their colour scatters. */
const SHOWN = 5;
/** The median distance from the middle of a normal heap in space, in its scatter along one axis: √ of the median of χ² with 3 degrees. */
const MEDIAN_DISTANCE = 1.538;

/** How far each kind's colours scatter along any one way, DIN99o, whatever strays; few cells as much as all usually do. */
function scattersOf(kinds: readonly Kind[], points: readonly Lab[], middles: readonly Float64Array[]): number[] {
  const own = kinds.map(({ cells }, kind) => {
    const away = cells.map((cell) => distanceOf(points[cell]!, middles[kind]!)).sort((one, other) => one - other);
    return Math.max(LEAST_SCATTER, away[away.length >> 1]! / MEDIAN_DISTANCE);
  });
  const known = own.filter((_, kind) => kinds[kind]!.cells.length >= SHOWN).sort((one, other) => one - other);
  const usual = known[known.length >> 1] ?? LEAST_SCATTER;
  return own.map((scatter, kind) => (kinds[kind]!.cells.length >= SHOWN ? scatter : Math.max(scatter, usual)));
}

const distanceOf = (one: ArrayLike<number>, other: ArrayLike<number>): number =>
  Math.hypot(one[0]! - other[0]!, one[1]! - other[1]!, one[2]! - other[2]!);

/** Part of the way to another kind from which a cell's shape is laid upon both. */
const LOOKED_AT = 0.25;
/** How sure cells are whose kind may be another. */
const KIND_UNSURE = 0.3;
/** How far apart two shapes are that may be one sign all the same, drawn or blurred otherwise; see `unlike`. */
const HARDLY_TWO = 1.15;
/** CIE 1976 difference within which two grounds may be one. */
const ONE_GROUND = 25;

/** Part of the way beyond which a cell goes over to the other kind, and cells that the other must have. */
const OVER = 0.6;
const KNOWN = 6;
/** Part of a plain cell's inside that has its colour. */
const PLAIN = 0.9;

/** 0 at one, 1 at the other, seen along the way between them. */
function partOfWay(values: ArrayLike<number>, from: number, one: ArrayLike<number>, other: ArrayLike<number>): number {
  let [along, whole] = [0, 0];
  for (let at = 0; at < one.length; at++) {
    const step = other[at]! - one[at]!;
    along += (values[from + at]! - one[at]!) * step;
    whole += step * step;
  }
  return whole === 0 ? 0 : along / whole;
}

const distance = (one: Float64Array, other: Float64Array): number =>
  Math.hypot(...one.map((value, at) => value - other[at]!));

function meanLook({ looks, length }: Marks, cells: readonly number[]): Float64Array {
  const mean = new Float64Array(length);
  for (const cell of cells) for (let at = 0; at < length; at++) mean[at]! += looks[cell * length + at]! / cells.length;
  return mean;
}

function meanPoint(points: readonly Lab[], cells: readonly number[]): Float64Array {
  const mean = new Float64Array(3);
  for (const cell of cells) for (let axis = 0; axis < 3; axis++) mean[axis]! += points[cell]![axis]! / cells.length;
  return mean;
}
