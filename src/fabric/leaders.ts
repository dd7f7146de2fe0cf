/** The one or two chart colours that lead a band: what the eye goes to first. */
import type { Ink } from "./cloth.ts";
import type { InkWeight } from "./measures.ts";

/** No ranking closer than this factor is told. Birthplace: vision.md C3. */
const ONE_RANK = 1.1;

/** More colours than these leading together is nobody leading. Common practice, no source: a motif has one or two leading colours. */
const MOST_LEADERS = 2;

/**
 * Chart colours whose visual weight no other exceeds by 10 % or more, heaviest first though no rank is meant by it. None where
 * three or more weigh about the same, and where nothing weighs: the ground's own weight is 0.
 * @param weights of one band, or of a whole chart; the inks of one chart colour count together
 */
export function leadersOf(weights: readonly Pick<InkWeight, "ink" | "share">[], inks: readonly Ink[]): string[] {
  const shares = new Map<string, number>();
  for (const { ink, share } of weights) {
    const { colour } = inks[ink]!;
    shares.set(colour, (shares.get(colour) ?? 0) + share);
  }
  const heaviest = Math.max(0, ...shares.values());
  const leaders = [...shares]
    .filter(([, share]) => share > 0 && share * ONE_RANK > heaviest)
    .sort((a, b) => b[1] - a[1])
    .map(([colour]) => colour);
  return leaders.length > MOST_LEADERS ? [] : leaders;
}
