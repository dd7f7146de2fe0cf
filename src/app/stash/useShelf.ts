/** Her shelf, and acts on it: judged before they are kept, each one step back. */
import { useCallback, useRef } from "react";
import { isFault, problemSentence, type Problem } from "../../base/problem.ts";
import type { Edit } from "../../document/edit.ts";
import type { Shelf } from "../../document/shelf.ts";
import { EMPTY_SHELF, tryShelfEdit, type ShelfEdit } from "../../document/shelfEdit.ts";
import { useBench } from "../shell/bench.ts";
import { tryEdit } from "../store/edits.ts";

export interface ShelfInHand {
  readonly shelf: Shelf;
  /** `edits`: what the same act does to the project. False where it was refused, and she was told why. */
  readonly commitShelf: (shelfEdits: readonly ShelfEdit[], name: string, edits?: readonly Edit[]) => boolean;
}

export function useShelf(): ShelfInHand {
  const { shelf: kept, project, putShelf, tell } = useBench();
  const shelf = kept ?? EMPTY_SHELF;
  const here = useRef({ shelf, project });
  here.current = { shelf, project };
  const commitShelf = useCallback<ShelfInHand["commitShelf"]>(
    (shelfEdits, name, edits = []) => {
      const problems: Problem[] = [];
      let after = here.current.shelf;
      for (const edit of shelfEdits) {
        const outcome = tryShelfEdit(after, edit);
        problems.push(...outcome.problems.filter(isFault));
        after = outcome.value ?? after;
      }
      let worked = here.current.project;
      for (const edit of edits) {
        const outcome = worked ? tryEdit(worked, edit) : null;
        problems.push(...(outcome?.problems.filter(isFault) ?? []));
        worked = outcome?.value ?? worked;
      }
      if (problems.length > 0) {
        tell({ title: "That cannot be done", sentences: problems.map(problemSentence) });
        return false;
      }
      putShelf(after, edits, name);
      return true;
    },
    [putShelf, tell],
  );
  return { shelf, commitShelf };
}
