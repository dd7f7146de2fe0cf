/** The working sheet as a PDF: to print, or to have beside the needles. */
import { useState, type ReactNode } from "react";
import { useBench } from "../shell/bench.ts";
import { download, fileStem } from "../shell/files.ts";
import { brokenSentence } from "../worker/answers.ts";
import { once } from "../worker/client.ts";

export function SheetMaker(): ReactNode {
  const { project, colourway, say, tell } = useBench();
  const [paper, setPaper] = useState<"A4" | "Letter">("A4");
  const [mono, setMono] = useState(false);
  const [busy, setBusy] = useState(false);
  if (!project || !colourway) return null;
  const make = async () => {
    setBusy(true);
    say("Drawing the working sheet.");
    try {
      const { bytes, pages } = await once((jobs) => jobs.sheet(project, { colourway: colourway.id, paper, mono }));
      const name = `${fileStem(project.name)}-${fileStem(colourway.name ?? colourway.id)}.pdf`;
      download(name, new Blob([new Uint8Array(bytes)], { type: "application/pdf" }));
      say(`The working sheet is saved as ${name}, ${pages} ${pages === 1 ? "page" : "pages"}.`);
    } catch (reason) {
      tell({ title: "The working sheet was not made", sentences: [brokenSentence(reason)] });
    }
    setBusy(false);
  };
  return (
    <section aria-labelledby="sheet-title" className="sheet">
      <h2 id="sheet-title" tabIndex={-1}>
        Working sheet
      </h2>
      <div className="sheet-choice">
        <fieldset className="choice">
          <legend className="unseen">Paper</legend>
          {(["A4", "Letter"] as const).map((name) => (
            <label key={name}>
              <input type="radio" name="paper" checked={paper === name} onChange={() => setPaper(name)} />
              <span>{name}</span>
            </label>
          ))}
        </fieldset>
        <fieldset className="choice">
          <legend className="unseen">Ink</legend>
          <label title="Symbols alone, for a printer without colour">
            <input type="checkbox" role="switch" checked={mono} onChange={(event) => setMono(event.target.checked)} />
            <span>black only</span>
          </label>
        </fieldset>
      </div>
      <button type="button" className="button" disabled={busy} onClick={() => void make()}>
        {busy ? "Drawing…" : "Working sheet (PDF)"}
      </button>
    </section>
  );
}
