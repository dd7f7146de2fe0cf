/** The cross by which one of several things in hand is taken away again. */
import type { ReactNode } from "react";

export function TakeAway({ name, onPress }: { readonly name: string; readonly onPress: () => void }): ReactNode {
  return (
    <button type="button" className="tool" aria-label={`Take ${name} away`} onClick={onPress}>
      <svg width="14" height="14" viewBox="0 0 16 16" aria-hidden="true">
        <path d="M3 3 13 13M13 3 3 13" stroke="currentColor" strokeWidth="1.7" strokeLinecap="round" />
      </svg>
    </button>
  );
}
