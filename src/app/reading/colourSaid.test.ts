import { describe, expect, it } from "vitest";
import { shadeByWords } from "../../intake/colourWords.ts";
import type { ReadColour } from "../../intake/readChart.ts";
import { namedColour, shadedByName, typedColour, withoutGroundShades } from "./colourSaid.ts";

const unknown: ReadColour = { hex: "#808080", lab: [53.585, 0, 0], assumed: true };

describe("what is said of a colour", () => {
  it("a name tells the shade where nothing better does, and is called an estimate with its range", () => {
    const rust = namedColour(unknown, "rust");
    const words = shadeByWords(["rust"])!;
    expect(rust).toMatchObject({ name: "rust", lab: words.lab, uncertainty: words.uncertainty, assumed: true });
    const read: ReadColour = { hex: "#8a3b2e", lab: [36, 32, 23] };
    expect(namedColour(read, "moss green")).toEqual({ ...read, name: "moss green" });
    expect(namedColour({ ...read, name: "x" }, "")).toEqual(read);
  });
  it("a code is her word, words an estimate, anything else nothing", () => {
    const code = typedColour({ ...unknown, uncertainty: 13 }, "#8f7a55")!;
    expect(code.hex).toBe("#8f7a55");
    expect([code.assumed, code.uncertainty]).toEqual([undefined, undefined]);
    expect(typedColour(unknown, "dark red")!.assumed).toBe(true);
    expect(typedColour(unknown, "the usual")).toBeNull();
  });
  it("names out of a key shade what has no shade, and nothing else", () => {
    const colours = shadedByName({
      colours: {
        A: { ...unknown, name: "navy" },
        B: { ...unknown, name: "MC" },
        C: { hex: "#ff0000", lab: [53, 80, 67], name: "blue" },
      },
    });
    expect(colours["A"]!.lab).toEqual(shadeByWords(["navy"])!.lab);
    expect(colours["B"]).toEqual({ ...unknown, name: "MC" });
    expect(colours["C"]!.hex).toBe("#ff0000");
  });
  it("signs on one paper have no shade of their own; a sign on its own colour has", () => {
    const white: ReadColour = { hex: "#ffffff", lab: [100, 0, 0] };
    const colours = withoutGroundShades({
      rows: ["ABBC", "ABDD"],
      colours: {
        A: white,
        B: white,
        C: { hex: "#fafafa", lab: [98.3, 0, 0] },
        D: { hex: "#8a3b2e", lab: [36, 32, 23] },
      },
      symbols: { B: { text: null, picture: [] }, C: { text: null, picture: [] }, D: { text: "x" } },
      confidence: 1,
      box: null,
      page: 1,
      uncertain: [],
    });
    expect(colours["A"]).toEqual(white);
    expect(colours["D"]!.assumed).toBeUndefined();
    expect([colours["B"]!.assumed, colours["C"]!.assumed]).toEqual([true, true]);
    // The commoner the lighter.
    expect(colours["B"]!.lab[0]).toBeGreaterThan(colours["C"]!.lab[0] + 20);
  });
});
