/** A photograph of plain cloth on the command line: from a file to a project that goes by it. */
import { readFileSync } from "node:fs";
import sharp from "sharp";
import { describe, expect, it } from "vitest";
import { encodeSrgb } from "../../src/colour/srgb.ts";
import { bench } from "./program.ts";

/** 20 × 20 stitches of 8 pixels, a wave of root mean square 0.2 a stitch up and across, and a ball of 5/4 of its light beside it. */
async function photo(): Promise<Uint8Array> {
  const [width, height] = [200, 160];
  const pixels = new Uint8Array(width * height * 3);
  for (let at = 0; at < width * height; at++) {
    const [x, y] = [at % width, Math.floor(at / width)];
    const wave = 0.2 * (Math.sin((2 * Math.PI * (x + 0.5)) / 8) + Math.sin((2 * Math.PI * (y + 0.5)) / 8));
    const light = x < 160 ? 0.32 * (1 + wave) : 0.4;
    pixels.fill(Math.round(255 * encodeSrgb(light)), at * 3, at * 3 + 3);
  }
  return sharp(pixels, { raw: { width, height, channels: 3 } })
    .png()
    .toBuffer();
}

const { run, json, at } = bench({
  "vest.json": readFileSync("examples/weather-station-vest.twostrand.json", "utf8"),
  "swatch.png": await photo(),
});
const AREA = ["--area", "0,0,160,160", "--stitches", "20", "--rows", "20"];

describe("cloth", () => {
  it("gives the contrasts and the factor that are in the photograph", async () => {
    const { texture, factor } = await json<{ texture: { stitch: number }; factor: { value: number } }>(
      "cloth",
      "@swatch.png",
      ...AREA,
      "--yarn",
      "160,0,40,160",
    );
    // Each of the two waves has a root mean square of 0.2 / √2, both together 0.2.
    expect(texture.stitch).toBeCloseTo(0.2, 2);
    expect(factor.value).toBeCloseTo(0.8, 2);
  });

  it("keeps them in a project, which is then checked by them", async () => {
    const asked = ["cloth", "@swatch.png", ...AREA, "--project", "@vest.json", "--out", "@mine.json"];
    const { code, out } = await run(...asked);
    expect(code).toBe(0);
    expect(out).toContain("hides fine patterns more than is usual");
    const kept = JSON.parse(readFileSync(at("mine.json"), "utf8")) as { cloth: { texture: { stitch: number } } };
    expect(kept.cloth.texture.stitch).toBeCloseTo(0.2, 2);
    const sum = async (file: string): Promise<number> => {
      const { rows } = await json<{ rows: { lightDark: number | null }[] }>("check", file);
      return rows.reduce((total, { lightDark }) => total + (lightDark ?? 0), 0);
    };
    expect(await sum("@mine.json")).toBeLessThan(await sum("@vest.json"));
  });

  it.each<[string, string[], number, RegExp]>([
    [
      "a box that is none",
      ["--area", "1,2,3", "--stitches", "20", "--rows", "20"],
      64,
      /--area: expected x,y,width,height/,
    ],
    ["a box outside", ["--area", "150,0,160,160", "--stitches", "20", "--rows", "20"], 65, /within 200 × 160 pixels/],
    ["stitches too small", ["--area", "0,0,160,160", "--stitches", "80", "--rows", "80"], 65, /at least 4 pixels/],
    ["a project and nowhere to write it", [...AREA, "--project", "@vest.json"], 64, /--project and --out together/],
  ])("refuses %s", async (_, options, exit, words) => {
    const { code, out, err } = await run("cloth", "@swatch.png", ...options);
    expect([code, out]).toEqual([exit, ""]);
    expect(err).toMatch(words);
  });
});
