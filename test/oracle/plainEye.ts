/**
 * The eye once more, written from the published formulas alone and sharing no line with src: slow, plain, one frequency after the
 * other. Source of the formulas: castleCSF v0.2.4 (Ashraf, Mantiuk, Chapiro, Wuerger 2024, J. Vision 24(4):5); masking, veil, guard
 * and cap are our choices, as ARCHITECTURE.md has them.
 */

/** Squared weight of one frequency in the three channels, light–dark masked and bare. */
export interface Weights {
  readonly masked: number;
  readonly bare: number;
  readonly redGreen: number;
  readonly yellowViolet: number;
}

export interface PlainLook {
  readonly distanceMm: number;
  /** cd/m² */
  readonly luminance: number;
  readonly patchMm2: number;
  readonly stitch: { readonly widthMm: number; readonly heightMm: number };
}

export type Triple = readonly [number, number, number];

/** g, c_t, c_f and the cap on light–dark contrast. */
export const VEIL = 0.05;
const STITCH_TEXTURE = 0.12;
const FLOOR = 0.025;
export const CAP = 2;

/** What one frequency counts, cycles per mm; null past 60 cycles per degree. */
export function weigher(look: PlainLook): (cyclesPerMm: number) => Weights | null {
  const degreeMm = 2 * look.distanceMm * Math.tan((0.5 * Math.PI) / 180);
  const area = look.patchMm2 / degreeMm ** 2;
  const texture = degreeMm / Math.sqrt(look.stitch.widthMm * look.stitch.heightMm);
  const [lightDark, redGreen, yellowViolet] = [0, 1, 2].map((channel) => castleCsf(channel, look.luminance, area)) as [
    Curve,
    Curve,
    Curve,
  ];
  const ofTexture = STITCH_TEXTURE * lightDark(texture);
  return (cyclesPerMm) => {
    const f = cyclesPerMm * degreeMm;
    if (f > 60) return null;
    const s = lightDark(f);
    const guard = Math.exp(-((f / 9.4) ** 4));
    const mask = 2 * ofTexture ** 2 * Math.exp(-(Math.log2(f / texture) ** 2)) + 2 * (FLOOR * s) ** 2;
    return {
      masked: s ** 2 / (1 + mask),
      bare: s ** 2,
      redGreen: (redGreen(f) * guard) ** 2,
      yellowViolet: (yellowViolet(f) * guard) ** 2,
    };
  };
}

/** (A, R, Y) of CIELAB, D65, 2°. */
export function opponentOf(lab: Triple): Triple {
  const [x, y, z] = xyzOf(lab);
  const l = 0.187596268556126 * x + 0.585168649077728 * y - 0.026384263306304 * z;
  const m = -0.133397430663221 * x + 0.405505777260049 * y + 0.034502127690364 * z;
  const s = 0.000244379021663 * x - 0.000542995890619 * y + 0.019406849066323 * z;
  return [l + m, l - 2.3112 * m, 50.9875 * s - l - m];
}

/** CIE 15: CIELAB back to XYZ, white of Y = 1. */
export function xyzOf([lightness, a, b]: Triple): Triple {
  const middle = (lightness + 16) / 116;
  const back = (t: number): number => (t > 6 / 29 ? t ** 3 : 3 * (6 / 29) ** 2 * (t - 4 / 29));
  return [0.95047 * back(middle + a / 500), back(middle), 1.08883 * back(middle - b / 200)];
}

type Curve = (f: number) => number;

function castleCsf(channel: number, luminance: number, area: number): Curve {
  const rise = (p1: number, p2: number, p3: number): number => p1 * (1 + p2 / luminance) ** -p3;
  const [peak, best, bandwidth, truncation, areaConstant, areaFrequency] = [
    [
      rise(56.4947, 7.54726, 0.144532) * (1 - (1 + 5.58341e-7 / luminance) ** -9.66862e9),
      rise(1.78119, 91.5718, 0.256682),
      0.000213047,
      0.100207,
      157.103,
      0.702338,
    ] as const,
    [rise(681.434, 38.0038, 0.480386), 0.0178364, 2.42104, 0, 2816.44, 0.0711058] as const,
    [rise(166.683, 62.8974, 0.41193), 0.00425753, 2.68197, 0, 2.82789e7, 0.000635093] as const,
  ][channel]!;
  return (f) => {
    const parabola = 10 ** (-((Math.log10(f) - Math.log10(best)) ** 2) / 2 ** bandwidth);
    const profile = f < best ? Math.max(parabola, 1 - truncation) : parabola;
    const critical = areaConstant / (1 + (f / areaFrequency) ** 2);
    return peak * profile * f * Math.sqrt(critical / (1 + critical / area));
  };
}
