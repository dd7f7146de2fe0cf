/**
 * The thresholds of ModelFest: that filtering and pooling by Fourier transform are done right here (the published standard model
 * must meet them), and how far our own eye is from people who looked at single small stimuli on a screen.
 */
import { describe, expect, it } from "vitest";
import { parametersAt, sensitivitySquared } from "../../src/vision/contrastSensitivity.ts";
import table from "../tables/modelfest.json" with { type: "json" };
import { cyclesOf, emptyPicture, restorePicture, transformPicture, type Picture } from "./fourier.ts";
import { FIELD_PIXELS, PIXELS_PER_DEGREE, STIMULI, type Stimulus } from "./modelfestStimuli.ts";

/** dB: what the reconstruction of a stimulus and the spread of the fit may come to. */
const EACH = 2;
/** dB, root mean square. */
const OVERALL = 1.1;

/** The dipole (32) is left out: how far its lines lie apart was guessed so that it fits. */
const RECOMMENDED = STIMULI.filter(({ n }) => n !== 32);

const pixelArea = 1 / PIXELS_PER_DEGREE ** 2;
const decibels = (sensitivity: number): number => 20 * Math.log10(sensitivity);
const measured = (n: number): number => table.stimuli.find((row) => row.n === n)!.dB;
const rootMeanSquare = (values: readonly number[]): number =>
  Math.sqrt(values.reduce((sum, value) => sum + value * value, 0) / values.length);

/** Every place of the field, degrees from its middle. */
function overField(at: (x: number, y: number, index: number) => void): void {
  for (let row = 0; row < FIELD_PIXELS; row++)
    for (let column = 0; column < FIELD_PIXELS; column++)
      at(
        (column - FIELD_PIXELS / 2) / PIXELS_PER_DEGREE,
        (row - FIELD_PIXELS / 2) / PIXELS_PER_DEGREE,
        row * FIELD_PIXELS + column,
      );
}

/** A gain for every line of the field's transform, by frequency in cycles per degree. */
function filterOf(gain: (across: number, up: number) => number): Float64Array {
  const perCycle = PIXELS_PER_DEGREE / FIELD_PIXELS;
  return Float64Array.from({ length: FIELD_PIXELS ** 2 }, (_, at) =>
    gain(
      cyclesOf(at % FIELD_PIXELS, FIELD_PIXELS) * perCycle,
      cyclesOf(Math.floor(at / FIELD_PIXELS), FIELD_PIXELS) * perCycle,
    ),
  );
}

function filtered({ contrast }: Stimulus, filter: Float64Array): Picture {
  const picture = emptyPicture(FIELD_PIXELS, FIELD_PIXELS);
  overField((x, y, at) => (picture.data[2 * at] = contrast(x, y)));
  transformPicture(picture);
  filter.forEach((gain, at) => {
    picture.data[2 * at]! *= gain;
    picture.data[2 * at + 1]! *= gain;
  });
  restorePicture(picture);
  return picture;
}

describe("the standard model of Watson & Ahumada 2005", () => {
  const { gain, f0, f1, a, p, gamma, lambda, apertureDegrees, beta } = table.model;
  const sech = (x: number): number => 1 / Math.cosh(x);
  const filter = filterOf((across, up) => {
    const frequency = Math.hypot(across, up);
    const slant = Math.sin(2 * Math.atan2(up, across)) ** 2;
    const oblique = frequency > gamma ? 1 - (1 - Math.exp((gamma - frequency) / lambda)) * slant : 1;
    return gain * (sech((frequency / f0) ** p) - a * sech(frequency / f1)) * oblique;
  });

  function predicted(stimulus: Stimulus): number {
    const { data } = filtered(stimulus, filter);
    let sum = 0;
    overField((x, y, at) => {
      const aperture = Math.exp(-(x * x + y * y) / (2 * apertureDegrees ** 2));
      sum += Math.abs(data[2 * at]! * aperture) ** beta * pixelArea;
    });
    return decibels(sum ** (1 / beta));
  }

  const missed = RECOMMENDED.map((stimulus) => ({
    ...table.stimuli.find(({ n }) => n === stimulus.n)!,
    by: predicted(stimulus) - measured(stimulus.n),
  }));

  it("has all stimuli that can be drawn from words", () => {
    expect(missed.map(({ n }) => n)).toEqual([...Array.from({ length: 31 }, (_, at) => at + 1), 33, 34, 36, 37, 38, 39, 40, 41, 42]); // prettier-ignore
  });

  it.each(missed)("$n, $name", ({ by }) => expect(Math.abs(by)).toBeLessThan(EACH));

  it("over all of them", () => expect(rootMeanSquare(missed.map(({ by }) => by))).toBeLessThan(OVERALL));
});

/**
 * castleCSF's light–dark channel at 30 cd/m², pooled with exponent 2, on no cloth. A patch is what the stimulus fills: ∫ window²,
 * which for a Gabor of sd σ is πσ², so that its V is contrast times sensitivity, as castleCSF has it.
 */
describe("our own eye on the same stimuli", () => {
  const LUMINANCE = 30;
  const tuned = parametersAt("lightDark", LUMINANCE);

  function predicted(stimulus: Stimulus): number {
    let area = 0;
    overField((x, y) => (area += stimulus.window(x, y) ** 2 * pixelArea));
    const filter = filterOf((across, up) => {
      const frequency = Math.hypot(across, up);
      return frequency === 0 || frequency > 60
        ? 0
        : Math.sqrt(sensitivitySquared(tuned, frequency, Math.log10(frequency), area));
    });
    const { data } = filtered(stimulus, filter);
    let sum = 0;
    overField((_x, _y, at) => (sum += data[2 * at]! ** 2 * pixelArea));
    return decibels(Math.sqrt((2 * sum) / area));
  }

  const missed = RECOMMENDED.map((stimulus) => ({ n: stimulus.n, by: predicted(stimulus) - measured(stimulus.n) }));

  /** dB: a Gabor is no endless wave: at 1.12 cycles and sd 0.5, the closed form's worst, it spreads over a third of its frequency. */
  const CLOSED_FORM = 0.2;

  it("is castleCSF on Gabors", () =>
    table.castleCsfMinusData.dB.forEach((expected, at) =>
      expect(Math.abs(missed[at]!.by - expected)).toBeLessThan(CLOSED_FORM),
    ));

  // No bar, and no claim to be good: these are our own figures, written down so that a change in the eye is noticed. Single
  // observers lie 2 to 6 dB from their mean; the standard model, fitted to these data, misses by 0.7. Small bright spots are what
  // ours misses most (26 to 29, 40: it is 4 to 7 dB too blind to them), and it sees 2 to 4 dB too much from 16 cycles per degree on.
  it("misses by 2.6 dB, of which 1.6 are blindness to all alike", () => {
    const bias = missed.reduce((sum, { by }) => sum + by, 0) / missed.length;
    const overall = rootMeanSquare(missed.map(({ by }) => by));
    const aboutMean = rootMeanSquare(missed.map(({ by }) => by - bias));
    const each = missed.map(({ n, by }) => `${n}: ${by.toFixed(1)}`).join(", ");
    console.info(
      `Ours minus ModelFest, dB: rms ${overall.toFixed(2)}, mean ${bias.toFixed(2)}, rms about the mean ${aboutMean.toFixed(2)}; ${each}`,
    );
    expect(overall).toBeCloseTo(2.62, 1);
    expect(bias).toBeCloseTo(-1.62, 1);
    expect(aboutMean).toBeCloseTo(2.06, 1);
  });
});
