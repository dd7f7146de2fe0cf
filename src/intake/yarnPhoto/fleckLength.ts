/** How long the colours of a wound yarn last along it, measured in the photograph itself: in widths of its strands. */
import type { LinearRgb } from "../../colour/srgb.ts";
import { clipBox, crop, type Box, type Raster } from "../../raster/raster.ts";
import { shrinkBy } from "../../raster/resample.ts";

/** Pixels of the copy that is measured, and how far it is shrunk at most: strands must be some pixels wide. Our choice. */
const SIDE = 200;
const SHRINKS: readonly number[] = [4, 2, 1];
/** Windows in which strands lie one way, pixels; a ball has several ways. Our choice. */
const WINDOW = 50;
const DIRECTIONS = 12;
/** Widths of a strand that are looked for, pixels. */
const NARROWEST = 3;
const WIDEST = 20;
/** Along the strands is where colours last longest, near the right angle to their distance: so many turns each way, radians. */
const TURNS = 2;
const TURN = Math.PI / 30;
/** How like itself a window is one strand further, as part of its variance, at least; less is chance. Our choice. */
const SURE = 0.12;
/** Of windows that tell strands there must be so many. Our choice. */
const FEWEST_WINDOWS = 3;

/**
 * For each shade how many strands' widths it lasts along the yarn, as a median of several windows; null where strands cannot be
 * told. A shade that lasts longer than a window counts as the window at least.
 *
 * @param box well within the yarn
 * @param shadeOf which of the yarn's shades a pixel has
 */
export function lengthsInStrands(
  picture: Raster,
  box: Box,
  shades: number,
  shadeOf: (rgb: LinearRgb) => number,
): number[] | null {
  const inside = clipBox(picture, box);
  for (const shrink of SHRINKS) {
    const [width, height] = [Math.min(inside.width, SIDE * shrink), Math.min(inside.height, SIDE * shrink)];
    if (Math.min(width, height) / shrink < WINDOW) continue;
    const x = inside.x + ((inside.width - width) >> 1);
    const y = inside.y + ((inside.height - height) >> 1);
    const measured = measure(shrinkBy(crop(picture, { x, y, width, height }), 1 / shrink), shades, shadeOf);
    if (measured) return measured;
  }
  return null;
}

function measure(view: Raster, shades: number, shadeOf: (rgb: LinearRgb) => number): number[] | null {
  const { width, height, data } = view;
  const light = new Float32Array(width * height);
  const shade = new Uint8Array(width * height);
  for (let at = 0, from = 0; at < light.length; at++, from += 3) {
    const rgb: LinearRgb = [data[from]!, data[from + 1]!, data[from + 2]!];
    light[at] = Math.log(0.002 + 0.2126 * rgb[0] + 0.7152 * rgb[1] + 0.0722 * rgb[2]);
    shade[at] = shadeOf(rgb);
  }
  const even = evened(light, shade, shades);
  const settled = settledShades(shade, width, height, shades);
  const lengths: number[][] = Array.from({ length: shades }, () => []);
  let windows = 0;
  for (let top = 0; top + WINDOW <= height; top += WINDOW >> 1)
    for (let left = 0; left + WINDOW <= width; left += WINDOW >> 1) {
      const strands = strandsIn(even, width, left, top);
      if (!strands) continue;
      windows++;
      const ways = Array.from({ length: 2 * TURNS + 1 }, (_, turn) =>
        chords(
          settled,
          width,
          height,
          { left, top, angle: strands.angle + Math.PI / 2 + (turn - TURNS) * TURN, pitch: strands.pitch },
          shades,
        ),
      );
      lengths.forEach((list, at) => {
        const chord = Math.max(...ways.map((way) => way[at] ?? 0));
        if (chord > 0) list.push(chord / strands.pitch);
      });
    }
  if (windows < FEWEST_WINDOWS) return null;
  return lengths.map((list) => (list.length > 0 ? list.toSorted((a, b) => a - b)[list.length >> 1]! : 0));
}

/** Light with each shade brought to one mean, so that strands are seen and not flecks. */
function evened(light: Float32Array, shade: Uint8Array, shades: number): Float32Array {
  const sums = new Float64Array(shades);
  const counts = new Float64Array(shades);
  shade.forEach((own, at) => {
    sums[own]! += light[at]!;
    counts[own]!++;
  });
  return light.map((value, at) => value - sums[shade[at]!]! / counts[shade[at]!]!);
}

/** Each pixel in the shade of most of the nine about it. */
function settledShades(shade: Uint8Array, width: number, height: number, shades: number): Uint8Array {
  const out = shade.slice();
  const votes = new Uint8Array(shades);
  for (let y = 1; y < height - 1; y++)
    for (let x = 1; x < width - 1; x++) {
      votes.fill(0);
      for (let v = -1; v <= 1; v++) for (let u = -1; u <= 1; u++) votes[shade[(y + v) * width + x + u]!]!++;
      let most = shade[y * width + x]!;
      for (let at = 0; at < shades; at++) if (votes[at]! > votes[most]!) most = at;
      out[y * width + x] = most;
    }
  return out;
}

interface Strands {
  /** Pixels from one to the next… */
  readonly pitch: number;
  /** …in this direction. */
  readonly angle: number;
}

/** In which direction and at which distance a window is again like itself, after having been unlike: across its strands. */
function strandsIn(light: Float32Array, width: number, left: number, top: number): Strands | null {
  let mean = 0;
  for (let y = top; y < top + WINDOW; y++) for (let x = left; x < left + WINDOW; x++) mean += light[y * width + x]!;
  mean /= WINDOW ** 2;
  let variance = 0;
  for (let y = top; y < top + WINDOW; y++)
    for (let x = left; x < left + WINDOW; x++) variance += (light[y * width + x]! - mean) ** 2;
  variance /= WINDOW ** 2;
  if (variance < 1e-6) return null;
  const found: { pitch: number; angle: number; sure: number }[] = [];
  for (let direction = 0; direction < DIRECTIONS; direction++) {
    const angle = (direction / DIRECTIONS) * Math.PI;
    const [dx, dy] = [Math.cos(angle), Math.sin(angle)];
    let low = Infinity;
    let last = Infinity;
    let rising = false;
    for (let lag = 1; lag <= WIDEST + 1; lag++) {
      const like =
        likeness(light, width, { left, top, mean, u: Math.round(dx * lag), v: Math.round(dy * lag) }) / variance;
      if (rising && like < last && lag - 1 >= NARROWEST && last - low > 2 * SURE && last > SURE) {
        const far = Math.hypot(Math.round(dx * (lag - 1)), Math.round(dy * (lag - 1)));
        found.push({ pitch: far, angle, sure: last - low });
        break;
      }
      rising = like > last;
      low = Math.min(low, like);
      last = like;
    }
  }
  const most = Math.max(0, ...found.map(({ sure }) => sure));
  // Askew to the strands it is as far again and longer.
  const good = found.filter(({ sure }) => sure > 0.85 * most).toSorted((one, other) => one.pitch - other.pitch);
  return good[0] ?? null;
}

interface Shift {
  readonly left: number;
  readonly top: number;
  readonly mean: number;
  readonly u: number;
  readonly v: number;
}

/** Mean product of a window with itself moved by u and v, of what of it lies within it. */
function likeness(light: Float32Array, width: number, { left, top, mean, u, v }: Shift): number {
  let sum = 0;
  let count = 0;
  for (let y = Math.max(top, top - v); y < Math.min(top + WINDOW, top + WINDOW - v); y += 2)
    for (let x = Math.max(left, left - u); x < Math.min(left + WINDOW, left + WINDOW - u); x++) {
      sum += (light[y * width + x]! - mean) * (light[(y + v) * width + x + u]! - mean);
      count++;
    }
  return count > 0 ? sum / count : 0;
}

interface Way {
  readonly left: number;
  readonly top: number;
  readonly angle: number;
  readonly pitch: number;
}

/**
 * How long each shade lasts, pixels: all its pixels over all its ends on lines through a window, so that what the picture's edge
 * cuts off does not shorten it. A line that strays to its strand's edge is led back: where the shade changes but goes on
 * a little to the side, the line goes on there. null where there is too little of a shade; without ends all of a line.
 */
function chords(shade: Uint8Array, width: number, height: number, way: Way, shades: number): (number | null)[] {
  const { left, top, angle, pitch } = way;
  const [dx, dy] = [Math.cos(angle), Math.sin(angle)];
  const pixels = new Float64Array(shades);
  const ends = new Float64Array(shades);
  const shadeAt = (step: number, offset: number): number => {
    const x = Math.round(left + WINDOW / 2 + dx * step - dy * offset);
    const y = Math.round(top + WINDOW / 2 + dy * step + dx * offset);
    return x < 0 || y < 0 || x >= width || y >= height ? -1 : shade[y * width + x]!;
  };
  const aside = Math.max(1, Math.round(SWAY * pitch));
  for (let start = -WINDOW / 2; start < WINDOW / 2; start += 2) {
    let offset = start;
    let last = -1;
    for (let step = -REACH; step <= REACH; step++) {
      let own = shadeAt(step, offset);
      if (own >= 0 && last >= 0 && own !== last)
        for (let far = 1; far <= aside && own !== last; far++)
          for (const side of [far, -far])
            if (own !== last && shadeAt(step, offset + side) === last) {
              offset += side;
              own = last;
            }
      if (own >= 0) pixels[own]!++;
      if (own !== last && own >= 0 && last >= 0) {
        ends[own]!++;
        ends[last]!++;
      }
      last = own;
    }
  }
  return Array.from(pixels, (count, at) =>
    count >= WINDOW ? Math.min(2 * REACH, (2 * count) / Math.max(1, ends[at]!)) : null,
  );
}

/** Lines go so far to both sides of a window's middle, pixels; a shade that lasts longer is told as twice as long. */
const REACH = 75;
/** A line is led aside by this part of a strand at most, lest it comes to the next. Our choice. */
const SWAY = 0.35;
