/** Cells of stocking stitch shrunk to pixels: worked out once for a size, then laid down a hundred thousand times. */
import {
  ABOVE,
  BELOW,
  fibreRanks,
  OWN,
  plyRanks,
  speckRanks,
  stitchRelief,
  VARIANTS,
  type StitchKind,
  type StitchRelief,
} from "./stitch.ts";
import type { LinearRgb } from "../colour/srgb.ts";

/** Part of a pixel to which the edges of cells are placed, so that stitches need not be whole pixels. */
export const STEPS = 8;

/** Square: the cell filled with its colour. Flat: the shapes without light and shadow. Knitted: all. */
export type Surface = "knitted" | "flat" | "square";

export interface Tile {
  readonly width: number;
  readonly height: number;
  /** Per pixel how much light it takes from the cell's own stitch, the one above and the one below, times the pixel covered. */
  readonly weights: Float32Array;
  /** Their sums: for a stitch among its like. */
  readonly total: Float32Array;
  /** The same cell seen finely. */
  readonly relief: StitchRelief;
  readonly flecked: Map<string, Float32Array>;
}

/** How colours are laid out on a stitch: fibre by fibre, ply by ply, or as one speck on it. */
export type FleckPattern = "fibres" | "plies" | "speck";

/**
 * A flecked stitch's surface: the first share of its fibres, of its plies' turn or round its speck in the first colour and so
 * on; `mean` is the colour of the whole, of a stitch with a speck that of the rest.
 */
export interface FleckedPaint {
  readonly pattern: FleckPattern;
  /** Equal for equal paints. */
  readonly key: string;
  readonly mean: LinearRgb;
  readonly flecks: readonly { readonly linear: LinearRgb; readonly share: number }[];
}

export interface TileSettings {
  readonly aspect: number;
  readonly pixelsPerStitch: number;
  readonly seed: number;
  readonly surface: Surface;
}

/** Where a cell lies: left and top as eighths of a pixel past a whole one, width and height in eighths. */
export interface CellBox {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

export type TileOf = (box: CellBox, variant: number, kind: StitchKind, depth: number) => Tile;

/** Steps of shading depth: a pale yarn has little room above it, so its stitches are modelled more softly. */
export const DEPTHS = [1, 0.8, 0.6, 0.45] as const;

const remembered: { key: string; tileOf: TileOf }[] = [];
/** Sizes that are kept: the cloth at hand, its seen form, a wall of small ones, a print. */
const REMEMBERED = 8;

/** The tiles of one size. They depend on nothing but the settings, so the last few sizes are remembered. */
export function tilesOf(settings: TileSettings): TileOf {
  const key = `${settings.aspect}/${settings.pixelsPerStitch}/${settings.seed}/${settings.surface}`;
  const known = remembered.find((set) => set.key === key);
  if (known) return known.tileOf;
  const tileOf = makeTiles(settings);
  remembered.unshift({ key, tileOf });
  remembered.length = Math.min(remembered.length, REMEMBERED);
  return tileOf;
}

function makeTiles({ aspect, pixelsPerStitch, seed, surface }: TileSettings): TileOf {
  const columns = Math.max(24, Math.min(160, Math.ceil(pixelsPerStitch * (pixelsPerStitch < 24 ? 4 : 2.5))));
  const reliefs = new Map<number, StitchRelief>();
  const reliefOf = (variant: number, kind: StitchKind): StitchRelief => {
    const key = variant * 2 + (kind === "knitted" ? 0 : 1);
    let relief = reliefs.get(key);
    if (!relief) reliefs.set(key, (relief = stitchRelief(aspect, columns, variant, kind, seed)));
    return relief;
  };
  const leastWidth = Math.floor(pixelsPerStitch * STEPS) - 2;
  const leastHeight = Math.floor(pixelsPerStitch * aspect * STEPS) - 2;
  const tiles = new Map<number, Tile>();
  return (box, variant, kind, depth) => {
    let key = box.left * STEPS + box.top;
    key = (key * 8 + (box.width - leastWidth)) * 8 + (box.height - leastHeight);
    key = ((key * VARIANTS + variant) * 2 + (kind === "knitted" ? 0 : 1)) * DEPTHS.length + depth;
    let tile = tiles.get(key);
    if (!tile) tiles.set(key, (tile = makeTile(reliefOf(variant, kind), box, DEPTHS[depth]!, surface)));
    return tile;
  };
}

/** Light of one fine sample under a surface; the mean over the cell stays 1. */
function lightAt(relief: StitchRelief, at: number, depth: number, surface: Surface): number {
  return surface === "knitted" ? 1 + (relief.shading[at]! - 1) * depth : 1;
}

function makeTile(relief: StitchRelief, box: CellBox, depth: number, surface: Surface): Tile {
  const width = Math.ceil((box.left + box.width) / STEPS);
  const height = Math.ceil((box.top + box.height) / STEPS);
  const weights = new Float32Array(width * height * 3);
  forEachShare(relief, box, width, (pixel, share, at) => {
    const role = surface === "square" ? OWN : relief.owner[at]!;
    weights[pixel * 3 + role]! += share * lightAt(relief, at, depth, surface);
  });
  const total = new Float32Array(width * height);
  for (let pixel = 0; pixel < total.length; pixel++) {
    total[pixel] = weights[pixel * 3]! + weights[pixel * 3 + 1]! + weights[pixel * 3 + 2]!;
  }
  return { width, height, weights, total, relief, flecked: new Map() };
}

/** Calls back with every pixel that a fine sample touches and the part of that pixel which it covers. */
function forEachShare(
  relief: StitchRelief,
  box: CellBox,
  width: number,
  take: (pixel: number, share: number, at: number) => void,
): void {
  const stepX = box.width / STEPS / relief.width;
  const stepY = box.height / STEPS / relief.height;
  for (let j = 0; j < relief.height; j++) {
    const y0 = box.top / STEPS + j * stepY;
    const y1 = y0 + stepY;
    for (let i = 0; i < relief.width; i++) {
      const x0 = box.left / STEPS + i * stepX;
      const x1 = x0 + stepX;
      const at = j * relief.width + i;
      for (let y = Math.floor(y0); y < y1 - 1e-9; y++) {
        const partY = Math.min(y1, y + 1) - Math.max(y0, y);
        for (let x = Math.floor(x0); x < x1 - 1e-9; x++) {
          const part = partY * (Math.min(x1, x + 1) - Math.max(x0, x));
          if (part > 1e-12) take(y * width + x, part, at);
        }
      }
    }
  }
}

/**
 * What flecks add to a yarn's mean colour, per pixel and stitch role: three numbers each for own, above, below. Over the
 * cell it sums to nothing, so that a heather is as light as its flecks together; but a speck is added to what is seen of its own stitch
 * in its own cell, as much as it is of the whole stitch.
 */
export function fleckedTile(tile: Tile, box: CellBox, depth: number, paint: FleckedPaint): Float32Array {
  const known = tile.flecked.get(paint.key);
  if (known) return known;
  const { relief } = tile;
  const isSpeck = paint.pattern === "speck";
  const ranks = ranksOf(relief, paint.pattern);
  const differences = paint.flecks.map(({ linear }) => linear.map((light, channel) => light - paint.mean[channel]!));
  const ends: number[] = [];
  const shown = isSpeck ? relief.owner.reduce((sum, role) => sum + (role === OWN ? 1 : 0), 0) / relief.owner.length : 1;
  paint.flecks.reduce((sum, { share }) => (ends.push((sum + share) / shown), sum + share), 0);
  const out = new Float32Array(tile.width * tile.height * 9);
  const lit = [0, 0, 0];
  const sums = new Float64Array(9);
  const differenceAt = (at: number): readonly number[] => {
    const fibre = ranks[at]!;
    const fleck = ends.findIndex((end) => fibre < end);
    if (isSpeck && (fleck < 0 || relief.owner[at] !== OWN)) return NOTHING;
    return differences[fleck < 0 ? differences.length - 1 : fleck]!;
  };
  for (let at = 0; at < relief.owner.length; at++) {
    const role = relief.owner[at]!;
    const light = lightAt(relief, at, DEPTHS[depth]!, "knitted");
    lit[role]! += light;
    differenceAt(at).forEach((difference, channel) => (sums[role * 3 + channel]! += light * difference));
  }
  if (isSpeck) sums.fill(0);
  for (const role of [OWN, ABOVE, BELOW]) {
    for (let channel = 0; channel < 3; channel++) if (lit[role]! > 0) sums[role * 3 + channel]! /= lit[role]!;
  }
  forEachShare(relief, box, tile.width, (pixel, share, at) => {
    const role = relief.owner[at]!;
    const light = share * lightAt(relief, at, DEPTHS[depth]!, "knitted");
    const difference = differenceAt(at);
    for (let channel = 0; channel < 3; channel++) {
      out[pixel * 9 + role * 3 + channel]! += light * (difference[channel]! - sums[role * 3 + channel]!);
    }
  });
  if (tile.flecked.size >= REMEMBERED) tile.flecked.clear();
  tile.flecked.set(paint.key, out);
  return out;
}

const NOTHING = [0, 0, 0] as const;

const rankedReliefs = new WeakMap<StitchRelief, Map<FleckPattern, Float32Array>>();
const RANKS = { fibres: fibreRanks, plies: plyRanks, speck: speckRanks } as const;

/** Ranks take a sort, and only flecked yarns need them. */
function ranksOf(relief: StitchRelief, pattern: FleckPattern): Float32Array {
  let ranked = rankedReliefs.get(relief);
  if (!ranked) rankedReliefs.set(relief, (ranked = new Map()));
  let ranks = ranked.get(pattern);
  if (!ranks) ranked.set(pattern, (ranks = RANKS[pattern](relief)));
  return ranks;
}
