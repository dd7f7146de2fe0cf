/** That writing is whole or not at all, and never over what was read. */
import {
  linkSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import sharp from "sharp";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { readBytes, readText, writeWhole } from "./files.ts";
import { EXIT, Refusal, type ExitCode } from "./io.ts";
import { decodePicture, encodePng, kindOfFile } from "./pictures.ts";

let folder = "";
const at = (name: string): string => join(folder, name);
beforeEach(() => (folder = mkdtempSync(join(tmpdir(), "twostrand-"))));
afterEach(() => rmSync(folder, { recursive: true }));

const refused = async (work: Promise<unknown>): Promise<{ code: ExitCode; message: string }> => {
  const error: unknown = await work.then(
    () => null,
    (reason: unknown) => reason,
  );
  if (!(error instanceof Refusal)) throw new Error(`expected a refusal, found ${String(error)}`);
  return { code: error.code, message: error.message.replaceAll(folder, "DIR") };
};
const fresh = { force: false, inputs: [] };

describe("writing", () => {
  it("makes a file and leaves nothing beside it", async () => {
    await writeWhole(at("a.json"), "one\n", fresh);
    expect(readFileSync(at("a.json"), "utf8")).toBe("one\n");
    expect(readdirSync(folder)).toEqual(["a.json"]);
  });

  it("replaces what differs only when forced; the same again is no change", async () => {
    await writeWhole(at("a.json"), "one\n", fresh);
    await writeWhole(at("a.json"), "one\n", fresh);
    expect(await refused(writeWhole(at("a.json"), "two\n", fresh))).toEqual({
      code: EXIT.cannotWrite,
      message: "DIR/a.json is there already and differs. Add --force to replace it.",
    });
    await writeWhole(at("a.json"), "two\n", { force: true, inputs: [] });
    expect(readFileSync(at("a.json"), "utf8")).toBe("two\n");
    expect(readdirSync(folder)).toEqual(["a.json"]);
  });

  it("never writes over what it read, by whatever name, forced or not", async () => {
    writeFileSync(at("in.json"), "in");
    symlinkSync(at("in.json"), at("link.json"));
    linkSync(at("in.json"), at("twin.json"));
    for (const name of ["in.json", "link.json", "twin.json", "./in.json"]) {
      const { code } = await refused(writeWhole(at(name), "out", { force: true, inputs: [at("in.json")] }));
      expect(code).toBe(EXIT.cannotWrite);
    }
    expect(readFileSync(at("in.json"), "utf8")).toBe("in");
  });

  it("writes through a link and keeps it one", async () => {
    writeFileSync(at("real.json"), "old");
    symlinkSync(at("real.json"), at("link.json"));
    await writeWhole(at("link.json"), "new", { force: true, inputs: [] });
    expect(readFileSync(at("real.json"), "utf8")).toBe("new");
    expect(
      readdirSync(folder, { withFileTypes: true })
        .find(({ name }) => name === "link.json")!
        .isSymbolicLink(),
    ).toBe(true);
  });

  it.each([
    ["none/a.json", "Cannot write DIR/none/a.json: there is no folder DIR/none."],
    ["folder", "Cannot write DIR/folder: what is there is no file."],
  ])("refuses %s", async (name, message) => {
    mkdirSync(at("folder"));
    expect(await refused(writeWhole(at(name), "x", fresh))).toEqual({ code: EXIT.cannotWrite, message });
  });

  it("leaves a device alone", async () => {
    expect((await refused(writeWhole("/dev/null", "x", { force: true, inputs: [] }))).code).toBe(EXIT.cannotWrite);
  });
});

describe("reading", () => {
  it("tells what is not there and what is a folder", async () => {
    expect(await refused(readBytes(at("gone.json")))).toEqual({
      code: EXIT.cannotRead,
      message: "Cannot read DIR/gone.json: it is not there.",
    });
    expect((await refused(readBytes(folder))).message).toBe("Cannot read DIR: it is a folder.");
  });

  it("knows the text of a spreadsheet's UTF-16", async () => {
    writeFileSync(at("a.txt"), Buffer.concat([Buffer.from([0xff, 0xfe]), Buffer.from("Müll", "utf16le")]));
    expect(await readText(at("a.txt"))).toBe("Müll");
  });
});

describe("pictures", () => {
  // 2 × 1 pixels: pure red, pure blue (sRGB bytes, so linear light is exactly 0 and 1).
  const pixels = Buffer.from([255, 0, 0, 0, 0, 255]);
  const picture = () => sharp(pixels, { raw: { width: 2, height: 1, channels: 3 } });

  it("come in linear light, whatever the format", async () => {
    for (const bytes of [await picture().png().toBuffer(), await picture().webp({ lossless: true }).toBuffer()]) {
      expect(kindOfFile(bytes)).toBe("picture");
      const { width, height, data } = await decodePicture("x", bytes);
      expect([width, height, ...data]).toEqual([2, 1, 1, 0, 0, 0, 0, 1]);
    }
    expect(kindOfFile(await picture().jpeg().toBuffer())).toBe("picture");
  });

  it("are turned as the camera was held", async () => {
    // Exif orientation 6: the picture's first row is its right side (Exif 2.32, tag 0x0112).
    const turned = await picture().withMetadata({ orientation: 6 }).png().toBuffer();
    const { width, height, data } = await decodePicture("x", turned);
    expect([width, height, ...data]).toEqual([1, 2, 1, 0, 0, 0, 0, 1]);
  });

  it("with shades of grey only have three channels all the same", async () => {
    const grey = await sharp(Buffer.from([0, 255]), { raw: { width: 2, height: 1, channels: 1 } })
      .png()
      .toBuffer();
    expect([...(await decodePicture("x", grey)).data]).toEqual([0, 0, 0, 1, 1, 1]);
  });

  it("that are broken are bad input", async () => {
    const bytes = await picture().png().toBuffer();
    expect((await refused(decodePicture("x.png", bytes.subarray(0, 40)))).code).toBe(EXIT.badInput);
  });

  it("are written in true size", async () => {
    const rgba = new Uint8ClampedArray([255, 0, 0, 255, 0, 0, 255, 255]);
    const bytes = await encodePng({ width: 2, height: 1, millimetresPerPixel: 0.254, rgba });
    // 25.4 mm to the inch and 0.254 mm to the pixel: 100 pixels to the inch.
    expect((await sharp(bytes).metadata()).density).toBe(100);
    expect([...(await sharp(bytes).raw().toBuffer())]).toEqual([...pixels]);
  });

  it.each([
    ["%PDF-1.7", "pdf"],
    ['<?xml version="1.0"?>\n<svg xmlns="x">', "svg"],
    ["GIF89a", "other picture"],
    ["ABAB\nBABA\n", "text"],
    ["BMBMBMBMBMBMBMBM\nBBBBBBBBBBBBBBBB", "text"],
    ["", "nothing"],
    ["<svg/>", "svg"],
    ['<!-- saved --><html lang="en">', "web page"],
  ])("%j is %s", (start, kind) => expect(kindOfFile(Buffer.from(start))).toBe(kind));
});
