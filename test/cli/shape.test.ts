/** Shaping a garment on the command line: from measures to a project that is knitted, counted and printed by them. */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { bench } from "./program.ts";

const { run, json, at } = bench({
  "vest.json": readFileSync("examples/weather-station-vest.twostrand.json", "utf8"),
});
const ASKED = ["--garment", "vest", "--size", "women/M", "--chart", "body=c1"];

interface Told {
  readonly sizes: readonly { readonly finishedCm: number; readonly stitches: number }[];
  readonly sections: readonly { readonly id: string }[];
  readonly file?: string;
}

describe("shape", () => {
  it("tells a garment without writing anything", async () => {
    const { sizes, sections, file } = await json<Told>("shape", "@vest.json", ...ASKED);
    // A bust of 94 cm (91.4 to 96.5) and 7.5 cm of ease; 288 stitches, 12 repeats of 24, are 102.9 cm.
    expect(sizes[0]!.finishedCm).toBeCloseTo(288 / 2.8, 1);
    expect(sections.map(({ id }) => id)).toEqual([
      "hem",
      "body",
      "upper-body",
      "left-armhole-band",
      "right-armhole-band",
      "neckband",
    ]);
    expect(file).toBeUndefined();
  });

  it("puts it into a project, whose amounts count as many stitches", async () => {
    const { sizes } = await json<Told>("shape", "@vest.json", ...ASKED, "--out", "@mine.json");
    const { total } = await json<{ total: { stitches: number } }>("amounts", "@mine.json");
    expect(total.stitches).toBe(sizes[0]!.stitches);
    const kept = JSON.parse(readFileSync(at("mine.json"), "utf8")) as { pattern: { sizes: object[] } };
    expect(kept.pattern.sizes).toEqual([{ id: "M", name: "women M", chestCm: 102.9 }]);
  });

  it("says the ways of taking the repeats with their centimetres, and cautions where it is cut", async () => {
    const { code, out } = await run("shape", "@vest.json", ...ASKED, "--body", "chest=97", "--steek", "7");
    expect(code).toBe(0);
    const text = out.replace(/\s+/g, " ");
    expect(text).toContain("288 stitches, whole repeats: 1.6 cm less");
    expect(text).toContain("312 stitches, whole repeats: 6.9 cm more");
    expect(text).toMatch(/two side panels of \d+/);
    expect(text).toContain("Steeks of 7 stitches: right armhole, left armhole, neck.");
    expect(text).toContain("a cut cannot be undone");
    for (const line of out.split("\n")) expect(line.length).toBeLessThanOrEqual(80);
  });

  it("takes what she settles: panels, a count, another ease", async () => {
    const panels = await json<{ sizes: { parts: { id: string; beside: object[] }[] }[] }>(
      "shape",
      "@vest.json",
      ...ASKED,
      "--body",
      "chest=97",
      "--take",
      "body=side panels",
    );
    expect(panels.sizes[0]!.parts.find(({ id }) => id === "body")!.beside).toHaveLength(2);
    const counted = await json<Told>("shape", "@vest.json", ...ASKED, "--stitches", "body=280");
    expect(counted.sizes[0]!.finishedCm).toBe(100);
  });

  it("says where the stitches of an armhole and a neck go", async () => {
    const { out } = await run("shape", "@vest.json", ...ASKED);
    const text = out.replace(/\s+/g, " ");
    expect(text).toMatch(/Upper body, 2\d\d to 1\d\d: a stitch goes on either side of the right armhole in rounds \d/);
    expect(text).toMatch(/a stitch goes on either side of the neck in rounds \d/);
  });

  it("has the words of a yoke's decreases", async () => {
    const { out } = await run(
      "shape",
      "@vest.json",
      "--garment",
      "yoke pullover",
      "--size",
      "women/M",
      "--body",
      "chest=92.5",
    );
    expect(out.replace(/\s+/g, " ")).toContain("376 to 282, (k2, k2tog) 94 times");
  });

  it.each<[string, string[], number, string]>([
    ["an unknown garment", ["--garment", "vset", "--size", "women/M"], 64, "Did you mean vest?"],
    ["an unknown size", ["--garment", "vest", "--size", "women/XXS"], 64, "--size: expected XS, S, M"],
    ["a size without its group", ["--garment", "vest", "--size", "M"], 64, "--size: expected women, men"],
    ["an unknown part", [...ASKED, "--chart", "slevee=c1"], 64, "Did you mean sleeve?"],
    [
      "a chart that is not there",
      ["--garment", "vest", "--size", "women/M", "--chart", "body=c7"],
      65,
      "expected one of c1",
    ],
    ["a measure that is none", [...ASKED, "--body", "chest=wide"], 64, "--body chest: expected a number"],
    ["ease twice", [...ASKED, "--ease", "4", "--fit", "close"], 64, "--fit: expected it or --ease, found both."],
    ["no size", ["--garment", "vest"], 64, "expected --size GROUP/SIZE"],
  ])("%s", async (_, argv, code, sentence) => {
    const ran = await run("shape", "@vest.json", ...argv);
    expect([ran.code, ran.out]).toEqual([code, ""]);
    expect(ran.err).toContain(sentence);
  });
});
