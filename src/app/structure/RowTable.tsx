/** A band row by row: what each is, its ground and what lies on it, and how far its strands travel. */
import type { ReactNode } from "react";
import type { BuiltRow } from "../worker/api.ts";
import type { PartProps } from "./partProps.ts";
import { listWords } from "./structureWords.ts";

interface RowTableProps {
  /** Lowest first. */
  readonly rows: readonly BuiltRow[];
  readonly crossed: readonly number[];
  readonly nameOf: PartProps["nameOf"];
}

export function RowTable({ rows, crossed, nameOf }: RowTableProps): ReactNode {
  return (
    <details className="help">
      <summary>Row by row</summary>
      <div className="structure-table" tabIndex={0} role="region" aria-label="The band row by row">
        <table>
          <thead>
            <tr>
              <th scope="col">Row</th>
              <th scope="col">Ground</th>
              <th scope="col">On it</th>
              <th scope="col">Longest strands</th>
            </tr>
          </thead>
          <tbody>
            {rows.toReversed().map(({ row, kind, ground, pattern, floats }) => (
              <tr key={row}>
                <th scope="row">{row}</th>
                <td>{ground === null ? "" : nameOf(ground)}</td>
                <td>
                  {kind === "plain" ? "plain" : listWords(pattern.map(nameOf))}
                  {kind === "seeding" && ", seeding"}
                  {kind === "dashes" && ", dashes"}
                  {crossed.includes(row) && ", crossing over"}
                </td>
                <td>{floats.map(({ colour, longest }) => `${nameOf(colour)} ${longest}`).join(", ")}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </details>
  );
}
