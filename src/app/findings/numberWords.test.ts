/** Every finding shows its numbers, and every number on the page has its help. */
import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { NUMBER_HELP } from "../ui/numberCatalogue.ts";
import { NUMBER_NAMES } from "../ui/numberNames.ts";
import { eyeSentence } from "./eyeWords.ts";
import { LINES, numberWords } from "./numberWords.ts";

/** What is no finding: doubts that a swatch may settle have ids of their own. */
const DOUBTS = ["doubts.ts", "rowDoubts.ts"];

/** The kinds of findings as the judgements write them: the first part of an id. */
const kinds = (): string[] => {
  const sources = readdirSync("src/audit")
    .filter((file) => file.endsWith(".ts") && !file.endsWith(".test.ts") && !DOUBTS.includes(file))
    .map((file) => readFileSync(`src/audit/${file}`, "utf8"));
  const ids = sources.flatMap((source) => [...source.matchAll(/\bid: (`[^`]*`|"[^"]*")/g)].map(([, id]) => id!));
  const named = ids.flatMap((id) => {
    const [, plain] = /^["`](\w+)\//.exec(id) ?? [];
    return plain ?? [...id.matchAll(/[?:] "(\w+)"/g)].map(([, one]) => one!);
  });
  return [...new Set(named)].sort();
};

describe("numbers of findings", () => {
  it("every kind that the judgements make has lines", () => {
    expect(kinds()).toEqual(expect.arrayContaining(["legibility", "part", "soft", "want", "amounts"]));
    expect(kinds().filter((kind) => !(kind in LINES))).toEqual([]);
  });

  it("are rounded as far as they deserve", () => {
    const numbers = { V: 0.6453, lightDark: 0.6447, deltaL: 4.5, was: 5.058, distanceM: 1.5, shows: "lost" };
    expect(numberWords({ id: "legibility/c1/68-68/B-C", numbers })).toEqual([
      { name: "V here", value: "0.6", help: "V" },
      { name: "V in the pattern", value: "5.1", help: "wasV" },
      { name: "apart in L*", value: "4.5", help: "deltaL" },
    ]);
  });

  it("light and dark alone are told where only hue tells apart", () => {
    const told = (V: number, lightDark: number) =>
      numberWords({ id: "figure/c1/b1/B-C", numbers: { V, lightDark } }).map(({ help }) => help);
    expect(told(3.8, 0.43)).toEqual(["V", "lightDark"]);
    expect(told(3.8, 2)).toEqual(["V"]);
  });

  it("an amount has its range", () => {
    const numbers = { metres: 112.3, low: 105.6, high: 116.1, reserve: 11, have: 90, short: 33 };
    expect(numberWords({ id: "amounts/y1", numbers })[0]!.value).toBe("112\u202fm (106–116)");
  });
});

describe("her eye", () => {
  it("is told as a factor with its range: e to the θ (docs/vision.md D)", () => {
    // ln 2 = 0.693, ln 1.5 = 0.405, ln 3 = 1.099
    expect(eyeSentence({ verdicts: 7, theta: 0.693, low: 0.405, high: 1.099 })).toBe(
      "Tuned by 7 verdicts of yours: you see less than most, needing 2.0 times the usual contrast (1.5–3.0).",
    );
    expect(eyeSentence({ verdicts: 1, theta: 0.05, low: -0.7, high: 0.7 })).toMatch(
      /^Tuned by one verdict .* as much as/,
    );
  });
});

describe("help", () => {
  it("every number says what it means, what it rests on and where it is weak, in few words", () => {
    for (const name of Object.values(NUMBER_NAMES)) expect(name).toMatch(/^\S.*\S$|^\S$/);
    for (const [key, { meaning, restsOn, weak }] of Object.entries(NUMBER_HELP))
      for (const text of [meaning, restsOn, weak]) {
        expect(text.trim(), key).toBe(text);
        expect(text.split(" ").length, `${key}: ${text}`).toBeLessThanOrEqual(60);
        expect(text, key).toMatch(/^[A-Z“].*[.]$/s);
      }
  });
});
