/** Band by band: soft, clear or strong. */
import type { ReactNode } from "react";
import type { Want } from "../../chart/chart.ts";
import { useBench } from "../shell/bench.ts";
import type { WishGroupProps } from "./WishForm.tsx";

const WANTS: readonly Want[] = ["soft", "clear", "strong"];

export function BandWishes({ wish, set }: WishGroupProps): ReactNode {
  const { check, chart } = useBench();
  const bands = (check?.bands ?? []).filter(
    (band) => band.chart === chart?.id && band.section === null && band.shows !== null,
  );
  if (bands.length === 0) return null;
  const wanted = wish.bands ?? [];
  return (
    <section aria-label="Band by band">
      <h3>Band by band</h3>
      <ul className="wish-rows">
        {bands.map(({ id, name, rows, want }) => {
          const now = wanted.find(({ band }) => band === id || (name !== null && band === name))?.want ?? "";
          const where = rows[0] === rows[1] ? `row ${rows[0]}` : `rows ${rows[0]} to ${rows[1]}`;
          const called = name ?? `band ${id.replace(/^b/, "")}`;
          return (
            <li key={id}>
              <span className="wish-what">
                {called}, {where}
              </span>
              <select
                className="field"
                aria-label={`How ${called}, ${where}, should show`}
                value={now}
                onChange={(event) => {
                  const next = event.target.value as Want | "";
                  const others = wanted.filter(({ band }) => band !== id && band !== name);
                  set(
                    // A name goes on naming the band, whatever rows come in or go; a place among the others may not.
                    { bands: next ? [...others, { band: name ?? id, want: next }] : others },
                    next ? `${called} ${next}` : `${called} as the pattern has it`,
                  );
                }}
              >
                <option value="">{want ? `${want}, as planned` : "as the pattern has it"}</option>
                {WANTS.map((word) => (
                  <option key={word}>{word}</option>
                ))}
              </select>
            </li>
          );
        })}
      </ul>
    </section>
  );
}
