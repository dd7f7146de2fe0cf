/** Finds groups of yarns of which only one can be used: they turn many pairwise clashes into one strong statement. */
import type { Net } from "./net.ts";

/** Of each group at most one yarn goes to at most one of the family's colours. */
export interface Family {
  readonly colours: readonly number[];
  /** Yarns in the caller's numbers. */
  readonly groups: readonly Int32Array[];
  /** The groups of each of the caller's yarns. */
  readonly groupsOf: readonly Int32Array[];
  /** Every group is one yarn: the family says no more than that its colours differ. */
  readonly single: boolean;
  /** The relation itself, a row of bits for each yarn of `live`, to count what is left of it. */
  readonly excludes: Uint32Array;
  /** For each yarn of `live` those it excludes, the nearest relations first. */
  readonly nearest: readonly Int32Array[];
  readonly live: Int32Array;
}

/** Families beyond the first few repeat what the first say. */
const MOST_FAMILIES = 4;

/**
 * A family is a set of colours of which each two exclude something of each other; yarns k and l exclude one another in it when all
 * its pairs forbid k with l both ways round. Its groups are maximal cliques of that relation, grown greedily around every yarn,
 * nearest relations first: where yarns exclude each other by nearness these are the windows around each yarn.
 * `raw` is the net before yarns were left out, `net` the one after.
 */
export function familiesOf(raw: Net, net: Net, known: FamilyCache = new Map()): Family[] {
  const live = liveYarns(net);
  const families: Family[] = [];
  const seen = new Set<string>();
  for (const colours of colourSets(raw)) {
    const key = colours.join();
    if (colours.length < 2 || seen.has(key) || families.length === MOST_FAMILIES) continue;
    seen.add(key);
    const family = { ...groupsFor(tablesOf(colours, raw), raw, live, known), colours };
    if (family.groups.length && (!family.single || families.length === 0)) families.push(family);
  }
  return families;
}

/** Largest sets first found: all colours that differ, then those bound by one and the same table. */
function colourSets(raw: Net): number[][] {
  const { n } = raw;
  const yarns = raw.size[0] ?? 0;
  const differs = raw.hard.map((table) => {
    if (!table) return false;
    for (let k = 0; k < yarns; k++) if (!table[k * yarns + k]) return false;
    return true;
  });
  const sets = [clique(n, (i, j) => differs[Math.min(i, j) * n + Math.max(i, j)]!)];
  const tables = new Map<Uint8Array, number>();
  for (const table of raw.hard) if (table) tables.set(table, (tables.get(table) ?? 0) + 1);
  const common = [...tables].filter(([, pairs]) => pairs > 1).sort((a, b) => b[1] - a[1]);
  for (const [table] of common.slice(0, MOST_FAMILIES)) {
    sets.push(clique(n, (i, j) => raw.hard[Math.min(i, j) * n + Math.max(i, j)] === table));
  }
  return sets;
}

/** A large set of colours of which each two are bound: the most bound first, then whatever fits. */
function clique(n: number, bound: (i: number, j: number) => boolean): number[] {
  const colours = Array.from({ length: n }, (_, i) => i);
  const degree = colours.map((i) => colours.filter((j) => j !== i && bound(i, j)).length);
  const set: number[] = [];
  for (const i of colours.sort((a, b) => degree[b]! - degree[a]! || a - b))
    if (set.every((j) => bound(i, j))) set.push(i);
  return set.sort((a, b) => a - b);
}

function liveYarns(net: Net): Int32Array {
  const yarns = new Set<number>();
  for (const list of net.yarn) for (const k of list) yarns.add(k);
  return Int32Array.from(yarns).sort();
}

type Groups = Omit<Family, "colours">;

/** Groups by the tables they come from, for who asks about the same tables and the same yarns again and again. */
export type FamilyCache = Map<readonly Uint8Array[], Groups>;

function tablesOf(colours: readonly number[], raw: Net): Uint8Array[] {
  const tables = new Set<Uint8Array>();
  for (const i of colours) for (const j of colours) if (i < j) tables.add(raw.hard[i * raw.n + j]!);
  return [...tables];
}

function groupsFor(tables: readonly Uint8Array[], raw: Net, live: Int32Array, known: FamilyCache): Groups {
  for (const [others, groups] of known) {
    if (
      groups.live.length === live.length &&
      others.length === tables.length &&
      tables.every((table) => others.includes(table))
    ) {
      return groups;
    }
  }
  const groups = makeGroups(tables, raw, live);
  known.set(tables, groups);
  return groups;
}

function makeGroups(tables: readonly Uint8Array[], raw: Net, live: Int32Array): Groups {
  const m = live.length;
  const words = (m + 31) >>> 5;
  const excludes = exclusion(tables, raw, live, words);
  const yarns = raw.size[0]!;
  const nearest: Int32Array[] = [];
  const groups: Int32Array[] = [];
  const seen = new Set<string>();
  for (let v = 0; v < m; v++) {
    const row = excludes.subarray(v * words, (v + 1) * words);
    const relations = bitsOf(row).filter((w) => w !== v);
    const inCommon = new Map(relations.map((w) => [w, commonBits(row, excludes, w * words)]));
    nearest.push(Int32Array.from(relations.sort((a, b) => inCommon.get(b)! - inCommon.get(a)! || a - b)));
    // A yarn that two of these colours may share is in no group.
    if (!(row[v >>> 5]! & (1 << (v & 31)))) continue;
    const group = growGroup(v, row.slice(), nearest[v]!, excludes);
    const members = Int32Array.from(group, (w) => live[w]!).sort();
    const key = members.join();
    if (!seen.has(key)) groups.push(members);
    seen.add(key);
  }
  const groupsOf = Array.from({ length: yarns }, (): number[] => []);
  groups.forEach((members, g) => members.forEach((k) => groupsOf[k]!.push(g)));
  return {
    groups,
    groupsOf: groupsOf.map((list) => Int32Array.from(list)),
    single: groups.every((members) => members.length === 1),
    excludes,
    nearest,
    live,
  };
}

/** A group around v of what is in `open`, which is left holding what could still join. */
export function growGroup(v: number, open: Uint32Array, nearest: Int32Array, excludes: Uint32Array): number[] {
  const words = open.length;
  const group = [v];
  for (const w of nearest) {
    if (!(open[w >>> 5]! & (1 << (w & 31)))) continue;
    group.push(w);
    for (let word = 0; word < words; word++) open[word]! &= excludes[w * words + word]!;
  }
  return group;
}

/** One row of bits for each live yarn: with which live yarns it is forbidden in all pairs of these colours, both ways round. */
function exclusion(tables: readonly Uint8Array[], raw: Net, live: Int32Array, words: number): Uint32Array {
  const m = live.length;
  const yarns = raw.size[0]!;
  const rows = new Uint32Array(m * words);
  for (let v = 0; v < m; v++) for (let w = 0; w < m; w++) rows[v * words + (w >>> 5)]! |= 1 << (w & 31);
  for (const table of tables) {
    for (let v = 0; v < m; v++) {
      for (let word = 0; word < words; word++) {
        let left = rows[v * words + word]!;
        while (left) {
          const bit = 31 - Math.clz32(left);
          left &= ~(1 << bit);
          const w = word * 32 + bit;
          const k = live[v]!;
          const l = live[w]!;
          if (!table[k * yarns + l] || !table[l * yarns + k]) {
            rows[v * words + word]! &= ~(1 << bit);
            rows[w * words + (v >>> 5)]! &= ~(1 << (v & 31));
          }
        }
      }
    }
  }
  for (let v = 0; v < m; v++) {
    if (rows[v * words + (v >>> 5)]! & (1 << (v & 31))) continue;
    rows.fill(0, v * words, (v + 1) * words);
    for (let w = 0; w < m; w++) rows[w * words + (v >>> 5)]! &= ~(1 << (v & 31));
  }
  return rows;
}

function bitsOf(row: Uint32Array): number[] {
  const bits: number[] = [];
  row.forEach((word, at) => {
    for (let bit = 0; bit < 32; bit++) if (word & (1 << bit)) bits.push(at * 32 + bit);
  });
  return bits;
}

/** How many bits a row has in common with the row of `rows` that begins at `from`. */
export function commonBits(row: Uint32Array, rows: Uint32Array, from: number): number {
  let count = 0;
  for (let word = 0; word < row.length; word++) {
    let bits = row[word]! & rows[from + word]!;
    bits -= (bits >>> 1) & 0x55555555;
    bits = (bits & 0x33333333) + ((bits >>> 2) & 0x33333333);
    count += Math.imul((bits + (bits >>> 4)) & 0x0f0f0f0f, 0x01010101) >>> 24;
  }
  return count;
}
