/** A yarn held in some rows alone. */
import { useState, type ReactNode } from "react";
import { isOwned } from "../../yarn/owned.ts";
import { useBench } from "../shell/bench.ts";
import type { WishGroupProps } from "./WishForm.tsx";
import type { Names } from "./wishList.ts";

export function PlaceWishes({ wish, set, names }: WishGroupProps & { readonly names: Names }): ReactNode {
  const { project, chart, check } = useBench();
  const [colour, setColour] = useState("");
  const [yarn, setYarn] = useState("");
  const [from, setFrom] = useState("");
  const [to, setTo] = useState("");
  if (!project || !chart) return null;
  const height = chart.rows.length;
  const [first, last] = [Number(from), Number(to || from)];
  const inside = Number.isInteger(first) && Number.isInteger(last) && first >= 1 && first <= last && last <= height;
  return (
    <section aria-label="A yarn in some rows">
      <h3>A yarn in some rows</h3>
      <div className="wish-line">
        {(
          [
            ["rows", "First row", from, setFrom],
            ["to", "Last row", to, setTo],
          ] as const
        ).map(([word, name, value, write]) => (
          <label key={name}>
            <span>{word}</span>
            <input
              className="field narrow"
              inputMode="numeric"
              aria-label={name}
              value={value}
              onChange={(event) => write(event.target.value)}
            />
          </label>
        ))}
        <select
          className="field"
          aria-label="Chart colour in those rows"
          value={colour}
          onChange={(event) => setColour(event.target.value)}
        >
          <option value="">colour…</option>
          {(check?.ladder ?? []).map((line) => (
            <option key={line.colour} value={line.colour}>
              {line.colour}, {line.name}
            </option>
          ))}
        </select>
        <select
          className="field"
          aria-label="Yarn for it there"
          value={yarn}
          onChange={(event) => setYarn(event.target.value)}
        >
          <option value="">yarn…</option>
          {project.yarns.filter(isOwned).map(({ id, name }) => (
            <option key={id} value={id}>
              {name}
            </option>
          ))}
        </select>
        <button
          type="button"
          className="button"
          disabled={!inside || !colour || !yarn}
          onClick={() => {
            const at = { chart: chart.id, rows: [first, last] as [number, number] };
            set(
              { keep: [...(wish.keep ?? []), { colour, yarn, at }] },
              `${names.yarn(yarn)} for ${colour} in those rows`,
            );
            setFrom("");
            setTo("");
            setColour("");
            setYarn("");
          }}
        >
          Add
        </button>
      </div>
      {from !== "" && !inside && (
        <p role="alert" className="cloth-wrong">
          Rows go from 1 at the bottom to {height}.
        </p>
      )}
    </section>
  );
}
