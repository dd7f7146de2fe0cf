/** A seeded generator, handed in wherever chance is wanted, so that the same input gives the same output. */

export type Random = () => number;

/**
 * Uniform numbers in [0, 1) from a 32-bit seed.
 * Source: the mulberry32 mixing function, T. Ettinger 2017 (public domain), from memory.
 */
export function seededRandom(seed: number): Random {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = state;
    mixed = Math.imul(mixed ^ (mixed >>> 15), mixed | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
}
