/** Finds yarns that are alike in every way the problem can see, so that the search need not try one after the other. */
import type { Net } from "./net.ts";

/**
 * A number for each yarn; two yarns with the same number can change places in any assignment without changing its cost.
 * Asks for the whole net, before yarns were left out.
 */
export function twinsOf(net: Net): Int32Array {
  const yarns = net.size[0] ?? 0;
  const twins = new Int32Array(yarns);
  const firsts = new Map<string, number[]>();
  const tables = new Set([...net.hard, ...net.soft].filter((table) => table !== null));
  for (let k = 0; k < yarns; k++) {
    const key = `${net.unary.map((row) => row[k]!).join()} ${net.capacity?.have[k] ?? ""}`;
    const alike = firsts.get(key) ?? [];
    if (alike.length === 0) firsts.set(key, alike);
    const twin = alike.find((l) => [...tables].every((table) => interchangeable(table, k, l, yarns)));
    twins[k] = twin ?? k;
    if (twin === undefined) alike.push(k);
  }
  return twins;
}

function interchangeable(table: ArrayLike<number>, k: number, l: number, yarns: number): boolean {
  const at = (a: number, b: number): number => table[a * yarns + b]!;
  if (at(k, k) !== at(l, l) || at(k, l) !== at(l, k)) return false;
  for (let m = 0; m < yarns; m++) {
    if (m !== k && m !== l && (at(k, m) !== at(l, m) || at(m, k) !== at(m, l))) return false;
  }
  return true;
}
