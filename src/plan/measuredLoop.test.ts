/** Loop length by ruler and by scales, with the trade's worked errors. */
import { describe, expect, it } from "vitest";
import { problemSentence } from "../base/problem.ts";
import { loopByUnpicking, loopByWeighing, slackFrom } from "./measuredLoop.ts";

const GAUGE = { stitches: 28, rows: 30 };

describe("a hundred stitches unpicked (trade.md 1.7)", () => {
  it("1.6 m to a centimetre: 16 mm, ± 0.6 %", () => {
    const { value } = loopByUnpicking({ stitches: 100, lengthCm: 160, gauge: GAUGE });
    expect(value!.mm).toBe(16);
    expect(value!.within * 100).toBeCloseTo(0.6, 1);
  });
  it("a metre too few is a slip of the pen, and said so", () => {
    const { value, problems } = loopByUnpicking({ stitches: 100, lengthCm: 60, gauge: GAUGE });
    expect(value).toBeNull();
    expect(problems.map(problemSentence)).toEqual([
      "The yarn of one stitch: expected 2.5 to 7 times its width, found 6.0 mm, 1.7 times 3.6 mm.",
    ]);
  });
});

describe("a swatch on the scales (trade.md 1.7)", () => {
  const weigh = (more: object) =>
    loopByWeighing({ grams: 7.6, stitches: 50, rows: 40, scaleG: 0.1, metresPer100g: 420, gauge: GAUGE, ...more });

  it("2000 stitches of 7.6 g: a 0.1 g scale leaves 1.3 % open", () => {
    const { value } = weigh({});
    expect(value!.within * 100).toBeCloseTo(1.3, 1);
    // 7.6 g are 31.92 m, over 2000 loops and three rows of edges.
    expect(value!.mm).toBeCloseTo(31_920 / 2150, 9);
  });
  it("a 1 g kitchen scale leaves 13 % open and is refused; from about 20 g on it will do", () => {
    expect(weigh({ scaleG: 1 }).value).toBeNull();
    expect(weigh({ scaleG: 1 }).problems.map(problemSentence)[0]).toBe(
      "The scales: expected steps of 0.38 g or less for 7.6 g of knitting, found 1 g, which leaves 13 % open.",
    );
    expect(weigh({ scaleG: 1, grams: 20, stitches: 100, rows: 53 }).value!.within).toBe(0.05);
  });
  it("a true 50 g ball that weighs 46.1 g in a heated room cancels the damp", () => {
    const wholeBall = { labelG: 50, weighedG: 46.1 };
    const { value, problems } = weigh({ grams: (7.6 * 46.1) / 50, wholeBall });
    expect(value!.mm).toBeCloseTo(31_920 / 2150, 9);
    expect(problems).toEqual([]);
    expect(weigh({}).problems[0]!.severity).toBe("note");
  });
});

it("slack out of two-strand stitches: (19.964 − 16.036) / 3.5714 − 1 is 0.10 (trade.md 1.5, 1.7)", () => {
  expect(slackFrom({ twoStrandMm: 19.964, plainMm: 16.036, gauge: GAUGE }).value).toBeCloseTo(0.1, 3);
  expect(slackFrom({ twoStrandMm: 16, plainMm: 16.036, gauge: GAUGE }).value).toBeNull();
});
