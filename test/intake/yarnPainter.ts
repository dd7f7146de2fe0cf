/** Paints photographs of yarn whose true shades are known: spectra, strands and balls, references beside them; nothing of the corrector's. */
import { seededRandom } from "../../src/base/random.ts";
import { develop, type Chance, type Developed, type Room, type Scene } from "./yarnCamera.ts";
import { hump, labOfSurface, spectrum, surfaceOfLab, type Spectrum } from "./yarnSpectra.ts";

export interface PaintedPhoto {
  readonly width: number;
  readonly height: number;
  /** Three bytes to the pixel. */
  readonly rgb: Uint8Array;
  readonly yarns: readonly PaintedYarn[];
  readonly grey: number[];
  readonly white: number[];
  readonly paper: "bright" | "cream" | "recycled";
  /** Outer corners of the chart's patches, clockwise from the first. */
  readonly corners: number[];
  readonly story: Developed["story"] & { readonly layout: string };
}

export interface PaintedYarn {
  readonly box: number[];
  readonly lab: [number, number, number];
  readonly lie: string;
}

const WIDTH = 560;
const HEIGHT = 440;
const PITCH = 42;
const PATCH = 36;

export function chanceOf(seed: number): Chance {
  const random = seededRandom(seed * 7919 + 3);
  random();
  return {
    random,
    normal: () => random() + random() + random() + random() + random() + random() - 3,
    among: (low, high) => low + (high - low) * random(),
    pick: (list) => list[Math.floor(random() * list.length)]!,
  };
}

/** @param chartLabs the published Lab (D65) of the chart's 24 patches */
export function paintYarnPhoto(
  seed: number,
  chartLabs: readonly (readonly number[])[],
  room: Room = "uneven",
): PaintedPhoto {
  const chance = chanceOf(seed);
  const { among, normal, pick, random } = chance;
  const canvas = newCanvas(WIDTH, HEIGHT);
  canvas.fill([0, 0, WIDTH, HEIGHT], surfaceOfLab(pick(TABLES)), () => 1 + 0.04 * normal());

  // The references lie above or below the yarns, the chart left or right of the card.
  const [below, right] = [random() < 0.3, random() < 0.5];
  const [left, top] = [right ? 268 : 26, below ? 246 : 24];
  canvas.fill(
    [left - 8, top - 8, 6 * PITCH + 10, 4 * PITCH + 10],
    spectrum(() => 0.04),
  );
  const uneven = among(0, 0.3);
  chartLabs.forEach((lab, index) => {
    const at = [left + (index % 6) * PITCH, top + Math.floor(index / 6) * PITCH, PATCH, PATCH];
    canvas.fill(at, surfaceOfLab(lab, ripple(chance, index < 18 ? uneven : 0.02)));
  });
  const [cardsX, cardsY] = [right ? 30 : 320, top + Math.floor(among(0, 80))];
  const grey = [cardsX, cardsY, 80, 80];
  canvas.fill(grey, surfaceOfLab([49.5 + 0.5 * normal(), 0.4 * normal(), 0.5 * normal()]));
  const [paper, sheet] = paperOf(chance);
  const white = [cardsX + 110, cardsY, 90, 80];
  canvas.fill(white, sheet);

  const yarns = Array.from({ length: 10 }, (_, index): PaintedYarn => {
    const box = [20 + (index % 5) * 106, (below ? 20 : 226) + Math.floor(index / 5) * 106, 96, 96];
    const surface = yarnSurfaceOf(chance);
    const [lie, make] = pick(LIES);
    const [shade, shine] = make(chance);
    canvas.fill(box, surface, shade, shine);
    // What lies round the middle, where a hand would draw the box.
    return { box: [box[0]! + 18, box[1]! + 18, 60, 60], lab: labOfSurface(surface), lie };
  });
  const { rgb, story } = develop(canvas.scene, chance, room);
  const [farX, farY] = [left + 5 * PITCH + PATCH, top + 3 * PITCH + PATCH];
  return {
    width: WIDTH,
    height: HEIGHT,
    rgb,
    yarns,
    grey: inset(grey),
    white: inset(white),
    paper,
    corners: [left, top, farX, top, farX, farY, left, farY],
    story: { ...story, layout: `chart ${right ? "right" : "left"} ${below ? "below" : "above"}` },
  };
}

const inset = ([x, y, w, h]: readonly number[]): number[] => [x! + 8, y! + 8, w! - 16, h! - 16];

/** Wood, grey, white, dark, green cloth: CIELAB. */
const TABLES = [
  [62, 6, 18],
  [45, 9, 22],
  [70, 0, 0],
  [88, 0, 2],
  [25, 1, 2],
  [50, -12, 8],
] as const;

type Field = (x: number, y: number) => number;

export interface Canvas {
  readonly scene: Scene;
  readonly fill: (box: readonly number[], surface: Spectrum, shade?: Field, shine?: Field) => void;
  readonly put: (pixel: number, material: number, shade: number, shine: number) => void;
  readonly add: (surface: Spectrum) => number;
}

export function newCanvas(width: number, height: number): Canvas {
  const materials: Spectrum[] = [];
  const scene = {
    width,
    height,
    materials,
    which: new Uint16Array(width * height),
    shade: new Float32Array(width * height),
    shine: new Float32Array(width * height),
  };
  const put = (pixel: number, material: number, shade: number, shine: number): void => {
    scene.which[pixel] = material;
    scene.shade[pixel] = shade;
    scene.shine[pixel] = shine;
  };
  const add = (surface: Spectrum): number => materials.push(surface) - 1;
  return {
    scene,
    put,
    add,
    fill: ([left, top, wide, high], surface, shade = () => 1, shine = () => 0) => {
      const material = add(surface);
      for (let y = 0; y < high!; y++)
        for (let x = 0; x < wide!; x++) put((y + top!) * width + x + left!, material, shade(x, y), shine(x, y));
    },
  };
}

/** Three slow waves: pigments that come to the same shade by daylight in another way. */
function ripple({ among, normal }: Chance, size: number): Spectrum {
  const waves = Array.from({ length: 3 }, () => [size * normal(), among(60, 160), among(0, 6.3)] as const);
  return spectrum((l) => waves.reduce((sum, [high, long, from]) => sum + high * Math.sin((6.28 * l) / long + from), 0));
}

function paperOf({ among, pick }: Chance): readonly ["bright" | "cream" | "recycled", Spectrum] {
  const kind = pick(["bright", "bright", "cream", "recycled"] as const);
  const [body, yellow, brightened] = {
    bright: [among(0.84, 0.9), 0.03, among(0.01, 0.1)],
    cream: [among(0.8, 0.86), among(0.05, 0.14), 0],
    recycled: [among(0.58, 0.74), among(0.02, 0.06), among(0, 0.02)],
  }[kind] as [number, number, number];
  return [
    kind,
    spectrum((l) => body + yellow * ((l - 560) / 150) * (l < 560 ? 1 : 0.3) + brightened * hump(l, 440, 20, 30)),
  ];
}

/**
 * Wool, which is yellowish, under up to three dyes, by Kubelka and Munk 1931: what is swallowed over what is scattered adds up.
 * From pastels to deep and nearly black; some surface light goes back undyed.
 */
export function yarnSurfaceOf({ among, pick, random }: Chance): Spectrum {
  const strength = pick([among(0.03, 0.3), among(0.2, 1.5), among(1, 6), among(4, 25)]);
  const dyes = Array.from({ length: 1 + Math.floor(random() * 3) }, () => ({
    middle: among(410, 660),
    below: among(28, 80),
    above: among(24, 60),
    part: among(0.15, 1),
  }));
  const dull = random() < 0.5 ? 0 : strength * among(0, 0.5);
  const surface = among(0.005, 0.03);
  return spectrum((l) => {
    const wool = 0.52 + 0.3 / (1 + Math.exp(-(l - 455) / 45));
    const bare = (1 - wool) ** 2 / (2 * wool);
    const taken = dyes.reduce(
      (sum, { middle, below, above, part }) => sum + strength * part * hump(l, middle, below, above),
      0,
    );
    const ratio = bare + taken + dull / (1 + Math.exp((l - 685) / 12));
    return surface + (1 - surface) * (1 + ratio - Math.sqrt(ratio * ratio + 2 * ratio));
  });
}

/** How a yarn lies: light that comes back by place in a square of 96, 1 where it faces the light, and what shines. */
export const LIES: readonly (readonly [string, (chance: Chance) => readonly [Field, Field]])[] = [
  ["strands", strands],
  ["plies", plies],
  ["ball", ball],
  ["fuzz", fuzz],
];

function strands({ among, normal }: Chance): readonly [Field, Field] {
  const [period, turn, deep] = [among(7, 18), among(-0.7, 0.7), among(0.3, 0.75)];
  const [grain, bright] = [among(0.03, 0.1), among(0, 0.2)];
  const from: Field = (x, y) => {
    const across = (((x * Math.cos(turn) + y * Math.sin(turn)) / period) % 1) * 2;
    return Math.abs(Math.abs(across) % 2) - 1;
  };
  return [
    (x, y) => Math.max(0.05, 1 - deep * (1 - Math.sqrt(Math.max(0, 1 - from(x, y) ** 2))) + grain * normal()),
    (x, y) => bright * hump(from(x, y), 0.2, 0.08),
  ];
}

function plies({ among, normal }: Chance): readonly [Field, Field] {
  const [thick, twist, deep, turn] = [among(14, 28), among(9, 16), among(0.3, 0.7), among(0, 3)];
  const [grain, bright] = [among(0.02, 0.08), among(0, 0.1)];
  const part: Field = (x, y) => {
    const [along, across] = [x * Math.cos(turn) + y * Math.sin(turn), y * Math.cos(turn) - x * Math.sin(turn)];
    const strand = 2 * (across / thick - Math.floor(across / thick)) - 1;
    const ply = 2 * ((along + across) / twist - Math.floor((along + across) / twist)) - 1;
    return Math.sqrt(Math.max(0, 1 - strand * strand)) * (0.4 + 0.6 * Math.sqrt(Math.max(0, 1 - ply * ply)));
  };
  return [
    (x, y) => Math.max(0.05, 1 - deep * (1 - part(x, y)) + grain * normal()),
    (x, y) => (part(x, y) > 0.97 ? bright : 0),
  ];
}

function ball(chance: Chance): readonly [Field, Field] {
  const { among } = chance;
  const [shade, shine] = strands(chance);
  const [towardsX, towardsY, deep] = [among(-0.35, 0.35), among(-0.35, 0.35), among(0.2, 0.6)];
  const facing: Field = (x, y) => {
    const [u, v] = [(x - 48) / 52, (y - 48) / 52];
    const up = Math.sqrt(Math.max(0, 1 - u * u - v * v));
    const length = Math.hypot(towardsX, towardsY, 1);
    return Math.max(0, (u * towardsX + v * towardsY + up) / length);
  };
  return [(x, y) => shade(x, y) * (1 - deep * (1 - facing(x, y))), (x, y) => shine(x, y) * facing(x, y)];
}

/** Brushed or felted: no strands to be seen, soft clouds of light and shade. */
function fuzz({ among, normal }: Chance): readonly [Field, Field] {
  const [grain, cloud, long] = [among(0.04, 0.12), among(0.02, 0.1), among(8, 25)];
  const from = among(0, 6);
  return [
    (x, y) =>
      Math.max(0.05, 1 + cloud * (Math.sin(x / long + from) * Math.cos(y / long + 2 * from) - 0.5) + grain * normal()),
    () => 0,
  ];
}
