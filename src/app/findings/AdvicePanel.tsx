/** What is found in the colourway, what would be better, how much yarn it takes, and the sheet to knit from. */
import type { ReactNode } from "react";
import { AmountsTable } from "../amounts/AmountsTable.tsx";
import { SheetMaker } from "../amounts/SheetMaker.tsx";
import { useBench } from "../shell/bench.ts";
import { Ways } from "../ways/Ways.tsx";
import { Findings } from "./Findings.tsx";

export function AdvicePanel(): ReactNode {
  const { project, colourway, note } = useBench();
  return (
    <section className="panel advice" data-part="findings" aria-label="Findings and ways">
      <Findings />
      {project && colourway && (
        <>
          <Ways />
          <AmountsTable />
          <SheetMaker />
        </>
      )}
      {!note.open && (
        <button type="button" className="button quiet note-again" onClick={() => note.set(true)}>
          Show the first note again
        </button>
      )}
    </section>
  );
}
