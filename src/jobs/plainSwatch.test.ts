/** A photograph of plain cloth whose texture and lightness are known because they were put there. */
import { describe, expect, it } from "vitest";
import { problemSentence } from "../base/problem.ts";
import { createRaster, type Raster } from "../raster/raster.ts";
import { plainSwatch } from "./plainSwatch.ts";

const AREA = { x: 40, y: 30, width: 160, height: 150 };
const YARN = { x: 210, y: 40, width: 30, height: 60 };
const COUNT = { stitches: 20, rows: 20 };

/** A grey table, on it cloth with a wave of one cycle a stitch, of so much root mean square contrast, and a wound ball. */
function photo({ contrast = 0.15, cloth = 0.3, ball = 0.4, exposure = 1 } = {}): Raster {
  const raster = createRaster(256, 200);
  for (let y = 0, at = 0; y < raster.height; y++)
    for (let x = 0; x < raster.width; x++, at += 3) {
      const inside = (box: typeof AREA): boolean =>
        x >= box.x && x < box.x + box.width && y >= box.y && y < box.y + box.height;
      const wave = Math.SQRT2 * contrast * Math.sin((2 * Math.PI * (x + 0.5)) / (AREA.width / COUNT.stitches));
      const light = inside(AREA) ? cloth * (1 + wave) : inside(YARN) ? ball : (x + y) % 7 === 0 ? 0.9 : 0.1;
      raster.data.set([light * exposure, light * exposure * 0.8, light * exposure * 0.5], at);
    }
  return raster;
}

describe("plain cloth in a photograph", () => {
  it("has the texture that was put there, whatever lies around it and however it was exposed", () => {
    for (const exposure of [1, 0.4]) {
      const { value } = plainSwatch(photo({ exposure }), { area: AREA, ...COUNT });
      expect(value!.texture.stitch).toBeCloseTo(0.15, 2);
      expect(value!.texture.floor).toBeLessThan(0.01);
      expect(value!.factor).toBeNull();
    }
  });

  it("is as much darker than its yarn as was put there, with a range that allows for the camera's curve", () => {
    const { factor } = plainSwatch(photo(), { area: AREA, yarn: YARN, ...COUNT }).value!;
    expect(factor!.value).toBeCloseTo(0.75, 3);
    // The same photograph through a curve of 1/1.1, bent more than an honest one.
    const bent = photo();
    bent.data.forEach((light, at) => (bent.data[at] = light ** (1 / 1.1)));
    const seen = plainSwatch(bent, { area: AREA, yarn: YARN, ...COUNT }).value!.factor!;
    expect(seen.low).toBeLessThan(0.75);
    expect(seen.high).toBeGreaterThan(0.75);
  });

  it.each([
    ["an area that lies outside", { area: { ...AREA, x: 150 }, ...COUNT }, /The area of plain cloth.*256 × 200 pixels/],
    ["an empty box of yarn", { area: AREA, yarn: { ...YARN, width: 0 }, ...COUNT }, /The area of wound yarn/],
    ["too few stitches", { area: AREA, stitches: 8, rows: 8 }, /at least 16 stitches/],
    ["stitches too small to be seen", { area: AREA, stitches: 80, rows: 75 }, /4 pixels/],
  ])("%s is refused with a sentence", (_, question, words) => {
    const { value, problems } = plainSwatch(photo(), question);
    expect(value).toBeNull();
    expect(problems.map(problemSentence).join(" ")).toMatch(words);
  });

  it("yarn in the dark is refused", () => {
    const { value, problems } = plainSwatch(photo({ ball: 0 }), { area: AREA, yarn: YARN, ...COUNT });
    expect(value).toBeNull();
    expect(problems[0]).toMatchObject({ where: "the area of wound yarn", got: "black" });
  });
});
