/** What her verdicts on swatches tell of her own eye, where there are any: the words on the page go by it. */
import type { ReactNode } from "react";
import { NumberHelp } from "../ui/NumberHelp.tsx";
import type { CheckResult } from "../worker/api.ts";
import { eyeSentence } from "./eyeWords.ts";

export function EyeNote({ eye }: { readonly eye: CheckResult["eye"] }): ReactNode {
  if (eye.verdicts === 0) return null;
  return (
    <p className="caution">
      {eyeSentence(eye)} <NumberHelp of="threshold" />
    </p>
  );
}
