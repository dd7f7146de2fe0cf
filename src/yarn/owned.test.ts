import { describe, expect, test } from "vitest";
import { isOwned, toChooseFrom } from "./owned.ts";
import type { Yarn } from "./yarn.ts";

const moss: Yarn = { id: "moss", name: "Moss", shade: { hex: "#5a6b3c" } };
const pictured: Yarn = { id: "a", name: "A, from a picture", shade: { lab: [50, 0, 0], from: "picture" } };

describe("what can be knitted with", () => {
  test.each<[string, Yarn, boolean]>([
    ["a yarn of which nothing else is known", moss, true],
    ["a yarn by photograph", { ...moss, shade: { hex: "#5a6b3c", from: "photo" } }, true],
    ["a yarn of flecks alone", { id: "t", name: "Tweed", flecks: [{ shade: { hex: "#444" }, share: 1 }] }, true],
    ["a colour from a picture", pictured, false],
    ["a ball that was once picked off a picture", { ...pictured, grams: 43 }, true],
    ["the same by its lots", { ...pictured, lots: [{ id: "l1", grams: 20 }] }, true],
    ["lots without a weight", { ...pictured, lots: [{ id: "l1", lot: "17" }] }, false],
  ])("%s", (_, yarn, owned) => {
    expect(isOwned(yarn)).toBe(owned);
  });

  test("what stands in place may stay; a list that loses nothing is the same list", () => {
    expect(toChooseFrom([moss, pictured], new Set())).toEqual([moss]);
    expect(toChooseFrom([moss, pictured], new Set(["a"]))).toEqual([moss, pictured]);
    const all = [moss];
    expect(toChooseFrom(all, new Set())).toBe(all);
  });
});
