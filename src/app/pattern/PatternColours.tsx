/** The pattern's own colours with their letters, names and stitches, and which of them is the main one. */
import { useMemo, type ReactNode } from "react";
import type { Pattern } from "../../fabric/pattern.ts";
import { MainColour } from "./MainColour.tsx";
import { colourName, swatchOf } from "./swatch.ts";

export function PatternColours({ pattern }: { readonly pattern: Pattern }): ReactNode {
  const { colours, charts } = pattern;
  const stitches = useMemo(() => stitchesOf(charts), [charts]);
  if (colours.length === 0) return null;
  return (
    <section className="pattern-colours" aria-label="Colours of the pattern">
      <div className="pattern-colours-head">
        <h3>Colours</h3>
        <span className="pattern-colour-count">stitches</span>
      </div>
      <ul>
        {colours.map((colour) => (
          <li key={colour.id}>
            <span className="swatch small" style={{ background: swatchOf(colour) }} />
            <span className="pattern-colour-id">{colour.id}</span>
            <span className="pattern-colour-name">
              {colourName(colour)}
              {colour.role === "main" && <b> · main</b>}
            </span>
            <span className="pattern-colour-count">{stitches.get(colour.id) ?? 0}</span>
          </li>
        ))}
      </ul>
      <MainColour colours={colours} main={colours.find(({ role }) => role === "main")?.id ?? null} />
    </section>
  );
}

function stitchesOf(charts: Pattern["charts"]): Map<string, number> {
  const counts = new Map<string, number>();
  for (const { rows } of charts)
    for (const row of rows) for (const id of row) counts.set(id, (counts.get(id) ?? 0) + 1);
  return counts;
}
