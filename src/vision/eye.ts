/** An eye that looks at a picture from a distance: what it could not see is taken away, what it sees stays as it is. */
import { assert } from "../base/assert.ts";
import { inverse, multiply, type Matrix3 } from "../base/matrix3.ts";
import { xyzFromLinear } from "../colour/xyz.ts";
import type { Raster } from "../raster/raster.ts";
import { chromaticGuard, FINEST_FREQUENCY, parametersAt, sensitivitySquared } from "./contrastSensitivity.ts";
import { maskOf, maskTuning, type Texture } from "./masking.ts";
import { WHITE_RESPONSE, XYZ_TO_OPPONENT } from "./opponent.ts";
import { collapse, expand, frequencyOf, POWER_GAIN, pyramidOf, reduce, surroundings, type Plane } from "./pyramid.ts";
import { adaptingLuminance, millimetresPerDegree } from "./viewing.ts";

export interface Look {
  readonly distanceMm: number;
  /** Light on the picture. */
  readonly lux: number;
  readonly texture: Texture;
  /** Cycles per mm of one element of the texture. */
  readonly textureFrequency: number;
  /** g: adaptation to the room and stray light, a part of white. */
  readonly veil: number;
  /** What hue counts for beside light–dark. */
  readonly hueWeight: number;
}

/**
 * The picture without the detail that could not be seen. A threshold curve is not a blur: each level of detail, an octave
 * wide, is kept or taken away whole, place by place, as its own contrast there is above or below threshold.
 * @param judgedBy the picture whose contrasts decide, of the same size: colours without the surface they lie on
 * Source: thresholds as in `visibility.ts` (castleCSF, masking, guard). The levels are a Laplacian pyramid; local contrast
 * is the root mean square over about two periods. Our choice, held to V by test.
 */
export function lookAt(picture: Raster, look: Look, judgedBy: Raster = picture): Raster {
  const scale = judgedBy.millimetresPerPixel;
  assert(scale !== undefined, "the eye needs the picture's scale");
  assert(picture.width === judgedBy.width && picture.height === judgedBy.height, "two pictures of one size");
  const judged = opponentPlanes(judgedBy);
  const shown = picture === judgedBy ? judged : opponentPlanes(picture);
  const meanY = meanLuminance(judgedBy.data);
  const luminance = adaptingLuminance(look.lux, Math.max(0, meanY), look.veil);
  const levels = levelsFor(judgedBy, look);
  const pyramids = judged.map((plane) => pyramidOf(plane, levels));
  const grounds = groundsOf(pyramids[0]!.blurred, scale, look);
  const shownPyramids = picture === judgedBy ? pyramids : shown.map((plane) => pyramidOf(plane, levels));
  const tables = thresholdTables(levels, scale, luminance, look);
  const visible = pyramids.map(({ details }, channel) => visibleLevels(details, grounds.slice(1), tables[channel]!));
  shownPyramids.forEach(({ details }, channel) => {
    details.forEach((detail, level) => {
      const [own, one, other] = [0, 1, 2].map((turn) => visible[(channel + turn) % 3]![level]!) as [
        Plane,
        Plane,
        Plane,
      ];
      const data = new Float32Array(own.data.length);
      for (let at = 0; at < data.length; at++)
        data[at] = own.data[at]! + ASSISTANCE * (one.data[at]! + other.data[at]!);
      keepVisible(detail, { ...own, data });
    });
  });
  const planes = shownPyramids.map(({ details, blurred }) => collapse(details, blurred.at(-1)!));
  return rasterOf(planes, picture);
}

/**
 * The same for a relief that makes light and shadow: `shading` is 1 where the light is that of the flat surface.
 * Nothing masks it but the floor; it is what masks.
 */
export function lookAtShading(shading: Plane, millimetresPerPixel: number, meanY: number, look: Look): Plane {
  const luminance = adaptingLuminance(look.lux, Math.max(0, meanY), look.veil);
  const bare = { ...look, texture: { ...look.texture, stitch: 0 } };
  const levels = levelsFor({ ...shading, millimetresPerPixel }, look);
  const pyramid = pyramidOf(shading, levels);
  // Of light and shadow on a surface as dark as this, the veil leaves so much.
  const ground = { width: 1, height: 1, data: Float32Array.of(1 + look.veil / Math.max(meanY, 1e-3)) };
  const [table] = thresholdTables(levels, millimetresPerPixel, luminance, bare);
  const visible = visibleLevels(
    pyramid.details,
    pyramid.details.map(() => ground),
    table,
  );
  pyramid.details.forEach((detail, level) => keepVisible(detail, visible[level]!));
  return collapse(pyramid.details, pyramid.blurred.at(-1)!);
}

/**
 * What is told apart in one channel lends the same detail in the others half its visibility: a dark red stitch on cream does
 * not turn into a dark cream one because its redness alone would be lost. Squared. Our choice.
 */
const ASSISTANCE = 0.25;

/** Part of a detail that is kept at V², steep about V = 1 and soft enough to leave no seam: V⁸ / (1 + V⁸). Our choice. */
function kept(visibleSquared: number): number {
  const steep = visibleSquared * visibleSquared * visibleSquared * visibleSquared;
  return steep > 1e12 ? 1 : steep / (1 + steep);
}

/**
 * V² of each level at each place, on half the level's pixels each way: local power changes slowly. A wave is shared by
 * neighbouring levels; their powers together tell how strong it is, and their balance how fine, so that it is judged at its
 * own frequency although a level is an octave wide.
 */
function visibleLevels(details: readonly Plane[], grounds: readonly Plane[], tables: readonly Float64Array[]): Plane[] {
  const powers = details.map(({ width, height, data }) => {
    const power = new Float32Array(data.length);
    for (let at = 0; at < data.length; at++) power[at] = data[at]! * data[at]!;
    return surroundings(reduce({ width, height, data: power }), REACH);
  });
  const visibles = powers.map(({ width, height, data }, level) => {
    const finer = level > 0 ? reduce(powers[level - 1]!).data : null;
    const coarser = level + 1 < powers.length ? expand(powers[level + 1]!, width, height).data : null;
    const ground = grounds[level]!.data;
    const table = tables[level]!;
    const visible = new Float32Array(data.length);
    for (let at = 0; at < data.length; at++) {
      // Running sums leave rounding errors below nothing.
      const fine = finer ? Math.max(0, finer[at]!) : 0;
      const coarse = coarser ? Math.max(0, coarser[at]!) : 0;
      const power = Math.max(0, data[at]!) + fine + coarse;
      if (power < 1e-14) continue;
      const balance = (fine - coarse) / power;
      const under = ground.length === 1 ? ground[0]! : ground[at]!;
      visible[at] = (power * table[Math.round((balance + 1) * HALF_TABLE)]!) / (under * under);
    }
    return { width, height, data: visible };
  });
  return visibles.map((own, level) => {
    const coarser = visibles[level + 1];
    if (!coarser) return own;
    const lent = expand(coarser, own.width, own.height).data;
    for (let at = 0; at < lent.length; at++) lent[at] = own.data[at]! + EDGES * lent[at]!;
    return { ...own, data: lent };
  });
}

/** Takes away of a level's detail what is not kept. `visible` is V² on half its pixels each way. */
function keepVisible({ width, height, data }: Plane, visible: Plane): void {
  const parts = new Float32Array(visible.data.length);
  for (let at = 0; at < parts.length; at++) parts[at] = kept(visible.data[at]!);
  const part = expand({ ...visible, data: parts }, width, height).data;
  for (let at = 0; at < data.length; at++) data[at]! *= part[at]!;
}

/** A figure that is seen keeps its edges, which are finer than itself: what a level lends to the next finer one, squared. */
const EDGES = 0.5;

/** Halved pixels each way, twice: at two and a half a period, about two periods in all. */
const REACH = 1;
const HALF_TABLE = 48;

/** For each channel and level: 2 S² over the levels' power gain, by balance from −1 (all coarser) to 1 (all finer). */
function thresholdTables(
  levels: number,
  scale: number,
  luminance: number,
  look: Look,
): [Float64Array[], Float64Array[], Float64Array[]] {
  const tables: [Float64Array[], Float64Array[], Float64Array[]] = [[], [], []];
  for (let level = 0; level < levels; level++) {
    const rows = tables.map(() => new Float64Array(2 * HALF_TABLE + 1));
    for (let step = 0; step <= 2 * HALF_TABLE; step++) {
      const frequency = frequencyOf(level, step / HALF_TABLE - 1) / scale;
      thresholdsAt(frequency, luminance, look).forEach(
        (weight, channel) => (rows[channel]![step] = weight / POWER_GAIN),
      );
    }
    tables.forEach((table, channel) => table.push(rows[channel]!));
  }
  return tables;
}

/** 2 S² in the three channels, light–dark masked, hue weighted; 0 past 60 cycles per degree. Frequency in cycles per mm. */
function thresholdsAt(cyclesPerMm: number, luminance: number, look: Look): [number, number, number] {
  const perDegree = millimetresPerDegree(look.distanceMm);
  const frequency = cyclesPerMm * perDegree;
  if (frequency > FINEST_FREQUENCY) return [0, 0, 0];
  const area = PATCH_CYCLES_SQUARED / (frequency * frequency);
  const log10 = Math.log10(frequency);
  const squared = (channel: "lightDark" | "redGreen" | "yellowViolet"): number =>
    sensitivitySquared(parametersAt(channel, luminance), frequency, log10, area);
  const lightDark = squared("lightDark");
  const textureFrequency = look.textureFrequency * perDegree;
  const { stitchPower, floorPower } = maskOf(
    look.texture,
    textureFrequency,
    parametersAt("lightDark", luminance),
    area,
  );
  const hue = (look.hueWeight * chromaticGuard(frequency)) ** 2;
  return [
    (2 * lightDark) / (1 + stitchPower * maskTuning(frequency, textureFrequency) + floorPower * lightDark),
    2 * hue * squared("redGreen"),
    2 * hue * squared("yellowViolet"),
  ];
}

/** Cycles² in the patch that is looked at: a motif's own size once holds about two, whatever its size (vision.md B2). */
const PATCH_CYCLES_SQUARED = 2;

/** Levels down to a quarter of a cycle per degree; what is coarser is always kept. Our choice. */
function levelsFor(picture: { width: number; height: number; millimetresPerPixel?: number }, look: Look): number {
  const finest = (frequencyOf(0, 0) / picture.millimetresPerPixel!) * millimetresPerDegree(look.distanceMm);
  const room = Math.floor(Math.log2(Math.min(picture.width, picture.height))) - 1;
  return Math.max(1, Math.min(room, Math.ceil(Math.log2(finest / 0.25)) + 1));
}

/**
 * What every contrast is divided by: the local mean of A and the veil. The eye is adapted to a neighbourhood of some
 * stitches or about a degree, whichever is more, not to one dark motif (vision.md B1). Our choice.
 */
function groundsOf(blurred: readonly Plane[], scale: number, look: Look): Plane[] {
  const reach = Math.max(GROUND_MM, millimetresPerDegree(look.distanceMm));
  const level = Math.min(blurred.length - 1, Math.max(0, Math.round(Math.log2(reach / 3 / scale))));
  const veil = look.veil * WHITE_RESPONSE;
  const wide = surroundings(blurred[level]!, 1);
  const grounds: Plane[] = [];
  grounds[level] = { ...wide, data: wide.data.map((mean) => Math.max(0, mean) + veil) };
  for (let finer = level - 1; finer >= 0; finer--)
    grounds[finer] = expand(grounds[finer + 1]!, blurred[finer]!.width, blurred[finer]!.height);
  for (let coarser = level + 1; coarser < blurred.length; coarser++) grounds[coarser] = reduce(grounds[coarser - 1]!);
  return grounds;
}
const GROUND_MM = 40;

const PRIMARIES = [xyzFromLinear([1, 0, 0]), xyzFromLinear([0, 1, 0]), xyzFromLinear([0, 0, 1])] as const;
const [RED, GREEN, BLUE] = PRIMARIES;
const LINEAR_TO_XYZ: Matrix3 = [RED[0], GREEN[0], BLUE[0], RED[1], GREEN[1], BLUE[1], RED[2], GREEN[2], BLUE[2]];
const LINEAR_TO_OPPONENT: Matrix3 = multiply(XYZ_TO_OPPONENT, LINEAR_TO_XYZ);
const OPPONENT_TO_LINEAR: Matrix3 = inverse(LINEAR_TO_OPPONENT);

function opponentPlanes({ width, height, data }: Raster): Plane[] {
  const planes = [0, 1, 2].map((): Plane => ({ width, height, data: new Float32Array(width * height) }));
  const m = LINEAR_TO_OPPONENT;
  planes.forEach((plane, channel) => {
    const [a, b, c] = [m[channel * 3]!, m[channel * 3 + 1]!, m[channel * 3 + 2]!];
    for (let at = 0, from = 0; at < plane.data.length; at++, from += 3)
      plane.data[at] = a * data[from]! + b * data[from + 1]! + c * data[from + 2]!;
  });
  return planes;
}

function rasterOf(planes: readonly Plane[], like: Raster): Raster {
  const data = new Float32Array(like.data.length);
  const m = OPPONENT_TO_LINEAR;
  const [lightDark, redGreen, yellowViolet] = planes.map((plane) => plane.data) as [
    Float32Array,
    Float32Array,
    Float32Array,
  ];
  for (let at = 0, to = 0; at < lightDark.length; at++, to += 3) {
    const [a, r, y] = [lightDark[at]!, redGreen[at]!, yellowViolet[at]!];
    data[to] = m[0] * a + m[1] * r + m[2] * y;
    data[to + 1] = m[3] * a + m[4] * r + m[5] * y;
    data[to + 2] = m[6] * a + m[7] * r + m[8] * y;
  }
  return { ...like, data };
}

/** Mean luminance factor Y of linear light. */
function meanLuminance(data: Float32Array): number {
  let sum = 0;
  for (let at = 0; at < data.length; at += 3) {
    sum += LINEAR_TO_XYZ[3] * data[at]! + LINEAR_TO_XYZ[4] * data[at + 1]! + LINEAR_TO_XYZ[5] * data[at + 2]!;
  }
  return sum / (data.length / 3);
}
