/** "Did you mean": the known word nearest to a mistyped one. */

/** Null where nothing is near: two slips at most, and fewer than half of the letters. */
export function nearestWord(typed: string, words: readonly string[]): string | null {
  const lower = typed.toLowerCase();
  const [best] = words
    .map((word) => ({ word, slips: slipsBetween(lower, word.toLowerCase()) }))
    .filter(({ word, slips }) => slips <= 2 && slips * 2 < Math.max(word.length, lower.length))
    .sort((a, b) => a.slips - b.slips);
  return best?.word ?? words.find((word) => lower.length >= 3 && word.startsWith(lower)) ?? null;
}

/** Letters put in, left out, changed or swapped with their neighbour (optimal string alignment). */
function slipsBetween(a: string, b: string): number {
  let before: number[] = [];
  let last = Array.from({ length: b.length + 1 }, (_, index) => index);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    for (let j = 1; j <= b.length; j++) {
      const change = last[j - 1]! + (a[i - 1] === b[j - 1] ? 0 : 1);
      const swap = i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1] ? before[j - 2]! + 1 : Infinity;
      row.push(Math.min(change, swap, last[j]! + 1, row[j - 1]! + 1));
    }
    before = last;
    last = row;
  }
  return last[b.length]!;
}
