/** Every form a chart is pasted in, written here plainly from what the form is, and read back. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { gridOf } from "../../chart/chart.ts";
import { chartText } from "../../chart/text.ts";
import { writtenRows } from "../../plan/writtenRows.ts";
import { readChartText } from "../chartText.ts";

const SETTINGS = { seed: 7, numRuns: 60 };

/** Charts whose every row has the colours that `letters` begins with, so that no row is a heading to anybody. */
const chartsOf = (letters: readonly string[], least = 3): fc.Arbitrary<string[]> =>
  fc
    .tuple(fc.integer({ min: least, max: 16 }), fc.integer({ min: 3, max: 14 }))
    .chain(([width, height]) =>
      fc.array(fc.array(fc.constantFrom(...letters), { minLength: width, maxLength: width }), {
        minLength: height,
        maxLength: height,
      }),
    )
    .map((rows) => rows.map((row) => `${letters[0]!}${row.join("")}${letters[1]!}`));

const LETTERS = ["A", "B", "C", "x", "o"];
const NAMES: Readonly<Record<string, string>> = { A: "MC", B: "CC1", C: "CC2", x: "rust", o: "dark blue" };
const CODES: Readonly<Record<string, string>> = { A: "MC", B: "C1", C: "C2", x: "b7", o: "b12" };

/** The chart with its own letters again, by the text that each colour stood for. */
function readBack(text: string, spelt: Readonly<Record<string, string>>): string[] {
  const { charts } = readChartText(text);
  expect(charts).toHaveLength(1);
  const { rows, colours, symbols } = charts[0]!;
  const letterOf = new Map(
    Object.keys(colours).map((id) => {
      const said = symbols?.[id]?.text ?? id;
      return [id, Object.keys(spelt).find((letter) => spelt[letter] === said) ?? said];
    }),
  );
  return rows.map((row) => Array.from(row, (id) => letterOf.get(id) ?? id).join(""));
}

function runsOf(stitches: string): [string, number][] {
  const runs: [string, number][] = [];
  for (const letter of stitches) {
    const last = runs.at(-1);
    if (last?.[0] === letter) last[1]++;
    else runs.push([letter, 1]);
  }
  return runs;
}

const reversed = (row: string): string => Array.from(row).toReversed().join("");

/** A round is worked from the right edge: its words begin there. */
const roundWords = (row: string, stitch = "k", names = NAMES): string =>
  runsOf(reversed(row))
    .map(([letter, many]) => `${stitch}${many} ${names[letter]!}`)
    .join(", ");

describe("grids come back", () => {
  it.each<[string, string]>([
    ["with spaces", " "],
    ["with commas", ","],
    ["with semicolons and spaces", "; "],
    ["with tabs", "\t"],
  ])("codes of more letters, %s", (_, divider) => {
    fc.assert(
      fc.property(chartsOf(LETTERS), (rows) => {
        const text = rows.map((row) => Array.from(row, (letter) => CODES[letter]!).join(divider)).join("\n");
        expect(readBack(text, CODES)).toEqual(rows);
      }),
      SETTINGS,
    );
  });

  it("words in cells", () => {
    fc.assert(
      fc.property(chartsOf(LETTERS, 6), (rows) => {
        const text = rows.map((row) => Array.from(row, (letter) => `"${NAMES[letter]!}"`).join(";")).join("\r\n");
        expect(readBack(text, NAMES)).toEqual(rows);
      }),
      SETTINGS,
    );
  });

  it("numbered from any row on, on one side or alternate sides", () => {
    const sides = fc.constantFrom("left", "right", "alternate");
    fc.assert(
      fc.property(chartsOf(LETTERS), fc.integer({ min: 1, max: 200 }), sides, (rows, first, side) => {
        const text = rows
          .map((row, index) => {
            const number = first + rows.length - 1 - index;
            return side === "left" || (side === "alternate" && number % 2 === 0)
              ? `${number} ${row}`
              : `${row} ${number}`;
          })
          .join("\n");
        const { charts } = readChartText(text);
        expect(charts[0]!.rows).toEqual(rows);
        expect(charts[0]!.firstRow ?? 1).toBe(first);
      }),
      SETTINGS,
    );
  });

  it("a table out of a spreadsheet, numbered round its edge", () => {
    const dividers = fc.constantFrom(",", ";", "\t");
    const edges = fc.record({ left: fc.boolean(), right: fc.boolean(), top: fc.boolean(), bottom: fc.boolean() });
    fc.assert(
      fc.property(chartsOf(LETTERS), dividers, edges, fc.boolean(), (rows, divider, edge, quoted) => {
        const width = rows[0]!.length;
        const framed = (cells: string[], number: string): string[] => [
          ...(edge.left ? [number] : []),
          ...cells,
          ...(edge.right ? [number] : []),
        ];
        const columns = framed(
          Array.from({ length: width }, (_, index) => String(width - index)),
          "",
        );
        const cells = rows.map((row, index) => framed(Array.from(row), String(rows.length - index)));
        const table = [...(edge.top ? [columns] : []), ...cells, ...(edge.bottom ? [columns] : [])];
        const text = table.map((row) => row.map((cell) => (quoted ? `"${cell}"` : cell)).join(divider)).join("\n");
        expect(readChartText(text).charts.map((chart) => chart.rows)).toEqual([rows]);
      }),
      SETTINGS,
    );
  });

  it("digits for colours in a numbered table", () => {
    fc.assert(
      fc.property(chartsOf(["0", "1", "2", "7"]), (rows) => {
        const text = rows.map((row, index) => [rows.length - index, ...row].join(",")).join("\n");
        expect(readChartText(text).charts.map((chart) => chart.rows)).toEqual([rows]);
      }),
      SETTINGS,
    );
  });

  it("marks on a ground left blank, in a table or in spaces", () => {
    fc.assert(
      fc.property(chartsOf(["X", "B"]), fc.constantFrom("\t", ";"), (rows, divider) => {
        // A border keeps its corners: what lies outside every mark cannot be known.
        const marked = [`X${"X".repeat(rows[0]!.length)}X`, ...rows.map((row) => `X${row}X`)];
        const text = marked
          .map((row) => Array.from(row, (cell) => (cell === "B" ? "" : cell)).join(divider))
          .join("\n");
        expect(readBack(text, { X: "X", B: "blank" })).toEqual(marked);
        const drawn = marked.map((row) => `  ${row.replaceAll("B", " ")}`).join("\n");
        expect(readBack(drawn, { X: "X", B: "blank" })).toEqual(marked);
      }),
      SETTINGS,
    );
  });

  it("the chart's own text form", () => {
    fc.assert(
      fc.property(chartsOf([...LETTERS, "-", "."]), (rows) => {
        expect(readChartText(chartText(rows)).charts.map((chart) => chart.rows)).toEqual([rows]);
      }),
      SETTINGS,
    );
  });
});

describe("rows in words come back", () => {
  it("rounds, in any order of lines", () => {
    const shuffled = chartsOf(LETTERS).chain((rows) =>
      fc.tuple(
        fc.constant(rows),
        fc.shuffledSubarray([...rows.keys()], { minLength: rows.length, maxLength: rows.length }),
      ),
    );
    fc.assert(
      fc.property(shuffled, fc.integer({ min: 1, max: 90 }), ([rows, order], first) => {
        const lines = rows.map((row, index) => `Rnd ${first + rows.length - 1 - index}: ${roundWords(row)}.`);
        const text = order.map((index) => lines[index]!).join("\n");
        expect(readBack(text, NAMES)).toEqual(rows);
        expect(readChartText(text).charts[0]!.firstRow ?? 1).toBe(first);
      }),
      SETTINGS,
    );
  });

  it("flat rows, the wrong side from left to right and purled", () => {
    fc.assert(
      fc.property(chartsOf(LETTERS), fc.boolean(), (rows, sided) => {
        const lines = rows.map((row, index) => {
          const number = rows.length - index;
          const wrong = number % 2 === 0;
          const words = wrong ? roundWords(reversed(row), "p") : roundWords(row);
          return `Row ${number}${sided ? ` (${wrong ? "WS" : "RS"})` : ""}: ${words}`;
        });
        expect(readBack(lines.toReversed().join("\n"), NAMES)).toEqual(rows);
      }),
      SETTINGS,
    );
  });

  it("repeats to the end, with stitches before and after them", () => {
    const parts = fc.record({
      before: fc.string({ unit: fc.constantFrom("A", "B"), maxLength: 3 }),
      after: fc.string({ unit: fc.constantFrom("A", "C"), maxLength: 3 }),
      rows: fc.array(fc.string({ unit: fc.constantFrom("A", "B", "C"), minLength: 4, maxLength: 4 }), {
        minLength: 2,
        maxLength: 8,
      }),
      times: fc.integer({ min: 2, max: 6 }),
    });
    fc.assert(
      fc.property(parts, ({ before, after, rows, times }) => {
        // In the order of working; row 1 has all its stitches, so that the width is known.
        const worked = rows.map((row) => `${before}${row.repeat(times)}${after}`);
        const words = (part: string): string => roundWords(reversed(part));
        const lines = rows.map((row, index) => {
          if (index === 0) return `Rnd 1: ${words(worked[0]!)}`;
          const end =
            after === "" ? "to end" : `to last ${after.length === 1 ? "st" : `${after.length} sts`}, ${words(after)}`;
          return `Rnd ${index + 1}: ${before === "" ? "" : `${words(before)}, `}*${words(row)}; rep from * ${end}.`;
        });
        expect(readBack(lines.join("\n"), NAMES)).toEqual(worked.map(reversed).toReversed());
      }),
      SETTINGS,
    );
  });

  it("brackets and their number, in the ways in which it is said", () => {
    const say = fc.constantFrom(
      (words: string, times: number) => `(${words}) x ${times}`,
      (words: string, times: number) => `(${words}) ${times} times`,
      (words: string, times: number) => `[${words}] ${times}x`,
      (words: string, times: number) => `${times} x (${words})`,
      (words: string, times: number) => `*${words}* ${times} times`,
      (words: string, times: number) => `*${words}; rep from * ${times - 1} times more`,
      (words: string, times: number) => `*${words}; rep from * ${times - 1} more times`,
    );
    fc.assert(
      fc.property(chartsOf(LETTERS), fc.integer({ min: 2, max: 5 }), say, (rows, times, written) => {
        const lines = rows.map((row, index) => `Rnd ${rows.length - index}: ${written(roundWords(row), times)}`);
        expect(readBack(lines.join("\n"), NAMES)).toEqual(rows.map((row) => row.repeat(times)));
      }),
      SETTINGS,
    );
  });

  it("equal rows that stand together, as a range", () => {
    fc.assert(
      fc.property(
        chartsOf(LETTERS),
        fc.integer({ min: 2, max: 5 }),
        fc.constantFrom("-", "–", " to "),
        (rows, many, dash) => {
          const lines = rows.map((row, index) => {
            const first = (rows.length - 1 - index) * many + 1;
            return `Rnds ${first}${dash}${first + many - 1}: ${roundWords(row)}`;
          });
          expect(readBack(lines.join("\n"), NAMES)).toEqual(rows.flatMap((row) => Array<string>(many).fill(row)));
        },
      ),
      SETTINGS,
    );
  });

  it("counts and colours alone, as they are seen", () => {
    const words: Readonly<Record<string, string>> = { A: "MC", B: "CC", C: "rust", x: "X", o: "o" };
    const ways = fc.constantFrom(
      (letter: string, many: number) => `${many}${words[letter]!}`,
      (letter: string, many: number) => `${many} ${words[letter]!}`,
    );
    fc.assert(
      fc.property(chartsOf(LETTERS), ways, fc.constantFrom(" ", ", "), (rows, written, divider) => {
        const lines = rows.map((row) =>
          runsOf(row)
            .map(([letter, many]) => written(letter, many))
            .join(divider),
        );
        expect(readBack(lines.join("\n"), words)).toEqual(rows);
      }),
      SETTINGS,
    );
  });

  it("broken over two lines, as a page breaks them", () => {
    fc.assert(
      fc.property(chartsOf(LETTERS, 8), fc.nat(), (rows, where) => {
        const lines = rows.map((row, index) => {
          const words = `Rnd ${rows.length - index}: ${roundWords(row)}`;
          const gaps = [...words.matchAll(/, /g)].map((match) => match.index + 1);
          const at = gaps[where % gaps.length]!;
          return `${words.slice(0, at)}\n${words.slice(at + 1)}`;
        });
        expect(readBack(lines.join("\n"), NAMES)).toEqual(rows);
      }),
      SETTINGS,
    );
  });

  it("our own, in the round and flat", () => {
    fc.assert(
      fc.property(chartsOf(LETTERS), fc.constantFrom<"round" | "flat">("round", "flat"), (rows, worked) => {
        const written = writtenRows({ worked }, gridOf({ rows }), (colour) => NAMES[colour]!);
        expect(readBack(written.join("\n"), NAMES)).toEqual(rows);
        const letters = writtenRows({ worked }, gridOf({ rows }), (colour) => colour);
        expect(readChartText(letters.join("\n")).charts[0]!.rows).toEqual(rows);
      }),
      SETTINGS,
    );
  });
});
