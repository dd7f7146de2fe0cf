/**
 * Lights, dyes and eyes as spectra from 400 to 700 nm in steps of 10: what photographs of yarn are painted from. The dyes and
 * the chart's pigments are smooth inventions; the chart's are made so that they have the Lab that is published for them.
 */
export const BANDS = 31;
const nm = (band: number): number => 400 + 10 * band;
export type Spectrum = readonly number[];
export const spectrum = (of: (nanometres: number) => number): Spectrum =>
  Array.from({ length: BANDS }, (_, band) => of(nm(band)));

const FLAT: Spectrum = Array.from({ length: BANDS }, () => 0);

/** A hump with its own width on either side. */
export const hump = (at: number, middle: number, below: number, above = below): number =>
  Math.exp(-0.5 * ((at - middle) / (at < middle ? below : above)) ** 2);

/** CIE 1931 by the humps of Wyman, Sloan, Shirley 2013 (JCGT 2(2)), from memory. */
const OBSERVER = [
  spectrum(
    (l) => 1.056 * hump(l, 599.8, 37.9, 31) + 0.362 * hump(l, 442, 16, 26.7) - 0.065 * hump(l, 501.1, 20.4, 26.2),
  ),
  spectrum((l) => 0.821 * hump(l, 568.8, 46.9, 40.5) + 0.286 * hump(l, 530.9, 16.3, 31.1)),
  spectrum((l) => 1.217 * hump(l, 437, 11.8, 36) + 0.681 * hump(l, 459, 26, 13.8)),
] as const;

/** The daylight components S0, S1, S2 of CIE 15, from memory. */
const DAY = [
  [
    94.8, 104.8, 105.9, 96.8, 113.9, 125.6, 125.5, 121.3, 121.3, 113.5, 113.1, 110.8, 106.5, 108.8, 105.3, 104.4, 100,
    96, 95.1, 89.1, 90.5, 90.3, 88.4, 84, 85.1, 81.9, 82.6, 84.9, 81.3, 71.9, 74.3,
  ],
  [
    43.4, 46.3, 43.9, 37.1, 36.7, 35.9, 32.6, 27.9, 24.3, 20.1, 16.2, 13.2, 8.6, 6.1, 4.2, 1.9, 0, -1.6, -3.5, -3.5,
    -5.8, -7.2, -8.6, -9.5, -10.9, -10.7, -12, -14, -13.6, -12, -13.3,
  ],
  [
    -1.1, -0.5, -0.7, -1.2, -2.6, -2.9, -2.8, -2.6, -2.6, -1.8, -1.5, -1.3, -1.2, -1, -0.5, -0.3, 0, 0.2, 0.5, 2.1, 3.2,
    4.1, 4.7, 5.1, 6.7, 7.3, 8.6, 9.8, 10.2, 8.3, 9.6,
  ],
] as const;

/** CIE daylight of a colour temperature from 4000 to 7000 K. Source: CIE 15, from memory. */
export function daylight(kelvin: number): Spectrum {
  const x = -4.607e9 / kelvin ** 3 + 2.9678e6 / kelvin ** 2 + 99.11 / kelvin + 0.244063;
  const y = -3 * x * x + 2.87 * x - 0.275;
  const m = 0.0241 + 0.2562 * x - 0.7341 * y;
  const [m1, m2] = [(-1.3515 - 1.7703 * x + 5.9114 * y) / m, (0.03 - 31.4424 * x + 30.0717 * y) / m];
  return Array.from({ length: BANDS }, (_, band) => DAY[0][band]! + m1 * DAY[1][band]! + m2 * DAY[2][band]!);
}

/** Planck's law, any unit. */
export const glow = (kelvin: number): Spectrum =>
  spectrum((l) => 1e13 / (l ** 5 * (Math.exp(1.4388e7 / (l * kelvin)) - 1)));

/** A blue diode under phosphor: invented; `warm` and `red` from 0 to 1. */
export const diode = (warm: number, red = 0, blue = 452): Spectrum =>
  spectrum(
    (l) =>
      (1 - 0.6 * warm) * hump(l, blue, 11) + 0.75 * hump(l, 555 + 45 * warm, 45, 62) + 0.8 * red * hump(l, 632, 16, 22),
  );

/** A lamp of three phosphors with the lines of mercury, smoothed to 10 nm: invented after such lamps' well-known lines. */
export const tube = (warm: number): Spectrum =>
  spectrum(
    (l) =>
      0.08 +
      0.35 * (1 - 0.6 * warm) * (hump(l, 436, 5) + 1.1 * hump(l, 452, 18)) +
      0.25 * hump(l, 488, 8) +
      0.95 * hump(l, 544, 6) +
      0.2 * hump(l, 586, 8) +
      (0.55 + 0.6 * warm) * (hump(l, 611, 6) + 0.15 * hump(l, 630, 10)),
  );

/** A tube with one broad phosphor, greenish: invented. */
export const oldTube = (warm: number): Spectrum =>
  spectrum(
    (l) => 0.3 * hump(l, 436, 5) + 0.35 * hump(l, 545, 5) + 0.3 * hump(l, 470, 45) + hump(l, 570 + 20 * warm, 42, 50),
  );

export const mixedLights = (one: Spectrum, other: Spectrum, part: number): Spectrum => {
  const size = (light: Spectrum): number => light.reduce((sum, value, band) => sum + value * OBSERVER[1][band]!, 0);
  return spectrum(() => 0).map(
    (_, band) => ((1 - part) * one[band]!) / size(one) + (part * other[band]!) / size(other),
  );
};

const D65 = daylight(6504);
const sum3 = (light: Spectrum, surface: Spectrum): [number, number, number] => {
  const parts = OBSERVER.map((eye) => eye.reduce((sum, part, band) => sum + part * light[band]! * surface[band]!, 0));
  return [parts[0]!, parts[1]!, parts[2]!];
};
const WHITE = sum3(
  D65,
  spectrum(() => 1),
);

/** CIELAB of a surface under daylight of 6504 K. Source: CIE 15. */
export function labOfSurface(surface: Spectrum): [number, number, number] {
  const f = sum3(D65, surface).map((value, axis) => {
    const part = value / WHITE[axis]!;
    return part > 0.008856 ? Math.cbrt(part) : (903.3 * part + 16) / 116;
  });
  return [116 * f[1]! - 16, 500 * (f[0]! - f[1]!), 200 * (f[1]! - f[2]!)];
}

/**
 * A surface of that Lab: a sigmoid of a parabola, as Jakob and Hanika 2019 make them, found by Newton's steps. `ripple` is
 * added to the parabola: other pigments that come to the same Lab.
 */
export function surfaceOfLab(lab: readonly number[], ripple: Spectrum = FLAT): Spectrum {
  const made = (c: readonly number[]): Spectrum =>
    FLAT.map((_, band) => {
      const t = (nm(band) - 550) / 150;
      const x = c[0]! + c[1]! * t + c[2]! * t * t + ripple[band]!;
      return 0.5 + x / (2 * Math.sqrt(1 + x * x));
    });
  const missOf = (c: readonly number[]): number[] => labOfSurface(made(c)).map((value, axis) => value - lab[axis]!);
  let c = [(lab[0]! - 70) / 30, 0, 0];
  const size = (miss: readonly number[]): number => Math.hypot(...miss);
  for (let round = 0; round < 80; round++) {
    const miss = missOf(c);
    if (size(miss) < 1e-3) break;
    const slopes = [0, 1, 2].map((at) =>
      missOf(c.with(at, c[at]! + 1e-5)).map((value, axis) => (value - miss[axis]!) / 1e-5),
    );
    const [u, v, w] = slopes as [number[], number[], number[]];
    const det = (p: number[], q: number[], r: number[]): number =>
      p[0]! * (q[1]! * r[2]! - q[2]! * r[1]!) -
      q[0]! * (p[1]! * r[2]! - p[2]! * r[1]!) +
      r[0]! * (p[1]! * q[2]! - p[2]! * q[1]!);
    const whole = det(u, v, w);
    const step = [det(miss, v, w) / whole, det(u, miss, w) / whole, det(u, v, miss) / whole];
    for (let part = 1; part > 1e-4; part /= 2) {
      const tried = c.map((value, at) => value - part * step[at]!);
      if (size(missOf(tried)) < size(miss)) {
        c = tried;
        break;
      }
    }
  }
  return made(c);
}
