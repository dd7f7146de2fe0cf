/** Moves costs between pairs and single colours without changing what any assignment costs, so that the cheapest yarns say more. */
import type { Net } from "./net.ts";

/** Rounds after which the bound must have risen by a part of itself, else it is as high as it will be. By trial. */
const STALE_ROUNDS = 2;
const LEAST_RISE = 5e-3;

/**
 * Sequential tree-reweighted message passing (Kolmogorov 2006), written as equivalent costs rather than messages: going up and down
 * the colours, each takes in what its pairs cost at the least, yarn by yarn, and hands an equal part on to the pairs ahead.
 * The sum of the cheapest yarns, a bound, rises. Forbidden entries count as infinitely dear. Pairs without a table stay without.
 */
export function shiftCosts(net: Net, rounds: number, stop: () => boolean): Net {
  const { n, size } = net;
  const unary = net.unary.map((row) => row.slice());
  const tables = net.hard.map((forbidden, at) => {
    const soft = net.soft[at];
    if (!forbidden && !soft) return null;
    const table = new Float64Array((forbidden ?? soft)!.length);
    for (let entry = 0; entry < table.length; entry++) {
      table[entry] = forbidden && forbidden[entry] ? Infinity : soft ? soft[entry]! - net.shift[at]! : 0;
    }
    return table;
  });
  const before = new Int32Array(n);
  const after = new Int32Array(n);
  for (let i = 0; i < n; i++) {
    for (let j = 0; j < n; j++)
      if (i !== j && tables[Math.min(i, j) * n + Math.max(i, j)]) (j < i ? before : after)[i]!++;
  }
  let reached = -Infinity;
  for (let round = 0; round < rounds && !stop(); round++) {
    if (round % STALE_ROUNDS === 0) {
      const bound = unary.reduce((sum, row) => sum + leastOf(row), net.constant);
      if (bound - reached < LEAST_RISE * Math.max(1, Math.abs(bound))) break;
      reached = bound;
    }
    for (let i = 0; i < n; i++) {
      takeIn(i);
      for (let j = i + 1; j < n; j++) handOn(i, j);
      keepRest(i, after[i]!);
    }
    for (let i = n - 1; i >= 0; i--) {
      takeIn(i);
      for (let j = i - 1; j >= 0; j--) handOn(i, j);
      keepRest(i, before[i]!);
    }
  }
  for (let i = 0; i < n; i++) takeIn(i);
  const hard = net.hard.map((forbidden, at) => (tables[at] ? partHard(tables[at], forbidden) : null));
  return { ...net, unary, shift: new Float64Array(n * n), hard, soft: tables };

  /** What every yarn of colour i pays at least to each neighbour becomes its own cost. */
  function takeIn(i: number): void {
    const own = unary[i]!;
    for (let j = 0; j < n; j++) {
      const table = i === j ? null : tables[Math.min(i, j) * n + Math.max(i, j)]!;
      if (!table) continue;
      const other = unary[j]!;
      const [rowStep, columnStep] = i < j ? [size[j]!, 1] : [1, size[i]!];
      for (let a = 0; a < own.length; a++) {
        if (own[a] === Infinity) continue;
        let least = Infinity;
        for (let b = 0, entry = a * rowStep; b < size[j]!; b++, entry += columnStep) {
          if (table[entry]! < least && other[b]! < Infinity) least = table[entry]!;
        }
        own[a]! += least;
        if (least === 0 || least === Infinity) continue;
        for (let b = 0, entry = a * rowStep; b < size[j]!; b++, entry += columnStep) {
          table[entry] = Math.max(0, table[entry]! - least);
        }
      }
    }
  }

  function shareOf(i: number): number {
    return 1 / Math.max(1, before[i]!, after[i]!);
  }

  function handOn(i: number, j: number): void {
    const table = tables[Math.min(i, j) * n + Math.max(i, j)];
    if (!table) return;
    const own = unary[i]!;
    const share = shareOf(i);
    const least = leastOf(own);
    const [rowStep, columnStep] = i < j ? [size[j]!, 1] : [1, size[i]!];
    for (let a = 0; a < own.length; a++) {
      const part = (own[a]! - least) * share;
      if (part === 0 || own[a] === Infinity) continue;
      for (let b = 0, entry = a * rowStep; b < size[j]!; b++, entry += columnStep) table[entry]! += part;
    }
  }

  /** What was handed on to so many pairs is no longer the colour's own. */
  function keepRest(i: number, pairs: number): void {
    const own = unary[i]!;
    const least = leastOf(own);
    const kept = 1 - pairs * shareOf(i);
    for (let a = 0; a < own.length; a++) if (own[a]! < Infinity) own[a] = least + (own[a]! - least) * kept;
  }
}

/** Takes what is infinitely dear out of a table; gives where that is, `known` where nothing was added to it. */
function partHard(table: Float64Array, known: Uint8Array | null): Uint8Array | null {
  let hard = known;
  for (let entry = 0; entry < table.length; entry++) {
    if (table[entry] !== Infinity) continue;
    table[entry] = 0;
    if (hard?.[entry]) continue;
    if (hard === known) hard = hard ? hard.slice() : new Uint8Array(table.length);
    hard![entry] = 1;
  }
  return hard;
}

function leastOf(row: Float64Array): number {
  let least = Infinity;
  for (let a = 0; a < row.length; a++) if (row[a]! < least) least = row[a]!;
  return least;
}
