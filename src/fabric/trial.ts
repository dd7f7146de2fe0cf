/** What every yarn would do in the place of one chart colour, all at once: what a list of yarns is sorted by. */
import { assert } from "../base/assert.ts";
import type { Vector3 } from "../base/matrix3.ts";
import { xyzFromLab, type Lab } from "../colour/lab.ts";
import { opponentFromXyz } from "../vision/opponent.ts";
import { adaptingLuminance } from "../vision/viewing.ts";
import {
  fieldOf,
  figureVisibility,
  gainsIn,
  join,
  patternVisibility,
  type ChannelVisibility,
  type Eye,
  type Field,
  type Gains,
  type RadialSpectrum,
} from "../vision/visibility.ts";
import { areaKeyOf, areasOf, touchingAreas, type Area, type AreaPiece } from "./areas.ts";
import type { Cloth } from "./cloth.ts";
import {
  bandContrast,
  rowContrast,
  spectrumFor,
  stripeAt,
  stripePiece,
  UNTUNED,
  viewFrom,
  type Doubt,
  type SpectrumMemory,
  type Viewing,
} from "./contrast.ts";
import { bandsOf, inkPieceOf } from "./layout.ts";
import { measureCloth, mostOf, stitchesOf, weigh, type InkWeight, type Measures } from "./measures.ts";
import { eyeBefore, HUE_WEIGHT, limitsFor, wordOf, type Word, type WordLimits } from "./visibility.ts";
import { labOfResponse, seenResponses } from "./weight.ts";

export interface TriedYarn {
  readonly id: string;
  readonly lab: Lab;
  readonly uncertainty: number;
}

export interface TrialShown {
  readonly V: number;
  readonly shows: Word;
}

export interface YarnTrial {
  readonly yarn: string;
  /** The weakest row, band and figure of a band in which the place is knitted; null where it is in none that has something to see. */
  readonly row: (TrialShown & { readonly row: number }) | null;
  readonly band: (TrialShown & { readonly band: string; readonly rows: readonly [number, number] }) | null;
  readonly figure: (TrialShown & { readonly band: string; readonly against: string }) | null;
  /** Rows of the whole chart by their word. */
  readonly rows: Readonly<Record<Word, number>>;
  /** Of the place in the chart as a whole. */
  readonly weight: InkWeight;
}

export interface TrialOptions {
  readonly mainColour?: string | undefined;
  readonly doubt?: Doubt;
}

/**
 * Every yarn in one place of a cloth.
 * @param place ink that is taken out: its own yarn is not looked at, but must be met nowhere else in the cloth
 * @returns a trial for each yarn, in their order. V lies within 1e-3 of itself of what `plainTrial` gives: light is taken from a grid.
 */
export function yarnTrials(
  cloth: Cloth,
  place: number,
  yarns: readonly TriedYarn[],
  viewing: Viewing,
  memory: SpectrumMemory,
  options: TrialOptions = {},
): YarnTrial[] {
  // A yarn that is already in the cloth joins areas that were two: those few are measured plainly.
  const inUse = new Set(cloth.inks.filter((_, ink) => ink !== place).map(({ yarn }) => yarn));
  const fresh = yarns.filter(({ id }) => !inUse.has(id));
  const trials = new Map(freshTrials(cloth, place, fresh, viewing, memory, options).map((one) => [one.yarn, one]));
  return yarns.map((yarn) => trials.get(yarn.id) ?? plainTrial(cloth, place, yarn, viewing, memory, options));
}

/** One yarn, measured as any cloth is: what the many at once are held to. */
export function plainTrial(
  cloth: Cloth,
  place: number,
  { id, lab, uncertainty }: TriedYarn,
  viewing: Viewing,
  memory: SpectrumMemory,
  options: TrialOptions = {},
): YarnTrial {
  const inks = cloth.inks.map((ink, at) => (at === place ? { ...ink, yarn: id, lab, uncertainty, flecks: [] } : ink));
  return trialIn(measureCloth({ ...cloth, inks }, viewing, memory, options), place, options);
}

/** What a measured cloth says of one of its inks. */
export function trialIn(
  { cloth, rows, bands, weights }: Measures,
  place: number,
  { doubt = UNTUNED }: TrialOptions,
): YarnTrial {
  const ink = cloth.inks[place]!;
  const key = areaKeyOf(ink);
  const readings: Readings = {
    steady: { ...NO_ROWS },
    rows: rows.flatMap(({ row, contrast: { V } }) =>
      V === null ? [] : [{ row, V: [V], own: hasInk(cloth, row, row, place) }],
    ),
    bands: bands.flatMap(({ band: { id, rows: at }, contrast: { V } }) =>
      V !== null && hasInk(cloth, at[0], at[1], place) ? [{ band: id, rows: at, V: [V] }] : [],
    ),
    figures: bands.flatMap(({ band: { id, rows: at }, contrast: { figures } }) =>
      hasInk(cloth, at[0], at[1], place)
        ? figures.flatMap(({ area, against, V }) => {
            const other = area.key === key ? against : against.key === key ? area : null;
            return other ? [{ band: id, against: other.colours[0]!, V: [V] }] : [];
          })
        : [],
    ),
  };
  const weight = weights.find((one) => one.ink === place)!;
  return summary(ink.yarn ?? ink.colour, limitsFor(doubt.thresholdMean), readings, 0, weight);
}

const hasInk = (cloth: Cloth, from: number, to: number, ink: number): boolean =>
  inkPieceOf(cloth, from, to).inks.includes(ink);

/** V of everything that may be weakest, in each of some yarns. */
interface Readings {
  /** Rows that no yarn in the place changes, by their word. */
  readonly steady: Readonly<Record<Word, number>>;
  readonly rows: readonly { readonly row: number; readonly own: boolean; readonly V: ArrayLike<number> }[];
  readonly bands: readonly {
    readonly band: string;
    readonly rows: readonly [number, number];
    readonly V: ArrayLike<number>;
  }[];
  readonly figures: readonly { readonly band: string; readonly against: string; readonly V: ArrayLike<number> }[];
}

const NO_ROWS: Readonly<Record<Word, number>> = { lost: 0, faint: 0, clear: 0, strong: 0 };

function summary(yarn: string, limits: WordLimits, readings: Readings, at: number, weight: InkWeight): YarnTrial {
  const rows = { ...readings.steady };
  for (const { V } of readings.rows) rows[wordOf(V[at]!, limits)] += 1;
  const row = weakestOf(readings.rows, at, ({ own }) => own);
  const band = weakestOf(readings.bands, at);
  const figure = weakestOf(readings.figures, at);
  const shown = ({ V }: { readonly V: ArrayLike<number> }): TrialShown => ({
    V: V[at]!,
    shows: wordOf(V[at]!, limits),
  });
  return {
    yarn,
    row: row && { row: row.row, ...shown(row) },
    band: band && { band: band.band, rows: band.rows, ...shown(band) },
    figure: figure && { band: figure.band, against: figure.against, ...shown(figure) },
    rows,
    weight,
  };
}

function weakestOf<T extends { readonly V: ArrayLike<number> }>(
  readings: readonly T[],
  at: number,
  counts: (reading: T) => boolean = () => true,
): T | null {
  let least: T | null = null;
  for (const reading of readings) if (counts(reading) && (!least || reading.V[at]! < least.V[at]!)) least = reading;
  return least;
}

/** Many yarns, none of them anywhere else in the cloth, so that its areas are the same whichever it is. */
function freshTrials(
  cloth: Cloth,
  place: number,
  yarns: readonly TriedYarn[],
  viewing: Viewing,
  memory: SpectrumMemory,
  { mainColour, doubt = UNTUNED }: TrialOptions,
): YarnTrial[] {
  if (yarns.length === 0) return [];
  const limits = limitsFor(doubt.thresholdMean);
  const looker = lookerAt(cloth, place, yarns, viewing, memory);
  const steady = { ...NO_ROWS };
  const rows: { row: number; own: boolean; V: Float64Array }[] = [];
  for (let row = 1; row <= cloth.grid.height; row++) {
    const V = looker.row(row);
    if (typeof V === "number") steady[wordOf(V, limits)] += 1;
    else if (V) rows.push({ row, own: hasInk(cloth, row, row, place), V });
  }
  const key = areaKeyOf(cloth.inks[place]!);
  const bands = bandsOf(cloth).map(({ id, rows: [from, to], pattern }) => {
    const areaPiece = areasOf(cloth, from, to);
    const own = hasInk(cloth, from, to, place);
    const seen = own && pattern.length > 0 && areaPiece.areas.length > 1 ? looker.piece(areaPiece) : null;
    const figures = !seen
      ? []
      : touchingAreas(areaPiece).flatMap(({ a, b }) => {
          const [one, other] = [areaPiece.areas[a]!, areaPiece.areas[b]!];
          if (one.key !== key && other.key !== key) return [];
          const against = (one.key === key ? other : one).colours[0]!;
          return [{ band: id, against, V: looker.figure(areaPiece, a, b) }];
        });
    return { band: id, rows: [from, to] as const, own, seen, figures };
  });
  const readings: Readings = {
    steady,
    rows,
    bands: bands.flatMap(({ band, rows: span, seen }) => (seen ? [{ band, rows: span, V: seen.V }] : [])),
    figures: bands.flatMap(({ figures }) => figures),
  };
  const weightOf = weigher(cloth, place, mainColour, bands, viewing, memory);
  return yarns.map(({ id }, index) =>
    summary(id, limits, readings, index, weightOf(looker.tints[index]!.response, index)),
  );
}

/** A piece as it is seen in each yarn. */
interface SeenInYarns {
  readonly V: Float64Array;
  /** Three numbers a yarn: light–dark, red–green, yellow–violet. */
  readonly channels: Float64Array;
}

interface Tint {
  readonly y: number;
  readonly response: Vector3;
}

const tintOf = (lab: Lab): Tint => {
  const xyz = xyzFromLab(lab);
  return { y: xyz[1], response: opponentFromXyz(xyz) };
};

/** Looks at a piece in every yarn; what is alike is looked at once. */
function lookerAt(cloth: Cloth, place: number, yarns: readonly TriedYarn[], viewing: Viewing, memory: SpectrumMemory) {
  const tints = yarns.map(({ lab }) => tintOf(lab));
  const eye = eyeBefore(viewing.texture);
  const placeKey = areaKeyOf(cloth.inks[place]!);
  const asked = new Map<RadialSpectrum, Map<string, unknown>>();
  const once = <T>(spectrum: RadialSpectrum, question: string, make: () => T): T => {
    let known = asked.get(spectrum);
    if (!known) asked.set(spectrum, (known = new Map()));
    if (!known.has(question)) known.set(question, make());
    return known.get(question) as T;
  };
  const namesOf = (areas: readonly Area[]): string => areas.map(({ key }) => key).join("|");
  const sceneAt = (areaPiece: AreaPiece) => {
    const spectrum = spectrumFor(areaPiece, cloth, memory);
    const names = namesOf(areaPiece.areas);
    return {
      spectrum,
      names,
      scene: once(spectrum, names, () =>
        sceneInYarns(areaPiece.areas, placeKey, { spectrum, tints, viewing, eye, memory }),
      ),
    };
  };

  const piece = (areaPiece: AreaPiece): SeenInYarns => {
    const { spectrum, names, scene } = sceneAt(areaPiece);
    return once(spectrum, `${names} piece`, () => {
      const V = new Float64Array(tints.length);
      const channels = new Float64Array(3 * tints.length);
      for (let index = 0; index < tints.length; index++) {
        const seen = patternVisibility(spectrum, scene.fieldFor(index), scene.gainsFor(index));
        V[index] = join(seen, HUE_WEIGHT.usual);
        channels.set([seen.lightDark, seen.redGreen, seen.yellowViolet], 3 * index);
      }
      return { V, channels };
    });
  };
  const figure = (areaPiece: AreaPiece, area: number, against: number): Float64Array => {
    const { spectrum, names, scene } = sceneAt(areaPiece);
    return once(spectrum, `${names} ${area} ${against}`, () =>
      Float64Array.from(tints, (_, index) =>
        join(
          figureVisibility(spectrum, scene.fieldFor(index), scene.gainsFor(index), { area, against }, eye.contrastCap),
          HUE_WEIGHT.usual,
        ),
      ),
    );
  };
  /** V of a row in every yarn; one number, or null, where the place has no part in it. */
  const row = (at: number): Float64Array | number | null => {
    const areaPiece = areasOf(cloth, at, at);
    const { areas } = areaPiece;
    const unchanged = (): number | null => rowContrast(cloth, at, viewing, memory).V;
    if (areas.length > 1) {
      if (!areas.some(({ key }) => key === placeKey)) return unchanged();
      return piece(areaPiece).V;
    }
    const stripe = stripeAt(cloth, at);
    if (!stripe) return unchanged();
    const around = stripePiece(cloth, stripe);
    if (!around.areas.some(({ key }) => key === placeKey)) return unchanged();
    const indexOf = (key: string): number => around.areas.findIndex((area) => area.key === key);
    const sides = stripe.neighbours.map(({ key }) => figure(around, indexOf(stripe.own.key), indexOf(key)));
    return sides.reduce((least, side) => least.map((V, index) => Math.min(V, side[index]!)));
  };
  return { tints, piece, figure, row };
}

/** A finer grid costs time, a coarser one exactness: at this step of ln of light V is within 1e-4 of itself. */
const LIGHT_STEP = 0.06;

/** A piece in every yarn: its field, and its gains from a grid of lights; each holds until it is asked for the next yarn. */
function sceneInYarns(
  areas: readonly Area[],
  placeKey: string,
  {
    spectrum,
    tints,
    viewing,
    eye,
    memory,
  }: {
    readonly spectrum: RadialSpectrum;
    readonly tints: readonly Tint[];
    readonly viewing: Viewing;
    readonly eye: Eye;
    readonly memory: SpectrumMemory;
  },
) {
  const at = areas.findIndex(({ key }) => key === placeKey);
  assert(at >= 0, "the place has a part in the piece");
  const rest = areas.map(({ lab }) => tintOf(lab));
  const meanY = rest.reduce((sum, { y }, index) => (index === at ? sum : sum + spectrum.shares[index]! * y), 0);
  const responses = rest.map(({ response }) => response);
  const yOf = (index: number): number => meanY + spectrum.shares[at]! * tints[index]!.y;
  const fieldFor = (index: number): Field => {
    responses[at] = tints[index]!.response;
    return fieldOf(spectrum.shares, responses, yOf(index), viewing.lux, eye);
  };
  const lights = Float64Array.from(tints, (_, index) => Math.log(adaptingLuminance(viewing.lux, yOf(index), eye.veil)));
  const darkest = Math.min(...lights);
  const steps = Math.max(1, Math.ceil((Math.max(...lights) - darkest) / LIGHT_STEP));
  const step = Math.max((Math.max(...lights) - darkest) / steps, Number.EPSILON);
  const view = viewFrom(spectrum, viewing, memory);
  const grid = Array.from({ length: steps + 1 }, (_, place) => gainsIn(view, Math.exp(darkest + place * step)));
  const pairs = spectrum.powers.length;
  const between = {
    lightDark: new Float64Array(pairs),
    redGreen: new Float64Array(pairs),
    yellowViolet: new Float64Array(pairs),
  };
  const gainsFor = (index: number): Gains => {
    const place = Math.min(steps, (lights[index]! - darkest) / step);
    const below = Math.min(steps - 1, Math.floor(place));
    const part = place - below;
    for (const channel of ["lightDark", "redGreen", "yellowViolet"] as const) {
      const from = grid[below]![channel];
      const to = grid[below + 1]![channel];
      const into = between[channel];
      for (let pair = 0; pair < pairs; pair++) into[pair] = from[pair]! + part * (to[pair]! - from[pair]!);
    }
    return between;
  };
  return { fieldFor, gainsFor };
}

const channelsAt = ({ channels }: SeenInYarns, yarn: number): ChannelVisibility => ({
  lightDark: channels[3 * yarn]!,
  redGreen: channels[3 * yarn + 1]!,
  yellowViolet: channels[3 * yarn + 2]!,
});

interface BandInYarns {
  readonly own: boolean;
  readonly rows: readonly [number, number];
  /** As it is seen in every yarn; null where there is nothing to see, or nothing that the place changes. */
  readonly seen: SeenInYarns | null;
}

/** The visual weight of the place in a yarn: as `measureCloth` has it, with what the place does not change added up before. */
function weigher(
  cloth: Cloth,
  place: number,
  mainColour: string | undefined,
  bands: readonly BandInYarns[],
  viewing: Viewing,
  memory: SpectrumMemory,
): (response: Vector3, yarn: number) => InkWeight {
  const stitches = stitchesOf(cloth, 1, cloth.grid.height);
  const inks = stitches.flatMap((count, ink) => (count > 0 ? [ink] : []));
  const ground = mostOf(cloth, inks, stitches, mainColour);
  const responses = cloth.inks.map(({ lab }) => tintOf(lab).response);
  const found = bandsOf(cloth);
  const parts = bands.map(({ rows: [from, to], own, seen }, index) => {
    const counts = stitchesOf(cloth, from, to);
    const here = counts.flatMap((count, ink) => (count > 0 ? [ink] : []));
    const areas = here.map((ink) => counts[ink]!);
    return {
      here,
      areas,
      own,
      seen,
      channels: own ? null : bandContrast(cloth, found[index]!, viewing, memory).channels,
    };
  });
  const add = (sums: number[][], here: readonly number[], areas: readonly number[], seen: readonly Vector3[]): void =>
    here.forEach((ink, at) => {
      const sum = sums[ink]!;
      const [a, r, y] = seen[at]!;
      sum[0]! += a * areas[at]!;
      sum[1]! += r * areas[at]!;
      sum[2]! += y * areas[at]!;
    });
  const steady = cloth.inks.map(() => [0, 0, 0]);
  for (const { here, areas, own, channels } of parts) {
    if (own) continue;
    const plain = here.map((ink) => responses[ink]!);
    add(steady, here, areas, channels ? seenResponses(plain, areas, channels) : plain);
  }
  const changing = parts.filter(({ own }) => own);
  const all = [...found.keys()];
  return (response, yarn) => {
    const sums = steady.map((sum) => [...sum]);
    for (const { here, areas, seen } of changing) {
      const plain = here.map((ink) => (ink === place ? response : responses[ink]!));
      add(sums, here, areas, seen ? seenResponses(plain, areas, channelsAt(seen, yarn)) : plain);
    }
    const labs = inks.map((ink) => {
      const [a, r, y] = sums[ink] as [number, number, number];
      return labOfResponse([a / stitches[ink]!, r / stitches[ink]!, y / stitches[ink]!]);
    });
    return weigh(cloth, inks, stitches, labs, ground, all)[inks.indexOf(place)]!;
  };
}
