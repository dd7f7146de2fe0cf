/** Where the rounds of a section begin in its chart, size by size: what moves all of it sideways and no band over another. */
import type { Pattern } from "./pattern.ts";

export interface StartColumnEdit {
  readonly kind: "setStartColumn";
  readonly section: string;
  readonly size: string;
  /** The chart column in which the size's rounds begin. */
  readonly column: number;
}

export const patternBeginning = (pattern: Pattern, { section, size, column }: StartColumnEdit): Pattern => ({
  ...pattern,
  sections: (pattern.sections ?? []).map((one) =>
    one.id === section ? { ...one, startColumn: { ...one.startColumn, [size]: column } } : one,
  ),
});
