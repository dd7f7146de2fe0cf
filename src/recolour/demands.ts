/** What the pattern asks of a choice of yarns, as the search wants it: costs of places, clashes and costs of pairs. */
import { showsEnough } from "../audit/legibility.ts";
import { THRESHOLDS } from "../audit/thresholds.ts";
import type { Judged } from "../audit/context.ts";
import type { JudgeMemory } from "../audit/judge.ts";
import type { Want } from "../chart/chart.ts";
import type { Lab } from "../colour/lab.ts";
import { areasOf, touchingAreas, type Area, type AreaPiece } from "../fabric/areas.ts";
import { spectrumFor, stripeAt, stripePiece, UNTUNED, type Doubt, type Viewing } from "../fabric/contrast.ts";
import { limitsFor, type WordLimits } from "../fabric/visibility.ts";
import { pairTable } from "../fabric/pairTable.ts";
import type { RadialSpectrum } from "../vision/visibility.ts";
import type { PairClash, PairCost } from "./assignment.ts";
import { importanceOf, looksAllow, placeTerms, shortfall, type Target, type Taste, type Terms } from "./score.ts";

export interface Demands {
  readonly costs: Float64Array[];
  readonly clashes: PairClash[];
  readonly pairCosts: PairCost[];
  /** What the clashes of two places come from. */
  readonly showings: readonly Showing[];
  readonly orders: readonly Order[];
  /** `contacts[i * N + j]`: part of all sides of stitches along which the two meet. */
  readonly contacts: Float64Array;
  /** V from which each word holds for her. */
  readonly limits: WordLimits;
}

/** Two places that have to part in a row or figure, and how well they do in every pair of yarns. */
export interface Showing {
  readonly i: number;
  readonly j: number;
  /** Everywhere that asks the very same. */
  readonly places: readonly ShowingPlace[];
  /** A row by itself, or all of a figure in its band. */
  readonly kind: "row" | "figure";
  readonly was: number;
  readonly want: Want | undefined;
  /** `V[k * K + l]`: place i in yarn k, j in l; i comes before j. */
  readonly V: Float32Array;
  /** The same for any other list of colours. */
  readonly tableFor: (labs: readonly Lab[]) => Float32Array;
  /** Its part of all that is to show, 0 to 1. */
  readonly weight: number;
}

export interface ShowingPlace {
  readonly chart: string;
  readonly rows: readonly [number, number];
  readonly band: string;
}

/** Two places whose order from light to dark is to stay: i lighter than j by no less than minus `slack` L*. */
export interface Order {
  readonly i: number;
  readonly j: number;
  readonly slack: number;
  readonly why: "ladder" | "echo";
}

export interface DemandsOf {
  /** Measured with every place in its own yarn, so that an area is a place. */
  readonly charts: readonly Judged[];
  readonly targets: readonly Target[];
  /** The yarns that stand for the targets in these charts. */
  readonly ids: readonly string[];
  readonly labs: readonly Lab[];
  readonly taste: Taste;
  readonly weights: Terms;
  /** Bands that echo keep their contrasts the same way round, whatever the ladder. */
  readonly echoesAlike: boolean;
  readonly main: number;
  readonly viewing: Viewing;
  readonly doubt?: Doubt | undefined;
  readonly memory: JudgeMemory;
}

export function demandsOf(input: DemandsOf): Demands {
  const { targets, labs, taste, weights, doubt = UNTUNED } = input;
  const limits = limitsFor(doubt.thresholdMean);
  const contacts = contactsOf(input);
  const showings = showingsOf(input);
  const orders = ordersOf(input, contacts);
  return {
    costs: targets.map((target) => {
      const importance = importanceOf(target.area, targets.length);
      return Float64Array.from(labs, (lab) => {
        if (target.pinned) return 0;
        if (!looksAllow(target, lab)) return Infinity;
        const { value, hue, loudness } = placeTerms(target, lab, taste);
        return importance * (weights.value * value + weights.hue * hue + weights.loudness * loudness);
      });
    }),
    clashes: clashesOf(showings, orders, labs, limits),
    pairCosts: pairCostsOf(input, showings, contacts),
    showings,
    orders,
    contacts,
    limits,
  };
}

/** Whether a pair of yarns shows as it should there. */
export const holdsIn = ({ V, was, want }: Showing, entry: number, limits: WordLimits): boolean =>
  showsEnough({ V: V[entry]!, was }, want, limits);

/** How far a pair of yarns is from showing as it should there, in words: ln of V over ln 3. 0 where it does. */
export function missing(showing: Showing, entry: number, limits: WordLimits): number {
  if (holdsIn(showing, entry, limits)) return 0;
  const wanted = showing.want === "strong" ? limits.strong : limits.clear;
  const enough = Math.min(wanted, showing.was * THRESHOLDS.worseThanPattern);
  return 0.05 + Math.min(MOST_MISSING, Math.max(0, Math.log(enough / Math.max(showing.V[entry]!, 1e-9)) / Math.log(3)));
}

/** Worse than lost cannot be: three words. */
const MOST_MISSING = 3;

/** What is asked of pairs as forbidden tables, one for each pair of places. */
export function clashesOf(
  showings: readonly Showing[],
  orders: readonly Order[],
  labs: readonly Lab[],
  limits: WordLimits,
): PairClash[] {
  const size = labs.length;
  const clashes = new Map<string, PairClash>();
  const tableOf = (i: number, j: number): Uint8Array => {
    const key = `${i}/${j}`;
    const known = clashes.get(key) ?? { i, j, forbidden: new Uint8Array(size * size) };
    clashes.set(key, known);
    return known.forbidden;
  };
  for (const showing of showings) {
    const forbidden = tableOf(showing.i, showing.j);
    for (let at = 0; at < forbidden.length; at++)
      if (!forbidden[at] && !holdsIn(showing, at, limits)) forbidden[at] = 1;
  }
  for (const { i, j, slack } of orders) {
    const forbidden = tableOf(i, j);
    for (let k = 0; k < size; k++)
      for (let l = 0; l < size; l++) if (labs[k]![0] - labs[l]![0] <= -slack) forbidden[k * size + l] = 1;
  }
  return [...clashes.values()];
}

/**
 * Every row and figure that is to show. In a piece of more than two areas the others are taken at the lightness that is wanted of
 * them, or as they are kept: they matter through the mean alone.
 */
function showingsOf({ charts, targets, ids, labs, viewing, memory }: DemandsOf): Showing[] {
  const placeOf = (area: Area): number => ids.indexOf(area.yarn ?? area.colours[0]!);
  type Growing = Showing & { weight: number; readonly places: ShowingPlace[] };
  const showings: Growing[] = [];
  const asked = new Map<RadialSpectrum, Map<string, Growing>>();

  const demand = (
    areaPiece: AreaPiece,
    judged: Judged,
    meeting: { readonly area: number; readonly against: number },
    { where, ...showing }: Pick<Showing, "kind" | "was" | "want" | "weight"> & { readonly where: ShowingPlace },
  ): void => {
    const places = areaPiece.areas.map(placeOf);
    const one = places[meeting.area] ?? -1;
    const other = places[meeting.against] ?? -1;
    if (one < 0 || other < 0 || one === other || showing.want === "soft" || areaPiece.areas.length < 2) return;
    const spectrum = spectrumFor(areaPiece, judged.now.cloth, memory);
    const { was, want } = showing;
    const question = JSON.stringify([places, meeting, was, want]);
    const known = asked.get(spectrum) ?? new Map<string, Growing>();
    asked.set(spectrum, known);
    const same = known.get(question);
    if (same) {
      same.weight += showing.weight;
      same.places.push(where);
      return;
    }
    const others = areaPiece.areas.map(({ lab }, index) => wantedLab(targets[places[index]!], lab));
    // The table is laid out from the place that comes first.
    const upright = one < other;
    const tableFor = (list: readonly Lab[]): Float32Array => {
      const table = pairTable(spectrum, { ...meeting, others }, list, viewing);
      return upright ? table : turned(table, list.length);
    };
    const made: Growing = {
      ...showing,
      places: [where],
      i: Math.min(one, other),
      j: Math.max(one, other),
      V: tableFor(labs),
      tableFor,
    };
    known.set(question, made);
    showings.push(made);
  };

  for (const judged of charts) {
    const { cloth } = judged.now;
    judged.now.rows.forEach(({ row, band: at }, index) => {
      const was = judged.was.rows[index]!.contrast.V;
      if (was === null) return;
      const { band } = judged.now.bands[at]!;
      const where = { chart: judged.chart.id, rows: [row, row] as const, band: band.id };
      const showing = { where, kind: "row" as const, was, want: band.want, weight: 1 };
      const areaPiece = areasOf(cloth, row, row);
      if (areaPiece.areas.length === 2) demand(areaPiece, judged, { area: 1, against: 0 }, showing);
      const stripe = stripeAt(cloth, row);
      if (!stripe) return;
      const around = stripePiece(cloth, stripe);
      const indexOf = (key: string): number => around.areas.findIndex((area) => area.key === key);
      for (const neighbour of stripe.neighbours) {
        const meeting = { area: indexOf(stripe.own.key), against: indexOf(neighbour.key) };
        demand(around, judged, meeting, { ...showing, weight: 1 / stripe.neighbours.length });
      }
    });
    judged.now.bands.forEach(({ band }, index) => {
      const areaPiece = areasOf(cloth, band.rows[0], band.rows[1]);
      if (areaPiece.areas.length < 3) return;
      const rows = [band.rows[0], band.rows[1]] as const;
      const touching = touchingAreas(areaPiece);
      for (const { a, b } of touching) {
        const [one, other] = [areaPiece.areas[a]!, areaPiece.areas[b]!];
        const figure = judged.was.bands[index]!.contrast.figures.find(
          ({ area, against }) => area.colours.includes(ownColour(one)) && against.colours.includes(ownColour(other)),
        );
        if (!figure) continue;
        const where = { chart: judged.chart.id, rows, band: band.id };
        const weight = (rows[1] - rows[0] + 1) / touching.length;
        const showing = { where, kind: "figure" as const, was: figure.V, want: band.want, weight };
        demand(areaPiece, judged, { area: a, against: b }, showing);
      }
    });
  }
  const all = showings.reduce((sum, { weight }) => sum + weight, 0);
  for (const showing of showings) showing.weight /= all;
  return showings;
}

/** The chart colour that gives the area its yarn, not one that is knitted in it here and there. */
const ownColour = ({ yarn, colours }: Area): string => colours.find((colour) => colour === yarn) ?? colours[0]!;

function turned(table: Float32Array, size: number): Float32Array {
  const result = new Float32Array(table.length);
  for (let k = 0; k < size; k++) for (let l = 0; l < size; l++) result[l * size + k] = table[k * size + l]!;
  return result;
}

const wantedLab = (target: Target | undefined, lab: Lab): Lab =>
  target ? (target.fixed ?? [target.lightness, target.was[1], target.was[2]]) : lab;

/** Pairs whose order from light to dark counts: where two colours meet, or against the main colour. */
function ordersOf(input: DemandsOf, contacts: Float64Array): Order[] {
  const { targets, taste, main, echoesAlike } = input;
  const echoing = echoesAlike ? echoingPairs(input) : new Set<number>();
  const count = targets.length;
  const orders: Order[] = [];
  for (let i = 0; i < count; i++) {
    for (let j = i + 1; j < count; j++) {
      const wanted = targets[i]!.lightness - targets[j]!.lightness;
      const echo = echoing.has(i * count + j) && wanted !== 0;
      if (Math.abs(wanted) < THRESHOLDS.orderMatters && !echo) continue;
      const ladder =
        taste.ladder !== "free" &&
        Math.abs(wanted) >= THRESHOLDS.orderMatters &&
        (contacts[i * count + j] !== 0 || i === main || j === main);
      if (!ladder && !echo) continue;
      const [one, other] = wanted > 0 ? [i, j] : [j, i];
      // An echo is recognised by its order, so there it may not even be level.
      orders.push({ i: one, j: other, slack: echo ? 0 : THRESHOLDS.orderChanged, why: ladder ? "ladder" : "echo" });
    }
  }
  return orders;
}

/** Pairs of places that touch in a band which is another again, or has another that is. */
function echoingPairs({ charts, ids }: DemandsOf): Set<number> {
  const pairs = new Set<number>();
  for (const { now } of charts) {
    const echoed = new Set(now.bands.flatMap(({ band }) => (band.echoOf === null ? [] : [band.id, band.echoOf])));
    for (const { band } of now.bands) {
      if (!echoed.has(band.id)) continue;
      const areaPiece = areasOf(now.cloth, band.rows[0], band.rows[1]);
      for (const { a, b } of touchingAreas(areaPiece)) {
        const [i, j] = [a, b].map((at) => ids.indexOf(areaPiece.areas[at]!.yarn ?? "")) as [number, number];
        if (i >= 0 && j >= 0) pairs.add(Math.min(i, j) * ids.length + Math.max(i, j));
      }
    }
  }
  return pairs;
}

/** What it costs that a contrast between neighbours is not the pattern's, and that rows and figures show less than they do there. */
function pairCostsOf(input: DemandsOf, showings: readonly Showing[], contacts: Float64Array): PairCost[] {
  const { targets, labs, taste, weights } = input;
  const count = targets.length;
  const size = labs.length;
  const costs: PairCost[] = [];
  for (let i = 0; i < count; i++) {
    for (let j = i + 1; j < count; j++) {
      const weight = taste.ladder === "free" ? 0 : weights.contrast * count * contacts[i * count + j]!;
      const here = showings.filter((showing) => showing.i === i && showing.j === j);
      if (weight === 0 && (here.length === 0 || weights.showing === 0)) continue;
      const cost = new Float32Array(size * size);
      for (let k = 0; k < size; k++) {
        for (let l = 0; l < size; l++) {
          const at = k * size + l;
          let sum = weight === 0 ? 0 : weight * contrastTerm(targets, i, j, labs[k]!, labs[l]!);
          for (const { V, was, weight: part } of here) sum += weights.showing * count * part * shortfall(V[at]!, was);
          cost[at] = sum;
        }
      }
      costs.push({ i, j, cost });
    }
  }
  return costs;
}

export const contrastTerm = (targets: readonly Target[], i: number, j: number, one: Lab, other: Lab): number =>
  Math.abs(one[0] - other[0] - (targets[i]!.lightness - targets[j]!.lightness));

function contactsOf({ charts, targets, ids }: DemandsOf): Float64Array {
  const count = targets.length;
  const contacts = new Float64Array(count * count);
  let all = 0;
  for (const { now } of charts) {
    for (const { band } of now.bands) {
      const areaPiece = areasOf(now.cloth, band.rows[0], band.rows[1]);
      const rows = band.rows[1] - band.rows[0] + 1;
      for (const { a, b } of touchingAreas(areaPiece)) {
        const i = ids.indexOf(areaPiece.areas[a]!.yarn ?? "");
        const j = ids.indexOf(areaPiece.areas[b]!.yarn ?? "");
        if (i < 0 || j < 0) continue;
        contacts[i * count + j]! += rows;
        contacts[j * count + i]! += rows;
        all += rows;
      }
    }
  }
  return all > 0 ? contacts.map((contact) => contact / all) : contacts;
}
