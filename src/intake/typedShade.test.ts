import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { problemSentence } from "../base/problem.ts";
import { readTypedShade } from "./typedShade.ts";

describe("a shade typed into one field", () => {
  // By hand; 4, 12 and 18 over 5 are exact in polar form.
  test.each<[string, readonly number[]]>([
    ["54 12 20", [54, 12, 20]],
    ["54,12,20", [54, 12, 20]],
    ["54, 12, -20", [54, 12, -20]],
    ["54,5 12,25 −20,1", [54.5, 12.25, -20.1]],
    ["54,5; 12; 20", [54.5, 12, 20]],
    ["Lab(54.5 / 12 / 20)", [54.5, 12, 20]],
    ["L*a*b*: 54 12 20", [54, 12, 20]],
    ["L 54 a 12 b -20", [54, 12, -20]],
    ["L=54, a=12, b=20", [54, 12, 20]],
    ["lch 50 20 90", [50, 0, 20]],
    ["LCh(50, 20, 180°)", [50, -20, 0]],
    ["L 50 C 20 h 0", [50, 20, 0]],
    ["CIELab 0 0 0", [0, 0, 0]],
    ["#fff", [100, 0, 0]],
    ["000000", [0, 0, 0]],
  ])("%s", (text, lab) => {
    const { value, problems } = readTypedShade(text);
    expect(problems).toEqual([]);
    value!.lab.forEach((part, at) => expect(part).toBeCloseTo(lab[at]!, 1));
  });

  test("a code is kept as a code", () => {
    expect(readTypedShade(" #E8E2D2 ").value!.hex).toBe("#e8e2d2");
    expect(readTypedShade("rgb(232, 226, 210)").value!.hex).toBe("#e8e2d2");
    expect(readTypedShade("54 12 20").value!.hex).toBeUndefined();
  });

  test.each([
    [
      "",
      "The shade: expected a code such as #8f7a55, Lab such as 54 12 20, or LCh such as lch 54 23 59, found nothing.",
    ],
    ["#12345", 'The code: expected # and three or six of the signs 0–9 and a–f, found "#12345".'],
    ["154 12 20", "The L*: expected a number from 0 to 100, found 154."],
    ["54 12 259", "The b*: expected a number from -160 to 160, found 259."],
    ["lch 54 -3 20", "The C*: expected a number from 0 to 160, found -3."],
    ["lch 54 20 400", "The h: expected a number from -360 to 360, found 400."],
    ["54 12", "The shade: expected three numbers, found 2: 54 12."],
    ["moss", /found "moss"\.$/],
  ])("%s is refused with a sentence", (text, sentence) => {
    const { value, problems } = readTypedShade(text);
    expect(value).toBeNull();
    expect(problems).toHaveLength(1);
    if (typeof sentence === "string") expect(problemSentence(problems[0]!)).toBe(sentence);
    else expect(problemSentence(problems[0]!)).toMatch(sentence);
  });

  test("anything gives a shade or one fault, and what is written out is read again", () => {
    fc.assert(
      fc.property(fc.string({ maxLength: 40 }), (text) => {
        const { value, problems } = readTypedShade(text);
        expect(value === null).toBe(problems.length === 1);
        if (value) expect(value.lab.every(Number.isFinite)).toBe(true);
      }),
      { seed: 7, numRuns: 300 },
    );
    const part = (least: number, most: number) => fc.integer({ min: least * 10, max: most * 10 }).map((x) => x / 10);
    fc.assert(
      fc.property(part(0, 100), part(-160, 160), part(-160, 160), fc.constantFrom(".", ","), (L, a, b, sign) => {
        const written = [L, a, b].map((x) => x.toFixed(1).replace(".", sign)).join(" ");
        expect(readTypedShade(written).value!.lab).toEqual([L, a, b]);
      }),
      { seed: 7, numRuns: 200 },
    );
  });
});
