/** What each of her yarns would do in a place, in a knitter's words, and the orders in which a list of them may stand. */
import { againstWords } from "../weights/weightWords.ts";
import type { TrialLine, TrialReading } from "../worker/api.ts";

/** "2 rows lost, 3 faint", "all rows show". */
export function rowsShownWords({ lost, faint, clear, strong }: TrialReading["rows"]): string {
  if (lost + faint + clear + strong === 0) return "no row has two colours";
  const rows = (count: number): string => (count === 1 ? "1 row" : `${count} rows`);
  if (lost > 0) return `${rows(lost)} lost${faint > 0 ? `, ${faint} faint` : ""}`;
  return faint > 0 ? `${rows(faint)} faint` : "all rows show";
}

/** The weakest row or figure that has the place; null where it stands against nothing. */
export function weakestWords({ row, figure }: Pick<TrialReading, "row" | "figure">): string | null {
  if (figure && (!row || figure.V < row.V)) return `weakest against ${figure.against}: ${figure.shows}`;
  return row ? `weakest in row ${row.row}: ${row.shows}` : null;
}

/** Colours that are named of those whose order would change. */
const NAMED = 4;

export function crossWords(crosses: readonly string[]): string | null {
  if (crosses.length === 0) return null;
  const named = crosses.length > NAMED ? [...crosses.slice(0, NAMED - 1)] : [...crosses];
  const more = crosses.length - named.length;
  const last = more > 0 ? `${more} more` : named.pop()!;
  return `changes places with ${named.length > 0 ? `${named.join(", ")} and ${last}` : last}`;
}

/** Nearer to all of it than this is all of it: a single colour on one ground. */
const ALL = 0.999;

/**
 * null where a share tells nothing: of a ground, which has none in the pattern and here, of a single colour on it, which has all,
 * and where no row is left that shows.
 */
export function weightWords(
  { weight, rows }: Pick<TrialReading, "weight" | "rows">,
  { weight: was }: Pick<TrialReading, "weight">,
): string | null {
  if (!weight || !was || rows.faint + rows.clear + rows.strong === 0) return null;
  if ((weight.share === 0 && was.share === 0) || (weight.share >= ALL && was.share >= ALL)) return null;
  return `draws the eye ${againstWords(weight.share, was.share)}`;
}

export type YarnOrder = "lightness" | "colour" | "shows" | "weight";

interface OrderWords {
  readonly order: YarnOrder;
  readonly name: string;
  /** To follow "first of all the yarn that". */
  readonly promise: string;
  /** Whether the yarns must have been tried. */
  readonly needs: boolean;
}

export const YARN_ORDERS: readonly OrderWords[] = [
  { order: "lightness", name: "lightness", promise: "is nearest in lightness", needs: false },
  { order: "colour", name: "colour", promise: "is nearest in colour", needs: false },
  { order: "shows", name: "shows best", promise: "shows best", needs: true },
  { order: "weight", name: "weight", promise: "weighs most like the pattern’s", needs: true },
];

/** What a yarn is put in order by. */
export interface OrderedYarn {
  readonly name: string;
  /** From the pattern's colour: L*, and ΔE00. */
  readonly apart: number;
  readonly deltaE00: number;
  /** null: it is still being tried. */
  readonly trial: Pick<TrialLine, "rows" | "row" | "figure" | "weight"> | null;
}

/** Below this share no weight is told from another. */
const LEAST_SHARE = 0.01;

const weakestV = ({ row, figure }: Pick<TrialReading, "row" | "figure">): number =>
  Math.min(row?.V ?? Infinity, figure?.V ?? Infinity);

/** Best first; what is equal by lightness, then by name. Yarns without a trial stand as by lightness. */
export function inOrder<T extends OrderedYarn>(yarns: readonly T[], order: YarnOrder, was: TrialReading | null): T[] {
  const byLightness = (a: T, b: T): number =>
    Math.abs(a.apart) - Math.abs(b.apart) || a.name.localeCompare(b.name, "en-GB");
  const wanted = Math.max(LEAST_SHARE, was?.weight?.share ?? 0);
  const offWeight = ({ trial }: T): number =>
    Math.abs(Math.log(Math.max(LEAST_SHARE, trial?.weight?.share ?? 0) / wanted));
  const by: Readonly<Record<YarnOrder, (a: T, b: T) => number>> = {
    lightness: byLightness,
    colour: (a, b) => a.deltaE00 - b.deltaE00,
    shows: ({ trial: a }, { trial: b }) =>
      !a || !b
        ? 0
        : a.rows.lost - b.rows.lost ||
          a.rows.faint - b.rows.faint ||
          (weakestV(a) === weakestV(b) ? 0 : weakestV(b) - weakestV(a)),
    weight: (a, b) => offWeight(a) - offWeight(b),
  };
  return [...yarns].sort((a, b) => by[order](a, b) || byLightness(a, b));
}
