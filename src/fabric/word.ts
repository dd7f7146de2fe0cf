/** From V to a word, for ordinary eyes and for hers. */

/** How something shows: the four words, and her verdicts. */
export type Word = "lost" | "faint" | "clear" | "strong";

/** V from which each word but "lost" holds. */
export interface WordLimits {
  readonly faint: number;
  readonly clear: number;
  readonly strong: number;
}

/** For ordinary eyes. Birthplace: vision.md B4, our choice. */
export const WORD_LIMITS: WordLimits = { faint: 1, clear: 3, strong: 10 };

/**
 * The limits of somebody whose threshold is not the ordinary one.
 * @param theta ln of her threshold over the ordinary one; above 0 she needs more before she sees
 */
export function limitsFor(theta: number): WordLimits {
  const factor = Math.exp(theta);
  return { faint: WORD_LIMITS.faint * factor, clear: WORD_LIMITS.clear * factor, strong: WORD_LIMITS.strong * factor };
}

export function wordOf(v: number, limits = WORD_LIMITS): Word {
  if (v < limits.faint) return "lost";
  if (v < limits.clear) return "faint";
  return v < limits.strong ? "clear" : "strong";
}
