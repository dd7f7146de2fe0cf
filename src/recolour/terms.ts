/** A finished assignment in numbers: its terms, and how much of the fabric is another colour than in another one. */
import { deltaE2000 } from "../colour/difference.ts";
import type { Lab } from "../colour/lab.ts";
import { contrastTerm } from "./demands.ts";
import type { Search } from "./prepare.ts";
import { importanceOf, placeTerms, shortfall, type Terms } from "./score.ts";

/** Two yarns are another colour from this ΔE00 on. Our choice: plainly different side by side. */
const OTHER_COLOUR = 10;

export const isOther = (one: Lab, other: Lab): boolean => deltaE2000(one, other) >= OTHER_COLOUR;

/** Part of the fabric whose colour is plainly another. */
export function difference({ targets, labs }: Search, one: readonly number[], other: readonly number[]): number {
  return targets.reduce((sum, { area }, i) => sum + (isOther(labs[one[i]!]!, labs[other[i]!]!) ? area : 0), 0);
}

export function termsOf({ targets, labs, demands, taste }: Search, assignment: readonly number[]): Terms {
  const sum = { value: 0, contrast: 0, hue: 0, loudness: 0, showing: 0 };
  const count = targets.length;
  targets.forEach((target, i) => {
    const lab = labs[assignment[i]!]!;
    if (!target.pinned) {
      const terms = placeTerms(target, lab, taste);
      const importance = importanceOf(target.area, count);
      sum.value += importance * terms.value;
      sum.hue += importance * terms.hue;
      sum.loudness += importance * terms.loudness;
    }
    if (taste.ladder === "free") return;
    for (let j = i + 1; j < count; j++)
      sum.contrast +=
        count * demands.contacts[i * count + j]! * contrastTerm(targets, i, j, lab, labs[assignment[j]!]!);
  });
  for (const { i, j, V, was, weight } of demands.showings)
    sum.showing += count * weight * shortfall(V[assignment[i]! * labs.length + assignment[j]!]!, was);
  return sum;
}
