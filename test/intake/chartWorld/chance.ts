/** Draws by chance, from one seeded stream. */
import type { Random } from "../../../src/base/random.ts";

export interface Chance {
  readonly random: Random;
  /** A whole number, both ends included. */
  readonly whole: (from: number, to: number) => number;
  readonly among: (from: number, to: number) => number;
  readonly pick: <T>(options: readonly T[]) => T;
  readonly odds: (part: number) => boolean;
  /** Normal, standard deviation 1. */
  readonly normal: () => number;
  readonly shuffled: <T>(list: readonly T[]) => T[];
}

export function chanceOf(random: Random): Chance {
  const whole = (from: number, to: number): number => from + Math.floor(random() * (to - from + 1));
  const pick = <T>(options: readonly T[]): T => options[whole(0, options.length - 1)]!;
  return {
    random,
    whole,
    pick,
    among: (from, to) => from + random() * (to - from),
    odds: (part) => random() < part,
    // Source: the Box–Muller transform.
    normal: () => Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random()),
    shuffled: (list) => {
      const order = [...list];
      for (let at = order.length - 1; at > 0; at--) {
        const other = whole(0, at);
        [order[at], order[other]] = [order[other]!, order[at]!];
      }
      return order;
    },
  };
}
