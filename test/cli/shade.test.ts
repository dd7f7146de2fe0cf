/** Shades from a photograph on the command line: every kind of picture file that people have, and what is refused. */
import sharp from "sharp";
import { describe, expect, it } from "vitest";
import { bench } from "./program.ts";

/** A grey card left, a yarn of one colour right; 100 × 40 pixels. */
const raw = Buffer.alloc(100 * 40 * 3);
for (let at = 0; at < 100 * 40; at++) raw.set(at % 100 < 50 ? [118, 118, 118] : [150, 70, 60], at * 3);
const flat = () => sharp(raw, { raw: { width: 100, height: 40, channels: 3 } });

const { run, json } = bench({
  "plain.png": await flat().png().toBuffer(),
  "deep.png": await flat().toColourspace("rgb16").png().toBuffer(),
  "wide.jpg": await flat().withIccProfile("p3").jpeg({ quality: 95 }).toBuffer(),
  "print.jpg": await flat().toColourspace("cmyk").withIccProfile("cmyk").jpeg({ quality: 95 }).toBuffer(),
  "grey.png": await flat().toColourspace("b-w").png().toBuffer(),
  // Held sideways: the file lies on its side and says so (EXIF 6 is to be turned clockwise).
  "turned.jpg": await sharp(await flat().rotate(-90).png().toBuffer())
    .withMetadata({ orientation: 6 })
    .jpeg({ quality: 95, chromaSubsampling: "4:4:4" })
    .toBuffer(),
  "phone.heic": Buffer.from("\0\0\0\x18ftypheic\0\0\0\0", "latin1"),
  "cut.jpg": (await flat().jpeg().toBuffer()).subarray(0, 300),
});
const BY_GREY = ["--grey", "5,5,35,30"];
const YARN = ["--yarn", "60,5,35,30"];
interface Told {
  yarns: { lab: [number, number, number] | null; hex: string; uncertainty: number; flecks: unknown[] }[];
  reference: { kind: string };
  problems: { severity: string }[];
}
const shade = (file: string, ...more: string[]): Promise<Told> => json<Told>("shade", `@${file}`, ...more);

describe("shade", () => {
  it("gives what was promised, a line for each yarn in its order", async () => {
    const { yarns, reference, problems } = await shade("plain.png", ...YARN, "--yarn", "10,10,20,20", ...BY_GREY);
    expect(yarns).toHaveLength(2);
    expect(yarns[0]!.hex).toMatch(/^#[0-9a-f]{6}$/);
    expect(yarns[0]!.uncertainty).toBeGreaterThan(1);
    // The second box lies on the card itself: 18 % of light is L* 49.5.
    expect(yarns[1]!.lab![0]).toBeCloseTo(49.5, 0);
    expect([reference.kind, problems]).toEqual(["grey", []]);
  });

  it.each(["deep.png", "wide.jpg", "turned.jpg"])("reads %s as the same colours", async (file) => {
    const [here, plain] = [await shade(file, ...YARN, ...BY_GREY), await shade("plain.png", ...YARN, ...BY_GREY)];
    // A byte's rounding and JPEG's: two units of Lab.
    here.yarns[0]!.lab!.forEach((value, axis) => expect(Math.abs(value - plain.yarns[0]!.lab![axis]!)).toBeLessThan(2));
  });

  it("reads pictures for print and in grey", async () => {
    const print = await shade("print.jpg", ...YARN, ...BY_GREY);
    // Print holds fewer colours, but a red stays that red.
    expect(print.yarns[0]!.lab![1]).toBeGreaterThan(25);
    const grey = await shade("grey.png", ...YARN, ...BY_GREY);
    expect(Math.hypot(grey.yarns[0]!.lab![1], grey.yarns[0]!.lab![2])).toBeLessThan(1);
  });

  it("takes the card for what it is said to be", async () => {
    const { yarns } = await shade("plain.png", "--yarn", "10,10,20,20", ...BY_GREY, "--reflectance", "0.5");
    // 50 % of light is L* 76.07 (CIE 15: 116 · 0.5^(1/3) − 16).
    expect(yarns[0]!.lab![0]).toBeCloseTo(76.07, 0);
  });

  it("believes the camera where there is no reference, and says so", async () => {
    const { reference, problems } = await shade("plain.png", ...YARN);
    expect(reference.kind).toBe("none");
    expect(problems[0]!.severity).toBe("doubt");
  });

  it.each<[string, string[], number, RegExp]>([
    [
      "a picture in which no yarn can be made out",
      ["@plain.png"],
      65,
      /yarns that stand out.*none; say where they lie/,
    ],
    ["a box that is none", ["@plain.png", "--yarn", "1,2,3"], 64, /--yarn: expected x,y,width,height/],
    ["two references", ["@plain.png", ...YARN, ...BY_GREY, "--white", "1,1,9,9"], 64, /--grey and --white/],
    [
      "a tint that paper has not",
      ["@plain.png", ...YARN, "--white", "1,1,9,9", "--tint", "pink"],
      64,
      /--tint: expected bright/,
    ],
    [
      "a card that is no grey",
      ["@plain.png", ...YARN, ...BY_GREY, "--reflectance", "18"],
      64,
      /--reflectance: expected/,
    ],
    ["a card that is black", ["@plain.png", ...YARN, ...BY_GREY, "--reflectance", "0.01"], 65, /from 0.03 to 0.95/],
    ["three corners", ["@plain.png", ...YARN, "--patches", "1,1,2,2,3,3"], 64, /--patches: expected x1,y1/],
    ["a box outside", ["@plain.png", "--yarn", "90,5,35,30", ...BY_GREY], 65, /within 100 × 40 pixels/],
    ["a phone's own format", ["@phone.heic", ...YARN], 65, /Export it as JPEG/],
    ["half a file", ["@cut.jpg", ...YARN], 65, /cannot be read as a picture/],
  ])("refuses %s", async (_, argv, exit, words) => {
    const { code, out, err } = await run("shade", ...argv);
    expect([code, out]).toEqual([exit, ""]);
    expect(err).toMatch(words);
  });
});
