/** The binned spectrum against the plain sum over every frequency, written here anew from the published formula. */
import { describe, expect, it } from "vitest";
import table from "../../test/tables/motifs.json" with { type: "json" };
import { parametersAt, sensitivitySquared } from "../vision/contrastSensitivity.ts";
import { SMOOTH_PAPER } from "../vision/masking.ts";
import { millimetresPerDegree, ROOM_VEIL } from "../vision/viewing.ts";
import { gainsOf } from "../vision/visibility.ts";
import { spectrumOf } from "./spectra.ts";
import { pieceOfMotif } from "./visibility.ts";

/** Birthplace: vision.md B2: V agrees with the full sum to 1.3e-4; G is the root of what is summed here. */
const AGREEMENT = 2e-4;
const STITCH = { widthMm: 100 / 28, heightMm: 100 / 30 };
const LUMINANCE = 60;

/**
 * G² = 2·Σ |m̂_KL|²·S(f_KL)², K to six times the width and L to six times the height, nothing above 60 cycles per degree; an
 * isolated piece lies in `padding` times its own height of nothing, and the sum is multiplied by that.
 */
function plainGain(motif: readonly string[], padding: number, distanceMm: number): number {
  const width = motif[0]!.length;
  const height = motif.length;
  const rows = padding * height;
  const share = motif.join("").split("1").length - 1;
  const mean = share / (width * height);
  const scale = millimetresPerDegree(distanceMm);
  const area = (width * STITCH.widthMm * height * STITCH.heightMm) / scale ** 2;
  const tuned = parametersAt("lightDark", LUMINANCE);
  const sinc = (x: number): number => (x === 0 ? 1 : Math.sin(Math.PI * x) / (Math.PI * x));
  let sum = 0;
  for (let K = -6 * width; K <= 6 * width; K++) {
    for (let L = -6 * rows; L <= 6 * rows; L++) {
      if (K === 0 && L === 0) continue;
      const frequency = scale * Math.hypot(K / (width * STITCH.widthMm), L / (rows * STITCH.heightMm));
      if (frequency > 60) continue;
      let real = 0;
      let imaginary = 0;
      motif.forEach((text, y) =>
        [...text].forEach((cell, x) => {
          const turn = 2 * Math.PI * ((K * x) / width + (L * y) / rows);
          real += (Number(cell) - mean) * Math.cos(turn);
          imaginary += (Number(cell) - mean) * Math.sin(turn);
        }),
      );
      const power = (real ** 2 + imaginary ** 2) / (width * rows) ** 2;
      sum +=
        power *
        (sinc(K / width) * sinc(L / rows)) ** 2 *
        sensitivitySquared(tuned, frequency, Math.log10(frequency), area);
    }
  }
  return Math.sqrt(2 * padding * sum);
}

const small = table.motifs.filter(({ width, height }) => width * height <= 30);

describe.each([
  { rows: "tiled" as const, padding: 1 },
  { rows: "once" as const, padding: 8 },
])("$rows", ({ rows, padding }) => {
  it.each(small)("$id", ({ rows: drawn }) => {
    const motif = drawn.map((text) => text.replaceAll(".", "0").replaceAll("#", "1"));
    const spectrum = spectrumOf(pieceOfMotif(motif, 2), { stitch: STITCH, rows });
    for (const distance of [700, 1500, 6000]) {
      const eye = { texture: SMOOTH_PAPER, veil: ROOM_VEIL, contrastCap: 2 };
      const gain = Math.sqrt(gainsOf(spectrum, distance, LUMINANCE, eye).lightDark[0]!);
      const expected = plainGain(motif, padding, distance);
      expect(Math.abs(gain - expected)).toBeLessThan(AGREEMENT * expected + 1e-9);
    }
  });
});

it("what is summed is all there is: the power of tiles is their variance, but for edges finer than a sixth of a stitch", () => {
  const spectrum = spectrumOf(pieceOfMotif(["1000", "0000"], 2), { stitch: STITCH, rows: "tiled" });
  const power = spectrum.powers[0]!.reduce((sum, one) => sum + one, 0);
  // One stitch in eight: p(1 − p) = 7/64.
  expect(power).toBeLessThan(7 / 64);
  expect(power).toBeGreaterThan(0.93 * (7 / 64));
});
