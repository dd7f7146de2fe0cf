/** The percentage system of a seamless round yoke: every count as a part of the stitches around the body. */

/** As parts of K, the stitches around the chest; of the decreases, what they leave. Source: trade.md 3 (trade articles). */
export const YOKE_SHARES = {
  rib: 0.9,
  wrist: 0.2,
  upperArm: 0.33,
  underarm: 0.08,
  /** (k2, k2tog), (k1, k2tog) and (k1, k2tog, k2tog); the last from memory, and confirmed by the neck's 40 %. */
  left: [3 / 4, 2 / 3, 3 / 5],
  /** Of the yoke's depth. */
  at: [1 / 2, 3 / 4, 1],
} as const;

export interface YokeCounts {
  /** K: around the body. */
  readonly body: number;
  readonly rib: number;
  readonly wrist: number;
  readonly upperArm: number;
  /** At each of the four places where body and sleeves lie against one another. */
  readonly underarm: number;
  /** Where body and sleeves are joined. */
  readonly union: number;
  /** After each of the three rounds of decreases; the last is the neck. */
  readonly after: readonly [number, number, number];
}

/**
 * The counts for so many stitches around the body, to the nearest stitch; an arm or an underarm that she gives counts instead.
 * Source: trade.md 3. Example: 280: wrist 56, upper arm 92, underarm 22, union 376, then 282, 188 and 113.
 */
export function yokeCounts(
  body: number,
  given: { readonly upperArm?: number; readonly underarmShare?: number } = {},
): YokeCounts {
  const upperArm = given.upperArm ?? Math.round(body * YOKE_SHARES.upperArm);
  const underarm = Math.round(body * (given.underarmShare ?? YOKE_SHARES.underarm));
  const union = body + 2 * upperArm - 4 * underarm;
  return {
    body,
    rib: Math.round(body * YOKE_SHARES.rib),
    wrist: Math.round(body * YOKE_SHARES.wrist),
    upperArm,
    underarm,
    union,
    after: yokeDecreases(union),
  };
}

/** What the three rounds of decreases leave: 380, 285, 190, 114. */
export function yokeDecreases(union: number): [number, number, number] {
  const [first, second, neck] = YOKE_SHARES.left;
  return [Math.round(union * first), Math.round(union * first * second), Math.round(union * first * second * neck)];
}

/** For large chests the trade takes 5 to 6 % at the underarm and stops the depth at 25 to 27 cm; from which chest on is our choice. */
const LARGE = { fromCm: 110, toCm: 140, underarm: 0.055, depthCm: 26 } as const;

/** The part of K at each underarm for a finished chest in cm: 8 % up to 110 cm, falling to 5.5 % at 140. */
export function underarmShare(chestCm: number): number {
  const far = Math.min(1, Math.max(0, (chestCm - LARGE.fromCm) / (LARGE.toCm - LARGE.fromCm)));
  return YOKE_SHARES.underarm + far * (LARGE.underarm - YOKE_SHARES.underarm);
}

/** Half the body's width, and no deeper than large chests are: 25 cm for a chest of 100. */
export const yokeDepthCm = (chestCm: number): number => Math.min(LARGE.depthCm, chestCm / 4);

/**
 * A round of decreases in words: "(k2, k2tog) 95 times". Where the count does not divide, groups of two sizes, told one after the other to be
 * spread evenly. null where more than every second stitch would go.
 */
export function decreaseWords(from: number, to: number): string | null {
  const decreases = from - to;
  if (decreases <= 0) return null;
  const small = Math.floor(from / decreases);
  const large = from - small * decreases;
  if (small < 2) return null;
  const group = (stitches: number): string => (stitches === 2 ? "k2tog" : `k${stitches - 2}, k2tog`);
  const times = (words: string, count: number): string =>
    count === 1 ? `(${words}) once` : `(${words}) ${count} times`;
  const few = decreases - large;
  if (large === 0) return times(group(small), decreases);
  if (large % few === 0 || few % large === 0) {
    const [many, count] = [Math.min(large, few), Math.max(large, few) / Math.min(large, few)];
    const [larges, smalls] = large >= few ? [count, 1] : [1, count];
    const words = [...Array<string>(larges).fill(group(small + 1)), ...Array<string>(smalls).fill(group(small))];
    if (words.length <= MOST_GROUPS) return times(words.join(", "), many);
  }
  return `${times(group(small + 1), large)} and ${times(group(small), few)}, spread evenly`;
}

/** Longer phrases are not kept in mind. Our choice. */
const MOST_GROUPS = 6;
