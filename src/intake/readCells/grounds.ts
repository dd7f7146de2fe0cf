/** The colour that most of a cell has, away from its lines and whatever stands in it. */
import type { Patches } from "./patches.ts";

export interface Grounds {
  /** Encoded red, green and blue, 0 to 255 with fractions, three to the cell. */
  readonly colours: Float32Array;
  /** The part of the cell's inside that has this colour, 0 to 1. */
  readonly even: Float32Array;
  /** Root mean square of what has it, bytes. */
  readonly spread: Float32Array;
}

/** Part of the cell left out on each side, for lines, their blur, and a grid that lies a little off. */
const MARGIN = 0.17;
/** Bytes, the largest of the three channels: what is nearer has one colour. Noise and compression stay below it. */
const ALIKE = 26;
/** Of many samples so many are asked which has most of the others near it. */
const ASKED = 40;

export function groundsOf(patches: Patches): Grounds {
  const { columns, rows, side, bytes } = patches;
  const cells = columns * rows;
  const grounds: Grounds = {
    colours: new Float32Array(cells * 3),
    even: new Float32Array(cells),
    spread: new Float32Array(cells),
  };
  const inside = insideOf(side);
  const around = aroundOf(side);
  const each = side * side * 3;
  const count = inside.length;
  const red = new Float64Array(count);
  const green = new Float64Array(count);
  const blue = new Float64Array(count);
  const stride = Math.max(1, Math.floor(count / ASKED));
  for (let cell = 0; cell < cells; cell++) {
    const from = cell * each;
    const [least, most] = [
      [255, 255, 255],
      [0, 0, 0],
    ];
    for (let index = 0; index < count; index++) {
      const at = from + inside[index]!;
      red[index] = bytes[at]!;
      green[index] = bytes[at + 1]!;
      blue[index] = bytes[at + 2]!;
      for (let channel = 0; channel < 3; channel++) {
        if (bytes[at + channel]! < least[channel]!) least[channel] = bytes[at + channel]!;
        if (bytes[at + channel]! > most[channel]!) most[channel] = bytes[at + channel]!;
      }
    }
    const near = (index: number, r: number, g: number, b: number): boolean =>
      Math.abs(red[index]! - r) <= ALIKE && Math.abs(green[index]! - g) <= ALIKE && Math.abs(blue[index]! - b) <= ALIKE;
    let [r, g, b] = [(least[0]! + most[0]!) / 2, (least[1]! + most[1]!) / 2, (least[2]! + most[2]!) / 2];
    const uniform = most.every((top, channel) => top - least[channel]! <= ALIKE);
    if (!uniform) {
      let best = -1;
      for (let index = 0; index < count; index += stride) {
        let friends = 0;
        for (let other = 0; other < count; other++)
          if (near(other, red[index]!, green[index]!, blue[index]!)) friends++;
        for (const place of around) {
          const at = from + place;
          if (
            Math.abs(bytes[at]! - red[index]!) <= ALIKE &&
            Math.abs(bytes[at + 1]! - green[index]!) <= ALIKE &&
            Math.abs(bytes[at + 2]! - blue[index]!) <= ALIKE
          )
            friends += AROUND_VOTES;
        }
        if (friends > best) {
          best = friends;
          [r, g, b] = [red[index]!, green[index]!, blue[index]!];
        }
      }
    }
    // Twice: the mean of what is near moves to where there is most of it.
    let alike = 0;
    for (let round = 0; round < (uniform ? 1 : 3); round++) {
      let [sumRed, sumGreen, sumBlue] = [0, 0, 0];
      alike = 0;
      for (let index = 0; index < count; index++) {
        if (!near(index, r, g, b)) continue;
        alike++;
        sumRed += red[index]!;
        sumGreen += green[index]!;
        sumBlue += blue[index]!;
      }
      if (alike === 0) break;
      [r, g, b] = [sumRed / alike, sumGreen / alike, sumBlue / alike];
    }
    let squares = 0;
    for (let index = 0; index < count; index++)
      if (near(index, r, g, b))
        squares += ((red[index]! - r) ** 2 + (green[index]! - g) ** 2 + (blue[index]! - b) ** 2) / 3;
    grounds.colours.set([r, g, b], cell * 3);
    grounds.even[cell] = alike / count;
    grounds.spread[cell] = Math.sqrt(squares / Math.max(1, alike));
  }
  return grounds;
}

/** Samples that lie between the signs and the lines, where cells are large enough to have such: they know the ground. */
function aroundOf(side: number): Int32Array {
  const places: number[] = [];
  for (let y = 0; side >= LARGE && y < side; y++)
    for (let x = 0; x < side; x++) {
      const away = Math.min(x + 0.5, y + 0.5, side - x - 0.5, side - y - 0.5) / side;
      if (away > AROUND_FROM && away < AROUND_TO) places.push((y * side + x) * 3);
    }
  return Int32Array.from(places);
}

const LARGE = 14;
const AROUND_FROM = 0.11;
const AROUND_TO = 0.19;
/** Votes that one of them has against one of the inside. */
const AROUND_VOTES = 3;

/** Where the samples of a cell's inside begin in its patch. */
function insideOf(side: number): Int32Array {
  const from = Math.min(Math.floor((side - 1) / 2), Math.ceil(MARGIN * side - 0.25));
  const places: number[] = [];
  for (let y = from; y < side - from; y++) for (let x = from; x < side - from; x++) places.push((y * side + x) * 3);
  return Int32Array.from(places);
}
