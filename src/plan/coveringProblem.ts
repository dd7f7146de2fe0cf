/** A covering as numbers: rows, what may be settled by them, and what they tell of her threshold. */

export interface CoveringProblem {
  /** Of each row whether it lies on the one before it in the chart. */
  readonly follows: readonly boolean[];
  /** Rows with the same number are alike in every stitch. */
  readonly alike: readonly number[];
  readonly doubts: readonly CoveredDoubt[];
  readonly looks: readonly { readonly information: number; readonly options: readonly (readonly number[])[] }[];
  /** 1/sd² of her threshold before anything is knitted. */
  readonly precision: number;
  /** Infinity: as many as it takes. */
  readonly mostRows: number;
}

interface CoveredDoubt {
  /** Above 0. */
  readonly weight: number;
  /** Row indices in order; each option that is knitted counts once. */
  readonly options: readonly (readonly number[])[];
  readonly times: number;
  /** 1/sd² from which it is settled unseen; null: never. */
  readonly precision: number | null;
}

/** How something is settled. "seen": its own rows are knitted; "threshold": what else is looked at tells her threshold well enough. */
export type Settled = "seen" | "threshold";

/** Rows with what they settle. */
export interface Chosen {
  /** Indices in order. */
  readonly rows: readonly number[];
  /** Of each doubt how it is settled; null where it is not. */
  readonly settled: readonly (Settled | null)[];
  /** Sum of the weights of what is settled. */
  readonly weight: number;
  /** Rows to knit: two runs that meet in alike rows have that row once. */
  readonly knitted: number;
}

/** What a set of rows settles, and how many rows it comes to. */
export function settledBy(problem: CoveringProblem, chosen: Uint8Array): Chosen {
  const { doubts, looks } = problem;
  const seen = (options: readonly (readonly number[])[]): number =>
    options.filter((option) => option.every((row) => chosen[row] === 1)).length;
  const precision = looks.reduce(
    (sum, { information, options }) => sum + (seen(options) > 0 ? information : 0),
    problem.precision,
  );
  const settled = doubts.map(({ options, times, precision: from }): Settled | null =>
    options.length > 0 && seen(options) >= times ? "seen" : isFree(from, precision) ? "threshold" : null,
  );
  return {
    rows: Array.from(chosen.keys()).filter((row) => chosen[row] === 1),
    settled,
    weight: doubts.reduce((sum, { weight }, at) => sum + (settled[at] ? weight : 0), 0),
    knitted: rowsToKnit(problem, chosen).length,
  };
}

/** Whether a threshold known so well settles what needs it to be known so well. */
export const isFree = (needed: number | null, precision: number): boolean =>
  needed !== null && needed <= precision + ROUNDING;

/** Information and chances are summed; a billionth is arithmetic. */
export const ROUNDING = 1e-9;

/**
 * The rows in the order of knitting, each with the rows of the chart that it stands for: where one run ends as the next begins, that row
 * is knitted once and stands for both.
 */
export function rowsToKnit(
  { follows, alike }: Pick<CoveringProblem, "follows" | "alike">,
  chosen: Uint8Array,
): number[][] {
  const knitted: number[][] = [];
  for (let row = 0; row < chosen.length; row++) {
    if (chosen[row] === 0) continue;
    const last = knitted.at(-1);
    const goesOn = last?.at(-1) === row - 1 && follows[row];
    if (last?.length === 1 && !goesOn && alike[last[0]!] === alike[row]) last.push(row);
    else knitted.push([row]);
  }
  return knitted;
}
