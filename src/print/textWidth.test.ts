import fontkit from "@pdf-lib/fontkit";
import fc from "fast-check";
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { fitText, textWidth, wrapText } from "./textWidth.ts";

const FONT = { regular: "NotoSans-Regular.ttf", bold: "NotoSans-Bold.ttf" } as const;

describe("text width", () => {
  it.each(["regular", "bold"] as const)("is the %s font's own for plain Latin and its accents", (weight) => {
    const font = fontkit.create(readFileSync(`src/print/fonts/${FONT[weight]}`)) as unknown as {
      unitsPerEm: number;
      glyphForCodePoint: (code: number) => { advanceWidth: number };
    };
    const plain = Array.from({ length: 0x7f - 0x20 }, (_, index) => String.fromCharCode(0x20 + index)).join("");
    for (const character of `${plain}éÅñžÜ`) {
      const { advanceWidth } = font.glyphForCodePoint(character.codePointAt(0)!);
      expect(textWidth(character, 1, weight), character).toBeCloseTo(advanceWidth / font.unitsPerEm, 3);
    }
  });

  const words = fc.array(fc.string({ minLength: 1, maxLength: 30 }), { maxLength: 12 }).map((parts) => parts.join(" "));

  it("a fitted text fits", () => {
    fc.assert(
      fc.property(words, fc.integer({ min: 5, max: 60 }), (text, width) => {
        expect(textWidth(fitText(text, 3, width), 3)).toBeLessThanOrEqual(width);
      }),
      { seed: 7, numRuns: 200 },
    );
  });

  it("wrapping loses no letter, and each line fits", () => {
    fc.assert(
      fc.property(words, fc.integer({ min: 5, max: 60 }), (text, width) => {
        const lines = wrapText(text, 3, width);
        expect(lines.join("").replaceAll(/\s/g, "")).toBe(text.replaceAll(/\s/g, ""));
        for (const line of lines) expect(textWidth(line, 3)).toBeLessThanOrEqual(width);
      }),
      { seed: 7, numRuns: 200 },
    );
  });
});
