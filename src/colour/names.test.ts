import { describe, expect, test } from "vitest";
import table from "../../test/tables/isccNbs.json" with { type: "json" };
import { labFromHex } from "./lab.ts";
import { plainName } from "./names.ts";

describe("plain names", () => {
  test("there are 267 names (NBS SP 440)", () => {
    expect(new Set(table.centroids.map(({ name }) => name)).size).toBe(267);
  });

  test.each(table.centroids)("$hex is $name", ({ hex, name }) => {
    expect(plainName(labFromHex(hex)!)).toBe(name);
  });

  // Hand-picked: colours nobody would name otherwise, away from any centroid.
  test.each([
    ["#000000", "black"],
    ["#ffffff", "white"],
    ["#ff0000", "red"],
    ["#0000ff", "blue"],
    ["#1f2a4d", "blue"],
    ["#7a4f2a", "brown"],
    ["#2f7a4b", "green"],
    ["#808080", "grey"],
  ])("%s has %s in its name", (hex, word) => {
    expect(plainName(labFromHex(hex)!)).toContain(word);
  });

  test("names are lower case and British", () => {
    for (const { hex } of table.centroids) expect(plainName(labFromHex(hex)!)).toMatch(/^(?!.*gray)[a-z ]+$/);
  });
});
