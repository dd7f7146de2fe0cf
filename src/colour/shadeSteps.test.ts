import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { isOnScreen, mostChroma, ontoScreen } from "./gamut.ts";
import { labFromHex, labFromLch, lchFromLab, type Lab } from "./lab.ts";
import { stepped, STEP_SIZES, type ShadeStep, type StepSize } from "./shadeSteps.ts";

const STEPS: readonly ShadeStep[] = ["lighter", "darker", "warmer", "cooler", "greyer", "more saturated"];
const labs = fc.tuple(
  fc.double({ min: 0, max: 100, noNaN: true }),
  fc.double({ min: -90, max: 90, noNaN: true }),
  fc.double({ min: -90, max: 90, noNaN: true }),
);
const apart = (one: Lab, other: Lab): number => Math.hypot(one[0] - other[0], one[1] - other[1], one[2] - other[2]);

describe("like this but", () => {
  // By hand, from the sizes stated beside the words.
  test.each<[ShadeStep, StepSize, Lab, Lab]>([
    ["lighter", "small", [50, 10, 20], [53, 10, 20]],
    ["darker", "large", [50, 10, 20], [42, 10, 20]],
    ["lighter", "large", [97, 0, 0], [100, 0, 0]],
    ["greyer", "large", [50, 30, 40], [50, 24, 32]],
    ["more saturated", "small", [50, 30, 40], [50, 32.4, 43.2]],
    ["greyer", "large", [50, 3, 4], [50, 0, 0]],
  ])("%s, %s: %j becomes %j", (step, size, from, to) => {
    stepped(from, step, size).forEach((part, at) => expect(part).toBeCloseTo(to[at]!, 9));
  });

  test("warmer turns red, green and violet towards orange, cooler away from it", () => {
    const hue = (degrees: number, step: ShadeStep): number =>
      lchFromLab(stepped(labFromLch([50, 40, degrees]), step, "small"))[2];
    expect(hue(25, "warmer")).toBeGreaterThan(25);
    expect(hue(140, "warmer")).toBeLessThan(140);
    expect(hue(310, "warmer")).toBeGreaterThan(310);
    expect(hue(25, "cooler")).toBeLessThan(25);
    expect(hue(140, "cooler")).toBeGreaterThan(140);
  });

  test("grey takes a tinge: warm towards yellow and red, cool towards blue and green", () => {
    const [, warmA, warmB] = stepped([60, 0, 0], "warmer", "small");
    const [, coolA, coolB] = stepped([60, 0, 0], "cooler", "small");
    expect(Math.min(warmA, warmB)).toBeGreaterThan(0);
    expect(Math.max(coolA, coolB)).toBeLessThan(0);
  });

  test("a step goes no farther than it says, and only where it says", () => {
    fc.assert(
      fc.property(labs, fc.constantFrom(...STEPS), fc.constantFrom<StepSize>("small", "large"), (lab, step, size) => {
        const after = stepped(lab, step, size);
        const sizes = STEP_SIZES[size];
        expect(apart(lab, after)).toBeLessThanOrEqual(Math.max(sizes.lightness, sizes.colour) + 1e-9);
        const [before, now] = [lchFromLab(lab), lchFromLab(after)];
        if (step === "lighter" || step === "darker") expect(now.slice(1)).toEqual(before.slice(1));
        else expect(now[0]).toBeCloseTo(before[0], 9);
        if ((step === "warmer" || step === "cooler") && before[1] >= sizes.colour)
          expect(now[1]).toBeCloseTo(before[1], 9);
      }),
      { seed: 7, numRuns: 300 },
    );
  });
});

describe("what a screen shows", () => {
  // The corners of sRGB are on it by its definition; a step beyond is not.
  test.each(["#ff0000", "#00ff00", "#0000ff", "#ffffff", "#000000", "#ffff00"])("%s is on it", (hex) => {
    expect(isOnScreen(labFromHex(hex)!)).toBe(true);
  });

  test.each<[Lab]>([[[50, 0, -80]], [[90, 90, 0]], [[20, -60, 0]], [[101, 0, 0]]])("%j is not", (lab) => {
    expect(isOnScreen(lab)).toBe(false);
  });

  test("what is brought onto it is on it, with lightness and hue kept, and stays if it was", () => {
    fc.assert(
      fc.property(labs, (lab) => {
        const onto = ontoScreen(lab);
        expect(isOnScreen(onto)).toBe(true);
        expect(onto[0]).toBeCloseTo(lab[0], 9);
        expect(lchFromLab(onto)[1]).toBeLessThanOrEqual(lchFromLab(lab)[1] + 1e-9);
        if (lchFromLab(lab)[1] < mostChroma(lab[0], lchFromLab(lab)[2])) expect(apart(onto, lab)).toBeLessThan(1e-9);
      }),
      { seed: 7, numRuns: 200 },
    );
  });
});
