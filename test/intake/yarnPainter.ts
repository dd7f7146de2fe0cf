/** Paints photographs of yarn whose true shades are known: spectra, light, camera, its curve and noise; nothing of the corrector's. */
import { seededRandom } from "../../src/base/random.ts";
import { daylight, diode, glow, hump, labOfSurface, spectrum, surfaceOfLab, type Spectrum } from "./yarnSpectra.ts";

export interface PaintedPhoto {
  readonly width: number;
  readonly height: number;
  /** Three bytes to the pixel. */
  readonly rgb: Uint8Array;
  readonly yarns: { readonly box: number[]; readonly lab: [number, number, number] }[];
  readonly grey: number[];
  readonly white: number[];
  /** Outer corners of the chart's patches, clockwise from the first. */
  readonly corners: number[];
  readonly story: { readonly light: string; readonly curve: string };
}

type Triple = [number, number, number];
const WIDTH = 520;
const HEIGHT = 420;
const PITCH = 42;
const PATCH = 36;

/** @param chartLabs the published Lab (D65) of the chart's 24 patches */
export function paintYarnPhoto(seed: number, chartLabs: readonly (readonly number[])[]): PaintedPhoto {
  const random = seededRandom(seed * 7919 + 3);
  random();
  const normal = (): number => random() + random() + random() + random() + random() + random() - 3;
  const among = (low: number, high: number): number => low + (high - low) * random();
  const pick = <T>(list: readonly T[]): T => list[Math.floor(random() * list.length)]!;

  const [light, illuminant] = pick<readonly [string, Spectrum]>([
    ["daylight", daylight(among(5000, 7000))],
    ["daylight", daylight(among(4200, 6500))],
    ["lamp", glow(among(2700, 3400))],
    ["diode", diode(among(0, 0.9))],
  ]);
  const eyes = cameraEyes(among);
  const see = (surface: Spectrum): Triple =>
    eyes.map((eye) => eye.reduce((sum, part, band) => sum + part * illuminant[band]! * surface[band]!, 0)) as Triple;
  const white = see(spectrum(() => 1));
  // The camera's idea of white is a little off, and its matrix was made for other surfaces than these.
  const balance = [Math.exp(0.05 * normal()), 1, Math.exp(0.07 * normal())];
  const balanced = (surface: Spectrum): Triple => see(surface).map((v, c) => (v / white[c]!) * balance[c]!) as Triple;
  const matrix = cameraMatrix(see, white, among);
  const exposure = among(0.62, 0.95);
  const [curve, bend] = pick(CURVES);
  const depth = among(0.6, 1.2);
  const flare = among(0, 0.006);
  const shadeX = 0.08 * normal();
  const shadeY = 0.08 * normal();
  const vignette = among(0, 0.18);
  const noise = among(0.002, 0.012);

  const linear = new Float32Array(WIDTH * HEIGHT * 3);
  const fill = (box: readonly number[], raw: Triple, shading: (x: number, y: number) => number = () => 1): void => {
    for (let y = box[1]!; y < box[1]! + box[3]!; y++)
      for (let x = box[0]!; x < box[0]! + box[2]!; x++)
        for (let channel = 0; channel < 3; channel++)
          linear[(y * WIDTH + x) * 3 + channel] = raw[channel]! * shading(x - box[0]!, y - box[1]!);
  };
  fill([0, 0, WIDTH, HEIGHT], balanced(surfaceOfLab([62, 6, 18])), () => 1 + 0.04 * normal());
  const [left, top] = [30, 30];
  fill([left - 8, top - 8, 6 * PITCH + 10, 4 * PITCH + 10], balanced(spectrum(() => 0.04)));
  chartLabs.forEach((lab, index) => {
    const at = [left + (index % 6) * PITCH, top + Math.floor(index / 6) * PITCH, PATCH, PATCH];
    fill(at, balanced(surfaceOfLab(lab)));
  });
  const grey = [320, 30, 70, 70];
  fill(grey, balanced(surfaceOfLab([49.5 + 0.5 * normal(), 0.4 * normal(), 0.5 * normal()])));
  const paper = [410, 30, 80, 70];
  const brightened = among(0, 0.07);
  fill(
    paper,
    balanced(spectrum((l) => among(0.84, 0.84) + 0.03 * ((l - 400) / 300) + brightened * hump(l, 440, 20, 30))),
  );
  const yarns = Array.from({ length: 8 }, (_, index) => {
    const box = [30 + (index % 4) * 120, 225 + Math.floor(index / 4) * 95, 90, 80];
    const surface = yarnSurfaceOf(among, random);
    fill(box, balanced(surface), strands(among, normal));
    return { box: [box[0]! + 8, box[1]! + 8, box[2]! - 16, box[3]! - 16], lab: labOfSurface(surface) };
  });

  const rgb = new Uint8Array(WIDTH * HEIGHT * 3);
  for (let y = 0, at = 0; y < HEIGHT; y++)
    for (let x = 0; x < WIDTH; x++, at += 3) {
      const [u, v] = [x / WIDTH - 0.5, y / HEIGHT - 0.5];
      const lit = (1 + shadeX * u * 2 + shadeY * v * 2) * (1 - vignette * (u * u + v * v) * 2);
      const [r, g, b] = [linear[at]!, linear[at + 1]!, linear[at + 2]!];
      for (let channel = 0; channel < 3; channel++) {
        const m = matrix[channel]!;
        const value = exposure * lit * (m[0]! * r + m[1]! * g + m[2]! * b) + flare;
        const bent = bend(Math.min(1, Math.max(0, value)), depth);
        rgb[at + channel] = Math.round(255 * Math.min(1, Math.max(0, bent + noise * normal())));
      }
    }
  const [right, bottom] = [left + 5 * PITCH + PATCH, top + 3 * PITCH + PATCH];
  return {
    width: WIDTH,
    height: HEIGHT,
    rgb,
    yarns,
    grey: inset(grey),
    white: inset(paper),
    corners: [left, top, right, top, right, bottom, left, bottom],
    story: { light, curve },
  };
}

const inset = ([x, y, w, h]: readonly number[]): number[] => [x! + 8, y! + 8, w! - 16, h! - 16];

/** Encoded value of light; depth is how far the bend goes. */
const CURVES: readonly (readonly [string, (light: number, depth: number) => number])[] = [
  ["standard", (x) => standard(x)],
  ["gamma", (x, depth) => x ** (1 / (1.9 + 0.45 * depth))],
  ["gentle", (x, depth) => mixed(standard(x), smooth(standard(x)), 0.3 * depth)],
  ["phone", (x, depth) => mixed(standard(x), 1 - (1 - smooth(standard(x) ** 0.8)), 0.6 * depth)],
  ["filmic", (x, depth) => mixed(standard(x), standard((x * (1 + 1.6 * x)) / (0.45 + 2.15 * x)) ** 1.15, 0.7 * depth)],
];
const standard = (x: number): number => (x < 0.0031308 ? 12.92 * x : 1.055 * x ** (1 / 2.4) - 0.055);
const smooth = (e: number): number => e * e * (3 - 2 * e);
const mixed = (one: number, other: number, part: number): number => one + part * (other - one);

function cameraEyes(among: (low: number, high: number) => number): Spectrum[] {
  const [r, g, b] = [among(594, 608), among(528, 542), among(450, 466)];
  return [
    spectrum((l) => hump(l, r, among(26, 26), 34) + 0.06 * hump(l, 540, 40)),
    spectrum((l) => hump(l, g, 36, 38) + 0.05 * hump(l, 460, 30)),
    spectrum((l) => hump(l, b, 26, 30) + 0.04 * hump(l, 530, 30)),
  ];
}

/** Camera to linear sRGB: what a maker would fit on smooth surfaces, with the maker's taste for stronger colours. */
function cameraMatrix(
  see: (surface: Spectrum) => Triple,
  white: Triple,
  among: (low: number, high: number) => number,
): number[][] {
  const normal = Array.from({ length: 3 }, () => [0, 0, 0]);
  const sides = Array.from({ length: 3 }, () => [0, 0, 0]);
  for (let at = 0; at < 60; at++) {
    const surface =
      at < 6 ? spectrum(() => 0.1 + 0.15 * at) : surfaceOfLab([among(30, 85), among(-35, 45), among(-35, 50)]);
    const raw = see(surface).map((v, c) => v / white[c]!);
    const want = linearOfLab(labOfSurface(surface));
    for (let row = 0; row < 3; row++)
      for (let column = 0; column < 3; column++) {
        normal[row]![column]! += raw[row]! * raw[column]!;
        sides[row]![column]! += raw[row]! * want[column]!;
      }
  }
  const boost = among(1, 1.15);
  const rows = [0, 1, 2].map((channel) =>
    cramer(
      normal,
      sides.map((side) => side[channel]!),
    ),
  );
  const luminance = [0, 1, 2].map((c) => 0.2126 * rows[0]![c]! + 0.7152 * rows[1]![c]! + 0.0722 * rows[2]![c]!);
  return rows.map((row) => row.map((value, c) => luminance[c]! + boost * (value - luminance[c]!)));
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

/** Wool, which is yellowish, under up to three dyes that each swallow a hump of the spectrum, about 100 nm wide as dyes do. */
function yarnSurfaceOf(among: (low: number, high: number) => number, random: () => number): Spectrum {
  const dyes = Array.from({ length: 1 + Math.floor(random() * 3) }, () => ({
    middle: among(420, 660),
    width: among(38, 75),
    depth: random() < 0.35 ? among(0.05, 0.6) : among(0.4, 2.6),
  }));
  const dull = among(0, 0.6);
  return spectrum((l) => {
    const wool = 0.55 + 0.25 / (1 + Math.exp(-(l - 460) / 45));
    const taken = dyes.reduce(
      (sum, { middle, width, depth }) => sum + depth * hump(l, middle, width, width * 0.8),
      dull,
    );
    return 0.02 + 0.98 * wool * Math.exp(-taken);
  });
}

/** Strands lying side by side: round, dark between, fuzzy, with a little shine; the lit surface has a light of 1. */
function strands(among: (low: number, high: number) => number, normal: () => number): (x: number, y: number) => number {
  const period = among(6, 13);
  const turn = among(-0.7, 0.7);
  const deep = among(0.3, 0.75);
  const fuzz = among(0.03, 0.1);
  const shine = among(0, 0.25);
  return (x, y) => {
    const across = (((x * Math.cos(turn) + y * Math.sin(turn)) / period) % 1) * 2;
    const from = Math.abs(Math.abs(across) % 2) - 1;
    const round = Math.sqrt(Math.max(0, 1 - from * from));
    return Math.max(0.05, 1 - deep * (1 - round) + shine * hump(from, 0.2, 0.08) + fuzz * normal());
  };
}
