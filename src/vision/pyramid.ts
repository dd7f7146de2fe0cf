/** A picture split into levels of detail an octave apart, each with a known frequency, that add up to the picture again. */

/** One channel of a picture, rows from the top. */
export interface Plane {
  readonly width: number;
  readonly height: number;
  readonly data: Float32Array;
}

export interface Pyramid {
  /** Detail from fine to coarse; level k has half the pixels each way of level k − 1. */
  readonly details: readonly Plane[];
  /** The picture itself, then each blurred and halved; one more than details. The last is what no level holds. */
  readonly blurred: readonly Plane[];
}

/**
 * Cycles per pixel of the wave that a level and its two neighbours share, from their balance: (power in the finer −
 * power in the coarser) / power in all three. Worked out from the 1-4-6-4-1 kernel, which leaves cos⁴(πf): level 1 has
 * cos⁴(πf)·(1 − cos⁸(2πf)), and waves of 0.08, 0.1 and 0.13 have balances −0.33, −0.02 and 0.31 there. The finest level has
 * no finer one: waves of 0.13, 0.2 and 0.25 have −0.65, −0.22 and −0.07.
 */
export function frequencyOf(level: number, balance: number): number {
  return level === 0 ? 0.272 * 2 ** (1.5 * balance) : (0.2026 / 2 ** level) * 2 ** (1.1 * balance);
}

/** Power of a wave in three neighbouring levels over its power in the picture: 0.65 to 0.73 for the first three waves. */
export const POWER_GAIN = 0.68;

/** Laplacian pyramid (Burt & Adelson 1983), as many levels as asked for or as the picture has room for. */
export function pyramidOf(picture: Plane, levels: number): Pyramid {
  const details: Plane[] = [];
  const blurred: Plane[] = [picture];
  for (let level = 0; level < levels; level++) {
    const fine = blurred[level]!;
    if (Math.min(fine.width, fine.height) < 2) break;
    const coarse = reduce(fine);
    const detail = expand(coarse, fine.width, fine.height);
    for (let at = 0; at < detail.data.length; at++) detail.data[at] = fine.data[at]! - detail.data[at]!;
    details.push(detail);
    blurred.push(coarse);
  }
  return { details, blurred };
}

/** The picture again from its details, which may have been changed, and its coarsest blur. */
export function collapse(details: readonly Plane[], base: Plane): Plane {
  let picture = base;
  for (let level = details.length - 1; level >= 0; level--) {
    const { width, height, data } = details[level]!;
    picture = expand(picture, width, height);
    for (let at = 0; at < data.length; at++) picture.data[at]! += data[at]!;
  }
  return picture;
}

/** Half as many pixels each way; what lies past the edge is a mirror image. */
export function reduce({ width, height, data }: Plane): Plane {
  const w = (width + 1) >> 1;
  const h = (height + 1) >> 1;
  const across = new Float32Array(w * height);
  for (let y = 0; y < height; y++) {
    const from = y * width;
    for (let x = 0; x < w; x++) {
      const c = 2 * x;
      const inside = c > 1 && c + 2 < width;
      const l = from + (inside ? c - 1 : mirror(c - 1, width));
      const ll = from + (inside ? c - 2 : mirror(c - 2, width));
      const r = from + (inside ? c + 1 : mirror(c + 1, width));
      const rr = from + (inside ? c + 2 : mirror(c + 2, width));
      across[y * w + x] = (data[ll]! + data[rr]! + 4 * (data[l]! + data[r]!) + 6 * data[from + c]!) / 16;
    }
  }
  const out = new Float32Array(w * h);
  for (let y = 0; y < h; y++) {
    const c = 2 * y;
    const l = mirror(c - 1, height) * w;
    const ll = mirror(c - 2, height) * w;
    const r = mirror(c + 1, height) * w;
    const rr = mirror(c + 2, height) * w;
    for (let x = 0; x < w; x++) {
      const sum = across[ll + x]! + across[rr + x]! + 4 * (across[l + x]! + across[r + x]!) + 6 * across[c * w + x]!;
      out[y * w + x] = sum / 16;
    }
  }
  return { width: w, height: h, data: out };
}

/** Twice as many pixels each way, smooth, to the size asked for. */
export function expand({ width, height, data }: Plane, toWidth: number, toHeight: number): Plane {
  const across = new Float32Array(toWidth * height);
  for (let y = 0; y < height; y++) {
    const from = y * width;
    const to = y * toWidth;
    let last = data[from + (width > 1 ? 1 : 0)]!;
    let own = data[from]!;
    for (let x = 0; x < toWidth; x += 2) {
      const c = x >> 1;
      const next = c + 1 < width ? data[from + c + 1]! : own;
      across[to + x] = (last + 6 * own + next) / 8;
      if (x + 1 < toWidth) across[to + x + 1] = (own + next) / 2;
      last = own;
      own = next;
    }
  }
  const out = new Float32Array(toWidth * toHeight);
  for (let y = 0; y < toHeight; y++) {
    const c = y >> 1;
    const r = (c + 1 < height ? c + 1 : c) * toWidth;
    const l = c > 0 ? (c - 1) * toWidth : r;
    const own = c * toWidth;
    const to = y * toWidth;
    if (y & 1) for (let x = 0; x < toWidth; x++) out[to + x] = (across[own + x]! + across[r + x]!) / 2;
    else for (let x = 0; x < toWidth; x++) out[to + x] = (across[l + x]! + 6 * across[own + x]! + across[r + x]!) / 8;
  }
  return { width: toWidth, height: toHeight, data: out };
}

/** The mean of each pixel's surroundings, `radius` pixels every way, twice, so that near ones count more. */
export function surroundings(plane: Plane, radius: number): Plane {
  return boxDown(boxAcross(boxDown(boxAcross(plane, radius), radius), radius), radius);
}

function boxAcross({ width, height, data }: Plane, radius: number): Plane {
  const out = new Float32Array(data.length);
  const size = 2 * radius + 1;
  for (let y = 0; y < height; y++) {
    const from = y * width;
    let sum = 0;
    for (let x = -radius; x <= radius; x++) sum += data[from + mirror(x, width)]!;
    for (let x = 0; x < width; x++) {
      out[from + x] = sum / size;
      const next = x + radius + 1;
      const last = x - radius;
      sum +=
        data[from + (next < width ? next : mirror(next, width))]! -
        data[from + (last < 0 ? mirror(last, width) : last)]!;
    }
  }
  return { width, height, data: out };
}

function boxDown({ width, height, data }: Plane, radius: number): Plane {
  const out = new Float32Array(data.length);
  const size = 2 * radius + 1;
  const sums = new Float64Array(width);
  for (let y = -radius; y <= radius; y++) {
    const from = mirror(y, height) * width;
    for (let x = 0; x < width; x++) sums[x]! += data[from + x]!;
  }
  for (let y = 0; y < height; y++) {
    const next = mirror(y + radius + 1, height) * width;
    const last = mirror(y - radius, height) * width;
    for (let x = 0; x < width; x++) {
      out[y * width + x] = sums[x]! / size;
      sums[x]! += data[next + x]! - data[last + x]!;
    }
  }
  return { width, height, data: out };
}

/** The place inside that mirrors one past an edge, as often as needed. */
function mirror(at: number, size: number): number {
  if (at >= 0 && at < size) return at;
  if (size === 1) return 0;
  const period = 2 * size - 2;
  const place = ((at % period) + period) % period;
  return place < size ? place : period - place;
}
