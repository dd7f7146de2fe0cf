/** Where a yarn that is short could be saved: a part of the garment knitted in another yarn that has enough to spare. */
import type { Change } from "../fabric/colourway.ts";
import { gramsFromMetres } from "../yarn/lengths.ts";
import { metresOwned } from "../yarn/lots.ts";
import { isOwned } from "../yarn/owned.ts";
import type { Yarn } from "../yarn/yarn.ts";
import type { Amounts, SectionAmount } from "./amounts.ts";

export interface Saving {
  /** The yarn that is short. */
  readonly yarn: string;
  /** Sections that would be knitted without it, a pair together, and what they are called. */
  readonly sections: readonly string[];
  readonly name: string;
  /** The yarn that would take its place there. */
  readonly instead: string;
  /** Metres of the short yarn that are saved. */
  readonly metres: number;
  /** Metres and grams that remain of the short yarn with its reserve taken off; below 0 it is still short. Grams null where its thickness is not known. */
  readonly leaves: number;
  readonly leavesGrams: number | null;
  /** The same of the other yarn. */
  readonly insteadLeaves: number;
  /** What the colourway would say. */
  readonly changes: readonly Change[];
}

/** Ways that are shown of each yarn: more are not weighed against one another. Our choice. */
const MOST_WAYS = 3;

/**
 * For every yarn that is short, the parts that could be knitted in another: those that make it enough first, then the smallest part; of yarns
 * the one already in the garment with most to spare. A yarn steps in only where its own need, the part's and both reserves are there.
 * @param coloursOf chart colours that a section knits with a yarn
 */
export function savingsOf(
  { yarns: needs, sections }: Pick<Amounts, "yarns" | "sections">,
  yarns: readonly Yarn[],
  coloursOf: (section: string, yarn: string) => readonly string[],
): Saving[] {
  const spareOf = new Map(
    yarns.filter(isOwned).flatMap((yarn): [string, number][] => {
      const have = metresOwned(yarn);
      const need = needs.find((one) => one.yarn === yarn.id);
      return have === null ? [] : [[yarn.id, have - (need ? need.metres + need.reserve : 0)]];
    }),
  );
  return needs.flatMap((need): Saving[] => {
    const { yarn, metres, reserve, have, short } = need;
    if (short === null || short <= 0 || have === null) return [];
    const share = metres === 0 ? 0 : reserve / metres;
    const thickness = yarns.find(({ id }) => id === yarn)?.metresPer100g;
    const found = partsWith(sections, yarn).flatMap(({ ids, name, saved }): Saving[] => {
      const leaves = have - (metres + reserve) + saved * (1 + share);
      const instead = [...spareOf]
        .filter(([other, spare]) => other !== yarn && spare >= saved * (1 + share))
        .sort((a, b) => Number(inUse(b[0])) - Number(inUse(a[0])) || b[1] - a[1])[0];
      if (!instead) return [];
      const [other, spare] = instead;
      return [
        {
          yarn,
          sections: ids,
          name,
          instead: other,
          metres: saved,
          leaves,
          leavesGrams:
            thickness === undefined ? null : Math.sign(leaves) * gramsFromMetres(Math.abs(leaves), thickness),
          insteadLeaves: spare - saved * (1 + share),
          changes: ids.flatMap((section) =>
            coloursOf(section, yarn).map((colour) => ({ at: { section }, colour, yarn: other })),
          ),
        },
      ];
    });
    return found
      .sort(
        (a, b) =>
          Number(b.leaves >= 0) - Number(a.leaves >= 0) || (a.leaves >= 0 ? a.metres - b.metres : b.metres - a.metres),
      )
      .slice(0, MOST_WAYS);
  });

  function inUse(yarn: string): boolean {
    return needs.some((one) => one.yarn === yarn);
  }
}

/** Sections that take some of a yarn; left and right are one part. */
function partsWith(sections: readonly SectionAmount[], yarn: string): { ids: string[]; name: string; saved: number }[] {
  const parts = new Map<string, { ids: string[]; saved: number }>();
  for (const section of sections) {
    const metres = section.yarns.find((one) => one.yarn === yarn)?.metres ?? 0;
    if (metres <= 0) continue;
    const name = section.name.replace(/^(left|right) /, "");
    const part = parts.get(name) ?? { ids: [], saved: 0 };
    part.ids.push(section.id);
    part.saved += metres;
    parts.set(name, part);
  }
  return [...parts].map(([name, part]) => ({ name, ...part }));
}
