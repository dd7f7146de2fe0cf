/** Which yarns go together in one garment: near in thickness, and alike in whether they felt. */
import { gramsOwned, lotsOfYarn } from "../yarn/lots.ts";
import type { Yarn } from "../yarn/yarn.ts";

export interface Together {
  /** Metres per 100 g within 15 %. */
  readonly thickness?: boolean;
  /** Washes and felts alike. */
  readonly felting?: boolean;
  /** Every place from one dye lot. */
  readonly lots?: boolean;
}

/** Yarns of one garment lie within 10 to 15 % of each other in metres per 100 g. Common practice, no source. */
const THICKNESS_RATIO = 1.15;

export type Felting = "felts" | "superwash" | "does not felt";

/** Words of what a fibre is called; the trade's names, from memory. Wool that is treated against felting comes first. */
const FELTING_WORDS: readonly (readonly [Felting, RegExp])[] = [
  ["superwash", /super\s?-?wash|machine\s?-?wash|\bsw\b/i],
  ["felts", /wool|merino|lamb|alpaca|mohair|cashmere|shetland|angora|yak|camel/i],
  ["does not felt", /cotton|linen|acryl|silk|bamboo|viscose|nylon|polyamide|polyester|hemp/i],
];

/** Whether it shrinks into felt when it is washed warm; null where its fibre is not told or not known. */
export function feltingOf({ fibre }: Pick<Yarn, "fibre">): Felting | null {
  if (!fibre) return null;
  return FELTING_WORDS.find(([, words]) => words.test(fibre))?.[0] ?? null;
}

/** What keeps two yarns apart, in words; null where they go together or too little is known of them. */
export function partedBy(one: Yarn, other: Yarn, together: Together): string | null {
  if (together.thickness && one.metresPer100g && other.metresPer100g) {
    const ratio = Math.max(one.metresPer100g, other.metresPer100g) / Math.min(one.metresPer100g, other.metresPer100g);
    if (ratio > THICKNESS_RATIO) return `${one.metresPer100g} and ${other.metresPer100g} m to 100 g`;
  }
  if (together.felting) {
    const [first, second] = [feltingOf(one), feltingOf(other)];
    if (first && second && first !== second) return `one ${FELTING_TEXT[first]}, the other ${FELTING_TEXT[second]}`;
  }
  return null;
}

const FELTING_TEXT: Record<Felting, string> = {
  felts: "felts",
  superwash: "is superwash",
  "does not felt": "does not felt",
};

/** `forbidden[k * K + l]` = 1 where yarns k and l do not go together; null where all do. */
export function partedYarns(yarns: readonly Yarn[], together: Together): Uint8Array | null {
  if (!together.thickness && !together.felting) return null;
  const forbidden = new Uint8Array(yarns.length ** 2);
  yarns.forEach((one, k) =>
    yarns.forEach((other, l) => {
      if (k !== l && partedBy(one, other, together) !== null) forbidden[k * yarns.length + l] = 1;
    }),
  );
  return forbidden.includes(1) ? forbidden : null;
}

/** The part of a yarn that lies in its largest lot, 0 to 1; 1 where lots are not weighed. */
export function largestLotShare(yarn: Yarn): number {
  const all = gramsOwned(yarn);
  if (!all) return 1;
  return Math.max(...lotsOfYarn(yarn).map(({ grams }) => grams ?? 0)) / all;
}
