/** The work on the bench: one project and her shelf, changed by named acts, every one of which can be undone, kept after each. */
import * as Y from "yjs";
import type { Edit } from "../../document/edit.ts";
import type { Project } from "../../document/project.ts";
import type { Shelf } from "../../document/shelf.ts";
import { applyEdit } from "./edits.ts";
import { readShared, writeShared } from "./sharedRecord.ts";

/** What an undo button says, and which colourway to look at when the step is taken back or again. */
export interface Step {
  readonly name: string;
  readonly colourway: string | null;
}

export interface StoreState {
  readonly project: Project | null;
  /** null where nothing was ever put on it. */
  readonly shelf: Shelf | null;
  readonly undo: Step | null;
  readonly redo: Step | null;
}

export interface Store {
  readonly document: Y.Doc;
  readonly subscribe: (listener: () => void) => () => void;
  readonly state: () => StoreState;
  /** One edit is one transaction and one step back. */
  readonly commit: (edits: Edit | readonly Edit[], step: Step) => Project | null;
  /** Another project in place of this one; that too can be undone. */
  readonly replace: (project: Project, step: Step) => void;
  /** The shelf as it will be, and what the same act does to the project. */
  readonly putShelf: (shelf: Shelf, edits: readonly Edit[], step: Step) => void;
  /** The first content of an empty bench, before which there is nothing to go back to. */
  readonly begin: (project: Project, shelf?: Shelf) => void;
  readonly undo: () => Step | null;
  readonly redo: () => Step | null;
}

/** Changes of this origin are hers; what arrives from storage or another tab is not hers to undo here. */
export const EDIT_ORIGIN = "edit";
const BEGIN_ORIGIN = "begin";
const STEP = "step";
const PROJECT_ROOT = "project";
const SHELF_ROOT = "shelf";

export function createStore(document = new Y.Doc()): Store {
  const listeners = new Set<() => void>();
  const roots = { project: document.getMap(PROJECT_ROOT), shelf: document.getMap(SHELF_ROOT) };
  // A capture time of nought makes every transaction a step of its own; the stack has no limit.
  const manager = new Y.UndoManager([roots.project, roots.shelf], {
    trackedOrigins: new Set([EDIT_ORIGIN]),
    captureTimeout: 0,
  });
  let pending: Step | null = null;

  const top = (stack: readonly { meta: Map<unknown, unknown> }[]): Step | null =>
    (stack.at(-1)?.meta.get(STEP) as Step | undefined) ?? null;
  // A change of one of the two leaves the other the same object, so that nothing of it is worked out again.
  const records = { project: readShared<Project>(roots.project), shelf: readShared<Shelf>(roots.shelf) };
  roots.project.observeDeep(() => (records.project = readShared<Project>(roots.project)));
  roots.shelf.observeDeep(() => (records.shelf = readShared<Shelf>(roots.shelf)));
  const read = (): StoreState => ({ ...records, undo: top(manager.undoStack), redo: top(manager.redoStack) });
  let state = read();
  const tell = () => {
    state = read();
    for (const listener of listeners) listener();
  };

  manager.on("stack-item-added", ({ stackItem }: { stackItem: { meta: Map<unknown, unknown> } }) => {
    stackItem.meta.set(STEP, pending);
  });
  document.on("afterTransaction", (transaction) => {
    if (transaction.changed.size > 0) queueMicrotask(tell);
  });

  const write = (change: { readonly project?: Project; readonly shelf?: Shelf }, origin: string, step: Step | null) => {
    pending = step;
    document.transact(() => {
      if (change.project) writeShared(roots.project, change.project);
      if (change.shelf) writeShared(roots.shelf, change.shelf);
    }, origin);
    pending = null;
    tell();
  };
  const travel = (direction: "undo" | "redo"): Step | null => {
    const step = top(direction === "undo" ? manager.undoStack : manager.redoStack);
    pending = step;
    manager[direction]();
    pending = null;
    tell();
    return step;
  };

  return {
    document,
    subscribe: (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    state: () => state,
    commit: (edits, step) => {
      const { project } = records;
      if (!project) return null;
      const list: readonly Edit[] = Array.isArray(edits) ? edits : [edits as Edit];
      write({ project: list.reduce(applyEdit, project) }, EDIT_ORIGIN, step);
      return state.project;
    },
    replace: (project, step) => write({ project }, EDIT_ORIGIN, step),
    putShelf: (shelf, edits, step) => {
      const { project } = records;
      const change = project && edits.length > 0 ? { shelf, project: edits.reduce(applyEdit, project) } : { shelf };
      write(change, EDIT_ORIGIN, step);
    },
    begin: (project, shelf) => write(shelf ? { project, shelf } : { project }, BEGIN_ORIGIN, null),
    undo: () => travel("undo"),
    redo: () => travel("redo"),
  };
}
