/** The work on the bench: one project, changed by named edits, every one of which can be undone, kept after each. */
import * as Y from "yjs";
import { applyEdit, type Edit } from "../../document/edit.ts";
import type { Project } from "../../document/project.ts";
import { readDocument, rootOf, writeDocument } from "./projectDocument.ts";

/** What an undo button says, and which colourway to look at when the step is taken back or again. */
export interface Step {
  readonly name: string;
  readonly colourway: string | null;
}

export interface StoreState {
  readonly project: Project | null;
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
  /** The first content of an empty bench, before which there is nothing to go back to. */
  readonly begin: (project: Project) => void;
  readonly undo: () => Step | null;
  readonly redo: () => Step | null;
}

/** Changes of this origin are hers; what arrives from storage or another tab is not hers to undo here. */
export const EDIT_ORIGIN = "edit";
const BEGIN_ORIGIN = "begin";
const STEP = "step";

export function createStore(document = new Y.Doc()): Store {
  const listeners = new Set<() => void>();
  // A capture time of nought makes every transaction a step of its own; the stack has no limit.
  const manager = new Y.UndoManager(rootOf(document), { trackedOrigins: new Set([EDIT_ORIGIN]), captureTimeout: 0 });
  let pending: Step | null = null;

  const top = (stack: readonly { meta: Map<unknown, unknown> }[]): Step | null =>
    (stack.at(-1)?.meta.get(STEP) as Step | undefined) ?? null;
  const read = (): StoreState => ({
    project: readDocument(document),
    undo: top(manager.undoStack),
    redo: top(manager.redoStack),
  });
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

  const write = (project: Project, origin: string, step: Step | null) => {
    pending = step;
    writeDocument(document, project, origin);
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
      const before = readDocument(document);
      if (!before) return null;
      const list: readonly Edit[] = Array.isArray(edits) ? edits : [edits as Edit];
      write(
        list.reduce((project, edit) => applyEdit(project, edit), before),
        EDIT_ORIGIN,
        step,
      );
      return state.project;
    },
    replace: (project, step) => write(project, EDIT_ORIGIN, step),
    begin: (project) => write(project, BEGIN_ORIGIN, null),
    undo: () => travel("undo"),
    redo: () => travel("redo"),
  };
}
