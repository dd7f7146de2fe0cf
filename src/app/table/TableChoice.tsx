/** The ways in for a table, and the way out: her shelf as one. */
import { useId, useRef, useState, type ReactNode } from "react";
import { useBench } from "../shell/bench.ts";
import { download } from "../shell/files.ts";
import { useShelf } from "../stash/useShelf.ts";
import { FileInput } from "../ui/FileInput.tsx";
import { brokenSentence } from "../worker/answers.ts";
import { quickJobs } from "../worker/client.ts";
import { counted } from "./tableWords.ts";

interface TableChoiceProps {
  readonly onFile: (file: File) => void;
  readonly onText: (text: string) => void;
}

export function TableChoice({ onFile, onText }: TableChoiceProps): ReactNode {
  const picker = useRef<HTMLInputElement>(null);
  const [draft, setDraft] = useState("");
  const id = useId();
  return (
    <>
      <div className="table-choice">
        <div className="table-way">
          <button type="button" className="button strong" onClick={() => picker.current?.click()}>
            Choose a file
          </button>
          <FileInput
            picker={picker}
            name="Table of yarns"
            accept=".csv,.tsv,.txt,.tab,.htm,.html,text/*"
            onFile={onFile}
          />
          <p className="table-hint">
            CSV, tabs or a saved page; or drop it here. From a spreadsheet’s own file, save as “CSV UTF-8” first. It
            stays on this computer.
          </p>
        </div>
        <form
          className="table-way"
          onSubmit={(event) => {
            event.preventDefault();
            if (draft.trim() !== "") onText(draft);
          }}
        >
          <label htmlFor={id}>Or paste its cells</label>
          <textarea
            id={id}
            className="field"
            rows={5}
            spellCheck={false}
            value={draft}
            onChange={(event) => setDraft(event.target.value)}
            placeholder={"name; colour; grams\nOatmeal; #ebe1d3; 128"}
          />
          <button className="button" disabled={draft.trim() === ""}>
            Read what is pasted
          </button>
        </form>
        <p className="table-hint table-advice">
          A first line of headings helps, in any of a dozen languages: name, maker, colour code or Lab, grams, metres in
          100&nbsp;g, lot, fibre, note. Nothing goes onto your shelf before you have seen what it would do.
        </p>
      </div>
      <ShelfAsTable />
    </>
  );
}

const FORMS = [
  { key: "points", words: "1.5 and commas", decimal: "." },
  { key: "commas", words: "1,5 and semicolons", decimal: "," },
] as const;

function ShelfAsTable(): ReactNode {
  const { shelf } = useShelf();
  const { say, tell } = useBench();
  const [form, setForm] = useState<(typeof FORMS)[number]>(FORMS[0]);
  const save = async (): Promise<void> => {
    try {
      const text = await quickJobs().writeTable(shelf.yarns, { decimal: form.decimal });
      download("yarns.csv", new Blob([text], { type: "text/csv;charset=utf-8" }));
      say("Saved as yarns.csv.");
    } catch (reason) {
      tell({ title: "The table was not saved", sentences: [brokenSentence(reason)] });
    }
  };
  return (
    <section className="table-part" aria-labelledby="table-save-title">
      <h3 id="table-save-title">Your shelf as a table</h3>
      <p className="table-hint">
        All that is known of your {counted(shelf.yarns.length, "yarn")}, a line for each lot, but for the small
        pictures. It can be changed in a spreadsheet and read here again.
      </p>
      <div className="table-save">
        <fieldset className="choice">
          <legend>Written with</legend>
          {FORMS.map((one) => (
            <label key={one.key}>
              <input type="radio" name="table-form" checked={form === one} onChange={() => setForm(one)} />
              <span>{one.words}</span>
            </label>
          ))}
        </fieldset>
        <button type="button" className="button" disabled={shelf.yarns.length === 0} onClick={() => void save()}>
          Save yarns.csv
        </button>
      </div>
    </section>
  );
}
