/** The seen image: the fabric as it looks from a distance, at hand's scale, without the detail that could not be seen. */
import { assert } from "../base/assert.ts";
import { stitchSizeMm } from "../garment/gauge.ts";
import type { LinearRgb } from "../colour/srgb.ts";
import type { Raster } from "../raster/raster.ts";
import { lookAtLevels, lookAtRelief, rasterOf, type Look } from "../vision/eye.ts";
import { halved, takeApart, takeReliefApart, type Apart, type ReliefApart } from "../vision/levels.ts";
import type { Edges } from "../vision/pyramid.ts";
import type { Cloth } from "./cloth.ts";
import type { Viewing } from "./contrast.ts";
import { partedShades } from "./nearShades.ts";
import { renderCloth, renderLight, type RenderOptions } from "./render.ts";
import { squaresInLight, squaresOf } from "./squares.ts";
import { eyeBefore, HUE_WEIGHT, USUAL_EYE } from "./visibility.ts";
import { laidInRuns } from "./yarnRuns.ts";

export interface SeenOptions extends Omit<RenderOptions, "surface"> {
  /** Her threshold over the ordinary one, e^θ: V is compared with it. 1 where missing. */
  readonly threshold?: number | undefined;
}

/**
 * What the caller keeps from one seen image to the next: the last cloths taken apart, by their content. Another distance, light,
 * texture or threshold of a cloth that is kept costs a fifth of the first. Some 50 bytes a pixel.
 */
export interface SeenMemory {
  readonly cloths: Map<string, ClothApart>;
}

export const seenMemory = (): SeenMemory => ({ cloths: new Map() });

/** The cloth at hand and what it is compared with. Our choice. */
const REMEMBERED = 2;

/** A cloth drawn and taken apart, before anybody looks. */
export interface ClothApart {
  readonly knitted: Raster;
  /** The pattern, near colours taken as one. */
  readonly colours: Apart;
  /** What those near colours differ by, where there are any: a small difference is judged apart from the large ones beside it. */
  readonly shades: { readonly apart: Apart; readonly covers: Float32Array } | null;
  readonly relief: ReliefApart;
  /** What neither colour nor relief accounts for: flecks, and the mixed pixels at the edges of stitches. */
  readonly rest: Float32Array;
  /** Sum of the squares of the relief's light and shadow. */
  readonly reliefPower: number;
}

/**
 * The cloth as `renderCloth` gives it, seen from a distance. The flat pattern, without the relief of the stitches, decides
 * what of the colours is lost; the relief is kept as far as its own light and shadow would be seen. A chart repeats sideways, so the
 * picture goes on at its left edge where it ends at its right.
 * @param memory kept by the caller; a fresh one where missing
 * Source: vision.md B; a model of ordinary eyesight, not tested on knitting.
 */
export function seenCloth(cloth: Cloth, from: Viewing, options: SeenOptions, memory = seenMemory()): Raster {
  const runs = laidInRuns(cloth, options.repeatsAcross ?? 1, options.seed ?? 1);
  if (runs !== cloth) return seenCloth(runs, from, { ...options, repeatsAcross: 1 }, memory);
  const { knitted, colours, shades, relief, rest, reliefPower } = apartOf(cloth, options, memory);
  const look = { ...lookAtCloth(cloth, from), threshold: options.threshold };
  const light = lookAtRelief(relief, colours.judged.meanY, look);
  const channels = lookAtLevels(colours, look);
  if (shades) lookAtLevels(shades.apart, look).forEach((shade, at) => addTo(channels[at]!, shade, shades.covers));
  return rasterOf(channels, knitted, { light, rest, fine: reliefLeft(reliefPower, light) });
}

function addTo(sum: Float32Array, more: Float32Array, part: Float32Array): void {
  for (let at = 0; at < sum.length; at++) sum[at]! += more[at]! * part[at]!;
}

/** Past the last repeat the first follows. */
const REPEATING: Edges = { x: "wrap" };

function apartOf(cloth: Cloth, options: SeenOptions, { cloths }: SeenMemory): ClothApart {
  const key = contentOf(cloth, options);
  const known = cloths.get(key);
  // The latest stands last.
  cloths.delete(key);
  const apart = known ?? takeClothApart(cloth, options);
  cloths.set(key, apart);
  if (cloths.size > REMEMBERED) cloths.delete(cloths.keys().next().value!);
  return apart;
}

/** Equal for cloths that look equal. */
function contentOf({ grid, gauge, inks, cells, lines }: Cloth, options: SeenOptions): string {
  const { pixelsPerStitch, rows, repeatsAcross, seed } = options;
  const colours = inks.map(({ lab, flecks, over }) => ({ lab, flecks, over }));
  const size = { width: grid.width, gauge, pixelsPerStitch, rows, repeatsAcross, seed };
  return `${JSON.stringify({ size, colours, lines })} ${cells.join()}`;
}

function takeClothApart(cloth: Cloth, options: SeenOptions): ClothApart {
  const knitted = renderCloth(cloth, options);
  const flat = renderCloth(cloth, { ...options, surface: "flat" });
  const plain = cloth.inks.some(({ flecks }) => flecks.length > 0)
    ? renderCloth({ ...cloth, inks: cloth.inks.map((ink) => ({ ...ink, flecks: [] })) }, options)
    : knitted;
  const { width, height, millimetresPerPixel } = knitted;
  assert(millimetresPerPixel !== undefined, "a rendered cloth knows its scale");
  const shading = new Float32Array(width * height);
  const rest = new Float32Array(knitted.data.length);
  let reliefPower = 0;
  for (let at = 0, pixel = 0; at < rest.length; at += 3, pixel++) {
    const [red, green, blue] = [flat.data[at]!, flat.data[at + 1]!, flat.data[at + 2]!];
    const under = red + green + blue;
    const light = under > 1e-6 ? (plain.data[at]! + plain.data[at + 1]! + plain.data[at + 2]!) / under : 1;
    shading[pixel] = light;
    reliefPower += (light - 1) ** 2;
    rest[at] = knitted.data[at]! - red * light;
    rest[at + 1] = knitted.data[at + 1]! - green * light;
    rest[at + 2] = knitted.data[at + 2]! - blue * light;
  }
  const { colours, shades } = partedColours(cloth, options, flat);
  return {
    knitted,
    colours,
    shades,
    relief: takeReliefApart({ width, height, data: shading }, millimetresPerPixel, REPEATING),
    rest,
    reliefPower,
  };
}

function partedColours(cloth: Cloth, options: SeenOptions, flat: Raster): Pick<ClothApart, "colours" | "shades"> {
  // Squares of four to eight pixels: that is as fine as V counts a pattern, and finer detail goes with its edges.
  const times = Math.max(0, Math.floor(Math.log2(options.pixelsPerStitch / 4)));
  const size = { width: halved(flat.width, times), height: halved(flat.height, times) };
  const [from, to] = options.rows ?? [1, cloth.grid.height];
  const part = { from, to, repeatsAcross: options.repeatsAcross ?? 1 };
  const parted = partedShades(cloth);
  if (!parted) return { colours: takeApart(flat, squaresOf(cloth, part, size), REPEATING), shades: null };
  const { merged, pieces, differences } = parted;
  const apart = renderLight(pieces, options, differences);
  const covers = firstChannel(renderLight(parted.covers, options, [BLACK, WHITE]));
  const rest = { ...flat, data: new Float32Array(flat.data.length) };
  for (let at = 0, pixel = 0; at < rest.data.length; pixel++)
    for (let channel = 0; channel < 3; channel++, at++)
      rest.data[at] = flat.data[at]! - apart.data[at]! * covers[pixel]!;
  const colours = takeApart(rest, squaresOf(merged, part, size), REPEATING);
  const judges = squaresInLight(pieces, part, size, differences);
  return { colours, shades: { apart: takeApart(apart, judges, REPEATING, colours.judged), covers } };
}

const BLACK: LinearRgb = [0, 0, 0];
const WHITE: LinearRgb = [1, 1, 1];

function firstChannel({ data }: Raster): Float32Array {
  const channel = new Float32Array(data.length / 3);
  for (let at = 0; at < channel.length; at++) channel[at] = data[at * 3]!;
  return channel;
}

/** How much of the relief is left, 0 to 1: what is as fine as fibres goes with it. */
function reliefLeft(before: number, after: Float32Array): number {
  let sum = 0;
  for (let at = 0; at < after.length; at++) sum += (after[at]! - 1) ** 2;
  return before > 0 ? Math.min(1, Math.sqrt(sum / before)) : 1;
}

export function lookAtCloth(cloth: Cloth, { distanceM, lux, texture }: Viewing): Look {
  const { widthMm, heightMm } = stitchSizeMm(cloth.gauge);
  return {
    distanceMm: distanceM * 1000,
    lux,
    texture: eyeBefore(texture).texture,
    textureFrequency: 1 / Math.sqrt(widthMm * heightMm),
    veil: USUAL_EYE.veil,
    hueWeight: HUE_WEIGHT.usual,
  };
}
