/** Demands on the whole assignment within the search: what can no longer reach its quota is struck out, and a price makes the bound see it. */
import { reachesQuota } from "./assignment.ts";
import { type Level, sortByCost } from "./groupPrices.ts";
import type { Net } from "./net.ts";

/** Rounds over all quotas at the root, where prices are found, and below, where they are only mended. By trial. */
const ROOT_ROUNDS = 8;
const NODE_ROUNDS = 1;

/** Halvings of an interval of prices: a thousandth of it is left. */
const HALVINGS = 10;

/** Doublings of a price that has not yet brought enough. */
const DOUBLINGS = 40;

/**
 * The net with the prices at which the sum of the cheapest yarns of `tight`, which is the same problem with its costs moved between
 * pairs and colours, is highest.
 */
export function priced(net: Net, tight: Net): Net {
  const { n, size } = tight;
  const offset = new Int32Array(n + 1);
  for (let i = 0; i < n; i++) offset[i + 1] = offset[i]! + size[i]!;
  const total = offset[n]!;
  const level: Level = {
    list: new Int32Array(total),
    cost: new Float64Array(total),
    star: new Float64Array(total),
    length: Int32Array.from(size),
    left: null,
    prices: [],
    gained: new Float64Array(tight.quotas.length),
    quotaPrice: new Float64Array(tight.quotas.length),
  };
  tight.unary.forEach((row, i) => {
    row.forEach((cost, a) => {
      level.list[offset[i]! + a] = a;
      level.cost[offset[i]! + a] = cost;
    });
    sortByCost(level.list, level.cost, offset[i]!, size[i]!);
    while (level.length[i]! > 0 && level.cost[offset[i]! + level.length[i]! - 1] === Infinity) level.length[i]! -= 1;
  });
  if (level.length.includes(0)) return net;
  quotaKeeper(tight, offset, new Int32Array(n).fill(-1)).mendPrices(level, 0, 0);
  const { quotaPrice } = level;
  return {
    ...net,
    unary: net.unary.map((row, i) =>
      row.map((cost, a) => net.quotas.reduce((sum, { gains }, q) => sum - quotaPrice[q]! * gains[i]![a]!, cost)),
    ),
    constant: net.quotas.reduce((sum, { least }, q) => sum + quotaPrice[q]! * least, net.constant),
    quotas: net.quotas.map((quota, q) => ({ ...quota, price: quotaPrice[q]! })),
  };
}

export function quotaKeeper(net: Net, offset: Int32Array, chosen: Int32Array) {
  const most = new Float64Array(net.n);
  return { withinReach, mendPrices };

  /** Strikes out the yarns with which a quota could not be reached, all others giving their most; false where none can be. */
  function withinReach(level: Level): boolean {
    return net.quotas.every(({ gains, least }, q) => {
      let sum = level.gained[q]!;
      for (let i = 0; i < net.n; i++) {
        if (chosen[i]! >= 0) continue;
        most[i] = 0;
        for (let at = offset[i]!; at < offset[i]! + level.length[i]!; at++)
          most[i] = Math.max(most[i]!, gains[i]![level.list[at]!]!);
        sum += most[i]!;
      }
      if (!reachesQuota(sum, least)) return false;
      for (let i = 0; i < net.n; i++) {
        if (chosen[i]! >= 0) continue;
        const from = offset[i]!;
        let kept = 0;
        for (let at = from; at < from + level.length[i]!; at++) {
          const a = level.list[at]!;
          if (!reachesQuota(sum - most[i]! + gains[i]![a]!, least)) continue;
          level.list[from + kept] = a;
          level.cost[from + kept] = level.cost[at]!;
          kept++;
        }
        level.length[i] = kept;
      }
      return true;
    });
  }

  /**
   * Lagrangian relaxation of the quotas, one price after the other moved to where the sum of the cheapest yarns is highest: there the
   * yarns that are cheapest with the price bring just enough. Gives the node's fixed cost with the new prices on it.
   */
  function mendPrices(level: Level, depth: number, fixed: number): number {
    const rounds = depth === 0 ? ROOT_ROUNDS : NODE_ROUNDS;
    for (let round = 0; round < rounds; round++) {
      let moved = false;
      net.quotas.forEach((_, q) => {
        const by = bestMove(level, q);
        if (by === 0) return;
        moved = true;
        fixed += by * (net.quotas[q]!.least - level.gained[q]!);
        level.quotaPrice[q]! += by;
        for (let i = 0; i < net.n; i++) {
          if (chosen[i]! >= 0) continue;
          const gains = net.quotas[q]!.gains[i]!;
          for (let at = offset[i]!; at < offset[i]! + level.length[i]!; at++)
            level.cost[at]! -= by * gains[level.list[at]!]!;
          sortByCost(level.list, level.cost, offset[i]!, level.length[i]!);
        }
      });
      if (!moved) break;
    }
    return fixed;
  }

  /** By how much the price of a quota is best moved; 0 where nothing is won. */
  function bestMove(level: Level, q: number): number {
    const { least } = net.quotas[q]!;
    const price = level.quotaPrice[q]!;
    const wanted = least - level.gained[q]!;
    const now = atPrice(level, q, 0);
    if (now.gain === wanted || (now.gain > wanted && price === 0)) return 0;
    let [low, high] = [-price, 0];
    if (now.gain < wanted) {
      low = 0;
      high = firstStep(level, q);
      if (high === 0) return 0;
      for (let doubling = 0; doubling < DOUBLINGS && atPrice(level, q, high).gain < wanted; doubling++) {
        low = high;
        high *= 2;
      }
    }
    let best = { by: 0, bound: now.cost };
    for (let halving = 0; halving < HALVINGS; halving++) {
      const by = halving === 0 ? high : (low + high) / 2;
      const { cost, gain } = atPrice(level, q, by);
      const bound = cost + by * wanted;
      if (bound > best.bound + net.grain) best = { by, bound };
      if (gain === wanted) break;
      if (halving === 0) continue;
      if (gain < wanted) low = by;
      else high = by;
    }
    return best.by;
  }

  /** The cheapest yarns with the price moved: what they cost together and what they bring. */
  function atPrice(level: Level, q: number, by: number): { cost: number; gain: number } {
    let sum = 0;
    let gain = 0;
    for (let i = 0; i < net.n; i++) {
      if (chosen[i]! >= 0) continue;
      const gains = net.quotas[q]!.gains[i]!;
      let least = Infinity;
      let brings = 0;
      for (let at = offset[i]!; at < offset[i]! + level.length[i]!; at++) {
        const own = gains[level.list[at]!]!;
        const cost = level.cost[at]! - by * own;
        if (cost < least) {
          least = cost;
          brings = own;
        }
      }
      sum += least;
      gain += brings;
    }
    return { cost: sum, gain };
  }

  /** The smallest price at which some colour would rather bring more; 0 where none has more to bring. */
  function firstStep(level: Level, q: number): number {
    let first = Infinity;
    for (let i = 0; i < net.n; i++) {
      if (chosen[i]! >= 0 || level.length[i] === 0) continue;
      const gains = net.quotas[q]!.gains[i]!;
      const from = offset[i]!;
      const now = gains[level.list[from]!]!;
      for (let at = from + 1; at < from + level.length[i]!; at++) {
        const more = gains[level.list[at]!]! - now;
        const dearer = level.cost[at]! - level.cost[from]!;
        if (more > 0) first = Math.min(first, Math.max(dearer, net.grain) / more);
      }
    }
    return first === Infinity ? 0 : first * (1 + 1e-9);
  }
}
