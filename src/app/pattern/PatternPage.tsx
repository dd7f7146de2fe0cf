/** The pattern: its charts, how they are built, and the ways in which another chart comes in. */
import type { ReactNode } from "react";
import { useBench } from "../shell/bench.ts";

export function PatternPage(): ReactNode {
  const { project } = useBench();
  return (
    <main className="bench pattern-page">
      <h2>{project?.pattern.name ?? "Pattern"}</h2>
    </main>
  );
}
