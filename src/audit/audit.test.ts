/** What the audit says of tiny charts: a case per line, the words from the trade's rule of thumb and the table of vision.md B7. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { ChartBand } from "../chart/chart.ts";
import type { Lab } from "../colour/lab.ts";
import type { Colourway } from "../fabric/colourway.ts";
import { USUAL_VIEWING } from "../fabric/contrast.ts";
import type { Pattern, PatternColour } from "../fabric/pattern.ts";
import type { Yarn } from "../yarn/yarn.ts";
import { atLeast, audit } from "./audit.ts";
import { told, type Supply } from "./context.ts";
import { contextOf, judgeMemory, type Case } from "./judge.ts";

const GAUGE = { stitches: 28, rows: 30 };
const memory = judgeMemory();

/** "A85* B30 C55/20,40": id, L*, `*` for the main colour, a* and b* where it is no grey. */
function palette(text: string): { id: string; lab: Lab; main: boolean }[] {
  return text.split(" ").map((word) => {
    const [, id, L, main, a = 0, b = 0] = /^(.)([\d.]+)(\*?)(?:\/(-?[\d.]+),(-?[\d.]+))?$/.exec(word)!;
    return { id: id!, lab: [Number(L), Number(a), Number(b)], main: main === "*" };
  });
}

interface Extras {
  readonly bands?: ChartBand[];
  readonly worked?: "flat";
  readonly changes?: Colourway["changes"];
  readonly overStitched?: Colourway["overStitched"];
  readonly supplies?: Supply[];
  readonly more?: string;
}

/** Chart rows top first, the pattern's colours, and the yarns in their places; a yarn is called by its letter, "yarn A". */
function made(rows: string[], pattern: string, yarns: string, extras: Extras = {}): Case {
  const { bands, worked, changes, overStitched, supplies, more } = extras;
  const colours = palette(pattern).map(({ id, lab, main }): PatternColour => ({
    id,
    shade: { lab },
    ...(main ? { role: "main" } : {}),
  }));
  const held = palette(yarns);
  const spare = more ? palette(more) : [];
  const drawn: Pattern = {
    gauge: GAUGE,
    colours,
    charts: [{ id: "c", rows, ...(bands ? { bands } : {}), ...(worked ? { worked } : {}) }],
  };
  return {
    pattern: drawn,
    yarns: [...held, ...spare].map(({ id, lab }): Yarn => ({
      id: `y${id}`,
      name: `yarn ${id}`,
      shade: { lab, uncertainty: 2 },
    })),
    colourway: {
      id: "w",
      yarns: Object.fromEntries(held.map(({ id }) => [id, `y${id}`])),
      ...(changes ? { changes } : {}),
      ...(overStitched ? { overStitched } : {}),
    },
    viewing: USUAL_VIEWING,
    ...(supplies ? { supplies } : {}),
  };
}

const found = (input: Case) => audit(contextOf(input, memory));

function check(input: Case, expected: readonly string[]): void {
  expect(found(input).map(({ severity, headline }) => `${severity}: ${headline}`)).toEqual(expected);
}

/** A pattern of one row between plain rows. */
const lone = (row: string): string[] => ["A".repeat(row.length), row, "A".repeat(row.length)];
const tile = (rows: string[], times: number): string[] => rows.map((row) => row.repeat(times));

// vision.md B7, 1×1 row once, greys about L* 50 at 1.5 m: ΔL* 3 lost (0.59), 8 faint (1.56), 15 faint (2.86), 30 clear (5.31).
describe("a row of one and one", () => {
  const row = lone("AB");
  it("as the pattern: nothing", () => check(made(row, "A65* B35", "A65 B35"), []));
  it("3 apart: lost", () => check(made(row, "A65* B35", "A51.5 B48.5"), ["fault: Row 2, yarn B on yarn A: lost"]));
  it("8 apart: faint", () => check(made(row, "A65* B35", "A54 B46"), ["doubt: Row 2, yarn B on yarn A: faint"]));
  it("15 apart: faint", () => check(made(row, "A65* B35", "A57 B42"), ["doubt: Row 2, yarn B on yarn A: faint"]));
  it("one yarn for both: lost", () => {
    const one = made(row, "A65* B35", "A65 B35");
    check({ ...one, colourway: { id: "w", yarns: { A: "yA", B: "yA" } } }, [
      "fault: Row 2, B and A both in yarn A: lost",
    ]);
  });
  it("faint in the pattern may be faint", () => check(made(row, "A55* B45", "A54 B46"), []));
  it("faint in the pattern is missed when lost", () =>
    check(made(row, "A57* B42", "A51.5 B48.5"), ["doubt: Row 2, yarn B on yarn A: lost"]));
  // trade.md 4, common failures 1: two hues of one value.
  it("two hues of one value", () =>
    check(made(row, "A65* B35", "A50/45,25 B49/-40,20"), ["doubt: Row 2, yarn B on yarn A: told apart by hue alone"]));
  it("knitted plain on purpose at that place: nothing", () =>
    check(
      made(row, "A65* B35", "A65 B35", { changes: [{ at: { chart: "c", rows: [2, 2] }, colour: "B", yarn: "yA" }] }),
      [],
    ));
  it("a yarn for that row alone", () =>
    check(
      made(row, "A65* B35", "A65 B35", {
        more: "C62",
        changes: [{ at: { chart: "c", rows: [2, 2] }, colour: "B", yarn: "yC" }],
      }),
      ["fault: Row 2, yarn C on yarn A: lost"],
    ));
  it("neighbouring rows of the same two yarns are told of together", () =>
    check(made(["AA", "AB", "BA", "AA"], "A65* B35", "A51.5 B48.5"), ["fault: Rows 2–3, yarn B on yarn A: lost"]));
});

describe("a row of one colour", () => {
  const stripe = ["AA", "BB", "BB", "AA"];
  it("two grounds: nothing", () => check(made(stripe, "A80* B30", "A80 B30"), []));
  it("of nearly its neighbours' value: lost", () =>
    check(made(stripe, "A80* B30", "A80 B79"), ["fault: Rows 1–4, yarn B on yarn A: lost"]));
  it("a ground that goes on in a second yarn is no stripe", () =>
    check(
      made(["AA", "AA", "AA", "AB", "AA"], "A80* B30", "A80 B30", {
        more: "C78",
        changes: [{ at: { chart: "c", rows: [4, 5] }, colour: "A", yarn: "yC" }],
      }),
      [],
    ));
});

describe("figures and bands", () => {
  const shapeInShape = ["AAAAAAAA", "ABBBBBBA", "ABCCCCBA", "ABCCCCBA", "ABBBBBBA", "AAAAAAAA"];
  // test/tables/seen.json, shape in shape: the band is strong (29), the rectangle 4.5 L* from its shape lost (0.34).
  it("a figure lost inside a strong band", () => {
    const bands: ChartBand[] = [{ rows: [2, 5], name: "chest" }];
    check(made(shapeInShape, "A92* B24 C60", "A92 B24.5 C29", { bands }), [
      "fault: Chest, yarn C against yarn B: lost",
    ]);
  });
  it("a figure in the yarn of what surrounds it", () => {
    const input = made(shapeInShape, "A92* B24 C60", "A92 B24.5 C60", { bands: [{ rows: [2, 5] }] });
    const yarns = { A: "yA", B: "yB", C: "yB" };
    check({ ...input, colourway: { id: "w", yarns } }, ["fault: Rows 2–5, B and C both in yarn B: lost"]);
  });
  const shaded = tile(["AAAAAA", "AABBAA", "ABBBBA", "ACCCCA", "ABBBBA", "AABBAA", "AAAAAA"], 2);
  it("two shades of one pattern may melt", () => check(made(shaded, "A90* B45 C30", "A90 B36 C34"), []));

  const fog = tile(["AAAA", "ABBA", "BAAB", "AAAA"], 2);
  const want = (wish: "soft" | "clear" | "strong"): Extras => ({ bands: [{ rows: [2, 3], want: wish, name: "fog" }] });
  it("wanted soft and soft: left in peace", () => check(made(fog, "A55* B47", "A52 B50", want("soft")), []));
  it("wanted soft and lost entirely: left in peace", () => check(made(fog, "A55* B47", "A51 B51", want("soft")), []));
  it("wanted soft and hard: told", () =>
    check(made(fog, "A55* B47", "A90 B15", want("soft")), ["doubt: Fog: wanted soft, shows strong"]));
  it("wanted strong and strong: nothing", () => check(made(fog, "A95* B15", "A94 B15", want("strong")), []));
  it("wanted strong and clear where the pattern is strong", () => {
    const [first, ...more] = found(made(fog, "A95* B10", "A72 B42", want("strong")));
    expect(more).toEqual([]);
    expect(first!.severity).toBe("doubt");
    expect(first!.where.rows).toEqual([2, 3]);
  });
  it("wanted strong and the pattern is not: a note", () =>
    check(made(fog, "A65* B45", "A65 B45", want("strong")), ["note: Fog: wanted strong, shows clear"]));
});

describe("the order of values", () => {
  const three = tile(["AAAA", "ABAC", "ACAB", "AAAA"], 2);
  it("kept: nothing", () => check(made(three, "A90* B60 C30", "A88 B55 C25"), []));
  it("two contrast colours that meet have changed places", () =>
    check(made(["AAAAAA", "ABCBCA", "ACBCBA", "AAAAAA"], "A90* B60 C30", "A90 B30 C60"), [
      "doubt: B is now darker than C: yarn B beside yarn C",
    ]));
  it("two that never meet may lie in any order", () =>
    check(made(["AAAA", "ABAB", "AAAA", "ACAC", "AAAA"], "A90* B55 C30", "A90 B30 C55"), []));
  it("a contrast colour on the other side of the main colour", () =>
    check(made(["AAAA", "ABAB", "AAAA", "ACAC", "AAAA"], "A60* B95 C25", "A60 B92 C95"), [
      "doubt: C is now lighter than A: yarn C beside yarn A",
    ]));
  it("one colour past several is told once", () =>
    check(made(["AAAAAAAA", "ABCDBCDA", "ACDBCDBA", "AAAAAAAA"], "A95* B70 C60 D52", "A95 B44 C60 D52"), [
      "doubt: B is now darker than C and D: yarn B beside yarn C and yarn D",
    ]));
  // Common practice, no source: turned over on purpose, with its ground, a pattern still reads.
  it("turned over on purpose: a note, and everything reads", () =>
    check(made(three, "A90* B60 C30", "A20 B55 C85"), ["note: The value ladder is turned over"]));
  it("a pattern of two colours, the yarns exchanged", () =>
    check(made(lone("AB"), "A85* B30", "A30 B85"), ["note: The value ladder is turned over"]));
});

// trade.md 3: up to floor(2.5 cm × gauge / 10 cm) = 7 stitches at 28 lie well; to twice that catch them; above lay them on.
describe("floats at 28 stitches", () => {
  /** One stitch of B, and so many of A that its strand passes them. */
  const passes = (stitches: number): string[] => lone(`B${"A".repeat(stitches)}`);
  const two = "A85* B25";
  it("7: nothing", () => check(made(passes(7), two, two), []));
  it("8", () => check(made(passes(8), two, two), ["doubt: Row 2: yarn B floats over 8 stitches"]));
  it("12", () => check(made(passes(12), two, two), ["doubt: Row 2: yarn B floats over 12 stitches"]));
  it("15", () => check(made(passes(15), two, two), ["fault: Row 2: yarn B floats over 15 stitches"]));
  it("flat, nothing is carried past the last use", () => check(made(passes(12), two, two, { worked: "flat" }), []));
  it("flat, between two uses", () =>
    check(made(lone(`B${"A".repeat(12)}B`), two, two, { worked: "flat" }), [
      "doubt: Row 2: yarn B floats over 12 stitches",
    ]));
  it("neighbouring rows with the same strand are told of together", () =>
    check(made(["A".repeat(10), `BB${"A".repeat(8)}`, `B${"A".repeat(9)}`, "A".repeat(10)], two, two), [
      "doubt: Rows 2–3: yarn B floats over up to 9 stitches",
    ]));
  it("two chart colours in one yarn share a strand", () => {
    const input = made(lone("BAAAAACAAAAA"), "A85* B25 C28", "A85 B25 C28");
    check({ ...input, colourway: { id: "w", yarns: { A: "yA", B: "yB", C: "yB" } } }, []);
  });
  it("mended by duplicate stitch", () => {
    const input = made(passes(12), two, two);
    const mend = found(input)[0]!.mends![0]!;
    const { at, colour, to, overStitched } = mend;
    const mended: Colourway = {
      ...input.colourway,
      changes: [{ at: at!, colour, yarn: to! }],
      overStitched: [...overStitched!],
    };
    check({ ...input, colourway: mended }, []);
    expect(overStitched![0]!.cells).toEqual([[2, 13]]);
  });
});

describe("what takes over", () => {
  const bands = (row: string): string[] => tile(["AAAAAA", row, "AAAAAA", "ABBBAA", row, "AAAAAA", row, "AAAAAA"], 2);
  const quiet = "A85*/0,8 B30/2,-6 C55/3,6";
  const marigold = "A85/0,8 B30/2,-6 C57/40,50";
  // Common practice, no source: a saturated yarn among quiet ones comes forward, the more so the more often it recurs.
  it("a saturated yarn where the pattern is quiet, in three bands", () =>
    check(made(bands("AACCCA"), quiet, marigold), ["doubt: Yarn C takes over in 3 bands"]));
  it("a quiet one of the same value: nothing", () =>
    check(made(bands("AACCCA"), quiet, "A85/0,8 B30/2,-6 C57/-8,3"), []));
  it("saturated in the pattern already: nothing", () =>
    check(made(bands("AACCCA"), "A85*/0,8 B30/2,-6 C55/45,45", marigold), []));
  it("a single accent in one small band: nothing", () => {
    const plain = Array.from({ length: 20 }, () => "AAAAAAAAAAAA");
    check(made([...plain, "AAACAAAAACAA", ...plain, "ABBBAAABBBAA", ...plain], quiet, marigold), []);
  });
  it("all yarns saturated alike: nothing", () =>
    check(made(bands("AACCCA"), quiet, "A85/0,60 B30/45,20 C57/45,40"), []));
  it("it has more of the weight the more it recurs", () => {
    const share = (rows: string[]): number => {
      const [judged] = contextOf(made(rows, quiet, marigold), memory).charts;
      return judged!.now.weights.find(({ ink }) => judged!.now.cloth.inks[ink]!.colour === "C")!.share;
    };
    expect(share(bands("AACCCA"))).toBeGreaterThan(
      share(bands("AACCCA").map((row, at) => (at === 1 ? "AAAAAAAAAAAA" : row))),
    );
  });
});

describe("amounts", () => {
  const supply = (have: number | null): Supply => {
    const [metres, reserve] = [100, 10];
    return {
      yarn: "yB",
      metres,
      low: 94,
      high: 104,
      reserve,
      have,
      short: have === null ? null : Math.max(0, metres + reserve - have),
    };
  };
  const amounts = (have: number | null): Case => made(lone("AB"), "A85* B30", "A85 B30", { supplies: [supply(have)] });
  it("enough with a reserve", () => check(amounts(110), []));
  it("not known", () => check(amounts(null), []));
  it("less than the least", () => check(amounts(93), ["fault: Not enough yarn B"]));
  it("less than the most", () => check(amounts(100), ["doubt: Yarn B may run out"]));
  it("less than the most and a reserve", () => check(amounts(105), ["note: Yarn B is enough, without a reserve"]));
});

describe("laws", () => {
  const letters = fc.constantFrom("A", "B", "C", "-");
  const lab = fc.tuple(
    fc.integer({ min: 5, max: 97 }),
    fc.integer({ min: -60, max: 60 }),
    fc.integer({ min: -60, max: 60 }),
  );
  const chart = fc.tuple(fc.integer({ min: 1, max: 6 }), fc.integer({ min: 1, max: 7 })).chain(([width, height]) =>
    fc.array(
      fc.array(letters, { minLength: width, maxLength: width }).map((cells) => cells.join("")),
      { minLength: height, maxLength: height },
    ),
  );
  const arbitrary = fc.record({
    rows: chart,
    was: fc.tuple(lab, lab, lab),
    now: fc.tuple(lab, lab, lab),
    named: fc.subarray(["A", "B", "C"]),
    want: fc.constantFrom(undefined, "soft" as const, "clear" as const, "strong" as const),
    worked: fc.constantFrom(undefined, "flat" as const),
  });
  type Drawn = typeof arbitrary extends fc.Arbitrary<infer T> ? T : never;
  const caseOf = ({ rows, was, now, named, want, worked }: Drawn, ids = "ABC"): Case => ({
    pattern: {
      gauge: GAUGE,
      colours: was.map((one, at) => ({
        id: ids[at]!,
        shade: { lab: one },
        ...(at === 0 ? { role: "main" as const } : {}),
      })),
      charts: [
        {
          id: "c",
          rows: rows.map((row) => row.replace(/[ABC]/g, (letter) => ids["ABC".indexOf(letter)]!)),
          ...(want ? { bands: [{ rows: [1, rows.length] as [number, number], want }] } : {}),
          ...(worked ? { worked } : {}),
        },
      ],
    },
    yarns: now.map((one, at) => ({ id: `y${at}`, name: `yarn ${at}`, shade: { lab: one } })),
    colourway: {
      id: "w",
      yarns: Object.fromEntries(named.map((id) => [ids["ABC".indexOf(id)]!, `y${"ABC".indexOf(id)}`])),
    },
    viewing: USUAL_VIEWING,
  });

  it("charts with no-stitch cells, of one row, of one colour, colours without yarns: never thrown at, ids unique and stable", () =>
    fc.assert(
      fc.property(arbitrary, (drawn) => {
        const first = found(caseOf(drawn));
        const ids = first.map(({ id }) => id);
        expect(new Set(ids).size).toBe(ids.length);
        expect(audit(contextOf(caseOf(drawn), judgeMemory())).map(({ id }) => id)).toEqual(ids);
        for (const { headline, sentence } of first) {
          expect(`${headline} ${sentence}`).not.toMatch(/NaN|undefined|null|Infinity|no yarn yet/);
          expect(sentence).toMatch(/^[A-Z].*\.$/);
        }
      }),
      { seed: 7, numRuns: 150 },
    ));

  it("other letters for the chart colours change nothing but letters", () =>
    fc.assert(
      fc.property(arbitrary, (drawn) => {
        const numbers = (input: Case) =>
          found(input).map(({ severity, where, numbers: all }) => ({ severity, rows: where.rows, all }));
        expect(numbers(caseOf(drawn, "xyz"))).toEqual(numbers(caseOf(drawn)));
      }),
      { seed: 7, numRuns: 60 },
    ));

  it("a band wanted soft has no finding for low contrast", () =>
    fc.assert(
      fc.property(arbitrary, (drawn) => {
        const kinds = found(caseOf({ ...drawn, want: "soft" })).map(({ id }) => id.split("/")[0]);
        expect(kinds).not.toContain("legibility");
        expect(kinds).not.toContain("figure");
      }),
      { seed: 7, numRuns: 60 },
    ));

  it("the pattern in its own colours has nothing to be told of but its floats", () =>
    fc.assert(
      fc.property(arbitrary, (drawn) => {
        const own = { ...drawn, now: drawn.was, want: undefined };
        const kinds = found(caseOf(own))
          .filter((one) => atLeast(one, "doubt"))
          .map(({ id }) => id.split("/")[0]);
        expect(kinds.filter((kind) => kind !== "floats")).toEqual([]);
      }),
      { seed: 7, numRuns: 60 },
    ));
});

describe("sentences in full", () => {
  const sentence = (input: Case): string => found(input)[0]!.sentence;
  it("a faint row", () =>
    expect(sentence(made(lone("AB"), "A65* B35", "A54 B46"))).toBe(
      "Yarn B and yarn A are close in value, 8 apart in L*: faint at 1.5 m (between lost and clear). " +
        "In the pattern's own colours it is clear. A swatch settles it.",
    ));
  it("hue alone", () =>
    expect(sentence(made(lone("AB"), "A65* B35", "A50/45,25 B49/-40,20"))).toBe(
      "Yarn B and yarn A differ in hue and hardly in value, 1 apart in L*: clear at 1.5 m by their hue, lost without it " +
        "(between lost and strong). In the pattern's own colours it is clear. A swatch settles it.",
    ));
  it("a colour that has gone past two others", () =>
    expect(
      sentence(made(["AAAAAAAA", "ABCDBCDA", "ACDBCDBA", "AAAAAAAA"], "A95* B70 C60 D52", "A95 B44 C60 D52")),
    ).toBe(
      "In the pattern B is lighter than C and D, by 10 to 18 in L*; yarn B is darker than yarn C and yarn D, by 8 to 16. " +
        "Where they meet, light and dark change parts.",
    ));
  it("metres", () => {
    const supplies = [{ yarn: "yB", metres: 1468, low: 1380, high: 1521, reserve: 147, have: 1288, short: 327 }];
    expect(sentence(made(lone("AB"), "A85* B30", "A85 B30", { supplies }))).toBe(
      "It takes about 1470 m (1380 to 1520, an estimate until your swatch is measured), 1620 m with a reserve; you have 1288 m.",
    );
  });
});

it("numbers are told with two significant digits", () => {
  expect([0.05, 0.456, 0.999, 4, 4.54, 9.96, 38.4, 118].map(told)).toEqual([
    "0.05",
    "0.46",
    "1",
    "4",
    "4.5",
    "10",
    "38",
    "120",
  ]);
});

describe("small shapes among larger ones of the same colour", () => {
  // Blocks of six stitches, and beside one of them a single stitch; each row shows by its blocks.
  const block = "BBBBBBAAAAAABBBBBBAAAAAA";
  const speck = "BBBBBBAAABAABBBBBBAAAAAA";
  const rows = ["A".repeat(24), block, speck, block, block, "A".repeat(24)];
  const strong = "A80* B15";

  it("that are lost while the pattern has them clear are told of once, with their rows", () => {
    const input = made(rows, strong, "A80 B68");
    check(input, ["doubt: Row 4, a small shape of yarn B in yarn A: lost"]);
    const [finding] = found(input);
    expect(finding!.id).toBe("part/c/b2/yarn yA+yarn yB");
    expect(finding!.where).toMatchObject({ rows: [4, 4], band: "b2", colours: ["B", "A"] });
    expect(finding!.sentence).toBe(
      "The larger shapes there show, this one does not: yarn B and yarn A are 12 apart in L*, too little for so small a shape at 1.5 m: lost (between lost and clear). " +
        "In the pattern's own colours it is clear.",
    );
  });
  it("equal ones in one row are told of together", () => {
    const two = rows.map((row) => (row === speck ? "BBBBBBAAABAABBBBBBABAAAA" : row));
    const told = found(made(two, strong, "A80 B70")).map(({ id, where }) => [id.split("/")[0], ...where.rows]);
    expect(told).toEqual([["part", 4, 4]]);
  });
  it("are let be where the pattern has them no clearer, and where they show", () => {
    check(made(rows, "A80* B68", "A80 B68"), []);
    check(made(rows, strong, "A80 B40"), []);
  });
  it("are not told of twice where the row or the figure is", () => {
    const kinds = found(made(rows, strong, "A80 B77")).map(({ id }) => id.split("/")[0]);
    expect(kinds).toContain("legibility");
    expect(kinds).not.toContain("part");
  });
  it("in a band wanted soft are let be", () =>
    expect(
      found(made(rows, strong, "A80 B68", { bands: [{ rows: [2, 5], want: "soft" }] })).map(({ id }) => id),
    ).toEqual([]));
});
