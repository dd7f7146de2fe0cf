/** A finding: what was judged, where, with which numbers, and the change of yarn that mends it. */
import type { Severity } from "../base/problem.ts";
import type { OverStitch } from "../fabric/colourway.ts";
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

/** A change of one yarn that would mend a finding, with by how much; for a float, the row knitted plain and its stitches laid on. */
export interface Mend {
  readonly colour: string;
  readonly from: string | null;
  readonly to: string;
  /** Only there; without it everywhere the colour is used. */
  readonly at?: Place;
  /** Duplicate stitch that goes with it. */
  readonly overStitched?: readonly OverStitch[];
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
  readonly mends?: readonly Mend[];
}
