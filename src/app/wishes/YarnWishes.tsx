/** Yarn by yarn: used up, kept out, or the only ones to choose from. */
import { useState, type ReactNode } from "react";
import { YarnSwatch } from "../findings/Findings.tsx";
import { isOwned } from "../../yarn/owned.ts";
import { useBench } from "../shell/bench.ts";
import type { WishGroupProps } from "./WishForm.tsx";

type Part = "" | "use" | "never" | "only";

const PARTS: readonly (readonly [Part, string])[] = [
  ["", "may be used"],
  ["use", "must be in it"],
  ["never", "not this one"],
  ["only", "only those marked so"],
];

/** More than these are found by typing. */
const SHOWN = 60;

export function YarnWishes({ wish, set }: WishGroupProps): ReactNode {
  const { project } = useBench();
  const [typed, setTyped] = useState("");
  if (!project || project.yarns.length === 0) return null;
  const lists = {
    use: wish.use ?? [],
    never: wish.never ?? [],
    only: Array.isArray(wish.only) ? (wish.only as readonly string[]) : [],
  };
  const partOf = (id: string): Part =>
    (["use", "never", "only"] as const).find((part) => lists[part].includes(id)) ?? "";
  const found = project.yarns
    .filter(isOwned)
    .filter(({ name }) => name.toLowerCase().includes(typed.trim().toLowerCase()));
  const place = (id: string, name: string, part: Part) => {
    const without = (ids: readonly string[]) => ids.filter((one) => one !== id);
    const next = { use: without(lists.use), never: without(lists.never), only: without(lists.only) };
    if (part !== "") next[part] = [...next[part], id];
    set(
      { use: next.use, never: next.never, only: next.only.length > 0 ? next.only : undefined },
      `${name}: ${PARTS.find(([one]) => one === part)![1]}`,
    );
  };
  return (
    <section aria-label="Yarn by yarn">
      <h3>Yarn by yarn</h3>
      <input
        className="field"
        type="text"
        aria-label="Find a yarn"
        placeholder="name of a yarn"
        value={typed}
        onChange={(event) => setTyped(event.target.value)}
      />
      <ul className="wish-rows scrolled">
        {found.slice(0, SHOWN).map(({ id, name }) => (
          <li key={id}>
            <span className="wish-what">
              <YarnSwatch project={project} yarn={id} /> {name}
            </span>
            <select
              className="field"
              aria-label={`What ${name} may be used for`}
              value={partOf(id)}
              onChange={(event) => place(id, name, event.target.value as Part)}
            >
              {PARTS.map(([part, words]) => (
                <option key={part} value={part}>
                  {words}
                </option>
              ))}
            </select>
          </li>
        ))}
      </ul>
      {found.length > SHOWN && (
        <p className="wish-note">and {found.length - SHOWN} more: type a part of the name to find them.</p>
      )}
    </section>
  );
}
