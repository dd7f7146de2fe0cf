/** What can be pasted, form by form, each with a line or two as an example. */
import type { ReactNode } from "react";

const FORMS: readonly { readonly name: string; readonly example: string; readonly words?: string }[] = [
  { name: "A sign for each stitch", example: "..#..\n.###.", words: "The top row first; - is no stitch." },
  { name: "Codes", example: "MC MC CC1 MC\nMC CC1 CC1 MC" },
  {
    name: "A table",
    example: "2;A;B;B\n1;B;A;B",
    words: "With commas, semicolons or tabs, out of a spreadsheet too; row and column numbers at its edge go.",
  },
  {
    name: "Rows in words",
    example: "Rnd 1: *k3 MC, k1 CC; rep from * to end\nRnds 2–4: k all MC",
    words: "Row 1 is the bottom. Rounds run from right to left, rows marked WS from left to right.",
  },
  { name: "Counts and colours", example: "2MC 1CC 2MC\n5MC", words: "As they are seen, from left to right." },
  { name: "The key", example: "A = #e8e2d2 hoar\nMC: cream" },
];

export function TextForms(): ReactNode {
  return (
    <details className="typed-forms">
      <summary>What can be pasted</summary>
      <dl>
        {FORMS.map(({ name, example, words }) => (
          <div key={name}>
            <dt>{name}</dt>
            <dd>
              <pre>{example}</pre>
              {words && <p>{words}</p>}
            </dd>
          </div>
        ))}
      </dl>
    </details>
  );
}
