/** Finds the lines of a chart in a picture: the borders between its columns and between its rows. */
import { stepBetween, type Edges } from "./edges.ts";
import { findPitch, type Pitch } from "./pitch.ts";

/** Borders along one axis, over the whole picture; between two of them lies a column or row of cells. */
export interface Borders {
  readonly pitch: number;
  readonly spread: number;
  readonly phase: number;
  readonly explained: number;
  /** Pixels from the left or top, rising; a border lies before the pixel of that number. */
  readonly at: readonly number[];
  /** Where the cell before a border ends and the one after it begins: a line has a thickness. */
  readonly ends: readonly number[];
  readonly begins: readonly number[];
}

export interface Lattice {
  readonly x: Borders;
  readonly y: Borders;
}

/** The borders of both axes; null where nothing recurs. An axis without any step takes the other's pitch. */
export function findLattice(edges: Edges): Lattice | null {
  const across = findPitch(edges.across);
  const down = findPitch(edges.down);
  if (!across && !down) return null;
  return latticeAt(edges, across ?? withoutSteps(down!), down ?? withoutSteps(across!));
}

export function latticeAt(edges: Edges, x: Pitch, y: Pitch): Lattice {
  return { x: bordersOf(edges.across, x), y: bordersOf(edges.down, y) };
}

const withoutSteps = (other: Pitch): Pitch => ({ ...other, phase: 0, spread: 1 });

/**
 * Lays borders a pitch apart along the profile so that they meet its steps, giving way a little where the drawing does:
 * lines that are thicker at every tenth stitch push the rest along. The best of all such rows of borders, by dynamic programming.
 */
function bordersOf(profile: Float64Array, { pitch, spread, phase, explained }: Pitch): Borders {
  const length = profile.length;
  const height = smoothed(profile, Math.min(pitch * 0.4, Math.max(1, spread)));
  const whole = Math.abs(pitch - Math.round(pitch)) < 0.02;
  const give = pitch < 6 ? 0 : pitch * 0.12;
  const shortest = whole && give === 0 ? Math.round(pitch) : Math.max(1, Math.floor(pitch - give));
  const longest = whole && give === 0 ? Math.round(pitch) : Math.ceil(pitch + give);
  const stiffness = 0.6 / (1 + pitch * 0.1) ** 2;
  const score = new Float64Array(length + 1);
  const from = new Int32Array(length + 1).fill(-1);
  for (let x = 0; x <= length; x++) {
    let best = -Infinity;
    if (x <= longest) {
      // The first border keeps to the phase, so that a margin without steps does not set the borders adrift.
      const turn = (x - phase) / pitch;
      best = -stiffness * ((turn - Math.round(turn)) * pitch) ** 2;
    }
    for (let gap = shortest; gap <= longest && gap <= x; gap++) {
      const before = score[x - gap]! - stiffness * (gap - pitch) ** 2;
      if (before > best) {
        best = before;
        from[x] = x - gap;
      }
    }
    score[x] = best + (x < length ? height[x]! : 0);
  }
  let last = length;
  for (let x = Math.max(0, length - shortest + 1); x <= length; x++) if (score[x]! >= score[last]!) last = x;
  const at: number[] = [];
  for (let x = last; x >= 0; x = from[x]!) at.unshift(x);
  // A whole cell may be left at either end, where the picture itself ends the chart.
  if (at[0]! >= pitch * 0.75) at.unshift(0);
  if (length - at.at(-1)! >= pitch * 0.75) at.push(length);
  const reach = Math.max(1, Math.floor(pitch * 0.35 + 0.5));
  const ends = at.map((border) => border);
  const begins = at.map((border) => border);
  for (const [index, border] of at.entries()) {
    let most = 0;
    for (let x = border - reach; x <= border + reach; x++) most = Math.max(most, profile[x] ?? 0);
    if (most === 0) continue;
    for (let x = border - reach; x <= border + reach; x++) {
      if ((profile[x] ?? 0) < most * 0.3) continue;
      ends[index] = Math.min(ends[index]!, x);
      begins[index] = Math.max(begins[index]!, x);
    }
  }
  return { pitch, spread, phase, explained, at, ends, begins };
}

/** Each number with its neighbours within reach, the farther the less, and the tallest 1. */
function smoothed(profile: Float64Array, reach: number): Float64Array {
  const out = profile.map((_, x) => {
    let sum = 0;
    for (let away = -Math.floor(reach); away <= reach; away++) {
      sum += (profile[x + away] ?? 0) * (1 - Math.abs(away) / (reach + 1));
    }
    return sum;
  });
  const most = out.reduce((most, height) => Math.max(most, height), 0);
  return most === 0 ? out : out.map((height) => height / most);
}

/** How much of each cell's side is drawn: [border × rows of cells] for upright borders, [border × columns] for level ones; 0 to 1. */
export interface Sides {
  readonly upright: Float32Array;
  readonly level: Float32Array;
}

export function sidesOf(edges: Edges, { x, y }: Lattice): Sides {
  const { width, bytes, threshold } = edges;
  const measure = (
    borders: Borders,
    others: Borders,
    stride: number,
    otherStride: number,
    limit: number,
  ): Float32Array => {
    const cells = others.at.length - 1;
    const out = new Float32Array(borders.at.length * cells);
    for (const index of borders.at.keys()) {
      const from = Math.max(1, borders.ends[index]! - 1);
      const to = Math.min(limit - 1, borders.begins[index]! + 1);
      for (let cell = 0; cell < cells; cell++) {
        const begin = others.begins[cell]!;
        const end = others.ends[cell + 1]!;
        const samples = Math.max(1, Math.min(SIDE_SAMPLES, end - begin));
        let drawn = 0;
        for (let sample = 0; sample < samples; sample++) {
          const along = Math.min(Math.floor(begin + ((sample + 0.5) * (end - begin)) / samples), others.at.at(-1)! - 1);
          for (let place = from; place <= to; place++) {
            const pixel = (place * stride + along * otherStride) * 4;
            if (stepBetween(bytes, pixel - stride * 4, pixel) >= threshold) {
              drawn++;
              break;
            }
          }
        }
        out[index * cells + cell] = drawn / samples;
      }
    }
    return out;
  };
  return { upright: measure(x, y, 1, width, width), level: measure(y, x, width, 1, edges.height) };
}

/** Enough to tell a drawn side from a crossing letter. */
const SIDE_SAMPLES = 5;
