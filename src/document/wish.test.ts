/** That a wish is read as it was meant, or told where it is not one. */
import { expect, it } from "vitest";
import { problemSentence } from "../base/problem.ts";
import { readWish } from "./wish.ts";

it("every part that a wish may have is read, and what is unknown stays", () => {
  const wish = {
    keep: [{ colour: "A", yarn: "y1" }],
    never: ["y2"],
    only: "stash",
    ladder: "reversed",
    look: [
      { colour: "B", be: "quieter" },
      { band: "b2", be: "hue:red" },
    ],
    bands: [{ band: "b1", want: "soft" }],
    share: { allow: [["C", "E"]] },
    buy: 0,
    ways: 3,
    mood: "quiet",
  };
  expect(readWish(JSON.stringify(wish))).toEqual({ value: wish, problems: [] });
  expect(readWish("{}").value).toEqual({});
});

it.each([
  ["[]", "The file: expected an object, found an empty list."],
  ['{"keep": 5}', "Keep: expected a list of colours that keep their yarn, found 5."],
  [
    '{"keep": [{"colour": "A"}]}',
    "Keep[0].yarn: expected an id (a text that is not empty and no word kept by the program), found nothing.",
  ],
  ['{"only": "some"}', 'Only: expected a list of yarn ids, or "stash", found "some".'],
  ['{"ladder": "up"}', 'Ladder: expected same, reversed or free, found "up".'],
  [
    '{"share": {"allow": ["C"]}}',
    "Share.allow: expected true, false or a list of pairs of chart colours, found a list of 1.",
  ],
  [
    '{"keep": [{"colour": "A", "yarn": "y1"}, {"colour": "A", "yarn": "y2"}]}',
    "Keep: expected each colour kept once, but at places of its own, found a list of 2.",
  ],
  ['{"look": [{"be": "light"}]}', "Look[0]: expected a look with either a colour or a band, found an object."],
  [
    '{"look": [{"colour": "A", "band": "b1", "be": "light"}]}',
    "Look[0]: expected a look with either a colour or a band, found an object.",
  ],
  ['{"ways": 0}', "Ways: expected a whole number from 1 to 100000, found 0."],
  ['{"ways": 3', 'Line 1, column 11: expected "," or "}", found the end of the file.'],
])("%s", (text, sentence) => {
  const { value, problems } = readWish(text);
  expect(value).toBeNull();
  expect(problems.map(problemSentence)).toEqual([sentence]);
});
