/** Her shelf's file: opened, saved, or begun anew. */
import { useRef, useState, type ReactNode } from "react";
import type { Shelf } from "../../document/shelf.ts";
import { EMPTY_SHELF } from "../../document/shelfEdit.ts";
import { useBench } from "../shell/bench.ts";
import { FileInput } from "../ui/FileInput.tsx";
import { brokenSentence } from "../worker/answers.ts";
import { newcomers, openShelfFile, saveShelfFile } from "./shelfFile.ts";
import { useShelf } from "./useShelf.ts";

export function ShelfMenu(): ReactNode {
  const { shelf, commitShelf } = useShelf();
  const { say, tell } = useBench();
  const picker = useRef<HTMLInputElement>(null);
  const menu = useRef<HTMLDetailsElement>(null);
  const [opened, setOpened] = useState<{ readonly name: string; readonly shelf: Shelf } | null>(null);
  const close = (): void => {
    if (menu.current) menu.current.open = false;
    menu.current?.querySelector("summary")?.focus();
  };
  const open = async (file: File): Promise<void> => {
    try {
      const { value: read, message } = await openShelfFile(file);
      if (read && shelf.yarns.length === 0) put(read, file.name);
      else if (read) setOpened({ name: file.name, shelf: read });
      tell(message);
    } catch (reason) {
      tell({ title: `${file.name} was not opened`, sentences: [brokenSentence(reason)] });
    }
  };
  const put = (next: Shelf, name: string): void => {
    commitShelf([{ kind: "replaceShelf", shelf: next }], `the shelf of ${name}`);
  };
  return (
    <>
      <details
        ref={menu}
        className="more"
        onKeyDown={(event) => {
          if (event.key === "Escape" && menu.current?.open) close();
        }}
        onBlur={(event) => {
          if (menu.current && !menu.current.contains(event.relatedTarget)) menu.current.open = false;
        }}
      >
        <summary className="button">Shelf file</summary>
        <div className="more-list">
          <button type="button" className="button" onClick={() => picker.current?.click()}>
            Open a shelf…
          </button>
          <button
            type="button"
            className="button"
            onClick={() => {
              say(`Saved as ${saveShelfFile(shelf, "yarns")}.`);
              close();
            }}
          >
            Save the shelf
          </button>
          <button
            type="button"
            className="button"
            disabled={shelf.yarns.length === 0}
            onClick={() => {
              commitShelf([{ kind: "replaceShelf", shelf: emptied(shelf) }], "an empty shelf");
              close();
            }}
          >
            Begin with an empty shelf
          </button>
        </div>
      </details>
      <FileInput
        picker={picker}
        name="Shelf file"
        accept=".json,application/json"
        onFile={(file) => {
          close();
          void open(file);
        }}
      />
      {opened && (
        <OpenedDialog
          name={opened.name}
          opened={opened.shelf}
          onReplace={() => put(opened.shelf, opened.name)}
          onClose={() => setOpened(null)}
        />
      )}
    </>
  );
}

/** What she learned of her eye and her knitting outlives the yarns. */
export const emptied = ({ promised: _promised, ...shelf }: Shelf): Shelf => ({ ...shelf, yarns: EMPTY_SHELF.yarns });

interface OpenedDialogProps {
  readonly name: string;
  readonly opened: Shelf;
  readonly onReplace: () => void;
  readonly onClose: () => void;
}

function OpenedDialog({ name, opened, onReplace, onClose }: OpenedDialogProps): ReactNode {
  const { shelf, commitShelf } = useShelf();
  // As it was when the file was opened: what is pressed here must not change under the hand.
  const [{ added, there }] = useState(() => ({ added: newcomers(shelf, opened), there: shelf.yarns.length }));
  const known = opened.yarns.length - added.length;
  return (
    <dialog
      className="message"
      aria-labelledby="opened-title"
      ref={(dialog) => {
        if (dialog && !dialog.open) dialog.showModal();
      }}
      onClose={onClose}
    >
      <h3 id="opened-title">
        {name}: {yarnsWords(opened.yarns.length)}
      </h3>
      <ul>
        <li>
          On your shelf there {there === 1 ? "is" : "are"} {yarnsWords(there)} now.
        </li>
        {known > 0 && (
          <li>
            {yarnsWords(known)} of the file {known === 1 ? "is" : "are"} there already, word for word.
          </li>
        )}
      </ul>
      <form method="dialog" className="dialog-acts">
        <button className="button" onClick={onReplace}>
          Take it instead of mine
        </button>
        <button
          className="button"
          disabled={added.length === 0}
          onClick={() => commitShelf([{ kind: "addYarns", yarns: added }], `${yarnsWords(added.length)} of ${name}`)}
        >
          Add {yarnsWords(added.length)} to mine
        </button>
        <button className="button strong">Leave it</button>
      </form>
    </dialog>
  );
}

const yarnsWords = (count: number): string => `${count} ${count === 1 ? "yarn" : "yarns"}`;
