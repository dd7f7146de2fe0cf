/** What happens to a page on its way into a file: scanner, camera, screen, lamp, hand and compression; and where every point of it went. */
import sharp, { type Sharp } from "sharp";
import { pixelsOf, type Pixels } from "../../../src/raster/pixels.ts";
import type { Point } from "../../../src/intake/chartGrid.ts";
import type { Chance } from "./chance.ts";
import type { Drawing } from "./page.ts";

export interface Damage {
  /** Pixels to a page unit in the picture, about the middle. */
  scale: number;
  /** Degrees: in the picture's plane, nodding, turning. */
  roll: number;
  pitch: number;
  yaw: number;
  /** Part of the page's height by which its lines bend. */
  curl: number;
  curlAt: "spine" | "middle";
  /** Part by which the lens draws the corners in (barrel) or out. */
  lens: number;
  /** Parts of the picture left around what it was pointed at. */
  around: number;
  desk: readonly [number, number, number];
  /** Linear light, each channel. */
  cast: readonly [number, number, number];
  /** The part of light lost at the far side. */
  gradient: number;
  vignette: number;
  /** How dark a hand's shadow is, 0 for none. */
  shadow: number;
  /** Added white where something shines, 0 for none. */
  glare: number;
  /** How deep a screen's own pixels beat with the camera's. */
  moire: number;
  /** Pixels; bytes. */
  blur: number;
  noise: number;
  /** 0 for none. */
  jpeg: number;
  /** A photocopier's: how steeply grey becomes black or white; 0 for none. */
  copier: number;
  greyOnly: boolean;
  /** The most pixels of the picture. */
  most: number;
}

export const UNDAMAGED: Damage = {
  scale: 1, roll: 0, pitch: 0, yaw: 0, curl: 0, curlAt: "middle", lens: 0, around: 0, desk: [120, 100, 80],
  cast: [1, 1, 1], gradient: 0, vignette: 0, shadow: 0, glare: 0, moire: 0, blur: 0, noise: 0, jpeg: 0, copier: 0,
  greyOnly: false, most: 60e6,
}; // prettier-ignore

export interface Shot {
  readonly pixels: Pixels;
  /** From the page to the picture. */
  readonly place: (point: Point) => Point;
}

/** The page as it is, at `scale`. */
export async function renderPage({ svg, width, height }: Drawing, scale: number): Promise<Pixels> {
  const [wide, high] = [Math.max(1, Math.round(width * scale)), Math.max(1, Math.round(height * scale))];
  const sized = svg
    .replace('width="WIDTH"', `width="${wide}"`)
    .replace('height="HEIGHT"', `height="${high}" preserveAspectRatio="none"`);
  return rawOf(sharp(Buffer.from(sized), { unlimited: true }));
}

export async function rawOf(image: Sharp): Promise<Pixels> {
  const { data, info } = await image.ensureAlpha().raw().toBuffer({ resolveWithObject: true });
  return pixelsOf(info.width, info.height, new Uint8ClampedArray(data.buffer, data.byteOffset, data.length));
}

const fileOf = ({ width, height, rgba }: Pixels): Sharp =>
  sharp(rgba, { raw: { width, height, channels: 4 } }).removeAlpha();

export async function compressed(
  pixels: Pixels,
  quality: number,
  subsampling: "4:2:0" | "4:4:4" = "4:2:0",
): Promise<Pixels> {
  return rawOf(sharp(await fileOf(pixels).jpeg({ quality, chromaSubsampling: subsampling }).toBuffer()));
}

export async function shrunk(
  pixels: Pixels,
  width: number,
  height: number,
  kernel: "nearest" | "linear" | "lanczos3",
): Promise<Pixels> {
  return rawOf(fileOf(pixels).resize(width, height, { fit: "fill", kernel }));
}

/** A photograph or scan of the page. */
export async function shoot(chance: Chance, page: Drawing, damage: Damage): Promise<Shot> {
  const lie = placing(page, damage);
  const flat = await renderPage(page, lie.density);
  let pixels = expose(chance, flat, page, lie, damage);
  if (damage.blur > 0.3) pixels = await rawOf(fileOf(pixels).blur(damage.blur));
  if (damage.noise > 0 || damage.copier > 0 || damage.greyOnly) grain(chance, pixels, damage);
  if (damage.jpeg > 0) pixels = await compressed(pixels, damage.jpeg, chance.odds(0.3) ? "4:4:4" : "4:2:0");
  return { pixels, place: lie.forward };
}

interface Lie {
  readonly width: number;
  readonly height: number;
  /** Pixels of the flat page to a page unit. */
  readonly density: number;
  readonly forward: (point: Point) => Point;
  readonly back: (x: number, y: number, out: Float64Array) => void;
}

type Matrix = readonly number[];

/** The page before a pinhole camera, then its bend and the lens. */
function placing({ width, height, focus }: Drawing, damage: Damage): Lie {
  const radians = Math.PI / 180;
  const [a, b, c] = [damage.pitch * radians, damage.yaw * radians, damage.roll * radians];
  // Turned about x, then y, then z; only the first two columns are wanted, as the page is flat.
  const turn = [
    [Math.cos(b) * Math.cos(c), Math.sin(a) * Math.sin(b) * Math.cos(c) - Math.cos(a) * Math.sin(c)],
    [Math.cos(b) * Math.sin(c), Math.sin(a) * Math.sin(b) * Math.sin(c) + Math.cos(a) * Math.cos(c)],
    [-Math.sin(b), Math.sin(a) * Math.cos(b)],
  ] as const;
  const middle: Point = [(focus[0][0] + focus[1][0]) / 2, (focus[0][1] + focus[1][1]) / 2];
  // The camera stands off 1.6 times what it looks at, as telephones do.
  const far = 1.6 * Math.hypot(focus[1][0] - focus[0][0], focus[1][1] - focus[0][1]);
  const project = ([x, y]: Point): Point => {
    const [u, v] = [x - middle[0], y - middle[1]];
    const depth = 1 + (turn[2][0] * u + turn[2][1] * v) / far;
    return [(turn[0][0] * u + turn[0][1] * v) / depth, (turn[1][0] * u + turn[1][1] * v) / depth];
  };
  const ends = [focus[0], [focus[1][0], focus[0][1]], focus[1], [focus[0][0], focus[1][1]]].map((point) =>
    project(point as Point),
  );
  const [least, most] = [0, 1].map(
    (axis) => [Math.min(...ends.map((end) => end[axis]!)), Math.max(...ends.map((end) => end[axis]!))] as const,
  ) as [readonly [number, number], readonly [number, number]];
  const pad = damage.around * Math.max(least[1] - least[0], most[1] - most[0]);
  const bare = (least[1] - least[0] + 2 * pad) * (most[1] - most[0] + 2 * pad);
  const scale = Math.min(damage.scale, Math.sqrt(damage.most / bare));
  const wide = Math.max(8, Math.round((least[1] - least[0] + 2 * pad) * scale));
  const high = Math.max(8, Math.round((most[1] - most[0] + 2 * pad) * scale));
  const [ox, oy] = [pad - least[0], pad - most[0]];
  const matrix: Matrix = [
    ...[0, 1].flatMap((axis) => {
      const off = [ox, oy][axis]!;
      const [p, q] = [turn[axis]![0] * scale + (off * scale * turn[2][0]) / far, turn[axis]![1] * scale + (off * scale * turn[2][1]) / far];
      return [p, q, off * scale - p * middle[0] - q * middle[1]];
    }),
    turn[2][0] / far, turn[2][1] / far, 1 - (turn[2][0] * middle[0] + turn[2][1] * middle[1]) / far,
  ]; // prettier-ignore
  const inverse = inverted(matrix);
  const bend = (u: number): number => (damage.curlAt === "spine" ? Math.exp(-u / 0.22) : 4 * (u - 0.5) * (u - 0.5));
  const squeeze = (u: number): number =>
    damage.curlAt === "spine" ? 0.35 * Math.exp(-u / 0.16) : 0.3 * Math.sin(2 * Math.PI * u);
  const half = Math.hypot(wide, high) / 2;
  // Outwards from the middle by a cubic: the one-term model of lenses.
  const lens = (x: number, y: number): Point => {
    const [u, v] = [(x - wide / 2) / half, (y - high / 2) / half];
    const grow = 1 + damage.lens * (u * u + v * v);
    return [wide / 2 + u * grow * half, high / 2 + v * grow * half];
  };
  const back = (x: number, y: number, out: Float64Array): void => {
    const [lx, ly] = damage.lens === 0 ? [x, y] : lens(x, y);
    const w = inverse[6]! * lx + inverse[7]! * ly + inverse[8]!;
    const u = (inverse[0]! * lx + inverse[1]! * ly + inverse[2]!) / w / width;
    const v = (inverse[3]! * lx + inverse[4]! * ly + inverse[5]!) / w / height;
    const bent = Math.max(-0.2, Math.min(1.2, u));
    out[0] = (u - (damage.curl === 0 ? 0 : damage.curl * squeeze(bent))) * width;
    out[1] = (v - (damage.curl === 0 ? 0 : damage.curl * bend(bent))) * height;
  };
  const forward = ([px, py]: Point): Point => {
    let u = px / width;
    for (let step = 0; step < 60; step++) u = px / width + damage.curl * squeeze(Math.max(-0.2, Math.min(1.2, u)));
    const v = py / height + damage.curl * bend(Math.max(-0.2, Math.min(1.2, u)));
    const [fx, fy] = [u * width, v * height];
    const w = matrix[6]! * fx + matrix[7]! * fy + matrix[8]!;
    const target: Point = [
      (matrix[0]! * fx + matrix[1]! * fy + matrix[2]!) / w,
      (matrix[3]! * fx + matrix[4]! * fy + matrix[5]!) / w,
    ];
    let [x, y] = target;
    for (let step = 0; step < 40 && damage.lens !== 0; step++) {
      const [qx, qy] = lens(x, y);
      x += target[0] - qx;
      y += target[1] - qy;
    }
    return [x, y];
  };
  const slant = 1 + 0.5 * (Math.abs(Math.sin(a)) + Math.abs(Math.sin(b)));
  return { width: wide, height: high, density: scale * slant, forward, back };
}

function expose(chance: Chance, flat: Pixels, page: Drawing, lie: Lie, damage: Damage): Pixels {
  const { among } = chance;
  const { width, height } = lie;
  const rgba = new Uint8ClampedArray(width * height * 4).fill(255);
  const [toX, toY] = [flat.width / page.width, flat.height / page.height];
  const out = new Float64Array(2);
  const turn = among(0, 2 * Math.PI);
  const [gx, gy] = [Math.cos(turn), Math.sin(turn)];
  const grain = [among(2, 9), among(0.05, 0.6), among(0, 6)] as const;
  const fingers = Array.from({ length: damage.shadow > 0 ? 5 : 0 }, (_, finger) => {
    const [fx, fy] = finger === 0 ? [among(0.1, 0.9), among(0.5, 1.1)] : [0, 0];
    return {
      fx,
      fy,
      length: among(0.18, 0.4),
      breadth: among(0.02, 0.05),
      angle: among(-0.5, 0.5) + (finger - 2) * 0.25,
    };
  });
  const palm = fingers[0] ?? { fx: 0, fy: 0 };
  const soft = among(0.02, 0.06);
  const shine: Point = [among(0.15, 0.85), among(0.15, 0.85)];
  const spread = among(0.08, 0.2);
  // Lines of the screen to a pixel of the camera: near one, they beat slowly.
  const beat = among(0.86, 1.16);
  const [phaseX, phaseY] = [among(0, 1), among(0, 1)];
  const outer = damage.desk.map((byte) => LINEAR[byte]!);
  const rgb = [0, 0, 0];
  const spot = (u: number, v: number): number => {
    let shade = blob(Math.hypot((u - palm.fx) / 0.16, (v - palm.fy) / 0.2), soft * 5);
    for (const { length, breadth, angle } of fingers) {
      const [du, dv] = [u - palm.fx, v - palm.fy];
      const along = -(du * Math.sin(angle) * -1 + dv * Math.cos(angle));
      const across = du * Math.cos(angle) + dv * Math.sin(angle);
      const past = along < 0 ? 9 : Math.max(0, along - length) / breadth;
      shade = Math.max(shade, blob(Math.hypot(across / breadth, past), soft / breadth));
    }
    return shade;
  };
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      lie.back(x + 0.5, y + 0.5, out);
      const [px, py] = [out[0]! * toX - 0.5, out[1]! * toY - 0.5];
      if (px < -0.5 || py < -0.5 || px > flat.width - 0.5 || py > flat.height - 0.5) {
        const wave =
          1 +
          0.12 *
            Math.sin((x * grain[1]) / grain[0] + (y * (1 - grain[1])) / grain[0] + Math.sin(y / 37 + grain[2]) * 3);
        for (let channel = 0; channel < 3; channel++) rgb[channel] = outer[channel]! * wave;
      } else bilinear(flat, px, py, rgb);
      const [u, v] = [x / width, y / height];
      let light = 1 - damage.gradient * (0.5 + 0.5 * (gx * (2 * u - 1) + gy * (2 * v - 1)));
      light *= 1 - damage.vignette * ((2 * u - 1) ** 2 + (2 * v - 1) ** 2) * 0.5;
      if (damage.shadow > 0) light *= 1 - damage.shadow * spot(u, v);
      const flare =
        damage.glare > 0
          ? damage.glare * Math.exp(-((u - shine[0]) ** 2 + (v - shine[1]) ** 2) / (2 * spread * spread))
          : 0;
      for (let channel = 0; channel < 3; channel++) {
        let value = rgb[channel]! * light * damage.cast[channel]! + flare;
        if (damage.moire > 0)
          value *=
            1 +
            damage.moire *
              (Math.cos(2 * Math.PI * ((px / toX) * lieScale(lie) * beat + channel / 3 + phaseX)) * 0.7 +
                Math.cos(2 * Math.PI * ((py / toY) * lieScale(lie) * beat + phaseY)) * 0.5);
        rgba[(y * width + x) * 4 + channel] = encoded(value);
      }
    }
  return { width, height, rgba };
}

const lieScale = ({ density }: Lie): number => density;

function blob(distance: number, soft: number): number {
  const inside = (1 - distance) / Math.max(0.01, soft) + 0.5;
  const part = Math.max(0, Math.min(1, inside));
  return part * part * (3 - 2 * part);
}

function grain({ normal }: Chance, { rgba }: Pixels, { noise, copier, greyOnly }: Damage): void {
  for (let at = 0; at < rgba.length; at += 4) {
    if (greyOnly || copier > 0) {
      const grey = 0.3 * rgba[at]! + 0.59 * rgba[at + 1]! + 0.11 * rgba[at + 2]!;
      rgba[at] = rgba[at + 1] = rgba[at + 2] = copier > 0 ? 255 / (1 + Math.exp((-copier * (grey - 140)) / 64)) : grey;
    }
    if (noise <= 0) continue;
    const shared = normal() * noise * 0.7;
    for (let channel = 0; channel < 3; channel++)
      rgba[at + channel] = rgba[at + channel]! + shared + normal() * noise * 0.7;
  }
}

function bilinear({ width, height, rgba }: Pixels, x: number, y: number, out: number[]): void {
  const x0 = Math.max(0, Math.min(width - 1, Math.floor(x)));
  const y0 = Math.max(0, Math.min(height - 1, Math.floor(y)));
  const [x1, y1] = [Math.min(width - 1, x0 + 1), Math.min(height - 1, y0 + 1)];
  const [u, v] = [Math.max(0, Math.min(1, x - x0)), Math.max(0, Math.min(1, y - y0))];
  for (let channel = 0; channel < 3; channel++) {
    const at = (px: number, py: number): number => LINEAR[rgba[(py * width + px) * 4 + channel]!]!;
    out[channel] = (at(x0, y0) * (1 - u) + at(x1, y0) * u) * (1 - v) + (at(x0, y1) * (1 - u) + at(x1, y1) * u) * v;
  }
}

function inverted(m: Matrix): Matrix {
  const [a, b, c, d, e, f, g, h, i] = m as [number, number, number, number, number, number, number, number, number];
  return [
    e * i - f * h,
    c * h - b * i,
    b * f - c * e,
    f * g - d * i,
    a * i - c * g,
    c * d - a * f,
    d * h - e * g,
    b * g - a * h,
    a * e - b * d,
  ];
}

// Source: IEC 61966-2-1.
const LINEAR = Float64Array.from({ length: 256 }, (_, byte) => {
  const part = byte / 255;
  return part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4;
});
const ENCODED = Uint8Array.from({ length: 4097 }, (_, at) => {
  const part = at / 4096;
  return Math.round(255 * (part <= 0.0031308 ? 12.92 * part : 1.055 * part ** (1 / 2.4) - 0.055));
});
const encoded = (value: number): number => ENCODED[Math.max(0, Math.min(4096, Math.round(value * 4096)))]!;
