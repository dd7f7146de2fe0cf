/** How every row, band and figure of a cloth shows, in numbers: V, its light–dark part, its range and how far it reads. */
import type { Band } from "../chart/bands.ts";
import { deltaE2000 } from "../colour/difference.ts";
import { stitchSizeMm } from "../garment/gauge.ts";
import type { Texture } from "../vision/masking.ts";
import { farthestOf, reachOf, seenThings, type Reach, type Seen } from "../vision/reach.ts";
import {
  figureVisibility,
  gainsIn,
  join,
  patternVisibility,
  viewOf,
  type ChannelVisibility,
  type Eye,
  type RadialSpectrum,
  type View,
} from "../vision/visibility.ts";
import { areasOf, touchingAreas, type Area, type AreaPiece } from "./areas.ts";
import type { Cloth } from "./cloth.ts";
import { alikeKey } from "./layout.ts";
import { spectrumOf } from "./spectra.ts";
import {
  eyeBefore,
  HUE_WEIGHT,
  limitsFor,
  sceneFor,
  wordOf,
  type ReadsTo,
  type Scene,
  type Word,
} from "./visibility.ts";

export interface Viewing {
  readonly distanceM: number;
  readonly lux: number;
  /** The cloth's own texture, where it was measured on a plain swatch; hand-knit wool where missing. */
  readonly texture?: Texture | undefined;
}

/** Across a table in a room. Our choice of what she is told first. */
export const USUAL_VIEWING: Viewing = { distanceM: 1.5, lux: 500 };

/** Her own threshold as far as it is known: θ, ln of hers over the model's. Words go by V·exp(−θ); V itself stays the model's. */
export interface Doubt {
  readonly thresholdMean: number;
  readonly thresholdSd: number;
}

/** Birthplace: vision.md D: θ ~ N(0, ln 3) before she has judged a swatch. */
export const UNTUNED: Doubt = { thresholdMean: 0, thresholdSd: Math.log(3) };

/** An interval that holds 80 % of a normal distribution, in standard deviations. */
const EIGHTY_PERCENT = 1.2816;

export interface FigureContrast {
  readonly area: Area;
  readonly against: Area;
  readonly V: number;
  readonly lightDark: number;
  /** As a contrast's. */
  readonly low: number;
  readonly high: number;
  readonly shows: Word;
}

export interface Contrast {
  readonly areas: readonly Area[];
  /** null: one colour that goes on above or below, nothing to see. */
  readonly V: number | null;
  readonly lightDark: number | null;
  /** V over her threshold at the ends of what is not known: shades, weight of hue, her threshold. The words' usual limits hold for them. */
  readonly low: number | null;
  readonly high: number | null;
  /** For her: by V over her threshold. */
  readonly shows: Word | null;
  /** Between the two areas that have most stitches; null in one colour. */
  readonly deltaL: number | null;
  readonly deltaE00: number | null;
  /** Each channel on its own, masked, hue not weighted. */
  readonly channels: ChannelVisibility | null;
  readonly figures: readonly FigureContrast[];
}

/** Remembers spectra, which depend on chart and gauge alone, so that a change of yarn costs next to nothing. */
export interface SpectrumMemory {
  readonly spectra: Map<string, RadialSpectrum>;
  /** Each spectrum from every distance at once. */
  readonly reaches: WeakMap<RadialSpectrum, Reach>;
  /** How pieces look, by piece, colours, distance and light: after a swap most are as they were. */
  readonly looks: Map<string, Look>;
  /** Each spectrum from the distance at which it was last looked at. */
  readonly views: WeakMap<RadialSpectrum, View>;
}

/** A piece as it is seen, area by area. */
interface Look {
  readonly channels: ChannelVisibility;
  readonly figures: readonly { readonly a: number; readonly b: number; readonly seen: ChannelVisibility }[];
}

export const spectrumMemory = (): SpectrumMemory => ({
  spectra: new Map(),
  reaches: new WeakMap(),
  looks: new Map(),
  views: new WeakMap(),
});

/** A garment has some hundreds of different rows, a search tries them in some dozens of pairs; the oldest are let go. */
const REMEMBERED = 10_000;

const pieceKey = ({ piece }: AreaPiece, { gauge }: Cloth): string =>
  `${gauge.stitches}x${gauge.rows} ${alikeKey(piece)}`;

/** What is remembered under a key, or made and remembered; the oldest is let go. */
export function remembered<T>(known: Map<string, T>, key: string, make: () => T, atMost = REMEMBERED): T {
  let value = known.get(key);
  if (value === undefined) {
    value = make();
    known.set(key, value);
    if (known.size > atMost) known.delete(known.keys().next().value!);
  }
  return value;
}

export const spectrumFor = (areaPiece: AreaPiece, cloth: Cloth, memory: SpectrumMemory): RadialSpectrum =>
  remembered(memory.spectra, pieceKey(areaPiece, cloth), () =>
    spectrumOf(areaPiece.piece, { stitch: stitchSizeMm(cloth.gauge), rows: "once" }),
  );

/** A spectrum as it lies before the eye at a distance. */
export function viewFrom(spectrum: RadialSpectrum, { distanceM, texture }: Viewing, memory: SpectrumMemory): View {
  const eye = eyeBefore(texture);
  let view = memory.views.get(spectrum);
  if (view?.distanceMm !== distanceM * 1000 || !sameTexture(view.texture, eye.texture))
    memory.views.set(spectrum, (view = viewOf(spectrum, distanceM * 1000, eye)));
  return view;
}

const sameTexture = (one: Texture, other: Texture): boolean =>
  one === other || (one.stitch === other.stitch && one.floor === other.floor && one.strength === other.strength);

export function sceneOf(areaPiece: AreaPiece, cloth: Cloth, { lux, texture }: Viewing, memory: SpectrumMemory): Scene {
  const labs = areaPiece.areas.map(({ lab }) => lab);
  return sceneFor(spectrumFor(areaPiece, cloth, memory), labs, lux, eyeBefore(texture));
}

/** Light and texture, in a key of what is remembered. */
const conditionsKey = ({ lux, texture }: Viewing): string =>
  texture ? `${lux} ${texture.stitch}/${texture.floor}/${texture.strength}` : String(lux);

/**
 * A row as it shows alone: its colours against each other. A row of one colour is judged as a figure between its neighbours,
 * unless its yarn goes on in one of them; then there is nothing to see and V is null.
 */
export function rowContrast(
  cloth: Cloth,
  row: number,
  viewing: Viewing,
  memory: SpectrumMemory,
  doubt = UNTUNED,
): Contrast {
  const areaPiece = areasOf(cloth, row, row);
  if (areaPiece.areas.length > 1) return pieceContrast(areaPiece, cloth, viewing, memory, doubt);
  // Several chart colours in one yarn: what the pattern shows there is gone.
  if ((areaPiece.areas[0]?.colours.length ?? 0) > 1) return vanished(areaPiece.areas);
  return stripeContrast(cloth, row, viewing, memory, doubt) ?? nothingToSee(areaPiece.areas);
}

/** A band as a whole, and each of its figures: pairs of colours that touch. Plain rows, even of two colours, are no motif. */
export function bandContrast(
  cloth: Cloth,
  band: Pick<Band, "rows" | "pattern">,
  viewing: Viewing,
  memory: SpectrumMemory,
  doubt = UNTUNED,
): Contrast {
  const areaPiece = areasOf(cloth, band.rows[0], band.rows[1]);
  if (band.pattern.length === 0) return nothingToSee(areaPiece.areas);
  if (areaPiece.areas.length > 1) return pieceContrast(areaPiece, cloth, viewing, memory, doubt);
  return (areaPiece.areas[0]?.colours.length ?? 0) > 1 ? vanished(areaPiece.areas) : nothingToSee(areaPiece.areas);
}

/**
 * Some rows of a cloth as one band, whatever bands the chart has: what is looked at on a swatch. One row is judged as a row, and so is
 * a stripe of several.
 */
export function rowsContrast(
  cloth: Cloth,
  [from, to]: readonly [number, number],
  viewing: Viewing,
  memory: SpectrumMemory,
  doubt = UNTUNED,
): Contrast {
  const areaPiece = areasOf(cloth, from, to);
  if (areaPiece.areas.length > 1) return pieceContrast(areaPiece, cloth, viewing, memory, doubt);
  return rowContrast(cloth, from, viewing, memory, doubt);
}

/**
 * How far a row or band reads, metres: the farthest distance at which it is still clear to her; null where there is nothing to
 * see. A stripe of one colour is asked about as a figure between its neighbours, as its V is.
 * @returns `low` and `high` are that distance at the two ends of what is not known, all at once. Low: the two main shades as much
 * nearer to each other as their uncertainties allow, hue counted for nothing, her threshold at the upper end of the middle 80 % of
 * what it may be. High: the shades farther apart, hue counted in full, her threshold at the lower end. Light is not in it: it is
 * asked for by itself.
 */
export function readsToIn(
  cloth: Cloth,
  rows: readonly [number, number],
  viewing: Viewing,
  memory: SpectrumMemory,
  doubt = UNTUNED,
): ReadsTo | null {
  const piece = areasOf(cloth, rows[0], rows[1]);
  const stripe = piece.areas.length === 1 && rows[0] === rows[1] ? stripeIn(cloth, rows[0]) : null;
  const areaPiece = stripe?.areaPiece ?? piece;
  if (areaPiece.areas.length < 2) return null;
  const { spectrum, field, eye } = sceneOf(areaPiece, cloth, viewing, memory);
  const reach = reachFor(spectrum, eye, memory);
  const reads = (pair: Pair, figure?: { readonly area: number; readonly against: number }): ReadsTo => {
    const parted = (): Seen => {
      const apart = sceneOf({ ...areaPiece, areas: partedIn(areaPiece.areas, pair) }, cloth, viewing, memory);
      return seenThings(spectrum, apart.field, eye, figure);
    };
    return readsToWithDoubt(reach, seenThings(spectrum, field, eye, figure), pair, doubt, parted);
  };
  if (!stripe) return reads(largest(areaPiece.areas));
  // As far as the neighbour that it is soonest confused with lets it be told apart.
  const { area } = stripe;
  const each = stripe.against.map((against) =>
    reads([areaPiece.areas[area]!, areaPiece.areas[against]!], { area, against }),
  );
  return each.reduce((least, one) => (one.metres < least.metres ? one : least));
}

function reachFor(spectrum: RadialSpectrum, eye: Eye, memory: SpectrumMemory): Reach {
  let reach = memory.reaches.get(spectrum);
  if (!reach || !sameTexture(reach.eye.texture, eye.texture))
    memory.reaches.set(spectrum, (reach = reachOf(spectrum, eye)));
  return reach;
}

/** A row of one colour with its neighbours, and which areas are which; null where its colour goes on. */
function stripeIn(cloth: Cloth, row: number): { areaPiece: AreaPiece; area: number; against: number[] } | null {
  const stripe = stripeAt(cloth, row);
  if (!stripe) return null;
  const areaPiece = stripePiece(cloth, stripe);
  const at = (key: string): number => areaPiece.areas.findIndex((area) => area.key === key);
  return { areaPiece, area: at(stripe.own.key), against: stripe.neighbours.map(({ key }) => at(key)) };
}

function pieceContrast(
  areaPiece: AreaPiece,
  cloth: Cloth,
  viewing: Viewing,
  memory: SpectrumMemory,
  doubt: Doubt,
): Contrast {
  const { areas } = areaPiece;
  const look = (piece: AreaPiece): Look => {
    const labs = piece.areas.map(({ lab }) => lab.join()).join(" ");
    const key = `${pieceKey(piece, cloth)} ${viewing.distanceM} ${conditionsKey(viewing)} ${labs}`;
    return remembered(memory.looks, key, () => lookAt(piece, cloth, viewing, memory));
  };
  const { channels, figures } = look(areaPiece);
  const parted = (pair: Pair): Look => look({ ...areaPiece, areas: partedIn(areas, pair) });
  return {
    areas,
    ...measured(channels, largest(areas), doubt, (pair) => parted(pair).channels),
    channels,
    figures: figures.map(({ a, b, seen }, at) => {
      const pair: Pair = [areas[a]!, areas[b]!];
      return figureContrast(pair, seen, doubt, () => parted(pair).figures[at]!.seen);
    }),
  };
}

/** What of a figure is told, in whatever way it was looked at. */
export function figureContrast(
  pair: Pair,
  seen: ChannelVisibility,
  doubt: Doubt,
  parted: (pair: Pair) => ChannelVisibility,
): FigureContrast {
  const { V, lightDark, low, high, shows } = measured(seen, pair, doubt, parted);
  return { area: pair[0], against: pair[1], V, lightDark, low, high, shows };
}

function lookAt(areaPiece: AreaPiece, cloth: Cloth, viewing: Viewing, memory: SpectrumMemory): Look {
  const { spectrum, field, eye } = sceneOf(areaPiece, cloth, viewing, memory);
  const gains = gainsIn(viewFrom(spectrum, viewing, memory), field.luminance);
  return {
    channels: patternVisibility(spectrum, field, gains),
    figures: touchingAreas(areaPiece).map(({ a, b }) => ({
      a,
      b,
      seen: figureVisibility(spectrum, field, gains, { area: a, against: b }, eye.contrastCap),
    })),
  };
}

type Pair = readonly [Area, Area];

/** @param parted how it is seen with the pair a step of L* apart, where their shades are one: asked only then */
function measured(channels: ChannelVisibility, pair: Pair, doubt: Doubt, parted: (pair: Pair) => ChannelVisibility) {
  const V = join(channels, HUE_WEIGHT.usual);
  const { less, more, difference } = shadeFactors(pair);
  const { thresholdMean, thresholdSd } = doubt;
  const threshold = {
    low: Math.exp(thresholdMean - EIGHTY_PERCENT * thresholdSd),
    high: Math.exp(thresholdMean + EIGHTY_PERCENT * thresholdSd),
  };
  const [one, other] = pair;
  const farther = isOneShade(pair, difference)
    ? partedFactor(pair, difference) * join(parted(pair), HUE_WEIGHT.high)
    : 0;
  return {
    V,
    lightDark: channels.lightDark,
    low: (less * channels.lightDark) / threshold.high,
    high: Math.max(more * join(channels, HUE_WEIGHT.high), farther) / threshold.low,
    shows: wordOf(V, limitsFor(thresholdMean)),
    deltaL: Math.abs(one.lab[0] - other.lab[0]),
    deltaE00: difference,
  };
}

/** The two areas with most stitches. */
function largest(areas: readonly Area[]): [Area, Area] {
  const [one, other] = areas.length > 2 ? areas.toSorted((a, b) => b.stitches - a.stitches) : areas;
  return other!.stitches > one!.stitches ? [other!, one!] : [one!, other!];
}

/**
 * What shades that are a little off would make of the contrast: two shades whose ΔE00 holds the truth in 80 % of cases may lie
 * nearer or farther apart by the root of the sum of squares of both. Of a piece it is the pair with most stitches; our choice.
 */
function shadeFactors([one, other]: Pair): { less: number; more: number; difference: number } {
  const difference = deltaE2000(one.lab, other.lab);
  if (difference === 0) return { less: 0, more: 1, difference };
  const relative = Math.hypot(one.uncertainty, other.uncertainty) / difference;
  return { less: Math.max(0, 1 - relative), more: 1 + relative, difference };
}

/** ΔE00 under which two shades hardly tell in which direction they may lie apart. Our choice. */
const ONE_SHADE = 0.5;

/** Shades that are one, or nearly, as far as they are stated, and not stated for certain: what is 0 does not grow by any factor. */
const isOneShade = ([one, other]: Pair, difference: number): boolean =>
  difference < ONE_SHADE && one.uncertainty + other.uncertainty > 0;

/** The areas with the pair's first a step of L* away from the other, towards the middle grey. */
export function partedIn(areas: readonly Area[], [one, other]: Pair): Area[] {
  const [L, a, b] = other.lab;
  const lab = [L > 50 ? L - 1 : L + 1, a, b] as const;
  return areas.map((area) => (area.key === one.key ? { ...area, lab } : area));
}

/** How many such steps the shades may lie apart: as far as their uncertainties allow. */
function partedFactor(pair: Pair, difference: number): number {
  const [one, other] = pair;
  const [moved] = partedIn([one], pair);
  return (Math.hypot(one.uncertainty, other.uncertainty) + difference) / deltaE2000(moved!.lab, other.lab);
}

function readsToWithDoubt(reach: Reach, seen: Seen, pair: Pair, doubt: Doubt, parted: () => Seen): ReadsTo {
  const { less, more, difference } = shadeFactors(pair);
  const threshold = Math.exp(EIGHTY_PERCENT * doubt.thresholdSd);
  const { clear } = limitsFor(doubt.thresholdMean);
  const [usual, low, high] = farthestOf(reach, seen, [
    { hueWeight: HUE_WEIGHT.usual, threshold: clear },
    { hueWeight: HUE_WEIGHT.low, threshold: less > 0 ? (clear * threshold) / less : Infinity },
    { hueWeight: HUE_WEIGHT.high, threshold: clear / (threshold * more) },
  ]).map(({ distanceMm, beyond }) => ({ metres: distanceMm / 1000, beyond }));
  const farther = isOneShade(pair, difference)
    ? farthestOf(reach, parted(), [
        { hueWeight: HUE_WEIGHT.high, threshold: clear / (threshold * partedFactor(pair, difference)) },
      ])[0]!.distanceMm / 1000
    : 0;
  return { ...usual!, low: low!.metres, high: Math.max(high!.metres, farther) };
}

/** A run of rows of one colour between neighbours that have not got it; null where the colour goes on in one of them. */
export function stripeAt(
  cloth: Cloth,
  row: number,
): { from: number; to: number; own: Area; neighbours: Area[] } | null {
  const rowsOf = (at: number): readonly Area[] =>
    at < 1 || at > cloth.grid.height ? [] : areasOf(cloth, at, at).areas;
  const [own, ...more] = rowsOf(row);
  if (!own || more.length > 0) return null;
  const same = (at: number): boolean => {
    const areas = rowsOf(at);
    return areas.length === 1 && areas[0]!.key === own.key;
  };
  let from = row;
  let to = row;
  while (same(from - 1)) from -= 1;
  while (same(to + 1)) to += 1;
  const around = [from - 1, to + 1].filter((at) => rowsOf(at).length > 0);
  if (around.length === 0 || around.some((at) => rowsOf(at).some(({ key }) => key === own.key))) return null;
  return { from, to, own, neighbours: around.flatMap((at) => largestIn(rowsOf(at))) };
}

function stripeContrast(
  cloth: Cloth,
  row: number,
  viewing: Viewing,
  memory: SpectrumMemory,
  doubt: Doubt,
): Contrast | null {
  const stripe = stripeIn(cloth, row);
  if (!stripe) return null;
  const { areaPiece, area } = stripe;
  const { spectrum, field, eye } = sceneOf(areaPiece, cloth, viewing, memory);
  const gains = gainsIn(viewFrom(spectrum, viewing, memory), field.luminance);
  // Against the neighbour it is most easily confused with.
  const [weakest] = stripe.against
    .map((against) => ({
      neighbour: areaPiece.areas[against]!,
      channels: figureVisibility(spectrum, field, gains, { area, against }, eye.contrastCap),
      against,
    }))
    .sort((a, b) => join(a.channels, HUE_WEIGHT.usual) - join(b.channels, HUE_WEIGHT.usual));
  const { neighbour, channels, against } = weakest!;
  const own = areaPiece.areas[area]!;
  const parted = (pair: Pair): ChannelVisibility => {
    const areas = partedIn(areaPiece.areas, pair);
    const apart = sceneOf({ ...areaPiece, areas }, cloth, viewing, memory);
    return figureVisibility(spectrum, apart.field, gains, { area, against }, eye.contrastCap);
  };
  const numbers = measured(channels, [own, neighbour], doubt, parted);
  const { V, lightDark, low, high, shows } = numbers;
  const figure = { area: own, against: neighbour, V, lightDark, low, high, shows };
  return { areas: [own], ...numbers, channels, figures: [figure] };
}

/** The stripe with the row below and the row above it. */
export const stripePiece = (cloth: Cloth, { from, to }: { from: number; to: number }): AreaPiece =>
  areasOf(cloth, Math.max(1, from - 1), Math.min(cloth.grid.height, to + 1));

const largestIn = (areas: readonly Area[]): Area[] => areas.toSorted((a, b) => b.stitches - a.stitches).slice(0, 1);

const vanished = (areas: readonly Area[]): Contrast => ({
  ...nothingToSee(areas),
  V: 0,
  lightDark: 0,
  low: 0,
  high: 0,
  shows: "lost",
  deltaL: 0,
  deltaE00: 0,
});

const nothingToSee = (areas: readonly Area[]): Contrast => ({
  areas,
  V: null,
  lightDark: null,
  low: null,
  high: null,
  shows: null,
  deltaL: null,
  deltaE00: null,
  channels: null,
  figures: [],
});
