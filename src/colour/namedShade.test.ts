import { describe, expect, it } from "vitest";
import { deltaE2000 } from "./difference.ts";
import { labFromHex, type Lab } from "./lab.ts";
import { plainName } from "./names.ts";
import { shadeOfName } from "./namedShade.ts";

describe("a colour's name is a shade with a wide range", () => {
  it("a published name is its published centroid", () => {
    // Source: ISCC-NBS centroids, src/colour/data/isccNbs.json.
    const { name, lab } = shadeOfName(["dark", "red"])!;
    expect(name).toBe("dark red");
    expect(lab).toEqual(labFromHex("#722f37"));
    expect(shadeOfName(["very", "deep", "red"])!.lab).toEqual(labFromHex("#5c0923"));
  });
  it("a hue alone is one of its names", () => {
    for (const hue of ["red", "blue", "green", "brown", "grey", "yellow", "purple", "pink"]) {
      const { name } = shadeOfName([hue])!;
      expect(name.endsWith(hue)).toBe(true);
      expect(name).not.toMatch(/ish/);
    }
  });
  it("words that are no names are passed over; without a hue there is nothing", () => {
    expect(shadeOfName(["cosy", "light", "blue", "no", "4"])!.name).toBe("light blue");
    expect(shadeOfName(["light", "gray"])!.name).toBe("light grey");
    expect(shadeOfName(["light"])).toBeNull();
    expect(shadeOfName(["rowan", "berry"])).toBeNull();
    expect(shadeOfName([])).toBeNull();
  });
  it("is always vaguer than a shade typed from a label", () => {
    for (const words of ["dark red", "white", "black", "light grey", "blue", "olive green"])
      expect(shadeOfName(words.split(" "))!.uncertainty).toBeGreaterThan(5);
  });

  // Slow and plain: every colour of a grid over sRGB that has that name is measured against the guess.
  it.each(["red", "blue", "green", "brown", "purple", "pink"])("the range of %s holds what is called so", (hue) => {
    const { lab, uncertainty } = shadeOfName([hue])!;
    let [called, held] = [0, 0];
    for (let red = 0; red < 256; red += 24)
      for (let green = 0; green < 256; green += 24)
        for (let blue = 0; blue < 256; blue += 24) {
          const sample: Lab = labFromHex(`#${((1 << 24) | (red << 16) | (green << 8) | blue).toString(16).slice(1)}`)!;
          const words = plainName(sample).split(" ");
          if (words.at(-1) !== hue || words.slice(0, -1).some((word) => /ish$/.test(word) && word !== "greyish"))
            continue;
          // Dyed wool does not reach the corners of a screen (C* of 70, from memory).
          if (Math.hypot(sample[1], sample[2]) > 70) continue;
          called++;
          if (deltaE2000(lab, sample) <= uncertainty) held++;
        }
    expect(called).toBeGreaterThan(8);
    expect(held / called).toBeGreaterThan(0.75);
  });
});
