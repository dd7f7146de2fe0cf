/** Counts places: when more colours are left than groups that their yarns fall into, there is no answer below this node. */
import { commonBits, type Family, growGroup } from "./groups.ts";
import type { Level } from "./groupPrices.ts";
import type { Net } from "./net.ts";

/** Groups tried for each step of a cover; more found no smaller covers in trials. */
const COVER_TRIES = 4;

/**
 * Covers the yarns left by groups, greedily, and matches the undecided colours to them (Kuhn's augmenting paths): at most one yarn
 * of a group can be used, so without a matching nothing fits (Hall). Says true when it has proven that.
 */
export function coverCheck(net: Net, families: readonly Family[], offset: Int32Array, chosen: Int32Array) {
  const places = families.map(({ groupsOf }) => new Int32Array(groupsOf.length));
  const uncovered = families.map(({ live }) => new Uint32Array((live.length + 31) >>> 5));
  const positionOf = families.map(({ live, groupsOf }) => {
    const position = new Int32Array(groupsOf.length);
    live.forEach((k, v) => (position[k] = v));
    return position;
  });

  return function tooFewPlaces(level: Level): boolean {
    return families.some((family, f) => {
      const undecided = family.colours.filter((i) => chosen[i]! < 0);
      if (undecided.length < 2) return false;
      if (family.single && undecided.every((i) => level.length[i]! >= undecided.length)) return false;
      const placeOf = family.single ? null : cover(level, family, f, undecided);
      return !matches(level, family, undecided, placeOf);
    });
  };

  /**
   * The number of the covering group of each yarn left. The next group is grown around one of the yarns with the fewest relations
   * left, the one whose group leaves out least of them: where yarns exclude each other by nearness that begins at an end, and no
   * smaller cover exists (simplicial elimination). A yarn in no group is told as −1: it may be shared, so it is a place for anybody.
   */
  function cover(level: Level, family: Family, f: number, undecided: readonly number[]): Int32Array {
    const { groupsOf, excludes, nearest, live } = family;
    const words = (live.length + 31) >>> 5;
    const place = places[f]!;
    const left = uncovered[f]!;
    const open = new Uint32Array(words);
    left.fill(0);
    place.fill(-1);
    for (const i of undecided) {
      for (let at = offset[i]!; at < offset[i]! + level.length[i]!; at++) {
        const k = net.yarn[i]![level.list[at]!]!;
        const v = positionOf[f]![k]!;
        if (groupsOf[k]!.length) left[v >>> 5]! |= 1 << (v & 31);
      }
    }
    for (let next = 0; ; next++) {
      let group: number[] | null = null;
      let leastLeftOut = Infinity;
      for (const { v, relations } of loneliest(left, family)) {
        for (let word = 0; word < words; word++) open[word] = left[word]! & excludes[v * words + word]!;
        const grown = growGroup(v, open, nearest[v]!, excludes);
        if (relations - grown.length >= leastLeftOut) continue;
        leastLeftOut = relations - grown.length;
        group = grown;
        if (leastLeftOut === 0) break;
      }
      if (!group) return place;
      for (const v of group) {
        left[v >>> 5]! &= ~(1 << (v & 31));
        place[live[v]!] = next;
      }
    }
  }

  /** The few yarns of `left` with the fewest relations in it. */
  function loneliest(left: Uint32Array, { excludes, live }: Family): { v: number; relations: number }[] {
    const few: { v: number; relations: number }[] = [];
    for (let v = 0; v < live.length; v++) {
      if (!(left[v >>> 5]! & (1 << (v & 31)))) continue;
      const relations = commonBits(left, excludes, v * left.length);
      if (few.length === COVER_TRIES && relations >= few.at(-1)!.relations) continue;
      few.push({ v, relations });
      few.sort((a, b) => a.relations - b.relations);
      few.length = Math.min(few.length, COVER_TRIES);
    }
    return few;
  }

  function matches(level: Level, family: Family, undecided: readonly number[], placeOf: Int32Array | null): boolean {
    const holder = new Map<number, number>();
    const visit = (i: number, tried: Set<number>): boolean => {
      for (let at = offset[i]!; at < offset[i]! + level.length[i]!; at++) {
        const k = net.yarn[i]![level.list[at]!]!;
        const place = placeOf ? placeOf[k]! : family.groupsOf[k]!.length ? k : -1;
        if (place === -1) return true;
        if (tried.has(place)) continue;
        tried.add(place);
        const other = holder.get(place);
        if (other === undefined || visit(other, tried)) {
          holder.set(place, i);
          return true;
        }
      }
      return false;
    };
    return undecided.every((i) => visit(i, new Set()));
  }
}
