/** Shades out of photographs: real charts by phones as numbers, and painted photographs whose truth is known. */
import { describe, expect, it } from "vitest";
import real from "../../test/tables/chartPhotos.json" with { type: "json" };
import { paintYarnPhoto, type PaintedPhoto } from "../../test/intake/yarnPainter.ts";
import { problemSentence } from "../base/problem.ts";
import { deltaE2000 } from "../colour/difference.ts";
import { linearFromBytes } from "../colour/srgb.ts";
import { createRaster, rasterFromBytes, type Box, type Raster } from "../raster/raster.ts";
import { CHART_LABS } from "./yarnPhoto/chart24.ts";
import { fitChart, type KnownPatch } from "./yarnPhoto/chartFit.ts";
import { readYarnPhoto } from "./yarnPhoto.ts";

type Triple = [number, number, number];
const boxOf = ([x, y, width, height]: readonly number[]): Box => ({ x: x!, y: y!, width: width!, height: height! });
const middle = (list: number[]): number => list.toSorted((a, b) => a - b)[Math.floor(list.length / 2)]!;

function rasterOf({ width, height, rgb }: PaintedPhoto): Raster {
  const bytes = new Uint8Array(width * height * 4).fill(255);
  for (let at = 0; at < width * height; at++) bytes.set(rgb.subarray(at * 3, at * 3 + 3), at * 4);
  return rasterFromBytes(width, height, bytes);
}

it("the chart's own shades are those that are told of it beside real photographs", () => {
  // Source: chartPhotos.json, adapted to D65 outside this project.
  real.photos[0]!.patches.forEach(({ lab }, index) =>
    expect(deltaE2000(CHART_LABS[index]!, lab as Triple)).toBeLessThan(0.05),
  );
});

describe.each(real.photos)("a phone's photograph: $name", ({ patches, size }) => {
  const known = patches.map(({ rgb, lab, at }, index): KnownPatch => ({
    rgb: linearFromBytes(...(rgb as Triple)),
    lab: lab as Triple,
    at: at as [number, number],
    isGrey: index >= 18,
  }));
  const frame = { width: size[0]!, height: size[1]! };

  // The most that is expected with a chart is about 5 ΔE00, without tone curve about 9.8 (vision.md F).
  it("each coloured patch by the others comes out within what a chart is good for", () => {
    const { leftOut } = fitChart(known, frame);
    expect(middle(leftOut.filter(({ isGrey }) => !isGrey).map(({ error }) => error))).toBeLessThan(3.5);
  });

  it("the greys alone undo curve and cast", () => {
    const { labOf } = fitChart(
      known.filter(({ isGrey }) => isGrey),
      frame,
      ["diagonal"],
    );
    const errors = known.filter(({ isGrey }) => !isGrey).map(({ rgb, at, lab }) => deltaE2000(labOf(rgb, at), lab));
    expect(middle(errors)).toBeLessThan(6);
  });
});

describe("a painted photograph", () => {
  const photo = paintYarnPhoto(13, CHART_LABS);
  const picture = rasterOf(photo);
  const yarns = photo.yarns.map(({ box }) => boxOf(box));
  const errorsBy = (reference: Parameters<typeof readYarnPhoto>[1]["reference"]): number[] =>
    readYarnPhoto(picture, { yarns, reference }).value!.yarns.map(({ lab }, at) =>
      deltaE2000(lab!, photo.yarns[at]!.lab),
    );
  const corners = [0, 2, 4, 6].map((at) => [photo.corners[at]!, photo.corners[at + 1]!] as const);

  it("gives shades by the chart's corners, and the same by a wider frame", () => {
    expect(middle(errorsBy({ kind: "patches", corners }))).toBeLessThan(3);
    const wide = corners.map(([x, y], at) => [x + (at === 1 || at === 2 ? 14 : -14), y + (at > 1 ? 14 : -14)] as const);
    expect(middle(errorsBy({ kind: "patches", corners: wide }))).toBeLessThan(3);
  });

  it("gives shades by a chart that it finds", () => {
    const { value } = readYarnPhoto(picture, { yarns, reference: { kind: "find" } });
    expect(value!.reference).toMatchObject({ kind: "patches", found: true });
    value!.reference.corners!.forEach(([x, y], at) =>
      expect(Math.hypot(x - corners[at]![0], y - corners[at]![1])).toBeLessThan(6),
    );
  });

  it.each(["grey", "white"] as const)("gives shades by %s, with a range wider than by a chart", (kind) => {
    const area = boxOf(photo[kind]);
    expect(middle(errorsBy({ kind, area }))).toBeLessThan(6);
    const range = (reference: Parameters<typeof readYarnPhoto>[1]["reference"]): number =>
      middle(readYarnPhoto(picture, { yarns, reference }).value!.yarns.map(({ uncertainty }) => uncertainty!));
    expect(range({ kind, area })).toBeGreaterThan(1);
  });

  it("whose corners begin elsewhere, or that has no chart there, is refused with a sentence", () => {
    const wrong = corners.map(([x, y]) => [x + 200, y + 190] as const);
    const { value, problems } = readYarnPhoto(picture, { yarns, reference: { kind: "patches", corners: wrong } });
    expect(value).toBeNull();
    expect(problems.map(problemSentence).join()).toMatch(/The chart: expected the four outer corners/);
  });
});

/** A field of such bytes with a disturbance pixel by pixel. */
function field(paint: (x: number, y: number) => Triple): Raster {
  const raster = createRaster(120, 60);
  for (let y = 0; y < 60; y++)
    for (let x = 0; x < 120; x++) raster.data.set(linearFromBytes(...paint(x, y)), (y * 120 + x) * 3);
  return raster;
}
const GREY = { kind: "grey", area: { x: 0, y: 0, width: 40, height: 60 } } as const;
const YARN = { x: 50, y: 5, width: 60, height: 50 };

describe("a yarn", () => {
  it("that is burnt out is not told, and why; another beside it is", () => {
    const picture = field((x) => (x < 45 ? [118, 118, 118] : x < 80 ? [255, 250, 240] : [150, 60, 60]));
    const boxes = [
      { x: 50, y: 5, width: 25, height: 50 },
      { x: 85, y: 5, width: 30, height: 50 },
    ];
    const { value, problems } = readYarnPhoto(picture, { yarns: boxes, reference: GREY });
    expect(value!.yarns[0]).toEqual({ lab: null, hex: null, uncertainty: null, flecks: [] });
    expect(value!.yarns[1]!.lab).not.toBeNull();
    expect(problems.map(problemSentence).join()).toMatch(/Yarn 1: expected a yarn that is not overexposed/);
  });

  it("has the shade of its lit surface, not of the shadows between its strands or of its shine", () => {
    const plain = field((x) => (x < 45 ? [118, 118, 118] : [150, 60, 60]));
    const strands = field((x, y) =>
      x < 45
        ? [118, 118, 118]
        : x % 5 === 0
          ? [60, 20, 20]
          : x % 5 === 1 && y % 4 === 0
            ? [230, 200, 200]
            : [150, 60, 60],
    );
    const labOf = (picture: Raster) => readYarnPhoto(picture, { yarns: [YARN], reference: GREY }).value!.yarns[0]!.lab!;
    expect(deltaE2000(labOf(plain), labOf(strands))).toBeLessThan(1);
  });

  it("of two dyes tells both with their shares; a plain one tells none", () => {
    const tweed = field((x, y) =>
      x < 45 ? [118, 118, 118] : (x * 7 + y * 13) % 10 < 3 ? [200, 170, 60] : [50, 80, 130],
    );
    const { flecks } = readYarnPhoto(tweed, { yarns: [YARN], reference: GREY }).value!.yarns[0]!;
    expect(flecks).toHaveLength(2);
    expect(flecks[1]!.share).toBeCloseTo(0.3, 1);
    const plain = field((x) => (x < 45 ? [118, 118, 118] : [50, 80, 130]));
    expect(readYarnPhoto(plain, { yarns: [YARN], reference: GREY }).value!.yarns[0]!.flecks).toEqual([]);
  });

  it("outside the picture, and a reference burnt out, are refused", () => {
    const picture = field(() => [255, 255, 255]);
    const outside = readYarnPhoto(picture, { yarns: [{ ...YARN, x: 100 }], reference: { kind: "find" } });
    expect(outside.value).toBeNull();
    expect(outside.problems.map(problemSentence).join()).toMatch(/a box within 120 × 60 pixels/);
    const burnt = readYarnPhoto(picture, { yarns: [YARN], reference: GREY });
    expect(burnt.problems.map(problemSentence).join()).toMatch(/The grey card: expected a reference that is not/);
  });
});
