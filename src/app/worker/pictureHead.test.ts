import fc from "fast-check";
import sharp, { type Sharp } from "sharp";
import { describe, expect, test } from "vitest";
import Color from "colorjs.io";
import { transform } from "../../base/matrix3.ts";
import { problemSentence } from "../../base/problem.ts";
import { SRGB_FROM_P3 } from "./openPicture.ts";
import { pictureHead, tooLarge, unopened } from "./pictureHead.ts";

const picture = () => sharp({ create: { width: 70, height: 30, channels: 3, background: "#8a6" } });
const bytes = async (image: Sharp) => new Uint8Array(await image.toBuffer());

describe("the beginning of a file", () => {
  // Expected: what an independent encoder was asked to write.
  test("tells kind, size and profile of what browsers open", async () => {
    const size = { width: 70, height: 30 };
    expect(pictureHead(await bytes(picture().png()))).toEqual({ kind: "PNG", size, hasProfile: false });
    expect(pictureHead(await bytes(picture().jpeg()))).toEqual({ kind: "JPEG", size, hasProfile: false });
    expect(pictureHead(await bytes(picture().webp()))).toEqual({ kind: "WebP", size, hasProfile: false });
    expect(pictureHead(await bytes(picture().webp({ lossless: true })))).toMatchObject({ kind: "WebP", size });
    expect(pictureHead(await bytes(picture().avif()))).toMatchObject({ kind: "AVIF", size });
    for (const image of [picture().png(), picture().jpeg(), picture().webp()])
      expect(pictureHead(await bytes(image.withIccProfile("p3")))).toMatchObject({ size, hasProfile: true });
    expect(pictureHead(await bytes(picture().toColourspace("cmyk").jpeg()))).toMatchObject({ size, isInks: true });
    expect(pictureHead(await bytes(picture().tiff())).kind).toBe("TIFF");
  });

  const text = (words: string) => Uint8Array.from(words, (letter) => letter.charCodeAt(0));
  test.each([
    ["", "nothing", /empty file/],
    ["\0\0\0\x18ftypheic\0\0\0\0mif1heic", "HEIC", /JPEG/],
    ["II*\0\x10\0\0\0CR\x02\0", "raw", /raw file/],
    ["\0\0\0\x18ftypcrx \0\0\0\x01crx isom", "raw", /raw file/],
    ["FUJIFILMCCD-RAW 0201", "raw", /raw file/],
    ["MM\0*\0\0\0\x08", "TIFF", /export it/],
    ["%PDF-1.7", "PDF", /pages/],
    ["<?xml version='1.0'?><svg xmlns=''>", "SVG", /drawing/],
    ["\xff\x0a\x01", "JPEG XL", /JPEG/],
    ["knit one", "other", /save it there as JPEG/],
  ])("%j is %s, and the sentence says what to do", (words, kind, advice) => {
    const head = pictureHead(text(words));
    expect(head.kind).toBe(kind);
    expect(problemSentence(unopened(head))).toMatch(advice);
  });

  test("a hundred megapixels are the most", () => {
    const head = (width: number, height: number) => ({
      kind: "JPEG" as const,
      size: { width, height },
      hasProfile: false,
    });
    expect(tooLarge(head(12_000, 8_000))).toBeNull();
    expect(problemSentence(tooLarge(head(12_000, 9_000))!)).toContain("108 megapixels: save it at half");
    expect(tooLarge({ kind: "HEIC", size: null, hasProfile: true })).toBeNull();
  });

  test("broken and random bytes are looked at without a fall", async () => {
    const whole = await Promise.all([picture().png(), picture().jpeg(), picture().webp(), picture().avif()].map(bytes));
    fc.assert(
      fc.property(fc.constantFrom(...whole), fc.nat(400), fc.uint8Array({ maxLength: 60 }), (file, at, noise) => {
        const broken = file.slice(0, at + noise.length);
        broken.set(noise.slice(0, Math.max(0, broken.length - at)), Math.min(at, broken.length));
        expect(typeof pictureHead(broken).kind).toBe("string");
        expect(typeof pictureHead(noise).kind).toBe("string");
      }),
      { seed: 7, numRuns: 300 },
    );
  });
});

test("linear Display P3 is linear sRGB by another library's numbers", () => {
  for (const p3 of [
    [1, 0, 0],
    [0, 1, 0],
    [0, 0, 1],
    [0.2, 0.5, 0.7],
  ] as const) {
    const theirs = new Color("p3-linear", [...p3]).to("srgb-linear").coords as number[];
    transform(SRGB_FROM_P3, p3).forEach((value, at) => expect(value).toBeCloseTo(theirs[at]!, 6));
  }
});
