/** What of a photograph yarns are looked for in: a small copy, its fine texture, and the pieces into which it falls. */
import { oklabFromLinear } from "../../colour/oklab.ts";
import { addSteps, basinsOf, createPlane, smoothed, type Plane } from "../../raster/plane.ts";
import type { Raster } from "../../raster/raster.ts";
import { shrinkBy } from "../../raster/resample.ts";
import { mergeTree, type MergeTree } from "./mergeTree.ts";

export interface Look {
  readonly width: number;
  readonly height: number;
  /** OKLab times 100, then fine texture in the same unit. */
  readonly planes: readonly [Plane, Plane, Plane, Plane];
}

/** Planes that a piece has a mean of, in the order of `Look.planes`. */
export const PLANES = 4;

/** The longer side, pixels, on which strands are still seen… */
const FINE = 1300;
/** …and on which pieces are made: a yarn among thirty is still some forty pixels wide. Our choice. */
const COARSE = 440;
/** Light added before roots are taken, so that the noise of blacks is no colour: a lens's own flare, our choice. */
const FLARE = 0.004;

/** @param picture upright, linear light, any size */
export function lookAt(picture: Raster): Look {
  const fine = shrinkBy(picture, Math.min(1, FINE / Math.max(picture.width, picture.height)));
  const small = shrinkBy(fine, Math.min(1, COARSE / Math.max(fine.width, fine.height)));
  const { width, height, data } = small;
  const colours = [createPlane(width, height), createPlane(width, height), createPlane(width, height)] as const;
  for (let at = 0, from = 0; at < width * height; at++, from += 3) {
    const lab = oklabFromLinear([data[from]! + FLARE, data[from + 1]! + FLARE, data[from + 2]! + FLARE]);
    colours.forEach((plane, axis) => (plane.data[at] = 100 * lab[axis]!));
  }
  return { width, height, planes: [...colours, textureOf(fine, width, height)] };
}

/** How much the light of the fine copy differs from that around it, as a mean over each pixel of the small one. */
function textureOf({ width: across, height: down, data }: Raster, width: number, height: number): Plane {
  const light = createPlane(across, down);
  for (let at = 0, from = 0; at < light.data.length; at++, from += 3)
    light.data[at] =
      100 * Math.cbrt(0.2126 * data[from]! + 0.7152 * data[from + 1]! + 0.0722 * data[from + 2]! + FLARE);
  const around = smoothed(light, 2);
  const sums = createPlane(width, height);
  const counts = new Float32Array(width * height);
  for (let y = 0, at = 0; y < down; y++) {
    const row = Math.floor((y * height) / down) * width;
    for (let x = 0; x < across; x++, at++) {
      const to = row + Math.floor((x * width) / across);
      sums.data[to]! += Math.abs(light.data[at]! - around.data[at]!);
      counts[to]!++;
    }
  }
  for (let at = 0; at < counts.length; at++) sums.data[at]! /= counts[at]!;
  return smoothed(sums, 1);
}

/** What parts one piece from another: how much lightness, colour and texture count, and how soft the picture is made first. */
export interface Parting {
  readonly lightness: number;
  readonly colour: number;
  readonly texture: number;
  readonly soft: number;
}

/** Colour parts yarns better than light, which has shadows. Our choice, tried on painted tables. */
export const BY_COLOUR: Parting = { lightness: 0.5, colour: 4, texture: 4, soft: 1 };
/** Yarn on a ground of its own colour is parted by its strands and its shadow. Our choice, likewise. */
export const BY_TEXTURE: Parting = { lightness: 0.7, colour: 3, texture: 16, soft: 2 };

export function piecesOf({ width, height, planes }: Look, { lightness, colour, texture, soft }: Parting): MergeTree {
  const weights = [lightness, colour, colour, texture];
  const ridges = createPlane(width, height);
  planes.forEach((plane, which) => {
    const isTexture = which === PLANES - 1;
    addSteps(smoothed(plane, isTexture ? 3 : soft), isTexture ? 4 : soft + 1, weights[which]!, ridges.data);
  });
  for (let at = 0; at < ridges.data.length; at++) ridges.data[at] = Math.sqrt(ridges.data[at]!);
  return mergeTree(
    basinsOf(smoothed(ridges, 1)),
    ridges,
    planes.map((plane, which) => ({ plane, weight: weights[which]! })),
  );
}
