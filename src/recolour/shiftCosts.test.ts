import fc from "fast-check";
import { expect, it } from "vitest";
import { seededRandom } from "../base/random.ts";
import { type Net, netOf } from "./net.ts";
import { shiftCosts } from "./shiftCosts.ts";

/** What a net says that an assignment of its own positions costs. */
function costIn(net: Net, chosen: readonly number[]): number {
  let cost = net.constant;
  chosen.forEach((a, i) => {
    cost += net.unary[i]![a]!;
    for (let j = i + 1; j < net.n; j++) {
      const at = i * net.n + j;
      const entry = a * net.size[j]! + chosen[j]!;
      if (net.hard[at]?.[entry]) cost = Infinity;
      const soft = net.soft[at];
      if (soft) cost += soft[entry]! - net.shift[at]!;
    }
  });
  return cost;
}

const cheapestEach = (net: Net): number => net.unary.reduce((sum, row) => sum + Math.min(...row), net.constant);

it("costs are moved, never changed, and the cheapest yarns together stay a bound", () => {
  let raised = 0;
  fc.assert(
    fc.property(fc.integer({ min: 0, max: 1e6 }), (seed) => {
      const random = seededRandom(seed);
      const table = (): Float32Array =>
        Float32Array.from({ length: 16 }, () => (random() < 0.2 ? Infinity : random() * 9 - 3));
      const net = netOf({
        costs: Array.from({ length: 4 }, () => Array.from({ length: 4 }, () => random() * 5)),
        pairCosts: [
          { i: 0, j: 1, cost: table() },
          { i: 2, j: 1, cost: table() },
          { i: 0, j: 3, cost: table() },
        ],
        distinct: true,
      });
      const shifted = shiftCosts(net, 5, () => false);
      if (cheapestEach(shifted) > cheapestEach(net) + 0.1) raised++;
      let least = Infinity;
      for (let code = 0; code < 256; code++) {
        const chosen = [code & 3, (code >> 2) & 3, (code >> 4) & 3, code >> 6];
        const cost = costIn(net, chosen);
        least = Math.min(least, cost);
        if (cost < Infinity) expect(costIn(shifted, chosen)).toBeCloseTo(cost, 9);
        else expect(costIn(shifted, chosen)).toBe(Infinity);
      }
      expect(cheapestEach(shifted)).toBeLessThanOrEqual(least + 1e-9); // rounding of a few doubles below 100
    }),
    { seed: 7, numRuns: 100 },
  );
  expect(raised).toBeGreaterThan(50);
});
