/** Paints one yarn, wound into a ball or on a card, plain or of several colours whose shares and lengths are known. */
import { seededRandom, type Random } from "../../src/base/random.ts";
import { createRaster, type Box, type Raster } from "../../src/raster/raster.ts";
import { ball, card, grain, type Dye, type Light } from "./tableYarns.ts";

export type PaintedKind = "plain" | "heather" | "tweed" | "marl" | "variegated";

export interface PaintedYarn {
  readonly picture: Raster;
  /** Well within the yarn. */
  readonly box: Box;
  /** From strand to strand, pixels. */
  readonly pitch: number;
  /** The second colour's part of the yarn. */
  readonly share: number;
  /** How long the second colour lasts along the yarn, pixels; 0 where it is mixed. */
  readonly length: number;
  readonly wound: "ball" | "card";
}

const SIDE = 220;

export function paintFlecked(seed: number, kind: PaintedKind): PaintedYarn {
  const random = seededRandom(seed * 9176 + 5);
  random();
  const among = (low: number, high: number): number => low + (high - low) * random();
  const colour = dyed(random);
  let other = dyed(random);
  // Two dyes that the eye tells apart at once: a third of the way from black to white, or as much in colour.
  for (let tries = 0; tries < 50 && unlike(colour, other) < 0.33; tries++) other = dyed(random);
  const pitch = among(4, 11);
  const noiseSeed = Math.floor(random() * 1e6);
  const share = kind === "marl" ? 0.5 : kind === "tweed" ? among(0.05, 0.15) : among(0.2, 0.5);
  const length = kind === "tweed" ? pitch * among(1, 2.5) : kind === "variegated" ? pitch * among(8, 25) : 0;
  const dye: Dye = (along, across) => {
    if (kind === "plain") return colour;
    if (kind === "marl") return Math.sin((along / pitch) * 2.2 + 2.4 * across) > 0 ? colour : other;
    if (kind === "heather") return grain(along / 1.3, across * 3, noiseSeed) < share ? other : colour;
    // One run in each period, at a place of its own.
    const period = length / share;
    const turn = Math.floor(along / period);
    const from = grain(turn, 0, noiseSeed) * (period - length);
    const within = along - turn * period - from;
    return within >= 0 && within < length ? other : colour;
  };
  const spun = { dye, pitch, deep: among(0.3, 0.7), fuzz: among(0.02, 0.12) };
  const wound = random() < 0.5 ? "ball" : "card";
  const where = { x: SIDE / 2, y: SIDE / 2, turn: wound === "ball" ? 0 : among(-0.7, 0.7) };
  const thing =
    wound === "ball" ? ball(where, SIDE * 0.47, spun, random) : card(where, SIDE * 1.6, SIDE * 1.6, [spun], random);
  const [cos, sin] = [Math.cos(where.turn), Math.sin(where.turn)];
  const picture = createRaster(SIDE, SIDE);
  const noise = among(0.003, 0.015);
  const exposure = among(0.7, 1.1);
  const bounce = among(0, 0.5);
  const gloss = random() < 0.4 ? among(0, 0.03) : 0;
  const sky = [-0.15 * random(), 0, 0.25 * random()];
  for (let y = 0; y < SIDE; y++)
    for (let x = 0; x < SIDE; x++) {
      const [dx, dy] = [x - where.x, y - where.y];
      const seen = thing.seenAt(dx * cos + dy * sin, dy * cos - dx * sin);
      for (let channel = 0; channel < 3; channel++) {
        // Between strands light has been sent back by wool more than once, and what shines is the lamp's own colour.
        const deep = seen ? Math.max(0, 1 - seen.lit) : 0;
        const wool = seen ? seen.colour[channel]! ** (1 + bounce * deep) * seen.lit : 0.4;
        const light = exposure * (wool * (1 + deep * sky[channel]!) + (seen && seen.lit > 0.95 ? gloss : 0));
        // A camera's noise is about even once it is encoded; eight bits to the channel.
        const encoded = Math.max(0, light) ** (1 / 2.2) + noise * (random() + random() + random() - 1.5) * 2;
        picture.data[(y * SIDE + x) * 3 + channel] = Math.min(1, Math.max(0, Math.round(255 * encoded) / 255)) ** 2.2;
      }
    }
  const box = { x: SIDE * 0.27, y: SIDE * 0.27, width: SIDE * 0.46, height: SIDE * 0.46 };
  return {
    picture,
    box: { x: Math.round(box.x), y: Math.round(box.y), width: Math.round(box.width), height: Math.round(box.height) },
    pitch,
    share: kind === "plain" ? 0 : share,
    length,
    wound,
  };
}

function dyed(random: Random): Light {
  const value = 0.03 + 0.65 * random() ** 1.4;
  const strong = 0.9 * random();
  const hue = 6 * random();
  return [5, 3, 1].map((n) => {
    const k = (n + hue) % 6;
    return Math.max(0.01, value * (1 - strong * Math.max(0, Math.min(1, k, 4 - k))));
  }) as unknown as Light;
}

/** Greatest difference of a channel, encoded. */
const unlike = (one: Light, other: Light): number =>
  Math.max(...one.map((light, channel) => Math.abs(light ** (1 / 2.2) - other[channel]! ** (1 / 2.2))));
