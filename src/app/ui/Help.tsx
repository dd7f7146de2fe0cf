/** A few calm sentences in their place, folded away until they are wanted. */
import type { ReactNode } from "react";

export function Help({ summary, children }: { readonly summary: string; readonly children: ReactNode }): ReactNode {
  return (
    <details className="help">
      <summary>{summary}</summary>
      <div className="help-words">{children}</div>
    </details>
  );
}
