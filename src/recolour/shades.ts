/** The shade to look for: colours that she does not own, tried as if she did, and the region of colour that would do in a place. */
import { showsEnough } from "../audit/legibility.ts";
import { atLeast, audit } from "../audit/audit.ts";
import { rowsText, told } from "../audit/context.ts";
import { contextOf } from "../audit/judge.ts";
import { deltaE2000 } from "../colour/difference.ts";
import { hexFromLab, labFromHex, labFromLch, lchFromLab, type Lab } from "../colour/lab.ts";
import { plainName } from "../colour/names.ts";
import { valueClass } from "../colour/value.ts";
import { isOwned } from "../yarn/owned.ts";
import { nearestByShade } from "../yarn/stash.ts";
import type { Yarn } from "../yarn/yarn.ts";
import { fitsCapacity } from "./assignment.ts";
import { holdsIn } from "./demands.ts";
import { colourwayIn, yarnsOf, type Search } from "./prepare.ts";
import { looksAllow, type Target } from "./score.ts";
import { notChoosable } from "./settle.ts";

/** A region of colour in which a bought yarn would have to lie. It is a shade to look for, not a yarn. */
export interface ShadeToFind {
  /** What stands for it in the way: no yarn that anybody sells. */
  readonly yarn: Yarn;
  readonly colour: string;
  /** The middle of the region. */
  readonly lab: Lab;
  readonly hex: string;
  readonly name: string;
  /** A yarn within this ΔE00 of it does. */
  readonly radius: number;
  /** Over the whole region: L*, C* and hue angle in degrees, [from, to] counter-clockwise; hue null where any does. */
  readonly lightness: readonly [number, number];
  readonly chroma: readonly [number, number];
  readonly hue: readonly [number, number] | null;
  /** Metres with reserve, where they are known. */
  readonly metres: number | null;
  readonly sentence: string;
  /** Of her own yarns, and why they do not do. */
  readonly nearest: readonly NearYarn[];
}

export interface NearYarn {
  readonly yarn: string;
  readonly deltaE00: number;
  readonly why: string;
}

/** Shades are tried on this grid: L* in steps of ten, six hues at two chromas, and greys; wool beyond them is rare. Our choice. */
const GRID = { lightness: [12, 22, 32, 42, 52, 62, 72, 82, 92], chroma: [20, 42], hues: 6 } as const;

/** A byte of sRGB is nearer to its neighbours than this: a colour that comes back from its hex so near is one that sRGB holds. */
const IN_GAMUT = 1;

/** Of her own yarns so many are named. Our choice. */
const NEAREST = 3;

/** Shades that she could look for, as yarns: the pattern's own colours and a grid over what wool can be. */
export function shadesToTry(targets: readonly Pick<Target, "was">[]): Yarn[] {
  const labs: Lab[] = targets.map(({ was }) => was);
  for (const lightness of GRID.lightness) {
    labs.push([lightness, 0, 0]);
    for (const chroma of GRID.chroma)
      for (let hue = 0; hue < GRID.hues; hue++)
        labs.push(labFromLch([lightness, chroma, 15 + (hue * 360) / GRID.hues]));
  }
  const shades = new Map(labs.filter(inGamut).map((lab) => [hexFromLab(lab), lab]));
  return [...shades].map(([hex, lab]) => shadeYarn(hex, lab));
}

const shadeYarn = (hex: string, lab: Lab): Yarn => ({
  id: `shade-to-find-${hex.slice(1)}`,
  name: `shade to look for, ${plainName(lab)}`,
  shade: { lab, uncertainty: 0 },
  note: "A shade to look for, not a yarn.",
});

const inGamut = (lab: Lab): boolean => deltaE2000(lab, labFromHex(hexFromLab(lab))!) < IN_GAMUT;

/** The shades that an assignment takes beside her yarns, each with the region round it that would do as well. */
export function shadesIn(search: Search, assignment: readonly number[]): ShadeToFind[] {
  return search.targets.flatMap((_, place) =>
    assignment[place]! >= search.owned ? [shadeFor(search, assignment, place)] : [],
  );
}

function shadeFor(search: Search, assignment: readonly number[], place: number): ShadeToFind {
  const yarn = search.yarns[assignment[place]!]!;
  const { colour } = search.targets[place]!;
  const region = regionRound(search, assignment, place);
  const { lab, radius } = middleOf(search, assignment, place, region);
  const polar = region.map(lchFromLab);
  const span = (axis: 0 | 1): [number, number] => [
    Math.min(...polar.map((lch) => lch[axis])),
    Math.max(...polar.map((lch) => lch[axis])),
  ];
  const [lightness, chroma] = [span(0), span(1)];
  const hue = hueSpan(polar.filter(([, c]) => c >= HUE_MATTERS).map(([, , h]) => h));
  const metres = search.problem.capacity?.need[place] ?? null;
  const shade = {
    yarn,
    colour,
    lab,
    hex: hexFromLab(lab),
    name: plainName(lab),
    radius,
    lightness,
    chroma,
    hue,
    metres,
  };
  return { ...shade, sentence: sentenceOf(shade), nearest: nearestTo(search, assignment, place, lab) };
}

/** The region is felt out around a shade that does in these steps of L*, a* and b*, so many each way. Our choice. */
const FINE = { lightness: 3, opponent: 7, lightnessSteps: 7, opponentSteps: 4 } as const;

/** Colours whose visibility is worked out in one table. By trial. */
const AT_ONCE = 40;

/** Shades around the chosen one, joined to it step by step, that do in its place while all others stay. */
function regionRound(search: Search, assignment: readonly number[], place: number): Lab[] {
  const { labs, targets } = search;
  const [L, a, b] = labs[assignment[place]!]!;
  const key = (x: number, y: number, z: number): string => `${x} ${y} ${z}`;
  const steps: { at: [number, number, number]; lab: Lab }[] = [];
  for (let x = -FINE.lightnessSteps; x <= FINE.lightnessSteps; x++)
    for (let y = -FINE.opponentSteps; y <= FINE.opponentSteps; y++)
      for (let z = -FINE.opponentSteps; z <= FINE.opponentSteps; z++) {
        const lab: Lab = [L + x * FINE.lightness, a + y * FINE.opponent, b + z * FINE.opponent];
        const possible = lab[0] > 2 && lab[0] < 98 && inGamut(lab) && looksAllow(targets[place]!, lab);
        if (possible || (x === 0 && y === 0 && z === 0)) steps.push({ at: [x, y, z], lab });
      }
  const does = doesIn(search, assignment, place, steps.map(({ lab }) => lab)); // prettier-ignore
  const open = new Map(
    steps.flatMap(({ at, lab }, index) => (does[index] ? [[key(...at), { at, lab }] as const] : [])),
  );
  const joined: Lab[] = [labs[assignment[place]!]!];
  const next = [[0, 0, 0] as [number, number, number]];
  open.delete(key(0, 0, 0));
  for (let from = next.pop(); from; from = next.pop()) {
    for (const [x, y, z] of [
      [1, 0, 0],
      [-1, 0, 0],
      [0, 1, 0],
      [0, -1, 0],
      [0, 0, 1],
      [0, 0, -1],
    ] as const) {
      // prettier-ignore
      const name = key(from[0] + x, from[1] + y, from[2] + z);
      const found = open.get(name);
      if (!found) continue;
      open.delete(name);
      joined.push(found.lab);
      next.push(found.at);
    }
  }
  return joined;
}

/** For each shade whether every row, figure and order that the place is part of would hold. */
function doesIn(search: Search, assignment: readonly number[], place: number, shades: readonly Lab[]): boolean[] {
  const { demands, labs } = search;
  const { showings, orders, limits } = demands;
  const labAt = (i: number): Lab => labs[assignment[i]!]!;
  const does = shades.map((lab) =>
    orders.every(({ i, j, slack }) => {
      if (i === place) return lab[0] - labAt(j)[0] > -slack;
      return j !== place || labAt(i)[0] - lab[0] > -slack;
    }),
  );
  for (const { i, j, was, want, tableFor } of showings) {
    if (i !== place && j !== place) continue;
    const partner = labAt(i === place ? j : i);
    for (let from = 0; from < shades.length; from += AT_ONCE) {
      const some = [...shades.slice(from, from + AT_ONCE), partner];
      const last = some.length - 1;
      const V = tableFor(some);
      for (let at = 0; at < last; at++) {
        const entry = i === place ? at * some.length + last : last * some.length + at;
        if (!showsEnough({ V: V[entry]!, was }, want, limits)) does[from + at] = false;
      }
    }
  }
  return does;
}

/** Radii that are tried, ΔE00, the largest first: within less nobody can look for a yarn, beyond more nobody has to. Our choice. */
const RADII = [12, 10, 8, 6, 5, 4, 3, 2, 1] as const;

/**
 * The shade of the region with most room around it, among equals the nearest to the one chosen; and how far every way from it the full
 * audit still lets pass.
 */
function middleOf(
  search: Search,
  assignment: readonly number[],
  place: number,
  region: readonly Lab[],
): { lab: Lab; radius: number } {
  const chosen = search.labs[assignment[place]!]!;
  const inside = new Set(region.map((lab) => lab.map(Math.round).join()));
  const room = (lab: Lab): number => {
    for (let steps = 1; steps <= 3; steps++)
      if (
        AXES.some(
          ([x, y, z]) =>
            !inside.has(
              [
                lab[0] + steps * x * FINE.lightness,
                lab[1] + steps * y * FINE.opponent,
                lab[2] + steps * z * FINE.opponent,
              ]
                .map(Math.round)
                .join(),
            ),
        )
      )
        // prettier-ignore
        return steps - 1;
    return 3;
  };
  const byRoom = region
    .map((lab) => ({ lab, room: room(lab), away: deltaE2000(lab, chosen) }))
    .sort((one, other) => other.room - one.room || one.away - other.away);
  let best = { lab: chosen, radius: 0 };
  for (const { lab } of [...byRoom.slice(0, 4), { lab: chosen }]) {
    if (!passes(search, assignment, place, lab)) continue;
    const wider = RADII.filter((radius) => radius > best.radius);
    const radius = wider.find((most) => around(lab, most).every((one) => passes(search, assignment, place, one)));
    if (radius !== undefined) best = { lab, radius };
  }
  return best;
}

const AXES = [[1, 0, 0], [-1, 0, 0], [0, 1, 0], [0, -1, 0], [0, 0, 1], [0, 0, -1]] as const; // prettier-ignore

/** Shades at a ΔE00 from one, each along an axis of Lab; those that sRGB does not hold are left out. */
function around(lab: Lab, distance: number): Lab[] {
  return AXES.flatMap(([x, y, z]): Lab[] => {
    let [near, far] = [0, 4 * distance];
    const at = (t: number): Lab => [lab[0] + t * x, lab[1] + t * y, lab[2] + t * z];
    for (let halving = 0; halving < 12; halving++) {
      const middle = (near + far) / 2;
      if (deltaE2000(lab, at(middle)) < distance) near = middle;
      else far = middle;
    }
    const found = at(near);
    return found[0] > 0 && found[0] < 100 && inGamut(found) ? [found] : [];
  });
}

/** Whether the full audit lets the assignment pass with that shade in the place. */
function passes(search: Search, assignment: readonly number[], place: number, lab: Lab): boolean {
  const { pattern, input, yarns, taste } = search;
  const { viewing, doubt, memory } = input;
  const stand = yarns[assignment[place]!]!;
  const dyed = yarnsOf(search).map((yarn) => (yarn === stand ? { ...yarn, shade: { lab, uncertainty: 0 } } : yarn));
  const context = contextOf(
    { pattern, yarns: dyed, colourway: colourwayIn(search, assignment), viewing, doubt },
    memory,
  );
  return !audit(context).some(
    (finding) =>
      atLeast(finding, "doubt") &&
      !notChoosable(finding) &&
      !(taste.ladder === "free" && finding.id.startsWith("valueOrder/")),
  );
}

/** Below this C* a colour's hue is hardly seen. Our choice: about a grey with a tinge. */
const HUE_MATTERS = 8;

/** The shortest arc that holds all hues; null where they leave no gap of a quarter of the circle. */
function hueSpan(hues: readonly number[]): [number, number] | null {
  if (hues.length === 0) return null;
  const sorted = hues.toSorted((one, other) => one - other);
  let widest = { gap: 360 - sorted.at(-1)! + sorted[0]!, after: sorted.length - 1 };
  sorted.forEach((hue, index) => {
    const gap = (sorted[index + 1] ?? Infinity) - hue;
    if (gap < Infinity && gap > widest.gap) widest = { gap, after: index };
  });
  if (widest.gap < 90) return null;
  return [sorted[(widest.after + 1) % sorted.length]!, sorted[widest.after]!];
}

function sentenceOf(shade: Omit<ShadeToFind, "sentence" | "nearest">): string {
  const { colour, name, hex, radius, lightness, chroma, hue, metres } = shade;
  const classes = [...new Set([lightness[1], lightness[0]].map((L) => valueClass(L)))];
  const number = (value: number): number => Math.round(value);
  const hues = hue === null ? "of any hue" : `hue ${number(hue[0])}° to ${number(hue[1])}°`;
  const quiet =
    chroma[0] < HUE_MATTERS ? `C up to ${number(chroma[1])}` : `C ${number(chroma[0])} to ${number(chroma[1])}`;
  const close = radius > 0 ? `; a yarn within ${radius} ΔE00 of it does` : "";
  const length = metres ? ` It takes about ${told(metres)} m.` : "";
  return `A shade to look for, for ${colour}: ${name} (${hex})${close}. Shades that do were found from L ${number(lightness[0])} to ${number(lightness[1])} (${classes.join(" to ")}), ${quiet}, ${hues}.${length} It is a shade, not a yarn that we know of.`;
}

function nearestTo(search: Search, assignment: readonly number[], place: number, lab: Lab): NearYarn[] {
  return nearestByShade(search.input.yarns.filter(isOwned), lab, NEAREST).map(({ yarn, deltaE00 }) => ({
    yarn: yarn.id,
    deltaE00,
    why: whyNot(search, assignment, place, yarn),
  }));
}

/** What keeps one of her yarns from the place, all others staying as they are. */
function whyNot(search: Search, assignment: readonly number[], place: number, yarn: Yarn): string {
  const { yarns, owned, problem, targets, demands, labs, costs } = search;
  const k = yarns.findIndex((one, index) => index < owned && one.id === yarn.id);
  if (k < 0) return "it is kept out";
  const holder = targets.findIndex((_, i) => i !== place && assignment[i] === k);
  if (holder >= 0) return `it is taken for ${targets[holder]!.colour}`;
  if (costs[place]![k] === Infinity) return "it is not what is wanted there";
  const { capacity } = problem;
  if (capacity && !fitsCapacity(capacity.need[place]!, capacity.have[k]!))
    return `there are ${told(capacity.have[k]!)} m of it, and ${told(capacity.need[place]!)} m are needed`;
  const nameOf = (i: number): string => yarns[assignment[i]!]!.name;
  const turned = demands.orders.find(({ i, j, slack }) => {
    if (i !== place && j !== place) return false;
    const [one, other] = [i, j].map((at) => labs[at === place ? k : assignment[at]!]![0]) as [number, number];
    return one - other <= -slack;
  });
  if (turned)
    return `it is ${turned.i === place ? "darker" : "lighter"} than ${nameOf(turned.i === place ? turned.j : turned.i)} and ought not to be`;
  const lost = demands.showings.find((showing) => {
    const { i, j } = showing;
    if (i !== place && j !== place) return false;
    const [one, other] = [i, j].map((at) => (at === place ? k : assignment[at]!)) as [number, number];
    return !holdsIn(showing, one * labs.length + other, demands.limits);
  });
  if (lost)
    return `${rowsText(lost.places[0]!.rows)} would not show against ${nameOf(lost.i === place ? lost.j : lost.i)}`;
  const parted =
    search.parted && targets.findIndex((_, i) => i !== place && search.parted![k * labs.length + assignment[i]!]);
  if (parted !== null && parted >= 0) return `it does not go together with ${nameOf(parted)}`;
  return "it would do, at a higher score";
}
