/** Wishes as sentences: each line takes back itself and nothing else. */
import { expect, it } from "vitest";
import { PLAIN_NAME_WORDS } from "../../colour/names.ts";
import type { Wish } from "../../recolour/wish.ts";
import { HUES } from "./hues.ts";
import { changedWish, wishLines } from "./wishList.ts";

const names = { yarn: (id: string) => `yarn ${id}`, band: (id: string) => `“${id}”` };
const whole: Wish = {
  keep: [
    { colour: "A", yarn: "y1" },
    { colour: "B", yarn: "y2", at: { chart: "c1", rows: [3, 7] } },
  ],
  never: ["y3"],
  only: ["y1", "y2"],
  ladder: "reversed",
  look: [{ colour: "C", be: "hue:blue" }],
  bands: [{ band: "b2", want: "soft" }],
  share: { allow: [["C", "E"]] },
  character: "close",
  fabric: "quieter",
  echoes: "alike",
  use: ["y9"],
  together: { thickness: true },
  weights: { hue: 2 },
  buy: 1,
};

it("tells every part in a sentence of its own", () => {
  expect(wishLines(whole, names).map(({ sentence }) => sentence)).toEqual([
    "Light for dark: the ladder turned over",
    "Close to the pattern’s own contrasts",
    "The whole fabric quieter than the pattern",
    "Bands that echo one another stay alike",
    "A stays yarn y1",
    "B stays yarn y2 in rows 3 to 7",
    "C in blue",
    "Band “b2” soft",
    "yarn y9 must be in it",
    "Not yarn y3",
    "Only yarn y1, yarn y2",
    "C and E may be one yarn",
    "Yarns of one thickness",
    "One colour may be bought",
    "Hue counts 2 times as much",
  ]);
});

it("each line taken back leaves all the others, and all taken back leave no wish", () => {
  const lines = wishLines(whole, names);
  for (const { key, without } of lines)
    expect(wishLines(without, names).map((line) => line.key)).toEqual(
      lines.map((line) => line.key).filter((other) => other !== key),
    );
  let wish = whole;
  for (let [line] = wishLines(wish, names); line; [line] = wishLines(wish, names)) wish = line.without;
  expect(wish).toEqual({});
});

it("keys are unique", () => {
  const keys = wishLines(whole, names).map(({ key }) => key);
  expect(new Set(keys).size).toBe(keys.length);
});

it("a part of a later version stays through every change", () => {
  const later = { mood: "quiet", ladder: "free" } as Wish;
  expect(changedWish(later, { ladder: undefined })).toEqual({ mood: "quiet" });
});

it("offers hues that a plain colour name may hold", () => {
  for (const hue of HUES) expect(PLAIN_NAME_WORDS.has(hue)).toBe(true);
});
