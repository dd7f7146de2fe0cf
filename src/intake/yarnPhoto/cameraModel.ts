/**
 * What a camera, its lens and the light of a room may do to a colour before it is written down, undone: the light across the
 * picture, a veil of stray light, the tone curve, the cast, and how channels mix. All of it is one list of numbers that are 0
 * for the usual camera and spread like the standard normal over cameras at large.
 */
import { labFromXyz, type Lab } from "../../colour/lab.ts";
import { encodeSrgb, type LinearRgb } from "../../colour/srgb.ts";
import { xyzFromLinear } from "../../colour/xyz.ts";
import type { Point } from "./homography.ts";
import { lowerOf } from "./symmetric.ts";

/** Encoded values between which the curve is drawn straight, in the logarithm of light. */
const KNOTS: readonly number[] = [0, 0.08, 0.17, 0.27, 0.38, 0.5, 0.62, 0.74, 0.87, 1];

/**
 * How strongly curves at large bend against the standard one, ln light, and how far along the encoded scale a bend keeps its
 * direction. Birthplace: gammas of 1.8 to 2.4, filmic shoulders and S-curves drawn beside each other; real phones lie within.
 */
const BEND = { size: 0.22, reach: 0.3 };
/** What curves at large do on average at the knots: lights are pressed together towards white. */
const BENT_USUALLY: readonly number[] = [0, 0, 0, 0, 0, 0, 0.01, 0.03, 0.07, 0.12];
/** Slope of the whole curve in log–log: gammas from 2 to 2.6 instead of 2.2 or so. */
const SLOPE = 0.07;
/** Channels that have a curve of their own: a slope and a bow against the green one, ln light over the scale. */
const OWN = 0.05;
/** Stray light, as part of white: half of it is usual. */
const VEIL = { usual: 0.003, spread: 0.003 };
/** Channels mixed otherwise than the standard's, each of six parts: cameras like stronger colours, stray light makes weaker ones. */
const MIXED_USUALLY = 0.01;
/** Light that slants across half the picture's diagonal, ln light, and falls towards its corners. */
const SLANT = 0.12;
/** Light that is otherwise along one axis than along the other, and along one diagonal. */
const SADDLE = 0.04;
const CORNER = { usual: -0.06, spread: 0.08 };
/** Two kinds of light in one room: how far red and blue slant by themselves. */
const CAST_SLANT = 0.03;

/** What is taken for granted before anything is seen. */
export interface CameraPrior {
  /** ln gain of green, and how far red's and blue's may be from it. */
  readonly usual: number;
  readonly spread: number;
  readonly cast: readonly [number, number];
  /** How far each of six parts that mix channels may be from the usual, and each of nine for pairs of channels, which bend hues. */
  readonly mixing: number;
  readonly pairs: number;
}

const GAIN = 0;
const CURVE = GAIN + 3;
const STEEP = CURVE + KNOTS.length;
const OWN_CURVES = STEEP + 1;
const VEILED = OWN_CURVES + 4;
const MIXED = VEILED + 1;
const PAIRED = MIXED + 6;
const LIGHT = PAIRED + 9;
const CASTS = LIGHT + 5;
export const GROUND = CASTS + 4;
/** The last three are the ground's own light, ln, against what it seems at first. */
export const UNKNOWNS = GROUND + 3;

/** The factor of the curve's covariance, so that independent numbers make curves that bend gently. */
const BENDS = lowerOf(
  KNOTS.map((one, row) =>
    KNOTS.map(
      (other, column) =>
        BEND.size ** 2 * Math.exp(-0.5 * ((one - other) / BEND.reach) ** 2) + (row === column ? 1e-5 : 0),
    ),
  ),
);

/** The picture's size, pixels. */
export interface Frame {
  readonly width: number;
  readonly height: number;
}

export interface Camera {
  /** ln of light in proportion to what fell on the camera, channel by channel. */
  readonly straight: (rgb: LinearRgb) => Triple;
  /** ln of the light that falls there, channel by channel; 0 at the picture's middle. */
  readonly lightAt: (at: Point) => Triple;
  readonly labOf: (rgb: LinearRgb, at: Point) => Lab;
}

type Triple = readonly [number, number, number];
/** Light that no camera tells from none, as part of white. */
const LEAST = 1e-5;

/** @param unknowns `UNKNOWNS` numbers; all 0 is the usual camera */
export function cameraOf(unknowns: ArrayLike<number>, prior: CameraPrior, { width, height }: Frame): Camera {
  const z = (at: number): number => unknowns[at]!;
  const green = prior.usual + prior.spread * z(GAIN);
  const gains = [green + prior.cast[0] * z(GAIN + 1), green, green + prior.cast[1] * z(GAIN + 2)] as const;
  const bends = BENDS.map((row, knot) =>
    row.reduce((sum, part, at) => sum + part * z(CURVE + at), BENT_USUALLY[knot]!),
  );
  const steep = SLOPE * z(STEEP);
  const own = [
    [OWN * z(OWN_CURVES), OWN * z(OWN_CURVES + 1)],
    [0, 0],
    [OWN * z(OWN_CURVES + 2), OWN * z(OWN_CURVES + 3)],
  ] as const;
  const veil = VEIL.usual + VEIL.spread * z(VEILED);
  const straightened = (light: number, channel: 0 | 1 | 2): number => {
    const encoded = Math.min(1, Math.max(0, encodeSrgb(light)));
    let knot = 1;
    while (knot < KNOTS.length - 1 && KNOTS[knot]! < encoded) knot++;
    const part = (encoded - KNOTS[knot - 1]!) / (KNOTS[knot]! - KNOTS[knot - 1]!);
    const bend = bends[knot - 1]! + part * (bends[knot]! - bends[knot - 1]!);
    const [slope, bow] = own[channel];
    // Anchored at middle grey, so that a steeper curve is not a lighter one.
    const off = encoded - 0.46;
    const more = bend + steep * Math.log((Math.max(0, light) + 0.002) / 0.18) + slope * off + bow * (off * off - 0.08);
    return Math.max(0, light) * Math.exp(more) - veil;
  };
  const half = Math.hypot(width, height) / 2;
  const corner = CORNER.usual + CORNER.spread * z(LIGHT + 2);
  const lightAt = ([x, y]: Point): Triple => {
    const [u, v] = [(x - width / 2) / half, (y - height / 2) / half];
    const all =
      SLANT * (z(LIGHT) * u + z(LIGHT + 1) * v) +
      corner * (u * u + v * v) +
      SADDLE * (z(LIGHT + 3) * (u * u - v * v) + z(LIGHT + 4) * 2 * u * v);
    return [
      all + CAST_SLANT * (z(CASTS) * u + z(CASTS + 1) * v),
      all,
      all + CAST_SLANT * (z(CASTS + 2) * u + z(CASTS + 3) * v),
    ];
  };
  return {
    straight: (rgb) => {
      const logs = ([0, 1, 2] as const).map((channel) =>
        Math.log(Math.max(LEAST, straightened(rgb[channel], channel))),
      );
      return [logs[0]!, logs[1]!, logs[2]!];
    },
    lightAt,
    labOf: (rgb, at) => {
      const lights = lightAt(at);
      const even = (channel: 0 | 1 | 2): number =>
        straightened(rgb[channel], channel) * Math.exp(gains[channel] - lights[channel]);
      return labFromXyz(xyzFromLinear(mixed([even(0), even(1), even(2)], prior, z)));
    },
  };
}

function mixed([r, g, b]: LinearRgb, prior: CameraPrior, z: (at: number) => number): LinearRgb {
  const root = (one: number, other: number): number => Math.sqrt(Math.max(0, one * other)) - (one + other) / 2;
  const [rg, gb, rb] = [root(r, g), root(g, b), root(r, b)];
  const pairs = (row: number): number =>
    prior.pairs * (z(PAIRED + 3 * row) * rg + z(PAIRED + 3 * row + 1) * gb + z(PAIRED + 3 * row + 2) * rb);
  const part = (at: number): number => MIXED_USUALLY + prior.mixing * z(MIXED + at);
  return [
    r + part(0) * (g - r) + part(1) * (b - r) + pairs(0),
    g + part(2) * (r - g) + part(3) * (b - g) + pairs(1),
    b + part(4) * (r - b) + part(5) * (g - b) + pairs(2),
  ];
}
