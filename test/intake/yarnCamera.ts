/** Takes the photograph of a painted scene: lights, a camera's eyes, its matrix and taste, its curve, flare, noise and sharpening. */
import {
  daylight,
  diode,
  glow,
  hump,
  labOfSurface,
  mixedLights,
  oldTube,
  spectrum,
  surfaceOfLab,
  tube,
  type Spectrum,
} from "./yarnSpectra.ts";

export interface Scene {
  readonly width: number;
  readonly height: number;
  readonly materials: readonly Spectrum[];
  /** The material of each pixel. */
  readonly which: Uint16Array;
  /** Light that falls there and comes back, 1 for a flat card. */
  readonly shade: Float32Array;
  /** Light mirrored without colour. */
  readonly shine: Float32Array;
}

export interface Chance {
  readonly among: (low: number, high: number) => number;
  /** About a standard deviation of 0.7. */
  readonly normal: () => number;
  readonly pick: <T>(list: readonly T[]) => T;
  readonly random: () => number;
}

type Triple = [number, number, number];

export interface Developed {
  readonly rgb: Uint8Array;
  readonly story: { readonly light: string; readonly curve: string; readonly eyes: string };
}

/** "even": by a window, out of the sun, one light and a lens that falls off little; "uneven": as rooms are, with a lamp from one side. */
export type Room = "even" | "uneven";

export function develop(scene: Scene, chance: Chance, room: Room = "uneven"): Developed {
  const { among, normal, pick, random } = chance;
  const { width, height, which, shade, shine } = scene;
  const [light, one] = pick(LIGHTS);
  const main = one(chance);
  // In a third of rooms a second light comes from one side.
  const uneven = room === "uneven" ? 1 : 0.3;
  const second =
    random() < 0.35 && room === "uneven" ? mixedLights(main, pick(LIGHTS)[1](chance), among(0.1, 0.5)) : main;
  const turn = among(0, 2 * Math.PI);
  const [eyesName, eyes] = pick(EYES.map(([name, make]) => [name, make(chance)] as const));
  const see = (illuminant: Spectrum, surface: Spectrum): Triple =>
    eyes.map((eye) => eye.reduce((sum, part, band) => sum + part * illuminant[band]! * surface[band]!, 0)) as Triple;
  const white = see(mixedLights(main, second, 0.5), FULL);
  const scale = (illuminant: Spectrum): number => see(illuminant, FULL)[1] / white[1];
  // The camera's idea of white is a little off, now and then far.
  const astray = random() < 0.2 ? 3 : 1;
  const balance = [Math.exp(0.05 * astray * normal()), 1, Math.exp(0.07 * astray * normal())];
  const balanced =
    (illuminant: Spectrum) =>
    (surface: Spectrum): Triple =>
      see(illuminant, surface).map((v, c) => ((v / white[c]!) * balance[c]!) / scale(illuminant)) as Triple;
  const firsts = scene.materials.map(balanced(main));
  const seconds = scene.materials.map(balanced(second));
  // Light that went from strand to strand has met the dye twice.
  const twice = scene.materials.map((surface) => balanced(main)(surface.map((value) => value * value)));
  const plain = balanced(main)(FULL);
  const matrix = cameraMatrix(see, random() < 0.5 ? main : daylight(6000), chance);
  const exposure = among(0.55, 0.95);
  const [curve, bend] = pick(CURVES);
  const depth = among(0.5, 1.2);
  // Curves meet every channel for itself, or the light as a whole, or something between.
  const byLight = pick([0, 0, 0, 0.5, 1]);
  const late = random() < 0.4 ? among(1, 1.18) : 1;
  const flare = among(0, 0.008);
  const [shadeX, shadeY] = [0.12 * uneven * normal(), 0.12 * uneven * normal()];
  const vignette = among(0, 0.3 * uneven);
  const local = random() < 0.3 && room === "uneven" ? among(0.04, 0.15) : 0;
  const noise = among(0.002, 0.012);

  const linear = new Float32Array(width * height * 3);
  for (let y = 0, at = 0; y < height; y++)
    for (let x = 0; x < width; x++, at++) {
      const [u, v] = [x / width - 0.5, y / height - 0.5];
      const fall = (1 + shadeX * u * 2 + shadeY * v * 2) * (1 - vignette * (u * u + v * v) * 2);
      const part = Math.min(1, Math.max(0, 0.5 + u * Math.cos(turn) + v * Math.sin(turn)));
      const material = which[at]!;
      const again = 0.35 * Math.max(0, 1 - shade[at]!);
      for (let channel = 0; channel < 3; channel++) {
        const raw = firsts[material]![channel]! * (1 - part) + seconds[material]![channel]! * part;
        const back = raw * (1 - again) + twice[material]![channel]! * again;
        linear[at * 3 + channel] = exposure * fall * (back * shade[at]! + plain[channel]! * shine[at]!);
      }
    }
  const gain = local > 0 ? localGain(linear, width, height, local) : null;
  const encoded = new Float32Array(width * height * 3);
  for (let at = 0; at < width * height; at++) {
    const part = gain ? gain[at]! : 1;
    const [r, g, b] = [linear[at * 3]! * part, linear[at * 3 + 1]! * part, linear[at * 3 + 2]! * part];
    const mixed = matrix.map((m) => Math.max(0, m[0]! * r + m[1]! * g + m[2]! * b) + flare);
    const lightness = lightOf(mixed);
    const lifted = bend(Math.min(1, lightness), depth);
    const whole = inverse(lifted) / Math.max(1e-6, lightness);
    const out = mixed.map((value) => {
      const alone = bend(Math.min(1, value), depth);
      return alone + byLight * (standard(Math.min(1, value * whole)) - alone);
    });
    const grey = lightOf(out);
    for (let channel = 0; channel < 3; channel++)
      encoded[at * 3 + channel] = grey + late * (out[channel]! - grey) + noise * normal();
  }
  const sharpened = random() < 0.5 ? sharpen(encoded, width, height, among(0.2, 0.7)) : encoded;
  return {
    rgb: Uint8Array.from(sharpened, (value) => Math.round(255 * Math.min(1, Math.max(0, value)))),
    story: { light, curve, eyes: eyesName },
  };
}

const FULL = spectrum(() => 1);
const lightOf = (rgb: readonly number[]): number => 0.2126 * rgb[0]! + 0.7152 * rgb[1]! + 0.0722 * rgb[2]!;

const LIGHTS: readonly (readonly [string, (chance: Chance) => Spectrum])[] = [
  ["daylight", ({ among }) => daylight(among(5000, 7500))],
  ["daylight", ({ among }) => daylight(among(4200, 6500))],
  ["lamp", ({ among }) => glow(among(2600, 3400))],
  ["diode", ({ among }) => diode(among(0, 0.9), 0, among(445, 460))],
  ["good diode", ({ among }) => diode(among(0.2, 0.9), among(0.3, 0.8), among(445, 458))],
  ["tube", ({ among }) => tube(among(0, 1))],
  ["old tube", ({ among }) => oldTube(among(0, 1))],
  [
    "window and lamp",
    ({ among }) => mixedLights(daylight(among(5000, 7000)), glow(among(2700, 3200)), among(0.2, 0.8)),
  ],
];

const EYES: readonly (readonly [string, (chance: Chance) => Spectrum[]])[] = [
  ["humps", humps],
  ["humps", humps],
  [
    // As the eye's own, mixed: the most faithful of cameras.
    "faithful",
    ({ among }) => {
      const bend = among(-6, 6);
      return [
        spectrum((l) => hump(l, 600 + bend, 38, 31) + 0.18 * hump(l, 446, 20, 27)),
        spectrum((l) => hump(l, 555 + bend, 44, 42)),
        spectrum((l) => hump(l, 446, 20, 32)),
      ];
    },
  ],
  ["measured", () => MEASURED],
];

function humps({ among }: Chance): Spectrum[] {
  const [r, g, b] = [among(590, 612), among(524, 545), among(448, 470)];
  const cut = among(640, 690);
  const filter = (l: number): number => 1 / (1 + Math.exp((l - cut) / 8)) / (1 + Math.exp((415 - l) / 6));
  const second = among(0, 0.12);
  return [
    spectrum((l) => filter(l) * (hump(l, r, 22, 38) + 0.07 * hump(l, 535, 35) + second * hump(l, 440, 22))),
    spectrum((l) => filter(l) * (hump(l, g, 34, 40) + 0.1 * hump(l, 460, 30))),
    spectrum((l) => filter(l) * (hump(l, b, 24, 32) + 0.05 * hump(l, 540, 30))),
  ];
}

/**
 * A single-lens reflex camera's relative response, 400 to 700 nm. Source: Darrodi, Finlayson, Goodman, Mackiewicz 2015,
 * "Reference data set for camera spectral sensitivity estimation", JOSA A 32(3), 381, as carried in colour-science/colour, rounded.
 */
const MEASURED: Spectrum[] = [
  [
    0, 0.003, 0.05, 0.077, 0.061, 0.049, 0.04, 0.048, 0.053, 0.048, 0.05, 0.064, 0.1, 0.124, 0.076, 0.041, 0.043, 0.112,
    0.565, 0.981, 0.963, 0.834, 0.704, 0.571, 0.438, 0.343, 0.238, 0.091, 0.021, 0.005, 0.001,
  ],
  [
    0, 0.001, 0.065, 0.137, 0.169, 0.196, 0.254, 0.373, 0.46, 0.489, 0.616, 0.801, 0.939, 1, 0.962, 0.889, 0.776, 0.636,
    0.493, 0.352, 0.212, 0.118, 0.07, 0.047, 0.035, 0.027, 0.02, 0.009, 0.003, 0.001, 0,
  ],
  [
    0.002, 0.017, 0.362, 0.755, 0.875, 0.963, 1, 0.989, 0.905, 0.751, 0.567, 0.394, 0.25, 0.162, 0.11, 0.065, 0.034,
    0.02, 0.014, 0.01, 0.006, 0.004, 0.004, 0.004, 0.006, 0.006, 0.006, 0.003, 0.001, 0, 0,
  ],
];

/** Encoded value of light; depth is how far the bend goes. */
const CURVES: readonly (readonly [string, (light: number, depth: number) => number])[] = [
  ["standard", (x) => standard(x)],
  ["gamma", (x, depth) => x ** (1 / (1.75 + 0.5 * depth))],
  ["gentle", (x, depth) => mix(standard(x), smooth(standard(x)), 0.35 * depth)],
  ["phone", (x, depth) => mix(standard(x), smooth(standard(x) ** 0.8), 0.6 * depth)],
  ["phone", (x, depth) => mix(standard(x), smooth(standard(1 - (1 - x) ** 1.5)), 0.5 * depth)],
  ["filmic", (x, depth) => mix(standard(x), standard((x * (1 + 1.6 * x)) / (0.45 + 2.15 * x)) ** 1.15, 0.7 * depth)],
  ["shoulder", (x, depth) => standard((x * (1 + 0.8 * depth)) / (1 + 0.8 * depth * x))],
  ["sine", (x, depth) => standard(x) - (0.05 * depth * Math.sin(2 * Math.PI * standard(x))) / 1.2],
];
const standard = (x: number): number => (x < 0.0031308 ? 12.92 * x : 1.055 * x ** (1 / 2.4) - 0.055);
const inverse = (e: number): number => (e < 0.04045 ? e / 12.92 : ((e + 0.055) / 1.055) ** 2.4);
const smooth = (e: number): number => e * e * (3 - 2 * e);
const mix = (one: number, other: number, part: number): number => one + part * (other - one);

/** Camera to linear sRGB: what a maker would fit on smooth surfaces under one light, with a taste for stronger colours. */
function cameraMatrix(
  see: (illuminant: Spectrum, surface: Spectrum) => Triple,
  light: Spectrum,
  { among }: Chance,
): number[][] {
  const normal = Array.from({ length: 3 }, () => [0, 0, 0]);
  const sides = Array.from({ length: 3 }, () => [0, 0, 0]);
  const white = see(light, FULL);
  for (let at = 0; at < 60; at++) {
    const surface =
      at < 6 ? spectrum(() => 0.1 + 0.15 * at) : surfaceOfLab([among(30, 85), among(-35, 45), among(-35, 50)]);
    const raw = see(light, surface).map((v, c) => v / white[c]!);
    const want = linearOfLab(labOfSurface(surface));
    for (let row = 0; row < 3; row++)
      for (let column = 0; column < 3; column++) {
        normal[row]![column]! += raw[row]! * raw[column]!;
        sides[row]![column]! += raw[row]! * want[column]!;
      }
  }
  const boost = among(1, 1.25);
  const rows = [0, 1, 2].map((channel) =>
    cramer(
      normal,
      sides.map((side) => side[channel]!),
    ),
  );
  // White stays white, as cameras see to it.
  const whole = rows.map((row) => row.map((value) => value / (row[0]! + row[1]! + row[2]!)));
  const luminance = [0, 1, 2].map((c) => 0.2126 * whole[0]![c]! + 0.7152 * whole[1]![c]! + 0.0722 * whole[2]![c]!);
  return whole.map((row) => row.map((value, c) => luminance[c]! + boost * (value - luminance[c]!)));
}

function cramer(m: number[][], v: number[]): number[] {
  const det = (a: number[][]): number =>
    a[0]![0]! * (a[1]![1]! * a[2]![2]! - a[1]![2]! * a[2]![1]!) -
    a[0]![1]! * (a[1]![0]! * a[2]![2]! - a[1]![2]! * a[2]![0]!) +
    a[0]![2]! * (a[1]![0]! * a[2]![1]! - a[1]![1]! * a[2]![0]!);
  const whole = det(m);
  return [0, 1, 2].map((at) => det(m.map((row, r) => row.map((value, c) => (c === at ? v[r]! : value)))) / whole);
}

/** IEC 61966-2-1 and CIE 15, written out again. */
function linearOfLab([l, a, b]: readonly number[]): number[] {
  const y = (l! + 16) / 116;
  const back = (f: number): number => (f > 6 / 29 ? f ** 3 : (f - 16 / 116) / 7.787);
  const [X, Y, Z] = [0.9505 * back(y + a! / 500), back(y), 1.089 * back(y - b! / 200)];
  return [
    3.2406 * X - 1.5372 * Y - 0.4986 * Z,
    -0.9689 * X + 1.8758 * Y + 0.0415 * Z,
    0.0557 * X - 0.204 * Y + 1.057 * Z,
  ];
}

/** A phone's own evening of a scene: what lies in a bright neighbourhood is darkened a little, and the reverse. */
function localGain(linear: Float32Array, width: number, height: number, strength: number): Float32Array {
  const block = Math.ceil(Math.max(width, height) / 24);
  const [columns, rows] = [Math.ceil(width / block), Math.ceil(height / block)];
  const sums = new Float32Array(columns * rows);
  const counts = new Float32Array(columns * rows);
  let total = 0;
  for (let at = 0; at < width * height; at++) {
    const cell = Math.floor(Math.floor(at / width) / block) * columns + Math.floor((at % width) / block);
    const value = Math.log(0.02 + linear[at * 3 + 1]!);
    sums[cell]! += value;
    counts[cell]! += 1;
    total += value;
  }
  const middle = total / (width * height);
  const wide = sums.map((_, cell) => {
    let [sum, count] = [0, 0];
    for (let dy = -3; dy <= 3; dy++)
      for (let dx = -3; dx <= 3; dx++) {
        const [x, y] = [(cell % columns) + dx, Math.floor(cell / columns) + dy];
        if (x < 0 || y < 0 || x >= columns || y >= rows) continue;
        const weight = Math.exp(-(dx * dx + dy * dy) / 6);
        sum += weight * sums[y * columns + x]!;
        count += weight * counts[y * columns + x]!;
      }
    return sum / count;
  });
  const gain = new Float32Array(width * height);
  for (let at = 0; at < gain.length; at++) {
    const [x, y] = [(at % width) / block - 0.5, Math.floor(at / width) / block - 0.5];
    const [x0, y0] = [Math.max(0, Math.floor(x)), Math.max(0, Math.floor(y))];
    const [x1, y1] = [Math.min(columns - 1, x0 + 1), Math.min(rows - 1, y0 + 1)];
    const [px, py] = [Math.max(0, x - x0), Math.max(0, y - y0)];
    const cell = (cx: number, cy: number): number => wide[cy * columns + cx]!;
    const here = mix(mix(cell(x0, y0), cell(x1, y0), px), mix(cell(x0, y1), cell(x1, y1), px), py);
    gain[at] = Math.exp(-strength * (here - middle));
  }
  return gain;
}

function sharpen(encoded: Float32Array, width: number, height: number, strength: number): Float32Array {
  const sharp = encoded.slice();
  for (let y = 1; y < height - 1; y++)
    for (let x = 1; x < width - 1; x++)
      for (let channel = 0; channel < 3; channel++) {
        const at = (y * width + x) * 3 + channel;
        const around = (encoded[at - 3]! + encoded[at + 3]! + encoded[at - 3 * width]! + encoded[at + 3 * width]!) / 4;
        sharp[at] = encoded[at]! + strength * (encoded[at]! - around);
      }
  return sharp;
}
