/** Her wishes for the colourway that is looked at: each a sentence that can be taken back, and the form they are made in. */
import { lazy, Suspense, useMemo, useState, type ReactNode } from "react";
import type { Wish } from "../../recolour/wish.ts";
import { useBench } from "../shell/bench.ts";
import { wishLines, type Names } from "./wishList.ts";

// The form is seldom open, and longer than the list.
const WishForm = lazy(() => import("./WishForm.tsx").then((module) => ({ default: module.WishForm })));

export function Wishes(): ReactNode {
  const { colourway, commit } = useBench();
  const [open, setOpen] = useState(false);
  const names = useNames();
  if (!colourway) return null;
  const wish = (colourway.wish ?? {}) as Wish;
  const lines = wishLines(wish, names);
  const set = (next: Wish, name: string) =>
    commit([{ kind: "setWish", colourway: colourway.id, wish: Object.keys(next).length > 0 ? next : null }], name);
  return (
    <div className="wishes">
      <h3 id="wishes-title">Your wishes</h3>
      {lines.length === 0 ? (
        <p className="empty">None yet: all your yarns, light and dark as in the pattern.</p>
      ) : (
        <ul className="wish-list" aria-labelledby="wishes-title">
          {lines.map(({ key, sentence, without }) => (
            <li key={key}>
              <span>{sentence}</span>
              <button
                type="button"
                className="wish-away"
                aria-label={`Take back: ${sentence}`}
                title="Take this wish back"
                onClick={() => set(without, `taking back “${sentence}”`)}
              >
                <svg width="12" height="12" viewBox="0 0 16 16" aria-hidden="true">
                  <path d="M3 3 13 13M13 3 3 13" stroke="currentColor" strokeWidth="2" strokeLinecap="round" />
                </svg>
              </button>
            </li>
          ))}
        </ul>
      )}
      <button type="button" className="button" aria-haspopup="dialog" onClick={() => setOpen(true)}>
        {lines.length === 0 ? "Make wishes" : "Change wishes"}
      </button>
      {open && (
        <Suspense>
          <WishForm wish={wish} names={names} onSet={set} onClose={() => setOpen(false)} />
        </Suspense>
      )}
    </div>
  );
}

/** Yarns and bands by the names she knows them by. */
function useNames(): Names {
  const { project, check } = useBench();
  return useMemo(() => {
    const yarns = new Map(project?.yarns.map(({ id, name }) => [id, name]));
    const bands = new Map(check?.bands.map(({ id, name }) => [id, name ?? id.replace(/^b/, "")]));
    return { yarn: (id) => yarns.get(id) ?? id, band: (id) => bands.get(id) ?? id };
  }, [project?.yarns, check?.bands]);
}
