/** Finds yarns that are alike in every way the problem can see, so that the search need not try one after the other. */
import type { Net } from "./net.ts";

/** For each forbidden table a number for every yarn, from its row and column: yarns that differ in one are not alike. */
export type TableSums = Map<Uint8Array, Int32Array>;

/**
 * A number for each yarn; two yarns with the same number can change places in any assignment without changing its cost.
 * Asks for the whole net, before yarns were left out. `known` may be handed in by who asks several times about the same tables.
 */
export function twinsOf(net: Net, known: TableSums = new Map()): Int32Array {
  const yarns = net.size[0] ?? 0;
  const twins = new Int32Array(yarns);
  const forbidding = [...new Set(net.hard)].filter((table) => table !== null);
  const tables = [...forbidding, ...new Set(net.soft)].filter((table) => table !== null);
  const ownKey = (k: number): string =>
    `${net.unary.map((row) => row[k]!).join()} ${net.quotas.map(({ gains }) => gains.map((row) => row[k]!).join())} ${net.capacity?.have[k] ?? ""}`;
  for (const some of classes(Array.from(twins.keys()), ownKey)) {
    const sums = some.length > 1 ? forbidding.map((table) => sumsOf(table, yarns, known)) : [];
    for (const few of classes(some, (k) => sums.map((sum) => sum[k]!).join())) {
      const firsts: number[] = [];
      for (const k of few) {
        const twin = firsts.find((l) => tables.every((table) => interchangeable(table, k, l, yarns)));
        twins[k] = twin ?? k;
        if (twin === undefined) firsts.push(k);
      }
    }
  }
  return twins;
}

function classes(yarns: readonly number[], keyOf: (k: number) => string): number[][] {
  const byKey = new Map<string, number[]>();
  for (const k of yarns) {
    const key = keyOf(k);
    const others = byKey.get(key);
    if (others) others.push(k);
    else byKey.set(key, [k]);
  }
  return [...byKey.values()];
}

function sumsOf(table: Uint8Array, yarns: number, known: TableSums): Int32Array {
  let sums = known.get(table);
  if (sums) return sums;
  known.set(table, (sums = new Int32Array(yarns)));
  for (let k = 0; k < yarns; k++) {
    for (let l = 0; l < yarns; l++) {
      if (!table[k * yarns + l]) continue;
      // Any factor but 1, so that a row and a column do not make up for each other.
      sums[k]! += 1;
      sums[l]! += 3;
    }
  }
  return sums;
}

function interchangeable(table: ArrayLike<number>, k: number, l: number, yarns: number): boolean {
  const at = (a: number, b: number): number => table[a * yarns + b]!;
  if (at(k, k) !== at(l, l) || at(k, l) !== at(l, k)) return false;
  for (let m = 0; m < yarns; m++) {
    if (m !== k && m !== l && (at(k, m) !== at(l, m) || at(m, k) !== at(m, l))) return false;
  }
  return true;
}
