/** That the shelf's file is read as strictly as the project's and written back whole. */
import { expect, it } from "vitest";
import { problemSentence } from "../base/problem.ts";
import { readShelf, shelfSchema, writeShelf } from "./shelf.ts";

const text = `{
  "format": "twostrand-shelf",
  "version": 1,
  "yarns": [
    { "id": "y1", "name": "Fog", "shade": { "lab": [84, 0.5, 3] }, "grams": 43, "box": "attic" }
  ],
  "promised": [
    { "yarn": "y1", "project": "Vest for the weather station", "grams": 30 }
  ],
  "theta": -0.25,
  "slack": 0.05,
  "loopLengthMm": 9.5
}
`;

it("opens and saves to the same bytes", () => {
  const { value, problems } = readShelf(text);
  expect(problems).toEqual([]);
  expect(writeShelf(value!)).toBe(text);
});

it.each([
  [text.replace('"version": 1', '"version": 2'), /^Version: expected at most 1, found 2: a newer Twostrand/],
  [
    text.replace("twostrand-shelf", "twostrand-project"),
    /^Format: expected "twostrand-shelf", found "twostrand-project"\.$/,
  ],
  [text.replace("9.5", "-9.5"), /^LoopLengthMm: expected a number above 0, found -9.5\.$/],
  [text.slice(0, 40), /^Line 3, column/],
])("tells what is wrong", (wrong, sentence) => {
  const { value, problems } = readShelf(wrong);
  expect(value).toBeNull();
  expect(problemSentence(problems[0]!)).toMatch(sentence);
});

it("has a schema of the 2020-12 kind", () => {
  expect(shelfSchema()).toMatchObject({ $schema: "https://json-schema.org/draft/2020-12/schema", type: "object" });
});
