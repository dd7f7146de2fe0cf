/** Strands twisted together, drawn: the knitters' own test, for the ball lies and the strand tells. */
import { seededRandom } from "../../base/random.ts";
import { linearFromLab, type Lab } from "../../colour/lab.ts";
import { bytesFromLinear, type LinearRgb } from "../../colour/srgb.ts";
import type { Part } from "../../yarn/flecks.ts";

export interface TwistSize {
  /** Pixels. */
  readonly width: number;
  readonly height: number;
  /** Pixels of one turn, and of a strand across. */
  readonly turn: number;
  readonly thick: number;
}

/** Light left at a strand's edge, and how much the fibres add to it or take from it; our choice, by eye. */
const EDGE = 0.62;
const FIBRE = 0.07;
/** A strand's length in its own thickness over which one colour of a heather lasts; our choice, by eye. */
const FLECK = 0.55;

/**
 * @param strands the colours of each, shares adding to 1
 * @param colours "grey": each in the grey of its own L*
 * @returns RGBA, transparent where there is no yarn; the same strands give the same picture
 */
export function twisted(
  strands: readonly (readonly Part[])[],
  { width, height, turn, thick }: TwistSize,
  colours: "full" | "grey" = "full",
): Uint8ClampedArray<ArrayBuffer> {
  const rgba = new Uint8ClampedArray(width * height * 4);
  const lights = strands.map((parts) => parts.map(({ lab }) => linearFromLab(colours === "grey" ? greyOf(lab) : lab)));
  const flecks = strands.map((parts, at) => fleckOrder(parts, Math.ceil(width / (FLECK * thick)) + 5, at));
  const radius = thick / 2;
  // Two strands lie side by side when they are turned flat to the eye.
  const swing = strands.length === 1 ? 0 : Math.min(height / 2 - radius, radius * (strands.length === 2 ? 0.92 : 1.1));
  for (let x = 0; x < width; x++) {
    const order = strands
      .map((_, at) => {
        const angle = 2 * Math.PI * (x / turn + at / strands.length);
        return { at, middle: height / 2 + swing * Math.sin(angle), near: Math.cos(angle) };
      })
      .sort((one, other) => one.near - other.near);
    for (const { at, middle, near } of order) {
      const tilt = (x / thick) * 2.2 + near;
      for (let y = Math.max(0, Math.floor(middle - radius)); y < Math.min(height, middle + radius); y++) {
        const across = (y + 0.5 - middle) / radius;
        if (Math.abs(across) >= 1) continue;
        const round = EDGE + (1 - EDGE) * Math.sqrt(1 - across * across);
        const fibre = 1 + FIBRE * Math.sin(2 * Math.PI * (tilt - across * 0.9));
        // What lies behind another strand lies in its shade.
        const depth = 0.86 + 0.14 * ((near + 1) / 2);
        const colour = lights[at]![flecks[at]![Math.floor((x + across * radius * 0.8 + thick) / (FLECK * thick))]!]!;
        put(rgba, (y * width + x) * 4, colour, round * fibre * depth);
      }
    }
  }
  return rgba;
}

const greyOf = ([lightness]: Lab): Lab => [lightness, 0, 0];

/** Which colour of a heather comes when: by share, in an order that looks like chance and is none. */
function fleckOrder(parts: readonly Part[], count: number, seed: number): number[] {
  const random = seededRandom(seed + 1);
  return Array.from({ length: count }, () => {
    let left = random();
    const found = parts.findIndex(({ share }) => (left -= share) < 0);
    return found < 0 ? parts.length - 1 : found;
  });
}

function put(rgba: Uint8ClampedArray, at: number, [red, green, blue]: LinearRgb, light: number): void {
  rgba.set(bytesFromLinear([red * light, green * light, blue * light]), at);
  rgba[at + 3] = 255;
}
