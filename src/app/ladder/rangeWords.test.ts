import { describe, expect, it } from "vitest";
import type { LadderRung } from "../worker/api.ts";
import { openSentence, rangeSentence } from "./rangeWords.ts";

const rung = (colour: string, more: Partial<LadderRung> = {}): LadderRung => ({
  colour,
  name: `colour ${colour}`,
  yarn: `y${colour}`,
  yarnName: `Yarn ${colour}`,
  L: 50,
  low: 50,
  high: 50,
  class: "medium-dark",
  mayBe: ["medium-dark"],
  rank: 1,
  hex: "#777777",
  main: false,
  was: { L: 50, low: 50, high: 50, class: "medium-dark", mayBe: ["medium-dark"], rank: 1, hex: "#777777" },
  crosses: [],
  mayCross: [],
  ...more,
});

describe("ranges in words", () => {
  it("a certain shade needs none", () => {
    expect(rangeSentence(rung("A"), [])).toBe("");
    expect(openSentence([rung("A"), rung("B")])).toBe("");
  });
  it("of one colour: lightness, class, the pattern's, and order", () => {
    const lines = [
      rung("A", {
        L: 56,
        low: 53.2,
        high: 58.9,
        mayBe: ["light-medium", "medium-dark"],
        mayCross: ["B"],
        was: { ...rung("A").was, low: 40.1, high: 60 },
      }),
      rung("B", { mayCross: ["A"] }),
    ];
    expect(rangeSentence(lines[0]!, lines)).toBe(
      "L* likely 53 to 59; of which class is open: light-medium or medium-dark; the pattern’s likely 40 to 60; may change places with Yarn B (B).",
    );
  });
  it("of the ladder: each pair once, no more than two named", () => {
    const two = [rung("A", { mayCross: ["B"] }), rung("B", { mayCross: ["A"], yarn: null, yarnName: null })];
    expect(openSentence(two)).toBe(
      "Yarn A (A) and B may change places: their shades are not known well enough to tell.",
    );
    const many = [
      rung("A", { mayCross: ["B", "C"] }),
      rung("B", { mayCross: ["A", "C"] }),
      rung("C", { mayCross: ["A", "B"] }),
    ];
    expect(openSentence(many)).toBe(
      "Yarn A (A) and Yarn B (B); Yarn A (A) and Yarn C (C); and 1 more pair may change places: their shades are not known well enough to tell.",
    );
  });
});
