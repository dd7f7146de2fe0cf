/** An attempt: a change that may mend a finding, as edits that have not been tried out yet. */
import { shiftedColourway, shiftedPattern } from "../../fabric/bandShift.ts";
import { patternWithLines } from "../../fabric/chartLines.ts";
import type { Colourway } from "../../fabric/colourway.ts";
import { knittedAfter } from "../../fabric/colourwayEdit.ts";
import { colourwayWithLines } from "../../fabric/colourwayLines.ts";
import type { Pattern } from "../../fabric/pattern.ts";
import { patternBeginning } from "../../fabric/startColumn.ts";
import type { Place } from "../../garment/place.ts";
import type { Section } from "../../garment/sections.ts";
import type { Judged } from "../context.ts";
import type { Mend, MendEdit } from "../finding.ts";

export interface Attempt extends Pick<
  Mend,
  "kind" | "edits" | "colour" | "from" | "to" | "at" | "overStitched" | "change"
> {
  /** What comes of it where that is known beforehand. */
  readonly effect?: string;
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

/** Rows of a chart, in every use of it or in one section. */
export interface RowsPlace {
  readonly chart: string;
  readonly rows: [number, number];
  /** null: every use of the chart. */
  readonly section: string | null;
  /** The same as it stands in a colourway. */
  readonly at: Place;
  /** What is knitted there, by chart colour: the lowest row speaks for all. */
  readonly yarns: ReadonlyMap<string, string | null>;
}

/** The rows of one use of a chart. A section that knits them more than once has them in every use, so that none is left out. */
export function rowsPlaceOf(
  { chart, section, now: { cloth } }: Judged,
  rows: [number, number],
  pattern: Pattern,
): RowsPlace {
  const yarns = new Map<string, string | null>();
  for (const index of cloth.knitted.subarray((rows[0] - 1) * cloth.grid.width, rows[1] * cloth.grid.width)) {
    const ink = cloth.inks[index];
    if (ink && !yarns.has(ink.colour)) yarns.set(ink.colour, ink.yarn);
  }
  const rounds = roundsIn(
    pattern.sections?.find(({ id }) => id === section),
    rows,
    chart.rows.length,
  );
  return section !== null && rounds
    ? { chart: chart.id, rows, section, at: { section, rounds }, yarns }
    : { chart: chart.id, rows, section: null, at: { chart: chart.id, rows }, yarns };
}

/** null where the section knits them twice, or begins between them. */
function roundsIn(section: Section | undefined, rows: [number, number], height: number): [number, number] | null {
  if (!section || Object.values(section.rounds).some((count) => count > height)) return null;
  const [from, to] = rows.map((row) => ((row - (section.startRow ?? 1) + height) % height) + 1) as [number, number];
  return from <= to ? [from, to] : null;
}

/** Pattern and colourway after some of a mend's steps: what the edits of the same names make of them in a project. */
export const edited = <T extends { readonly pattern: Pattern; readonly colourway: Colourway }>(
  before: T,
  edits: readonly MendEdit[],
): T => edits.reduce(step, before);

function step<T extends { readonly pattern: Pattern; readonly colourway: Colourway }>(known: T, edit: MendEdit): T {
  const { pattern, colourway } = known;
  switch (edit.kind) {
    case "shiftBand":
      return {
        ...known,
        pattern: shiftedPattern(pattern, edit),
        colourway: shiftedColourway(colourway, edit, pattern),
      };
    case "insertRows":
      return {
        ...known,
        pattern: patternWithLines(pattern, edit),
        colourway: colourwayWithLines(colourway, edit, pattern),
      };
    case "setStartColumn":
      return { ...known, pattern: patternBeginning(pattern, edit) };
    default:
      return { ...known, colourway: knittedAfter(colourway, edit) };
  }
}

/**
 * The steps that give a colour another yarn in some rows. Where one change at just that place is in force it goes, so that no change lies
 * on top of another that says nothing any more.
 */
export function stepsAt(colourway: Colourway, colour: string, place: RowsPlace, yarn: string): MendEdit[] {
  const { id, changes = [] } = colourway;
  const { at } = place;
  const inForce = changes.flatMap((change, index) =>
    change.colour === colour && mayHold(change.at, place) ? [{ change, index }] : [],
  );
  const [only] = inForce;
  const same = inForce.length === 1 && only && isSame(only.change.at, at) ? only : null;
  const added: MendEdit = { kind: "addChange", colourway: id, change: { at, colour, yarn } };
  if (!same) return [added];
  const removed: MendEdit = { kind: "removeChange", colourway: id, index: same.index };
  return yarn === colourway.yarns[colour] ? [removed] : [removed, added];
}

const mayHold = (place: Place, { chart, rows, section }: RowsPlace): boolean =>
  "chart" in place
    ? place.chart === chart && (!place.rows || (place.rows[0] <= rows[1] && rows[0] <= place.rows[1]))
    : section === null || place.section === section;

const isSame = (one: Place, other: Place): boolean =>
  "chart" in one
    ? "chart" in other && one.chart === other.chart && isSpan(one.rows, other.rows)
    : "section" in other && one.section === other.section && isSpan(one.rounds, other.rounds);

const isSpan = (one: readonly number[] | undefined, other: readonly number[] | undefined): boolean =>
  one?.[0] === other?.[0] && one?.[1] === other?.[1];
