/** The problem as the search likes it: one table for each pair of colours, only the yarns still in question. */
import { type AssignmentProblem, type Quota, fitsCapacity, mustDiffer, yarnCount } from "./assignment.ts";

/** Tables stand at `i * n + j` with i < j, entry (a, b) at `a * size[j] + b`; a and b count the yarns left for i and j. */
export interface Net {
  readonly n: number;
  readonly size: readonly number[];
  /** The caller's number of the yarns left for each colour. */
  readonly yarn: readonly Int32Array[];
  readonly unary: readonly Float64Array[];
  /** Not 0 = forbidden. */
  readonly hard: readonly (Uint8Array | null)[];
  /** Finite wherever it is not forbidden. The cost is the entry less the shift, never below 0. */
  readonly soft: readonly (Float32Array | Float64Array | null)[];
  readonly shift: Float64Array;
  /** What every assignment costs besides. */
  readonly constant: number;
  /** Needs that are still to be summed by the search; null where no two colours could share a yarn. */
  readonly capacity: { readonly need: readonly number[]; readonly have: readonly number[] } | null;
  /** Demands on the whole; gains by colour and position, as `unary`. */
  readonly quotas: readonly NetQuota[];
  /** The smallest difference of costs that is more than rounding. */
  readonly grain: number;
}

export interface NetQuota {
  readonly gains: readonly Float64Array[];
  readonly least: number;
  /**
   * What a unit of the gain has been made cheaper by in `unary`, and `least` of them dearer in `constant`: whatever reaches its
   * quota costs no more than it did.
   */
  readonly price: number;
}

/** Rounding of a sum of doubles, relative to the largest numbers summed: far above 2^-52, far below any cost that matters. */
const RELATIVE_GRAIN = 1e-11;

/** `merger` may be handed in by who asks several times about the same tables. */
export function netOf(problem: AssignmentProblem, merger = hardMerger(yarnCount(problem))): Net {
  const n = problem.costs.length;
  const yarns = yarnCount(problem);
  const { capacity } = problem;
  const unary = problem.costs.map((row, i) =>
    Float64Array.from({ length: yarns }, (_, k) =>
      capacity && !fitsCapacity(capacity.need[i]!, capacity.have[k]!) ? Infinity : row[k]!,
    ),
  );
  const hard: (Uint8Array | null)[] = new Array<null>(n * n).fill(null);
  const soft: (Float32Array | Float64Array | null)[] = new Array<null>(n * n).fill(null);
  for (const { i, j, forbidden } of problem.clashes ?? []) {
    const at = Math.min(i, j) * n + Math.max(i, j);
    hard[at] = merger.join(hard[at]!, i < j ? forbidden : merger.turn(forbidden));
  }
  for (const { i, j, cost } of problem.pairCosts ?? []) {
    const at = Math.min(i, j) * n + Math.max(i, j);
    const upright = i < j ? cost : turned(cost, yarns);
    let finite = upright;
    if (upright.includes(Infinity)) {
      hard[at] = merger.join(
        hard[at]!,
        Uint8Array.from(upright, (value) => (value === Infinity ? 1 : 0)),
      );
      finite = upright.map((value: number) => (value === Infinity ? 0 : value));
    }
    const before = soft[at];
    soft[at] = before ? Float64Array.from(finite, (value, at) => value + before[at]!) : finite;
  }
  const differ = mustDiffer(problem);
  let mayShare = false;
  for (let i = 0; i < n; i++) {
    for (let j = i + 1; j < n; j++) {
      if (differ[i * n + j]) hard[i * n + j] = merger.join(hard[i * n + j]!, merger.same);
      else mayShare = true;
    }
  }
  const shift = new Float64Array(n * n);
  let constant = 0;
  let scale = unary.reduce(
    (sum, row) => sum + row.reduce((most, cost) => (cost < Infinity ? Math.max(most, Math.abs(cost)) : most), 0),
    0,
  );
  soft.forEach((table, at) => {
    if (!table) return;
    let least = Infinity;
    let most = 0;
    for (let entry = 0; entry < table.length; entry++) {
      const value = table[entry]!;
      if (value < least) least = value;
      if (Math.abs(value) > most) most = Math.abs(value);
    }
    shift[at] = yarns ? least : 0;
    constant += shift[at]!;
    scale += most;
  });
  return {
    n,
    size: unary.map(() => yarns),
    yarn: unary.map(() => Int32Array.from({ length: yarns }, (_, k) => k)),
    unary,
    hard,
    soft,
    shift,
    constant,
    capacity: capacity && mayShare ? capacity : null,
    quotas: (problem.quotas ?? []).map(quotaOf),
    grain: RELATIVE_GRAIN * scale,
  };
}

const quotaOf = ({ gains, least }: Quota): NetQuota => ({
  gains: gains.map((row) => Float64Array.from(row)),
  least,
  price: 0,
});

/** The same problem with only the listed yarns (positions in the net) left for each colour. */
export function restrict(net: Net, keep: readonly Int32Array[]): Net {
  const { n } = net;
  const hard: (Uint8Array | null)[] = new Array<null>(n * n).fill(null);
  const soft: (Float64Array | null)[] = new Array<null>(n * n).fill(null);
  for (let i = 0; i < n; i++) {
    for (let j = i + 1; j < n; j++) {
      const at = i * n + j;
      const hardTable = net.hard[at];
      const softTable = net.soft[at];
      const rows = keep[i]!;
      const columns = keep[j]!;
      const stride = net.size[j]!;
      if (hardTable) {
        const table = new Uint8Array(rows.length * columns.length);
        let any = 0;
        let next = 0;
        for (const a of rows) for (const b of columns) any |= table[next++] = hardTable[a * stride + b]!;
        if (any) hard[at] = table;
      }
      if (softTable) {
        const table = new Float64Array(rows.length * columns.length);
        let next = 0;
        for (const a of rows) for (const b of columns) table[next++] = softTable[a * stride + b]!;
        soft[at] = table;
      }
    }
  }
  return {
    ...net,
    size: keep.map((list) => list.length),
    yarn: keep.map((list, i) => Int32Array.from(list, (a) => net.yarn[i]![a]!)),
    unary: keep.map((list, i) => Float64Array.from(list, (a) => net.unary[i]![a]!)),
    quotas: net.quotas.map((quota) => ({
      ...quota,
      gains: keep.map((list, i) => Float64Array.from(list, (a) => quota.gains[i]![a]!)),
    })),
    hard,
    soft,
  };
}

/** Joins forbidden tables; the same join of the same arrays is made once, since callers share arrays between pairs. */
export function hardMerger(yarns: number) {
  const made = new Map<Uint8Array, Map<Uint8Array, Uint8Array>>();
  const turnedOf = new Map<Uint8Array, Uint8Array>();
  const same = new Uint8Array(yarns * yarns);
  for (let k = 0; k < yarns; k++) same[k * yarns + k] = 1;
  const join = (a: Uint8Array | null, b: Uint8Array): Uint8Array => {
    if (!a || a === b) return b;
    const known = made.get(a)?.get(b);
    if (known) return known;
    let joined = a;
    for (let at = 0; at < a.length; at++) {
      if (a[at] || !b[at]) continue;
      if (joined === a) joined = a.slice();
      joined[at] = 1;
    }
    if (!made.has(a)) made.set(a, new Map());
    made.get(a)!.set(b, joined);
    return joined;
  };
  const turn = (a: Uint8Array): Uint8Array => {
    let result = turnedOf.get(a);
    if (!result) turnedOf.set(a, (result = turned(a, yarns)));
    return result;
  };
  return { same, join, turn };
}

function turned<T extends Uint8Array | Float32Array | Float64Array>(table: T, yarns: number): T {
  const result = table.slice() as T;
  for (let k = 0; k < yarns; k++) for (let l = 0; l < yarns; l++) result[l * yarns + k] = table[k * yarns + l]!;
  return result;
}
