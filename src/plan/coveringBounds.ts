/** What a covering can still gain and must still cost from a row upwards: bounds that no way up can beat. */
import { isFree, ROUNDING, type CoveringProblem } from "./coveringProblem.ts";

/** Neighbouring rows that settle something, alone or together with others. */
export interface Run {
  readonly begin: number;
  readonly end: number;
}

/** Doubts and looks that the same rows settle. */
export interface Item {
  readonly information: number;
  readonly doubts: readonly number[];
  readonly times: number;
  readonly options: readonly (readonly Run[])[];
  readonly begin: number;
  readonly end: number;
}

export function itemsOf({ doubts, looks, follows }: CoveringProblem): Item[] {
  const items = new Map<string, Item & { information: number; doubts: number[] }>();
  const add = (
    options: readonly (readonly number[])[],
    times: number,
    more: { information?: number; doubt?: number },
  ): void => {
    if (options.length < times) return;
    const key = JSON.stringify([options, times]);
    let item = items.get(key);
    if (!item) {
      const runs = options.map((option) => runsIn(option, follows));
      const all = runs.flat();
      item = {
        information: 0,
        doubts: [],
        times,
        options: runs,
        begin: Math.min(...all.map(({ begin }) => begin)),
        end: Math.max(...all.map(({ end }) => end)),
      };
      items.set(key, item);
    }
    item.information += more.information ?? 0;
    if (more.doubt !== undefined) item.doubts.push(more.doubt);
  };
  looks.forEach(({ information, options }) => add(options, 1, { information }));
  doubts.forEach(({ options, times }, doubt) => add(options, times, { doubt }));
  return [...items.values()];
}

function runsIn(option: readonly number[], follows: readonly boolean[]): Run[] {
  const runs: { begin: number; end: number }[] = [];
  for (const row of option) {
    const last = runs.at(-1);
    if (last && last.end === row - 1 && follows[row]) last.end = row;
    else runs.push({ begin: row, end: row });
  }
  return runs;
}

/**
 * The least that each row can add to what is knitted: a half where it may be had in common with another run, for no row stands for more
 * than two. A run begins where an option begins and ends where one ends.
 */
export function leastRows({ follows, alike }: CoveringProblem, items: readonly Item[]): Float64Array {
  const runs = items.flatMap(({ options }) => options.flat());
  const lastBegin = new Map<number, number>();
  const firstEnd = new Map<number, number>();
  for (const { begin, end } of runs) {
    lastBegin.set(alike[begin]!, Math.max(begin, lastBegin.get(alike[begin]!) ?? begin));
    firstEnd.set(alike[end]!, Math.min(end, firstEnd.get(alike[end]!) ?? end));
  }
  const [begins, ends] = [new Set(runs.map(({ begin }) => begin)), new Set(runs.map(({ end }) => end))];
  return Float64Array.from(follows, (_, row) => {
    const kind = alike[row]!;
    const meetsAbove = ends.has(row) && (lastBegin.get(kind) ?? row) > row;
    const meetsBelow = begins.has(row) && (firstEnd.get(kind) ?? row) < row;
    return meetsAbove || meetsBelow ? 1 / 2 : 1;
  });
}

/** What one search has to reach, and what bounds it. */
export interface Climb {
  readonly items: readonly Item[];
  /** 1/sd² of the threshold that it has to reach. */
  readonly degree: number;
  /** Weights that this degree settles by itself. */
  readonly free: number;
  /** Of each item the weight of what has to be seen; 0 where it is but a look. */
  readonly wanted: readonly number[];
  /** Whether everything that can be settled at all can be in this search. */
  readonly canSettleAll: boolean;
  /** Of each row and wanted item the least rows from there up that it takes. */
  readonly shares: Shares;
  /** … and the sum of those of all items that begin there or above. */
  readonly ahead: Float64Array;
  /** Looks that end at the row or above: what they tell and the least rows they take, the best bargain first. */
  readonly lookShares: readonly (readonly Bargain[])[];
  /** All at once: what is wanted and the looks besides, each row shared among both. */
  readonly together: {
    readonly shares: Shares;
    readonly ahead: Float64Array;
    /** What the wanted items that begin at the row or above tell. */
    readonly told: Float64Array;
    readonly besides: readonly (readonly Bargain[])[];
  };
  /** Weights that can be had at the row or above, the best bargain first. */
  readonly weightShares: readonly (readonly Bargain[])[];
}

interface Bargain {
  readonly item: number;
  readonly gain: number;
  readonly rows: number;
}

export function climbFor(
  { doubts, follows }: CoveringProblem,
  items: readonly Item[],
  least: Float64Array,
  { degree, all }: { readonly degree: number; readonly all: number },
): Climb {
  const isWanted = (doubt: number): boolean => !isFree(doubts[doubt]!.precision, degree);
  const wanted = items.map((item) =>
    item.doubts.filter(isWanted).reduce((sum, doubt) => sum + doubts[doubt]!.weight, 0),
  );
  const inItems = new Set(items.flatMap((item) => item.doubts));
  const rows = follows.length;
  const among = (which: (item: number) => boolean): Shares => sharesOf(items, least, rows, which);
  const shares = among((item) => wanted[item]! > 0);
  const looks = among((item) => items[item]!.information > 0);
  const both = among((item) => wanted[item]! > 0 || items[item]!.information > 0);
  const bargains = (of: Shares, gain: (item: number) => number): Bargain[][] =>
    Array.from({ length: rows + 1 }, (_, row) =>
      items
        .flatMap(({ end }, item) =>
          end >= row && gain(item) > 0 ? [{ item, gain: gain(item), rows: of[row]![item]![0]! }] : [],
        )
        .sort((a, b) => b.gain / b.rows - a.gain / a.rows),
    );
  const sumAhead = (of: (item: number, row: number) => number): Float64Array =>
    Float64Array.from({ length: rows + 1 }, (_, row) =>
      items.reduce((sum, { begin }, item) => sum + (begin >= row && wanted[item]! > 0 ? of(item, row) : 0), 0),
    );
  const aheadIn = (of: Shares): Float64Array => sumAhead((item, row) => of[row]![item]!.at(-1)!);
  return {
    items,
    degree,
    free: doubts.reduce((sum, { weight }, doubt) => sum + (isWanted(doubt) ? 0 : weight), 0),
    wanted,
    canSettleAll: doubts.every(
      ({ precision }, doubt) => !isWanted(doubt) || inItems.has(doubt) || !isFree(precision, all),
    ),
    shares,
    ahead: aheadIn(shares),
    lookShares: bargains(looks, (item) => items[item]!.information),
    together: {
      shares: both,
      ahead: aheadIn(both),
      told: sumAhead((item) => items[item]!.information),
      besides: bargains(both, (item) => (wanted[item]! > 0 ? 0 : items[item]!.information)),
    },
    weightShares: bargains(shares, (item) => wanted[item]!),
  };
}

/** Least rows by how many of an item's options are still to be knitted; Infinity where there are not so many. */
export type Shares = readonly (readonly (readonly number[])[])[];

/**
 * Every row's cost is shared among the items that could use it, or where an item takes several options among these, so that the shares of
 * several never come to more than their rows.
 */
function sharesOf(items: readonly Item[], least: Float64Array, rows: number, which: (item: number) => boolean): Shares {
  const users = new Uint16Array(rows);
  const use = (runs: readonly Run[]): void => {
    for (const row of new Set(runs.flatMap(rowsIn))) users[row]! += 1;
  };
  items.forEach(({ options, times }, item) => {
    if (!which(item)) return;
    if (times > 1) options.forEach(use);
    else use(options.flat());
  });
  // Of each row what it and all above it cost, so that a run's cost is a difference.
  const above = new Float64Array(rows + 1);
  for (let row = rows - 1; row >= 0; row--)
    above[row] = above[row + 1]! + (users[row]! > 0 ? least[row]! / users[row]! : 0);
  const costsFrom = ({ options, times }: Item, from: number): number[] => {
    const costs: number[] = [];
    for (const runs of options) {
      if (runs.at(-1)!.end < from) continue;
      let cost = 0;
      for (const { begin, end } of runs) if (end >= from) cost += above[Math.max(begin, from)]! - above[end + 1]!;
      costs.push(cost);
    }
    costs.sort((one, other) => one - other);
    let sum = 0;
    return Array.from({ length: times }, (_, more) => (sum += costs[more] ?? Infinity));
  };
  const whole = items.map((item, at) => (which(at) ? costsFrom(item, 0) : NONE));
  return Array.from({ length: rows + 1 }, (_, from) =>
    items.map((item, at) =>
      !which(at) || from <= item.begin ? whole[at]! : from > item.end ? NONE : costsFrom(item, from),
    ),
  );
}

/** Of an item that is not asked about, or that lies below. */
const NONE: readonly number[] = [];

const rowsIn = ({ begin, end }: Run): number[] => Array.from({ length: end - begin + 1 }, (_, step) => begin + step);

/** The fewest rows in which so much can be gained, were everything divisible; Infinity where it cannot. */
export function rowsFor(bargains: readonly Bargain[], gain: number, isHad: (item: number) => boolean): number {
  let rows = 0;
  let missing = gain - ROUNDING;
  for (const bargain of bargains) {
    if (missing <= 0) return rows;
    if (isHad(bargain.item)) continue;
    rows += bargain.rows * Math.min(1, missing / bargain.gain);
    missing -= bargain.gain;
  }
  return missing <= 0 ? rows : Infinity;
}

/** The most that so many rows can gain, were everything divisible. */
export function gainIn(bargains: readonly Bargain[], rows: number): number {
  let gain = 0;
  let left = rows + ROUNDING;
  for (const bargain of bargains) {
    if (bargain.rows > left) return gain + (bargain.gain * left) / bargain.rows;
    gain += bargain.gain;
    left -= bargain.rows;
  }
  return gain;
}
