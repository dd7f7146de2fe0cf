/** What a carried yarn would do in each place of the ladder, in a few words, and which places it would suit best. */
import type { LadderRung, PlaceTrial, TogetherReading, TrialReading } from "../worker/api.ts";
import { changesWords } from "./layout.ts";
import { crossWords, rowsShownWords, weakestWords } from "./trialWords.ts";

/** Beside what is there now; "new" where nothing is. */
export type Verdict = "here" | "better" | "same" | "worse" | "new";

export interface PlaceWords {
  readonly colour: string;
  /** What becomes of the rows, in about twenty characters. */
  readonly rows: string;
  /** What becomes of the order from light to dark, as short. */
  readonly order: string;
  readonly verdict: Verdict;
  readonly best: boolean;
  /** All of it as a sentence, without whose place it is. */
  readonly sentence: string;
  readonly crosses: readonly string[];
}

/** Places that are marked as the best; our choice: what an eye takes in at once. */
const BEST_MOST = 2;

/** `rungs` are the ladder as it is now. */
export function placeWords(places: readonly PlaceTrial[], rungs: readonly LadderRung[]): PlaceWords[] {
  const rungOf = new Map(rungs.map((rung) => [rung.colour, rung]));
  const told = places.flatMap((place) => {
    const rung = rungOf.get(place.colour);
    return rung ? [{ place, rung, verdict: verdictOf(place, rung) }] : [];
  });
  const best = new Set(bestPlaces(told));
  return told.map(({ place, rung, verdict }) => ({
    colour: place.colour,
    rows: verdict === "here" ? "has it now" : shortRows(place),
    order: shortOrder(place.crosses),
    verdict,
    best: best.has(place.colour),
    sentence: sentenceOf(place, rung, verdict, best.has(place.colour)),
    crosses: place.crosses,
  }));
}

interface Told {
  readonly place: PlaceTrial;
  readonly rung: LadderRung;
  readonly verdict: Verdict;
}

/** Rows that are lost count before those that are faint, and these before the order: what cannot be seen has none. */
const troubles = ({ rows: { lost, faint } }: Pick<TrialReading, "rows">, crosses: number): readonly number[] => [
  lost,
  faint,
  crosses,
];

const compare = (one: readonly number[], other: readonly number[]): number => {
  const at = one.findIndex((value, i) => value !== other[i]);
  return at < 0 ? 0 : one[at]! - other[at]!;
};

function verdictOf(place: PlaceTrial, rung: LadderRung): Verdict {
  if (rung.yarn === place.yarn) return "here";
  if (!place.now) return "new";
  const difference = compare(troubles(place, place.crosses.length), troubles(place.now, rung.crosses.length));
  return difference < 0 ? "better" : difference > 0 ? "worse" : "same";
}

/** Better than now, the best first; of equals the one whose weakest row shows more. */
function bestPlaces(told: readonly Told[]): string[] {
  const rank = ({ place }: Told) => [...troubles(place, place.crosses.length), -(place.row?.V ?? Infinity)];
  return told
    .filter(({ verdict }) => verdict === "better" || verdict === "new")
    .sort((a, b) => compare(rank(a), rank(b)))
    .slice(0, BEST_MOST)
    .map(({ place }) => place.colour);
}

/** "row 68 lost → clear" where one row is all that changes, "2 rows lost", "20 lost, 14 faint", "all rows show". */
function shortRows(place: PlaceTrial): string {
  const { rows, row, now } = place;
  const before = now?.row;
  if (row && before && before.chart === row.chart && before.row === row.row && before.shows !== row.shows) {
    const others = rows.lost + rows.faint - Number(row.shows === "lost" || row.shows === "faint");
    if (others === 0) return `row ${row.row} ${before.shows} → ${row.shows}`;
  }
  if (before?.shows === "lost" && now!.rows.lost === 1 && rows.lost === 0) return `row ${before.row} lost no more`;
  if (row?.shows === "lost" && rows.lost === 1 && rows.faint === 0) return `row ${row.row} lost`;
  return rows.lost > 0 && rows.faint > 0 ? `${rows.lost} lost, ${rows.faint} faint` : rowsShownWords(rows);
}

/** Colours that are named of those it would change places with. */
const NAMED = 3;

const shortOrder = (crosses: readonly string[]): string =>
  crosses.length === 0
    ? "order kept"
    : crosses.length > NAMED
      ? `crosses ${crosses.length} others`
      : `crosses ${crosses.join(", ")}`;

const VERDICT_WORDS: Readonly<Record<Verdict, string>> = {
  here: "It has that yarn now",
  better: "Better than now",
  same: "Much as now",
  worse: "Worse than now",
  new: "Nothing is there yet",
};

function sentenceOf(place: PlaceTrial, { yarnName }: LadderRung, verdict: Verdict, best: boolean): string {
  const words = [rowsShownWords(place.rows), weakestWords(place), crossWords(place.crosses) ?? "the order is kept"];
  const against = verdict === "better" || verdict === "worse" ? `, ${yarnName ?? "the yarn that is there"}` : "";
  const mark = best ? "; one of the best places" : "";
  return `${words.filter((part) => part !== null).join("; ")}. ${VERDICT_WORDS[verdict]}${against}${mark}.`;
}

/** What an exchange of two yarns would do, beside the colourway as it is. */
export function swapWords(
  swap: TogetherReading,
  now: TogetherReading,
): { readonly rows: string; readonly order: string; readonly verdict: Verdict } {
  const difference = compare(troubles(swap, swap.crossed.length), troubles(now, now.crossed.length));
  const news = swap.crossed.filter((pair) => !now.crossed.some((other) => other.join() === pair.join()));
  const weakest =
    swap.row && swap.row.shows !== "clear" && swap.row.shows !== "strong"
      ? weakestWords({ row: swap.row, figure: null })
      : null;
  return {
    rows: [rowsShownWords(swap.rows), weakest].filter((part) => part !== null).join("; "),
    order: orderOf(news, swap.crossed.length < now.crossed.length),
    verdict: difference < 0 ? "better" : difference > 0 ? "worse" : "same",
  };
}

function orderOf(news: TogetherReading["crossed"], fewer: boolean): string {
  if (news.length > 0) return `changes places: ${changesWords(news)}`;
  return fewer ? "fewer pairs out of order" : "order kept";
}
