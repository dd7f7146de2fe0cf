/** Whether one chart goes on where another ends, and with how many rows that both show. */
import { NOTHING, type Sheet } from "./sheet.ts";

export interface Meeting {
  /** Rows that both have. */
  overlap: number;
  /** How sure it is that this and no other number of rows is shared, 0 to 1, where the two do meet. */
  sureness: number;
  /** Logarithm of how much likelier what is seen is where they meet than where they do not; 0 says nothing either way. */
  evidence: number;
  /** Row numbers say so. */
  numbered: boolean;
}

/**
 * How the lower sheet may go on below the upper one: the likeliest number of shared rows. Null where it cannot: other widths, or
 * row numbers that say otherwise. `whole`: all sheets there are, from which is learned how often rows repeat at once by the motif.
 */
export function meetingOf(upper: Sheet, lower: Sheet, whole: readonly Sheet[]): Meeting | null {
  if (upper.columns !== lower.columns) return null;
  if (upper.firstColumn !== null && lower.firstColumn !== null && upper.firstColumn !== lower.firstColumn) return null;
  const most = Math.min(upper.rows, lower.rows) - 1;
  if (upper.firstRow !== null && lower.firstRow !== null) return numberedMeeting(upper, lower, most);
  const candidates = [{ overlap: 0, weight: PRIOR_NONE }];
  for (let overlap = 1; overlap <= Math.min(most, MOST_SHARED); overlap++) {
    const agreement = agreementOf(upper, lower, overlap);
    if (agreement === 0) continue;
    const chance = chanceOfAgreement(lower, { overlap, agreement }, whole);
    const prior = (1 - PRIOR_NONE) * PRIOR_SHRINKS ** (overlap - 1) * (1 - PRIOR_SHRINKS);
    candidates.push({ overlap, weight: (prior * agreement) / chance });
  }
  const sum = candidates.reduce((all, { weight }) => all + weight, 0);
  const best = candidates.toSorted((one, other) => other.weight - one.weight || one.overlap - other.overlap)[0]!;
  return { overlap: best.overlap, sureness: best.weight / sum, evidence: Math.log(sum), numbered: false };
}

function numberedMeeting(upper: Sheet, lower: Sheet, most: number): Meeting | null {
  const overlap = lower.firstRow! + lower.rows - upper.firstRow!;
  if (overlap < 0 || overlap > most) return null;
  const agreement = overlap === 0 ? 1 : agreementOf(upper, lower, overlap);
  // Numbers are misread too: where the rows themselves say otherwise, they are believed half.
  return { overlap, sureness: agreement === 0 ? 0.5 : 0.98, evidence: NUMBERED, numbered: true };
}

/** Likelihood that so many shared rows were read so differently, of 1; 0 where they are not the same rows. */
function agreementOf(upper: Sheet, lower: Sheet, overlap: number): number {
  const { columns } = upper;
  const from = (upper.rows - overlap) * columns;
  return likelihoodOfSlips(overlap * columns, (at) => slipAt(upper, from + at, lower, at));
}

/** 0 where two cells agree, else how weighty it is that they do not. */
function slipAt(one: Sheet, at: number, other: Sheet, otherAt: number): number {
  if (one.cells[at] === other.cells[otherAt]) return 0;
  return Math.min(one.sureness[at]!, other.sureness[otherAt]!) >= SURE ? 1 : SLIP_OF_DOUBT;
}

function likelihoodOfSlips(cells: number, slip: (at: number) => number): number {
  const most = 1 + cells * MOST_SLIPS;
  let slips = 0;
  for (let at = 0; at < cells; at++) {
    slips += slip(at);
    if (slips > most) return 0;
  }
  return SLIP_COSTS ** slips;
}

/**
 * How likely rows that the charts do not share would agree all the same: a motif may repeat just there. Counted where the rows
 * are known to be different ones: in the charts themselves, how often so many rows stand right above rows as like them.
 */
function chanceOfAgreement(
  lower: Sheet,
  { overlap, agreement }: { overlap: number; agreement: number },
  whole: readonly Sheet[],
): number {
  const { columns } = lower;
  let [places, again] = [0, 0];
  let [like, likeAgain] = [0, 0];
  for (const sheet of whole) {
    if (sheet.columns !== columns) continue;
    for (let row = 0; row + 2 * overlap <= sheet.rows; row++) {
      const [from, next] = [row * columns, (row + overlap) * columns];
      const repeats =
        likelihoodOfSlips(overlap * columns, (at) => slipAt(sheet, from + at, sheet, next + at)) >= agreement;
      places++;
      if (repeats) again++;
      if (likelihoodOfSlips(overlap * columns, (at) => slipAt(sheet, from + at, lower, at)) < agreement) continue;
      like++;
      if (repeats) likeAgain++;
    }
  }
  const byAll = (again + 0.5) / (places + 1);
  // These very rows, wherever else they stand: a plain row is often followed by another.
  const byThese = (likeAgain + 0.5 * byAll) / (like + 0.5);
  const plain = isPlain(lower, overlap) ? CHANCE_OF_PLAIN : 0;
  // Where no motif repeats like that, each row would have to be the same by itself.
  const byRows = again === 0 ? chanceOfRows(lower, { overlap, agreement }, whole) : 1;
  return Math.min(1, Math.max(Math.min(byAll, byRows), like > 0 ? Math.min(byThese, byRows) : 0, plain, LEAST_CHANCE));
}

/** The product of how often each of the rows is met among all rows, the two that are held against each other left out. */
function chanceOfRows(
  lower: Sheet,
  { overlap, agreement }: { overlap: number; agreement: number },
  whole: readonly Sheet[],
): number {
  const { columns } = lower;
  const all = whole.filter((sheet) => sheet.columns === columns);
  const rows = all.reduce((sum, sheet) => sum + sheet.rows, 0);
  let chance = 1;
  for (let row = 0; row < overlap; row++) {
    let met = 0;
    for (const sheet of all)
      for (let other = 0; other < sheet.rows; other++)
        if (
          likelihoodOfSlips(columns, (at) => slipAt(lower, row * columns + at, sheet, other * columns + at)) >=
          agreement
        )
          met++;
    chance *= (Math.max(0, met - 2) + 0.5) / (rows + 1);
  }
  return chance;
}

function isPlain(sheet: Sheet, rows: number): boolean {
  for (let row = 0; row < rows; row++) {
    const cells = sheet.cells.subarray(row * sheet.columns, (row + 1) * sheet.columns);
    const colours = new Set([...cells].filter((cell) => cell !== NOTHING));
    if (colours.size > 1) return false;
  }
  return true;
}

/** What is held before the charts are looked at: pages go on without a shared row as often as with; more shared rows are rarer. Our choice. */
const PRIOR_NONE = 0.5;
const PRIOR_SHRINKS = 0.5;
/** Rows that two pages may share; more are looked for in vain. Our choice. */
const MOST_SHARED = 30;
/** What each cell that was read differently costs, of 1. Our choice: one in fifty is misread on a photograph. */
const SLIP_COSTS = 0.3;
/** Share of shared cells that may be read differently. Our choice. */
const MOST_SLIPS = 0.04;
/** A cell of that sureness and more was read for certain. Our choice. */
const SURE = 5;
/** What a cell that is doubtful anyway counts for. Our choice. */
const SLIP_OF_DOUBT = 0.3;
/** Two plain rows of one colour meet in many a chart. Our choice. */
const CHANCE_OF_PLAIN = 0.4;
/** Nothing is less likely than that, as charts are small. Our choice. */
const LEAST_CHANCE = 0.0001;
/** As good as certain, and more than anything that rows can say. */
const NUMBERED = 20;
