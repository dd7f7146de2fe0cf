/** "Like this but lighter": a shade moved by a step that has a word. */
import { labFromLch, lchFromLab, type Lab } from "./lab.ts";

export type ShadeStep = "lighter" | "darker" | "warmer" | "cooler" | "greyer" | "more saturated";
export type StepSize = "small" | "large";

/**
 * CIELAB units of L*, of chroma, and of the way round at constant chroma. Our choice: a small step is about what is told apart in two
 * balls at once, a large one what reads as another shade (in L* the least that whispers by the trade's rule, 8).
 */
export const STEP_SIZES: Readonly<Record<StepSize, { readonly lightness: number; readonly colour: number }>> = {
  small: { lightness: 3, colour: 4 },
  large: { lightness: 8, colour: 10 },
};

/** Degrees: the warmest hue; the coolest is opposite. Source: Ou, Luo, Woodcock, Wright 2004, Color Res. Appl. 29(3), cos(h − 50°); from memory. */
const WARMEST = 50;

/** Surfaces end before this chroma; our choice, so that a step does not leave what a yarn can be. */
const MOST_CHROMA = 120;

/**
 * The shade (CIELAB, D65) one step on; the same shade where there is no way further: white, black, grey, the warmest and the
 * coolest hue. Warmer and cooler turn the hue and keep the chroma; a grey, which has no hue to turn, takes a tinge.
 */
export function stepped(lab: Lab, step: ShadeStep, size: StepSize): Lab {
  const { lightness, colour } = STEP_SIZES[size];
  const [L, chroma, hue] = lchFromLab(lab);
  switch (step) {
    case "lighter":
      return [Math.min(100, L + lightness), lab[1], lab[2]];
    case "darker":
      return [Math.max(0, L - lightness), lab[1], lab[2]];
    case "greyer":
      return labFromLch([L, Math.max(0, chroma - colour), hue]);
    case "more saturated":
      return labFromLch([L, Math.max(chroma, Math.min(MOST_CHROMA, chroma + colour)), hue]);
    case "warmer":
      return turned(lab, WARMEST, colour);
    case "cooler":
      return turned(lab, WARMEST + 180, colour);
  }
}

/** Along the arc to a hue, or for what is nearly grey straight that way. */
function turned(lab: Lab, pole: number, way: number): Lab {
  const [L, chroma, hue] = lchFromLab(lab);
  if (chroma < way) {
    const [, a, b] = labFromLch([L, way, pole]);
    return [L, lab[1] + a, lab[2] + b];
  }
  // The shorter way round; of two alike the one through red and purple.
  const left = ((((pole - hue) % 360) + 540) % 360) - 180;
  const turn = Math.min(Math.abs(left), (way / chroma) * (180 / Math.PI));
  return labFromLch([L, chroma, hue + Math.sign(left) * turn]);
}
