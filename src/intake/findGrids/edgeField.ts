/** Where a picture changes, how strongly and in which direction, in lightness and in colour alike. */
import type { Level } from "./levels.ts";

export interface EdgeField {
  readonly width: number;
  readonly height: number;
  /** Pixels of the picture to a pixel of the field. */
  readonly scale: number;
  /** Strength times the cosine and sine of twice the angle of steepest change: opposite directions are one. */
  readonly cosine: Float32Array;
  readonly sine: Float32Array;
}

/**
 * The strength grows with the logarithm of the change, so that a heavy line does not drown the step between two near
 * colours. Source of the joined gradient of three channels: Di Zenzo 1986.
 */
export function edgeField({ width, height, scale, rgba }: Level): EdgeField {
  const cosine = new Float32Array(width * height);
  const sine = new Float32Array(width * height);
  const floor = noiseFloor(rgba, width, height);
  const unit = floor + 2;
  const least = floor * floor;
  for (let y = 1; y < height - 1; y++) {
    const from = y * width * 4;
    const stride = width * 4;
    for (let x = 1, at = from + 4; x < width - 1; x++, at += 4) {
      let [xx, yy, xy] = [0, 0, 0];
      for (let place = at; place < at + 3; place++) {
        const up = place - stride;
        const down = place + stride;
        const [a, b, c, d] = [rgba[up - 4]!, rgba[up + 4]!, rgba[down - 4]!, rgba[down + 4]!];
        // Scharr's weights for one sixteenth.
        const across = (3 * (b + d - a - c) + 10 * (rgba[place + 4]! - rgba[place - 4]!)) / 16;
        const along = (3 * (c + d - a - b) + 10 * (rgba[down]! - rgba[up]!)) / 16;
        xx += across * across;
        yy += along * along;
        xy += across * along;
      }
      const sum = xx + yy;
      if (sum <= least) continue;
      const strength = Math.log(1 + (Math.sqrt(sum) - floor) / unit) / sum;
      const to = y * width + x;
      cosine[to] = strength * (xx - yy);
      sine[to] = 2 * strength * xy;
    }
  }
  return { width, height, scale, cosine, sine };
}

/** What changes less than this, in bytes over two pixels, is noise: a multiple of what a fifth of the picture stays below. */
function noiseFloor(rgba: Uint8ClampedArray, width: number, height: number): number {
  const step = Math.max(1, Math.floor(Math.sqrt((width * height) / SAMPLES)));
  const changes: number[] = [];
  for (let y = 1; y < height - 1; y += step)
    for (let x = 1; x < width - 1; x += step) {
      const at = (y * width + x) * 4;
      let sum = 0;
      for (let place = at; place < at + 3; place++)
        sum += (rgba[place + 4]! - rgba[place - 4]!) ** 2 + (rgba[place + width * 4]! - rgba[place - width * 4]!) ** 2;
      changes.push(sum);
    }
  const sorted = Float64Array.from(changes).sort();
  const low = Math.sqrt(sorted[Math.floor(sorted.length / 5)] ?? 0);
  return Math.min(MOST_FLOOR, Math.max(LEAST_FLOOR, FLOOR_OF_FIFTH * low));
}

const SAMPLES = 40_000;
/** For normal noise in six differences a fifth lies below 0.8 of its usual size; three such sizes are hardly ever met by chance. */
const FLOOR_OF_FIFTH = 2.5;
/** Bytes. */
const LEAST_FLOOR = 3;
const MOST_FLOOR = 24;
