/** An eye that looks at a picture from a distance: what it could not see is taken away, what it sees stays as it is. */
import type { Raster } from "../raster/raster.ts";
import { chromaticGuard, FINEST_FREQUENCY, parametersAt, sensitivitySquared } from "./contrastSensitivity.ts";
import {
  HALF_TABLE,
  OPPONENT_TO_LINEAR,
  roomFor,
  takeApart,
  type Apart,
  type Channels,
  type Judged,
  type ReliefApart,
  type Strength,
} from "./levels.ts";
import { maskOf, maskTuning, type Texture } from "./masking.ts";
import { WHITE_RESPONSE } from "./opponent.ts";
import {
  addPart,
  double,
  expand,
  frequencyOf,
  POWER_GAIN,
  reduce,
  surroundings,
  type Edges,
  type Plane,
  type Pyramid,
} from "./pyramid.ts";
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
  /** Her threshold over the ordinary one; 1 where missing. */
  readonly threshold?: number | undefined;
}

/**
 * The picture without the detail that could not be seen. A threshold curve is not a blur: each level of detail, an octave
 * wide, is kept or taken away whole, place by place, as the contrast there is above or below threshold.
 * @param judgedBy the picture whose contrasts decide: colours without the surface they lie on
 * Source: thresholds as in `visibility.ts` (castleCSF, masking, guard). The levels are a Laplacian pyramid; local contrast
 * is the root mean square over about two periods; levels that go together are seen together. Our choice, held to V by test.
 */
export function lookAt(picture: Raster, look: Look, judgedBy: Raster = picture, edges?: Edges): Raster {
  return rasterOf(lookAtLevels(takeApart(picture, judgedBy, edges), look), picture);
}

/** The same for a picture that was taken apart before, as its three channels. */
export function lookAtLevels({ shown, judged, ahead, edges }: Apart, look: Look): Channels<Float32Array> {
  const grounds = groundsOf(judged, look, edges);
  const luminance = adaptingLuminance(look.lux, judged.meanY, look.veil);
  const tables = thresholdTables(judged.channels[0].length, judged.millimetresPerPixel, luminance, look);
  const [lightDark, ...hues] = judged.channels.map((levels, channel) =>
    levels.map((strength, level) => visibleAt(strength, tables[channel]![level]!, grounds[level]!)),
  );
  // What is told apart is told apart in every channel: V joins them, and a red stitch on green does not turn into a darker green one.
  for (const hue of hues) hue.forEach((own, level) => own.forEach((v, at) => (lightDark![level]![at]! += v)));
  const levels = levelsFor(judged, look, edges);
  const of = (channel: 0 | 1 | 2): Float32Array => {
    const parts = keptParts(judged.channels[channel], lightDark!, edges);
    return collapsed(shown[channel], { parts, ahead, levels, edges });
  };
  return [of(0), of(1), of(2)];
}

/**
 * The same for a relief that makes light and shadow, on a surface of luminance factor `meanY`. Nothing masks it but the floor; it
 * is what masks.
 */
export function lookAtRelief(relief: ReliefApart, meanY: number, look: Look): Float32Array {
  const { levels, strengths, millimetresPerPixel, edges } = relief;
  const luminance = adaptingLuminance(look.lux, meanY, look.veil);
  const bare = { ...look, texture: { ...look.texture, stitch: 0 } };
  const [tables] = thresholdTables(strengths.length, millimetresPerPixel, luminance, bare);
  // Of light and shadow on a surface as dark as this, the veil leaves so much.
  const ground = Float32Array.of((1 + look.veil / Math.max(meanY, 1e-3)) ** -2);
  const own = strengths.map((strength, level) => visibleAt(strength, tables[level]!, ground));
  const parts = keptParts(strengths, own, edges);
  const { width, height } = levels.blurred[0]!;
  const seen = levelsFor({ width, height, millimetresPerPixel }, look, edges);
  return collapsed(levels, { parts, ahead: 0, levels: seen, edges });
}

/** V² of a level at each place. */
function visibleAt({ power, balance }: Strength, table: Float64Array, ground: Float32Array): Float32Array {
  const out = new Float32Array(power.length);
  for (let at = 0; at < out.length; at++) out[at] = power[at]! * table[balance[at]!]! * ground[at]!;
  return out;
}

/**
 * What part of each level is kept, from its own V² and that of the levels it goes with: a figure that is seen keeps its edges, which
 * are finer than itself, and one that shows by its edges keeps its inside. Squares add up, as V adds up frequencies.
 */
function keptParts(strengths: readonly Strength[], own: readonly Float32Array[], edges: Edges): Plane[] {
  const fromCoarser: Float32Array[] = [];
  for (let level = own.length - 2, coarser = own.at(-1)!; level >= 0; level--) {
    const { kinship } = strengths[level]!;
    const lent = expand({ ...strengths[level + 1]!, data: coarser }, strengths[level]!, edges).data;
    for (let at = 0; at < lent.length; at++) lent[at]! *= kinship[at]!;
    fromCoarser[level] = lent;
    coarser = own[level]!.map((v, at) => v + lent[at]!);
  }
  let fromFiner: Float32Array | null = null;
  return strengths.map(({ width, height, kinship }, level) => {
    const mine = own[level]!;
    const coarser = fromCoarser[level];
    const data = new Float32Array(mine.length);
    const lent = new Float32Array(mine.length);
    for (let at = 0; at < data.length; at++) {
      const upTo = mine[at]! + (fromFiner ? fromFiner[at]! : 0);
      lent[at] = upTo * kinship[at]!;
      data[at] = kept(upTo + (coarser ? coarser[at]! : 0));
    }
    fromFiner = reduce({ width, height, data: lent }, edges).data;
    return { width, height, data };
  });
}

/** Part of a detail that is kept at V², steep about V = 1 and soft enough to leave no seam: V⁸ / (1 + V⁸). Our choice. */
function kept(visibleSquared: number): number {
  const steep = visibleSquared * visibleSquared * visibleSquared * visibleSquared;
  return steep > 1e12 ? 1 : steep / (1 + steep);
}

interface Keeping {
  readonly parts: readonly Plane[];
  /** The first of the parts is for this level; finer ones go by it too. */
  readonly ahead: number;
  /** How many levels the parts decide on; what is coarser is kept. */
  readonly levels: number;
  readonly edges: Edges;
}

/** The picture of what is kept. */
function collapsed({ details, blurred }: Pyramid, { parts, ahead, levels, edges }: Keeping): Float32Array {
  const wholes = parts.map(wholeOf);
  let level = Math.min(ahead + levels, details.length);
  while (level > 0 && wholes[Math.max(0, level - 1 - ahead)] === 1) level -= 1;
  let picture = blurred[level]!;
  let part: Plane | number = 1;
  while (level > 0) {
    level -= 1;
    const place = level - ahead;
    if (place >= 0) part = wholes[place] ?? parts[place]!;
    // Finer than what judges: the part of the level before, now on half this level's pixels.
    else if (typeof part !== "number") part = double(part, details[level + 1]!, edges);
    picture = addPart(picture, details[level]!, part, edges);
  }
  return picture.data;
}

/** 0 or 1 where a level is lost or kept as a whole, to a hundred-thousandth; or its one part. */
function wholeOf({ data }: Plane): number | null {
  if (data.length === 1) return data[0]!;
  let least = 1;
  let most = 0;
  for (const part of data) {
    if (part < least) least = part;
    if (part > most) most = part;
  }
  return least > 1 - 1e-5 ? 1 : most < 1e-5 ? 0 : null;
}

/** For each channel and level: 2 S² over the levels' power gain, by balance from −1 (all coarser) to 1 (all finer). */
function thresholdTables(levels: number, scale: number, luminance: number, look: Look): Channels<Float64Array[]> {
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
  const own = (look.threshold ?? 1) ** -2;
  return [
    (2 * own * lightDark) / (1 + stitchPower * maskTuning(frequency, textureFrequency) + floorPower * lightDark),
    2 * own * hue * squared("redGreen"),
    2 * own * hue * squared("yellowViolet"),
  ];
}

/**
 * Cycles² in the patch that is looked at: a motif's own size once holds about two of its coarsest wave and more of its finer ones
 * (vision.md B2). Our choice.
 */
const PATCH_CYCLES_SQUARED = 3;

/** Levels down to a quarter of a cycle per degree; what is coarser is always kept. Our choice. */
function levelsFor(
  picture: Pick<Judged, "width" | "height" | "millimetresPerPixel">,
  look: Look,
  edges: Edges,
): number {
  const finest = (frequencyOf(0, 0) / picture.millimetresPerPixel) * millimetresPerDegree(look.distanceMm);
  return Math.max(1, Math.min(roomFor(picture, edges), Math.ceil(Math.log2(finest / 0.25)) + 1));
}

/**
 * Level by level, what every squared contrast is multiplied by: 1 over the square of the local mean of A and the veil. The eye is adapted to a
 * neighbourhood of some stitches or about a degree, whichever is more, not to one dark motif (vision.md B1). Our choice.
 */
function groundsOf({ blurred, millimetresPerPixel }: Judged, look: Look, edges: Edges): Float32Array[] {
  const reach = Math.max(GROUND_MM, millimetresPerDegree(look.distanceMm));
  const wanted = Math.round(Math.log2(reach / 3 / millimetresPerPixel));
  const level = Math.min(blurred.length - 1, Math.max(0, wanted));
  const veil = look.veil * WHITE_RESPONSE;
  const wide = surroundings(blurred[level]!, edges);
  const grounds: Plane[] = [];
  grounds[level] = { ...wide, data: wide.data.map((mean) => Math.max(0, mean) + veil) };
  for (let finer = level - 1; finer > 0; finer--) grounds[finer] = expand(grounds[finer + 1]!, blurred[finer]!, edges);
  for (let coarser = level + 1; coarser < blurred.length; coarser++)
    grounds[coarser] = reduce(grounds[coarser - 1]!, edges);
  // Powers lie on half their level's pixels each way.
  return grounds.slice(1).map(({ data }) => data.map((mean) => 1 / (mean * mean)));
}
const GROUND_MM = 40;

/** What lies over the colours: its light and shadow, times, and what is neither colour nor shadow, added. */
export interface Surface {
  readonly light: Float32Array;
  readonly rest: Float32Array;
  /** How much of the rest is there. */
  readonly fine: number;
}

/** The picture of three channels, as large as another, under a surface if there is one. */
export function rasterOf(channels: Channels<Float32Array>, like: Raster, surface?: Surface): Raster {
  const [lightDark, redGreen, yellowViolet] = channels;
  const data = new Float32Array(like.data.length);
  const m = OPPONENT_TO_LINEAR;
  for (let at = 0, to = 0; at < lightDark.length; at++, to += 3) {
    const [a, r, y] = [lightDark[at]!, redGreen[at]!, yellowViolet[at]!];
    data[to] = m[0] * a + m[1] * r + m[2] * y;
    data[to + 1] = m[3] * a + m[4] * r + m[5] * y;
    data[to + 2] = m[6] * a + m[7] * r + m[8] * y;
    if (!surface) continue;
    const light = surface.light[at]!;
    data[to] = Math.max(0, data[to]! * light + surface.rest[to]! * surface.fine);
    data[to + 1] = Math.max(0, data[to + 1]! * light + surface.rest[to + 1]! * surface.fine);
    data[to + 2] = Math.max(0, data[to + 2]! * light + surface.rest[to + 2]! * surface.fine);
  }
  return { ...like, data };
}
