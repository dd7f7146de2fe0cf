/** What the pattern asks of a choice of yarns, as the search wants it: costs of places, clashes and costs of pairs. */
import { showsEnough } from "../audit/legibility.ts";
import { THRESHOLDS } from "../audit/thresholds.ts";
import type { Judged } from "../audit/context.ts";
import type { JudgeMemory } from "../audit/judge.ts";
import type { Want } from "../chart/chart.ts";
import type { Lab } from "../colour/lab.ts";
import { areasOf, touchingAreas, type AreaPiece } from "../fabric/areas.ts";
import { spectrumFor, stripeAt, stripePiece, UNTUNED, type Doubt, type Viewing } from "../fabric/contrast.ts";
import { limitsFor } from "../fabric/visibility.ts";
import { pairTable } from "../fabric/pairTable.ts";
import type { RadialSpectrum } from "../vision/visibility.ts";
import type { PairClash, PairCost } from "./assignment.ts";
import { importanceOf, placeTerms, TERM_WEIGHTS, type Target } from "./score.ts";

export interface Demands {
  readonly costs: Float64Array[];
  readonly clashes: PairClash[];
  readonly pairCosts: PairCost[];
  /** `contacts[i * N + j]`: part of all sides of stitches along which the two meet. */
  readonly contacts: Float64Array;
}

export interface DemandsOf {
  /** Measured with every chart colour in its own yarn, so that an area is a chart colour. */
  readonly charts: readonly Judged[];
  readonly targets: readonly Target[];
  readonly labs: readonly Lab[];
  readonly ladder: "same" | "reversed" | "free";
  readonly main: number;
  readonly viewing: Viewing;
  readonly doubt?: Doubt | undefined;
  readonly memory: JudgeMemory;
}

export function demandsOf(input: DemandsOf): Demands {
  const { targets, labs, ladder } = input;
  const contacts = contactsOf(input);
  const costs = targets.map((target) => {
    const importance = importanceOf(target.area, targets.length);
    return Float64Array.from(labs, (lab) => {
      const { value, hue, loudness } = placeTerms(target, lab, ladder);
      return importance * (TERM_WEIGHTS.value * value + TERM_WEIGHTS.hue * hue + TERM_WEIGHTS.loudness * loudness);
    });
  });
  return {
    costs,
    clashes: [...showingClashes(input), ...orderClashes(input, contacts)],
    pairCosts: contrastCosts(input, contacts),
    contacts,
  };
}

/**
 * Pairs of yarns in which a row or figure would not show as it should. In a piece of more than two colours the others are taken at
 * the lightness that is wanted of them: they matter through the mean alone.
 */
function showingClashes(input: DemandsOf): PairClash[] {
  const { charts, targets, labs, viewing, doubt = UNTUNED, memory } = input;
  const limits = limitsFor(doubt.thresholdMean);
  const size = labs.length;
  const indexOf = new Map(targets.map(({ colour }, index) => [colour, index]));
  const clashes = new Map<string, PairClash>();
  const asked = new Map<RadialSpectrum, Set<string>>();

  const demand = (areaPiece: AreaPiece, judged: Judged, meeting: Asked): void => {
    const { want } = meeting;
    const places = areaPiece.areas.map(({ colours }) => indexOf.get(colours[0]!));
    const one = places[meeting.area];
    const other = places[meeting.against];
    if (one === undefined || other === undefined || want === "soft" || areaPiece.areas.length < 2) return;
    const spectrum = spectrumFor(areaPiece, judged.now.cloth, memory);
    const others = areaPiece.areas.map(({ lab }, index) => wantedLab(targets[places[index] ?? -1], lab));
    const question = JSON.stringify([places, meeting]);
    const known = asked.get(spectrum) ?? new Set();
    if (known.has(question)) return;
    asked.set(spectrum, known.add(question));
    const [i, j] = [Math.min(one, other), Math.max(one, other)];
    const clash = clashes.get(`${i}/${j}`) ?? { i, j, forbidden: new Uint8Array(size * size) };
    clashes.set(`${i}/${j}`, clash);
    const table = pairTable(spectrum, { area: meeting.area, against: meeting.against, others }, labs, viewing);
    for (let k = 0; k < size; k++)
      for (let l = 0; l < size; l++)
        if (!showsEnough({ V: table[k * size + l]!, was: meeting.was }, want, limits))
          clash.forbidden[one < other ? k * size + l : l * size + k] = 1;
  };

  for (const judged of charts) {
    const { cloth } = judged.now;
    judged.now.rows.forEach(({ row, band }, index) => {
      const was = judged.was.rows[index]!.contrast.V;
      if (was === null) return;
      const want = judged.now.bands[band]!.band.want;
      const areaPiece = areasOf(cloth, row, row);
      if (areaPiece.areas.length === 2) demand(areaPiece, judged, { area: 1, against: 0, was, want });
      const stripe = stripeAt(cloth, row);
      if (!stripe) return;
      const around = stripePiece(cloth, stripe);
      const at = (key: string): number => around.areas.findIndex((area) => area.key === key);
      for (const neighbour of stripe.neighbours)
        demand(around, judged, { area: at(stripe.own.key), against: at(neighbour.key), was, want });
    });
    judged.now.bands.forEach(({ band }, index) => {
      const areaPiece = areasOf(cloth, band.rows[0], band.rows[1]);
      if (areaPiece.areas.length < 3) return;
      for (const { a, b } of touchingAreas(areaPiece)) {
        const [one, other] = [areaPiece.areas[a]!, areaPiece.areas[b]!];
        const figure = judged.was.bands[index]!.contrast.figures.find(
          ({ area, against }) => area.colours.includes(one.colours[0]!) && against.colours.includes(other.colours[0]!),
        );
        if (figure) demand(areaPiece, judged, { area: a, against: b, was: figure.V, want: band.want });
      }
    });
  }
  return [...clashes.values()];
}

interface Asked {
  readonly area: number;
  readonly against: number;
  readonly was: number;
  readonly want: Want | undefined;
}

const wantedLab = (target: Target | undefined, lab: Lab): Lab =>
  target ? [target.lightness, target.was[1], target.was[2]] : lab;

/** Pairs of yarns that would change the order of light and dark where two colours meet, or against the main colour. */
function orderClashes({ targets, labs, ladder, main }: DemandsOf, contacts: Float64Array): PairClash[] {
  if (ladder === "free") return [];
  const size = labs.length;
  const clashes: PairClash[] = [];
  for (let i = 0; i < targets.length; i++) {
    for (let j = i + 1; j < targets.length; j++) {
      const wanted = targets[i]!.lightness - targets[j]!.lightness;
      if (Math.abs(wanted) < THRESHOLDS.orderMatters) continue;
      if (contacts[i * targets.length + j] === 0 && i !== main && j !== main) continue;
      const forbidden = new Uint8Array(size * size);
      for (let k = 0; k < size; k++)
        for (let l = 0; l < size; l++)
          if (Math.sign(wanted) * (labs[k]![0] - labs[l]![0]) <= -THRESHOLDS.orderChanged) forbidden[k * size + l] = 1;
      clashes.push({ i, j, forbidden });
    }
  }
  return clashes;
}

/** What it costs that a contrast between neighbours is not the pattern's. */
function contrastCosts({ targets, labs, ladder }: DemandsOf, contacts: Float64Array): PairCost[] {
  if (ladder === "free") return [];
  const count = targets.length;
  const size = labs.length;
  const costs: PairCost[] = [];
  for (let i = 0; i < count; i++) {
    for (let j = i + 1; j < count; j++) {
      const weight = TERM_WEIGHTS.contrast * count * contacts[i * count + j]!;
      if (weight === 0) continue;
      const cost = new Float32Array(size * size);
      for (let k = 0; k < size; k++)
        for (let l = 0; l < size; l++) cost[k * size + l] = weight * contrastTerm(targets, i, j, labs[k]!, labs[l]!);
      costs.push({ i, j, cost });
    }
  }
  return costs;
}

export const contrastTerm = (targets: readonly Target[], i: number, j: number, one: Lab, other: Lab): number =>
  Math.abs(one[0] - other[0] - (targets[i]!.lightness - targets[j]!.lightness));

function contactsOf({ charts, targets }: DemandsOf): Float64Array {
  const count = targets.length;
  const contacts = new Float64Array(count * count);
  const indexOf = new Map(targets.map(({ colour }, index) => [colour, index]));
  let all = 0;
  for (const { now } of charts) {
    for (const { band } of now.bands) {
      const areaPiece = areasOf(now.cloth, band.rows[0], band.rows[1]);
      const rows = band.rows[1] - band.rows[0] + 1;
      for (const { a, b } of touchingAreas(areaPiece)) {
        const i = indexOf.get(areaPiece.areas[a]!.colours[0]!);
        const j = indexOf.get(areaPiece.areas[b]!.colours[0]!);
        if (i === undefined || j === undefined) continue;
        contacts[i * count + j]! += rows;
        contacts[j * count + i]! += rows;
        all += rows;
      }
    }
  }
  return all > 0 ? contacts.map((contact) => contact / all) : contacts;
}
