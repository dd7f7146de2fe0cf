/** Mends: each takes its finding away, brings none, and is the change that a knitter would try first. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Lab } from "../colour/lab.ts";
import { USUAL_VIEWING } from "../fabric/contrast.ts";
import type { Colourway } from "../fabric/colourway.ts";
import type { Yarn } from "../yarn/yarn.ts";
import { atLeast, audit } from "./audit.ts";
import { told, type Supply } from "./context.ts";
import type { Finding, Mend } from "./finding.ts";
import { contextOf, judgeMemory, type Case } from "./judge.ts";
import { mendsOneByOne, withMends, type YarnNeeds } from "./mends.ts";
import { edited } from "./mends/attempt.ts";
import { pairsOf } from "./mends/pairs.ts";
import { targetOf } from "./mends/target.ts";
import { triesOf } from "./mends/tries.ts";
import { choicesFor, yarnsAttempt } from "./mends/yarnAttempts.ts";

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
const knitted = ({ mends }: Finding): string[] =>
  mends!.flatMap(({ kind, to }) => (kind === "overStitch" ? [] : [to!]));
const apply = (input: Case, { edits }: Mend): Case => edited(input, edits);
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

describe("a row lost by a section's own change", () => {
  const changes = [{ at: { section: "s", rounds: [2, 2] as [number, number] }, colour: "B", yarn: "oat" }];
  const plain = made([...held, ...spare], { yarns: { A: "snow", B: "bark", C: "ink" }, changes });
  const used = (rounds: number): Case => ({
    ...plain,
    pattern: { ...plain.pattern, sections: [{ id: "s", chart: "c", rounds: { M: rounds }, stitches: { M: 4 } }] },
  });
  it("is mended in that section: the change goes, or another takes its place", () => {
    const [finding] = mended(used(5));
    expect(finding!.id).toBe("legibility/c@s/2-2/yarn oat+yarn snow");
    const [own, other] = finding!.mends!;
    expect(own).toMatchObject({ to: "bark", edits: [{ kind: "removeChange", colourway: "w", index: 0 }] });
    expect(own!.effect).toMatch(/^clear, V/);
    expect(other!.at).toEqual({ section: "s", rounds: [2, 2] });
    expect(other!.edits.map(({ kind }) => kind)).toEqual(["removeChange", "addChange"]);
    for (const mend of finding!.mends!) expect(doubts(apply(used(5), mend))).toEqual([]);
  });
  it("that knits the chart again and again: in every use, so that no round is left out", () => {
    const [first] = mended(used(12))[0]!.mends!;
    expect([first!.to, first!.at]).toEqual(["bark", { chart: "c", rows: [2, 2] }]);
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

describe("what else mends a lost row", () => {
  const input = made([...held, ...spare]);
  const { mends } = mended(input)[0]!;
  it("its row in a yarn that is in use elsewhere, without another", () => {
    const pair = mends!.find(({ kind }) => kind === "pairInRows")!;
    expect(pair).toMatchObject({ colour: "B", from: "oat", to: "ink", at: { chart: "c", rows: [2, 2] } });
    expect(pair.change).toBe("Ink, in use elsewhere, for oat in row 2");
  });
  it("dark stitches laid over every second one of the figure", () => {
    const laid = mends!.find(({ kind }) => kind === "overStitch")!;
    // Row 2 is ABAB, read from the right: B lies in columns 1 and 3.
    expect(laid.overStitched).toEqual([{ at: { chart: "c", rows: [2, 2] }, cells: [[2, 1]], yarn: laid.to }]);
    expect(laid.change).toMatch(/ laid over every second stitch of oat in row 2 in duplicate stitch, 1 of 4 stitches$/);
    expect(laid.numbers.stitches).toBe(1);
    // Half of the dark stitches show less than all of them, and more than none.
    expect(laid.numbers.V).toBeLessThan(mends![0]!.numbers.V!);
    expect(laid.numbers.V).toBeGreaterThan(laid.numbers.was!);
  });
  it("ranks what is less to do first", () => {
    const kinds = mends!.map(({ kind }) => kind);
    expect(kinds).toEqual(
      ["yarn", "pairInRows", "yarnInRows", "overStitch"].filter((kind) => kinds.includes(kind as never)),
    );
  });
});

describe("two at once, where one is not enough", () => {
  const two = (lightest: number, yarns: Yarn[], colourway: Record<string, string>, drawn = rows): Case => {
    const input = made(yarns, { yarns: colourway });
    const [A, B, C] = input.pattern.colours;
    const colours = [A!, B!, { ...C!, shade: { lab: [lightest, 0, 0] as Lab } }];
    return { ...input, pattern: { ...input.pattern, colours, charts: [{ id: "c", rows: drawn }] } };
  };
  it("both colours of a row that is all of one value", () => {
    const yarns = [yarn("fog", 60), yarn("stone", 57), yarn("cloud", 69), yarn("slate", 48)];
    const input = two(30, yarns, { A: "fog", B: "stone" }, ["AAAA", "ABAB", "AAAA"]);
    const [finding] = mended(input);
    // Apart by 12 in L* either alone would whisper, by 21 both together read (trade.md 4, common practice).
    const [inRow, everywhere, ...more] = finding!.mends!;
    expect([inRow!.kind, everywhere!.kind, more.length]).toEqual(["twoYarns", "twoYarns", 0]);
    // The main colour is changed everywhere last.
    expect(inRow!.change).toBe("Slate for stone and Cloud for fog in row 2");
    expect(inRow!.edits.map(({ kind }) => kind)).toEqual(["addChange", "addChange"]);
    expect(everywhere!.edits).toEqual([{ kind: "assignYarns", colourway: "w", yarns: { A: "cloud", B: "slate" } }]);
    for (const mend of [inRow!, everywhere!]) expect(doubts(apply(input, mend))).toEqual([]);
  });
  it("one that mends the row, and one that mends what the first would lose", () => {
    // Bark parts B from A and would lie by ash, 9 apart in L*, in row 4; with linen there the pattern's order is kept too.
    const yarns = [yarn("snow", 90), yarn("oat", 86), yarn("ash", 50), yarn("bark", 41), yarn("linen", 76)];
    const input = two(78, yarns, { A: "snow", B: "oat", C: "ash" }, ["AAAA", "BCBC", "AAAA", "ABAB", "AAAA"]);
    const found = audit(contextOf(input, memory));
    const tries = triesOf(found, input, memory, { needs: { ofColour: new Map(), owned: new Map() } });
    const lost = found.find(({ id }) => id.startsWith("legibility/c/2-2"))!;
    const target = targetOf(lost, tries.base, input, memory);
    const singles = choicesFor(tries, "B").map((choice) => ({ choice, attempt: yarnsAttempt(tries, [choice]) }));
    expect(singles.map(({ attempt }) => tries.offer(attempt, target))).toEqual(singles.map(() => null));
    const mending = pairsOf(tries, target, singles).filter((attempt) => tries.offer(attempt, target));
    expect(mending.map(({ edits: [edit] }) => edit)).toContainEqual({
      kind: "assignYarns",
      colourway: "w",
      yarns: { B: "bark", C: "linen" },
    });
  });
});

it("two colours that have changed places are mended by swapping them back", () => {
  const input = made([yarn("snow", 88), yarn("bark", 41), yarn("ink", 26)], {
    yarns: { A: "snow", B: "ink", C: "bark" },
  });
  const meeting = { ...input.pattern, charts: [{ id: "c", rows: ["AAAA", "BCBC", "AAAA", "ABAB", "AAAA"] }] };
  const [finding] = mended({ ...input, pattern: meeting });
  expect(finding!.headline).toBe("B is now darker than C: ink beside bark");
  expect(finding!.mends!.map(({ kind, edits, sentence }) => ({ kind, edits, sentence }))).toEqual([
    {
      kind: "swap",
      edits: [{ kind: "assignYarns", colourway: "w", yarns: { B: "bark", C: "ink" } }],
      sentence: "Ink and bark swapped (B and C)",
    },
  ]);
});

it("a band that is meant to be soft and shows hard gets a yarn nearer to its ground", () => {
  const blocks = ["AAAABBBB", "AAAABBBB", "BBBBAAAA", "BBBBAAAA"];
  const plain = "AAAAAAAA";
  const input = made([...held, ...spare, yarn("pearl", 78, 0, 4)], { yarns: { A: "snow", B: "ink" } });
  const [A, B] = input.pattern.colours;
  const soft: Case = {
    ...input,
    pattern: {
      ...input.pattern,
      colours: [A!, { ...B!, shade: { lab: [80, 0, 5] } }],
      charts: [{ id: "c", rows: [plain, ...blocks, plain], bands: [{ rows: [2, 5], want: "soft" }] }],
    },
  };
  const [finding] = mended(soft);
  expect(finding!.id).toBe("soft/c/b2");
  const [first] = finding!.mends!;
  expect([first!.kind, first!.from, first!.to]).toEqual(["yarn", "ink", "pearl"]);
  expect(doubts(apply(soft, first!))).toEqual([]);
});

it("where the ladder is turned over on purpose, the yarn is looked for at the mirrored value", () => {
  const yarns = [yarn("night", 25), yarn("coal", 28), yarn("chalk", 86), ...spare.slice(0, 2), yarn("linen", 78)];
  const [finding] = mended(made(yarns, { yarns: { A: "night", B: "coal", C: "chalk" } }));
  // The pattern's values run from 88 to 30: what is 40 there is 88 + 30 − 40 = 78 here.
  expect(finding!.mends![0]).toMatchObject({ kind: "yarn", colour: "B", from: "coal", to: "linen" });
});

describe("handed over one by one", () => {
  const cloudy = made([...held, ...spare, yarn("slate", 33)], { yarns: { A: "snow", B: "oat", C: "cloud" } });
  const input = { ...cloudy, yarns: [...cloudy.yarns, yarn("cloud", 84)] };
  const found = audit(contextOf(input, memory));
  it("worst first, the same as all at once, and the same again", () => {
    const one = [...mendsOneByOne(found, input, memory)];
    expect(one.map(({ id }) => id)).toEqual(found.map(({ id }) => id));
    expect(one).toEqual(withMends(found, input, judgeMemory()));
  });
  it("stopped, those that were handed over stay", () => {
    let over = false;
    const handed: Finding[] = [];
    for (const finding of mendsOneByOne(found, input, memory, { stop: () => over })) {
      handed.push(finding);
      over = true;
    }
    expect(handed.map(({ id }) => id)).toEqual([found[0]!.id]);
    expect(withMends(found, input, memory, { stop: () => true })).toEqual(found);
  });
  it("what round by round turns out not to be enough is not offered", () => {
    const supplies: Supply[] = [{ yarn: "snow", metres: 40, low: 38, high: 42, reserve: 4, have: 90, short: 0 }];
    const short = { yarn: "bark", metres: 20, low: 19, high: 21, reserve: 2, have: 10, short: 12 };
    const known = { ...input, supplies };
    const suppliesFor = ({ yarns }: Colourway): Supply[] =>
      Object.values(yarns).includes("bark") ? [...supplies, short] : supplies;
    const tos = (options: object): string[] => knitted(withMends(found, known, memory, options)[0]!);
    expect(tos({})).toContain("bark");
    const [first] = withMends(found, known, memory, { suppliesFor })[0]!.mends!;
    // Next to the pattern's 40 lies slate, at 33.
    expect(first!.to).toBe("slate");
  });
});

it("whatever is drawn and held: each mend is what it says it is, from nothing", () => {
  const stitch = fc.constantFrom("A", "A", "B", "C", "-");
  const chart = fc
    .integer({ min: 1, max: 9 })
    .chain((width) =>
      fc.array(
        fc.array(stitch, { minLength: width, maxLength: width }).map((cells) => cells.join("")),
        {
          minLength: 1,
          maxLength: 7,
        },
      ),
    )
    .filter((drawn) => drawn.some((row) => /[ABC]/.test(row)));
  const names = [...held, ...spare].map(({ id }) => id);
  const colourway = fc.dictionary(fc.constantFrom("A", "B", "C"), fc.constantFrom(...names), { noNullPrototype: true });
  const row = fc.integer({ min: 1, max: 3 });
  const changes = fc.array(
    fc.record({ row, colour: fc.constantFrom("A", "B", "C"), yarn: fc.constantFrom(...names) }),
    { maxLength: 2 },
  );
  let mendsSeen = 0;
  fc.assert(
    fc.property(chart, colourway, changes, (drawn, yarns, changed) => {
      const input = made([...held, ...spare], {
        yarns,
        changes: changed.map(({ row: at, colour, yarn: to }) => ({
          at: { chart: "c", rows: [at, at] as [number, number] },
          colour,
          yarn: to,
        })),
      });
      const whole = { ...input, pattern: { ...input.pattern, charts: [{ id: "c", rows: drawn }] } };
      for (const finding of mended(whole))
        for (const mend of finding.mends ?? []) {
          mendsSeen += 1;
          const after = doubts(apply(whole, mend));
          expect(after).not.toContain(finding.id);
          if (mend.numbers.findingsAfter !== undefined) expect(after).toHaveLength(mend.numbers.findingsAfter!);
        }
    }),
    { seed: 7, numRuns: 150 },
  );
  expect(mendsSeen).toBeGreaterThan(100);
});
