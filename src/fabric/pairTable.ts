/** V of one figure for every pair of yarns at once: what a search over thousands of colourways asks. */
import type { Vector3 } from "../base/matrix3.ts";
import { xyzFromLab, type Lab } from "../colour/lab.ts";
import { opponentFromXyz, WHITE_RESPONSE } from "../vision/opponent.ts";
import { adaptingLuminance } from "../vision/viewing.ts";
import { gainsIn, pairIndex, viewOf, type Gains, type RadialSpectrum } from "../vision/visibility.ts";
import type { Viewing } from "./contrast.ts";
import { eyeBefore, HUE_WEIGHT } from "./visibility.ts";

/** Lights at which the gains are worked out; between them they are read off a line in ln of light, within 1e-3 of V. */
const LIGHTS = 48;

export interface Meeting {
  readonly area: number;
  readonly against: number;
  /** A colour for every area of the piece; those of the two that meet are not looked at. */
  readonly others: readonly Lab[];
}

/**
 * V of the figure of one area against another, `table[k * labs.length + l]` for colour k in the area and l in the other. In a
 * piece of two areas that is the V of the piece. Differs from the exact V by less than 1e-3 of itself.
 */
export function pairTable(
  spectrum: RadialSpectrum,
  { area, against, others }: Meeting,
  labs: readonly Lab[],
  { distanceM, lux, texture }: Viewing,
): Float32Array {
  const eye = eyeBefore(texture);
  const { veil, contrastCap } = eye;
  const tinted = (list: readonly Lab[]) =>
    list.map((lab) => {
      const xyz = xyzFromLab(lab);
      return { y: xyz[1], response: opponentFromXyz(xyz) as Vector3 };
    });
  const colours = tinted(labs);
  const shares = spectrum.shares;
  let restY = 0;
  let restResponse = veil * WHITE_RESPONSE;
  tinted(others).forEach(({ y, response }, index) => {
    if (index === area || index === against) return;
    restY += shares[index]! * y;
    restResponse += shares[index]! * response[0];
  });
  const both = shares[area]! + shares[against]!;
  const ys = colours.map(({ y }) => y);
  const darkest = Math.log(adaptingLuminance(lux, restY + both * Math.min(...ys), veil));
  const lightest = Math.log(adaptingLuminance(lux, restY + both * Math.max(...ys), veil)) + 1e-6;
  const step = (lightest - darkest) / (LIGHTS - 1);
  const view = viewOf(spectrum, distanceM * 1000, eye);
  const gains = Array.from({ length: LIGHTS }, (_, at) =>
    figureGains(spectrum, area, gainsIn(view, Math.exp(darkest + at * step))),
  );
  const size = labs.length;
  const table = new Float32Array(size * size);
  for (let k = 0; k < size; k++) {
    for (let l = 0; l < size; l++) {
      const one = colours[k]!;
      const other = colours[l]!;
      const background = restResponse + shares[area]! * one.response[0] + shares[against]! * other.response[0];
      const light = Math.log(adaptingLuminance(lux, restY + shares[area]! * one.y + shares[against]! * other.y, veil));
      const place = Math.min(LIGHTS - 1.000001, Math.max(0, (light - darkest) / step));
      const below = gains[Math.floor(place)]!;
      const above = gains[Math.floor(place) + 1]!;
      const part = place - Math.floor(place);
      const channel = (axis: 0 | 1 | 2): number =>
        (Math.abs(one.response[axis] - other.response[axis]) / background) *
        (below[axis] + part * (above[axis] - below[axis]));
      const range = Math.abs(one.response[0] - other.response[0]) / background;
      const capFactor = range > contrastCap ? contrastCap / range : 1;
      table[k * size + l] = Math.hypot(
        capFactor * channel(0),
        HUE_WEIGHT.usual * channel(1),
        HUE_WEIGHT.usual * channel(2),
      );
    }
  }
  return table;
}

function figureGains(spectrum: RadialSpectrum, area: number, gains: Gains): readonly [number, number, number] {
  const sums: [number, number, number] = [0, 0, 0];
  for (let other = 0; other < spectrum.count; other++) {
    if (other === area) continue;
    const pair = pairIndex(spectrum.count, Math.min(area, other), Math.max(area, other));
    sums[0] += gains.lightDark[pair]!;
    sums[1] += gains.redGreen[pair]!;
    sums[2] += gains.yellowViolet[pair]!;
  }
  return [Math.sqrt(Math.max(0, sums[0])), Math.sqrt(Math.max(0, sums[1])), Math.sqrt(Math.max(0, sums[2]))];
}
