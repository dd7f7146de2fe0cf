import { describe, expect, it } from "vitest";
import { knownWeightClass, weightClassesOf, weightClassWords } from "./weightClass.ts";

describe("the class of so many metres per 100 g", () => {
  // Beside each the published ranges it was looked up in by hand: metres in UK trade tables, yards per pound in hand-spinning
  // standards; 1 m per g is 496.055 yd per lb (1 yd = 0.9144 m, 1 lb = 453.59237 g).
  it.each<[number, string, string]>([
    [420, "fingering", "350–450 m; 2083 yd/lb of 1901–2400; trade: 2-ply jumper weight is fingering"],
    [350, "fingering or sport", "350–450 and 250–350 m; 1736 yd/lb of 1201–1900"],
    [360, "fingering or sport", "350–450 m; 1786 yd/lb of 1201–1900"],
    [470, "fingering", "no metres; 2331 yd/lb of 1901–2400"],
    [550, "lace or fingering", "3 ply, 500–600 m; 2728 yd/lb of 2401 and more"],
    [700, "lace", "600–800 m; 3472 yd/lb"],
    [900, "lace", "cobweb, 800 m and more"],
    [300, "sport", "250–350 m; 1488 yd/lb of 1201–1900"],
    [250, "sport or DK", "250–350 and 200–250 m; 1240 yd/lb of 1201–1900"],
    [225, "DK", "200–250 m; 1116 yd/lb of 901–1200"],
    [200, "DK or aran", "200–250 and 120–200 m; 992 yd/lb of 901–1200"],
    [150, "aran", "120–200 m; 744 yd/lb of 601–900"],
    [125, "aran or chunky", "120–200 and 100–130 m; 620 yd/lb of 601–900"],
    [90, "chunky or super chunky", "under 100 m; 446 yd/lb of 401–600"],
    [50, "super chunky", "under 100 m; 248 yd/lb of 400 and less"],
  ])("%d m: %s (%s)", (metres, words) => {
    expect(weightClassWords(weightClassesOf(metres))).toBe(words);
  });

  it("leaves no thickness without a class", () => {
    for (let metres = 5; metres <= 2000; metres++) expect(weightClassesOf(metres).length).toBeGreaterThan(0);
  });
});

describe("what is known of a yarn's class", () => {
  it("the label's word counts", () => {
    expect(knownWeightClass({ weightClass: 3, metresPer100g: 420 })).toEqual({ classes: [3], from: "label" });
  });
  it("else its metres suggest one", () => {
    expect(knownWeightClass({ metresPer100g: 350 })).toEqual({ classes: [1, 2], from: "metres" });
  });
  it("nothing said is nothing known", () => {
    expect(knownWeightClass({})).toEqual({ classes: [], from: null });
  });
});
