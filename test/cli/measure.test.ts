/** A swatch measured on the command line: from counts to a project whose metres go by it. */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { bench } from "./program.ts";

const { run, json, at } = bench({
  "vest.json": readFileSync("examples/weather-station-vest.twostrand.json", "utf8"),
});
const flat = (text: string): string => text.replace(/\s+/g, " ");

describe("measure", () => {
  it("tells gauge, washing, loop and slack, each with its error", async () => {
    const { code, out } = await run(
      ...["measure", "@vest.json", "--counted", "29x31", "--before", "28x30", "--unpicked", "160", "--stranded", "199"],
    );
    expect(code).toBe(0);
    // 16 mm to a centimetre in 160; (19.9 − 16) / 3.448 − 1 is 13 %; 28 over 29 is 3.4 % narrower.
    expect(flat(out)).toContain("29.0 stitches (within 1.3 %)");
    expect(flat(out)).toContain("3.4 % narrower and 3.2 % lower");
    expect(flat(out)).toContain("16.00 mm of yarn, within 0.6 %");
    expect(flat(out)).toContain("Floats have 13 % slack.");
  });

  it("keeps them in a project, whose metres and sheet go by them", async () => {
    const asked = ["--counted", "28x30", "--unpicked", "176.4", "--low", "pattern"];
    const { file } = await json<{ file: string }>("measure", "@vest.json", ...asked, "--out", "@mine.json");
    expect(file).toBe(at("mine.json"));
    const of = async (name: string) => json<{ total: { metres: number; low: number; high: number } }>("amounts", name);
    const [before, after] = [(await of("@vest.json")).total, (await of("@mine.json")).total];
    // Loops a tenth longer than 16.04 mm; floats and tails stay, so that the whole grows by less.
    expect(after.metres / before.metres).toBeGreaterThan(1.07);
    expect(after.metres / before.metres).toBeLessThan(1.1);
    expect(after.high - after.low).toBeLessThan(before.high - before.low);
    const kept = JSON.parse(readFileSync(at("mine.json"), "utf8")) as { knitting: { heldLow: string } };
    expect(kept.knitting.heldLow).toBe("pattern");
  });

  it("a section may have its own gauge", async () => {
    await run("measure", "@vest.json", "--counted", "26x29", "--section", "s2", "--out", "@yoke.json");
    const kept = JSON.parse(readFileSync(at("yoke.json"), "utf8")) as {
      pattern: { gauge: object; sections: { gauge: object | null }[] };
    };
    expect(kept.pattern.gauge).toEqual({ stitches: 28, rows: 30 });
    expect(kept.pattern.sections.map(({ gauge }) => gauge)).toEqual([null, { stitches: 26, rows: 29 }]);
  });

  const WEIGH = ["--counted", "28x30", "--weighed", "7.6", "--size", "50x40", "--yarn", "y01"];
  it.each<[string, string[], number, string]>([
    [
      "a kitchen scale for a small swatch",
      [...WEIGH, "--scale", "1"],
      65,
      "expected steps of 0.38 g or less for 7.6 g",
    ],
    ["a weight without a size", ["--counted", "28x30", "--weighed", "7.6"], 64, "--weighed: expected --size"],
    ["a count that is none", ["--counted", "28"], 64, "--counted: expected two numbers like 28x30"],
    [
      "two strands without plain",
      ["--counted", "28x30", "--stranded", "199"],
      65,
      "expected plain ones of the same swatch",
    ],
    ["an unknown section", ["--counted", "28x30", "--section", "s9"], 64, "--section: expected s1, s2"],
  ])("%s", async (_, argv, code, sentence) => {
    const ran = await run("measure", "@vest.json", ...argv);
    expect([ran.code, ran.out]).toEqual([code, ""]);
    expect(ran.err).toContain(sentence);
  });

  it("weighs on scales that are fine enough, and asks for a whole ball", async () => {
    const { code, err, out } = await run("measure", "@vest.json", ...WEIGH, "--scale", "0.1");
    expect(code).toBe(0);
    expect(flat(out)).toContain("within 1.3 %");
    expect(flat(err)).toContain("a whole ball of the yarn weighed on the same day");
  });
});
