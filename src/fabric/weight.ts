/** Dominance: each colour's share of what draws the eye, and how unlike the rest it is. */
import type { Vector3 } from "../base/matrix3.ts";
import { inverse, transform, type Matrix3 } from "../base/matrix3.ts";
import { labFromXyz, xyzFromLab, type Lab } from "../colour/lab.ts";
import { perceivedLightness } from "../colour/value.ts";
import { opponentFromXyz, XYZ_TO_OPPONENT } from "../vision/opponent.ts";
import type { ChannelVisibility } from "../vision/visibility.ts";

export interface WeighedColour {
  readonly lab: Lab;
  /** Part of the fabric, any unit. */
  readonly area: number;
}

export interface Weight {
  /** 0 to 1: its share of the visual weight, an estimate; the ground's own is 0. */
  readonly share: number;
  /** How unlike the rest it is, in standard deviations of the fabric's own colours. */
  readonly standsOut: number;
}

/** Birthplace: vision.md C3, our choice: keeps a nearly uniform fabric from making much of little. */
const STEADYING = 20;

/**
 * Visual weight and stands-out of each colour.
 * W_i = a_i·M_i / Σ a_j·M_j, with M the distance in (perceived lightness, a*, b*) from the ground that a colour lies on;
 * D_i² = (x_i − μ)ᵀ(Σ + σ0² I)⁻¹(x_i − μ), area-weighted.
 * @param ground index of the ground; the colour of most area where missing
 * Source: vision.md C3, a reasoned convention, not validated on people. Example: areas 0.05, 0.60, 0.35 of #B03A3A, #EDE6D6, #1F2A4D
 * on the second give shares 0.106, 0, 0.894.
 */
export function visualWeight({ colours, ground }: { colours: readonly WeighedColour[]; ground?: number }): Weight[] {
  if (colours.length === 0) return [];
  const points = colours.map(({ lab }): Vector3 => [perceivedLightness(lab), lab[1], lab[2]]);
  const total = colours.reduce((sum, { area }) => sum + area, 0);
  const areas = colours.map(({ area }) => (total > 0 ? area / total : 1 / colours.length));
  const from = points[ground ?? areas.indexOf(Math.max(...areas))]!;
  const pulls = points.map((point, index) => areas[index]! * Math.hypot(...difference(point, from)));
  const pull = pulls.reduce((sum, one) => sum + one, 0);
  const unlike = standsOutOf(points, areas);
  return pulls.map((one, index) => ({ share: pull > 0 ? one / pull : 0, standsOut: unlike[index]! }));
}

const difference = (one: Vector3, other: Vector3): [number, number, number] => [
  one[0] - other[0],
  one[1] - other[1],
  one[2] - other[2],
];

function standsOutOf(points: readonly Vector3[], areas: readonly number[]): number[] {
  const mean = meanOf(points, areas);
  const spread = [STEADYING ** 2, 0, 0, 0, STEADYING ** 2, 0, 0, 0, STEADYING ** 2];
  points.forEach((point, index) => {
    const away = difference(point, mean);
    for (let row = 0; row < 3; row++)
      for (let column = 0; column < 3; column++)
        spread[row * 3 + column]! += areas[index]! * away[row]! * away[column]!;
  });
  const inverted = inverse(spread as unknown as Matrix3);
  return points.map((point) => {
    const away = difference(point, mean);
    const turned = transform(inverted, away);
    return Math.sqrt(away[0] * turned[0] + away[1] * turned[1] + away[2] * turned[2]);
  });
}

function meanOf(points: readonly Vector3[], areas: readonly number[]): [number, number, number] {
  const mean: [number, number, number] = [0, 0, 0];
  points.forEach((point, index) => point.forEach((part, axis) => (mean[axis]! += part * areas[index]!)));
  return mean;
}

const OPPONENT_TO_XYZ = inverse(XYZ_TO_OPPONENT);

/** How much of a difference V still shows: 1 − 1/V, nothing below threshold. Source: Kulikowski 1976 as in vision.md B4. */
const shown = (v: number): number => Math.max(0, 1 - 1 / v);

/**
 * Colours as they are seen in a band: what is left of their difference from the band's mean at its visibility.
 * @param channels V of the band in each channel, masked, hue not weighted
 * Source: vision.md C3, step 1
 */
export function seenColours(colours: readonly WeighedColour[], channels: ChannelVisibility): Lab[] {
  const responses = colours.map(({ lab }): Vector3 => opponentFromXyz(xyzFromLab(lab)));
  const areas = colours.map(({ area }) => area);
  return seenResponses(responses, areas, channels).map(labOfResponse);
}

/** The same for colours that are responses (A, R, Y) already. */
export function seenResponses(
  responses: readonly Vector3[],
  areas: readonly number[],
  channels: ChannelVisibility,
): Vector3[] {
  const total = areas.reduce((sum, area) => sum + area, 0);
  const mean = meanOf(
    responses,
    areas.map((area) => area / total),
  );
  const lightDark = shown(channels.lightDark);
  const redGreen = shown(channels.redGreen);
  const yellowViolet = shown(channels.yellowViolet);
  return responses.map(([a, r, y]) => [
    mean[0] + lightDark * (a - mean[0]),
    mean[1] + redGreen * (r - mean[1]),
    mean[2] + yellowViolet * (y - mean[2]),
  ]);
}

export const labOfResponse = (response: Vector3): Lab => labFromXyz(transform(OPPONENT_TO_XYZ, response));
