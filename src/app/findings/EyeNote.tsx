/** What her verdicts on swatches tell of her own eye, where there are any: the words on the page go by it. */
import type { ReactNode } from "react";
import { NumberHelp } from "../ui/NumberHelp.tsx";
import type { CheckResult } from "../worker/api.ts";

export function EyeNote({ eye }: { readonly eye: CheckResult["eye"] }): ReactNode {
  if (eye.verdicts === 0) return null;
  return (
    <p className="caution">
      {eyeSentence(eye)} <NumberHelp of="threshold" />
    </p>
  );
}

/** Nearer to 1 than this, in ln, is an ordinary eye: a tenth. */
const ORDINARY = Math.log(1.1);

export function eyeSentence({ verdicts, theta, low, high }: CheckResult["eye"]): string {
  const [about, least, most] = [theta, low, high].map((value) => Math.exp(value).toFixed(1));
  const like =
    Math.abs(theta) <= ORDINARY ? "about as well as most" : theta < 0 ? "a little more than most" : "less than most";
  return `Tuned by ${verdicts === 1 ? "one verdict" : `${verdicts} verdicts`} of yours: you see ${like}, needing ${about} times the usual contrast (${least}–${most}).`;
}
