/** The trade's ways to let a count take its repeats, with worked values, and laws that hold for any. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { roundChoices, usualChoice, type RoundChoice, type WantedRound } from "./roundChoices.ts";

const GAUGE = { stitches: 28, rows: 30 };
const round = (stitches: number, repeats: readonly number[], more: Partial<WantedRound> = {}): WantedRound => ({
  cm: stitches / 2.8,
  gauge: GAUGE,
  bands: repeats.map((repeat, index) => ({ id: `b${index + 1}`, repeat })),
  balance: 0,
  rounds: 120,
  ...more,
});
const by = (choices: readonly RoundChoice[], how: RoundChoice["how"]): RoundChoice[] =>
  choices.filter((choice) => choice.how === how);

describe("324 stitches with a repeat of 20 (trade.md 3: 320 or 340, or a repeat of 18)", () => {
  const choices = roundChoices(round(324, [20]));

  it("whole repeats, with what they cost: 4 and 16 stitches at 28 to 10 cm", () => {
    const whole = by(choices, "whole repeats");
    expect(whole.map(({ stitches }) => stitches)).toEqual([320, 340]);
    expect(whole.map(({ costCm }) => Math.round(costCm * 100) / 100)).toEqual([-1.43, 5.71]);
  });
  it("panels of 2 between 8 repeats at the front and 8 at the back", () => {
    expect(by(choices, "side panels")).toMatchObject([{ stitches: 320, panel: 2 }]);
    expect(by(choices, "side panels")[0]!.costCm).toBeCloseTo(0, 9);
  });
  it("another gauge: 320 stitches on as many centimetres are 27.65 to 10 cm, and 120 rounds grow by half a centimetre", () => {
    const [looser, ...others] = by(choices, "another gauge");
    expect(looser).toMatchObject({ stitches: 320, costCm: 0 });
    // By hand: 28 × 320 / 324; 40 cm × (324 / 320 − 1).
    expect(looser).toHaveProperty("gauge.stitches", expect.closeTo(27.654, 3));
    expect(looser).toHaveProperty("heightCm", expect.closeTo(0.5, 9));
    expect(others).toMatchObject([{ stitches: 340 }]);
  });
  it("another repeat", () => {
    expect(by(choices, "another repeat")).toMatchObject([{ stitches: 324, repeats: [{ from: 20, to: 18 }] }]);
  });
  it("the cheapest stands first, and panels ask less of her than another gauge", () => {
    expect(choices[0]!.how).toBe("side panels");
    expect(usualChoice(choices, true)).toMatchObject({ how: "whole repeats", stitches: 320 });
  });
});

it("a step of 24 stitches is 8.6 cm at 28 to 10 cm, of 12 it is 4.3 (trade.md 3)", () => {
  const steps = (repeats: number[]): number => {
    const [low, high] = by(roundChoices(round(251, repeats)), "whole repeats").toSorted((a, b) => a.cm - b.cm);
    return high!.cm - low!.cm;
  };
  expect(steps([24])).toBeCloseTo(8.6, 1);
  expect(steps([4, 6, 8])).toBeCloseTo(8.6, 1);
  expect(steps([12])).toBeCloseTo(4.3, 1);
});

it("what divides already is taken as it is, and plain rounds take any even count", () => {
  expect(roundChoices(round(240, [16, 24]))).toMatchObject([{ how: "as it is", stitches: 240, costCm: 0 }]);
  expect(roundChoices(round(241, [], { every: 4 }))).toMatchObject([{ how: "nearest", stitches: 240 }]);
});

it("a piece that is cut open has a stitch more than whole repeats, so that both edges are alike (trade.md 3)", () => {
  const choices = roundChoices(round(250, [24], { balance: 1 }));
  for (const { stitches } of by(choices, "whole repeats")) expect((stitches - 1) % 24).toBe(0);
});

it("far from whole repeats a piece with sides takes panels, a sleeve the nearest repeats", () => {
  // 24 × 10 and 24 × 11 are 12 stitches from 252: 4.3 cm.
  const choices = roundChoices(round(252, [24]));
  expect(usualChoice(choices, true)).toMatchObject({ how: "side panels", panel: 6, stitches: 240 });
  expect(usualChoice(choices, false)).toMatchObject({ how: "whole repeats" });
});

it("every way takes every repeat, says what it costs, and the list is sorted by that", () => {
  fc.assert(
    fc.property(
      fc.integer({ min: 40, max: 420 }),
      fc.array(fc.integer({ min: 2, max: 24 }), { minLength: 1, maxLength: 3 }),
      fc.constantFrom(0 as const, 1 as const),
      (stitches, repeats, balance) => {
        const wanted = round(stitches, repeats, { balance });
        const choices = roundChoices(wanted);
        expect(choices.length).toBeGreaterThan(0);
        for (const choice of choices) {
          const asked =
            choice.how === "another repeat"
              ? repeats.map((repeat, index) => choice.repeats.find(({ id }) => id === `b${index + 1}`)?.to ?? repeat)
              : repeats;
          for (const repeat of asked) expect((choice.stitches - balance) % repeat, choice.how).toBe(0);
          const perCm = (choice.how === "another gauge" ? choice.gauge.stitches : 28) / 10;
          expect((choice.stitches + 2 * choice.panel) / perCm).toBeCloseTo(choice.cm, 9);
          expect(choice.cm - wanted.cm).toBeCloseTo(choice.costCm, 9);
        }
        const costs = choices.map(({ costCm }) => Math.round(Math.abs(costCm) * 10_000));
        expect(costs).toEqual(costs.toSorted((a, b) => a - b));
      },
    ),
    { seed: 7, numRuns: 300 },
  );
});
