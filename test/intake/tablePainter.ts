/** Paints photographs of yarns on a table, and knows of every pixel which yarn it is: for whatever looks for yarns. */
import { seededRandom, type Random } from "../../src/base/random.ts";
import {
  ball,
  card,
  cloudAt,
  cone,
  ends,
  grain,
  skein,
  type Dye,
  type Light,
  type Spun,
  type Thing,
} from "./tableYarns.ts";

export interface PaintedTable {
  readonly width: number;
  readonly height: number;
  /** Three encoded bytes to the pixel. */
  readonly rgb: Uint8Array;
  /** For each pixel the number of its yarn from 1; 0 is no yarn. */
  readonly yarnAt: Uint8Array;
  /** The same with the paper band of a skein, and what a yarn is wound on, as part of it. */
  readonly thingAt: Uint8Array;
  readonly yarns: readonly { readonly kind: string; readonly onTable: boolean }[];
  /** Boxes [x, y, width, height] of the grey card and the like. */
  readonly known: readonly (readonly number[])[];
  readonly story: { readonly layout: string; readonly ground: string };
}

const among = (random: Random, low: number, high: number): number => low + (high - low) * random();
const pick = <T>(random: Random, list: readonly T[]): T => list[Math.floor(random() * list.length)]!;

/** A dyed or natural colour, linear light. */
function anyColour(random: Random): Light {
  if (random() < 0.3) {
    const grey = pick(random, [0.75, 0.6, 0.4, 0.22, 0.1, 0.04, 0.02]) * among(random, 0.85, 1.15);
    return [grey, grey * among(random, 0.85, 1), grey * among(random, 0.65, 1)];
  }
  const hue = 6 * random();
  const strong = among(random, 0.2, 0.95);
  const value = among(random, 0.08, 0.75);
  return [5, 3, 1].map((n) => {
    const k = (n + hue) % 6;
    return Math.max(0.006, value * (1 - strong * Math.max(0, Math.min(1, k, 4 - k)))) ** 1.3;
  }) as unknown as Light;
}

const near = (random: Random, [r, g, b]: Light, by: number): Light => {
  const all = among(random, -by, by);
  return [r, g, b].map((light) => light * Math.exp(all + 0.5 * among(random, -by, by))) as unknown as Light;
};

function dyeOf(random: Random, colour: Light, pitch: number): Dye {
  const kind = random();
  if (kind > 0.22) return () => colour;
  const other = random() < 0.5 ? near(random, colour, 0.7) : anyColour(random);
  const seed = Math.floor(random() * 1e6);
  const share = among(random, 0.15, 0.5);
  // A marl's two plies turn round each other, a heather's fibres are fine, a tweed has neps, a variegated yarn lengths.
  if (kind < 0.05) return (along, across) => (Math.sin(along / pitch + 2 * across) > 0 ? colour : other);
  if (kind < 0.1) return (along, across) => (grain(along, across * 4, seed) < share ? other : colour);
  if (kind < 0.15) return (along, across) => (cloudAt(along / pitch, across, seed) > 0.84 ? other : colour);
  const long = pitch * among(random, 12, 60);
  return (along) => (grain(along / long, 0, seed) < share ? other : colour);
}

interface Ground {
  readonly name: string;
  readonly mean: Light;
  at(x: number, y: number): readonly [number, number, number];
}

function groundOf(random: Random, size: number): Ground {
  const seed = Math.floor(random() * 1e6);
  const name = pick(random, ["cloth", "linen", "wood", "planks", "white", "dark", "checks", "towel"]);
  const scaled = ([r, g, b]: Light, by: number) => [r * by, g * by, b * by] as const;
  if (name === "wood" || name === "planks") {
    const mean = near(
      random,
      pick(random, [
        [0.3, 0.17, 0.08],
        [0.5, 0.36, 0.22],
        [0.12, 0.06, 0.035],
      ] as Light[]),
      0.2,
    );
    const plank = name === "planks" ? size * among(random, 0.1, 0.2) : size * 4;
    const upright = random() < 0.5;
    return {
      name,
      mean,
      at(x, y) {
        const [u, v] = upright ? [y, x] : [x, y];
        const board = Math.floor(v / plank);
        const ring = cloudAt(u / (size * 0.35), v / (size * 0.012) + 40 * board, seed);
        const fine = grain(u / 30, v / 1.5, seed + 1) * 0.12 + cloudAt(u / 90, v / 3, seed + 2) * 0.18;
        const joint = name === "planks" && v - board * plank < size * 0.004 ? 0.35 : 1;
        return scaled(mean, joint * (0.72 + 0.3 * ring + fine) * (0.88 + 0.24 * grain(board, 3, seed)));
      },
    };
  }
  if (name === "white" || name === "dark") {
    const mean = near(random, name === "white" ? [0.8, 0.79, 0.76] : [0.02, 0.021, 0.024], 0.12);
    return { name, mean, at: (x, y) => scaled(mean, 0.985 + 0.03 * cloudAt(x / 60, y / 60, seed)) };
  }
  const mean = anyColour(random);
  const thread = size * among(random, 0.0025, 0.006);
  if (name === "checks") {
    const [side, other] = [size * among(random, 0.06, 0.14), near(random, anyColour(random), 0.1)];
    return {
      name,
      mean,
      at(x, y) {
        const part = ((Math.floor(x / side) & 1) + (Math.floor(y / side) & 1)) / 2;
        const weave = 0.94 + 0.06 * Math.sin(x / thread) * Math.sin(y / thread) + 0.06 * (grain(x, y, seed) - 0.5);
        return [0, 1, 2].map((c) => weave * (mean[c]! + 0.6 * part * (other[c]! - mean[c]!))) as unknown as Light;
      },
    };
  }
  const rough = name === "towel" ? 0.32 : name === "linen" ? 0.16 : 0.06;
  return {
    name,
    mean,
    at(x, y) {
      const slub = cloudAt(x / (thread * 8), y / thread, seed) + cloudAt(x / thread, y / (thread * 8), seed + 1) - 1;
      const fold = 1 + 0.16 * (cloudAt((x + y) / (size * 0.3), (x - y) / (size * 0.9), seed + 2) - 0.5);
      return scaled(mean, fold * (1 + rough * slub + rough * 0.5 * (grain(x, y, seed + 3) - 0.5)));
    },
  };
}

/** Yarns where they would be laid: by chance, in rows, one alone, as cut ends, on cards. */
function layOut(random: Random, width: number, height: number, ground: Ground): { things: Thing[]; layout: string } {
  const layout = pick(random, ["scattered", "scattered", "touching", "rows", "rows", "alone", "ends", "cards"]);
  const size = Math.max(width, height);
  const fine = among(random, 0.7, 1.3);
  let last = anyColour(random);
  const spun = (thick: number): Spun => {
    const chance = random();
    const colour =
      chance < 0.08 ? near(random, ground.mean, 0.12) : chance < 0.25 ? near(random, last, 0.35) : anyColour(random);
    last = colour;
    const pitch = Math.max(2.2, thick * fine);
    return { dye: dyeOf(random, colour, pitch), pitch, deep: among(random, 0.3, 0.7), fuzz: among(random, 0.03, 0.14) };
  };
  const solid = (x: number, y: number, reach: number, kinds: readonly string[]): Thing => {
    const where = { x, y, turn: 2 * Math.PI * random() };
    const kind = pick(random, kinds);
    const yarn = spun(reach * among(random, 0.05, 0.11));
    if (kind === "skein") return skein(where, reach * 2, yarn, random);
    if (kind === "cone") return cone(where, reach * 1.3, yarn, random);
    return ball(where, reach * 0.95, yarn, random);
  };
  const kinds = pick(random, [
    ["ball"],
    ["ball", "ball", "skein"],
    ["skein"],
    ["ball", "skein", "cone"],
    ["cone", "ball"],
  ]);
  const things: Thing[] = [];
  if (layout === "alone") {
    const reach = Math.min(width, height) * among(random, 0.22, 0.42);
    things.push(solid(width * among(random, 0.4, 0.6), height * among(random, 0.42, 0.58), reach, kinds));
  } else if (layout === "rows") {
    const columns = 2 + Math.floor(random() * 5);
    const fitting = Math.round((columns * height * among(random, 0.8, 1)) / width);
    const rows = Math.max(1, Math.min(Math.floor(30 / columns), fitting));
    const [w, h] = [(width * 0.96) / columns, (height * 0.96) / rows];
    const reach = (Math.min(w, h) / 2) * among(random, 0.7, 0.98);
    for (let row = 0; row < rows; row++)
      for (let column = 0; column < columns; column++) {
        if (random() < 0.06) continue;
        const slack = Math.max(0, Math.min(w, h) / 2 - reach);
        const x = width * 0.02 + (column + 0.5) * w + slack * among(random, -0.8, 0.8);
        const y = height * 0.02 + (row + 0.5) * h + slack * among(random, -0.8, 0.8);
        things.push(solid(x, y, reach * among(random, 0.8, 1), kinds));
      }
  } else if (layout === "ends") {
    const rows = 4 + Math.floor(random() * 11);
    const columns = random() < 0.4 ? 2 : 1;
    const pitch = among(random, 0.004, 0.008) * size;
    for (let row = 0; row < rows; row++)
      for (let column = 0; column < columns; column++) {
        const room = (height * 0.9) / rows;
        const strands = Math.max(2, Math.min(12, Math.floor((room * among(random, 0.3, 0.55)) / pitch)));
        const where = {
          x: width * (columns === 1 ? 0.5 : 0.27 + 0.46 * column) + among(random, -0.02, 0.02) * width,
          y: height * 0.05 + (row + 0.5) * room,
          turn: 0.06 * (random() - 0.5),
        };
        things.push(ends(where, (width / columns) * among(random, 0.55, 0.85), strands, { ...spun(1), pitch }, random));
      }
  } else if (layout === "cards") {
    const count = 1 + Math.floor(random() * 4);
    for (let at = 0; at < count; at++) {
      const wide = (width / count) * among(random, 0.5, 0.85);
      const high = height * among(random, 0.5, 0.85);
      const yarns = Array.from({ length: 1 + Math.floor(random() * 6) }, () => spun(size * 0.007));
      const where = { x: ((at + 0.5) * width) / count, y: height / 2, turn: 0.16 * (random() - 0.5) };
      things.push(card(where, wide, high, yarns, random));
    }
  } else {
    const wanted = 2 + Math.floor(random() * 13);
    const reach = Math.sqrt((width * height * among(random, 0.25, 0.5)) / (wanted * Math.PI));
    const close = layout === "touching" ? 0.93 : 1.06;
    for (let tries = 0; tries < 900 && things.length < wanted; tries++) {
      const own = reach * among(random, 0.6, 1.05);
      let [x, y] = [among(random, own * 0.9, width - own * 0.9), among(random, own * 0.9, height - own * 0.9)];
      const beside = layout === "touching" && things.length > 0 ? pick(random, things) : null;
      if (beside) {
        const angle = 2 * Math.PI * random();
        const far = (beside.reach / 1.1 + own) * 0.95;
        [x, y] = [beside.x + far * Math.cos(angle), beside.y + far * Math.sin(angle)];
      }
      const inside = x > own * 0.8 && y > own * 0.8 && x < width - own * 0.8 && y < height - own * 0.8;
      if (!inside || things.some((t) => Math.hypot(t.x - x, t.y - y) < (t.reach / 1.1 + own) * close)) continue;
      things.push(solid(x, y, own, layout === "touching" ? ["ball"] : kinds));
    }
  }
  return { things, layout };
}

export function paintTable(seed: number): PaintedTable {
  const random = seededRandom(seed * 6007 + 11);
  random();
  const [long, short] = [pick(random, [720, 960, 1100]), among(random, 0.66, 0.78)];
  const upright = random() < 0.3;
  const [width, height] = upright ? [Math.round(long * short), long] : [long, Math.round(long * short)];
  const ground = groundOf(random, long);
  const { things, layout } = layOut(random, width, height, ground);
  const light = new Float32Array(width * height * 3);
  const yarnAt = new Uint8Array(width * height);
  const thingAt = new Uint8Array(width * height);
  for (let y = 0, at = 0; y < height; y++) for (let x = 0; x < width; x++, at += 3) light.set(ground.at(x, y), at);

  const known: number[][] = [];
  const overlaps = (box: readonly number[]): boolean =>
    things.some(
      (t) =>
        Math.abs(t.x - box[0]! - box[2]! / 2) < t.reach + box[2]! / 2 &&
        Math.abs(t.y - box[1]! - box[3]! / 2) < t.reach + box[3]! / 2,
    );
  const paper = (box: readonly number[], colour: Light, written: boolean): void => {
    const [left, top, wide, high] = box.map(Math.round) as [number, number, number, number];
    for (let y = Math.max(0, top); y < Math.min(height, top + high); y++)
      for (let x = Math.max(0, left); x < Math.min(width, left + wide); x++) {
        const line = (y - top) % 9;
        const inked =
          written &&
          line > 2 &&
          line < 6 &&
          x > left + 5 &&
          x < left + wide - 6 &&
          grain(x / 2, Math.floor((y - top) / 9), seed) < 0.45;
        light.set(inked ? [0.06, 0.06, 0.1] : colour, (y * width + x) * 3);
        yarnAt[y * width + x] = 0;
        thingAt[y * width + x] = 0;
      }
  };
  const shadows = shadowMap(things, width, height, among(random, 0.25, 0.6), among(random, 0.25, 0.8));
  for (let at = 0; at < shadows.length; at++) for (let c = 0; c < 3; c++) light[at * 3 + c]! *= shadows[at]!;
  for (let tries = 0; tries < 40 && known.length < 1; tries++) {
    const side = long * among(random, 0.08, 0.16);
    const box = [among(random, 4, width - side - 4), among(random, 4, height - side - 4), side, side * 0.8].map(
      Math.round,
    );
    if (overlaps(box)) continue;
    const kind = random();
    if (kind < 0.5) paper(box, kind < 0.3 ? [0.18, 0.18, 0.18] : [0.84, 0.84, 0.83], false);
    if (kind < 0.5) known.push(box);
    else break;
  }
  const yarns: { kind: string; onTable: boolean }[] = [];
  for (const thing of things) {
    const first = yarns.length + 1;
    for (let at = 0; at < thing.yarns; at++) yarns.push({ kind: thing.kind, onTable: true });
    lay(thing, first, light, yarnAt, thingAt, width, height);
  }
  // Name tags beside yarns, and a few lying on them.
  if (random() < 0.4)
    for (const thing of things)
      if (random() < 0.6) {
        const wide = Math.min(thing.reach * 0.8, long * 0.09);
        const down = thing.kind === "ends" ? -wide * 0.2 : thing.reach * among(random, 0.55, 0.95);
        const across = thing.kind === "ends" ? -thing.reach * 0.9 : -wide / 2;
        paper([thing.x + across, thing.y + down, wide, wide * 0.45], PAPER_WHITE, true);
      }
  const areas = yarns.map((_, at) => yarnAt.reduce((sum, yarn) => sum + (yarn === at + 1 ? 1 : 0), 0));
  return {
    width,
    height,
    rgb: photograph(random, light, width, height),
    yarnAt,
    thingAt,
    yarns: yarns.map(({ kind }, at) => ({ kind, onTable: areas[at]! > 60 })),
    known,
    story: { layout, ground: ground.name },
  };
}

const PAPER_WHITE: Light = [0.8, 0.79, 0.75];

function lay(
  thing: Thing,
  first: number,
  light: Float32Array,
  yarnAt: Uint8Array,
  thingAt: Uint8Array,
  width: number,
  height: number,
): void {
  const [cos, sin] = [Math.cos(thing.turn), Math.sin(thing.turn)];
  const far = Math.ceil(thing.reach) + 2;
  const isRound = thing.kind === "ball";
  for (let y = Math.max(0, Math.floor(thing.y) - far); y < Math.min(height, thing.y + far); y++)
    for (let x = Math.max(0, Math.floor(thing.x) - far); x < Math.min(width, thing.x + far); x++) {
      const [dx, dy] = [x - thing.x, y - thing.y];
      // The lamp does not turn with a ball, so neither does the ball.
      const seen = isRound ? thing.seenAt(dx, dy) : thing.seenAt(dx * cos + dy * sin, dy * cos - dx * sin);
      if (!seen) continue;
      const at = y * width + x;
      for (let c = 0; c < 3; c++) light[at * 3 + c] = seen.colour[c]! * seen.lit;
      thingAt[at] = first + seen.which;
      yarnAt[at] = seen.part === "yarn" ? first + seen.which : 0;
    }
}

/** What the things leave of the light on the table: a long soft shadow away from the lamp and a close one beneath. */
function shadowMap(things: readonly Thing[], width: number, height: number, deep: number, long: number): Float32Array {
  const made = (shift: number, soft: number, part: number): Float32Array => {
    let dark = new Float32Array(width * height);
    for (const thing of things) {
      const [cos, sin] = [Math.cos(thing.turn), Math.sin(thing.turn)];
      const far = Math.ceil(thing.reach);
      const [ox, oy] = [thing.x + thing.height * shift * 0.6, thing.y + thing.height * shift * 0.7];
      for (let y = Math.max(0, Math.floor(oy) - far); y < Math.min(height, oy + far); y++)
        for (let x = Math.max(0, Math.floor(ox) - far); x < Math.min(width, ox + far); x++) {
          const [dx, dy] = [x - ox, y - oy];
          const seen =
            thing.kind === "ball" ? thing.seenAt(dx, dy) : thing.seenAt(dx * cos + dy * sin, dy * cos - dx * sin);
          if (seen) dark[y * width + x] = 1;
        }
    }
    for (let pass = 0; pass < 2; pass++) dark = blurred(dark, width, height, soft);
    return dark.map((value) => 1 - part * value);
  };
  const tallest = Math.max(4, ...things.map(({ height: tall }) => tall));
  const wide = made(long, Math.max(2, Math.round(tallest * 0.16)), deep);
  const close = made(0.1, Math.max(1, Math.round(tallest * 0.05)), 0.45);
  return wide.map((value, at) => value * close[at]!);
}

function blurred(field: Float32Array, width: number, height: number, reach: number): Float32Array<ArrayBuffer> {
  const pass = (
    from: Float32Array,
    count: number,
    lines: number,
    step: number,
    jump: number,
  ): Float32Array<ArrayBuffer> => {
    const to = new Float32Array(from.length);
    for (let line = 0; line < lines; line++) {
      let sum = 0;
      const value = (at: number): number => from[line * jump + Math.max(0, Math.min(count - 1, at)) * step]!;
      for (let at = -reach; at <= reach; at++) sum += value(at);
      for (let at = 0; at < count; at++) {
        to[line * jump + at * step] = sum / (2 * reach + 1);
        sum += value(at + reach + 1) - value(at - reach);
      }
    }
    return to;
  };
  return pass(pass(field, width, height, 1, width), height, width, width, 1);
}

/** The lamp's fall over the table, the lens, the sensor and its curve. */
function photograph(random: Random, light: Float32Array, width: number, height: number): Uint8Array {
  const [fallX, fallY, vignette] = [among(random, -0.35, 0.35), among(random, -0.35, 0.35), among(random, 0, 0.5)];
  const cast = [Math.exp(among(random, -0.15, 0.2)), 1, Math.exp(among(random, -0.3, 0.15))];
  const exposure = among(random, 0.75, 1.15);
  const bend = among(random, 0, 0.5);
  const noise = among(random, 0.003, 0.018);
  const soft = random() < 0.5 ? 1 : 0;
  const seen = [0, 1, 2].map((channel) => {
    const plane = new Float32Array(width * height);
    for (let at = 0; at < plane.length; at++) plane[at] = light[at * 3 + channel]!;
    return soft ? blurred(plane, width, height, soft) : plane;
  });
  const rgb = new Uint8Array(width * height * 3);
  for (let y = 0, at = 0; y < height; y++)
    for (let x = 0; x < width; x++, at++) {
      const [u, v] = [x / width - 0.5, y / height - 0.5];
      const lamp = exposure * (1 + fallX * u + fallY * v) * (1 - vignette * (u * u + v * v));
      for (let channel = 0; channel < 3; channel++) {
        const value = Math.min(1, Math.max(0, seen[channel]![at]! * lamp * cast[channel]! + 0.002));
        const encoded = value < 0.0031308 ? 12.92 * value : 1.055 * value ** (1 / 2.4) - 0.055;
        const bent = encoded + bend * (encoded * encoded * (3 - 2 * encoded) - encoded);
        const grainy = bent + noise * (random() + random() + random() - 1.5) * 2;
        rgb[at * 3 + channel] = Math.round(255 * Math.min(1, Math.max(0, grainy)));
      }
    }
  return rgb;
}
