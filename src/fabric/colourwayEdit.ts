/** Edits of what is knitted in what, by the names they have among a project's edits: each a pure step from one colourway to the next. */
import type { Change, Colourway, OverStitch } from "./colourway.ts";

export function knittedAfter(colourway: Colourway, edit: KnittedEdit): Colourway {
  switch (edit.kind) {
    case "assignYarn":
      return { ...colourway, yarns: assigned({ ...colourway.yarns, [edit.colour]: edit.yarn }) };
    case "assignYarns":
      return { ...colourway, yarns: { ...colourway.yarns, ...edit.yarns } };
    case "addChange":
      return { ...colourway, changes: [...(colourway.changes ?? []), edit.change] };
    case "removeChange":
      return { ...colourway, changes: (colourway.changes ?? []).filter((_, index) => index !== edit.index) };
    case "overStitch":
      return { ...colourway, overStitched: [...(colourway.overStitched ?? []), edit.stitched] };
    case "removeOverStitch":
      return { ...colourway, overStitched: (colourway.overStitched ?? []).filter((_, index) => index !== edit.index) };
  }
}

/** `colourway` is the id of the one that is edited. */
export type KnittedEdit =
  /** null: no yarn any more. */
  | { readonly kind: "assignYarn"; readonly colourway: string; readonly colour: string; readonly yarn: string | null }
  /** Yarns of several colours at once, as a way of recolouring gives them: what is left out stays. */
  | { readonly kind: "assignYarns"; readonly colourway: string; readonly yarns: Readonly<Record<string, string>> }
  | { readonly kind: "addChange"; readonly colourway: string; readonly change: Change }
  | { readonly kind: "removeChange"; readonly colourway: string; readonly index: number }
  | { readonly kind: "overStitch"; readonly colourway: string; readonly stitched: OverStitch }
  | { readonly kind: "removeOverStitch"; readonly colourway: string; readonly index: number };

const assigned = (yarns: Readonly<Record<string, string | null>>): Record<string, string> =>
  Object.fromEntries(Object.entries(yarns).flatMap(([colour, yarn]) => (yarn === null ? [] : [[colour, yarn]])));
