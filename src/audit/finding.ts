/** A finding: what was judged, where, with which numbers, and the changes that mend it. */
import type { Severity } from "../base/problem.ts";
import type { LinesEdit } from "../chart/chartLines.ts";
import type { BandShift } from "../fabric/bandShift.ts";
import type { OverStitch } from "../fabric/colourway.ts";
import type { KnittedEdit } from "../fabric/colourwayEdit.ts";
import type { StartColumnEdit } from "../fabric/startColumn.ts";
import type { Place } from "../garment/place.ts";

export interface FindingPlace {
  readonly chart: string;
  /** Chart rows from 1 at the bottom, inclusive. */
  readonly rows: readonly [number, number];
  readonly band?: string;
  readonly colours?: readonly string[];
  readonly yarns?: readonly string[];
  /** Where a section's own changes make the difference. */
  readonly section?: string;
}

/** One step of a mend as plain data. */
export type MendEdit =
  Exclude<KnittedEdit, { readonly kind: "removeOverStitch" }> | BandShift | RowsInserted | StartColumnEdit;

export type RowsInserted = Extract<LinesEdit, { readonly kind: "insertRows" }>;

/**
 * What is done: another yarn wherever a colour is used, or in some rows; rows in another pair of the yarns in use; the yarns of
 * two colours swapped; duplicate stitch over what is knitted, or instead of a strand; two yarns changed at once; a band moved sideways; plain
 * rows between two bands; another column for the rounds to begin in.
 */
export type MendKind =
  "yarn" | "yarnInRows" | "pairInRows" | "swap" | "overStitch" | "laidOn" | "twoYarns" | "shift" | "spacing" | "start";

/** A change that would mend a finding, with by how much. Its edits, one after the other, are the whole of it. */
export interface Mend {
  readonly kind: MendKind;
  readonly edits: readonly MendEdit[];
  /** Of several changes the first: chart colour, the yarn it had and the one that comes. Of a band that is moved its figure's, of plain rows their own, and the yarn stays. */
  readonly colour: string;
  readonly from: string | null;
  /** null where there was none and none comes. */
  readonly to: string | null;
  /** Only there; without it everywhere the colour is used. */
  readonly at?: Place;
  /** Duplicate stitch that is part of it. */
  readonly overStitched?: readonly OverStitch[];
  /** What is done, whatever comes of it: "Bark for Oat in row 9". */
  readonly change: string;
  /** What comes of it at the distance that was judged: "clear, V 5 instead of 0.6"; "" where the change says it all. */
  readonly effect: string;
  /** Both: "Bark for Oat in row 9: clear, V 5 instead of 0.6". */
  readonly sentence: string;
  readonly numbers: Readonly<Record<string, number | null>>;
}

export interface Finding {
  /** Stable for the same fault at the same place, so that it can be muted: "legibility/c1/9-9/B-C". */
  readonly id: string;
  readonly severity: Severity;
  readonly where: FindingPlace;
  readonly numbers: Readonly<Record<string, number | string | null>>;
  /** What and where, in one line: "Row 9, grey on lilac: lost". */
  readonly headline: string;
  /** Why, in words a knitter uses, with its number and how sure it is. */
  readonly sentence: string;
  /** Of a long float: where it is caught, [row, column] from 1 at the bottom right. */
  readonly catches?: readonly (readonly [number, number])[];
  /** Of one too long for that: columns of ladders behind it. */
  readonly ladders?: readonly number[];
  /** The band of which she can say that it is meant so: then nothing is said of it any more. */
  readonly meant?: { readonly chart: string; readonly rows: readonly [number, number] };
  readonly mends?: readonly Mend[];
}
