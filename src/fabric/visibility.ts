/** How a motif in given colours shows at a distance: the public measure of the seeing model. */
import type { Vector3 } from "../base/matrix3.ts";
import { xyzFromLab, type Lab } from "../colour/lab.ts";
import { NO_STITCH } from "../chart/chart.ts";
import { stitchSizeMm, type Gauge } from "../garment/gauge.ts";
import { KNITTED_WOOL, type Texture } from "../vision/masking.ts";
import { opponentFromXyz } from "../vision/opponent.ts";
import { ROOM_VEIL } from "../vision/viewing.ts";
import {
  farthest,
  fieldOf,
  gainsOf,
  join,
  patternVisibility,
  type ChannelVisibility,
  type Eye,
  type Field,
  type RadialSpectrum,
} from "../vision/visibility.ts";
import { spectrumOf, type Piece } from "./spectra.ts";
import { wordOf, WORD_LIMITS, type Word } from "./word.ts";

export { limitsFor, wordOf, WORD_LIMITS, type Word, type WordLimits } from "./word.ts";

/** What hue counts for beside light–dark, and at the ends of the range. Birthplace: vision.md B7a, our choice. */
export const HUE_WEIGHT = { usual: 0.5, low: 0, high: 1 } as const;

/** The eye of the model as used. Cap: vision.md B1, our choice. */
export const USUAL_EYE: Eye = { texture: KNITTED_WOOL, veil: ROOM_VEIL, contrastCap: 2 };

/** The usual eye before a cloth whose texture was measured, or before hand-knit wool where none was. */
export const eyeBefore = (texture: Texture | undefined): Eye => (texture ? { ...USUAL_EYE, texture } : USUAL_EYE);

/** Light in a room, lux. Birthplace: vision.md B2, our choice. */
export const ROOM_LUX = 500;

export interface Motif {
  /** CIELAB, D65, 2°; "0" and "1" of the motif. */
  readonly background?: Lab;
  readonly foreground?: Lab;
  /** More colours than two: digits (and letters from a = 10) are indices. */
  readonly colours?: readonly Lab[];
  /** Top row first, one digit a stitch; tiles the plane. */
  readonly motif: readonly string[];
  readonly gauge: Gauge;
  /** Lux; 500 where missing. */
  readonly light?: number;
  /** What is looked at; the motif's own size once where missing. */
  readonly patch?: { readonly widthMm: number; readonly heightMm: number };
  /** "once": an isolated row or band, alone above and below. */
  readonly rows?: "once";
}

/** Farthest distance in metres; 0 = never; beyond = still so at 60 cycles per degree. */
export interface ReadsTo {
  readonly metres: number;
  readonly low: number;
  readonly high: number;
  readonly beyond: boolean;
}

/**
 * How visible a motif is. V = 1 is just detected, 3 reads.
 * @param motif colours in Lab D65; `distance` in metres
 * @returns V; its light–dark part; its word
 * @throws RangeError for an empty or ragged motif, a digit without a colour, or a number that is not finite and positive
 * Source: vision.md B1, B2, B7. A model of ordinary eyesight, not tested on knitting.
 */
export function visibility(motif: Motif & { readonly distance: number }): {
  V: number;
  lightDark: number;
  shows: Word;
} {
  const scene = sceneOf(motif);
  const channels = channelsAt(scene, positive(motif.distance, "distance") * 1000);
  const V = join(channels, HUE_WEIGHT.usual);
  return { V, lightDark: channels.lightDark, shows: wordOf(V) };
}

/**
 * The farthest distance at which a motif still reads.
 * @param motif `threshold` is the V that counts as reading, 3 where missing
 * @returns metres; `low` and `high` are the same with hue counted for nothing and in full: colours stated as Lab and a stated
 * threshold carry no other doubt. `beyond`: still clear at 60 cycles per degree, a boundary of the model.
 * @throws RangeError as `visibility`
 */
export function readsTo(motif: Motif & { readonly threshold?: number }): ReadsTo {
  const scene = sceneOf(motif);
  return readsToOf(scene, positive(motif.threshold ?? WORD_LIMITS.clear, "threshold"));
}

/** A piece of cloth with its colours and light, ready to be looked at from any distance. */
export interface Scene {
  readonly spectrum: RadialSpectrum;
  readonly field: Field;
  readonly eye: Eye;
}

export function channelsAt(scene: Scene, distanceMm: number): ChannelVisibility {
  const gains = gainsOf(scene.spectrum, distanceMm, scene.field.luminance, scene.eye);
  return patternVisibility(scene.spectrum, scene.field, gains);
}

/**
 * @param threshold the V that counts as reading
 * @param ends thresholds of the two ends of the range, where more than the weight of hue is in doubt
 */
export function readsToOf(scene: Scene, threshold: number, ends = { low: threshold, high: threshold }): ReadsTo {
  // The three searches share what was seen at each distance.
  const seen = new Map<number, ChannelVisibility>();
  const at = (distanceMm: number): ChannelVisibility => {
    let channels = seen.get(distanceMm);
    if (!channels) seen.set(distanceMm, (channels = channelsAt(scene, distanceMm)));
    return channels;
  };
  const search = (hueWeight: number, wanted: number) =>
    farthest(scene.spectrum, (mm) => join(at(mm), hueWeight), wanted);
  const usual = search(HUE_WEIGHT.usual, threshold);
  return {
    metres: usual.distanceMm / 1000,
    low: search(HUE_WEIGHT.low, ends.low).distanceMm / 1000,
    high: search(HUE_WEIGHT.high, ends.high).distanceMm / 1000,
    beyond: usual.beyond,
  };
}

/** The scene of colours on a spectrum's areas. */
export function sceneFor(spectrum: RadialSpectrum, labs: readonly Lab[], lux: number, eye: Eye): Scene {
  const responses: Vector3[] = [];
  let meanY = 0;
  labs.forEach((lab, index) => {
    const xyz = xyzFromLab(lab);
    responses.push(opponentFromXyz(xyz));
    meanY += spectrum.shares[index]! * xyz[1];
  });
  return { spectrum, field: fieldOf(spectrum.shares, responses, meanY, lux, eye), eye };
}

function sceneOf(motif: Motif): Scene {
  const labs = motif.colours ?? [motif.background, motif.foreground];
  if (labs.some((lab) => !lab || lab.length !== 3 || lab.some((part) => !Number.isFinite(part))))
    throw new RangeError("visibility: expected Lab colours of three finite numbers");
  const colours = labs as readonly Lab[];
  const gauge = {
    stitches: positive(motif.gauge.stitches, "gauge.stitches"),
    rows: positive(motif.gauge.rows, "gauge.rows"),
  };
  const spectrum = spectrumOf(pieceOfMotif(motif.motif, colours.length), {
    stitch: stitchSizeMm(gauge),
    rows: motif.rows ?? "tiled",
    ...(motif.patch
      ? {
          patch: {
            widthMm: positive(motif.patch.widthMm, "patch.widthMm"),
            heightMm: positive(motif.patch.heightMm, "patch.heightMm"),
          },
        }
      : {}),
  });
  return sceneFor(spectrum, colours, positive(motif.light ?? ROOM_LUX, "light"), USUAL_EYE);
}

function positive(value: number, name: string): number {
  if (!(Number.isFinite(value) && value > 0))
    throw new RangeError(`visibility: expected ${name} to be a number above 0, found ${value}`);
  return value;
}

/** Motif text, digits as indices, as a piece. */
export function pieceOfMotif(rows: readonly string[], count: number): Piece {
  const width = rows[0]?.length ?? 0;
  if (width === 0) throw new RangeError("visibility: expected a motif with at least one stitch, found none");
  const cells = rows.flatMap((row, index) => {
    if (row.length !== width)
      throw new RangeError(
        `visibility: expected ${width} stitches in motif row ${index + 1} from the top, found ${row.length}`,
      );
    return [...row].map((digit) => {
      if (digit === "-") return NO_STITCH;
      const area = Number.parseInt(digit, 36);
      if (!(area < count))
        throw new RangeError(`visibility: expected a digit below ${count} in the motif, found "${digit}"`);
      return area;
    });
  });
  return { width, height: rows.length, cells, count };
}
