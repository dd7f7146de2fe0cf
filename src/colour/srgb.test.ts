import fc from "fast-check";
import { describe, expect, test } from "vitest";
import tables from "../../test/tables/colourSpaces.json" with { type: "json" };
import {
  bytesFromLinear,
  decodeSrgb,
  encodeSrgb,
  hexFromLinear,
  LINEAR_OF_BYTE,
  linearFromBytes,
  parseHex,
} from "./srgb.ts";

/** The table is printed with eight decimals. */
const PRINTED = 5e-9;

describe("sRGB", () => {
  test.each(Object.entries(tables.srgb.linearOfByte))("byte %s as published (IEC 61966-2-1)", (byte, linear) => {
    expect(Math.abs(decodeSrgb(Number(byte) / 255) - linear)).toBeLessThan(PRINTED);
    expect(LINEAR_OF_BYTE[Number(byte)]).toBe(decodeSrgb(Number(byte) / 255));
  });

  test("encoding undoes decoding, outside the gamut too", () => {
    fc.assert(
      fc.property(fc.double({ min: -0.5, max: 2, noNaN: true }), (encoded) => {
        // The standard's two pieces meet to about 1e-8 only.
        expect(Math.abs(encodeSrgb(decodeSrgb(encoded)) - encoded)).toBeLessThan(1e-7);
      }),
      { seed: 7, numRuns: 500 },
    );
  });

  test("every byte survives, also as hex", () => {
    for (let byte = 0; byte < 256; byte++) {
      const rgb = linearFromBytes(byte, 255 - byte, byte ^ 85);
      expect(bytesFromLinear(rgb)).toEqual([byte, 255 - byte, byte ^ 85]);
      expect(parseHex(hexFromLinear(rgb))).toEqual(rgb);
    }
  });

  test("light outside the gamut is clipped", () => {
    expect(hexFromLinear([-0.2, 1.7, 0])).toBe("#00ff00");
  });

  test("hex in either length and case, and nothing else", () => {
    expect(parseHex("#7A4")).toEqual(linearFromBytes(0x77, 0xaa, 0x44));
    expect(parseHex(" #77aA44 ")).toEqual(linearFromBytes(0x77, 0xaa, 0x44));
    for (const text of ["", "#", "77aa44", "#77aa4", "#77aa4g", "#77aa4400", "rgb(1,2,3)", "#7 a4"])
      expect(parseHex(text)).toBeNull();
  });
});
