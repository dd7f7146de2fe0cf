/** A table that was read: its columns, what is amiss line by line, and what it would do to her shelf. */
import { useEffect, useMemo, useRef, useState, type ReactNode } from "react";
import { useBench } from "../shell/bench.ts";
import { useShelf } from "../stash/useShelf.ts";
import type { StashAnswer } from "../worker/api.ts";
import { ColumnCards } from "./ColumnCards.tsx";
import { copyEdits, shelfAfter, takenOf } from "./shelfAfter.ts";
import { TableManner } from "./TableManner.tsx";
import { TableProblems } from "./TableProblems.tsx";
import { actWords, doneWords, foundWords } from "./tableWords.ts";
import type { TableInHand } from "./useTable.ts";
import { ChangedYarns, NewYarns, OthersTold, UnshadedYarns } from "./YarnsOfTable.tsx";

interface ReadTableProps {
  readonly table: TableInHand;
  readonly answer: StashAnswer;
  readonly onDone: () => void;
}

export function ReadTable({ table, answer, onDone }: ReadTableProps): ReactNode {
  const { project, say } = useBench();
  const { shelf, commitShelf } = useShelf();
  const heading = useRef<HTMLHeadingElement>(null);
  const [left, setLeft] = useState<ReadonlySet<string>>(new Set());
  const [onBench, setOnBench] = useState(true);
  const { merge, table: read } = answer;
  const source = table.source!;
  useEffect(() => heading.current?.focus(), [source]);

  const changed = useMemo(() => takenOf(merge, left), [merge, left]);
  const copies = useMemo(() => copyEdits(shelf.yarns, project?.yarns ?? [], changed), [shelf, project, changed]);
  const found = read.yarns.length + read.unshaded.length;
  const summary = foundWords(found, {
    added: merge.added.length,
    changed: merge.changed.length,
    same: merge.same.length,
  });
  useEffect(() => say(summary), [summary, say]);

  const act = actWords(merge.added.length, changed.length);
  const put = (): void => {
    const after = shelfAfter(shelf, merge, changed);
    const name = doneWords(merge.added.length, changed.length);
    if (commitShelf([{ kind: "replaceShelf", shelf: after }], name, onBench ? copies : [])) onDone();
  };
  return (
    <>
      <div className="table-read-head">
        <h3 ref={heading} tabIndex={-1}>
          {source.name}
        </h3>
        <p>{summary}</p>
        <button type="button" className="button" onClick={table.close}>
          Another table
        </button>
      </div>
      <ColumnCards
        preview={read.preview}
        columns={table.corrections.columns}
        onColumns={(columns) => table.correct({ columns })}
      />
      <TableManner answer={answer} corrections={table.corrections} onCorrect={table.correct} />
      <TableProblems problems={table.problems} />
      <UnshadedYarns
        answer={answer}
        named={table.corrections.named ?? "left out"}
        onNamed={(named) => table.correct({ named })}
      />
      <NewYarns added={merge.added} />
      <ChangedYarns
        changed={merge.changed}
        left={left}
        onLeft={(id) =>
          setLeft((now) => {
            const next = new Set(now);
            if (!next.delete(id)) next.add(id);
            return next;
          })
        }
      />
      <OthersTold merge={merge} />
      <div className="table-act">
        {copies.length > 0 && (
          <div className="choice">
            <label>
              <input type="checkbox" checked={onBench} onChange={(event) => setOnBench(event.target.checked)} />
              <span>Change what is on the bench too</span>
            </label>
          </div>
        )}
        <button type="button" className="button strong" disabled={act === null || table.isBusy} onClick={put}>
          {act ?? "Nothing in this table is new"}
        </button>
      </div>
    </>
  );
}
