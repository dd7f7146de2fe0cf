/** A picture taken apart by size of detail: everything about it that no distance, light or eye changes, so that each further look costs little. */
import { assert } from "../base/assert.ts";
import { inverse, multiply, type Matrix3 } from "../base/matrix3.ts";
import { xyzFromLinear } from "../colour/xyz.ts";
import type { Raster } from "../raster/raster.ts";
import { XYZ_TO_OPPONENT } from "./opponent.ts";
import { expand, MIRRORED, pyramidOf, reduce, surroundings, type Edges, type Plane, type Pyramid } from "./pyramid.ts";

/** Light–dark, red–green, yellow–violet. */
export type Channels<T> = readonly [T, T, T];

export interface Apart {
  readonly edges: Edges;
  /** The picture's own levels. */
  readonly shown: Channels<Pyramid>;
  readonly judged: Judged;
  /** Level 0 of what judges is this level of the picture. */
  readonly ahead: number;
}

/** What decides: local power of each channel and level. */
export interface Judged {
  readonly width: number;
  readonly height: number;
  readonly millimetresPerPixel: number;
  readonly meanY: number;
  readonly channels: Channels<readonly Strength[]>;
  /** The light–dark channel blurred level by level, for the local means. */
  readonly blurred: readonly Plane[];
}

/** Local power of a level and its neighbours, on half the level's pixels each way: it changes slowly. */
export interface Strength {
  readonly width: number;
  readonly height: number;
  /** Of the level and its two neighbours: a wave is shared by them. */
  readonly power: Float32Array;
  /** How fine the wave is, from 0 (all power in the coarser neighbour) to `2 · HALF_TABLE` (all in the finer). */
  readonly balance: Uint8Array;
  /**
   * 0 to 1: how far the level goes with the next coarser one, place by place: the squared correlation of the two where they are in
   * phase. The edges of a figure do (Morrone & Burr 1988: features are where phases agree); small checks on it do not.
   */
  readonly kinship: Float32Array;
}

/** Steps of balance to either side of even. */
export const HALF_TABLE = 48;

/**
 * @param judgedBy whose contrasts decide: the same view, as large or smaller by a power of two
 * @param lies on what the picture lies where it is a difference only: its means are those that the eye is adapted to
 */
export function takeApart(picture: Raster, judgedBy: Raster = picture, edges = MIRRORED, lies?: Judged): Apart {
  const ahead = Math.round(Math.log2(picture.width / judgedBy.width));
  assert(
    judgedBy.width === halved(picture.width, ahead) && Math.abs(judgedBy.height - halved(picture.height, ahead)) <= 1,
    "what judges a picture is as large, or smaller by a power of two",
  );
  const shown = levelsOf(picture, edges);
  const judging = judgedBy === picture ? shown : levelsOf(judgedBy, edges);
  return {
    edges,
    shown,
    ahead,
    judged: { ...judgedOf(judgedBy, judging, edges), ...(lies ? { meanY: lies.meanY, blurred: lies.blurred } : {}) },
  };
}

/** A relief taken apart: its shading, 1 where the light is that of a flat surface, and how strong it is on the whole. */
export interface ReliefApart {
  readonly edges: Edges;
  readonly levels: Pyramid;
  readonly millimetresPerPixel: number;
  readonly strengths: readonly Strength[];
}

/** One cloth has one relief: its strength is taken over the whole picture, not place by place. */
export function takeReliefApart(shading: Plane, millimetresPerPixel: number, edges = MIRRORED): ReliefApart {
  const levels = pyramidOf(shading, roomFor(shading, edges), edges);
  return { edges, levels, millimetresPerPixel, strengths: strengthsOf(levels, overall, edges) };
}

/** So many pixels, halved so often. */
export const halved = (pixels: number, times: number): number => Math.ceil(pixels / 2 ** times);

/** As many levels as there is room for; where a picture goes on sideways, its height alone gives it. */
export function roomFor({ width, height }: { readonly width: number; readonly height: number }, { x }: Edges): number {
  return Math.max(1, Math.floor(Math.log2(x === "wrap" ? height : Math.min(width, height))) - 1);
}

function levelsOf(raster: Raster, edges: Edges): Channels<Pyramid> {
  const [lightDark, redGreen, yellowViolet] = opponentPlanes(raster);
  const of = (plane: Plane): Pyramid => pyramidOf(plane, roomFor(raster, edges), edges);
  return [of(lightDark), of(redGreen), of(yellowViolet)];
}

function judgedOf(raster: Raster, levels: Channels<Pyramid>, edges: Edges): Judged {
  const { width, height, millimetresPerPixel } = raster;
  assert(millimetresPerPixel !== undefined, "the eye needs the picture's scale");
  const of = (channel: 0 | 1 | 2): Strength[] => strengthsOf(levels[channel], local, edges);
  return {
    width,
    height,
    millimetresPerPixel,
    meanY: meanLuminance(raster.data),
    channels: [of(0), of(1), of(2)],
    blurred: levels[0].blurred,
  };
}

/** The mean of a product of two planes, on half their pixels each way. */
type MeanProduct = (one: Plane, other: Plane, edges: Edges) => Plane;

/** Halved, then two pixels every way: at two and a half a period, about two periods in all. */
function local(one: Plane, other: Plane, edges: Edges): Plane {
  const data = new Float32Array(one.data.length);
  for (let at = 0; at < data.length; at++) data[at] = one.data[at]! * other.data[at]!;
  return surroundings(reduce({ ...one, data }, edges), edges);
}

function overall(one: Plane, other: Plane): Plane {
  let sum = 0;
  for (let at = 0; at < one.data.length; at++) sum += one.data[at]! * other.data[at]!;
  return { width: 1, height: 1, data: Float32Array.of(sum / one.data.length) };
}

function strengthsOf({ details }: Pyramid, meanProduct: MeanProduct, edges: Edges): Strength[] {
  const powers = details.map((detail) => meanProduct(detail, detail, edges));
  return powers.map(({ width, height, data: own }, level): Strength => {
    const finer = level > 0 ? reduce(powers[level - 1]!, edges).data : null;
    const coarser = level + 1 < powers.length ? expand(powers[level + 1]!, powers[level]!, edges).data : null;
    const power = new Float32Array(own.length);
    const balance = new Uint8Array(own.length);
    for (let at = 0; at < own.length; at++) {
      const fine = finer ? finer[at]! : 0;
      const coarse = coarser ? coarser[at]! : 0;
      const all = own[at]! + fine + coarse;
      if (all < NOTHING) continue;
      power[at] = all;
      balance[at] = ((fine - coarse) / all + 1) * HALF_TABLE + 0.5;
    }
    return { width, height, power, balance, kinship: kinshipOf(level, own) };
  });

  function kinshipOf(level: number, own: Float32Array): Float32Array {
    const kinship = new Float32Array(own.length);
    const coarser = details[level + 1];
    if (!coarser) return kinship;
    const lent = expand(coarser, details[level]!, edges);
    const products = meanProduct(details[level]!, lent, edges).data;
    const theirs = meanProduct(lent, lent, edges).data;
    for (let at = 0; at < kinship.length; at++) {
      const together = products[at]!;
      const apart = own[at]! * theirs[at]!;
      if (together > NOTHING && apart > 0) kinship[at] = Math.min(1, (together * together) / apart);
    }
    return kinship;
  }
}

/** Power of a contrast of a ten-millionth: rounding. */
const NOTHING = 1e-14;

const PRIMARIES = [xyzFromLinear([1, 0, 0]), xyzFromLinear([0, 1, 0]), xyzFromLinear([0, 0, 1])] as const;
const [RED, GREEN, BLUE] = PRIMARIES;
const LINEAR_TO_XYZ: Matrix3 = [RED[0], GREEN[0], BLUE[0], RED[1], GREEN[1], BLUE[1], RED[2], GREEN[2], BLUE[2]];
const LINEAR_TO_OPPONENT: Matrix3 = multiply(XYZ_TO_OPPONENT, LINEAR_TO_XYZ);
export const OPPONENT_TO_LINEAR: Matrix3 = inverse(LINEAR_TO_OPPONENT);

function opponentPlanes({ width, height, data }: Raster): Channels<Plane> {
  const plane = (): Plane => ({ width, height, data: new Float32Array(width * height) });
  const planes: Channels<Plane> = [plane(), plane(), plane()];
  const [a, r, y] = [planes[0].data, planes[1].data, planes[2].data];
  const m = LINEAR_TO_OPPONENT;
  for (let at = 0, from = 0; at < a.length; at++, from += 3) {
    const [red, green, blue] = [data[from]!, data[from + 1]!, data[from + 2]!];
    a[at] = m[0] * red + m[1] * green + m[2] * blue;
    r[at] = m[3] * red + m[4] * green + m[5] * blue;
    y[at] = m[6] * red + m[7] * green + m[8] * blue;
  }
  return planes;
}

/** Mean luminance factor Y of linear light. */
function meanLuminance(data: Float32Array): number {
  const [, , , r, g, b] = LINEAR_TO_XYZ;
  let sum = 0;
  for (let at = 0; at < data.length; at += 3) sum += r * data[at]! + g * data[at + 1]! + b * data[at + 2]!;
  return Math.max(0, sum / (data.length / 3));
}
