/** Everything she can do to her shelf, as plain data: each a pure step from one record to the next. */
import type { Outcome, Problem } from "../base/problem.ts";
import type { Yarn } from "../yarn/yarn.ts";
import type { YarnFields } from "./plainEdit.ts";
import { patched } from "./patched.ts";
import { SHELF_FORMAT, SHELF_VERSION, judgeShelf, type Shelf } from "./shelf.ts";

export type ShelfEdit =
  | { readonly kind: "addYarns"; readonly yarns: readonly Yarn[] }
  /** A field given as null goes; fields that are left out stay. */
  | { readonly kind: "changeYarn"; readonly yarn: string; readonly fields: YarnFields }
  /** What was promised of them goes with them. */
  | { readonly kind: "removeYarns"; readonly yarns: readonly string[] }
  /** So many grams for a project, instead of what was promised to it before; null takes the promise back. */
  | { readonly kind: "promise"; readonly yarn: string; readonly project: string; readonly grams: number | null }
  /** Another shelf in place of this one, as out of a file. */
  | { readonly kind: "replaceShelf"; readonly shelf: Shelf };

export const EMPTY_SHELF: Shelf = { format: SHELF_FORMAT, version: SHELF_VERSION, yarns: [] };

/** The shelf after an edit; or null and why not. What comes out can be written and read again. */
export function tryShelfEdit(shelf: Shelf, edit: ShelfEdit): Outcome<Shelf> {
  const missing = missingYarn(shelf, edit);
  return missing ? { value: null, problems: [missing] } : judgeShelf(edited(shelf, edit));
}

function edited(shelf: Shelf, edit: ShelfEdit): Shelf {
  switch (edit.kind) {
    case "addYarns":
      return { ...shelf, yarns: [...shelf.yarns, ...edit.yarns] };
    case "changeYarn":
      return {
        ...shelf,
        yarns: shelf.yarns.map((yarn) => (yarn.id === edit.yarn ? patched(yarn, edit.fields) : yarn)),
      };
    case "removeYarns":
      return {
        ...shelf,
        yarns: shelf.yarns.filter(({ id }) => !edit.yarns.includes(id)),
        ...(shelf.promised ? { promised: shelf.promised.filter(({ yarn }) => !edit.yarns.includes(yarn)) } : {}),
      };
    case "promise": {
      const others = (shelf.promised ?? []).filter(
        ({ yarn, project }) => yarn !== edit.yarn || project !== edit.project,
      );
      const { yarn, project, grams } = edit;
      return { ...shelf, promised: grams === null ? others : [...others, { yarn, project, grams }] };
    }
    case "replaceShelf":
      return edit.shelf;
  }
}

function missingYarn(shelf: Shelf, edit: ShelfEdit): Problem | null {
  const named =
    edit.kind === "removeYarns" ? edit.yarns : edit.kind === "changeYarn" || edit.kind === "promise" ? [edit.yarn] : [];
  const known = new Set(shelf.yarns.map(({ id }) => id));
  const stranger = named.find((id) => !known.has(id));
  return stranger === undefined
    ? null
    : {
        where: "the yarn",
        expected: "the id of one of the yarns on the shelf",
        got: JSON.stringify(stranger),
        severity: "fault",
      };
}
