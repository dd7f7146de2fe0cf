/** Counts places: when more colours are left than groups that their yarns fall into, there is no answer below this node. */
import { commonBits, type Family } from "./groups.ts";
import type { Level } from "./groupPrices.ts";
import type { Net } from "./net.ts";

/**
 * Covers the yarns left by groups, greedily, and matches the undecided colours to them (Kuhn's augmenting paths): at most one yarn
 * of a group can be used, so without a matching nothing fits (Hall). Says true when it has proven that.
 */
export function coverCheck(net: Net, families: readonly Family[], offset: Int32Array, chosen: Int32Array) {
  const covers = families.map(({ groupsOf }) => new Int32Array(groupsOf.length));
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
      const places = family.single ? null : cover(level, family, f, undecided);
      return !matches(level, family, undecided, places);
    });
  };

  /**
   * The number of the covering group of each yarn left. The yarn with the fewest relations left is covered first, by the group that
   * takes most with it: where yarns exclude each other by nearness this begins at an end, and no smaller cover exists.
   * A yarn in no group has a place of its own for each colour, which is told as −1.
   */
  function cover(level: Level, family: Family, f: number, undecided: readonly number[]): Int32Array {
    const { groups, groupsOf, excludes, live } = family;
    const words = (live.length + 31) >>> 5;
    const place = covers[f]!;
    const left = uncovered[f]!;
    place.fill(-2);
    left.fill(0);
    for (const i of undecided) {
      for (let at = offset[i]!; at < offset[i]! + level.length[i]!; at++) place[net.yarn[i]![level.list[at]!]!] = -1;
    }
    for (let v = 0; v < live.length; v++) {
      if (place[live[v]!] === -1 && groupsOf[live[v]!]!.length > 0) left[v >>> 5]! |= 1 << (v & 31);
    }
    for (;;) {
      let loneliest = -1;
      let fewest = Infinity;
      for (let v = 0; v < live.length; v++) {
        if (!(left[v >>> 5]! & (1 << (v & 31)))) continue;
        const relations = commonBits(left, excludes, v * words);
        if (relations < fewest) {
          fewest = relations;
          loneliest = v;
        }
      }
      if (loneliest < 0) return place;
      let best = -1;
      let most = -1;
      for (const g of groupsOf[live[loneliest]!]!) {
        let takes = 0;
        for (const k of groups[g]!) if (place[k] === -1) takes++;
        if (takes > most) {
          most = takes;
          best = g;
        }
      }
      for (const k of groups[best]!) {
        if (place[k] !== -1) continue;
        place[k] = best;
        const v = positionOf[f]![k]!;
        left[v >>> 5]! &= ~(1 << (v & 31));
      }
    }
  }

  function matches(level: Level, family: Family, undecided: readonly number[], places: Int32Array | null): boolean {
    const holder = new Map<number, number>();
    const visit = (i: number, tried: Set<number>): boolean => {
      for (let at = offset[i]!; at < offset[i]! + level.length[i]!; at++) {
        const k = net.yarn[i]![level.list[at]!]!;
        const place = places ? places[k]! : family.groupsOf[k]!.length ? k : -1;
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
