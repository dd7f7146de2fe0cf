/** How the light changes from cell to cell, seen inside each cell, where the colour is one and only the light can change. */
import type { Grounds } from "./grounds.ts";
import type { Patches } from "./patches.ts";
import { LINEAR_OF_BYTE } from "../../colour/srgb.ts";

/** Samples to a side from which a slope can be told from the blur of what is beside. */
const FEWEST_SAMPLES = 8;
/** Part of the cell left out at each side. */
const MARGIN = 0.2;
/** Bytes from the ground beyond which a sample is a sign's. */
const SIGN = 40;
/** Light below which a slope is mostly noise. */
const DIM = 0.05;
/** Cells on each side whose slopes are taken together. */
const TOGETHER = 1;
/** Weight of standing still against a usual cell's slope. */
const STILL = 0.02;
const ROUNDS = 400;

/** Logarithm of the light in each cell up to a constant; null where cells are too small to tell. */
export function lightFromSlopes(patches: Patches, grounds: Grounds, trust: Float32Array): Float32Array | null {
  const { columns, rows, side } = patches;
  if (side < FEWEST_SAMPLES) return null;
  const { across, down, weight } = slopesOf(patches, grounds, trust);
  const under = around(weight, columns, rows);
  const [u, v] = [across, down].map((slopes) => {
    const sums = around(
      slopes.map((slope, cell) => slope * weight[cell]!),
      columns,
      rows,
    );
    return sums.map((sum, cell) => sum / (under[cell]! + 1e-6));
  }) as [Float32Array, Float32Array];
  return integrated(u, v, under, columns, rows);
}

function slopesOf(
  { side, bytes }: Patches,
  grounds: Grounds,
  trust: Float32Array,
): { across: Float32Array; down: Float32Array; weight: Float32Array } {
  const cells = trust.length;
  const [across, down, weight] = [new Float32Array(cells), new Float32Array(cells), new Float32Array(cells)];
  const skip = Math.round(MARGIN * side);
  for (let cell = 0; cell < cells; cell++) {
    if (trust[cell] === 0) continue;
    const from = cell * 3;
    let [n, sx, sy, sxx, syy, sxy, sz, sxz, syz, light] = [0, 0, 0, 0, 0, 0, 0, 0, 0, 0];
    for (let y = skip; y < side - skip; y++)
      for (let x = skip; x < side - skip; x++) {
        const at = ((cell * side + y) * side + x) * 3;
        if (
          Math.abs(bytes[at]! - grounds.colours[from]!) > SIGN ||
          Math.abs(bytes[at + 1]! - grounds.colours[from + 1]!) > SIGN ||
          Math.abs(bytes[at + 2]! - grounds.colours[from + 2]!) > SIGN
        )
          continue;
        const luma =
          0.3 * LINEAR_OF_BYTE[bytes[at]!]! +
          0.6 * LINEAR_OF_BYTE[bytes[at + 1]!]! +
          0.1 * LINEAR_OF_BYTE[bytes[at + 2]!]!;
        const [px, py, z] = [(x + 0.5) / side - 0.5, (y + 0.5) / side - 0.5, Math.log(luma + 0.004)];
        n++;
        light += luma;
        sx += px;
        sy += py;
        sxx += px * px;
        syy += py * py;
        sxy += px * py;
        sz += z;
        sxz += px * z;
        syz += py * z;
      }
    if (n < 6) continue;
    const [xx, yy, xy] = [sxx - (sx * sx) / n, syy - (sy * sy) / n, sxy - (sx * sy) / n];
    const [xz, yz] = [sxz - (sx * sz) / n, syz - (sy * sz) / n];
    const whole = xx * yy - xy * xy;
    if (whole < 1e-6) continue;
    across[cell] = (xz * yy - yz * xy) / whole;
    down[cell] = (yz * xx - xz * xy) / whole;
    light /= n;
    weight[cell] = trust[cell]! * (n / (side - 2 * skip) ** 2) * (light / (light + DIM)) ** 2;
  }
  return { across, down, weight };
}

function around(values: Float32Array, columns: number, rows: number): Float32Array {
  const sums = new Float32Array(values.length);
  for (let row = 0; row < rows; row++)
    for (let column = 0; column < columns; column++)
      for (let y = Math.max(0, row - TOGETHER); y <= Math.min(rows - 1, row + TOGETHER); y++)
        for (let x = Math.max(0, column - TOGETHER); x <= Math.min(columns - 1, column + TOGETHER); x++)
          sums[row * columns + column]! += values[y * columns + x]!;
  return sums;
}

/** The surface whose slopes come nearest to those wanted: the sum of squares made least by conjugate gradients. */
function integrated(
  u: Float32Array,
  v: Float32Array,
  weight: Float32Array,
  columns: number,
  rows: number,
): Float32Array {
  const cells = columns * rows;
  const usual = weight.reduce((sum, each) => sum + each, 0) / cells + 1e-9;
  /** Between a cell and the next one, across or down. */
  const link = (one: number, other: number): number => (weight[one]! + weight[other]!) / (2 * usual);
  const applied = (f: Float64Array): Float64Array => {
    const out = new Float64Array(cells);
    for (let cell = 0; cell < cells; cell++) {
      out[cell]! += STILL * STILL * f[cell]!;
      const column = cell % columns;
      for (const other of [column + 1 < columns ? cell + 1 : -1, cell + columns < cells ? cell + columns : -1]) {
        if (other < 0) continue;
        const part = link(cell, other) * (f[other]! - f[cell]!);
        out[cell]! -= part;
        out[other]! += part;
      }
    }
    return out;
  };
  const right = new Float64Array(cells);
  for (let cell = 0; cell < cells; cell++) {
    if ((cell % columns) + 1 < columns) {
      const part = (link(cell, cell + 1) * (u[cell]! + u[cell + 1]!)) / 2;
      right[cell]! -= part;
      right[cell + 1]! += part;
    }
    if (cell + columns < cells) {
      const part = (link(cell, cell + columns) * (v[cell]! + v[cell + columns]!)) / 2;
      right[cell]! -= part;
      right[cell + columns]! += part;
    }
  }
  const f = new Float64Array(cells);
  const rest = right.slice();
  let way = rest.slice();
  let size = dot(rest, rest);
  const enough = size * 1e-8;
  for (let round = 0; round < ROUNDS && size > enough; round++) {
    const step = applied(way);
    const part = size / dot(way, step);
    for (let cell = 0; cell < cells; cell++) {
      f[cell]! += part * way[cell]!;
      rest[cell]! -= part * step[cell]!;
    }
    const next = dot(rest, rest);
    way = way.map((value, cell) => rest[cell]! + (next / size) * value);
    size = next;
  }
  return Float32Array.from(f);
}

const dot = (one: Float64Array, other: Float64Array): number =>
  one.reduce((sum, value, at) => sum + value * other[at]!, 0);
