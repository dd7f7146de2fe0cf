/** An attempt: a change that may mend a finding, as edits that have not been tried out yet. */
import type { Colourway } from "../../fabric/colourway.ts";
import type { Place } from "../../garment/place.ts";
import type { Mend, MendEdit } from "../finding.ts";

export interface Attempt extends Pick<
  Mend,
  "kind" | "edits" | "colour" | "from" | "to" | "at" | "overStitched" | "change"
> {
  readonly moves: readonly Move[];
  /** How far the yarns lie from what the pattern has in their places; less is tried first. */
  readonly near: number;
  /** Stitches of the chart that are laid on. */
  readonly stitches?: number;
}

/** Yarn that goes from one to another with a part of a chart colour's stitches. */
export interface Move {
  readonly colour: string;
  /** null where nothing is saved: the stitches are laid over it, or it had no yarn. */
  readonly from: string | null;
  readonly to: string;
  /** Of the colour's metres; a stitch laid on takes more than one knitted. */
  readonly share: number;
}

/** Rows of a chart, in every use of it. */
export type RowsPlace = Extract<Place, { chart: string }> & { rows: [number, number] };

/** A colourway after some of a mend's steps: what the edits of the same names make of it in a project. */
export const edited = (colourway: Colourway, edits: readonly MendEdit[]): Colourway => edits.reduce(step, colourway);

function step(colourway: Colourway, edit: MendEdit): Colourway {
  switch (edit.kind) {
    case "assignYarn":
      return { ...colourway, yarns: { ...colourway.yarns, [edit.colour]: edit.yarn } };
    case "assignYarns":
      return { ...colourway, yarns: { ...colourway.yarns, ...edit.yarns } };
    case "addChange":
      return { ...colourway, changes: [...(colourway.changes ?? []), edit.change] };
    case "removeChange":
      return { ...colourway, changes: (colourway.changes ?? []).filter((_, index) => index !== edit.index) };
    case "overStitch":
      return { ...colourway, overStitched: [...(colourway.overStitched ?? []), edit.stitched] };
  }
}

/**
 * The steps that give a colour another yarn in some rows. Where one change at just that place is in force it goes, so that no change lies
 * on top of another that says nothing any more.
 */
export function stepsAt(colourway: Colourway, colour: string, at: RowsPlace, yarn: string): MendEdit[] {
  const { id, changes = [] } = colourway;
  const here = changes.flatMap((change, index) =>
    change.colour === colour && ("section" in change.at || meets(change.at, at)) ? [{ change, index }] : [],
  );
  const [only] = here;
  const same = here.length === 1 && only && isPlace(only.change.at, at) ? only : null;
  const added: MendEdit = { kind: "addChange", colourway: id, change: { at, colour, yarn } };
  if (!same) return [added];
  const removed: MendEdit = { kind: "removeChange", colourway: id, index: same.index };
  return yarn === colourway.yarns[colour] ? [removed] : [removed, added];
}

const meets = (place: Extract<Place, { chart: string }>, at: RowsPlace): boolean =>
  place.chart === at.chart && (!place.rows || (place.rows[0] <= at.rows[1] && at.rows[0] <= place.rows[1]));

const isPlace = (place: Place, at: RowsPlace): boolean =>
  "chart" in place && place.chart === at.chart && place.rows?.[0] === at.rows[0] && place.rows[1] === at.rows[1];
