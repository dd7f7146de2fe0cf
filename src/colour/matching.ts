/** A shade found by comparing: two patches on the screen, the real ball beside it, and always the one question which is nearer. */
import { assert } from "../base/assert.ts";
import { seededRandom, type Random } from "../base/random.ts";
import { deltaE2000 } from "./difference.ts";
import { isOnScreen, ontoScreen } from "./gamut.ts";
import { labFromLch, lchFromLab, type Lab } from "./lab.ts";

/** Which of two patches is nearer to the ball. */
export type Nearer = "left" | "right" | "neither";

/** In what the two patches differ. */
export type Axis = "lightness" | "hue" | "saturation";

export interface Comparison {
  readonly answers: readonly Nearer[];
  /** The next two patches, both of which a screen can show; null at the end. */
  readonly pair: Pair | null;
  /** What her answers say so far. */
  readonly lab: Lab;
  /** ΔE00 that holds four of five of the shades that her answers leave possible. */
  readonly ownSpread: number;
  /** The same with what an unmeasured screen may be wrong by. */
  readonly uncertainty: number;
  /** The shade lies beyond what a screen shows, so that it was only compared with what comes nearest. */
  readonly isBeyondScreen: boolean;
  /** Shades that may be, one as likely as the other. Not for reading. */
  readonly guesses: Guesses;
}

export interface Pair {
  readonly left: Lab;
  readonly right: Lab;
  readonly axis: Axis;
}

interface Guesses {
  readonly labs: Float64Array;
  /** ln of how much she scatters, ΔE00. */
  readonly scatters: Float64Array;
}

/** The fewest and the most questions: what somebody answers before the eye tires; our choice. */
export const QUESTIONS = { least: 12, most: 18 };
/** Her answers agree so well that more of them would not show beside the screen's own error: ΔE00, our choice. */
const ENOUGH = 2;
/** The round in which one thing after the other is asked about; after it, whatever is least sure. */
const ROUND: readonly Axis[] =
  "lightness lightness hue lightness hue saturation hue saturation lightness saturation hue saturation".split(
    " ",
  ) as Axis[];

/**
 * What an ordinary screen that nobody measured may be off by, ball against patch, ΔE00 in four cases of five. Our assumption; the
 * test paints such screens (tone curve, white, primaries, brightness against the window, stray light) and holds the whole to it.
 */
export const SCREEN_DOUBT = 5;
/** How wide the search begins around a patch that was picked as somewhere near: ΔE00 in four cases of five; our choice. */
export const START_DOUBT = 18;
/** ΔE00: what one look at wool against a smooth patch scatters by, and how unlike people and light may be in it; our choice. */
const SCATTER = { usual: 2.5, spread: 0.8 };
/** She says "no difference" below this part of her scatter. */
const UNDECIDED = 0.7;
/** A slip of the finger, one answer in so many; as usual in fits of choices. */
const SLIP = 0.04;
/** Two colours farther apart than this, ΔE00, are compared the less surely; our choice. */
const FAR = 12;
/** Patches stand so many spreads to either side of the middle, never nearer than this in CIELAB units; our choice. */
const APART = { spreads: 1.3, least: 1.8 };
/** How much likelier a yarn's colour is one that a screen shows: one in ten of those beyond is let through; our choice. */
const BEYOND = 0.1;
const GUESSES = 700;

/**
 * Begins at a shade that is somewhere near, or at any with more `doubt` (ΔE00, four cases of five).
 * An adaptive forced choice: patches are placed about what is known so far, so steps halve as answers agree, and all answers count at
 * the end, a wrong one too. Source of the kind: Watson and Pelli 1983, Percept. Psychophys. 33(2):113–120 (adaptive placing by Bayes);
 * guesses are carried on as in Liu and West 2001. Same answers, same shade.
 */
export function beginComparison(start: Lab, doubt: number = START_DOUBT): Comparison {
  const random = seededRandom(11);
  const labs = new Float64Array(3 * GUESSES);
  const scatters = new Float64Array(GUESSES);
  // 2.15: from one direction's deviation to what holds four of five in three directions.
  const deviation = doubt / 2.15;
  const [L, chroma, hue] = lchFromLab(start);
  const [stretchC, stretchH] = [1 + 0.045 * chroma, 1 + 0.015 * chroma];
  const [cos, sin] = [Math.cos((hue * Math.PI) / 180), Math.sin((hue * Math.PI) / 180)];
  const drawn = (): Lab => {
    const [l, outwards, round] = [normal(random), normal(random), normal(random)];
    const [c, h] = [deviation * stretchC * outwards, deviation * stretchH * round];
    return [inRange(L + deviation * l), start[1] + c * cos - h * sin, start[2] + c * sin + h * cos];
  };
  for (let at = 0; at < GUESSES; at++) {
    let lab = drawn();
    // A start far outside what a screen shows finds nothing else; then it is taken as it is.
    for (let tries = 0; tries < 20 && !isOnScreen(lab) && random() > BEYOND; tries++) lab = drawn();
    labs.set(lab, 3 * at);
    scatters[at] = Math.log(SCATTER.usual) + SCATTER.spread * normal(random);
  }
  return stand([], { labs, scatters });
}

/** The comparison one answer on; the one before stays as it was, so the way back is to go on from that. */
export function answered(comparison: Comparison, nearer: Nearer): Comparison {
  const { pair, guesses, answers } = comparison;
  assert(pair, "a comparison that is at its end takes no answer");
  const { labs, scatters } = guesses;
  const weights = scatters.map((logScatter, at) => {
    const lab = labAt(labs, at);
    const [left, right] = [deltaE2000(pair.left, lab), deltaE2000(pair.right, lab)];
    const scatter = Math.exp(logScatter) * (1 + (left + right) / (2 * FAR));
    return chance(nearer, right - left, scatter);
  });
  const sum = weights.reduce((total, weight) => total + weight, 0);
  // Where she is depends on her answers alone, not on what else was asked for meanwhile.
  const random = seededRandom(101 + answers.length);
  const likely = weights.map((weight) => weight / sum);
  return stand([...answers, nearer], renewed(guesses, likely, random));
}

/** How likely an answer is where the right patch is so much farther from the ball than the left one. */
function chance(nearer: Nearer, farther: number, scatter: number): number {
  const left = below((farther - UNDECIDED * scatter) / scatter);
  const right = below((-farther - UNDECIDED * scatter) / scatter);
  const part = nearer === "left" ? left : nearer === "right" ? right : Math.max(0, 1 - left - right);
  return SLIP / 3 + (1 - SLIP) * part;
}

function stand(answers: readonly Nearer[], guesses: Guesses): Comparison {
  const lab = meanOf(guesses);
  const ownSpread = spreadAbout(lab, guesses);
  const isAtEnd = answers.length >= QUESTIONS.most || (answers.length >= QUESTIONS.least && ownSpread < ENOUGH);
  return {
    answers,
    pair: isAtEnd ? null : nextPair(answers.length, lab, guesses),
    lab,
    ownSpread,
    uncertainty: Math.hypot(ownSpread, SCREEN_DOUBT),
    isBeyondScreen: !isOnScreen(lab),
    guesses,
  };
}

function nextPair(asked: number, lab: Lab, guesses: Guesses): Pair {
  const middle = ontoScreen(lab);
  const ways = directionsAt(lab).map((direction) => {
    const deviation = deviationAlong(direction, lab, guesses);
    const step = Math.max(APART.least, APART.spreads * deviation) * direction.unit;
    return { ...direction, deviation, step, ends: endsOnScreen(middle, direction, step) };
  });
  // At the edge of what a screen shows there may be no room along one of them.
  const open = ways.filter(({ ends, unit }) => ends.apart >= APART.least * unit);
  const wanted = open.find(({ axis }) => axis === ROUND[asked]);
  const { axis, ends } = wanted ?? open.toSorted((one, other) => other.deviation - one.deviation)[0]!;
  const [one, other] = [ends.from, ends.to];
  // Which side is the lighter or redder one must not be learnt.
  return seededRandom(7 + 13 * asked)() < 0.5 ? { left: one, right: other, axis } : { left: other, right: one, axis };
}

/** A step to either side of the middle as far as a screen can show; what one side lacks the other is given. */
function endsOnScreen(middle: Lab, { along }: Direction, step: number): { from: Lab; to: Lab; apart: number } {
  const at = (by: number): Lab => [middle[0] + by * along[0], middle[1] + by * along[1], middle[2] + by * along[2]];
  const room = (sign: 1 | -1, wanted: number): number => {
    let [inside, outside] = [0, wanted];
    if (isOnScreen(at(sign * wanted))) return wanted;
    for (let round = 0; round < 12; round++) {
      const by = (inside + outside) / 2;
      if (isOnScreen(at(sign * by))) inside = by;
      else outside = by;
    }
    return inside;
  };
  const [down, up] = [room(-1, step), room(1, step)];
  const [from, to] = [
    down < step || up === step ? room(-1, 2 * step - up) : down,
    up < step ? up : room(1, 2 * step - down),
  ];
  return { from: at(-from), to: at(to), apart: from + to };
}

interface Direction {
  readonly axis: Axis;
  /** A unit of CIELAB length. */
  readonly along: Lab;
  /** CIELAB units that look about as far as one of L*. Source: CIE 142-2001, S_C and S_H with T left at 1. */
  readonly unit: number;
}

/** Near grey there is no hue to turn: there blue to yellow is asked about first, then green to red. */
function directionsAt([lightness, a, b]: Lab): readonly Direction[] {
  const [, chroma, hue] = lchFromLab([lightness, a, b]);
  const isGrey = chroma < NEARLY_GREY;
  const [, outA, outB] = labFromLch([0, 1, isGrey ? 0 : hue]);
  return [
    { axis: "lightness", along: [1, 0, 0], unit: 1 },
    { axis: "hue", along: [0, -outB, outA], unit: 1 + 0.015 * chroma },
    { axis: "saturation", along: [0, outA, outB], unit: 1 + 0.045 * chroma },
  ];
}

/** C*: below this a hue is hardly seen; our choice. */
export const NEARLY_GREY = 6;

/** In units of about one ΔE00. */
function deviationAlong({ along, unit }: Direction, mean: Lab, { labs }: Guesses): number {
  let square = 0;
  for (let at = 0; at < GUESSES; at++) {
    const [L, a, b] = labAt(labs, at);
    square += ((L - mean[0]) * along[0] + (a - mean[1]) * along[1] + (b - mean[2]) * along[2]) ** 2;
  }
  return Math.sqrt(square / GUESSES) / unit;
}

/** Four of five guesses lie this near. */
function spreadAbout(mean: Lab, { labs }: Guesses): number {
  const apart = Float64Array.from({ length: GUESSES }, (_, at) => deltaE2000(mean, labAt(labs, at))).sort();
  return apart[Math.ceil(0.8 * GUESSES) - 1]!;
}

/** Guesses drawn anew by their likelihood, each a little moved, with mean and spread kept. Source: Liu and West 2001, discount 0.98. */
function renewed({ labs, scatters }: Guesses, weights: Float64Array, random: Random): Guesses {
  const keep = (3 * 0.98 - 1) / (2 * 0.98);
  const parts = [0, 1, 2].map((part) => Float64Array.from({ length: GUESSES }, (_, at) => labs[3 * at + part]!));
  const columns = [...parts, scatters].map((values) => {
    const mean = values.reduce((sum, value, at) => sum + weights[at]! * value, 0);
    const variance = values.reduce((sum, value, at) => sum + weights[at]! * (value - mean) ** 2, 0);
    return { values, mean, moved: Math.sqrt((1 - keep * keep) * variance) };
  });
  const [newLabs, newScatters] = [new Float64Array(3 * GUESSES), new Float64Array(GUESSES)];
  // Systematic: one draw places them all, so that little is left to chance.
  const offset = random();
  let from = 0;
  let passed = weights[0]!;
  for (let at = 0; at < GUESSES; at++) {
    while (passed < (at + offset) / GUESSES && from < GUESSES - 1) passed += weights[++from]!;
    const drawn = columns.map(
      ({ values, mean, moved }) => keep * values[from]! + (1 - keep) * mean + moved * normal(random),
    );
    newLabs.set([inRange(drawn[0]!), drawn[1]!, drawn[2]!], 3 * at);
    newScatters[at] = drawn[3]!;
  }
  return { labs: newLabs, scatters: newScatters };
}

function meanOf({ labs }: Guesses): Lab {
  const mean: [number, number, number] = [0, 0, 0];
  labs.forEach((value, at) => (mean[at % 3]! += value / GUESSES));
  return mean;
}

const labAt = (labs: Float64Array, at: number): Lab => [labs[3 * at]!, labs[3 * at + 1]!, labs[3 * at + 2]!];
const inRange = (lightness: number): number => Math.min(100, Math.max(0, lightness));

/** Source: Box and Muller 1958. */
function normal(random: Random): number {
  return Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
}

/** The part of a normal distribution below z. Source: logistic form of Bowling et al. 2009, within 2e-4; from memory. */
const below = (z: number): number => 1 / (1 + Math.exp(-(0.07056 * z ** 3 + 1.5976 * z)));
