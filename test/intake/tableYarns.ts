/** Yarns as they lie on a table, each a small solid that says of any place what is seen there: wound, twisted, laid out. */
import type { Random } from "../../src/base/random.ts";

export type Light = readonly [number, number, number];

/** What is seen at a place of a thing: the yarn itself, or what is no yarn but belongs to it. */
export interface Seen {
  readonly part: "yarn" | "band" | "card";
  readonly colour: Light;
  /** Light that reaches it, about 1 where it faces the lamp. */
  readonly lit: number;
  /** Which of several yarns on one card. */
  readonly which: number;
}

export interface Thing {
  readonly kind: string;
  readonly x: number;
  readonly y: number;
  readonly turn: number;
  /** No part of it is farther from its middle, pixels. */
  readonly reach: number;
  /** How far it stands up from the table, pixels. */
  readonly height: number;
  readonly yarns: number;
  seenAt(u: number, v: number): Seen | null;
}

/** A yarn's own colour at a length along it and a place across its strand. */
export type Dye = (along: number, across: number) => Light;

export interface Spun {
  readonly dye: Dye;
  /** From strand to strand, pixels. */
  readonly pitch: number;
  /** How dark it is between strands, 0 to 1. */
  readonly deep: number;
  readonly fuzz: number;
}

/** A number from 0 to 1 that belongs to two whole numbers. */
export const grain = (x: number, y: number, seed: number): number => {
  let h =
    Math.imul(Math.floor(x) | 0, 374761393) ^ Math.imul(Math.floor(y) | 0, 668265263) ^ Math.imul(seed, 974634777);
  h = Math.imul(h ^ (h >>> 13), 1274126177);
  return ((h ^ (h >>> 16)) >>> 0) / 4294967296;
};

/** A field that changes smoothly over about 1, from 0 to 1. */
export function cloudAt(x: number, y: number, seed: number): number {
  const [i, j] = [Math.floor(x), Math.floor(y)];
  const [s, t] = [x - i, y - j].map((part) => part * part * (3 - 2 * part)) as [number, number];
  const row = (k: number): number => grain(i, k, seed) * (1 - s) + grain(i + 1, k, seed) * s;
  return row(j) * (1 - t) + row(j + 1) * t;
}

/** Light of a strand wound side by side with others, at a place across them and along them in pixels. */
function strand({ pitch, deep, fuzz, dye }: Spun, across: number, along: number, seed: number): [Light, number] {
  const wavy = across + 0.25 * pitch * (cloudAt(along / (6 * pitch), across / (2 * pitch), seed) - 0.5);
  const index = Math.floor(wavy / pitch);
  const from = (wavy / pitch - index) * 2 - 1;
  const ply = 0.1 * Math.sin((along / pitch + from * 0.6) * 3.4 + index * 2.1);
  const hair = fuzz * (grain(across * 1.7, along * 1.7, seed) - 0.5) * 2;
  const lit = 1 - deep * from ** 4 - deep * 0.3 * (1 - Math.sqrt(Math.max(0, 1 - from * from))) + ply * deep + hair;
  return [dye(along + 5000 * grain(index, 0, seed), from), Math.max(0.06, lit)];
}

const LAMP = [-0.42, -0.5, 0.757] as const;
const facing = (x: number, y: number, z: number, ambient: number): number =>
  ambient + (1 - ambient) * Math.max(0, (x * LAMP[0] + y * LAMP[1] + z * LAMP[2]) / 0.9);

type Where = { readonly x: number; readonly y: number; readonly turn: number };

export function ball(where: Where, radius: number, spun: Spun, random: Random): Thing {
  const layers = Array.from({ length: 9 }, () => {
    const z = 2 * random() - 1;
    const angle = 2 * Math.PI * random();
    const flat = Math.sqrt(1 - z * z);
    return { axis: [flat * Math.cos(angle), flat * Math.sin(angle), z], half: 0.2 + 0.35 * random() };
  });
  const seed = Math.floor(random() * 1e6);
  const squash = 0.86 + 0.14 * random();
  const ambient = 0.3 + 0.25 * random();
  const lumps = Array.from({ length: 4 }, () => [0.025 * random(), 2 * Math.PI * random()] as const);
  return {
    ...where,
    kind: "ball",
    reach: radius * 1.1,
    height: radius,
    yarns: 1,
    seenAt(u, v) {
      const angle = Math.atan2(v, u);
      const edge = lumps.reduce((sum, [size, at], k) => sum + size * Math.sin((k + 2) * angle + at), 1) * radius;
      const [x, y] = [u / edge, v / (edge * squash)];
      const out = x * x + y * y;
      if (out > 1) return null;
      const z = Math.sqrt(1 - out);
      let layer = 0;
      let latitude = 0;
      for (; layer < layers.length; layer++) {
        const { axis, half } = layers[layer]!;
        latitude = Math.asin(Math.max(-1, Math.min(1, x * axis[0]! + y * axis[1]! + z * axis[2]!)));
        if (Math.abs(latitude) < half) break;
      }
      const { axis } = layers[Math.min(layer, layers.length - 1)]!;
      const along = Math.atan2(x * axis[1]! - y * axis[0]!, z - latitude * axis[2]!) * radius;
      const [colour, lit] = strand(spun, latitude * radius, along, seed + layer);
      return { part: "yarn", colour, lit: lit * facing(x, y, z, ambient), which: 0 };
    },
  };
}

const PAPER: Light = [0.78, 0.77, 0.73];

/** A skein pulled from its middle with a paper band, or a hank twisted on itself. */
export function skein(where: Where, length: number, spun: Spun, random: Random): Thing {
  const twisted = random() < 0.5;
  const half = (twisted ? 0.17 + 0.05 * random() : 0.2 + 0.08 * random()) * length;
  const turns = 2 + Math.floor(random() * 3);
  const seed = Math.floor(random() * 1e6);
  const banded = random() < (twisted ? 0.2 : 0.6);
  const bandHalf = length * (0.09 + 0.06 * random());
  const tint: Light = [0.9 - 0.5 * random(), 0.9 - 0.5 * random(), 0.9 - 0.5 * random()];
  const ambient = 0.35 + 0.2 * random();
  return {
    ...where,
    kind: banded ? "banded" : twisted ? "hank" : "skein",
    reach: length * 0.55,
    height: half,
    yarns: 1,
    seenAt(u, v) {
      const s = u / (length / 2);
      if (Math.abs(s) > 1) return null;
      const round = (1 - Math.abs(s) ** (twisted ? 5 : 3)) ** (1 / 2.4);
      const bulge = twisted ? 0.86 + 0.14 * Math.abs(Math.sin(turns * Math.PI * (s + 1) * 0.5)) : 1;
      const edge = half * round * bulge;
      const y = v / Math.max(1, edge);
      if (Math.abs(y) > 1) return null;
      const z = Math.sqrt(1 - y * y);
      if (banded && Math.abs(u) < bandHalf) {
        const printed = grain(u / 4, v / 5, seed) < 0.22 && Math.abs(y) < 0.6;
        const colour: Light = printed ? [0.1, 0.1, 0.12] : [PAPER[0] * tint[0], PAPER[1] * tint[1], PAPER[2] * tint[2]];
        return { part: "band", colour, lit: facing(0, y, z, ambient), which: 0 };
      }
      const angle = Math.asin(y);
      const rope = twisted ? Math.sin(turns * Math.PI * (s + 1) + angle * 1.4) : 1;
      const slope = twisted ? 0.8 : 0.12;
      const across = angle * half + slope * u * (rope > 0 ? 1 : 0.7);
      const crease = twisted ? Math.min(1, 0.35 + 1.6 * Math.abs(rope)) : 1;
      const [colour, lit] = strand(spun, across, u, seed + (rope > 0 ? 1 : 2));
      return { part: "yarn", colour, lit: lit * crease * facing(0.3 * s, y, z, ambient), which: 0 };
    },
  };
}

export function cone(where: Where, tall: number, spun: Spun, random: Random): Thing {
  const [top, bottom] = [tall * (0.18 + 0.08 * random()), tall * (0.38 + 0.12 * random())];
  const seed = Math.floor(random() * 1e6);
  const board: Light = random() < 0.5 ? [0.42, 0.32, 0.2] : [0.75, 0.74, 0.72];
  return {
    ...where,
    turn: 0.3 * (random() - 0.5),
    kind: "cone",
    reach: tall * 0.75,
    height: tall * 0.6,
    yarns: 1,
    seenAt(u, v) {
      const s = v / tall + 0.5;
      const sag = 0.07 * (1 - (u / bottom) ** 2);
      if (s < 0 && s > -0.1 && Math.abs(u) < top * 0.7) return { part: "card", colour: board, lit: 0.8, which: 0 };
      if (s < 0 || s > 0.95 + sag) return null;
      const half = top + (bottom - top) * Math.min(1, s);
      const x = u / half;
      if (Math.abs(x) > 1) return null;
      const z = Math.sqrt(1 - x * x);
      const lean = Math.floor(s * 40) % 2 ? 0.12 : -0.12;
      const [colour, lit] = strand(spun, v - 0.1 * tall * z + lean * u, Math.asin(x) * half, seed);
      return { part: "yarn", colour, lit: lit * facing(x, 0.2, z, 0.4), which: 0 };
    },
  };
}

/** Strands wound round a card, several yarns one below the other with a little card between. */
export function card(where: Where, wide: number, high: number, spun: readonly Spun[], random: Random): Thing {
  const seed = Math.floor(random() * 1e6);
  const board: Light = random() < 0.6 ? [0.5, 0.4, 0.27] : [0.82, 0.82, 0.8];
  const margin = wide * (0.1 + 0.1 * random());
  const each = high / spun.length;
  const gap = each * (spun.length > 1 ? 0.08 + 0.12 * random() : 0.1);
  return {
    ...where,
    kind: "card",
    reach: Math.hypot(wide, high) / 2 + 2,
    height: 5,
    yarns: spun.length,
    seenAt(u, v) {
      const [x, y] = [u + wide / 2, v + high / 2];
      if (x < 0 || y < 0 || x >= wide || y >= high) return null;
      const which = Math.floor(y / each);
      const within = y - which * each;
      const wound = x > margin && x < wide - margin && within > gap && within < each - gap;
      if (!wound) return { part: "card", colour: board, lit: 0.97 + 0.06 * grain(x / 2, y / 2, seed), which };
      const s = (2 * (x - margin)) / (wide - 2 * margin) - 1;
      const [colour, lit] = strand(spun[which]!, v + 0.03 * u, u, seed + which);
      return { part: "yarn", colour, lit: lit * (1 - 0.25 * Math.abs(s) ** 6), which };
    },
  };
}

/** Cut ends of one yarn side by side, a little wavy, frayed where they end. */
export function ends(where: Where, length: number, strands: number, spun: Spun, random: Random): Thing {
  const seed = Math.floor(random() * 1e6);
  const waves = Array.from({ length: 3 }, (_, k) => [(1.6 / (k + 1)) * random(), 2 * Math.PI * random()] as const);
  const half = (strands * spun.pitch) / 2;
  return {
    ...where,
    kind: "ends",
    reach: length * 0.55 + half,
    height: spun.pitch * 0.7,
    yarns: 1,
    seenAt(u, v) {
      const s = u / length;
      const bent = waves.reduce((sum, [size, at], k) => sum + size * spun.pitch * Math.sin((k + 1) * 3.1 * s + at), 0);
      const across = v - bent + half;
      if (across < 0 || across >= 2 * half) return null;
      const index = Math.floor(across / spun.pitch);
      if (Math.abs(s) > 0.47 + 0.03 * grain(index, s > 0 ? 1 : 0, seed)) return null;
      const [colour, lit] = strand(spun, across, u, seed);
      return { part: "yarn", colour, lit, which: 0 };
    },
  };
}
