/** Prices on groups of yarns that exclude one another: the bound by which "they all want the same few yarns" is understood. */
import type { Family } from "./groups.ts";
import type { Net } from "./net.ts";

/** What a node of the search knows; a colour's yarns stand from `offset[i]`, the cheapest first. */
export interface Level {
  readonly list: Int32Array;
  readonly cost: Float64Array;
  readonly star: Float64Array;
  readonly length: Int32Array;
  readonly left: Float64Array | null;
  /** For each family the price of each group, already part of `cost` and taken off the node's fixed cost. */
  readonly prices: readonly Float64Array[];
  /** For each quota what the decided colours have brought, and the price of a unit, already off `cost` and on the node's fixed cost. */
  readonly gained: Float64Array;
  readonly quotaPrice: Float64Array;
}

/** Steps at the root, where the prices are found, and below, where they are only mended. */
const ROOT_STEPS = 400;
const NODE_STEPS = 12;

/** Steps without a better bound before the stride is halved; the usual choice for subgradients (Held, Wolfe, Crowder 1974). */
const PATIENCE = 8;

/** The stride's target where there is no answer yet to aim at: this much of the bound above the bound. */
const BLIND_AIM = 0.05;

/**
 * Lagrangian relaxation of "at most one of each group": whoever takes a yarn of the group pays its price, and the price is refunded
 * once. For any prices ≥ 0 the cheapest yarn of each colour is then a bound; the prices are moved by subgradient steps.
 */
export function groupPricer(net: Net, families: readonly Family[], offset: Int32Array, chosen: Int32Array) {
  const extra = families.map(({ groupsOf }) => new Float64Array(groupsOf.length));
  const moved = families.map(({ groups }) => new Float64Array(groups.length));
  const bestMoved = families.map(({ groups }) => new Float64Array(groups.length));
  const wanted = families.map(({ groups }) => new Int32Array(groups.length));
  const favourite = new Int32Array(net.n);

  /** Moves the node's prices to a better bound; gives the node's fixed cost with the new prices taken off. */
  return function mendPrices(level: Level, depth: number, fixed: number, below: number): number {
    families.forEach((family, f) => {
      if (family.colours.some((i) => chosen[i]! < 0)) fixed = mendFamily(level, family, f, depth, fixed, below);
    });
    return fixed;
  };

  function mendFamily(level: Level, family: Family, f: number, depth: number, fixed: number, below: number): number {
    const { groups, groupsOf, colours } = family;
    const price = level.prices[f]!;
    const shift = extra[f]!;
    const move = moved[f]!;
    const best = bestMoved[f]!;
    const want = wanted[f]!;
    const undecided = colours.filter((i) => chosen[i]! < 0);
    const decidedIn = new Uint8Array(groups.length);
    for (const i of colours)
      if (chosen[i]! >= 0) for (const g of groupsOf[net.yarn[i]![chosen[i]!]!]!) decidedIn[g] = 1;
    let others = fixed;
    for (let i = 0; i < net.n; i++) if (chosen[i]! < 0 && !colours.includes(i)) others += level.cost[offset[i]!]!;
    shift.fill(0);
    move.fill(0);
    best.fill(0);
    let bestBound = -Infinity;
    let sumOfMoves = 0;
    let stride = 1;
    let since = 0;
    const steps = depth === 0 ? ROOT_STEPS : NODE_STEPS;
    for (let step = 0; step <= steps; step++) {
      let bound = others - sumOfMoves;
      want.fill(0);
      for (const i of undecided) {
        const from = offset[i]!;
        const end = from + level.length[i]!;
        const yarn = net.yarn[i]!;
        let least = Infinity;
        for (let at = from; at < end; at++) {
          if (level.cost[at]! >= least) {
            if (step === 0) break;
            continue;
          }
          const k = yarn[level.list[at]!]!;
          const cost = level.cost[at]! + shift[k]!;
          if (cost < least) {
            least = cost;
            favourite[i] = k;
          }
        }
        bound += least;
        for (const g of groupsOf[favourite[i]!]!) want[g]!++;
      }
      if (bound > bestBound + net.grain) {
        bestBound = bound;
        best.set(move);
        since = 0;
      } else if (++since % PATIENCE === 0) stride /= 2;
      if (bound >= below || step === steps) break;
      let length = 0;
      for (let g = 0; g < groups.length; g++) {
        if (!decidedIn[g] && (want[g]! > 1 || (want[g] === 0 && price[g]! + move[g]! > 0)))
          length += (want[g]! - 1) ** 2;
      }
      if (length === 0) break;
      const aim = below < Infinity ? below - bound : BLIND_AIM * (Math.abs(bound) + 1);
      const by = (stride * aim) / length;
      for (let g = 0; g < groups.length; g++) {
        if (decidedIn[g] || want[g] === 1) continue;
        const now = price[g]! + move[g]!;
        if (want[g] === 0 && now <= 0) continue;
        const change = Math.max(-now, by * (want[g]! - 1));
        move[g]! += change;
        sumOfMoves += change;
        for (const k of groups[g]!) shift[k]! += change;
      }
    }
    return apply(level, family, f, undecided, fixed);
  }

  function apply(level: Level, family: Family, f: number, undecided: readonly number[], fixed: number): number {
    const price = level.prices[f]!;
    const shift = extra[f]!;
    const best = bestMoved[f]!;
    shift.fill(0);
    let any = false;
    for (let g = 0; g < best.length; g++) {
      if (best[g] === 0) continue;
      any = true;
      price[g]! += best[g]!;
      fixed -= best[g]!;
      for (const k of family.groups[g]!) shift[k]! += best[g]!;
    }
    if (!any) return fixed;
    for (const i of undecided) {
      const from = offset[i]!;
      for (let at = from; at < from + level.length[i]!; at++) level.cost[at]! += shift[net.yarn[i]![level.list[at]!]!]!;
      sortByCost(level.list, level.cost, from, level.length[i]!);
    }
    return fixed;
  }
}

/** Sorts a stretch of both arrays by cost: insertion for the nearly sorted and the short, else by gaps (Ciura's, 2001). */
export function sortByCost(list: Int32Array, cost: Float64Array, from: number, length: number): void {
  for (const gap of length > 32 ? [301, 132, 57, 23, 10, 4, 1] : [1]) {
    for (let end = gap; end < length; end++) {
      const c = cost[from + end]!;
      const v = list[from + end]!;
      let at = end;
      while (at >= gap && cost[from + at - gap]! > c) {
        cost[from + at] = cost[from + at - gap]!;
        list[from + at] = list[from + at - gap]!;
        at -= gap;
      }
      cost[from + at] = c;
      list[from + at] = v;
    }
  }
}
