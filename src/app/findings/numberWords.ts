/** The numbers behind a finding, named and rounded for reading; what the sentence has said already is left out. */
import { gramsWords, metresWords, percentWords, wholeWords } from "../shell/words.ts";

interface NamedNumber {
  readonly name: string;
  readonly value: string;
}

const tenths = (value: number): string => (value >= 100 ? wholeWords(value) : value.toFixed(1));

/** Names of what the checks measure. A number that has no line here is for programs. */
const WORDS: Record<string, { readonly name: string; readonly words: (value: number) => string }> = {
  V: { name: "shows (V)", words: tenths },
  lightDark: { name: "by light and dark", words: tenths },
  was: { name: "in the pattern", words: tenths },
  deltaL: { name: "apart in L*", words: tenths },
  share: { name: "takes", words: percentWords },
  shareWas: { name: "in the pattern", words: percentWords },
  standsOut: { name: "stands out", words: tenths },
  length: { name: "stitches passed", words: wholeWords },
  stitches: { name: "stitches", words: wholeWords },
  short: { name: "short by", words: (value) => metresWords(value) },
  shortGrams: { name: "short by", words: gramsWords },
};

export function numberWords(numbers: Readonly<Record<string, number | string | null>>): NamedNumber[] {
  return Object.entries(numbers).flatMap(([key, value]) => {
    const word = WORDS[key];
    return word && typeof value === "number" ? [{ name: word.name, value: word.words(value) }] : [];
  });
}
