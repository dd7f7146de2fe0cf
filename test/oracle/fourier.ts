/** Fourier transforms of pictures for the oracles, by a published library; sides are powers of two. */
import FFT from "fft.js";

/** Transforms a complex picture in place: real and imaginary parts side by side, row after row. Not scaled. */
export const transformPicture = (picture: Picture): void => throughBothSides(picture, "transform");

/** The way back, scaled so that there and back changes nothing. */
export const restorePicture = (picture: Picture): void => throughBothSides(picture, "inverseTransform");

export interface Picture {
  readonly width: number;
  readonly height: number;
  readonly data: Float64Array;
}

export const emptyPicture = (width: number, height: number): Picture => ({
  width,
  height,
  data: new Float64Array(2 * width * height),
});

/** Frequency of the k-th of so many lines, cycles per side: the upper half counts back from nought. */
export const cyclesOf = (k: number, count: number): number => (k <= count / 2 ? k : k - count);

function throughBothSides({ width, height, data }: Picture, way: "transform" | "inverseTransform"): void {
  const across = new FFT(width);
  const line = new Float64Array(2 * width);
  for (let y = 0; y < height; y++) {
    const row = data.subarray(2 * y * width, 2 * (y + 1) * width);
    // Nothing stays nothing.
    if (row.every((value) => value === 0)) continue;
    across[way](line, row);
    row.set(line);
  }
  const up = new FFT(height);
  const column = new Float64Array(2 * height);
  const turned = new Float64Array(2 * height);
  for (let x = 0; x < width; x++) {
    for (let y = 0; y < height; y++) {
      column[2 * y] = data[2 * (y * width + x)]!;
      column[2 * y + 1] = data[2 * (y * width + x) + 1]!;
    }
    up[way](turned, column);
    for (let y = 0; y < height; y++) {
      data[2 * (y * width + x)] = turned[2 * y]!;
      data[2 * (y * width + x) + 1] = turned[2 * y + 1]!;
    }
  }
}
