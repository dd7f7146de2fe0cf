/** Mends: each takes its finding away, brings none, and is the change that a knitter would try first. */
import { describe, expect, it } from "vitest";
import type { Lab } from "../colour/lab.ts";
import { USUAL_VIEWING } from "../fabric/contrast.ts";
import type { Colourway } from "../fabric/colourway.ts";
import type { Yarn } from "../yarn/yarn.ts";
import { atLeast, audit } from "./audit.ts";
import { told, type Supply } from "./context.ts";
import type { Finding, Mend } from "./finding.ts";
import { contextOf, judgeMemory, type Case } from "./judge.ts";
import { withMends, type YarnNeeds } from "./mends.ts";
import { edited } from "./mends/attempt.ts";

const memory = judgeMemory();
const yarn = (id: string, L: number, a = 0, b = 0): Yarn => ({
  id,
  name: id,
  shade: { lab: [L, a, b] as Lab, uncertainty: 2 },
});

/** Rows of one and one in A and B, then in A and C, between plain ground; B's values in the yarns are what is at fault. */
const rows = ["AAAA", "ACAC", "AAAA", "ABAB", "AAAA"];
const made = (yarns: Yarn[], colourway: Partial<Colourway> = {}, supplies: Supply[] = []): Case => ({
  pattern: {
    gauge: { stitches: 28, rows: 30 },
    colours: [
      { id: "A", role: "main", shade: { lab: [88, 0, 5] } },
      { id: "B", shade: { lab: [40, 0, 5] } },
      { id: "C", shade: { lab: [30, 0, 0] } },
    ],
    charts: [{ id: "c", rows }],
  },
  yarns,
  colourway: { id: "w", yarns: { A: "snow", B: "oat", C: "ink" }, ...colourway },
  viewing: USUAL_VIEWING,
  supplies,
});
const held = [yarn("snow", 86, 0, 5), yarn("oat", 82, 0, 8), yarn("ink", 28)];
const spare = [yarn("pewter", 52), yarn("bark", 41, 1, 6), yarn("chalk", 90)];

const mended = (input: Case, needs?: YarnNeeds): Finding[] =>
  withMends(audit(contextOf(input, memory)), input, memory, needs ? { needs } : {});
/** What is knitted with; a few stitches that are laid on take little. */
const knitted = ({ mends }: Finding): string[] => mends!.flatMap(({ kind, to }) => (kind === "overStitch" ? [] : [to]));
const apply = (input: Case, { edits }: Mend): Case => ({ ...input, colourway: edited(input.colourway, edits) });
const doubts = (input: Case): string[] =>
  audit(contextOf(input, memory))
    .filter((finding) => atLeast(finding, "doubt"))
    .map(({ id }) => id);

describe("a lost row", () => {
  const input = made([...held, ...spare]);
  const [finding, ...others] = mended(input);
  const mends = finding!.mends!;

  it("is the one finding", () => {
    expect(others).toEqual([]);
    expect([finding!.severity, finding!.headline]).toEqual(["fault", "Row 2, oat on snow: lost"]);
  });
  it("is mended first by the yarn nearest to the pattern's value, everywhere that the colour is used", () => {
    expect(mends[0]).toMatchObject({ colour: "B", from: "oat", to: "bark" });
    expect(mends[0]!.at).toBeUndefined();
    expect([mends[0]!.kind, mends[0]!.change]).toEqual(["yarn", "Bark for oat"]);
    const { V, was } = mends[0]!.numbers;
    expect(mends[0]!.sentence).toBe(`Bark for oat: clear, V ${told(V!)} instead of ${told(was!)}`);
  });
  it("and every mend takes it away and brings none", () => {
    expect(mends.length).toBeGreaterThan(1);
    for (const mend of mends) expect(doubts(apply(input, mend))).toEqual([]);
    for (const { numbers } of mends) expect(numbers).toMatchObject({ findingsBefore: 1, findingsAfter: 0 });
  });
  it("never by a yarn of which there is too little", () => {
    const needs = {
      ofColour: new Map([["B", 50]]),
      owned: new Map([
        ["bark", 49],
        ["pewter", 50],
      ]),
    };
    expect(knitted(mended(input, needs)[0]!)).not.toContain("bark");
    expect(mended(input, needs)[0]!.mends![0]!.to).toBe("pewter");
  });
  it("is not mended by a yarn that is as light: what is left is the dark one of another colour", () => {
    const { mends } = mended(made([...held, yarn("chalk", 90), yarn("linen", 83)]))[0]!;
    expect(mends!.map(({ to }) => to)).toEqual(mends!.map(() => "ink"));
  });
});

describe("a row lost by a change at that place", () => {
  const changes = [{ at: { chart: "c", rows: [2, 2] as [number, number] }, colour: "B", yarn: "oat" }];
  const input = made([...held, ...spare], { yarns: { A: "snow", B: "bark", C: "ink" }, changes });
  it("is mended at that place alone, first by the colour's own yarn", () => {
    const [mend] = mended(input)[0]!.mends!;
    expect(mend).toMatchObject({ colour: "B", from: "oat", to: "bark", at: { chart: "c", rows: [2, 2] } });
    expect(mend!.sentence).toMatch(/^Bark for oat in row 2: clear, V [\d.]+ instead of [\d.]+$/);
    // The change that was to blame goes, instead of another one being laid on top of it.
    expect(mend!.edits).toEqual([{ kind: "removeChange", colourway: "w", index: 0 }]);
    expect(doubts(apply(input, mend!))).toEqual([]);
  });
  it("needs there only that place's part of the metres", () => {
    const needs = { ofColour: new Map([["B", 50]]), owned: new Map([["bark", 49]]) };
    // All of colour B's stitches lie in row 2, so that 49 m are not enough.
    expect(knitted(mended(input, needs)[0]!)).not.toContain("bark");
    const two = { ...input, pattern: { ...input.pattern, charts: [{ id: "c", rows: ["AAAA", "BABA", ...rows] }] } };
    expect(knitted(mended(two, needs)[0]!)).toContain("bark");
  });
});

it("a fault that is there already does not stand in the way of mending another", () => {
  const input = made([...held, ...spare, yarn("slate", 33)], { yarns: { A: "snow", B: "oat", C: "cloud" } });
  const both = { ...input, yarns: [...input.yarns, yarn("cloud", 84)] };
  const findings = mended(both);
  expect(findings.map(({ headline }) => headline)).toEqual(["Row 2, oat on snow: lost", "Row 4, cloud on snow: lost"]);
  for (const finding of findings) {
    const [mend] = finding.mends!;
    expect(doubts(apply(both, mend!))).toEqual(findings.map(({ id }) => id).filter((id) => id !== finding.id));
  }
});

it("a yarn that runs short is mended by one that is enough", () => {
  const supplies = [{ yarn: "bark", metres: 40, low: 38, high: 42, reserve: 4, have: 30, short: 14 }];
  const input = made(
    [...held, ...spare, yarn("moss", 43, -8, 10)],
    { yarns: { A: "snow", B: "bark", C: "ink" } },
    supplies,
  );
  const needs = {
    ofColour: new Map([["B", 44]]),
    owned: new Map([
      ["bark", 30],
      ["moss", 60],
      ["pewter", 20],
    ]),
  };
  const [finding] = mended(input, needs);
  expect(finding!.headline).toBe("Not enough bark");
  expect(finding!.mends![0]!.to).toBe("moss");
});

it("a note is no fault to mend, and a float has its mend from the start or none", () => {
  const flipped = made([yarn("snow", 25), yarn("oat", 70), yarn("ink", 85), ...spare]);
  expect(mended(flipped).map(({ severity, mends }) => [severity, mends])).toEqual([["note", undefined]]);
});
