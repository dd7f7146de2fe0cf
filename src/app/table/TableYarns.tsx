/** Yarns from a table: a file or pasted cells, read with a preview she corrects, held against her shelf, and put there in one act. */
import { useCallback, useEffect, useRef, type ReactNode } from "react";
import { useBench } from "../shell/bench.ts";
import { DoorHead } from "../ui/DoorHead.tsx";
import { useShelf } from "../stash/useShelf.ts";
import "../style/table.css";
import { useDrop } from "../ui/useDrop.ts";
import { usePaste } from "../ui/usePaste.ts";
import { ReadTable } from "./ReadTable.tsx";
import { TableChoice } from "./TableChoice.tsx";
import { useTable } from "./useTable.ts";

export function TableYarns({ onClose }: { readonly onClose: () => void }): ReactNode {
  const { shelf } = useShelf();
  const { say } = useBench();
  const table = useTable(shelf.yarns);
  const heading = useRef<HTMLHeadingElement>(null);
  useEffect(() => heading.current?.focus(), []);
  const { refused, openFile, openText } = table;
  useEffect(() => {
    if (refused.length > 0) say(refused.join(" "));
  }, [refused, say]);
  usePaste(
    useCallback(
      (pasted, target) => {
        if (target instanceof HTMLTextAreaElement || target instanceof HTMLInputElement) return false;
        const [file] = pasted.files;
        const text = pasted.getData("text/plain");
        if (file) openFile(file);
        else if (text.trim() !== "") openText(text);
        return file !== undefined || text.trim() !== "";
      },
      [openFile, openText],
    ),
  );
  const drop = useDrop((dropped) => {
    const [file] = dropped.files;
    const text = dropped.getData("text/plain");
    if (file) openFile(file);
    else if (text.trim() !== "") openText(text);
  });
  return (
    <section className="table-yarns" aria-labelledby="table-yarns-title" aria-busy={table.isBusy} {...drop}>
      <DoorHead
        id="table-yarns-title"
        title="Yarns from a table"
        back="Back to your yarns"
        heading={heading}
        onClose={onClose}
      />
      {refused.length > 0 && (
        <div className="table-refused">
          <h3>{table.source?.name ?? "The file"} was not read</h3>
          {refused.slice(0, 8).map((sentence) => (
            <p key={sentence}>{sentence}</p>
          ))}
        </div>
      )}
      {table.answer ? (
        <ReadTable table={table} answer={table.answer} onDone={onClose} />
      ) : (
        <TableChoice onFile={openFile} onText={openText} />
      )}
    </section>
  );
}
