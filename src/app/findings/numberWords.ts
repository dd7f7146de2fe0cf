/** The numbers behind a finding, named and rounded for reading; the others are for programs. */
import type { Finding } from "../../audit/finding.ts";
import { percentWords, wholeWords } from "../shell/words.ts";

interface NamedNumber {
  readonly name: string;
  readonly value: string;
}

type Line = readonly [key: string, name: string, words: (value: number) => string];

const tenths = (value: number): string => (value >= 100 ? wholeWords(value) : value.toFixed(1));
const metres = (value: number): string => `${wholeWords(value)}\u202fm`;

const SHOWS: readonly Line[] = [
  ["V", "V here", tenths],
  ["was", "V in the pattern", tenths],
  ["deltaL", "apart in L*", tenths],
];

/** What is worth reading, by the check that found it: the first part of a finding's id. */
const LINES: Readonly<Record<string, readonly Line[]>> = {
  legibility: SHOWS,
  figure: SHOWS,
  soft: SHOWS,
  visualWeight: [
    ["share", "of what draws the eye", percentWords],
    ["was", "in the pattern", percentWords],
    ["bands", "bands", wholeWords],
  ],
  valueOrder: [
    ["deltaL", "apart in L*", tenths],
    ["was", "in the pattern", tenths],
  ],
  floats: [
    ["centimetres", "at the back", (value) => `${tenths(value)}\u202fcm`],
    ["limit", "lies well up to", (value) => `${wholeWords(value)} stitches`],
  ],
  amounts: [
    ["metres", "takes", metres],
    ["have", "you have", metres],
    ["short", "short by", metres],
  ],
};

export function numberWords({ id, numbers }: Pick<Finding, "id" | "numbers">): NamedNumber[] {
  return (LINES[id.slice(0, id.indexOf("/"))] ?? []).flatMap(([key, name, words]) => {
    const value = numbers[key];
    return typeof value === "number" ? [{ name, value: words(value) }] : [];
  });
}
