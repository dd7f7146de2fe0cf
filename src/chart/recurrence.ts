/** Laws of sequences: after how many steps one recurs, where it mirrors, where another lies in it; each in time in proportion to its length. */

export type Sequence = ArrayLike<number>;

/** The least number of steps after which the sequence recurs as far as it goes: 3 for "abcabca". Its length where it does not; 0 of nothing. */
export function smallestPeriod(sequence: Sequence): number {
  const { length } = sequence;
  return length === 0 ? 0 : length - longestBorders(sequence)[length - 1]!;
}

/** The least number of steps that divides the length and after which the sequence recurs: "abcabc" 3, "abcabca" 7. */
export function smallestTile(sequence: Sequence): number {
  const period = smallestPeriod(sequence);
  return period > 0 && sequence.length % period === 0 ? period : sequence.length;
}

/**
 * The sums s from 0 to length − 1 with sequence[i] = sequence[s − i] for every i, places counted round the end. Places i and s − i lie on
 * opposite sides of s / 2, and of (s + length) / 2.
 */
export function mirrorSums(sequence: Sequence): number[] {
  const { length } = sequence;
  const reversed = Int32Array.from({ length }, (_, index) => sequence[length - 1 - index]!);
  // reversed[i] = sequence[length − 1 − i], so a turn by t says sequence[length − 1 − i] = sequence[t + i]: the sum is t − 1.
  return turnsBetween(reversed, sequence)
    .map((turn) => (turn + length - 1) % length)
    .sort((a, b) => a - b);
}

/** The turns t from 0 to length − 1 with one[i] = other[t + i] for every i, places counted round the end. Both are of one length. */
export function turnsBetween(one: Sequence, other: Sequence): number[] {
  const { length } = one;
  if (length === 0) return [];
  const borders = longestBorders(one);
  const turns: number[] = [];
  let matched = 0;
  for (let at = 0; at < 2 * length - 1; at++) {
    const here = other[at % length]!;
    while (matched > 0 && (matched === length || one[matched] !== here)) matched = borders[matched - 1]!;
    if (one[matched] === here) matched += 1;
    if (matched === length) turns.push(at - length + 1);
  }
  return turns;
}

/** For each place the length of the longest proper beginning that ends there too. Knuth, Morris and Pratt 1977, SIAM J. Comput. 6: 323. */
function longestBorders(sequence: Sequence): Int32Array {
  const borders = new Int32Array(sequence.length);
  for (let at = 1; at < sequence.length; at++) {
    let border = borders[at - 1]!;
    while (border > 0 && sequence[at] !== sequence[border]) border = borders[border - 1]!;
    borders[at] = sequence[at] === sequence[border] ? border + 1 : border;
  }
  return borders;
}
