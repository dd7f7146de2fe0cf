/** A mark for better, worse and as now, without colour. */
import type { ReactNode } from "react";
import type { Verdict } from "./placeWords.ts";

/** Told apart by shape alone: up, level, down; a ring where it is now; filled and cornered where it is best. */
export function VerdictMark({ verdict, best }: { readonly verdict: Verdict; readonly best: boolean }): ReactNode {
  const shape = { better: "M3.4 10.6 8 4.4l4.6 6.2z", worse: "M3.4 5.4 8 11.6l4.6-6.2z", same: "M4.5 6.6h7M4.5 9.6h7" };
  const path = verdict === "new" ? shape.better : verdict === "here" ? null : shape[verdict];
  return (
    <svg className="verdict" data-best={best} width="17" height="17" viewBox="0 0 16 16" aria-hidden="true">
      {best ? <path className="verdict-ground" d="M8-.6 16.6 8 8 16.6-.6 8z" /> : null}
      {path ? (
        <path className="verdict-shape" data-level={verdict === "same"} d={path} />
      ) : (
        <circle cx="8" cy="8" r="3" />
      )}
    </svg>
  );
}
