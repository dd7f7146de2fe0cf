/** That what a file holds cannot harm a terminal, and that text keeps to its width. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { columnsOf, fitted, paragraph, plain, rowList, table, WIDTH } from "./words.ts";

describe("plain", () => {
  it.each([
    ["\u001b[31mred\u001b[0m", "red"],
    ["\u001b]0;title\u0007Fog", "Fog"],
    ["a\u009b31mb", "ab"],
    ["one\r\ntwo\tthree", "one two three"],
    ["\u202egof\u202c", "gof"],
    ["F\u0000o\u0008g", "F o g"],
    ["  Rowan   berry ", "Rowan berry"],
  ])("%j becomes %j", (text, expected) => expect(plain(text)).toBe(expected));

  it("leaves nothing that drives a terminal, whatever comes", () => {
    fc.assert(
      fc.property(fc.string({ unit: "binary" }), (text) => {
        expect(plain(text)).not.toMatch(/[\p{Cc}\p{Cf}]/u);
      }),
      { seed: 7, numRuns: 500 },
    );
  });
});

describe("width", () => {
  // East Asian Width (UAX #11): wide letters take two columns; a combining accent (U+0301) takes none.
  it.each([
    ["Fog", 3],
    ["毛糸", 4],
    ["e\u0301", 1],
  ])("%s takes %d columns", (text, columns) => expect(columnsOf(text)).toBe(columns));

  it("is never more than asked for", () => {
    fc.assert(
      fc.property(fc.string({ unit: "grapheme", maxLength: 300 }), fc.integer({ min: 2, max: 40 }), (text, columns) => {
        expect(columnsOf(fitted(text, columns))).toBeLessThanOrEqual(columns);
        for (const line of paragraph(text, "  - ").split("\n")) expect(columnsOf(line)).toBeLessThanOrEqual(WIDTH);
        const columnsGiven = [
          { heading: "yarn", elastic: true },
          { heading: "grams", align: "right" },
        ] as const;
        for (const line of table(columnsGiven, [[text, "12"]]).split("\n"))
          expect(columnsOf(line)).toBeLessThanOrEqual(WIDTH);
      }),
      { seed: 7, numRuns: 300 },
    );
  });
});

it("sets a table in columns", () => {
  const columns = [
    { heading: "yarn", elastic: true },
    { heading: "grams", align: "right" },
  ] as const;
  expect(
    table(columns, [
      ["Fog", "43"],
      ["Rowan berry", "5"],
    ]),
  ).toBe(["  yarn         grams", "  Fog             43", "  Rowan berry      5"].join("\n"));
});

it.each([
  [[], ""],
  [[9], "9"],
  [[4, 3], "3, 4"],
  [[1, 3, 4, 5, 9], "1, 3 to 5, 9"],
])("rows %j are told as %j", (rows, words) => expect(rowList(rows)).toBe(words));
