/** Where the nodes of the ladder stand: each as near its own lightness as the room between neighbours allows. */

/**
 * Places for labels that want to stand at `wanted` but need `gap` between them, moved as little as possible
 * (least squares; pool adjacent violators). Between `from` and `to` if they fit there at all. Keeps the order given by `wanted`.
 */
export function spread(wanted: readonly number[], gap: number, from: number, to: number): number[] {
  const order = wanted.map((_, i) => i).sort((a, b) => wanted[a]! - wanted[b]! || a - b);
  const pools: { sum: number; count: number }[] = [];
  order.forEach((index, place) => {
    pools.push({ sum: wanted[index]! - place * gap, count: 1 });
    while (pools.length > 1) {
      const [one, two] = pools.slice(-2) as [{ sum: number; count: number }, { sum: number; count: number }];
      if (one.sum / one.count <= two.sum / two.count) break;
      pools.splice(-2, 2, { sum: one.sum + two.sum, count: one.count + two.count });
    }
  });
  const last = Math.max(from, to - (order.length - 1) * gap);
  const placed = new Array<number>(wanted.length);
  let place = 0;
  for (const { sum, count } of pools) {
    const base = Math.min(last, Math.max(from, sum / count));
    for (let i = 0; i < count; i++, place++) placed[order[place]!] = base + place * gap;
  }
  return placed;
}

/** Which lightness stands at the top and which at the bottom, so that all of hers and the class limits are seen. */
export function lightnessSpan(values: readonly number[]): { top: number; bottom: number } {
  return { top: Math.min(100, Math.max(86, ...values) + 2), bottom: Math.max(0, Math.min(24, ...values) - 2) };
}

/** Names of two colours that stand the other way round than in the pattern, each pair once, in ladder order. */
export function crossedPairs(
  lines: readonly { readonly colour: string; readonly crosses: readonly string[] }[],
): [string, string][] {
  const place = new Map(lines.map(({ colour }, i) => [colour, i]));
  return lines.flatMap(({ colour, crosses }, i) =>
    crosses.filter((other) => (place.get(other) ?? -1) > i).map((other): [string, string] => [colour, other]),
  );
}

/** In L*: yarns closer together than this hardly have an order. The trade's rule of thumb: a difference under 8 vanishes. */
const ONE_VALUE = 8;

/** Groups that are named; the rest are counted. */
const NAMED = 2;

export interface Order {
  /** As `crossedPairs` gives them. */
  readonly pairs: readonly (readonly [string, string])[];
  /** Judged against the pattern turned over. */
  readonly flipped: boolean;
  /** L* of the pattern's colours and of what they are knitted in. */
  readonly was: readonly number[];
  readonly now: readonly number[];
}

/** What the ladder says, in words: turned over, of one value, or which colours have gone past which. */
export function orderSentence({ pairs, flipped, was, now }: Order): string {
  const extent = (values: readonly number[]) => Math.max(...values) - Math.min(...values);
  if (now.length > 1 && extent(now) < ONE_VALUE && extent(was) >= ONE_VALUE)
    return `Your yarns lie within ${Math.max(1, Math.round(extent(now)))} L* of each other: nearly one value, so light and dark tell nothing apart.`;
  const changes = changesSentence(pairs);
  if (flipped)
    return `Light to dark is turned over: what is light in the pattern is dark here.${changes && ` Apart from that, ${changes}`}`;
  return changes || "Light to dark stands as in the pattern.";
}

function changesSentence(pairs: Order["pairs"]): string {
  const { told, rest } = changedGroups(pairs);
  if (told.length === 0) return "";
  const sentences = told.map(({ colour, others }) => `${colour} has changed places with ${others}`);
  return `${sentences.join("; ")}${restWords(rest)}.`;
}

/** To follow "changes places:", as in "D with E and K; and 2 more pairs". */
export function changesWords(pairs: Order["pairs"]): string {
  const { told, rest } = changedGroups(pairs);
  return `${told.map(({ colour, others }) => `${colour} with ${others}`).join("; ")}${restWords(rest)}`;
}

const restWords = (rest: number): string => (rest > 0 ? `; and ${rest} more ${rest === 1 ? "pair" : "pairs"}` : "");

/** Told by the colour that is in most pairs first, so that one that has moved far is named once. */
function changedGroups(pairs: Order["pairs"]): { told: { colour: string; others: string }[]; rest: number } {
  const groups: { colour: string; others: string[] }[] = [];
  let left = [...pairs];
  while (left.length > 0) {
    const counts = new Map<string, number>();
    for (const colour of left.flat()) counts.set(colour, (counts.get(colour) ?? 0) + 1);
    const [colour] = [...counts].reduce((most, one) => (one[1] > most[1] ? one : most));
    groups.push({
      colour,
      others: left.filter((pair) => pair.includes(colour)).map(([a, b]) => (a === colour ? b : a)),
    });
    left = left.filter((pair) => !pair.includes(colour));
  }
  return {
    told: groups.slice(0, NAMED).map(({ colour, others }) => ({ colour, others: list(others) })),
    rest: groups.slice(NAMED).reduce((sum, { others }) => sum + others.length, 0),
  };
}

/** Colours that are named of those that one has changed places with. */
const LISTED = 4;

function list(names: readonly string[]): string {
  if (names.length > LISTED + 1) return `${names.slice(0, LISTED).join(", ")} and ${names.length - LISTED} more`;
  return names.length > 1 ? `${names.slice(0, -1).join(", ")} and ${names.at(-1)!}` : names[0]!;
}

/** Characters of a name that two lines beside a yarn can hold. */
const NAME_MOST = 26;

/** The lines of a name: a long one without its middle, cut between words where it can be, for a mill's yarns differ at the end. */
export function nameLines(name: string): readonly [string] | readonly [string, string] {
  if (name.length <= NAME_MOST) return [name];
  const half = NAME_MOST / 2;
  const head = /^.*\S(?=\s)/u.exec(name.slice(0, half + 1))?.[0] ?? name.slice(0, half);
  const tail = /(?<=\s)\S.*$/u.exec(name.slice(-half - 1))?.[0] ?? name.slice(-half);
  return [`${head}…`, tail];
}
