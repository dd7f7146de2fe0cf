/** Which other shades one may be that is not known for certain: likely truths, drawn from its uncertainty. */
import type { Vector3 } from "../base/matrix3.ts";
import type { Random } from "../base/random.ts";
import { deltaE2000 } from "./difference.ts";
import type { Lab } from "./lab.ts";
import { weightOfLightness } from "./shadeRange.ts";

/**
 * The shade that lies off the stated one by so much: a likely truth, where `off` are three normal numbers.
 * @param uncertainty ΔE00 that holds the truth in 80 % of cases, 0 upwards
 * @param off in standard deviations: lighter, more saturated, on in hue
 * @returns a shade whose ΔE00 from the stated one is that of `off`, each step as wide as its part of the uncertainty, so that with normal
 * `off` four of five lie within the uncertainty; less where it would be lighter than white or darker than black
 */
export function shadeOff(lab: Lab, uncertainty: number, off: Vector3): Lab {
  const steps: Vector3 = [off[0] * SPREAD.lightness, off[1] * SPREAD.chroma, off[2] * SPREAD.hue];
  const wanted = uncertainty * Math.hypot(...steps);
  if (wanted === 0) return lab;
  const way = directionOf(lab, steps);
  let along = uncertainty;
  let found = lab;
  for (let round = 0; round < ROUNDS; round++) {
    found = [Math.min(100, Math.max(0, lab[0] + along * way[0])), lab[1] + along * way[1], lab[2] + along * way[2]];
    const apart = deltaE2000(lab, found);
    // At the ends of lightness nothing farther is to be had.
    if (Math.abs(apart - wanted) < 1e-4 * wanted || (found[0] % 100 === 0 && apart < wanted)) break;
    along *= wanted / apart;
  }
  return found;
}

/** Rounds of drawing nearer; two or three do for most. */
const ROUNDS = 12;

/**
 * Standard deviations as parts of the uncertainty. Of lightness: 0.7 over 1.2816, half the interval that holds 80 % of a normal
 * distribution. Of chroma and of hue: what is left when a ball of the uncertainty holds 80 %, integrated numerically.
 */
const SPREAD = { lightness: 0.5462, chroma: 0.4187, hue: 0.4187 };

/** Three weighted steps of CIEDE2000 (lightness, chroma, hue; its blue rotation left out) as steps of CIELAB. Source: CIE 142-2001. */
function directionOf([lightness, a, b]: Lab, [lighter, stronger, turned]: Vector3): Vector3 {
  const seventh = Math.hypot(a, b) ** 7;
  const stretch = 1.5 - 0.5 * Math.sqrt(seventh / (seventh + 25 ** 7));
  const chroma = Math.hypot(a * stretch, b);
  const [along, across] = chroma > 0 ? [(a * stretch) / chroma, b / chroma] : [1, 0];
  const hue = Math.atan2(across, along);
  const phase = (degrees: number, times: number): number => Math.cos(times * hue + (degrees * Math.PI) / 180);
  const T = 1 - 0.17 * phase(-30, 1) + 0.24 * phase(0, 2) + 0.32 * phase(6, 3) - 0.2 * phase(-63, 4);
  const more = stronger * (1 + 0.045 * chroma);
  const round = turned * (1 + 0.015 * chroma * T);
  return [
    lighter * weightOfLightness(lightness),
    (more * along - round * across) / stretch,
    more * across + round * along,
  ];
}

/** Three normal numbers. Source: Box and Muller 1958, Ann. Math. Stat. 29: 610. */
export function threeNormals(random: Random): Vector3 {
  const pair = (): [number, number] => {
    const radius = Math.sqrt(-2 * Math.log(1 - random()));
    const turn = 2 * Math.PI * random();
    return [radius * Math.cos(turn), radius * Math.sin(turn)];
  };
  const [one, two] = pair();
  const [three] = pair();
  return [one, two, three];
}
