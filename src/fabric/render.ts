/** The fabric stitch by stitch, in true proportion and linear light, as the knitter holds it. */
import { assert } from "../base/assert.ts";
import { NO_STITCH } from "../chart/chart.ts";
import { linearFromLab } from "../colour/lab.ts";
import { labOfShade } from "../colour/shade.ts";
import type { LinearRgb } from "../colour/srgb.ts";
import { stitchSizeMm, type Gauge } from "../garment/gauge.ts";
import { bytesFromRaster, createRaster, type Raster } from "../raster/raster.ts";
import type { Cloth, Ink } from "./cloth.ts";
import { drawLines } from "./embroidery.ts";
import { fleckKindIn, laidInRuns } from "./yarnRuns.ts";
import { ROOM } from "./squares.ts";
import { VARIANTS } from "./stitch.ts";
import {
  DEPTHS,
  fleckedTile,
  STEPS,
  tilesOf,
  type CellBox,
  type FleckedPaint,
  type Surface,
  type Tile,
} from "./tiles.ts";

export interface RenderOptions {
  /** Width of a stitch in pixels, 0.25 to 96; need not be whole. */
  readonly pixelsPerStitch: number;
  /** Chart rows from 1 at the bottom, inclusive; all by default. */
  readonly rows?: readonly [number, number];
  /** How often the chart stands side by side; 1 by default. */
  readonly repeatsAcross?: number;
  /** Which of many equal cloths: the small differences from stitch to stitch. */
  readonly seed?: number;
  /** Knitted by default; flat without light, shadow and fine flecks; square with cells for stitches, of one colour each. */
  readonly surface?: Surface;
}

/**
 * The cloth as a picture, row 1 at the bottom and column 1 at the right. Shading averages 1 over every cell, so the
 * picture's mean is that of the yarns by area. Width and height are whole pixels; the cloth is stretched to them by less
 * than half a pixel in all. A cell at the cut edge goes on in its own colour; rows left out beside it still show. Where the specks of
 * a tweed fall, and which length of a variegated yarn, is chance by the seed, so their shares hold over many stitches only.
 */
export function renderCloth(cloth: Cloth, options: RenderOptions): Raster {
  const { surface = "knitted" } = options;
  if (surface !== "square") {
    const { repeatsAcross = 1, seed = 1 } = options;
    const runs = laidInRuns(cloth, repeatsAcross, seed);
    if (runs !== cloth) return renderCloth(runs, { ...options, repeatsAcross: 1 });
  }
  const raster = drawStitches(
    cloth,
    options,
    cloth.inks.map((ink) => paintsOf(ink, cloth.gauge, surface)),
  );
  const [from, to] = options.rows ?? [1, cloth.grid.height];
  drawLines(raster, cloth, { from, to, repeatsAcross: options.repeatsAcross ?? 1 });
  return raster;
}

/** The shapes of stitches filled with any light, one for each ink: what adds up to a cloth, which may be below nothing. */
export function renderLight(cloth: Cloth, options: RenderOptions, light: readonly LinearRgb[]): Raster {
  return drawStitches(
    cloth,
    { ...options, surface: "flat" },
    light.map((linear) => ({ plain: { linear, depth: 0, flecked: null }, specks: [] })),
  );
}

function drawStitches(cloth: Cloth, options: RenderOptions, paints: readonly Paints[]): Raster {
  const { pixelsPerStitch, repeatsAcross = 1, seed = 1, surface = "knitted" } = options;
  const { grid, gauge, inks, cells } = cloth;
  const [from, to] = options.rows ?? [1, grid.height];
  assert(pixelsPerStitch >= 0.25 && pixelsPerStitch <= 96, `a stitch of ${pixelsPerStitch} pixels`);
  assert(from >= 1 && to <= grid.height && from <= to, `rows ${from} to ${to} of ${grid.height}`);
  const aspect = gauge.stitches / gauge.rows;
  const columns = grid.width * repeatsAcross;
  const rows = to - from + 1;
  const width = Math.max(1, Math.round(columns * pixelsPerStitch));
  const height = Math.max(1, Math.round(rows * pixelsPerStitch * aspect));
  const raster = createRaster(width, height, 100 / gauge.stitches / pixelsPerStitch);
  const across = edges(columns, width);
  const down = edges(rows, height);
  const tileOf = tilesOf({ aspect, pixelsPerStitch, seed, surface });
  const paintAt = (cell: number, row: number, place: number): Paint => {
    const { plain, specks } = paints[cell]!;
    if (specks.length === 0) return plain;
    const chance = scatter(seed + 7, row, place) / 2 ** 32;
    return specks.find(({ upTo }) => chance < upTo)?.paint ?? plain;
  };

  for (let row = from; row <= to; row++) {
    const top = down[to - row]!;
    const bottom = down[to - row + 1]!;
    for (let place = 0; place < columns; place++) {
      const at = row * grid.width - 1 - (place % grid.width);
      const left = across[place]!;
      const box = { left: left % STEPS, top: top % STEPS, width: across[place + 1]! - left, height: bottom - top };
      const pixel = Math.floor(top / STEPS) * width + Math.floor(left / STEPS);
      const cell = cells[at]!;
      if (cell === NO_STITCH) {
        lay(
          raster,
          pixel,
          tilesOf({ aspect, pixelsPerStitch, seed, surface: "square" })(box, 0, "knitted", 0),
          ROOM,
          ROOM,
          ROOM,
        );
        continue;
      }
      const own = paintAt(cell, row, place);
      const above = paints[neighbour(cells, at + grid.width, cell)]!.plain;
      const below = paints[neighbour(cells, at - grid.width, cell)]!.plain;
      const kind = inks[cell]!.over ? "laidOver" : "knitted";
      const tile = tileOf(box, scatter(seed, row, place) % VARIANTS, kind, own.depth);
      lay(raster, pixel, tile, own.linear, above.linear, below.linear);
      if (own.flecked) layFlecks(raster, pixel, tile, box, own, 0);
      if (above.flecked) layFlecks(raster, pixel, tile, box, above, 1, own.depth);
      if (below.flecked) layFlecks(raster, pixel, tile, box, below, 2, own.depth);
    }
  }
  return raster;
}

export interface Picture {
  readonly width: number;
  readonly height: number;
  readonly millimetresPerPixel: number;
  /** Encoded sRGB, opaque. */
  readonly rgba: Uint8ClampedArray<ArrayBuffer>;
}

/** The same as bytes, for a screen that draws the cloth piece by piece. */
export function renderClothBytes(cloth: Cloth, options: RenderOptions): Picture {
  const raster = renderCloth(cloth, options);
  const { width, height, millimetresPerPixel } = raster;
  assert(millimetresPerPixel !== undefined, "a rendered cloth knows its scale");
  return { width, height, millimetresPerPixel, rgba: bytesFromRaster(raster) };
}

interface Paint {
  readonly linear: LinearRgb;
  /** Index into DEPTHS. */
  readonly depth: number;
  readonly flecked: FleckedPaint | null;
}

/** How a yarn's stitches look: most of them plain, of a tweed some with a speck. */
interface Paints {
  readonly plain: Paint;
  /** Of a number by chance from 0 to 1, each takes what is below `upTo` and above the one before. */
  readonly specks: readonly { readonly upTo: number; readonly paint: Paint }[];
}

/** Most light that the brightest parts of a stitch send back, over their mean: the 95th centile of the reliefs. */
const HIGHLIGHT = 1.29;

function depthOf(linear: LinearRgb): number {
  const room = (1 / Math.max(...linear, 0.01) - 1) / (HIGHLIGHT - 1);
  const fitting = DEPTHS.findIndex((depth) => depth <= room);
  return fitting < 0 ? DEPTHS.length - 1 : fitting;
}

function paintsOf(ink: Ink, gauge: Gauge, surface: Surface): Paints {
  const linear = linearFromLab(ink.lab);
  const depth = depthOf(linear);
  const plain = { linear, depth, flecked: null };
  const parts = surface === "knitted" ? fleckedParts(ink, linear) : [];
  if (parts.length < 2) return { plain, specks: [] };
  const kind = fleckKindIn(ink.flecks, gauge);
  if (kind === "tweed") return tweedPaints(ink, parts, gauge);
  const pattern = kind === "marl" ? "plies" : "fibres";
  const key = `${pattern} ${parts.map(({ linear: light, share }) => [...light, share].join()).join(";")}`;
  return { plain: { linear, depth, flecked: { key, pattern, mean: linear, flecks: parts } }, specks: [] };
}

/** A yarn's flecks and, where they leave room, first the colour between them that makes its mean what it is. */
function fleckedParts(ink: Ink, mean: LinearRgb): { linear: LinearRgb; share: number }[] {
  const given = ink.flecks.filter(({ share }) => share > 0);
  const flecks = given.map(({ shade, share }) => ({ linear: linearFromLab(labOfShade(shade)), share }));
  const share = flecks.reduce((sum, fleck) => sum + fleck.share, 0);
  if (flecks.length > 0 && share < 0.999) {
    const rest = mean.map((light, channel) =>
      Math.max(0, (light - flecks.reduce((sum, f) => sum + f.share * f.linear[channel]!, 0)) / (1 - share)),
    );
    flecks.unshift({ linear: [rest[0]!, rest[1]!, rest[2]!], share: 1 - share });
  }
  return flecks;
}

/** What is seen of a stitch's yarn from the front, in heights of a row: two legs, each a little longer than the row is high. */
const SEEN_LEGS = 2 * 1.14;
/** A speck leaves something to be seen of its own stitch: the largest part of it, our choice. */
const LARGEST_SPECK = 0.5;

/** Specks as long as they are told, on as many stitches by chance as make up their share. */
function tweedPaints({ flecks }: Ink, parts: readonly { linear: LinearRgb; share: number }[], gauge: Gauge): Paints {
  const given = flecks.filter(({ share }) => share > 0);
  const hasGround = parts.length > given.length;
  // Without ground the first is it.
  const [ground, ...specks] = parts as [(typeof parts)[number], ...typeof parts];
  const lengths = (hasGround ? given : given.slice(1)).map(({ lengthMm = 0 }) => lengthMm);
  const seenMm = SEEN_LEGS * stitchSizeMm(gauge).heightMm;
  const whole = specks.reduce((sum, { share }) => sum + share, 0);
  const depth = depthOf(ground.linear);
  let upTo = 0;
  return {
    plain: { linear: ground.linear, depth, flecked: null },
    specks: specks.map(({ linear, share }, at) => {
      // Never more than every stitch with a speck.
      const part = Math.max(whole, Math.min(LARGEST_SPECK, lengths[at]! / seenMm));
      upTo += share / part;
      const key = `speck ${[...ground.linear, ...linear, part].join()}`;
      const flecked: FleckedPaint = { key, pattern: "speck", mean: ground.linear, flecks: [{ linear, share: part }] };
      return { upTo, paint: { linear: ground.linear, depth, flecked } };
    }),
  };
}

/** Edges of `count` equal cells over `pixels`, in eighths of a pixel. */
function edges(count: number, pixels: number): Int32Array {
  return Int32Array.from({ length: count + 1 }, (_, at) => Math.round((at / count) * pixels * STEPS));
}

function neighbour(cells: Uint8Array, at: number, own: number): number {
  if (at < 0 || at >= cells.length) return own;
  const cell = cells[at]!;
  return cell === NO_STITCH ? own : cell;
}

/** A whole number that depends on seed, row and place alone, and shows no pattern along either. */
function scatter(seed: number, row: number, place: number): number {
  let mixed = Math.imul(row, 0x9e3779b1) ^ Math.imul(place + 1, 0x85ebca77) ^ Math.imul(seed, 0xc2b2ae3d);
  mixed = Math.imul(mixed ^ (mixed >>> 15), 0x2c1b3c6d);
  mixed = Math.imul(mixed ^ (mixed >>> 12), 0x297a2d39);
  return (mixed ^ (mixed >>> 15)) >>> 0;
}

/** Lays a cell's light on the raster. Cells share pixels at their edges, so light is added. */
function lay(raster: Raster, start: number, tile: Tile, own: LinearRgb, above: LinearRgb, below: LinearRgb): void {
  const { data, width } = raster;
  const alike = own === above && own === below;
  const { weights, total } = tile;
  for (let j = 0, from = 0; j < tile.height; j++) {
    for (let i = 0, to = (start + j * width) * 3; i < tile.width; i++, from++, to += 3) {
      if (alike) {
        const light = total[from]!;
        data[to]! += light * own[0];
        data[to + 1]! += light * own[1];
        data[to + 2]! += light * own[2];
      } else {
        const w0 = weights[from * 3]!;
        const w1 = weights[from * 3 + 1]!;
        const w2 = weights[from * 3 + 2]!;
        data[to]! += w0 * own[0] + w1 * above[0] + w2 * below[0];
        data[to + 1]! += w0 * own[1] + w1 * above[1] + w2 * below[1];
        data[to + 2]! += w0 * own[2] + w1 * above[2] + w2 * below[2];
      }
    }
  }
}

function layFlecks(
  raster: Raster,
  start: number,
  tile: Tile,
  box: CellBox,
  paint: Paint,
  role: number,
  depth = paint.depth,
): void {
  const added = fleckedTile(tile, box, depth, paint.flecked!);
  for (let j = 0, from = role * 3; j < tile.height; j++) {
    for (let i = 0, to = (start + j * raster.width) * 3; i < tile.width; i++, from += 9, to += 3) {
      raster.data[to]! += added[from]!;
      raster.data[to + 1]! += added[from + 1]!;
      raster.data[to + 2]! += added[from + 2]!;
    }
  }
}
