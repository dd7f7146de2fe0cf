/** The pages of a PDF by small pictures, chosen by press or by keys. */
import { useEffect, useRef, useState, type KeyboardEvent, type ReactNode } from "react";
import type { ChartDesk } from "../worker/chartClient.ts";
import type { SourceInHand } from "./reading.ts";
import { countWords } from "./words.ts";

interface PageChoiceProps {
  readonly source: SourceInHand;
  readonly desk: ChartDesk;
  /** Pages that were read already. */
  readonly done: readonly number[];
  readonly onRead: (pages: readonly number[]) => void;
}

/** Pixels, the longer side of a small picture. */
const SMALL = 260;
/** Pages beyond which they are taken by their numbers: nobody looks through so many. Our choice. */
const MOST_SHOWN = 200;

export function PageChoice({ source, desk, done, onRead }: PageChoiceProps): ReactNode {
  const { id, file, pages } = source;
  const [chosen, setChosen] = useState<ReadonlySet<number>>(new Set());
  const [active, setActive] = useState(1);
  const [pictures, setPictures] = useState<ReadonlyMap<number, string>>(new Map());
  const list = useRef<HTMLUListElement>(null);
  const shown = Math.min(pages, MOST_SHOWN);

  useEffect(() => {
    let live = true;
    const made: string[] = [];
    const draw = async () => {
      for (let page = 1; page <= shown && live; page++) {
        const blob = await desk.thumbnail({ id, file, page }, SMALL);
        if (!live || !blob) continue;
        const address = URL.createObjectURL(blob);
        made.push(address);
        setPictures((now) => new Map(now).set(page, address));
      }
    };
    // A page that keeps the worker silent ends it: the pages can be read without their pictures.
    draw().catch(() => undefined);
    return () => {
      live = false;
      for (const address of made) URL.revokeObjectURL(address);
    };
  }, [desk, id, file, shown]);
  useEffect(() => list.current?.querySelector<HTMLElement>("[tabindex='0']")?.focus(), []);

  const turn = (page: number): void =>
    setChosen((now) => {
      const next = new Set(now);
      if (!next.delete(page)) next.add(page);
      return next;
    });
  const go = (page: number): void => {
    const next = Math.max(1, Math.min(shown, page));
    setActive(next);
    list.current?.querySelector<HTMLElement>(`[data-page="${next}"]`)?.focus();
  };
  const take = (page?: number): void => {
    const wanted = chosen.size > 0 ? [...chosen].sort((one, other) => one - other) : page === undefined ? [] : [page];
    if (wanted.length > 0) onRead(wanted);
  };
  const onKeyDown = (event: KeyboardEvent): void => {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    const across = columnsOf(list.current);
    const moves: Record<string, number> = {
      ArrowRight: active + 1,
      ArrowLeft: active - 1,
      ArrowDown: active + across,
      ArrowUp: active - across,
      Home: 1,
      End: shown,
    };
    const to = moves[event.key];
    if (to !== undefined) go(to);
    else if (event.key === " ") turn(active);
    else if (event.key === "Enter") take(active);
    else return;
    event.preventDefault();
  };
  return (
    <section className="page-choice" aria-labelledby="pages-title">
      <h3 id="pages-title">
        {file.name} <span className="count">{countWords(pages, "page")}</span>
      </h3>
      <p className="reading-hint" id="pages-hint">
        Which pages have the chart? Arrow keys go from page to page, Space chooses, Enter reads.
      </p>
      <ul
        ref={list}
        className="pages"
        role="listbox"
        aria-multiselectable="true"
        aria-labelledby="pages-title"
        aria-describedby="pages-hint"
        onKeyDown={onKeyDown}
      >
        {Array.from({ length: shown }, (_, at) => at + 1).map((page) => (
          <li
            key={page}
            role="option"
            aria-selected={chosen.has(page)}
            aria-label={`Page ${page}${done.includes(page) ? ", read already" : ""}`}
            data-page={page}
            tabIndex={page === active ? 0 : -1}
            onFocus={() => setActive(page)}
            onClick={() => {
              setActive(page);
              turn(page);
            }}
            onDoubleClick={() => onRead([page])}
          >
            {pictures.has(page) ? <img src={pictures.get(page)} alt="" /> : <span className="page-blank" />}
            <span className="page-number">
              {page}
              {done.includes(page) && " · read"}
            </span>
          </li>
        ))}
      </ul>
      <div className="page-acts">
        <button type="button" className="button strong" disabled={chosen.size === 0} onClick={() => take()}>
          {chosen.size === 0 ? "Read the chosen pages" : `Read ${countWords(chosen.size, "page")}`}
        </button>
        <button
          type="button"
          className="button"
          onClick={() =>
            setChosen(chosen.size === shown ? new Set() : new Set(Array.from({ length: shown }, (_, at) => at + 1)))
          }
        >
          {chosen.size === shown ? "Choose none" : "Choose all"}
        </button>
        {pages > shown && <p className="reading-hint">The first {shown} are shown.</p>}
      </div>
    </section>
  );
}

/** How many stand side by side just now. */
function columnsOf(list: HTMLUListElement | null): number {
  const items = [...(list?.querySelectorAll<HTMLElement>("[data-page]") ?? [])];
  return Math.max(1, items.filter((item) => item.offsetTop === items[0]!.offsetTop).length);
}
