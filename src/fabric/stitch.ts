/** The shape and shading of one knit stitch seen from the right side, so that the cloth on the screen is knitting and not a grid of squares. */
import { assert } from "../base/assert.ts";
import { seededRandom } from "../base/random.ts";

/**
 * One cell of stocking stitch, worked out finely before it is shrunk to any number of pixels. A cell shows three stitches:
 * its own, the feet of the one above and the tips of the one below. Rows from the top, left to right, x and y in
 * stitch widths.
 */
export interface StitchRelief {
  readonly width: number;
  readonly height: number;
  /** Which stitch is seen: OWN, ABOVE or BELOW. */
  readonly owner: Uint8Array;
  /** Light sent back relative to the flat yarn; the mean of each stitch over all cells that show it is 1. */
  readonly shading: Float32Array;
  /** Order of a heather's fibres, in no unit: see `fibreRanks`. */
  readonly fibre: Float32Array;
  /** Which way round the strand the eye sees its plies: whole turns, of which the part past the whole one tells the ply. */
  readonly turn: Float32Array;
}

export const OWN = 0;
export const ABOVE = 1;
export const BELOW = 2;

/** Flat: knitted in; raised: duplicate stitch, a second strand laid over the knitted one. */
export type StitchKind = "knitted" | "laidOver";

/** Different enough that the eye finds no repeat, few enough to be worked out at once. Our choice. */
export const VARIANTS = 12;

/**
 * @param aspect height of a row over the width of a stitch, above 0
 * @param columns samples across the cell
 * @param variant 0 to VARIANTS − 1: the same cell, a little differently knitted
 * Shape: the centre line of a leg rises one row while it crosses half a stitch, from behind the stitch below to behind
 * the stitch above, as in the loop models of plain knitting (Munden 1959); all other numbers are our choice, by eye.
 */
export function stitchRelief(
  aspect: number,
  columns: number,
  variant: number,
  kind: StitchKind,
  seed: number,
): StitchRelief {
  assert(aspect > 0 && columns >= 4, "a stitch has a size");
  const width = columns;
  const height = Math.max(4, Math.round(columns * aspect));
  const count = width * height;
  const warp = warpOf(seed * VARIANTS + variant);
  const common = fibreNoise(seed + 104729);
  const special = fibreNoise(seed * VARIANTS + variant + 7919);
  const owner = new Uint8Array(count);
  const depth = new Float32Array(count);
  const ridge = new Float32Array(count);
  const fibre = new Float32Array(count);
  const turn = new Float32Array(count);
  const legs = legsOf(kind);
  for (let j = 0; j < height; j++) {
    for (let i = 0; i < width; i++) {
      const at = j * width + i;
      const [x, v] = warp((i + 0.5) / width - 0.5, 1 - (j + 0.5) / height);
      // Fibres differ inside the cell and agree on its border, where the next cell goes on with them.
      const inside = Math.sin(Math.PI * (1 - (j + 0.5) / height));
      const noise = (a: number, b: number): number => common(a, b) * (1 - inside) + special(a, b) * inside;
      let best = -Infinity;
      for (const leg of legs) {
        const s = v - leg.row;
        if (s < -REACH || s > 1 + REACH) continue;
        const side = x < 0 ? -1 : 1;
        const centre = centreOf(s);
        const slope = slopeOf(s) / aspect;
        const across = ((Math.abs(x) - centre) / Math.sqrt(1 + slope * slope)) * side;
        const radius = leg.radius * taper(s);
        const d = across / radius;
        // Outside the strand the surface falls away steeply; the nearest strand still owns the gap, in its own shadow.
        const roof = d * d < 1 ? radius * Math.sqrt(1 - d * d) * ROUND : -(Math.abs(d) - 1) * 0.3;
        const z = roof + leg.lift + crown(s);
        if (z > best) {
          best = z;
          owner[at] = leg.owner;
          depth[at] = z;
          const along = s * aspect * LEG_LENGTH;
          const twist = along * PLY_TURNS + d * PLY_SKEW + side * 0.2;
          turn[at] = twist / 2;
          const ply = Math.abs(Math.sin(Math.PI * twist));
          const hair = noise(along * 3.2 + d * 0.9, d * 3.4 + side * 11);
          ridge[at] = d * d < 1 ? PLY_DEPTH * ply + HAIR_DEPTH * hair : 0;
          fibre[at] = noise(along * 2.1 + d * 0.7 + 31, d * 1.6 + side * 17);
        }
      }
    }
  }
  const shading = lightOf(width, height, depth, ridge);
  soften(shading, width, height);
  level(shading);
  makeUneven(shading, width, height, variant);
  return { width, height, owner, shading, fibre, turn };
}

/** Radius of a strand in stitch widths: stacked legs press on each other a little. */
const RADIUS = 0.222;
/** How far a leg's ends run on behind its neighbours, in rows. */
const REACH = 0.3;
/** A strand under tension is flatter than round. */
const ROUND = 0.9;
/** Length of a leg over its height. */
const LEG_LENGTH = 1.14;
/** Two plies: a ridge each half turn. */
const PLY_TURNS = 3.4;
const PLY_SKEW = 0.62;
const PLY_DEPTH = 0.03;
const HAIR_DEPTH = 0.022;

interface Leg {
  readonly owner: number;
  /** Row of the leg's stitch, counted from the cell's own. */
  readonly row: number;
  readonly lift: number;
  readonly radius: number;
}

function legsOf(kind: StitchKind): Leg[] {
  const own =
    kind === "laidOver"
      ? { owner: OWN, row: 0, lift: 0.05, radius: RADIUS * 1.12 }
      : { owner: OWN, row: 0, lift: 0, radius: RADIUS };
  return [own, { owner: ABOVE, row: 1, lift: 0, radius: RADIUS }, { owner: BELOW, row: -1, lift: 0, radius: RADIUS }];
}

/** Distance of the leg's centre line from the middle of the stitch; s is 0 at the foot and 1 at the tip. */
const centreOf = (s: number): number => 0.25 + LEAN * (s - 0.5) - SWAY * Math.sin(2 * Math.PI * s);
const slopeOf = (s: number): number => LEAN - 2 * Math.PI * SWAY * Math.cos(2 * Math.PI * s);
/** Stitch widths that a leg crosses in one row, and how far it bends from the straight: a lazy S. */
const LEAN = 0.36;
const SWAY = 0.022;

/** The strand narrows where it dives behind its neighbours. */
function taper(s: number): number {
  const end = Math.max(0, (Math.abs(s - 0.5) - 0.1) / (0.5 + REACH - 0.1));
  return Math.sqrt(Math.max(0.0025, 1 - end * end));
}

/** The leg comes forward in its lower middle and goes back at both ends, more at the tip. */
const crown = (s: number): number => -0.34 * (s - 0.46) * (s - 0.46) - 0.02 * s;

/** From above and from the left, x to the right, y up, z to the eye. */
const LIGHT = [-0.42, 0.52, 0.745] as const;

function lightOf(width: number, height: number, depth: Float32Array, ridge: Float32Array): Float32Array {
  const shading = new Float32Array(width * height);
  const scale = width / 2;
  const surface = (i: number, j: number): number => depth[j * width + i]! + ridge[j * width + i]!;
  for (let j = 0; j < height; j++) {
    for (let i = 0; i < width; i++) {
      const at = j * width + i;
      // The mirror at the cell's left and right edges is the neighbouring column's crease.
      const left = surface(Math.max(0, i - 1), j);
      const right = surface(Math.min(width - 1, i + 1), j);
      const above = surface(i, (j + height - 1) % height);
      const below = surface(i, (j + 1) % height);
      const gx = Math.max(-1.6, Math.min(1.6, (right - left) * scale));
      const gy = Math.max(-1.6, Math.min(1.6, (above - below) * scale));
      const lit = (-gx * LIGHT[0] - gy * LIGHT[1] + LIGHT[2]) / Math.sqrt(1 + gx * gx + gy * gy);
      const open = smoothstep(-0.13, 0.17, depth[at]!);
      shading[at] =
        (0.5 + 0.5 * Math.max(0, 0.25 + 0.75 * lit)) *
        (0.34 + 0.66 * open) *
        (1 + 1.6 * ridge[at]!) *
        seam((i + 0.5) / width - 0.5);
    }
  }
  return shading;
}

/** Strands that lie side by side keep the light from each other: between columns, and less between a stitch's legs. */
const seam = (x: number): number =>
  1 - 0.3 * Math.exp(-(((0.5 - Math.abs(x)) / 0.04) ** 2)) - 0.22 * Math.exp(-((x / 0.035) ** 2));

const smoothstep = (from: number, to: number, x: number): number => {
  const t = Math.min(1, Math.max(0, (x - from) / (to - from)));
  return t * t * (3 - 2 * t);
};

/**
 * Wool scatters light: what is as broad as a leg is lit from within and half filled up, thin creases and fibres stay. With it the
 * cloth's texture is as strong as the seeing model takes wool's to be (vision.md B7), and stitches are as crisp as without.
 */
function soften(shading: Float32Array, width: number, height: number): void {
  const radius = (samples: number): number => Math.max(0, (SCATTER * samples - 1) / 2);
  let broad = shading;
  // Three runs of a box are near a bell.
  for (let run = 0; run < 3; run++) {
    broad = boxed(broad, { count: width, step: 1 }, { count: height, step: width }, radius(width));
    broad = boxed(broad, { count: height, step: width }, { count: width, step: 1 }, radius(height));
  }
  const mean = shading.reduce((sum, light) => sum + light, 0) / shading.length;
  for (let at = 0; at < shading.length; at++) shading[at]! -= FILLED * (broad[at]! - mean);
}

/** Width and height of the box in stitches and rows, and how much of what is broader is filled up. */
const SCATTER = 0.225;
const FILLED = 0.81;

interface Axis {
  readonly count: number;
  readonly step: number;
}

/** Running means along an axis over so many samples to either side, not always whole; the neighbouring cell goes on as this one begins. */
function boxed(data: Float32Array, along: Axis, across: Axis, radius: number): Float32Array {
  const out = new Float32Array(data.length);
  const whole = Math.floor(radius);
  const ends = radius - whole;
  for (let line = 0; line < across.count; line++) {
    const at = (place: number): number =>
      line * across.step + (((place % along.count) + along.count) % along.count) * along.step;
    let sum = 0;
    for (let place = -whole; place <= whole; place++) sum += data[at(place)]!;
    for (let place = 0; place < along.count; place++) {
      const next = data[at(place + whole + 1)]!;
      out[at(place)] = (sum + ends * (next + data[at(place - whole - 1)]!)) / (2 * radius + 1);
      sum += next - data[at(place - whole)]!;
    }
  }
  return out;
}

/** No two stitches send back the same light: yarn is thick and thin, one is pulled tighter. All variants together keep the mean. */
function makeUneven(shading: Float32Array, width: number, height: number, variant: number): void {
  const own = UNEVENNESS * ((((variant * 5) % VARIANTS) - (VARIANTS - 1) / 2) / ((VARIANTS - 1) / 2));
  for (let at = 0; at < shading.length; at++) {
    // Nothing at the upper and lower border, where the next cell goes on with the leg.
    const inside = Math.sin((Math.PI * (Math.floor(at / width) + 0.5)) / height);
    shading[at]! *= 1 + own * 2 * inside * inside;
  }
}

/** Of the lightest and the darkest variant, over the whole stitch. */
const UNEVENNESS = 0.061;

/** Colours stay true: the light of a cell adds up to that of its flat area. */
function level(shading: Float32Array): void {
  const mean = shading.reduce((sum, light) => sum + light, 0) / shading.length;
  for (let at = 0; at < shading.length; at++) shading[at]! /= mean;
}

/** Place of each sample in the order of its stitch's fibres, uniform in (0, 1), so that a fleck of share p covers p of it. */
export const fibreRanks = ({ owner, fibre }: StitchRelief): Float32Array => ranksIn(owner, (at) => fibre[at]!);

/** The same round the strand: each part of a turn is one ply's. */
export const plyRanks = ({ owner, turn }: StitchRelief): Float32Array =>
  ranksIn(owner, (at) => turn[at]! - Math.floor(turn[at]!));

/** The same outwards from a place on one of the stitch's legs, along which a speck is longer than broad. Our choice, by eye. */
export function speckRanks({ owner, width, height, fibre }: StitchRelief): Float32Array {
  // Fibres of a cell differ from those of another, so they decide where its speck lies.
  const chance = fibre[fibre.length >> 1]! - Math.floor(fibre[fibre.length >> 1]!);
  const side = chance < 0.5 ? -1 : 1;
  const middle = 0.36 + 0.26 * ((chance * 8) % 1);
  return ranksIn(owner, (at) => {
    const row = Math.floor(at / width);
    const x = side * ((at - row * width + 0.5) / width - 0.5);
    const s = 1 - (row + 0.5) / height;
    const otherLeg = x < 0 ? OTHER_LEG : 0;
    return otherLeg + Math.hypot((x - centreOf(s)) * SLENDER, s - middle);
  });
}

const SLENDER = 1.5;
/** In the order after all of the speck's own leg. */
const OTHER_LEG = 9;

function ranksIn(owner: Uint8Array, orderOf: (at: number) => number): Float32Array {
  const ranks = new Float32Array(owner.length);
  const order = Float32Array.from(owner, (_, at) => orderOf(at));
  for (const stitch of [OWN, ABOVE, BELOW]) {
    const places = Array.from(owner.keys()).filter((at) => owner[at] === stitch);
    places.sort((a, b) => order[a]! - order[b]!);
    places.forEach((at, place) => (ranks[at] = (place + 0.5) / places.length));
  }
  return ranks;
}

/** No two stitches are pulled alike: the inside of the cell is pushed about, its border stays, so that cells join. */
function warpOf(seed: number): (x: number, v: number) => [number, number] {
  const random = seededRandom(seed);
  const swing = (size: number): number => (random() - 0.5) * 2 * size;
  const shift = swing(0.022);
  const lift = swing(0.045);
  const left = swing(0.02);
  const right = swing(0.02);
  const skew = swing(0.04);
  return (x, v) => {
    const inside = Math.sin(Math.PI * v);
    const middle = Math.cos(Math.PI * x);
    const legs = Math.sin(2 * Math.PI * Math.abs(x)) * (x < 0 ? left : right);
    return [
      x + inside * (shift * middle + legs * Math.sign(x)),
      v + inside * (lift + skew * Math.sin(2 * Math.PI * x)),
    ];
  };
}

/** Smooth value noise in two octaves, −1 to 1. */
function fibreNoise(seed: number): (x: number, y: number) => number {
  const random = seededRandom(seed);
  const lattice = Float32Array.from({ length: 1024 }, () => random() * 2 - 1);
  const at = (x: number, y: number): number => lattice[(x + y * 37) & 1023]!;
  const octave = (x: number, y: number): number => {
    const i = Math.floor(x);
    const j = Math.floor(y);
    const u = (x - i) * (x - i) * (3 - 2 * (x - i));
    const w = (y - j) * (y - j) * (3 - 2 * (y - j));
    const top = at(i, j) * (1 - u) + at(i + 1, j) * u;
    const bottom = at(i, j + 1) * (1 - u) + at(i + 1, j + 1) * u;
    return top * (1 - w) + bottom * w;
  };
  return (x, y) => 0.62 * octave(x, y) + 0.38 * octave(x * 2.3 + 19, y * 2.3 + 7);
}
