/** The gallery as a test: each figure is drawn and must look like its picture; a changed one is written beside it. */
import { existsSync, readdirSync, rmSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { FIGURES } from "./figures.ts";
import { differenceFrom, pictureFile, writePicture } from "./compare.ts";

/** In bytes: processors differ in the last bits of sines and powers, which may carry a pixel over a rounding or an edge. */
const ONE_PIXEL = 12;
const ON_AVERAGE = 0.1;
/** Few enough to be looked at; the house rule. */
const MOST_FIGURES = 60;

describe("gallery", () => {
  it("has one picture for every figure and no other", () => {
    const names = readdirSync(join(import.meta.dirname, "pictures")).filter((file) => !file.endsWith("-changed.png"));
    expect(names.sort()).toEqual(
      Object.keys(FIGURES)
        .map((name) => `${name}.png`)
        .sort(),
    );
    expect(names.length).toBeLessThanOrEqual(MOST_FIGURES);
  });

  it.each(Object.entries(FIGURES))("%s looks as it did", async (name, draw) => {
    const raster = draw();
    const changed = pictureFile(`${name}-changed`);
    const difference = await differenceFrom(pictureFile(name), raster);
    const alike = difference.sameSize && difference.most <= ONE_PIXEL && difference.mean <= ON_AVERAGE;
    if (!alike) await writePicture(changed, raster);
    else if (existsSync(changed)) rmSync(changed);
    expect(alike, `${changed}: differs by ${difference.most} at most and ${difference.mean} on average`).toBe(true);
  });
});
