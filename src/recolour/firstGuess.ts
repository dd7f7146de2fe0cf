/** A good assignment found quickly by local search, so that the exact search can strike out most yarns before it begins. */
import type { Random } from "../base/random.ts";
import { fitsCapacity } from "./assignment.ts";
import type { Net } from "./net.ts";

export interface GuessOrders {
  readonly random: Random;
  readonly stop: () => boolean;
  readonly judge: (assignment: number[], below: number) => number;
  /** Steps without a better answer before it gives up. */
  readonly patience: number;
}

/** Steps for which a colour that has changed its yarn may not take the old one again. */
const TABU_STEPS = 7;

/** Steps on one side of feasibility before the price of a clash is moved (strategic oscillation). */
const PATIENCE_WITH_PRICE = 5;

/**
 * Tabu search: in each step the one change of yarn that costs least, clashes being paid for at a price that rises while there
 * are clashes and falls while there are none. Gives the best assignment that the judge took, or null.
 */
export function firstGuess(net: Net, orders: GuessOrders): { cost: number; assignment: number[] } | null {
  const { n, size, unary, hard, soft } = net;
  const costs = unary.map((row) => Float64Array.from(row));
  const clashes = unary.map((row) => new Float64Array(row.length));
  const tabu = unary.map((row) => new Int32Array(row.length));
  const used = net.capacity ? new Float64Array(net.capacity.have.length) : null;
  const chosen = new Int32Array(n).fill(-1);
  let price = startingPrice(net);
  let best: { cost: number; assignment: number[] } | null = null;

  for (let i = 0; i < n; i++) {
    const a = cheapest(i, 0);
    if (a < 0) return null;
    place(i, a, 1);
  }
  let steps = 0;
  let same = 0;
  let wasClear = false;
  for (let since = 0; since < orders.patience; since++) {
    steps++;
    if (steps % 16 === 0 && orders.stop()) break;
    let clear = true;
    for (let i = 0; i < n; i++) if (clashes[i]![chosen[i]!]! > 0) clear = false;
    if (clear) {
      const assignment = Array.from(chosen, (a, i) => net.yarn[i]![a]!);
      const cost = orders.judge(assignment, best ? best.cost : Infinity);
      if (cost < (best ? best.cost : Infinity)) {
        best = { cost, assignment };
        since = 0;
      }
    }
    same = clear === wasClear ? same + 1 : 0;
    wasClear = clear;
    if (same >= PATIENCE_WITH_PRICE) {
      price *= clear ? 0.7 : 1.5;
      same = 0;
    }
    let move = -1;
    let to = -1;
    let least = Infinity;
    let equals = 0;
    for (let i = 0; i < n; i++) {
      const now = costs[i]![chosen[i]!]! + price * clashes[i]![chosen[i]!]!;
      for (let a = 0; a < size[i]!; a++) {
        if (a === chosen[i] || unary[i]![a] === Infinity || tabu[i]![a]! > steps || !roomFor(i, a)) continue;
        const change = costs[i]![a]! + price * clashes[i]![a]! - now;
        if (change > least) continue;
        if (change === least && orders.random() * ++equals > 1) continue;
        if (change < least) equals = 1;
        least = change;
        move = i;
        to = a;
      }
    }
    if (move < 0) break;
    tabu[move]![chosen[move]!] = steps + TABU_STEPS + Math.floor(orders.random() * TABU_STEPS);
    place(move, chosen[move]!, -1);
    place(move, to, 1);
  }
  return best;

  function cheapest(i: number, from: number): number {
    let found = -1;
    let least = Infinity;
    for (let a = from; a < size[i]!; a++) {
      const cost = costs[i]![a]! + price * clashes[i]![a]!;
      if (unary[i]![a]! < Infinity && cost < least && roomFor(i, a)) {
        least = cost;
        found = a;
      }
    }
    return found;
  }

  function roomFor(i: number, a: number): boolean {
    if (!used || !net.capacity) return true;
    const yarn = net.yarn[i]![a]!;
    return fitsCapacity(used[yarn]! + net.capacity.need[i]!, net.capacity.have[yarn]!);
  }

  /** Puts yarn a to colour i (sign 1) or takes it away (−1), and keeps the books of everything it touches. */
  function place(i: number, a: number, sign: 1 | -1): void {
    chosen[i] = sign > 0 ? a : -1;
    if (used && net.capacity) used[net.yarn[i]![a]!]! += sign * net.capacity.need[i]!;
    for (let j = 0; j < n; j++) {
      if (j === i) continue;
      const at = i < j ? i * n + j : j * n + i;
      const forbidden = hard[at];
      const table = soft[at];
      const start = i < j ? a * size[j]! : a;
      const stride = i < j ? 1 : size[i]!;
      const count = size[j]!;
      if (forbidden) for (let b = 0; b < count; b++) if (forbidden[start + b * stride]) clashes[j]![b]! += sign;
      if (table) for (let b = 0; b < count; b++) costs[j]![b]! += sign * table[start + b * stride]!;
    }
  }
}

/** A tenth of the usual spread of costs of one colour; found by trial, the search corrects it. */
function startingPrice(net: Net): number {
  let spread = 0;
  for (const row of net.unary) {
    const finite = row.filter((cost) => cost < Infinity);
    if (finite.length)
      spread += finite.reduce((sum, cost) => sum + cost, 0) / finite.length - finite.reduce((a, b) => Math.min(a, b));
  }
  return spread > 0 ? spread / net.n / 10 : 1;
}
