/** What every panel of the bench shares: the project, how it is looked at, the check of it, and a change that is only tried. */
import { createContext, useContext } from "react";
import type { Edit } from "../../document/edit.ts";
import type { Chart } from "../../chart/chart.ts";
import type { Project } from "../../document/project.ts";
import type { Shelf } from "../../document/shelf.ts";
import type { Colourway } from "../../fabric/colourway.ts";
import type { Kept } from "../store/keep.ts";
import type { Store, Step, StoreState } from "../store/store.ts";
import type { Ahead } from "../worker/ahead.ts";
import type { CheckResult } from "../worker/api.ts";
import type { NoteState } from "./FirstNote.tsx";
import type { SmallPicture, SmallQuestion } from "./following.ts";
import type { Panel, View } from "./view.ts";

/** Rows that are framed on the fabric. */
export interface Spot {
  readonly chart: string;
  readonly rows: readonly [number, number];
}

/** A change that is shown beside what is, and kept or dropped. */
export interface Preview {
  readonly title: string;
  readonly sentence: string;
  readonly from: Project;
  readonly project: Project;
  readonly colourway: string;
  readonly step: Step;
  /** What brings the hand back to where the change was chosen. */
  readonly returnTo: HTMLElement | null;
  /** The part that was in view where parts take turns. */
  readonly panel: Panel;
}

export interface Message {
  readonly title: string;
  readonly sentences: readonly string[];
}

export interface Bench extends StoreState {
  readonly store: Store;
  readonly kept: Kept;
  /** How what is shown is looked at: check, picture and all words on the page are of this one distance, light and eye. */
  readonly view: View;
  /** How she wants to look: ahead of the view as long as that is worked out. */
  readonly hand: View;
  readonly look: (part: Partial<View>) => void;
  readonly colourway: Colourway | null;
  readonly chart: Chart | null;
  readonly check: CheckResult | null;
  readonly checking: boolean;
  readonly mending: boolean;
  readonly checkFailed: string | null;
  readonly previewCheck: CheckResult | null;
  /** Nothing is left to be worked out ahead. */
  readonly settled: boolean;
  /** Pictures of the cloth as seen from every stand. */
  readonly smalls: Ahead<SmallQuestion, SmallPicture>;
  readonly preview: Preview | null;
  readonly tryChange: (preview: Omit<Preview, "from" | "panel">) => void;
  readonly keepPreview: () => void;
  readonly dropPreview: () => void;
  /** What the fabric, the gutter and the ladder show: the project, or what it would be with the yarn she has her eye on. */
  readonly shown: Project | null;
  /** A glimpse of some edits while she chooses; null puts the eye back. */
  readonly glimpse: (edits: readonly Edit[] | null) => void;
  readonly spot: Spot | null;
  readonly showSpot: (spot: Spot | null) => void;
  readonly commit: (edits: readonly Edit[], name: string) => boolean;
  /** The shelf as it will be, judged by whoever made it, and what the same act does to the project: one step back. */
  readonly putShelf: (shelf: Shelf, edits: readonly Edit[], name: string) => void;
  readonly travel: (direction: "undo" | "redo") => void;
  readonly said: string;
  readonly say: (sentence: string) => void;
  readonly message: Message | null;
  readonly tell: (message: Message | null) => void;
  readonly note: NoteState;
}

const BenchContext = createContext<Bench | null>(null);
export const BenchProvider = BenchContext.Provider;

export function useBench(): Bench {
  const bench = useContext(BenchContext);
  if (!bench) throw new Error("a panel stands outside the bench");
  return bench;
}
