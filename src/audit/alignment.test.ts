/** What is said of how bands lie, what is left to her taste, and that a shift does what it says. */
import { describe, expect, it } from "vitest";
import table from "../../test/tables/motifs.json" with { type: "json" };
import { gridOf, type Chart } from "../chart/chart.ts";
import { alignmentsOf } from "../chart/alignment.ts";
import { findBands } from "../chart/bands.ts";
import { structureOf } from "../chart/structure.ts";
import { USUAL_VIEWING } from "../fabric/contrast.ts";
import type { Pattern } from "../fabric/pattern.ts";
import type { Section } from "../garment/sections.ts";
import { audit } from "./audit.ts";
import type { Finding, Mend } from "./finding.ts";
import { contextOf, judgeMemory, type Case } from "./judge.ts";
import { withMends } from "./mends.ts";
import { edited } from "./mends/attempt.ts";

const memory = judgeMemory();

function motif(id: string, left = 0, width = 24): string[] {
  const { rows } = table.motifs.find((entry) => entry.id === id)!;
  return rows.map((row) =>
    (row.slice(left) + row.slice(0, left))
      .repeat(width / row.length)
      .replaceAll(".", "A")
      .replaceAll("#", "B"),
  );
}
const plain = ["A".repeat(24)];
const diamonds = (...lefts: number[]): string[] => lefts.flatMap((left) => [...plain, ...motif("diamond-8", left)]);

function made(rows: string[], more: Partial<Chart> = {}, pattern: Partial<Pattern> = {}): Case {
  return {
    pattern: {
      gauge: { stitches: 28, rows: 30 },
      colours: [
        { id: "A", role: "main", shade: { lab: [88, 0, 4] } },
        { id: "B", role: "contrast", shade: { lab: [26, 2, -6] } },
      ],
      charts: [{ id: "c", rows, ...more }],
      ...pattern,
    },
    yarns: [
      { id: "yA", name: "snow", shade: { lab: [88, 0, 4] } },
      { id: "yB", name: "ink", shade: { lab: [26, 2, -6] } },
    ],
    colourway: { id: "w", yarns: { A: "yA", B: "yB" } },
    viewing: USUAL_VIEWING,
  };
}

const found = (input: Case): Finding[] =>
  audit(contextOf(input, memory)).filter(({ id }) => id.startsWith("alignment/"));
const mends = (input: Case): readonly Mend[] => {
  const all = audit(contextOf(input, memory));
  return withMends(all, input, memory).find(({ id }) => id.startsWith("alignment/"))?.mends ?? [];
};
/** "lined up", "half a repeat" …, the lowest pair first. */
const meets = ({ pattern }: Case): string[] => {
  const [chart] = pattern.charts;
  const grid = gridOf(chart!);
  return alignmentsOf(grid, structureOf(grid, findBands(chart!, grid))).map((one) => one.meets);
};

describe("bands over one another", () => {
  it.each([
    ["lined up", [0, 0]],
    ["set off by half a repeat", [4, 0]],
    ["two stitches off, a quarter of the repeat", [2, 0]],
    ["all alike", [0, 0, 0, 0, 0]],
    ["by turns", [4, 0, 4, 0]],
  ])("%s are her taste", (_, lefts) => expect(found(made(diamonds(...lefts)))).toEqual([]));

  it("one stitch off is a doubt, with the number", () => {
    const [finding, ...more] = found(made(diamonds(1, 0)));
    expect(more).toEqual([]);
    expect([finding!.severity, finding!.headline]).toEqual(["doubt", "Rows 9–15 over rows 1–7: one stitch off"]);
    expect(finding!.numbers).toMatchObject({ offBy: 1, repeatBelow: 8, repeatAbove: 8 });
  });

  it("so is one stitch from half", () => {
    expect(found(made(diamonds(3, 0))).map(({ severity, headline }) => [severity, headline])).toEqual([
      ["doubt", "Rows 9–15 over rows 1–7: one stitch off"],
    ]);
  });

  it("half a stitch is a note: no shift mends it, a plain row does", () => {
    // Fours and twos mirror between the third and the fourth stitch from the left, which is column 5.5; the diamonds' middle is column 5.
    const twos = ["ABBBBAAA", "AABBAAAA", "ABBBBAAA"].map((row) => row.repeat(3));
    const input = made([...plain, ...twos, ...diamonds(0)]);
    expect(meets(input)).toEqual(["half a stitch"]);
    expect(found(input).map(({ severity }) => severity)).toEqual(["note"]);
    const offered = mends(input);
    expect(offered.map(({ kind, change }) => [kind, change])).toEqual([
      ["spacing", "A plain row between rows 1–7 and rows 9–11"],
    ]);
    expect(found(edited(input, offered[0]!.edits))).toEqual([]);
  });

  it("two plain rows between part them", () => {
    const rows = [...plain, ...motif("diamond-8", 1), ...plain, ...plain, ...motif("diamond-8")];
    expect(found(made(rows))).toEqual([]);
  });

  it("repeats that drift are told of in numbers alone", () => {
    const rows = [...plain, ...motif("chevron-12"), ...diamonds(0)];
    expect(meets(made(rows))).toEqual(["drifting"]);
    expect(found(made(rows))).toEqual([]);
  });

  it("one that lies otherwise than all the others is noted", () => {
    const [finding, ...more] = found(made(diamonds(4, 0, 0, 0, 0)));
    expect(more).toEqual([]);
    expect([finding!.severity, finding!.headline]).toEqual([
      "note",
      "Rows 33–39 over rows 25–31: offset by half a repeat, unlike the others",
    ]);
  });

  it("her word that it is meant ends it", () => {
    expect(found(made(diamonds(1, 0), { bands: [{ rows: [9, 15], meant: true }] }))).toEqual([]);
  });
});

describe("a shift", () => {
  it("is offered both ways, and each does what it says", () => {
    const input = made(diamonds(1, 0));
    const offered = mends(input);
    expect(offered.slice(0, 2).map(({ kind, change, effect }) => [kind, change, effect])).toEqual([
      ["shift", "Rows 9–15 1 stitch to the right", "lined up with rows 1–7"],
      ["shift", "Rows 9–15 3 stitches to the left", "half a repeat off rows 1–7"],
    ]);
    expect(offered.slice(0, 2).map((mend) => meets(edited(input, mend.edits)))).toEqual([
      ["lined up"],
      ["half a repeat"],
    ]);
    for (const mend of offered) expect(found(edited(input, mend.edits))).toEqual([]);
  });

  it("is not offered where it would put another band off", () => {
    // The middle one of three is off: to shift the lowest or the highest alone would leave the other.
    const input = made(diamonds(0, 1, 0));
    expect(found(input)).toHaveLength(2);
    for (const mend of mends(input)) {
      const after = edited(input, mend.edits);
      expect(found(after).length).toBeLessThan(2);
    }
    expect(mends(input).length).toBeGreaterThan(0);
  });

  it("takes along what is laid on the band, and leaves the rest", () => {
    const input = made(diamonds(1, 0));
    const laid: Case = {
      ...input,
      colourway: {
        ...input.colourway,
        overStitched: [
          {
            at: { chart: "c" },
            cells: [
              [1, 1],
              [9, 1],
              [9, 24],
            ],
            yarn: "yB",
          },
        ],
      },
    };
    const [toTheRight] = mends(laid);
    expect(edited(laid, toTheRight!.edits).colourway.overStitched![0]!.cells).toEqual([
      [1, 1],
      [9, 24],
      [9, 23],
    ]);
  });
});

describe("plain rows between", () => {
  const body = { id: "s", name: "body", chart: "c", rounds: { M: 32, L: 16 }, stitches: { M: 240, L: 240 } };
  const spacings = (input: Case): Mend[] => mends(input).filter(({ kind }) => kind === "spacing");

  it("are as many as part the bands, of what is between them already, and say how much longer it becomes", () => {
    // The chart of 16 rows is knitted twice in M.
    const input = made(diamonds(1, 0), {}, { sections: [body] });
    const [one, ...more] = spacings(input);
    expect(more).toEqual([]);
    expect([one!.change, one!.effect]).toEqual([
      "A plain row between rows 1–7 and rows 9–15",
      "apart, so that nobody looks for middles; body becomes up to 2 rounds longer",
    ]);
    const after = edited(input, one!.edits);
    expect(after.pattern.charts[0]!.rows).toHaveLength(17);
    expect(after.pattern.sections![0]!.rounds).toEqual({ M: 34, L: 17 });
    // Where the chart begins again the two bands still meet, the other way about.
    const headlines = (of: Case): string[] => found(of).map(({ headline }) => headline);
    expect(headlines(input)).toEqual([
      "Rows 9–15 over rows 1–7: one stitch off",
      "Rows 1–7 over rows 9–15: one stitch off",
    ]);
    expect(headlines(after)).toEqual(["Rows 1–7 over rows 10–16: one stitch off"]);
  });

  it("are two where bands touch, in the lower one's ground, and none of the rows above is taken for a new trouble", () => {
    const shaded = [...motif("diamond-8", 1), ...motif("diamond-8")].map((row, index) =>
      index < 7 ? row.replaceAll("A", "C") : row,
    );
    const input = made([...plain, ...shaded, ...plain], { bands: [{ rows: [2, 8] }, { rows: [9, 15] }] });
    const coloured: Case = {
      ...input,
      pattern: {
        ...input.pattern,
        colours: [...input.pattern.colours, { id: "C", shade: { lab: [84, 2, 10] } }],
      },
      yarns: [...input.yarns, { id: "yC", name: "straw", shade: { lab: [84, 2, 10] } }],
      colourway: { ...input.colourway, yarns: { ...input.colourway.yarns, C: "yC" } },
    };
    const [two] = spacings(coloured);
    expect(two!.change).toBe("Two plain rows between rows 2–8 and rows 9–15");
    const { rows } = edited(coloured, two!.edits).pattern.charts[0]!;
    expect(rows.slice(7, 11).map((row) => [...new Set(row)].join(""))).toEqual(["CB", "A", "A", "AB"]);
  });
});

describe("sections that meet", () => {
  const sections = (columns: Record<string, number>): Section[] => [
    { id: "s1", name: "body", chart: "c", rounds: { M: 7, L: 7 }, stitches: { M: 240, L: 264 } },
    { id: "s2", name: "yoke", chart: "c", rounds: { M: 7, L: 7 }, stitches: { M: 240, L: 264 }, startColumn: columns },
  ];
  const one = motif("diamond-8");

  it("in line are her taste, one stitch off is a doubt that a start column mends", () => {
    expect(found(made(one, {}, { sections: sections({ M: 1, L: 9 }) }))).toEqual([]);
    const input = made(one, {}, { sections: sections({ M: 2, L: 9 }) });
    expect(found(input).map(({ severity, headline }) => [severity, headline])).toEqual([
      ["doubt", "Yoke over body: one stitch off"],
    ]);
    const offered = mends(input);
    expect(offered.map(({ kind, change, effect }) => [kind, change, effect])).toEqual([
      ["start", "Yoke begun in column 1", "lined up with body"],
      ["start", "Yoke begun in column 21", "half a repeat off body"],
    ]);
    for (const mend of offered) expect(found(edited(input, mend.edits))).toEqual([]);
  });

  it("with other numbers of stitches are not looked at: nobody knows what stands on what", () => {
    const other = sections({ M: 2, L: 9 }).map((section, index) =>
      index === 0 ? section : { ...section, stitches: { M: 192, L: 216 } },
    );
    expect(found(made(one, {}, { sections: other }))).toEqual([]);
  });

  it("a chart that begins again over itself is looked at too", () => {
    const again = (left: number) =>
      made(
        [...motif("diamond-8", left), ...plain, ...plain, ...one],
        {},
        {
          sections: [{ id: "s", name: "body", chart: "c", rounds: { M: 40 }, stitches: { M: 240 } }],
        },
      );
    expect(found(again(0))).toEqual([]);
    expect(found(again(1)).map(({ headline, numbers }) => [headline, numbers.offBy])).toEqual([
      ["Rows 1–7 over rows 10–16: one stitch off", -1],
    ]);
  });
});

describe("the round", () => {
  const section = (stitches: number, more: object = {}) => ({
    sections: [{ id: "s", name: "body", chart: "c", rounds: { M: 16 }, stitches: { M: stitches }, ...more }],
  });
  it("that takes whole repeats is in order, and so is flat work", () => {
    expect(found(made(diamonds(0, 0), {}, section(240)))).toEqual([]);
    expect(found(made(diamonds(0, 0), { worked: "flat" }, section(244)))).toEqual([]);
  });
  it("that does not is a doubt, with the counts that would", () => {
    // trade.md 3: 324 leaves 4 over repeats of 8 as of 20; by hand 40 × 8 = 320 and 41 × 8 = 328.
    const [finding, ...more] = found(made(diamonds(0, 0), {}, section(324)));
    expect(more).toEqual([]);
    expect([finding!.severity, finding!.headline]).toEqual([
      "doubt",
      "Body: the repeat of 8 does not go into 324 stitches",
    ]);
    expect(finding!.numbers).toMatchObject({ over: 4, fitsBelow: 320, fitsAbove: 328, bands: 2 });
  });
  it("that is shaped at its edges, or is left out, is not looked at", () => {
    const shaped = { decreases: { M: [{ round: 1, to: 236 }] } };
    expect(found(made(diamonds(0, 0), {}, section(240, shaped)))).toEqual([]);
    expect(found(made(diamonds(0, 0), {}, section(324, { on: false })))).toEqual([]);
  });
});

describe("echoes", () => {
  const twice = [...plain, ...motif("diamond-8"), ...plain, ...motif("diamond-8")];
  const notes = (input: Case): string[] =>
    audit(contextOf(input, memory)).flatMap(({ id, headline }) => (id.startsWith("echo/") ? [headline] : []));
  const turned: Case = {
    ...made(twice),
    colourway: {
      id: "w",
      yarns: { A: "yA", B: "yB" },
      changes: [
        { at: { chart: "c", rows: [9, 15] }, colour: "A", yarn: "yB" },
        { at: { chart: "c", rows: [9, 15] }, colour: "B", yarn: "yA" },
      ],
    },
  };
  it("turned over at one place are noted", () => {
    expect(notes(made(twice))).toEqual([]);
    expect(notes(turned)).toEqual(["Rows 9–15: light on dark, and rows 1–7 dark on light"]);
  });
  it("where the ladder is free nothing is said", () => expect(notes({ ...turned, ladder: "free" })).toEqual([]));
});

describe("floats", () => {
  const floats = (input: Case) => audit(contextOf(input, memory)).filter(({ id }) => id.startsWith("floats/"));
  const rows = [...plain, `B${"A".repeat(9)}B${"A".repeat(13)}`, ...plain];
  it("say where they are caught, and go by her own limit", () => {
    // From the right: B in columns 14 and 24. Passed are 15 to 23, nine, caught between 17 and 21 or thereabouts; and 1 to 13, caught between 6 and 8.
    const [finding] = floats(made(rows));
    expect(finding!.catches!.map(([row]) => row)).toEqual([2, 2]);
    const [one, other] = finding!.catches!.map(([, column]) => column);
    expect(one! >= 6 && one! <= 8 && other! >= 17 && other! <= 22).toBe(true);
    // 5 cm at 28 stitches to 10 cm is 14 stitches.
    expect(floats({ ...made(rows), floatCm: 5 })).toEqual([]);
    expect(floats({ ...made(rows), floatCm: 1 })[0]!.severity).toBe("fault");
  });
  it("too long to catch have ladders instead", () => {
    const [finding] = floats(made([...plain, `B${"A".repeat(23)}`, ...plain]));
    expect([finding!.severity, finding!.catches, finding!.ladders!.length]).toEqual(["fault", undefined, 5]);
  });
});
