/** The smallest set of rows that settles the most: an exact covering, row by row up the chart. */
import { climbFor, gainIn, itemsOf, leastRows, rowsFor, type Climb } from "./coveringBounds.ts";
import { ROUNDING, settledBy, type Chosen, type CoveringProblem } from "./coveringProblem.ts";

export interface Covering extends Chosen {
  /** False where there was too much to look through; there may be a smaller one then. */
  readonly proven: boolean;
}

/**
 * Of all sets of rows within the budget one that settles the greatest weight, and of these one with the fewest rows to knit.
 *
 * A doubt is settled where it is seen, or where all that is looked at makes the threshold known well enough for it. So the search is made
 * once for each degree to which the threshold may have to be known: what that degree settles is free there, the rest has to be seen, and
 * the looks have to add up to it. Each search goes up the rows and keeps, of all ways to have come so far after which the same is left to
 * be done, those that no other beats in rows, in what they tell and in weight. It asks first that all be settled; where the budget does
 * not reach, for the most weight. What cannot become better than the best found is let go (`coveringBounds.ts`).
 * @param most comparisons, after which at each row but a few ways are kept, and nothing is proven
 */
export function coverDoubts(problem: CoveringProblem, { most = MOST_WORK }: { readonly most?: number } = {}): Covering {
  const { doubts, precision, follows } = problem;
  const items = itemsOf(problem);
  const least = leastRows(problem, items);
  const all = items.reduce((sum, { information }) => sum + information, precision);
  const climbs = [...new Set([precision, ...doubts.map((doubt) => doubt.precision ?? precision)])]
    .filter((degree) => degree <= all + ROUNDING)
    .map((degree) => climbFor(problem, items, least, { degree, all }))
    .sort((a, b) => leastOf(a, precision) - leastOf(b, precision));
  const search: Search = {
    problem,
    begins: new Set(items.flatMap(({ options }) => options.flat().map(({ begin }) => begin))),
    ends: new Set(items.flatMap(({ options }) => options.flat().map(({ end }) => end))),
    best: settledBy(problem, new Uint8Array(follows.length)),
    settlesAll: false,
    proven: true,
    work: most,
  };
  const whole = climbs.filter(({ canSettleAll }) => canSettleAll);
  searchFor("all", search, whole);
  if (!search.settlesAll) searchFor("weight", search, climbs);
  return { ...search.best, proven: search.proven };
}

/** A few seconds' work. Our choice. */
const MOST_WORK = 200_000_000;

/** Enough at each row to find something good, if not the best. Our choice. */
const FEW_WAYS = 60;

interface Search {
  readonly problem: CoveringProblem;
  /** A run begins where an option begins and ends where one ends. */
  readonly begins: ReadonlySet<number>;
  readonly ends: ReadonlySet<number>;
  best: Chosen;
  /** The best settles all that can be settled. */
  settlesAll: boolean;
  proven: boolean;
  /** Comparisons that are left. */
  work: number;
}

/** The least rows that a search can come to. */
const leastOf = ({ ahead, lookShares, degree }: Climb, precision: number): number =>
  Math.max(
    ahead[0]!,
    rowsFor(lookShares[0]!, degree - precision, () => false),
  );

/** First glances, for something good to compare with; what was looked through whole need not be looked at again. */
function searchFor(goal: "all" | "weight", search: Search, climbs: readonly Climb[]): void {
  let left = climbs.map((climb) => trackersFor(climb, search));
  for (const ways of [FEW_WAYS, 10 * FEW_WAYS, Infinity])
    left = left.filter((trackers) => !goUp(search, trackers, { goal, ways }));
  search.proven = left.length === 0;
}

/** A way to have come up to a row. */
interface Way {
  readonly rows: number;
  readonly information: number;
  readonly weight: number;
  /** Where the run that it is in began, as far as that still matters; −1 in none. */
  readonly start: number;
  /** The row last knitted, where the next run may have it in common; −1. */
  readonly kind: number;
  /** Its last row stands for two already, and is alone in its run. */
  readonly shared: boolean;
  /** How far everything that still matters has come, a character each. */
  readonly marks: string;
  readonly below: Way | null;
  readonly knit: boolean;
  /** Nothing better can come of it: rows, or weight. */
  readonly bound: number;
}

interface Trackers {
  readonly climb: Climb;
  /** Of each row what ends there. */
  readonly endings: readonly (readonly Ending[])[];
  /** Of each row the marks that no longer matter after it. */
  readonly dying: readonly (readonly number[])[];
  /** Of each row the items that have begun and do not end before it. */
  readonly begun: readonly (readonly number[])[];
  /** … and the marks of options of several runs. */
  readonly parts: readonly (readonly number[])[];
  /** Of each row the last row at which a run can begin with one alike. */
  readonly lastBegin: ReadonlyMap<number, number>;
  /** Of each row the places where something began that ends above it, in order. */
  readonly openBegins: readonly (readonly number[])[];
  readonly blank: string;
}

interface Ending {
  readonly begin: number;
  readonly item: number;
  /** Of an option of several runs: its mark, its own bit and all of them. */
  readonly part: { readonly mark: number; readonly bit: number; readonly all: number } | null;
}

function trackersFor(climb: Climb, { problem, begins }: Search): Trackers {
  const { items, wanted } = climb;
  const rows = problem.follows.length;
  const endings: Ending[][] = Array.from({ length: rows }, () => []);
  const dying: number[][] = Array.from({ length: rows }, () => []);
  const begun: number[][] = Array.from({ length: rows + 1 }, () => []);
  const openBegins: Set<number>[] = Array.from({ length: rows }, () => new Set());
  const parts: number[][] = Array.from({ length: rows + 1 }, () => []);
  let marks = items.length;
  items.forEach(({ options, begin, end, information }, item) => {
    if (wanted[item] === 0 && information === 0) return;
    dying[end]!.push(item);
    for (let row = begin + 1; row <= end; row++) begun[row]!.push(item);
    for (const runs of options) {
      const mark = runs.length > 1 ? marks++ : -1;
      const last = Math.max(...runs.map((run) => run.end));
      if (mark >= 0) {
        dying[last]!.push(mark);
        for (let row = runs[0]!.begin + 1; row <= last; row++) parts[row]!.push(mark);
      }
      runs.forEach((run, at) => {
        endings[run.end]!.push({
          begin: run.begin,
          item,
          part: mark < 0 ? null : { mark, bit: 1 << at, all: (1 << runs.length) - 1 },
        });
        for (let row = run.begin; row < run.end; row++) openBegins[row]!.add(run.begin);
      });
    }
  });
  const lastBegin = new Map<number, number>();
  for (const row of [...begins].sort((a, b) => a - b)) lastBegin.set(problem.alike[row]!, row);
  return {
    climb,
    endings,
    dying,
    begun,
    parts,
    lastBegin,
    openBegins: openBegins.map((open) => [...open].sort((a, b) => a - b)),
    blank: "\0".repeat(marks),
  };
}

interface Asked {
  readonly goal: "all" | "weight";
  readonly ways: number;
}

/** Whether all was looked through. */
function goUp(search: Search, trackers: Trackers, asked: Asked): boolean {
  const { problem } = search;
  const rows = problem.follows.length;
  const start: Way = {
    rows: 0,
    information: problem.precision,
    weight: 0,
    start: -1,
    kind: -1,
    shared: false,
    marks: trackers.blank,
    below: null,
    knit: false,
    bound: 0,
  };
  let ways: Way[] = [start];
  let isWhole = true;
  for (let row = 0; row < rows; row++) {
    const next = new Map<string, Way[]>();
    for (const way of ways) {
      for (const step of stepsFrom(way, row, search, trackers)) {
        const bounded = boundedAt(step, row, search, trackers, asked);
        if (bounded) keep(next, bounded);
      }
    }
    ways = winnowed([...next.values()].flat(), row, trackers, { search, goal: asked.goal });
    const most = search.work > 0 ? asked.ways : FEW_WAYS;
    if (ways.length > most) {
      isWhole = false;
      ways.sort((a, b) => (asked.goal === "all" ? a.bound - b.bound : b.bound - a.bound || a.rows - b.rows));
      ways.length = most;
    }
  }
  for (const way of ways) {
    if (way.start >= 0 && !search.ends.has(rows - 1)) continue;
    if (way.information >= trackers.climb.degree - ROUNDING) offer(search, way, asked.goal);
  }
  return isWhole;
}

/** Leaving a row out, and knitting it. */
function stepsFrom(way: Way, row: number, { problem, begins, ends }: Search, trackers: Trackers): Way[] {
  const { follows, alike } = problem;
  const inRun = way.start >= 0;
  const mayEnd = !inRun || ends.has(row - 1);
  const lastKind = !inRun ? way.kind : way.shared ? -1 : alike[row - 1]!;
  const steps: Way[] = [];
  if (mayEnd) {
    const kind = (trackers.lastBegin.get(lastKind) ?? -1) > row ? lastKind : -1;
    const { rows, information, weight, marks } = way;
    steps.push({ rows, information, weight, start: -1, kind, shared: false, marks, below: way, knit: false, bound: 0 });
  }
  if (inRun && follows[row]) steps.push(knitted(way, row, { start: way.start, rows: 1, shared: false }, trackers));
  else if (mayEnd && begins.has(row)) {
    const shared = lastKind === alike[row];
    steps.push(knitted(way, row, { start: row, rows: shared ? 0 : 1, shared }, trackers));
  }
  return steps;
}

interface Run {
  readonly start: number;
  readonly rows: number;
  readonly shared: boolean;
}

function knitted(way: Way, row: number, run: Run, { climb, endings, openBegins }: Trackers): Way {
  let { information, weight, marks } = way;
  for (const { begin, item, part } of endings[row]!) {
    if (begin < run.start) continue;
    if (part) {
      const bits = marks.charCodeAt(part.mark) | part.bit;
      marks = marked(marks, part.mark, bits);
      if (bits !== part.all) continue;
    }
    const { times, information: tells } = climb.items[item]!;
    const seen = marks.charCodeAt(item) + 1;
    if (seen > times) continue;
    marks = marked(marks, item, seen);
    if (seen === 1) information += tells;
    if (seen === times) weight += climb.wanted[item]!;
  }
  const start = openBegins[row]!.find((begin) => begin >= run.start) ?? row + 1;
  const rows = way.rows + run.rows;
  return { rows, information, weight, start, kind: -1, shared: run.shared, marks, below: way, knit: true, bound: 0 };
}

const marked = (marks: string, at: number, value: number): string =>
  marks.slice(0, at) + String.fromCharCode(value) + marks.slice(at + 1);

/** The way with what no longer matters forgotten, and its bound; null where nothing better than the best can come of it. */
function boundedAt(
  way: Way,
  row: number,
  { problem, best, settlesAll, ends }: Search,
  { climb, dying, begun, lastBegin }: Trackers,
  { goal }: Asked,
): Way | null {
  const { items, wanted, degree } = climb;
  let { marks } = way;
  for (const mark of dying[row]!) {
    const seen = marks.charCodeAt(mark);
    if (goal === "all" && mark < items.length && wanted[mark]! > 0 && seen < items[mark]!.times) return null;
    if (seen > 0) marks = marked(marks, mark, 0);
  }
  const next = row + 1;
  // The row last knitted may come to stand for two, and is then but half of its own.
  const rows = way.rows - (mayBeShared(way, row, { problem, ends }, lastBegin) ? 1 / 2 : 0);
  const isHad = (item: number): boolean => marks.charCodeAt(item) > 0;
  const need = degree - way.information;
  const forLooks = rowsFor(climb.lookShares[next]!, need, isHad);
  if (forLooks === Infinity) return null;
  if (goal === "all") {
    const { together } = climb;
    let still = climb.ahead[next]!;
    let all = together.ahead[next]!;
    let told = together.told[next]!;
    for (const item of begun[next]!) {
      const seen = marks.charCodeAt(item);
      const missing = wanted[item]! > 0 ? items[item]!.times - seen : 0;
      if (missing <= 0) continue;
      still += climb.shares[next]![item]![missing - 1]!;
      all += together.shares[next]![item]![missing - 1]!;
      if (seen === 0) told += items[item]!.information;
    }
    const besides = rowsFor(together.besides[next]!, need - told, isHad);
    const bound = Math.ceil(rows + Math.max(still, forLooks, all + besides) - ROUNDING);
    const most = settlesAll ? Math.min(problem.mostRows, best.knitted - 1) : problem.mostRows;
    return !(bound <= most) ? null : withBound(way, marks, bound);
  }
  const had = climb.free + way.weight;
  const gained = (rows: number): number => had + gainIn(climb.weightShares[next]!, rows);
  if (rows + forLooks > problem.mostRows + ROUNDING) return null;
  const bound = gained(problem.mostRows - rows);
  const isBeaten =
    bound < best.weight + ROUNDING &&
    !(best.knitted - 1 >= rows && gained(best.knitted - 1 - rows) > best.weight - ROUNDING);
  return isBeaten ? null : withBound(way, marks, bound);
}

const withBound = (way: Way, marks: string, bound: number): Way => ({
  rows: way.rows,
  information: way.information,
  weight: way.weight,
  start: way.start,
  kind: way.kind,
  shared: way.shared,
  marks,
  below: way.below,
  knit: way.knit,
  bound,
});

function mayBeShared(
  { knit, kind, shared }: Way,
  row: number,
  { problem, ends }: Pick<Search, "problem" | "ends">,
  lastBegin: Trackers["lastBegin"],
): boolean {
  if (!knit) return kind >= 0;
  return !shared && ends.has(row) && (lastBegin.get(problem.alike[row]!) ?? -1) > row;
}

/** The best of those that have come to the very same. */
function keep(next: Map<string, Way[]>, way: Way): void {
  const key = `${way.start},${way.kind},${way.shared ? 1 : 0},${way.marks}`;
  const known = next.get(key);
  if (!known) return void next.set(key, [way]);
  const beats = (one: Way, other: Way): boolean =>
    one.rows <= other.rows && one.information >= other.information - ROUNDING && one.weight >= other.weight - ROUNDING;
  if (known.some((one) => beats(one, way))) return;
  next.set(key, [...known.filter((one) => !beats(way, one)), way]);
}

/** Those that no other beats whatever is still to come: with no more rows, seeing no less, and telling no less even where the other tells more. */
function winnowed(
  ways: readonly Way[],
  row: number,
  trackers: Trackers,
  { search, goal }: { readonly search: Search; readonly goal: Asked["goal"] },
): Way[] {
  const sorted = ways.toSorted((a, b) => a.rows - b.rows || b.weight - a.weight || b.information - a.information);
  const kept: Way[] = [];
  for (const way of sorted) {
    search.work -= kept.length;
    if (!kept.some((one) => isBetter(one, way, row + 1, trackers, goal))) kept.push(way);
  }
  return kept;
}

function isBetter(one: Way, other: Way, next: number, { climb, begun, parts }: Trackers, goal: Asked["goal"]): boolean {
  if (one.rows > other.rows || one.start >= 0 !== other.start >= 0 || one.start > other.start) return false;
  if ((one.kind !== other.kind && other.kind >= 0) || (one.shared && !other.shared)) return false;
  const { items, wanted, degree } = climb;
  // What only the other has seen may still be seen by this one, but what only this one has, also by the other.
  let information = one.information - other.information;
  let weight = goal === "all" ? 0 : one.weight - other.weight;
  const tellsAll = one.information >= degree - ROUNDING;
  if (weight < -ROUNDING || (information < -ROUNDING && !tellsAll)) return false;
  for (const item of begun[next]!) {
    const [own, others] = [one.marks.charCodeAt(item), other.marks.charCodeAt(item)];
    if (own === others) continue;
    const { times, information: tells } = items[item]!;
    if (own < others) {
      if (times > 1 || (goal === "all" && wanted[item]! > 0)) return false;
      continue;
    }
    information -= tells;
    if (own >= times && goal !== "all") weight -= wanted[item]!;
  }
  for (const mark of parts[next]!) {
    const others = other.marks.charCodeAt(mark);
    if ((one.marks.charCodeAt(mark) & others) !== others) return false;
  }
  return weight >= -ROUNDING && (information >= -ROUNDING || tellsAll);
}

function offer(search: Search, last: Way, goal: Asked["goal"]): void {
  const { problem, best } = search;
  const chosen = new Uint8Array(problem.follows.length);
  let row = chosen.length - 1;
  for (let way: Way = last; way.below; way = way.below) chosen[row--] = Number(way.knit);
  const found = settledBy(problem, chosen);
  const more = found.weight - best.weight;
  if (more > ROUNDING || (more > -ROUNDING && found.knitted < best.knitted)) search.best = found;
  if (goal === "all") search.settlesAll = true;
}
