/** The light that fell unevenly on a page: a smooth factor to each cell and channel, found because a colour is met all over a chart. */
import { din99FromLab } from "../../colour/din99.ts";
import type { Lab } from "../../colour/lab.ts";
import { labFromLinear } from "../../colour/lab.ts";
import { clusterColours } from "../../raster/cluster.ts";

export interface Lattice {
  readonly columns: number;
  readonly rows: number;
  /** Linear light as it is in the picture: three to the cell. */
  readonly light: Float32Array;
  /** How much each cell's colour is to be trusted, 0 to 1; 0 where there is none. */
  readonly trust: Float32Array;
}

/**
 * The light without its unevenness, in the same form; the mean of the factor's logarithm over the cells is 0. `guess` is what is
 * known of that logarithm beforehand. Of a field with the guess, one without, and none, the one under which the cells' colours
 * are told in the fewest words.
 */
export function evenLight(lattice: Lattice, guess: Float32Array | null): { light: Float32Array; field: Float32Array } {
  const step = Math.ceil(Math.sqrt((lattice.columns * lattice.rows) / MOST_CELLS));
  const field =
    step > 1 ? spreadOut(lattice, bestField(thinned(lattice, step), null), step) : bestField(lattice, guess);
  const light = new Float32Array(lattice.light.length);
  for (let at = 0; at < light.length; at++) light[at] = lattice.light[at]! * Math.exp(-field[at]!);
  return { light, field };
}

/** Cells that show the light of a page; where there are more, they are small, and only some are asked. */
const MOST_CELLS = 10_000;

function bestField(lattice: Lattice, guess: Float32Array | null): Float32Array {
  const fields = [
    new Float32Array(lattice.light.length),
    fieldOf(lattice, null),
    ...(guess ? [fieldOf(lattice, guess)] : []),
  ];
  const words = fields.map((each) => wordsFor(lattice, each));
  return fields[words.indexOf(Math.min(...words))]!;
}

/** Every so manieth cell of every so manieth row, from the first. */
function thinned({ columns, rows, light, trust }: Lattice, step: number): Lattice {
  const [wide, high] = [Math.ceil(columns / step), Math.ceil(rows / step)];
  const few = {
    columns: wide,
    rows: high,
    light: new Float32Array(wide * high * 3),
    trust: new Float32Array(wide * high),
  };
  for (let cell = 0; cell < wide * high; cell++) {
    const from = Math.floor(cell / wide) * step * columns + (cell % wide) * step;
    few.trust[cell] = trust[from]!;
    for (let channel = 0; channel < 3; channel++) few.light[cell * 3 + channel] = light[from * 3 + channel]!;
  }
  return few;
}

/** The field of such cells for all of them. */
function spreadOut({ columns, rows }: Lattice, few: Float32Array, step: number): Float32Array {
  const [wide, high] = [Math.ceil(columns / step), Math.ceil(rows / step)];
  const field = new Float32Array(columns * rows * 3);
  for (let row = 0; row < rows; row++)
    for (let column = 0; column < columns; column++) {
      const [left, top] = [Math.floor(column / step), Math.floor(row / step)];
      const [u, v] = [(column % step) / step, (row % step) / step];
      const [right, below] = [Math.min(wide - 1, left + 1), Math.min(high - 1, top + 1)];
      for (let channel = 0; channel < 3; channel++) {
        const at = (x: number, y: number): number => few[(y * wide + x) * 3 + channel]!;
        field[(row * columns + column) * 3 + channel] =
          (at(left, top) * (1 - u) + at(right, top) * u) * (1 - v) +
          (at(left, below) * (1 - u) + at(right, below) * u) * v;
      }
    }
  return field;
}

/** How long it takes to tell all colours under a field: which of a few colours each cell has, and how far it is from it. */
function wordsFor(lattice: Lattice, field: Float32Array): number {
  const labs = coloursUnder(lattice, field, HEARD);
  if (labs.length < 4) return 0;
  const { centres, assignment, weights } = clusterColours(labs);
  const points = labs.map(din99FromLab);
  const middles = centres.map(din99FromLab);
  const off = points
    .map((point, index) =>
      point.reduce((sum, part, axis) => sum + (part - middles[assignment[index]!]![axis]!) ** 2, 0),
    )
    .sort((one, other) => one - other);
  // What is of no colour would say more than all others together.
  const scatter = Math.sqrt(off[Math.floor(USUAL * off.length)]! / 3 + LEAST_SCATTER ** 2);
  const which = weights.reduce((sum, weight) => sum - weight * Math.log(weight / labs.length), 0);
  // What is off by the light is off along one way only.
  return which + labs.length * Math.log(scatter) + 1.5 * centres.length * Math.log(labs.length);
}

/** Trust from which a cell is heard when fields are compared. */
const HEARD = 0.01;
/** Part of the cells that are of some colour. */
const USUAL = 0.8;
/** DIN99o: no cell is nearer its colour than rounding lets it be. */
const LEAST_SCATTER = 0.3;

function coloursUnder(lattice: Lattice, field: Float32Array, least: number): Lab[] {
  const count = lattice.columns * lattice.rows;
  const labs: Lab[] = [];
  const stride = Math.max(1, Math.floor(count / MOST_CLUSTERED));
  for (let cell = 0; cell < count; cell++) {
    if (lattice.trust[cell]! < least || (cell * 7919) % stride !== 0) continue;
    labs.push(labOf(lattice.light, field, cell));
  }
  return labs;
}

function fieldOf(lattice: Lattice, guess: Float32Array | null): Float32Array {
  const count = lattice.columns * lattice.rows;
  const logs = logsOf(lattice);
  const known = new Float32Array(count * 3);
  if (guess) for (let at = 0; at < known.length; at++) known[at] = guess[Math.floor(at / 3)]!;
  const field = slopes(
    lattice,
    logs.map((value, at) => value - known[at]!),
  );
  for (let at = 0; at < known.length; at++) field[at]! += known[at]!;
  centred(field, lattice.trust);
  for (const reach of REACHES) {
    const labs = coloursUnder(lattice, field, TRUSTED);
    if (labs.length < 4) break;
    refine(lattice, logs, field, clusterColours(labs).centres, reach);
  }
  return field;
}

/** Cells whose colour is trusted less have no say in what the colours are. */
const TRUSTED = 0.5;
/** Cells that are enough to find the colours by. */
const MOST_CLUSTERED = 2000;
/** Reach, in cells, over which what is left of the field is taken as one, from round to round. */
const REACHES = [6, 3, 2, 2];
/** Light added before logarithms are taken, so that the noise of what is black counts for little. */
const DARK = 0.004;

function logsOf({ light }: Lattice): Float32Array {
  return light.map((value) => Math.log(Math.max(0, value) + DARK));
}

function labOf(light: Float32Array, field: Float32Array, cell: number): Lab {
  const part = (channel: number): number => light[cell * 3 + channel]! * Math.exp(-field[cell * 3 + channel]!);
  return labFromLinear([part(0), part(1), part(2)]);
}

/** Neighbours, as steps across and down, that may be of one colour. */
const NEIGHBOURS = [[1, 0], [0, 1], [1, 1], [-1, 1], [2, 0], [0, 2]] as const; // prettier-ignore
/** x^p·y^q of the field's slope. */
const POWERS = [[1, 0], [0, 1], [2, 0], [1, 1], [0, 2], [3, 0], [2, 1], [1, 2], [0, 3]] as const; // prettier-ignore
/** Logarithms: differences of neighbours that are counted as one colour's, round by round. */
const SAME_FROM_ROUND = [0.1, 0.08, 0.06, 0.05, 0.04, 0.03];
/** The size, as a logarithm, that each term of the slope has by itself. */
const USUAL_SLOPE = 0.3;

/** A slow slope of the light, from the small differences between neighbours: many of them are of one colour. */
function slopes({ columns, rows, trust }: Lattice, logs: Float32Array): Float32Array {
  const terms = POWERS.length;
  const basis = (column: number, row: number): Float64Array => {
    const [x, y] = [(2 * column) / Math.max(1, columns - 1) - 1, (2 * row) / Math.max(1, rows - 1) - 1];
    return Float64Array.from(POWERS, ([p, q]) => x ** p * y ** q);
  };
  const rowsOfBasis = Array.from({ length: columns * rows }, (_, cell) =>
    basis(cell % columns, Math.floor(cell / columns)),
  );
  let fit: Float64Array[] = [new Float64Array(terms), new Float64Array(terms), new Float64Array(terms)];
  for (const same of SAME_FROM_ROUND) {
    const matrix = new Float64Array(terms * terms);
    const sides = fit.map(() => new Float64Array(terms));
    for (let cell = 0; cell < columns * rows; cell++) {
      const [column, row] = [cell % columns, Math.floor(cell / columns)];
      for (const [across, down] of NEIGHBOURS) {
        if (column + across < 0 || column + across >= columns || row + down >= rows) continue;
        const other = cell + down * columns + across;
        const both = trust[cell]! * trust[other]!;
        if (both === 0) continue;
        const [one, two] = [rowsOfBasis[cell]!, rowsOfBasis[other]!];
        let off = 0;
        const steps = [0, 0, 0];
        for (let channel = 0; channel < 3; channel++) {
          let guess = 0;
          for (let term = 0; term < terms; term++) guess += fit[channel]![term]! * (two[term]! - one[term]!);
          steps[channel] = logs[other * 3 + channel]! - logs[cell * 3 + channel]!;
          off += (steps[channel]! - guess) ** 2;
        }
        const weight = both / (1 + off / (3 * same * same)) ** 2;
        if (weight < 0.02) continue;
        for (let term = 0; term < terms; term++) {
          const part = weight * (two[term]! - one[term]!);
          for (let second = 0; second <= term; second++)
            matrix[term * terms + second]! += part * (two[second]! - one[second]!);
          for (let channel = 0; channel < 3; channel++) sides[channel]![term]! += part * steps[channel]!;
        }
      }
    }
    for (let term = 0; term < terms; term++) {
      matrix[term * terms + term]! += (same / USUAL_SLOPE) ** 2;
      for (let second = 0; second < term; second++) matrix[second * terms + term] = matrix[term * terms + second]!;
    }
    fit = solved(matrix, sides);
  }
  const field = new Float32Array(columns * rows * 3);
  for (let cell = 0; cell < columns * rows; cell++)
    for (let channel = 0; channel < 3; channel++)
      field[cell * 3 + channel] = rowsOfBasis[cell]!.reduce(
        (sum, value, term) => sum + value * fit[channel]![term]!,
        0,
      );
  return centred(field, trust);
}

/** Cholesky's way, for several right sides. */
function solved(matrix: Float64Array, sides: readonly Float64Array[]): Float64Array[] {
  const n = sides[0]!.length;
  const lower = new Float64Array(n * n);
  for (let i = 0; i < n; i++)
    for (let j = 0; j <= i; j++) {
      let sum = matrix[i * n + j]!;
      for (let k = 0; k < j; k++) sum -= lower[i * n + k]! * lower[j * n + k]!;
      lower[i * n + j] = i === j ? Math.sqrt(Math.max(1e-12, sum)) : sum / lower[j * n + j]!;
    }
  return sides.map((side) => {
    const x = side.slice();
    for (let i = 0; i < n; i++) {
      for (let k = 0; k < i; k++) x[i]! -= lower[i * n + k]! * x[k]!;
      x[i]! /= lower[i * n + i]!;
    }
    for (let i = n - 1; i >= 0; i--) {
      for (let k = i + 1; k < n; k++) x[i]! -= lower[k * n + i]! * x[k]!;
      x[i]! /= lower[i * n + i]!;
    }
    return x;
  });
}

function centred(field: Float32Array, trust: Float32Array): Float32Array {
  for (let channel = 0; channel < 3; channel++) {
    let [sum, weight] = [0, 0];
    for (let cell = 0; cell < trust.length; cell++) {
      sum += trust[cell]! * field[cell * 3 + channel]!;
      weight += trust[cell]!;
    }
    for (let cell = 0; cell < trust.length; cell++) field[cell * 3 + channel]! -= sum / Math.max(1e-9, weight);
  }
  return field;
}

/** ΔE (CIE 1976) beyond which a cell is of none of the colours, and says nothing of the light. */
const NONE_OF_THEM = 14;
/** Weight, in cells, by which the field stays what it was where few cells speak. */
const STAYS = 1.5;

/** What the cells' nearest colours leave over, smoothed, goes into the field. */
function refine(
  { columns, rows, light, trust }: Lattice,
  logs: Float32Array,
  field: Float32Array,
  centres: readonly Lab[],
  reach: number,
): void {
  const count = columns * rows;
  const sums = [0, 1, 2].map(() => new Float32Array(count));
  const weights = new Float32Array(count);
  const nearest = new Int32Array(count).fill(-1);
  for (let cell = 0; cell < count; cell++) {
    if (trust[cell]! === 0) continue;
    const lab = labOf(light, field, cell);
    let [best, least] = [-1, NONE_OF_THEM ** 2];
    for (const [index, centre] of centres.entries()) {
      const apart = (lab[0] - centre[0]) ** 2 + (lab[1] - centre[1]) ** 2 + (lab[2] - centre[2]) ** 2;
      if (apart < least) [best, least] = [index, apart];
    }
    nearest[cell] = best;
  }
  // The colours' own logarithms as medians, under the field as it is.
  const medians = centres.map((_, index) => {
    const members: number[][] = [[], [], []];
    for (let cell = 0; cell < count; cell++)
      if (nearest[cell] === index)
        for (let channel = 0; channel < 3; channel++)
          members[channel]!.push(logs[cell * 3 + channel]! - field[cell * 3 + channel]!);
    return members.map((list) => list.sort((one, other) => one - other)[list.length >> 1] ?? 0);
  });
  for (let cell = 0; cell < count; cell++) {
    const index = nearest[cell]!;
    if (index < 0) continue;
    const luma = 0.3 * light[cell * 3]! + 0.6 * light[cell * 3 + 1]! + 0.1 * light[cell * 3 + 2]!;
    const weight = trust[cell]! * (luma / (luma + 0.03)) ** 2;
    weights[cell] = weight;
    for (let channel = 0; channel < 3; channel++)
      sums[channel]![cell] =
        weight * (logs[cell * 3 + channel]! - field[cell * 3 + channel]! - medians[index]![channel]!);
  }
  const under = spread(weights, columns, rows, reach);
  for (let channel = 0; channel < 3; channel++) {
    const over = spread(sums[channel]!, columns, rows, reach);
    const own = STAYS / (4 * reach * reach);
    for (let cell = 0; cell < count; cell++) field[cell * 3 + channel]! += over[cell]! / (under[cell]! + own);
  }
  centred(field, trust);
}

/** Means over squares of 2·reach + 1 cells, taken twice; outside there is nothing. */
function spread(values: Float32Array, columns: number, rows: number, reach: number): Float32Array {
  let from = values;
  for (let pass = 0; pass < 2; pass++) {
    from = along(from, columns, rows, 1, columns, reach);
    from = along(from, rows, columns, columns, 1, reach);
  }
  return from;
}

function along(
  from: Float32Array,
  count: number,
  lines: number,
  step: number,
  jump: number,
  reach: number,
): Float32Array {
  const to = new Float32Array(from.length);
  const part = 1 / (2 * reach + 1);
  for (let line = 0; line < lines; line++) {
    const start = line * jump;
    let sum = 0;
    for (let at = 0; at < Math.min(reach, count); at++) sum += from[start + at * step]!;
    for (let at = 0; at < count; at++) {
      if (at + reach < count) sum += from[start + (at + reach) * step]!;
      to[start + at * step] = sum * part;
      if (at - reach >= 0) sum -= from[start + (at - reach) * step]!;
    }
  }
  return to;
}
