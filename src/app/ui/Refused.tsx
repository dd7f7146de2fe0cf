/** Why something that came in was not taken, in sentences, and what can be done instead. */
import type { ReactNode } from "react";
import "../style/files.css";

interface RefusedProps {
  readonly title: string;
  readonly sentences: readonly string[];
  readonly children?: ReactNode;
}

export function Refused({ title, sentences, children }: RefusedProps): ReactNode {
  return (
    <div role="alert" className="refused">
      <h3>{title}</h3>
      {sentences.map((sentence) => (
        <p key={sentence}>{sentence}</p>
      ))}
      {children}
    </div>
  );
}
