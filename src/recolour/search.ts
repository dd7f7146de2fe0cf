/** Branch and bound over a net: exact, with a bound for every yarn of every colour that looks at all its neighbours at once. */
import { fitsCapacity } from "./assignment.ts";
import { coverCheck } from "./groupCover.ts";
import { groupPricer, sortByCost } from "./groupPrices.ts";
import type { Family } from "./groups.ts";
import type { Net } from "./net.ts";
import { quotaKeeper } from "./quotas.ts";

export interface SearchOrders {
  /** Only what is cheaper than this is looked for. */
  readonly below: number;
  readonly stop: () => boolean;
  /** The true cost of a whole assignment (caller's yarn numbers), or Infinity where it is refused; told the best so far. */
  readonly judge: (assignment: number[], below: number) => number;
  /** Yarns that are alike in every way have the same number; null where nothing may be skipped for likeness. */
  readonly twins: Int32Array | null;
  readonly families: readonly Family[];
  /** "any" ends at the first answer and spends nothing on the price. */
  readonly want: "cheapest" | "any";
  /** Gives up as if stopped after so many nodes. */
  readonly nodeLimit: number;
}

export interface SearchAnswer {
  readonly cost: number;
  readonly assignment: number[] | null;
  /** Nothing that the judge would take and that costs less than `below` costs less than this; Infinity when all was seen. */
  readonly open: number;
  readonly stopped: boolean;
  readonly nodes: number;
  /** The yarns left for each colour at the root. */
  readonly left: readonly Int32Array[];
}

/** Nodes between two questions to `stop`. */
const STOP_EVERY = 16;

/**
 * Depth first, cheapest child first. A node holds, for each colour not yet decided, the yarns left, in the order of their cost there.
 * The bound of yarn a for colour i is the star around it: a's own cost and, for each other colour, the cheapest yarn that goes with a.
 * Every colour's own cost is counted once, so a star is a relaxation; each of the N stars is one bound, the best of them is the node's.
 */
export function searchNet(net: Net, orders: SearchOrders): SearchAnswer {
  const { n, size, hard, soft, shift } = net;
  const offset = new Int32Array(n + 1);
  for (let i = 0; i < n; i++) offset[i + 1] = offset[i]! + size[i]!;
  const total = offset[n]!;
  const levels = Array.from({ length: n + 1 }, () => ({
    list: new Int32Array(total),
    cost: new Float64Array(total),
    star: new Float64Array(total),
    length: new Int32Array(n),
    left: net.capacity ? Float64Array.from(net.capacity.have) : null,
    prices: orders.families.map(({ groups }) => new Float64Array(groups.length)),
    gained: new Float64Array(net.quotas.length),
    quotaPrice: Float64Array.from(net.quotas, ({ price }) => price),
  }));
  const tableOf = (i: number, j: number): number => (i < j ? i * n + j : j * n + i);
  const touches = new Uint8Array(n * n);
  for (let i = 0; i < n; i++) {
    for (let j = 0; j < n; j++) if (i !== j && (hard[tableOf(i, j)] || soft[tableOf(i, j)])) touches[i * n + j] = 1;
  }
  const chosen = new Int32Array(n).fill(-1);
  const mendPrices = groupPricer(net, orders.families, offset, chosen);
  const quotas = quotaKeeper(net, offset, chosen);
  const tooFewPlaces = coverCheck(net, orders.families, offset, chosen);
  /** How often the yarns of a colour ran out: such colours are better decided early (the weighted-degree heuristic). */
  const weight = new Float64Array(n).fill(1);
  let best = orders.below;
  let bestAssignment: number[] | null = null;
  let nodes = 0;
  let open = Infinity;
  let stopped = false;
  let finished = false;

  const first = levels[0]!;
  for (let i = 0; i < n; i++) {
    let length = 0;
    for (let a = 0; a < size[i]!; a++) {
      if (net.unary[i]![a] === Infinity) continue;
      first.list[offset[i]! + length] = a;
      first.cost[offset[i]! + length] = net.unary[i]![a]!;
      length++;
    }
    first.length[i] = length;
    sortByCost(first.list, first.cost, offset[i]!, length);
  }
  expand(0, net.constant);
  const left = size.map((_, i) => first.list.slice(offset[i]!, offset[i]! + first.length[i]!).sort());
  return { cost: bestAssignment ? best : Infinity, assignment: bestAssignment, open, stopped, nodes, left };

  function expand(depth: number, fixed: number): void {
    nodes++;
    if (!quotas.withinReach(levels[depth]!)) return;
    if (levels[depth]!.length.some((length, i) => chosen[i]! < 0 && length === 0)) return;
    if (orders.want === "cheapest") {
      fixed = mendPrices(levels[depth]!, depth, fixed, best);
      fixed = quotas.mendPrices(levels[depth]!, depth, fixed);
    }
    const bound = prune(depth, fixed);
    if (bound >= best - net.grain || tooFewPlaces(levels[depth]!)) return;
    if (nodes >= orders.nodeLimit || (nodes % STOP_EVERY === 0 && orders.stop())) {
      stopped = true;
      open = Math.min(open, bound);
      return;
    }
    if (depth === n) {
      judgeLeaf();
      return;
    }
    const level = levels[depth]!;
    const i = pickColour(level.length, level.star);
    const from = offset[i]!;
    const count = level.length[i]!;
    const order = level.list.slice(from, from + count);
    const bounds = level.star.slice(from, from + count);
    const costs = new Float64Array(count);
    for (let at = 0; at < count; at++) costs[at] = level.cost[from + at]!;
    const positions = Int32Array.from(order.keys());
    sortByCost(positions, bounds, 0, count);
    const tried = orders.twins ? new Set<number>() : null;
    for (let at = 0; at < count; at++) {
      if (bounds[at]! >= best - net.grain) return;
      const a = order[positions[at]!]!;
      const yarn = net.yarn[i]![a]!;
      if (tried && orders.twins && !isTaken(yarn)) {
        if (tried.has(orders.twins[yarn]!)) continue;
        tried.add(orders.twins[yarn]!);
      }
      chosen[i] = a;
      descend(depth, i, a);
      expand(depth + 1, fixed + costs[positions[at]!]!);
      chosen[i] = -1;
      if (finished) return;
      if (stopped) {
        if (at + 1 < count) open = Math.min(open, Math.max(bounds[at + 1]!, bound));
        return;
      }
    }
  }

  function isTaken(yarn: number): boolean {
    for (let j = 0; j < n; j++) if (chosen[j]! >= 0 && net.yarn[j]![chosen[j]!] === yarn) return true;
    return false;
  }

  /** The next level: what is left for the undecided colours once colour i has yarn a. */
  function descend(depth: number, i: number, a: number): void {
    const level = levels[depth]!;
    const next = levels[depth + 1]!;
    const yarn = net.yarn[i]![a]!;
    level.prices.forEach((prices, f) => next.prices[f]!.set(prices));
    next.gained.set(level.gained);
    next.quotaPrice.set(level.quotaPrice);
    net.quotas.forEach(({ gains }, q) => (next.gained[q]! += gains[i]![a]!));
    if (level.left && next.left) {
      next.left.set(level.left);
      next.left[yarn] = next.left[yarn]! - net.capacity!.need[i]!;
    }
    for (let j = 0; j < n; j++) {
      if (chosen[j]! >= 0) continue;
      const from = offset[j]!;
      const at = tableOf(i, j);
      const forbidden = hard[at];
      const costs = soft[at];
      const start = i < j ? a * size[j]! : a;
      const stride = i < j ? 1 : size[i]!;
      let length = 0;
      for (let b = 0; b < level.length[j]!; b++) {
        const value = level.list[from + b]!;
        const entry = start + value * stride;
        if (forbidden && forbidden[entry]) continue;
        if (next.left && net.yarn[j]![value] === yarn && !leftIsEnough(j, yarn, next.left)) continue;
        next.list[from + length] = value;
        next.cost[from + length] = level.cost[from + b]! + (costs ? costs[entry]! - shift[at]! : 0);
        length++;
      }
      next.length[j] = length;
      if (length === 0) weight[j]!++;
      if (costs) sortByCost(next.list, next.cost, from, length);
    }
  }

  function leftIsEnough(j: number, yarn: number, left: Float64Array): boolean {
    const have = net.capacity!.have[yarn]!;
    return fitsCapacity(have - left[yarn]! + net.capacity!.need[j]!, have);
  }

  /** Strikes out yarns whose star costs too much; gives the node's bound, Infinity when a colour has none left. */
  function prune(depth: number, fixed: number): number {
    const { list, cost, star, length } = levels[depth]!;
    let base = fixed;
    for (let i = 0; i < n; i++) {
      if (chosen[i]! >= 0) continue;
      if (length[i] === 0) return Infinity;
      base += cost[offset[i]!]!;
    }
    let bound = base;
    for (let pass = 0; pass < 4; pass++) {
      let removed = 0;
      let before = 0;
      for (let i = 0; i < n; i++) {
        if (chosen[i]! >= 0) continue;
        const from = offset[i]!;
        const least = cost[from]!;
        const slack = best - net.grain - base;
        if (slack <= 0) return Infinity;
        let kept = 0;
        let leastStar = Infinity;
        before += length[i]!;
        for (let at = 0; at < length[i]!; at++) {
          const own = cost[from + at]! - least;
          if (own >= slack) break;
          const sum = starOf(depth, i, list[from + at]!, own, slack);
          if (sum >= slack) continue;
          list[from + kept] = list[from + at]!;
          cost[from + kept] = cost[from + at]!;
          star[from + kept] = base + sum;
          if (sum < leastStar) leastStar = sum;
          kept++;
        }
        removed += length[i]! - kept;
        length[i] = kept;
        if (kept === 0) {
          weight[i]!++;
          return Infinity;
        }
        bound = Math.max(bound, base + leastStar);
        base += cost[from]! - least;
      }
      if (removed * 10 <= before) break;
    }
    return bound;
  }

  /** `sum` and what yarn a for colour i costs its neighbours beyond their cheapest; breaks off at `slack`. */
  function starOf(depth: number, i: number, a: number, own: number, slack: number): number {
    const { list, cost, length } = levels[depth]!;
    let sum = own;
    for (let j = 0; j < n; j++) {
      if (chosen[j]! >= 0 || !touches[i * n + j]) continue;
      const at = i < j ? i * n + j : j * n + i;
      const forbidden = hard[at];
      const costs = soft[at];
      const low = shift[at]!;
      const start = i < j ? a * size[j]! : a;
      const stride = i < j ? 1 : size[i]!;
      const from = offset[j]!;
      const end = from + length[j]!;
      const least = cost[from]!;
      let cheapest = Infinity;
      for (let b = from; b < end; b++) {
        const more = cost[b]! - least;
        if (more >= cheapest || sum + more >= slack) break;
        const entry = start + list[b]! * stride;
        if (forbidden && forbidden[entry]) continue;
        if (!costs) {
          cheapest = more;
          break;
        }
        const together = more + costs[entry]! - low;
        if (together < cheapest) cheapest = together;
      }
      sum += cheapest;
      if (sum >= slack) return Infinity;
    }
    return sum;
  }

  /** The colour with the fewest yarns left for its trouble so far; the dearest star decides between equals. */
  function pickColour(length: Int32Array, star: Float64Array): number {
    let picked = -1;
    let fewest = Infinity;
    let dearest = -Infinity;
    for (let i = 0; i < n; i++) {
      if (chosen[i]! >= 0) continue;
      const few = length[i]! / weight[i]!;
      const dear = star[offset[i]!]!;
      if (few < fewest || (few === fewest && dear > dearest)) {
        picked = i;
        fewest = few;
        dearest = dear;
      }
    }
    return picked;
  }

  function judgeLeaf(): void {
    const assignment = Array.from(chosen, (a, i) => net.yarn[i]![a]!);
    const cost = orders.judge(assignment, best);
    if (cost < best) {
      best = cost;
      bestAssignment = assignment;
      if (orders.want === "any") finished = true;
    }
  }
}
