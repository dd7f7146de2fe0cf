/** A picture with one thing of known colour in it, or none: cast and exposure from it, all else assumed, and what else could be true. */
import { seededRandom } from "../../base/random.ts";
import { labFromLinear, linearFromLab, type Lab } from "../../colour/lab.ts";
import type { LinearRgb } from "../../colour/srgb.ts";
import type { KnownNeutral } from "./neutral.ts";
import { habitCurve, type CameraHabit } from "./toneCurve.ts";

export interface Reading {
  readonly labOf: (rgb: LinearRgb) => Lab;
  /** What other cameras, lights and references that are as likely would say. */
  readonly others: readonly ((rgb: LinearRgb) => Lab)[];
}

/** Without a reference the camera's own white and exposure are believed: what it wrote as middle grey was nearly that. */
const UNSEEN: KnownNeutral = { lab: [50, 0, 0], spread: [5.5, 2.3, 4] };

/** The usual camera: half as bent as the phones measured, because others are straighter; our choice. */
const USUAL: CameraHabit = { bend: 0.5, slope: 1 };
const HABIT_SPREAD = { bend: 0.5, slope: 0.05 };
/** How far a camera's channels mix otherwise than sRGB's, as a standard deviation of each part; our choice. */
const MIXING_SPREAD = 0.035;
/** Uneven light between the reference and the yarn, as a standard deviation of ln light; our choice. */
const UNEVEN = 0.07;
const CAMERAS = 160;

/** @param neutral linear light of the reference as decoded, and what it is; without one the picture is believed as it is */
export function readByOneReference(neutral: { readonly rgb: LinearRgb; readonly known: KnownNeutral } | null): Reading {
  const { lab, spread } = neutral?.known ?? UNSEEN;
  const random = seededRandom(24);
  const normal = (): number => {
    // Source: Box and Muller 1958.
    const radius = Math.sqrt(-2 * Math.log(1 - random()));
    return radius * Math.cos(2 * Math.PI * random());
  };
  const reader = (habit: CameraHabit, truth: Lab, mixing: readonly number[], light: number) => {
    const curve = habitCurve(habit);
    // Without a reference: what the camera wrote as middle grey was middle grey, whatever its curve.
    const white = neutral?.rgb ?? linearFromLab(UNSEEN.lab);
    const target = linearFromLab(truth);
    const gains = white.map((value, channel) => (light * target[channel]!) / Math.max(1e-5, curve(value)));
    return (rgb: LinearRgb): Lab => {
      const flat = rgb.map((value, channel) => gains[channel]! * curve(value));
      const [r, g, b] = flat as [number, number, number];
      const [rg, rb, gr, gb, br, bg] = mixing as [number, number, number, number, number, number];
      return labFromLinear([
        Math.max(0, r + rg * (g - r) + rb * (b - r)),
        Math.max(0, g + gr * (r - g) + gb * (b - g)),
        Math.max(0, b + br * (r - b) + bg * (g - b)),
      ]);
    };
  };
  const others = Array.from({ length: CAMERAS }, () =>
    reader(
      { bend: USUAL.bend + HABIT_SPREAD.bend * normal(), slope: USUAL.slope + HABIT_SPREAD.slope * normal() },
      [lab[0] + spread[0] * normal(), lab[1] + spread[1] * normal(), lab[2] + spread[2] * normal()],
      Array.from({ length: 6 }, () => MIXING_SPREAD * normal()),
      Math.exp(UNEVEN * normal()),
    ),
  );
  return { labOf: reader(USUAL, lab, [0, 0, 0, 0, 0, 0], 1), others };
}
