import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { problemSentence } from "../base/problem.ts";
import { textOfTable, type Encoding } from "./tableText.ts";

const utf16 = (text: string, order: "le" | "be"): Uint8Array => {
  const bytes = Buffer.from(text, "utf16le");
  return order === "le" ? bytes : bytes.swap16();
};
const TEXT = "Navn;Farge\r\nSjøgrønn;blå\r\n";

describe("the encoding is told from the bytes", () => {
  it.each<[string, Uint8Array, Encoding]>([
    ["UTF-8", Buffer.from(TEXT), "utf-8"],
    ["UTF-8 with its mark", Buffer.from(`\uFEFF${TEXT}`), "utf-8"],
    ["UTF-16 LE with its mark", utf16(`\uFEFF${TEXT}`, "le"), "utf-16le"],
    ["UTF-16 BE with its mark", utf16(`\uFEFF${TEXT}`, "be"), "utf-16be"],
    ["UTF-16 LE without", utf16(TEXT, "le"), "utf-16le"],
    ["UTF-16 BE without", utf16(TEXT, "be"), "utf-16be"],
    ["Windows-1252", Buffer.from(TEXT, "latin1"), "windows-1252"],
  ])("%s", (_, bytes, encoding) => {
    expect(textOfTable(Uint8Array.from(bytes))).toEqual({ value: { text: TEXT, encoding }, problems: [] });
  });

  it("a damaged UTF-8 stays UTF-8, and the lost letter is told", () => {
    const bytes = Buffer.concat([Buffer.from("blå grønn sjø vær "), Buffer.from([0xff])]);
    const { value, problems } = textOfTable(bytes);
    expect(value).toEqual({ text: "blå grønn sjø vær \uFFFD", encoding: "utf-8" });
    expect(problems.map(problemSentence)).toEqual([
      "The file's letters: expected text in UTF-8, found a letter that cannot be read, shown as \uFFFD.",
    ]);
  });

  it("she may know better", () => {
    expect(textOfTable(Buffer.from("blå"), "windows-1252").value?.text).toBe("blÃ¥");
  });

  it.each([
    ["xlsx", [0x50, 0x4b, 3, 4, 20], "a spreadsheet's workbook"],
    ["xls", [0xd0, 0xcf, 0x11, 0xe0, 0xa1], "an old spreadsheet's workbook"],
    ["pdf", [0x25, 0x50, 0x44, 0x46, 0x2d], "a PDF"],
    ["png", [0x89, 0x50, 0x4e, 0x47], "a picture"],
  ])("%s is refused with what to do instead", (_, bytes, got) => {
    const { value, problems } = textOfTable(Uint8Array.from(bytes));
    expect(value).toBeNull();
    expect(problems[0]!.got).toContain(got);
    expect(problems[0]!.expected).toContain("CSV UTF-8");
  });
});

// Node's own decoder, which is the WHATWG Encoding Standard, is the independent reader.
describe("as the Encoding Standard has it", () => {
  it.each<Encoding>(["utf-8", "utf-16le", "utf-16be"])("any bytes as %s", (encoding) => {
    const reference = new TextDecoder(encoding, { ignoreBOM: true });
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 60 }), (bytes) => {
        const opening = [...bytes.slice(0, 4)].join();
        fc.pre(!/^(80,75,3,4|208,207,17,224|37,80,68,70|137,80,78,71|255,216,255|31,139)/.test(opening));
        const { text } = textOfTable(bytes, encoding).value!;
        const plain = reference.decode(bytes).replace(/^\uFEFF/, "");
        // How many marks a broken sequence becomes is a matter of taste; a surrogate alone stays as it came.
        const settled = (value: string): string => value.replace(/[\uD800-\uDFFF\uFFFD]+/g, "\uFFFD");
        expect(settled(text)).toBe(settled(plain));
      }),
      { seed: 7, numRuns: 1000 },
    );
  });
  it("Windows-1252 is as its published table says", () => {
    // Source: cp1252 of the Unicode mapping tables, as another language's own decoder has it; what it leaves open stays as it is.
    const high =
      "20ac 0081 201a 0192 201e 2026 2020 2021 02c6 2030 0160 2039 0152 008d 017d 008f 0090 2018 2019 201c 201d 2022 2013 2014 02dc 2122 0161 203a 0153 009d 017e 0178";
    const bytes = Uint8Array.from({ length: 256 }, (_, byte) => byte);
    const points = Array.from(textOfTable(bytes, "windows-1252").value!.text, (letter) => letter.charCodeAt(0));
    expect(points.slice(0x80, 0xa0).map((point) => point.toString(16).padStart(4, "0"))).toEqual(high.split(" "));
    expect(points.slice(0, 0x80)).toEqual([...bytes.slice(0, 0x80)]);
    expect(points.slice(0xa0)).toEqual([...bytes.slice(0xa0)]);
  });
  it("every text there and back", () => {
    fc.assert(
      fc.property(fc.string({ unit: "grapheme", maxLength: 40 }), (text) => {
        fc.pre(!text.startsWith("\uFEFF") && text.isWellFormed());
        expect(textOfTable(Buffer.from(text), "utf-8").value!.text).toBe(text);
        expect(textOfTable(utf16(text, "be"), "utf-16be").value!.text).toBe(text);
      }),
      { seed: 7, numRuns: 500 },
    );
  });
});
