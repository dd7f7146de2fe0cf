/** Pictures of what is no chart, some of them nearly one: every one is to be refused in a sentence. */
import { seededRandom } from "../../../src/base/random.ts";
import { hexFromLab } from "../../../src/colour/lab.ts";
import { pixelsOf, type Pixels } from "../../../src/raster/pixels.ts";
import { compressed, renderPage, shoot, UNDAMAGED } from "./camera.ts";
import { chanceOf, type Chance } from "./chance.ts";
import { sentence, type Drawing } from "./page.ts";

export const STRANGERS = [
  "noise", "grey noise", "blocky noise", "text", "text, photographed", "fur blanket", "patchwork", "gradient",
  "radial gradient", "thing on checkered ground", "stripes", "stripes, photographed", "table of numbers",
  "table of numbers, photographed", "calendar", "calendar, photographed", "ruled paper", "empty squared paper",
  "bars and axes", "bricks", "foliage", "blank", "clouds",
] as const; // prettier-ignore
export type Stranger = (typeof STRANGERS)[number];

export async function paintStranger(kind: Stranger, seed: number): Promise<Pixels> {
  const chance = chanceOf(seededRandom(seed * 7919 + kind.length));
  const [base, way] = kind.split(", ") as [string, string | undefined];
  const drawn = drawings[base];
  if (drawn) {
    const page = drawn(chance);
    if (way === undefined) return renderPage(page, chance.among(0.8, 1.5));
    const damage = {
      ...UNDAMAGED,
      scale: chance.among(1, 1.8),
      roll: chance.normal() * 3,
      pitch: chance.among(-18, 18),
    };
    const light = { cast: [0.9, 0.82, 0.7] as const, gradient: chance.among(0, 0.4), around: 0.08 };
    return (
      await shoot(chance, page, { ...damage, ...light, blur: 0.7, noise: 3, jpeg: chance.whole(65, 92), most: 2e6 })
    ).pixels;
  }
  const pixels = surface(chance, surfaces[base]!(chance));
  return chance.odds(0.5) && base !== "noise" ? compressed(pixels, chance.whole(60, 92)) : pixels;
}

const pageOf = (width: number, height: number, parts: readonly string[], page = "#ffffff"): Drawing => ({
  width,
  height,
  svg: `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${width} ${height}" width="WIDTH" height="HEIGHT"><rect width="${width}" height="${height}" fill="${page}"/>${parts.join("")}</svg>`,
  charts: [],
  legend: [],
  focus: [[0, 0], [width, height]], // prettier-ignore
});

const write = (x: number, y: number, words: string, size: number, font = "DejaVu Serif"): string =>
  `<text x="${x}" y="${y}" font-family="${font}" font-size="${size}" fill="#222">${words}</text>`;
const line = (x1: number, y1: number, x2: number, y2: number, width: number, colour: string): string =>
  `<path d="M${x1} ${y1}L${x2} ${y2}" stroke="${colour}" stroke-width="${width}"/>`;

const drawings: Record<string, ((chance: Chance) => Drawing) | undefined> = {
  text: (chance) => {
    const size = chance.whole(11, 20);
    const font = chance.pick(["DejaVu Serif", "DejaVu Sans", "DejaVu Sans Mono"]);
    const lines = Array.from({ length: chance.whole(12, 40) }, (_, at) =>
      chance.odds(0.12) ? "" : write(50, 60 + at * size * 1.4, sentence(chance, chance.whole(30, 70)), size, font),
    );
    return pageOf(Math.round(100 + size * 42), Math.round(120 + lines.length * size * 1.4), lines);
  },
  stripes: (chance) => {
    const count = chance.whole(4, 40);
    const high = chance.whole(6, 30);
    const even = chance.odds(0.5);
    let y = 20;
    const parts = Array.from({ length: count }, () => {
      const tall = even ? high : chance.whole(4, 40);
      y += tall;
      return `<rect x="20" y="${y - tall}" width="500" height="${tall}" fill="${anyColour(chance)}"/>`;
    });
    return pageOf(540, y + 20, parts);
  },
  "table of numbers": (chance) => {
    const widths = Array.from({ length: chance.whole(4, 9) }, () => chance.whole(50, 130));
    const rows = chance.whole(6, 24);
    const high = chance.whole(20, 34);
    const right = 40 + widths.reduce((sum, one) => sum + one, 0);
    const parts: string[] = [];
    for (let row = 0; row <= rows; row++) parts.push(line(40, 40 + row * high, right, 40 + row * high, 1, "#555"));
    let x = 40;
    for (const wide of [...widths, 0]) {
      parts.push(line(x, 40, x, 40 + rows * high, 1, "#555"));
      for (let row = 0; row < rows && wide > 0; row++)
        parts.push(write(x + 6, 40 + row * high + high * 0.68, row === 0 ? sentence(chance, 4).slice(0, 6) : (chance.random() * 10 ** chance.whole(1, 4)).toFixed(chance.whole(0, 2)), high * 0.45, "DejaVu Sans"));
      x += wide;
    }
    return pageOf(right + 40, 80 + rows * high, parts);
  },
  calendar: (chance) => {
    const wide = chance.whole(60, 100);
    const high = Math.round(wide * chance.among(0.6, 1));
    const first = chance.whole(0, 6);
    const parts = [write(60, 50, "Frost 12", 28, "DejaVu Sans")];
    for (let row = 0; row <= 6; row++) parts.push(line(40, 80 + row * high, 40 + 7 * wide, 80 + row * high, 1.5, "#333"));
    for (let column = 0; column <= 7; column++) parts.push(line(40 + column * wide, 80, 40 + column * wide, 80 + 6 * high, 1.5, "#333"));
    for (let day = 1; day <= 31; day++) {
      const at = first + day - 1;
      parts.push(write(40 + (at % 7) * wide + 6, 80 + Math.floor(at / 7) * high + 20, String(day), 16, "DejaVu Sans"));
      if (chance.odds(0.15)) parts.push(write(40 + (at % 7) * wide + 6, 80 + Math.floor(at / 7) * high + 40, "lamp", 11));
    }
    return pageOf(80 + 7 * wide, 120 + 6 * high, parts);
  },
  "ruled paper": (chance) => {
    const high = chance.whole(16, 34);
    const parts = Array.from({ length: 26 }, (_, row) => line(0, 60 + row * high, 600, 60 + row * high, 1, "#9ab"));
    parts.push(line(70, 0, 70, 120 + 26 * high, 1.5, "#c66"));
    for (let row = 1; row < 20; row++) if (chance.odds(0.6)) parts.push(write(80, 54 + row * high, sentence(chance, 40), high * 0.6));
    return pageOf(600, 120 + 26 * high, parts, "#fdfdf8");
  },
  "empty squared paper": (chance) => {
    const side = chance.whole(10, 26);
    const [columns, rows] = [chance.whole(14, 40), chance.whole(14, 50)];
    const colour = chance.pick(["#9ab", "#bbb", "#8c8"]);
    const parts: string[] = [];
    for (let row = 0; row <= rows; row++) parts.push(line(20, 20 + row * side, 20 + columns * side, 20 + row * side, 1, colour));
    for (let at = 0; at <= columns; at++) parts.push(line(20 + at * side, 20, 20 + at * side, 20 + rows * side, 1, colour));
    return pageOf(40 + columns * side, 40 + rows * side, parts);
  },
  "bars and axes": (chance) => {
    const parts = [line(60, 20, 60, 400, 2, "#222"), line(60, 400, 620, 400, 2, "#222")];
    for (let at = 1; at < 8; at++) parts.push(line(60, 400 - at * 50, 620, 400 - at * 50, 0.7, "#bbb"), write(20, 405 - at * 50, String(at * 12), 14));
    for (let at = 0; at < 12; at++) {
      const tall = chance.among(20, 360);
      parts.push(`<rect x="${75 + at * 45}" y="${400 - tall}" width="30" height="${tall}" fill="${chance.pick(["#4a6f8a", "#4a6f8a", "#c9a24b"])}"/>`, write(78 + at * 45, 420, String(at + 1), 13));
    }
    return pageOf(660, 450, parts);
  },
  bricks: (chance) => {
    const [wide, high] = [chance.whole(40, 80), chance.whole(14, 30)];
    const parts: string[] = [];
    for (let row = 0; row < 18; row++)
      for (let column = -1; column < 11; column++) {
        const shade = chance.among(38, 52);
        parts.push(`<rect x="${column * wide + (row % 2) * wide * 0.5 + 2}" y="${row * high + 2}" width="${wide - 4}" height="${high - 4}" fill="${hexFromLab([shade, chance.among(18, 30), chance.among(18, 32)])}"/>`);
      }
    return pageOf(10 * wide, 18 * high, parts, "#c9c2b8");
  },
}; // prettier-ignore

const anyColour = ({ among }: Chance): string => hexFromLab([among(15, 95), among(-40, 40), among(-40, 40)]);

/** A picture by a function of the place: linear parts, 0 to 1. */
interface Surface {
  readonly width: number;
  readonly height: number;
  readonly at: (x: number, y: number) => readonly [number, number, number];
}

function surface(_: Chance, { width, height, at }: Surface): Pixels {
  const rgba = new Uint8ClampedArray(width * height * 4).fill(255);
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) rgba.set(at(x, y).map((part) => part * 255), (y * width + x) * 4); // prettier-ignore
  return pixelsOf(width, height, rgba);
}

/** Smooth noise of a size, −1 to 1: values on a lattice, smoothly joined. */
function cloud({ random }: Chance, size: number): (x: number, y: number) => number {
  const side = 64;
  const values = Float32Array.from({ length: side * side }, () => random() * 2 - 1);
  const value = (x: number, y: number): number =>
    values[(((y % side) + side) % side) * side + (((x % side) + side) % side)]!;
  const soft = (part: number): number => part * part * (3 - 2 * part);
  return (x, y) => {
    const [u, v] = [x / size, y / size];
    const [x0, y0] = [Math.floor(u), Math.floor(v)];
    const [p, q] = [soft(u - x0), soft(v - y0)];
    return (
      (value(x0, y0) * (1 - p) + value(x0 + 1, y0) * p) * (1 - q) +
      (value(x0, y0 + 1) * (1 - p) + value(x0 + 1, y0 + 1) * p) * q
    );
  };
}

const FUR = [
  [0.24, 0.17, 0.12],
  [0.62, 0.42, 0.24],
  [0.86, 0.78, 0.66],
  [0.42, 0.36, 0.31],
  [0.12, 0.1, 0.09],
] as const;

const surfaces: Record<string, (chance: Chance) => Surface> = {
  noise: ({ random, whole }) => ({ width: whole(60, 500), height: whole(60, 500), at: () => [random(), random(), random()] }),
  "grey noise": ({ random }) => ({ width: 300, height: 220, at: () => { const grey = random(); return [grey, grey, grey]; } }),
  // Noise of a compressed or badly lit picture: in soft blocks.
  "blocky noise": (chance) => {
    const field = [5, 7, 9].map((size) => cloud(chance, size));
    return { width: 420, height: 320, at: (x, y) => field.map((one) => 0.5 + 0.4 * one(x, y)) as [number, number, number] };
  },
  "fur blanket": (chance) => {
    const [large, middle, hair, bend] = [cloud(chance, 90), cloud(chance, 30), cloud(chance, 2), cloud(chance, 60)];
    return {
      width: chance.whole(400, 900), height: chance.whole(400, 700),
      at: (x, y) => {
        const rank = Math.max(0, Math.min(3.99, 2 + 2 * (large(x, y) + 0.5 * middle(x, y))));
        const [one, two] = [FUR[Math.floor(rank)]!, FUR[Math.floor(rank) + 1]!];
        const part = rank % 1;
        const light = 1 + 0.3 * hair(x * 0.4 + 6 * bend(x, y), y * 1.6) + 0.15 * bend(x, y);
        return one.map((value, channel) => (value * (1 - part) + two[channel]! * part) * light) as [number, number, number];
      },
    };
  },
  // Patches of every size, softly lit: squares, but none that recur.
  patchwork: (chance) => {
    const ends = (most: number): number[] => { const list = [0]; while (list.at(-1)! < most) list.push(list.at(-1)! + chance.whole(30, 130)); return list; };
    const [width, height] = [720, 560];
    const rows = ends(height).map((y) => ({ y, across: ends(width), colours: Array.from({ length: 40 }, () => chance.pick(FUR)) }));
    const [fold, hair] = [cloud(chance, 110), cloud(chance, 2.2)];
    return { width, height, at: (x, y) => {
      const [px, py] = [x + 10 * fold(x, y), y + 10 * fold(y + 400, x)];
      const row = rows.findLast((one) => one.y <= py) ?? rows[0]!;
      const column = Math.max(0, row.across.findLastIndex((one) => one <= px));
      const light = 0.85 + 0.2 * fold(x + 90, y) + 0.2 * hair(x, y);
      return row.colours[column]!.map((value) => value * light) as [number, number, number];
    } };
  },
  gradient: ({ random, among }) => {
    const [from, to] = [[random(), random(), random()], [random(), random(), random()]] as const;
    const turn = among(0, 6.28);
    return { width: 400, height: 300, at: (x, y) => { const part = 0.5 + ((x - 200) * Math.cos(turn) + (y - 150) * Math.sin(turn)) / 500; return from.map((value, channel) => value * (1 - part) + to[channel]! * part) as [number, number, number]; } };
  },
  "radial gradient": () => ({ width: 380, height: 380, at: (x, y) => { const part = Math.hypot(x - 190, y - 190) / 270; return [1 - part, 0.8 - 0.5 * part, 0.4 + 0.5 * part]; } }),
  "thing on checkered ground": (chance) => {
    const side = chance.whole(6, 16);
    const [shape, grain] = [cloud(chance, 50), cloud(chance, 7)];
    return { width: 480, height: 400, at: (x, y) => {
      if (Math.hypot(x - 240, y - 200) < 150 + 45 * shape(x, y)) return [0.5 + 0.3 * grain(x, y), 0.35 + 0.2 * shape(x, y), 0.3];
      const light = (Math.floor(x / side) + Math.floor(y / side)) % 2 === 0 ? 1 : 0.8;
      return [light, light, light];
    } };
  },
  foliage: (chance) => {
    const fields = [cloud(chance, 24), cloud(chance, 9), cloud(chance, 3)];
    return { width: 640, height: 480, at: (x, y) => { const sum = fields[0]!(x, y) + 0.7 * fields[1]!(x, y) + 0.4 * fields[2]!(x, y); return [0.25 + 0.12 * sum, 0.4 + 0.22 * sum, 0.15 + 0.08 * sum]; } };
  },
  clouds: (chance) => {
    const fields = [cloud(chance, 160), cloud(chance, 60)];
    return { width: 800, height: 500, at: (x, y) => { const sum = 0.6 + 0.3 * fields[0]!(x, y) + 0.15 * fields[1]!(x, y); return [sum, 0.05 + sum * 0.98, 0.2 + sum * 0.8]; } };
  },
  blank: ({ whole, random }) => { const grey = random(); return { width: whole(1, 300), height: whole(1, 300), at: () => [grey, grey, grey] }; },
}; // prettier-ignore
