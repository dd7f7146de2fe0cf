/** What the marks beside the rows mean, drawn as they are drawn there. */
import type { ReactNode } from "react";
import type { Word } from "../worker/api.ts";

const SHAPES: Record<Word, ReactNode> = {
  strong: <rect x="1" y="3" width="18" height="8" />,
  clear: <rect x="6.5" y="3" width="7" height="8" />,
  faint: <rect x="4" y="3.5" width="12" height="7" fill="none" stroke="currentColor" strokeWidth="1.25" />,
  lost: <path d="M4 2.5 16 11.5M16 2.5 4 11.5" fill="none" stroke="currentColor" strokeWidth="1.9" />,
};

export function Mark({ shows }: { readonly shows: Word }): ReactNode {
  return (
    <svg className="mark" width="20" height="14" viewBox="0 0 20 14" fill="currentColor" aria-hidden="true">
      {SHAPES[shows]}
    </svg>
  );
}

export function MarkLegend(): ReactNode {
  return (
    <ul className="legend" aria-label="Marks beside the rows">
      {(["strong", "clear", "faint", "lost"] as const).map((shows) => (
        <li key={shows}>
          <Mark shows={shows} />
          {shows}
        </li>
      ))}
      <li>no mark: plain</li>
    </ul>
  );
}
