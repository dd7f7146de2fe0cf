import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Pattern } from "../fabric/pattern.ts";
import type { Colourway } from "../fabric/colourway.ts";
import type { Yarn } from "../yarn/yarn.ts";
import { amountsOf, amountsSentence, type Amounts, type AmountsOf } from "./amounts.ts";
import { CAST_ON_AND_OFF, JOIN_M, USUAL_SWATCH, type AmountSettings } from "./settings.ts";
import { stretches } from "./tallySection.ts";

/** Half a millimetre: the worked values are stated to the millimetre. */
const HALF_A_MILLIMETRE = 0.0005 + 1e-9;

const DIAMOND_8 = ["...#...#", "..###...", ".##.##..", "##.#.##.", ".##.##..", "..###...", "...#...#"];
const NO_TAILS: Partial<AmountSettings> = { tailsM: 0 };

function patternOf(rows: string[], sections?: Pattern["sections"]): Pattern {
  const ids = [...new Set(rows.join(""))].filter((id) => id !== "-");
  return {
    gauge: { stitches: 28, rows: 30 },
    colours: ids.map((id) => ({ id, shade: { hex: "#888888" } })),
    charts: [{ id: "c1", rows }],
    ...(sections ? { sections } : {}),
  };
}

const section = (stitches: number, rounds: number, more: object = {}): NonNullable<Pattern["sections"]>[number] => ({
  id: "body",
  chart: "c1",
  rounds: { M: rounds },
  stitches: { M: stitches },
  ...more,
});

const yarn = (id: string, more: Partial<Yarn> = {}): Yarn => ({ id, name: id, metresPer100g: 420, grams: 50, ...more });
const colourway = (yarns: Record<string, string>, more: Partial<Colourway> = {}): Colourway => ({
  id: "w1",
  yarns,
  ...more,
});

const diamond = (settings?: Partial<AmountSettings>, more: Partial<AmountsOf> = {}): Amounts =>
  amountsOf({
    pattern: patternOf(DIAMOND_8, [section(240, 7)]),
    yarns: [yarn("moss"), yarn("chalk")],
    colourway: colourway({ "#": "moss", ".": "chalk" }),
    settings,
    ...more,
  });
const of = (amounts: Amounts, id: string): Amounts["yarns"][number] =>
  amounts.yarns.find((entry) => entry.yarn === id)!;
const near = (found: number, expected: number, within = HALF_A_MILLIMETRE): void =>
  expect(Math.abs(found - expected), `${found} against ${expected}`).toBeLessThanOrEqual(within);

describe("the worked diamond, 30 repeats of 8 at 28 × 30 (trade.md 1.5)", () => {
  const amounts = diamond(NO_TAILS);

  it("counts the stitches", () => {
    expect(of(amounts, "moss").stitches).toBe(690);
    expect(of(amounts, "chalk").stitches).toBe(990);
  });

  it("gives its metres to the millimetre", () => {
    near(of(amounts, "moss").metres, 14.954);
    near(of(amounts, "chalk").metres, 18.586);
    near(amounts.total.metres, 33.54);
    near(of(amounts, "moss").parts.loops, 11.065);
    near(of(amounts, "moss").parts.floats, 3.889);
    near(of(amounts, "chalk").parts.floats, 2.711);
  });

  it("gives its grams at 420 m to 100 g: 33.540 m / 4.2", () => {
    near(of(amounts, "moss").grams! + of(amounts, "chalk").grams!, 33.54 / 4.2, 0.001);
  });
});

describe("what is added to stitches and floats", () => {
  it("a tail of 15 cm at each end of a yarn's stretch (trade.md 1.4)", () => {
    near(of(diamond(), "moss").metres - of(diamond(NO_TAILS), "moss").metres, 0.3);
  });

  it("a 60-round yoke with a new ground and a new pattern colour every 3 rounds has 40 stretches: 12 m (trade.md 1.4)", () => {
    const [grounds, figures] = ["ABCDEFGHIJKLMNOPQRST", "abcdefghijklmnopqrst"];
    const rows = Array.from(
      { length: 60 },
      (_, row) => grounds![Math.floor(row / 3)]! + figures![Math.floor(row / 3)]!,
    );
    const ids = [...(grounds! + figures!)];
    const yarns = ids.map((id) => yarn(id));
    const amounts = amountsOf({
      pattern: patternOf(rows, [section(200, 60)]),
      yarns,
      colourway: colourway(Object.fromEntries(ids.map((id) => [id, id]))),
    });
    near(
      amounts.yarns.reduce((sum, { parts }) => sum + parts.tails, 0),
      12,
    );
    // 80 ends, at the round's start, for there is no steek to take them.
    expect(amounts.sections[0]).toMatchObject({ joins: 40, joinsAt: "round's start" });
  });

  it("a yarn that rests for longer than the setting is cut", () => {
    // Counted by hand: rests of 3, 4 and 0 rounds.
    expect(stretches([1, 5, 10, 11], 3)).toBe(2);
    expect(stretches([1, 5, 10, 11], 2)).toBe(3);
    expect(stretches([1, 5, 10, 11], 9)).toBe(1);
  });

  it("cast-on twice and cast-off once, in the yarn of most stitches there (trade.md 1.4)", () => {
    const edged = diamond({ ...NO_TAILS, ...CAST_ON_AND_OFF });
    near(of(edged, "chalk").parts.edges, (3 * 240 * 16.036) / 1000, 0.001);
    near(of(edged, "moss").parts.edges, 0);
  });

  it("no edge between sections that continue on the same stitches", () => {
    const pattern = patternOf(DIAMOND_8, [section(240, 7), section(240, 7, { id: "yoke" })]);
    const edged = diamond({ ...NO_TAILS, ...CAST_ON_AND_OFF }, { pattern });
    near(of(edged, "chalk").parts.edges, (3 * 240 * 16.036) / 1000, 0.001);
  });

  it("duplicate stitch at 1.25 loops, in every repeat (common practice, no source)", () => {
    const over = [{ at: { chart: "c1" }, cells: [[4, 3] as [number, number]], yarn: "gorse" }];
    const amounts = diamond(NO_TAILS, {
      yarns: [yarn("moss"), yarn("chalk"), yarn("gorse")],
      colourway: colourway({ "#": "moss", ".": "chalk" }, { overStitched: over }),
    });
    expect(of(amounts, "gorse")).toMatchObject({ stitches: 0, duplicateStitches: 30 });
    near(of(amounts, "gorse").metres, (30 * 1.25 * 16.036) / 1000, 0.001);
    near(of(amounts, "moss").metres, 14.954);
  });

  it("an embroidered line at three times its length", () => {
    // 2 stitches along row line 0 in each of 30 repeats; a stitch is 100/28 mm wide.
    const over = [
      {
        at: { section: "body" },
        lines: [
          [
            [0, 0],
            [0, 2],
          ] as [[number, number], [number, number]],
        ],
        yarn: "moss",
      },
    ];
    const amounts = diamond(NO_TAILS, { colourway: colourway({ "#": "moss", ".": "chalk" }, { overStitched: over }) });
    near(of(amounts, "moss").parts.sewn, (30 * 2 * 3 * 100) / 28 / 1000);
  });
});

describe("steeks, edges and the swatch", () => {
  const vest = (more: object): Pattern => patternOf(DIAMOND_8, [section(240, 7, more)]);

  it("a steek's stitches are counted in both strands by turns, and each strand passes behind the other's", () => {
    // 7 stitches in 7 rounds: 4 of the yarn with more stitches, 3 of the other; by hand 49 loops and 7 × 7 widths more.
    const steeked = vest({ beside: [{ kind: "steek", name: "front", stitches: { M: 7 } }] });
    const [plain, more] = [diamond(NO_TAILS), diamond(NO_TAILS, { pattern: steeked })];
    expect(more.total.stitches - plain.total.stitches).toBe(49);
    expect(of(more, "chalk").stitches - of(plain, "chalk").stitches).toBeGreaterThanOrEqual(21);
    near(more.total.metres - plain.total.metres, (49 * (16.036 + (1.1 * 100) / 28)) / 1000, 0.001);
  });

  it("a steek in a one-colour round has no floats", () => {
    const plain = vest({ beside: [{ kind: "steek", stitches: { M: 5 } }] });
    const amounts = diamond(NO_TAILS, { pattern: plain, colourway: colourway({ "#": "moss", ".": "moss" }) });
    near(of(amounts, "moss").metres, ((1680 + 35) * 16.036) / 1000, 0.001);
  });

  it("sections that say what they go on from are cast on and off where nothing is joined: twice and once the row", () => {
    const pattern = patternOf(DIAMOND_8, [
      section(216, 4, { id: "hem", from: [] }),
      section(240, 7, { from: ["hem"] }),
      section(60, 7, { id: "sleeve", from: [] }),
      section(280, 7, { id: "yoke", from: ["body", "sleeve"] }),
    ]);
    const edges = diamond(NO_TAILS, { pattern }).yarns.reduce((sum, { parts }) => sum + parts.edges, 0);
    // Cast on 216 and 60; cast off 280 at the neck; 300 stitches joined to 280 leave 20 to graft.
    near(edges, ((2 * (216 + 60) + 280 + 20) * 16.036) / 1000, 0.002);
    expect(diamond(NO_TAILS, { pattern }).assumptions.join(" ")).toContain(
      "Cast-on and cast-off are counted; the swatch is not.",
    );
  });

  it("a swatch of 45 × 40 takes about 36 m in two strands (trade.md 1.4), of every yarn its part", () => {
    const amounts = diamond({ ...NO_TAILS, swatch: USUAL_SWATCH });
    const swatch = amounts.yarns.map(({ parts }) => parts.swatch);
    // 1800 × 19.964 mm, and three rows of 45 loops for its edges.
    near(swatch[0]! + swatch[1]!, (1800 * 19.964 + 135 * 16.036) / 1000, 0.001);
    expect(Math.round((1800 * 19.964) / 1000)).toBe(36);
    near(swatch[0]! / swatch[1]!, 14.954 / 18.586, 0.01);
  });

  it("spliced joins waste 7.5 cm where tails take 30 (trade.md 1.4)", () => {
    expect(of(diamond({ tailsM: JOIN_M.spliced }), "moss").parts.tails).toBe(0.075);
  });

  it("stitches measured at one gauge count at another by the area of the stitch", () => {
    // trade.md 1.5: 16.04 mm at 28 × 30 is 18.73 mm at 22 × 28, by the same ks.
    const measured = { mm: 16.036, gauge: { stitches: 28, rows: 30 }, within: 0.006 };
    const pattern = vest({ gauge: { stitches: 22, rows: 28 } });
    near(
      diamond({ ...NO_TAILS, slack: 0, measured }, { pattern }).yarns.reduce((sum, { parts }) => sum + parts.loops, 0),
      (1680 * 18.73) / 1000,
      0.01,
    );
  });
});

describe("whose strand it is", () => {
  it("a yarn that stands for two colours of a row counts once: a one-yarn round has no floats", () => {
    const amounts = diamond(NO_TAILS, { colourway: colourway({ "#": "moss", ".": "moss" }) });
    expect(amounts.yarns.map(({ yarn: id }) => id)).toEqual(["moss"]);
    near(of(amounts, "moss").metres, (1680 * 16.036) / 1000, 0.001);
  });

  it("three strands, two of them one yarn: it is carried only behind the third", () => {
    // One round of ABAC: worked with x, y, x, x. x has 3 stitches and passes 1; y has 1 and passes 3.
    const amounts = amountsOf({
      pattern: patternOf(["ABAC"]),
      yarns: [yarn("x"), yarn("y")],
      colourway: colourway({ A: "x", B: "y", C: "x" }),
      settings: { ...NO_TAILS, slack: 0 },
    });
    near(of(amounts, "x").parts.floats, (1 * 100) / 28 / 1000);
    near(of(amounts, "y").parts.floats, (3 * 100) / 28 / 1000);
  });

  it("flat work carries a strand only between its first and last use (trade.md 1.3)", () => {
    // Right to left: . # . # . . : # passes 1 between its uses; . passes 2.
    const pattern = patternOf(["..#.#."]);
    const flat = { ...pattern, charts: [{ ...pattern.charts[0]!, worked: "flat" as const }] };
    const settings = { ...NO_TAILS, slack: 0 };
    const given = {
      yarns: [yarn("moss"), yarn("chalk")],
      colourway: colourway({ "#": "moss", ".": "chalk" }),
      settings,
    };
    near(of(amountsOf({ pattern: flat, ...given }), "moss").parts.floats, (1 * 100) / 28 / 1000);
    near(of(amountsOf({ pattern, ...given }), "moss").parts.floats, (4 * 100) / 28 / 1000);
  });

  it("a change from round 4 on moves the stitches of those rounds", () => {
    const change = { at: { section: "body", rounds: [4, 7] as [number, number] }, colour: "#", yarn: "gorse" };
    const amounts = diamond(NO_TAILS, {
      yarns: [yarn("moss"), yarn("chalk"), yarn("gorse")],
      colourway: colourway({ "#": "moss", ".": "chalk" }, { changes: [change] }),
    });
    // Pattern stitches by row from the bottom: 2, 3, 4, 5, 4, 3, 2 in each of 30 repeats.
    expect(of(amounts, "moss").stitches).toBe(30 * 9);
    expect(of(amounts, "gorse").stitches).toBe(30 * 14);
    near(amounts.total.metres, 33.54);
  });

  it("begins a round at its start column and counts a part repeat", () => {
    // 11 stitches of row 1 (right to left # . . . # . . .) from column 4: . # . . . # . . . # .
    const pattern = patternOf(DIAMOND_8, [section(11, 1, { startColumn: { M: 4 } })]);
    expect(of(diamond(NO_TAILS, { pattern }), "moss").stitches).toBe(3);
  });

  it("skips places without a stitch: decreased rounds keep their repeats", () => {
    // Row 1 has 4 stitches a repeat, row 2 has 2: 20 stitches, then 10.
    const pattern = patternOf(["-#.-", "#.#."], [section(20, 2, { decreases: { M: [{ round: 2, to: 10 }] } })]);
    const amounts = diamond(NO_TAILS, { pattern });
    expect(of(amounts, "moss").stitches).toBe(15);
    expect(amounts.total.stitches).toBe(30);
  });

  it("a section's own gauge wins over the pattern's", () => {
    const pattern = patternOf(DIAMOND_8, [section(240, 7, { gauge: { stitches: 22, rows: 28 } })]);
    // trade.md 1.5: 23.73 mm a stitch, two-strand, at 22 × 28.
    near(diamond(NO_TAILS, { pattern }).total.metres, (1680 * 23.726) / 1000, 0.001);
  });

  it("leaves out a section that is off", () => {
    const pattern = patternOf(DIAMOND_8, [section(240, 7), section(64, 7, { id: "sleeve", on: false })]);
    expect(diamond(NO_TAILS, { pattern }).total.stitches).toBe(1680);
  });
});

describe("against what she has", () => {
  it("5 g at 420 m to 100 g are 21 m (trade.md 1.5), and the rest is short with a tenth in reserve", () => {
    const moss = of(diamond(NO_TAILS, { yarns: [yarn("moss", { grams: 2 }), yarn("chalk", { grams: 5 })] }), "moss");
    near(moss.have!, 8.4);
    near(moss.reserve, 1.4954);
    near(moss.short!, 14.954 * 1.1 - 8.4, 0.001);
    expect(of(diamond(NO_TAILS, { yarns: [yarn("moss"), yarn("chalk", { grams: 5 })] }), "chalk").short).toBe(0);
  });

  it("rounds balls up after the reserve", () => {
    // 16.449 m needed with reserve = 3.916 g; balls of 2 g: two.
    const yarns = [yarn("moss", { grams: 0 }), yarn("chalk")];
    expect(of(diamond({ ...NO_TAILS, ballGrams: 2 }, { yarns }), "moss").balls).toBe(2);
  });

  it("does not guess: an unknown weight or thickness gives null", () => {
    const bare = of(diamond(NO_TAILS, { yarns: [{ id: "moss", name: "moss" }, yarn("chalk")] }), "moss");
    expect(bare).toMatchObject({ have: null, short: null, grams: null, balls: null });
    expect(bare.metres).toBeGreaterThan(0);
  });

  it("says about, with a range; measured stitches narrow it", () => {
    const amounts = diamond(NO_TAILS);
    // By hand: 1680 × (15.040 + 3.571) and 1680 × (16.583 + 4.286) mm.
    near(amounts.total.low, 31.27, 0.01);
    near(amounts.total.high, 35.06, 0.01);
    expect(amountsSentence(amounts)).toBe("About 34 m (31 to 35 m), until your swatch is measured.");
    // Below ten metres a whole number would hide the range. By hand: 16 × 19.964 mm, and 16 × 18.611 and 20.869 mm.
    expect(amountsSentence({ total: { stitches: 16, metres: 0.3194, low: 0.2978, high: 0.3339 } })).toBe(
      "About 0.3 m (0.3 to 0.3 m), until your swatch is measured.",
    );
    expect(amountsSentence({ total: { stitches: 0, metres: 0, low: 0, high: 0 } })).toBe(
      "Nothing is knitted in this size.",
    );
    const own = diamond({ ...NO_TAILS, measured: { mm: 17, gauge: { stitches: 28, rows: 30 }, within: 0.006 } });
    near(
      own.yarns.reduce((sum, { parts }) => sum + parts.loops, 0),
      1680 * 0.017,
    );
  });

  it("a garment of 0.876 m² at 28 × 30 takes 1180 m plain and 1470 m two-strand (trade.md 1.6)", () => {
    const stitches = Math.round(Math.sqrt(73_584));
    const rounds = Math.round(73_584 / stitches);
    const pattern = patternOf(["#.", ".#"], [section(stitches, rounds)]);
    const two = diamond(NO_TAILS, { pattern });
    const one = diamond(NO_TAILS, { pattern, colourway: colourway({ "#": "moss", ".": "moss" }) });
    near(one.total.metres, 1180, 5);
    near(two.total.metres, 1470, 5);
    expect(amountsSentence(two)).toBe("About 1470 m (1370 to 1540 m), until your swatch is measured.");
  });
});

describe("what is wrong with the input is said, and the rest is counted", () => {
  it.each<[string, Partial<AmountsOf>, string]>([
    ["an unknown size", { size: "XL" }, 'size: one of "M": "XL"'],
    [
      "a chart that is not there",
      { pattern: patternOf(DIAMOND_8, [section(240, 7, { chart: "c9" })]) },
      'section "body": a chart of the pattern: "c9"',
    ],
    [
      "a colour without a yarn",
      { colourway: colourway({ ".": "chalk" }) },
      'chart colour # in colourway "w1": a yarn: none',
    ],
    [
      "a yarn that is not there",
      { yarns: [yarn("chalk")] },
      'yarn "moss": one of the project\'s yarns: an id that none of them has',
    ],
    [
      "a row without stitches",
      { pattern: patternOf(["--", "#."], [section(8, 2)]) },
      'section "body", round 2: stitches: row 2 of the chart, which has none',
    ],
  ])("%s", (_, more, expected) => {
    const { problems } = diamond(NO_TAILS, more);
    expect(problems.map(({ where, expected: wanted, got }) => `${where}: ${wanted}: ${got}`)).toContain(expected);
  });

  it("counts a colour without a yarn beside the yarns", () => {
    const amounts = diamond(NO_TAILS, { colourway: colourway({ ".": "chalk" }) });
    expect(amounts.unassigned).toHaveLength(1);
    expect(amounts.unassigned[0]).toMatchObject({ colour: "#", stitches: 690 });
    near(of(amounts, "chalk").metres, 18.586);
  });

  it("a pattern without sections is one use of each chart, and that is said", () => {
    const amounts = diamond(NO_TAILS, { pattern: patternOf(DIAMOND_8) });
    expect(amounts).toMatchObject({ size: null, total: { stitches: 56 } });
    expect(amounts.assumptions[0]).toBe(
      "The pattern has no sections, so this is one use of each chart, not a garment.",
    );
  });
});

describe("laws", () => {
  const chartRows = fc
    .tuple(fc.integer({ min: 1, max: 9 }), fc.integer({ min: 1, max: 6 }))
    .chain(([width, height]) =>
      fc.array(fc.array(fc.constantFrom("A", "B", "C"), { minLength: width, maxLength: width }), {
        minLength: height,
        maxLength: height,
      }),
    )
    .map((rows) => rows.map((row) => row.join("")));
  const pieces = fc.array(
    fc.tuple(fc.integer({ min: 1, max: 40 }), fc.integer({ min: 1, max: 12 }), fc.integer({ min: 1, max: 20 })),
    { minLength: 1, maxLength: 3 },
  );
  const assigned = fc.record({ A: yarnId(), B: yarnId(), C: yarnId() });
  function yarnId(): fc.Arbitrary<string> {
    return fc.constantFrom("x", "y", "z");
  }
  const yarns = ["x", "y", "z"].map((id) => yarn(id));
  const garment = (rows: string[], parts: [number, number, number][]): Pattern =>
    patternOf(
      rows,
      parts.map(([stitches, rounds, start], index) =>
        section(stitches, rounds, { id: `s${index}`, startColumn: { M: start } }),
      ),
    );
  const check = (
    law: (rows: string[], parts: [number, number, number][], yarnsOf: Record<string, string>) => void,
  ): void => fc.assert(fc.property(chartRows, pieces, assigned, law), { seed: 7, numRuns: 150 });

  it("no stitch is lost: the yarns' stitches are the rounds' stitches", () => {
    check((rows, parts, yarnsOf) => {
      const amounts = amountsOf({ pattern: garment(rows, parts), yarns, colourway: colourway(yarnsOf) });
      const knitted = parts.reduce((sum, [stitches, rounds]) => sum + stitches * rounds, 0);
      expect(amounts.yarns.reduce((sum, { stitches }) => sum + stitches, 0)).toBe(knitted);
      expect(amounts.sections.reduce((sum, { stitches }) => sum + stitches, 0)).toBe(knitted);
    });
  });

  it("metres add up: over yarns, over sections, and section by section alone", () => {
    check((rows, parts, yarnsOf) => {
      const pattern = garment(rows, parts);
      const amounts = amountsOf({ pattern, yarns, colourway: colourway(yarnsOf) });
      const sum = (values: number[]): number => values.reduce((a, b) => a + b, 0);
      const alone = pattern.sections!.map(
        (one) =>
          amountsOf({ pattern: { ...pattern, sections: [one] }, yarns, colourway: colourway(yarnsOf) }).total.metres,
      );
      expect(sum(amounts.yarns.map(({ metres }) => metres))).toBeCloseTo(amounts.total.metres, 8);
      expect(sum(amounts.sections.map(({ metres }) => metres))).toBeCloseTo(amounts.total.metres, 8);
      expect(sum(alone)).toBeCloseTo(amounts.total.metres, 8);
    });
  });

  it("more slack never takes less yarn, and the estimate lies in its range", () => {
    check((rows, parts, yarnsOf) => {
      const given = { pattern: garment(rows, parts), yarns, colourway: colourway(yarnsOf) };
      const tight = amountsOf({ ...given, settings: { slack: 0.02 } });
      const loose = amountsOf({ ...given, settings: { slack: 0.18 } });
      for (const [index, { metres, low, high }] of tight.yarns.entries()) {
        expect(loose.yarns[index]!.metres).toBeGreaterThanOrEqual(metres);
        expect(low).toBeLessThanOrEqual(metres);
        expect(high).toBeGreaterThanOrEqual(metres);
      }
    });
  });

  it("yarn by yarn as a plain count on a drawn-out round: each stitch a loop, each other stitch passed", () => {
    check((rows, parts, yarnsOf) => {
      const settings = { ...NO_TAILS, slack: 0 };
      const amounts = amountsOf({ pattern: garment(rows, parts), yarns, colourway: colourway(yarnsOf), settings });
      let passed = 0;
      for (const [stitches, rounds, start] of parts) {
        for (let round = 0; round < rounds; round++) {
          const row = rows[rows.length - 1 - (round % rows.length)]!;
          const worked = Array.from({ length: stitches }, (_, index) => {
            const column = (start - 1 + index) % row.length;
            return yarnsOf[row[row.length - 1 - column]!]!;
          });
          passed += (new Set(worked).size - 1) * stitches;
        }
      }
      expect(amounts.yarns.reduce((sum, { parts: { floats } }) => sum + floats, 0)).toBeCloseTo(
        (passed * 100) / 28 / 1000,
        8,
      );
    });
  });
});
