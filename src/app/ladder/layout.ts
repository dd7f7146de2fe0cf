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

/** What the crossings say, in words: at most three pairs, the rest counted. */
export function crossingSentence(pairs: readonly (readonly [string, string])[]): string {
  if (pairs.length === 0) return "Light to dark stands as in the pattern.";
  const named = pairs.slice(0, 3).map(([a, b]) => `${a} and ${b}`);
  const list = named.length > 1 ? `${named.slice(0, -1).join(", ")}, ${named.at(-1)!}` : named[0]!;
  const rest = pairs.length - named.length;
  return `${list} have changed places${rest > 0 ? `, and ${rest} more ${rest === 1 ? "pair" : "pairs"}` : ""}.`;
}
