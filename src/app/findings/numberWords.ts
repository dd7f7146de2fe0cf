/** The numbers behind a finding, named and rounded for reading, each with its help; the others are for programs. */
import type { Finding } from "../../audit/finding.ts";
import { percentWords, wholeWords } from "../shell/words.ts";
import type { NumberKey } from "../ui/numberNames.ts";

export interface NamedNumber {
  readonly name: string;
  readonly value: string;
  readonly help: NumberKey;
}

type Numbers = Finding["numbers"];

interface Line {
  readonly key: string;
  readonly name: string;
  readonly help: NumberKey;
  readonly words: (value: number, numbers: Numbers) => string;
  /** Where it is worth a line; everywhere when missing. */
  readonly when?: (value: number, numbers: Numbers) => boolean;
}

const tenths = (value: number): string =>
  (Math.abs(value) >= 100 ? wholeWords(value) : value.toFixed(1)).replace("-", "−");
const metres = (value: number): string => `${wholeWords(value)}\u202fm`;
const numberOf = (numbers: Numbers, key: string): number | null => {
  const value = numbers[key];
  return typeof value === "number" ? value : null;
};

const V_HERE: Line = { key: "V", name: "V here", help: "V", words: tenths };
const V_WAS: Line = { key: "was", name: "V in the pattern", help: "wasV", words: tenths };
const DELTA_L: Line = { key: "deltaL", name: "apart in L*", help: "deltaL", words: tenths };
/** Only where light and dark alone would not do: elsewhere it says the same again. */
const LIGHT_DARK: Line = {
  key: "lightDark",
  name: "by light and dark alone",
  help: "lightDark",
  words: tenths,
  when: (lightDark, numbers) => lightDark < 1 && (numberOf(numbers, "V") ?? 0) >= 1,
};
const SHOWS: readonly Line[] = [V_HERE, V_WAS, DELTA_L, LIGHT_DARK];

/** What is worth reading, by the check that found it: the first part of a finding's id. */
export const LINES: Readonly<Record<string, readonly Line[]>> = {
  legibility: SHOWS,
  figure: SHOWS,
  part: [{ key: "times", name: "shapes lost", help: "shapes", words: wholeWords }, ...SHOWS],
  soft: SHOWS,
  want: SHOWS,
  flecks: [DELTA_L, { key: "meanDeltaL", name: "the whole yarn", help: "deltaL", words: tenths }],
  visualWeight: [
    { key: "share", name: "of what draws the eye", help: "visualWeight", words: percentWords },
    { key: "was", name: "in the pattern", help: "visualWeight", words: percentWords },
    { key: "standsOut", name: "stands out", help: "standsOut", words: tenths },
    { key: "bands", name: "bands", help: "recurs", words: wholeWords },
    { key: "height", name: "of the height", help: "recurs", words: percentWords },
  ],
  valueOrder: [
    { key: "deltaL", name: "apart in L*", help: "deltaL", words: tenths },
    { key: "was", name: "in the pattern", help: "deltaL", words: tenths },
    { key: "colours", name: "colours turned over", help: "lightness", words: wholeWords },
  ],
  floats: [
    { key: "centimetres", name: "at the back", help: "float", words: (value) => `${tenths(value)}\u202fcm` },
    { key: "stitches", name: "over", help: "float", words: (value) => `${wholeWords(value)} stitches` },
    { key: "limit", name: "lies well up to", help: "float", words: (value) => `${wholeWords(value)} stitches` },
  ],
  alignment: [
    { key: "offBy", name: "off by", help: "alignment", words: stitchWords },
    { key: "over", name: "over whole repeats", help: "alignment", words: stitchWords },
    { key: "repeat", name: "repeat", help: "alignment", words: stitchWords },
    { key: "repeatBelow", name: "repeat below", help: "alignment", words: stitchWords },
    { key: "repeatAbove", name: "repeat above", help: "alignment", words: stitchWords },
  ],
  echo: [DELTA_L],
  amounts: [
    { key: "metres", name: "takes", help: "metres", words: withRange },
    { key: "have", name: "you have", help: "have", words: metres },
    { key: "short", name: "short by", help: "have", words: metres },
  ],
};

function stitchWords(value: number): string {
  const stitches = Math.abs(value);
  return `${Number.isInteger(stitches) ? wholeWords(stitches) : tenths(stitches)} ${stitches === 1 ? "stitch" : "stitches"}`;
}

function withRange(value: number, numbers: Numbers): string {
  const [low, high] = [numberOf(numbers, "low"), numberOf(numbers, "high")];
  return low === null || high === null
    ? metres(value)
    : `${wholeWords(value)}\u202fm (${wholeWords(low)}–${wholeWords(high)})`;
}

export function numberWords({ id, numbers }: Pick<Finding, "id" | "numbers">): NamedNumber[] {
  return (LINES[id.slice(0, id.indexOf("/"))] ?? []).flatMap(({ key, name, help, words, when }) => {
    const value = numberOf(numbers, key);
    return value !== null && (when?.(value, numbers) ?? true) ? [{ name, value: words(value, numbers), help }] : [];
  });
}
