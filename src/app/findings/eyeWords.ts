/** Her eye against an ordinary one, in a sentence. */
import type { CheckResult } from "../worker/api.ts";

/** Nearer to 1 than this, in ln, is an ordinary eye: a tenth. */
const ORDINARY = Math.log(1.1);

export function eyeSentence({ verdicts, theta, low, high }: CheckResult["eye"]): string {
  const [about, least, most] = [theta, low, high].map((value) => Math.exp(value).toFixed(1));
  const like = Math.abs(theta) <= ORDINARY ? "about as much as most" : theta < 0 ? "more than most" : "less than most";
  return `Tuned by ${verdicts === 1 ? "one verdict" : `${verdicts} verdicts`} of yours: you see ${like}, needing ${about} times the usual contrast (${least}–${most}).`;
}
