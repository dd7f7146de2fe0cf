/** The fast Fourier transform of a square of complex numbers, in place. */
import { assert } from "../../base/assert.ts";

/** Sides of a power of two. Source: Cooley and Tukey 1965. */
export function transformSquare(real: Float64Array, imaginary: Float64Array, side: number): void {
  assert((side & (side - 1)) === 0 && real.length === side * side, `a square of ${side}`);
  const turns = turnsOf(side);
  for (let row = 0; row < side; row++) transformLine(real, imaginary, row * side, side, turns);
  transpose(real, side);
  transpose(imaginary, side);
  for (let row = 0; row < side; row++) transformLine(real, imaginary, row * side, side, turns);
  transpose(real, side);
  transpose(imaginary, side);
}

interface Turns {
  readonly cosines: Float64Array;
  readonly sines: Float64Array;
}

function turnsOf(side: number): Turns {
  const angle = (index: number): number => (-2 * Math.PI * index) / side;
  return {
    cosines: Float64Array.from({ length: side / 2 }, (_, index) => Math.cos(angle(index))),
    sines: Float64Array.from({ length: side / 2 }, (_, index) => Math.sin(angle(index))),
  };
}

function transformLine(
  real: Float64Array,
  imaginary: Float64Array,
  start: number,
  size: number,
  { cosines, sines }: Turns,
): void {
  for (let i = 1, j = 0; i < size; i++) {
    let bit = size >> 1;
    for (; j & bit; bit >>= 1) j ^= bit;
    j ^= bit;
    if (i >= j) continue;
    const [a, b] = [start + i, start + j];
    [real[a], real[b]] = [real[b]!, real[a]!];
    [imaginary[a], imaginary[b]] = [imaginary[b]!, imaginary[a]!];
  }
  for (let span = 2; span <= size; span *= 2) {
    const half = span >> 1;
    const stride = size / span;
    for (let k = 0; k < half; k++) {
      const cosine = cosines[k * stride]!;
      const sine = sines[k * stride]!;
      for (let i = start + k; i < start + size; i += span) {
        const j = i + half;
        const turnedReal = real[j]! * cosine - imaginary[j]! * sine;
        const turnedImaginary = real[j]! * sine + imaginary[j]! * cosine;
        real[j] = real[i]! - turnedReal;
        imaginary[j] = imaginary[i]! - turnedImaginary;
        real[i]! += turnedReal;
        imaginary[i]! += turnedImaginary;
      }
    }
  }
}

function transpose(data: Float64Array, side: number): void {
  for (let row = 1; row < side; row++)
    for (let column = 0; column < row; column++) {
      const [one, other] = [row * side + column, column * side + row];
      const kept = data[one]!;
      data[one] = data[other]!;
      data[other] = kept;
    }
}
