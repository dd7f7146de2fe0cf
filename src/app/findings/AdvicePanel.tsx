/** What is found in the colourway, what draws the eye, what would be better, how much yarn it takes, and the sheet to knit from. */
import { lazy, Suspense, type ReactNode } from "react";
import { AmountsTable } from "../amounts/AmountsTable.tsx";
import { SheetMaker } from "../amounts/SheetMaker.tsx";
import { useBench } from "../shell/bench.ts";
import { useCalm } from "../shell/useCalm.ts";
import { Ways } from "../ways/Ways.tsx";
import { Weights } from "../weights/Weights.tsx";
import { Findings } from "./Findings.tsx";

const WoolAdvice = lazy(() => import("./WoolAdvice.tsx").then((module) => ({ default: module.WoolAdvice })));

export function AdvicePanel(): ReactNode {
  const { project, colourway, note } = useBench();
  const calm = useCalm();
  return (
    <section className="panel advice" data-part="findings" aria-label="Findings and ways">
      {project && colourway && <PartLinks />}
      <Findings />
      {project && colourway && (
        <>
          {calm && (
            <Suspense>
              <WoolAdvice />
            </Suspense>
          )}
          <Weights />
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

/** Headings of the parts, by their ids. */
const PARTS: readonly { readonly title: string; readonly name: string }[] = [
  { title: "findings-title", name: "Findings" },
  { title: "weights-title", name: "Weights" },
  { title: "ways-title", name: "Ways" },
  { title: "amounts-title", name: "Yarn" },
  { title: "sheet-title", name: "Sheet" },
];

function PartLinks(): ReactNode {
  return (
    <nav className="advice-parts" aria-label="In this part">
      {PARTS.map(({ title, name }) => (
        <a
          key={title}
          href={`#${title}`}
          onClick={(event) => {
            // The address of the page stays as it is: a step back leads out of the bench, not around in it.
            event.preventDefault();
            const heading = document.getElementById(title);
            heading?.focus({ preventScroll: true });
            heading?.scrollIntoView({ block: "start" });
          }}
        >
          {name}
        </a>
      ))}
    </nav>
  );
}
