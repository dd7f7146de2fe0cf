/** Shades out of photographs: real charts by phones as numbers, and painted photographs whose truth is known. */
import { describe, expect, it } from "vitest";
import real from "../../test/tables/chartPhotos.json" with { type: "json" };
import { paintTable } from "../../test/intake/tablePainter.ts";
import { tableRaster } from "../../test/intake/tableScore.ts";
import { paintYarnPhoto, type PaintedPhoto } from "../../test/intake/yarnPainter.ts";
import { problemSentence } from "../base/problem.ts";
import { deltaE2000 } from "../colour/difference.ts";
import { linearFromBytes } from "../colour/srgb.ts";
import { createRaster, crop, rasterFromBytes, type Box, type Raster } from "../raster/raster.ts";
import { CHART_LABS } from "./yarnPhoto/chart24.ts";
import type { SeenPatch } from "./yarnPhoto/chartPatches.ts";
import { findYarns } from "./yarnPhoto/findYarns.ts";
import { readingBy } from "./yarnPhoto/reading.ts";
import { readYarnPhoto, surveyPhoto, yarnReader, type PhotoReference } from "./yarnPhoto.ts";

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

it("yarns that are looked for are told with where they lie, as the same outlines would be, and the card is none of them", () => {
  const painted = paintTable(1005);
  const [card] = painted.known.map(boxOf);
  const picture = tableRaster(painted);
  const reference: PhotoReference = { kind: "grey", area: card! };
  const { value } = readYarnPhoto(picture, { yarns: "find", reference });
  const { value: found } = findYarns(picture, { avoid: [card!] });
  expect(value!.yarns.length).toBe(found!.length);
  const { value: asked } = readYarnPhoto(picture, { yarns: found!.map(({ outline }) => ({ outline })), reference });
  value!.yarns.forEach(({ box, ...told }, index) => {
    expect(box).toEqual(found![index]!.box);
    expect(told).toEqual(asked!.yarns[index]);
  });
});

describe.each(real.photos)("a phone's photograph: $name", ({ patches, size }) => {
  const seen = patches.map(({ rgb, at }, index): SeenPatch => ({
    index,
    rgb: linearFromBytes(...(rgb as Triple)),
    at: at as [number, number],
    spread: 0,
  }));
  const coloured = seen.slice(0, 18);
  /** The patch as a plain yarn: what it is said to be, and with which range, by those of the chart that are left. */
  const read = (patch: SeenPatch, known: readonly SeenPatch[]) => {
    const reference = { kind: "patches", found: true, corners: [], patches: known } as const;
    const reading = readingBy({ width: size[0]!, height: size[1]!, reference, ground: [] });
    const surface = { rgb: patch.rgb, spread: 0, clipped: 0, bottomed: 0, pixels: 1000 };
    const error = deltaE2000(reading.labOf(patch.rgb, patch.at), patches[patch.index]!.lab as Triple);
    return { error, range: reading.uncertaintyOf(surface, patch.at) };
  };

  // Guards against a break: these photographs come out at about 2.8 in the middle (vision.md F); 9.8 without undoing the tone curve.
  it("each coloured patch by the others comes out within what a chart is good for, and mostly within its range", () => {
    const told = coloured.map((patch) =>
      read(
        patch,
        seen.filter((other) => other !== patch),
      ),
    );
    expect(middle(told.map(({ error }) => error))).toBeLessThan(3.5);
    expect(told.filter(({ error, range }) => error <= range).length).toBeGreaterThanOrEqual(0.65 * told.length);
  });

  it("the greys alone undo curve and cast", () => {
    const errors = coloured.map((patch) => read(patch, seen.slice(18)).error);
    expect(middle(errors)).toBeLessThan(6);
  });
});

describe("painted photographs, of seeds that nothing was set by", () => {
  // The figures at large are the bench's.
  const photos = [9001, 9002, 9003].map((seed) => {
    const photo = paintYarnPhoto(seed, CHART_LABS);
    const corners = [0, 2, 4, 6].map((at) => [photo.corners[at]!, photo.corners[at + 1]!] as const);
    return { photo, corners, picture: rasterOf(photo), yarns: photo.yarns.map(({ box }) => boxOf(box)) };
  });
  const [{ corners, picture, yarns }] = photos as [(typeof photos)[0]];
  const toldBy = (referenceIn: (one: (typeof photos)[0]) => PhotoReference) =>
    photos.flatMap((one) =>
      readYarnPhoto(one.picture, { yarns: one.yarns, reference: referenceIn(one) }).value!.yarns.flatMap((yarn, at) =>
        yarn.lab === null
          ? []
          : [{ error: deltaE2000(yarn.lab, one.photo.yarns[at]!.lab), range: yarn.uncertainty, lab: yarn.lab }],
      ),
    );

  // Guards against a break and no measure of how good it is: thirty yarns are few. bench/yarnPhoto.bench.ts has the figures at large.
  it.each<[string, number, number, (one: (typeof photos)[0]) => PhotoReference]>([
    ["a chart", 3.5, 6, (one) => ({ kind: "patches", corners: one.corners })],
    ["a grey card", 5, 9, (one) => ({ kind: "grey", area: boxOf(one.photo.grey) })],
    ["white paper", 8, 12, (one) => ({ kind: "white", area: boxOf(one.photo.white), tint: one.photo.paper })],
    ["nothing", 10, 18, () => ({ kind: "none" })],
  ])("are read by %s, and mostly within the range told", (_, most, widest, referenceIn) => {
    const told = toldBy(referenceIn);
    expect(middle(told.map(({ error }) => error))).toBeLessThan(most);
    expect(told.filter(({ error, range }) => error <= range).length).toBeGreaterThan(0.55 * told.length);
    expect(middle(told.map(({ range }) => range))).toBeLessThan(widest);
  });

  it("have their chart found, its first patch first however the picture is turned", () => {
    for (const turns of [0, 1, 2, 3]) {
      const { value } = surveyPhoto(turned(picture, turns), { kind: "find" });
      expect(value!.reference).toMatchObject({ kind: "patches", found: true });
      const found = value!.reference.kind === "patches" ? value!.reference.corners : [];
      corners.forEach((corner, at) => {
        const [x, y] = turnedPoint(corner, picture, turns);
        expect(Math.hypot(found[at]![0] - x, found[at]![1] - y)).toBeLessThan(9);
      });
    }
  });

  it("have no chart found where it lies mirrored or is covered", () => {
    expect(surveyPhoto(mirrored(picture), { kind: "find" }).value!.reference.kind).toBe("none");
    const covered = { ...picture, data: picture.data.slice() };
    for (let y = Math.round(corners[0]![1]); y < corners[2]![1]; y++)
      for (let x = Math.round(corners[0]![0]); x < corners[2]![0]; x++)
        covered.data.set([0.3, 0.25, 0.2], (y * picture.width + x) * 3);
    expect(surveyPhoto(covered, { kind: "find" }).value!.reference.kind).toBe("none");
  });

  it("are told alike by a box and by an outline of it, and by a closer look at that part", () => {
    const { shadeOf } = yarnReader(surveyPhoto(picture, { kind: "patches", corners }).value!);
    const area = yarns[0]!;
    const { x, y, width, height } = area;
    const outline = [
      [x, y],
      [x + width, y],
      [x + width, y + height],
      [x, y + height],
    ] as const;
    const byBox = shadeOf({ picture, area, where: "yarn 1" }).value!;
    const covers = { x: x - 10, y: y - 10, width: width + 20, height: height + 20 };
    const closer = crop(picture, covers);
    expect(deltaE2000(byBox.lab, shadeOf({ picture, area: { outline }, where: "yarn 1" }).value!.lab)).toBeLessThan(
      0.1,
    );
    expect(deltaE2000(byBox.lab, shadeOf({ picture: closer, covers, area, where: "" }).value!.lab)).toBeLessThan(0.1);
  });

  it("can be left off, and tell how far they are", () => {
    const steps: number[] = [];
    const stopped = surveyPhoto(picture, { kind: "find" }, { stop: () => true });
    expect([stopped.value, stopped.problems[0]!.got, stopped.problems[0]!.severity]).toEqual([null, "stopped", "note"]);
    surveyPhoto(picture, { kind: "find" }, { onStep: (share) => steps.push(share) });
    expect(steps).toEqual(steps.toSorted((one, other) => one - other));
    expect(steps.at(-1)).toBe(1);
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
/** A quarter turn clockwise, so many times. */
function turned(picture: Raster, turns: number): Raster {
  if (turns === 0) return picture;
  const { width, height, data } = picture;
  const next = createRaster(height, width);
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++)
      next.data.set(data.subarray((y * width + x) * 3, (y * width + x) * 3 + 3), (x * height + height - 1 - y) * 3);
  return turned(next, turns - 1);
}

function turnedPoint([x, y]: readonly [number, number], size: Raster, turns: number): readonly [number, number] {
  if (turns === 0) return [x, y];
  const next = { ...size, width: size.height, height: size.width };
  return turnedPoint([size.height - y, x], next, turns - 1);
}

function mirrored(picture: Raster): Raster {
  const { width, height, data } = picture;
  const other = createRaster(width, height);
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++)
      other.data.set(data.subarray((y * width + x) * 3, (y * width + x) * 3 + 3), (y * width + width - 1 - x) * 3);
  return other;
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
