/** Common divisors and multiples of whole numbers, for repeats that must go into one another. */

/** Euclid's algorithm; of 0 and a number it is the number. */
export function greatestCommonDivisor(one: number, other: number): number {
  let [a, b] = [one, other];
  while (b !== 0) [a, b] = [b, a % b];
  return a;
}

/** 1 for none. */
export const leastCommonMultiple = (numbers: readonly number[]): number =>
  numbers.reduce((all, number) => (all / greatestCommonDivisor(all, number)) * number, 1);

/** The remainder from 0 to below `every`, of numbers below 0 too. */
export const remainder = (value: number, every: number): number => ((value % every) + every) % every;

/** What differs from a number by a multiple of `every` and lies nearest to 0: from −every / 2, not included, to every / 2. */
export function nearestToZero(value: number, every: number): number {
  const rest = remainder(value, every);
  return 2 * rest > every ? rest - every : rest;
}
