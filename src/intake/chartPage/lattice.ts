/** Even steps along an axis, as the edges of cells have them: found among edges some of which may belong to signs. */
import type { Edge } from "./edges.ts";

export interface Steps {
  /** Where cells begin and end, in order; one more than there are cells. */
  readonly lines: readonly number[];
  readonly pitch: number;
  /** Part of the edges, by length, that lie where cells end. */
  readonly share: number;
  /** The same, where what lies a little off counts for less. */
  readonly tight: number;
  /** Part of the places where cells could end at which an edge lies. */
  readonly taken: number;
}

/** Steps by edges that run on through the chart, as the lines of a grid and cells drawn one by one do. */
export function stepsOfLines(edges: readonly Edge[]): Steps | null {
  const longest = Math.max(0, ...edges.map(({ chain }) => chain));
  const long = edges.filter(({ chain }) => chain >= LONG * longest);
  let best: { steps: Steps; worth: number } | null = null;
  for (const pitch of pitchesOf(long)) {
    const steps = stepsAt(asLines(long, pitch), pitch);
    if (!steps || steps.lines.length < 4) continue;
    const worth = worthOf(steps);
    if (worth > (best?.worth ?? LEAST_WORTH) + 1e-9) best = { steps, worth };
  }
  // Shorter edges in step go on where a chart narrows.
  return best && grownBy(edges, best.steps);
}

/** Edges as near to one another as those of one line are, however it is drawn, count as one. */
function asLines(edges: readonly Edge[], pitch: number): Edge[] {
  const lines: Edge[] = [];
  for (let from = 0; from < edges.length;) {
    let to = from + 1;
    while (to < edges.length && edges[to]!.at - edges[to - 1]!.at <= ONE_LINE * pitch) to++;
    const own = edges.slice(from, to);
    lines.push({ at: middleOf(own), length: 1, chain: Math.max(...own.map(({ chain }) => chain)) });
    from = to;
  }
  return lines;
}

/** The widest steps at which very nearly all edges lie, as where cells of one colour were drawn as one. */
export function stepsOfAll(edges: readonly Edge[]): Steps | null {
  const pitches = pitchesOf(edges).toSorted((one, other) => other - one);
  const tried = pitches.flatMap((pitch) => stepsAt(edges, pitch) ?? []);
  for (const least of SHARES) {
    const found = tried.find(
      ({ share, lines, taken }) => share >= least && taken * lines.length >= LEAST_LINES && taken >= LEAST_TAKEN,
    );
    if (found) return found;
  }
  return null;
}

/** Much in step, few places without an edge, and all of one width. */
function worthOf({ lines, tight, taken }: Steps): number {
  const mean = (lines.at(-1)! - lines[0]!) / (lines.length - 1);
  const square = lines.slice(1).reduce((sum, line, index) => sum + (line - lines[index]! - mean) ** 2, 0);
  return tight * taken * (1 - Math.min(1, 2 * (Math.sqrt(square / (lines.length - 1)) / mean)));
}

/** Part of the edges' length that does not lie where these steps end. */
export function offSteps(edges: readonly Edge[], { lines, pitch }: Steps): number {
  let [off, all] = [0, 0];
  for (const { at, length } of edges) {
    all += length;
    if (Math.abs(at - lines[nearestLine(lines, at)]!) > NEAR * pitch) off += length;
  }
  return all === 0 ? 0 : off / all;
}

export function nearestLine(lines: readonly number[], at: number): number {
  let [low, high] = [0, lines.length - 1];
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (lines[middle]! <= at) low = middle;
    else high = middle;
  }
  return at - lines[low]! <= lines[high]! - at ? low : high;
}

/** Distances between edges that are near one another, those of most length first; halves and thirds may be steps too. */
function pitchesOf(edges: readonly Edge[]): number[] {
  const bins = new Map<number, { sum: number; weight: number }>();
  for (let from = 0; from < edges.length; from++)
    for (let to = from + 1; to < Math.min(edges.length, from + 1 + NEIGHBOURS); to++) {
      const distance = edges[to]!.at - edges[from]!.at;
      if (distance <= 0) continue;
      const bin = Math.round(Math.log(distance) * BINS);
      const weight = Math.min(edges[from]!.length, edges[to]!.length);
      const known = bins.get(bin) ?? { sum: 0, weight: 0 };
      bins.set(bin, { sum: known.sum + distance * weight, weight: known.weight + weight });
    }
  const order = [...bins.values()].sort((one, other) => other.weight - one.weight);
  const distances = order.slice(0, MOST_TRIED).map(({ sum, weight }) => sum / weight);
  return [...distances, ...distances.slice(0, 6).flatMap((distance) => [distance / 2, distance / 3])];
}

/** The best of what follows from each of the first edges: some may belong to signs; null where fewer than two are in step. */
function stepsAt(edges: readonly Edge[], about: number): Steps | null {
  let best: Steps | null = null;
  for (const first of firstInStep(edges, about)) {
    const steps = stepsFrom(first, edges, about);
    if (steps && (!best || worthOf(steps) > worthOf(best) + 1e-9)) best = steps;
  }
  return best;
}

/** Follows the edges from first to last with about this step. */
function stepsFrom(first: number, edges: readonly Edge[], about: number): Steps | null {
  const on = new Map<number, Edge[]>();
  let [pitch, anchor, place] = [about, first, 0];
  let [inStep, tight, all] = [0, 0, 0];
  for (const edge of edges) {
    const { at, length } = edge;
    all += length;
    const steps = Math.round((at - anchor) / pitch);
    const off = Math.abs((at - anchor) / pitch - steps);
    if (off > NEAR) continue;
    inStep += length;
    tight += length * (1 - (off / NEAR) ** 2);
    const at0 = place + steps;
    on.set(at0, [...(on.get(at0) ?? []), edge]);
    if (steps <= 0) continue;
    // Half of a line's width or of a gap is no reason to go astray.
    [place, anchor] = [at0, anchor + steps * pitch + FOLLOWING * (at - anchor - steps * pitch)];
    if (first < at && place >= SETTLED) pitch = (at - first) / place;
  }
  if (on.size < 2) return null;
  const places = [...on.keys()].sort((one, other) => one - other);
  const [low, high] = [places[0]!, places.at(-1)!];
  if (high - low > MOST_CELLS) return null;
  const rough = filledIn(places.map((one) => [one, middleOf(on.get(one)!)] as const));
  const known = places.map((one) => [one, drawnTo(expected(rough, one - low), on.get(one)!, pitch)] as const);
  return { lines: filledIn(known), pitch, share: inStep / all, tight: tight / all, taken: on.size / (high - low + 1) };
}

/** Where a line is by the edges near it: those that run on count, and not what is drawn inside cells. */
function middleOf(edges: readonly Edge[]): number {
  const longest = Math.max(...edges.map(({ chain }) => chain));
  const running = edges.filter(({ chain }) => chain >= longest / 2);
  const length = running.reduce((sum, edge) => sum + edge.length, 0);
  return running.reduce((sum, edge) => sum + edge.at * edge.length, 0) / length;
}

/** Where a line is by those beside it. */
function expected(lines: readonly number[], at: number): number {
  const last = lines.length - 1;
  if (last < 3) return lines[at]!;
  if (at === 0) return 2 * lines[1]! - lines[2]!;
  if (at === last) return 2 * lines[last - 1]! - lines[last - 2]!;
  return (lines[at - 1]! + lines[at + 1]!) / 2;
}

/** As `middleOf`, but what lies off counts for little: a frame around all is drawn beside the outermost line. */
function drawnTo(expected: number, edges: readonly Edge[], pitch: number): number {
  const longest = Math.max(...edges.map(({ chain }) => chain));
  let [sum, all] = [0, 0];
  for (const { at, length, chain } of edges) {
    if (chain < longest / 2) continue;
    const near = Math.max(0.01, 1 - ((at - expected) / (NEAR * pitch)) ** 2) ** 3;
    sum += at * length * near;
    all += length * near;
  }
  return sum / all;
}

/** Edges that steps may begin with, of different places within a step: those that most of the next ones are in step with. */
function firstInStep(edges: readonly Edge[], pitch: number): number[] {
  const near = edges.slice(0, BEGINNING);
  const off = (at: number, from: number): number => Math.abs((at - from) / pitch - Math.round((at - from) / pitch));
  const fits = near.slice(0, FIRST_TRIED).map(({ at }) => ({
    at,
    fit: near.reduce((sum, other) => (off(other.at, at) <= NEAR / 2 ? sum + other.length : sum), 0),
  }));
  const kept: number[] = [];
  for (const { at } of fits.toSorted((one, other) => other.fit - one.fit))
    if (kept.length < MOST_PHASES && kept.every((other) => off(at, other) > NEAR / 2)) kept.push(at);
  return kept;
}

/** Places between known ones lie evenly between them. */
function filledIn(known: readonly (readonly [place: number, at: number])[]): number[] {
  const lines: number[] = [];
  for (const [index, [place, at]] of known.entries()) {
    const before = known[index - 1];
    if (before) {
      const steps = place - before[0];
      for (let step = 1; step < steps; step++) lines.push(before[1] + ((at - before[1]) * step) / steps);
    }
    lines.push(at);
  }
  return lines;
}

function grownBy(edges: readonly Edge[], steps: Steps): Steps {
  const { pitch } = steps;
  let lines = [...steps.lines];
  const next = (from: number, way: 1 | -1): number | null => {
    const wanted = from + way * pitch;
    const near = edges.filter(({ at }) => Math.abs(at - wanted) <= GROWING * pitch);
    const length = near.reduce((sum, edge) => sum + edge.length, 0);
    return near.some(({ chain }) => chain >= LEAST_CHAIN * pitch)
      ? near.reduce((sum, edge) => sum + edge.at * edge.length, 0) / length
      : null;
  };
  for (let at = next(lines.at(-1)!, 1); at !== null; at = next(at, 1)) lines.push(at);
  for (let at = next(lines[0]!, -1); at !== null; at = next(at, -1)) lines = [at, ...lines];
  return { ...steps, lines };
}

/** Steps from the true place within which an edge is in step: a line has a width, and cells may stand apart. */
const NEAR = 0.19;
const GROWING = 0.12;
const ONE_LINE = 0.08;
/** Part of the longest edge from which on an edge runs through the chart. */
const LONG = 0.35;
/** A chart narrows by steps of at least this part of a cell. */
const LEAST_CHAIN = 0.8;
/** Of what is in step times what is taken: fewer edges in step, or more places without one, are no grid. */
const LEAST_WORTH = 0.5;
/** Drawn exactly, edges that are out of step are proof against it; the later shares allow for signs. */
const SHARES = [0.997, 0.985, 0.95];
const LEAST_TAKEN = 0.2;
const LEAST_LINES = 4 - 1e-9;
const NEIGHBOURS = 6;
const BINS = 40;
const MOST_TRIED = 60;
const BEGINNING = 40;
const FIRST_TRIED = 12;
const MOST_PHASES = 4;
const FOLLOWING = 0.3;
/** Steps after which the mean step is known better than the first one. */
const SETTLED = 4;
const MOST_CELLS = 3000;
