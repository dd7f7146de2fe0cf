/** Changing a yarn on her shelf, and its copy on the bench with it unless she says otherwise; one step back for both. */
import { useCallback, useState } from "react";
import type { YarnFields } from "../../document/plainEdit.ts";
import type { StashLine } from "./lines.ts";
import { useShelf } from "./useShelf.ts";

export interface YarnEdits {
  readonly change: (line: StashLine, fields: YarnFields, what: string) => boolean;
  /** Whether a change is made on the bench too. */
  readonly onBenchToo: boolean;
  readonly setOnBenchToo: (too: boolean) => void;
}

export function useYarnEdits(): YarnEdits {
  const { commitShelf } = useShelf();
  const [onBenchToo, setOnBenchToo] = useState(true);
  const change = useCallback(
    ({ id, yarn, laidOut }: StashLine, fields: YarnFields, what: string): boolean => {
      const both = onBenchToo && laidOut !== null;
      return commitShelf(
        [{ kind: "changeYarn", yarn: id, fields }],
        `${yarn.name}: ${what}${both ? ", on the bench too" : ""}`,
        both ? [{ kind: "changeYarn", yarn: laidOut.id, fields }] : [],
      );
    },
    [commitShelf, onBenchToo],
  );
  return { change, onBenchToo, setOnBenchToo };
}
