/** Visual weight, leaders and reach in words: estimates, rounded as far as they deserve. */
import type { ReadsTo } from "../../fabric/visibility.ts";
import { wordOf, type Word } from "../../fabric/word.ts";
import { metresWords, percentWords } from "../shell/words.ts";
import type { WeightLine } from "../worker/api.ts";

const LEAST_TOLD = 0.01;

export function shareWords(share: number): string {
  if (share > 0 && share < LEAST_TOLD) return `under 1\u202f%`;
  return percentWords(share);
}

/** How much of the eye it draws beside what the pattern's colour draws in the same place, to follow "draws the eye". */
export function againstWords(share: number, was: number): string {
  if (share < LEAST_TOLD && was < LEAST_TOLD) return "hardly, as the pattern’s own";
  if (was < LEAST_TOLD) return "where the pattern’s own hardly does";
  if (share < LEAST_TOLD) return "hardly, unlike the pattern’s own";
  const times = share / was;
  if (times > 3.5) return "far more than the pattern’s own";
  if (times > 2.5) return "about three times as much as the pattern’s own";
  if (times > 1.75) return "about twice as much as the pattern’s own";
  if (times > 1.35) return "about half as much again as the pattern’s own";
  if (times > 1.1) return "a little more than the pattern’s own";
  if (times > 1 / 1.1) return "about as the pattern’s own";
  if (times > 0.65) return "less than the pattern’s own";
  if (times > 0.4) return "about half as much as the pattern’s own";
  return "far less than the pattern’s own";
}

export function recursWords({ bands, height }: WeightLine["recurs"]): string {
  return `in ${bands === 1 ? "one band" : `${bands} bands`} over ${shareWords(height)} of the height`;
}

/** Both are rounded to tenths: a smaller change is none. */
const CHANGED = 0.15;

/** With the pattern's where it is another; null where a colour is too rare to be told of. */
export function standsOutWords(now: number | null, was: number | null): string | null {
  if (now === null) return null;
  const changed = was !== null && Math.abs(now - was) >= CHANGED;
  return `stands out ${now.toFixed(1)}${changed ? ` (pattern ${was.toFixed(1)})` : ""}`;
}

/** "Dusk leads, as in the pattern", "Marigold leads; in the pattern C". */
export function leadsWords(
  leads: readonly string[],
  was: readonly string[],
  nameOf: (colour: string) => string,
): string {
  const told = (colours: readonly string[], words: (colour: string) => string): string =>
    colours.length === 0 ? "none leads" : `${colours.map(words).join(" and ")} lead${colours.length === 1 ? "s" : ""}`;
  const same = leads.length === was.length && leads.every((colour) => was.includes(colour));
  const pattern = was.length === 0 ? "none" : was.join(" and ");
  return `${told(leads, nameOf)}${same ? ", as in the pattern" : `; in the pattern ${pattern}`}`;
}

/** The farthest that is claimed. Birthplace: docs/vision.md B2. */
const FARTHEST_M = 6;

const reachWords = (metres: number): string =>
  metres <= 0 ? "never" : metres > FARTHEST_M ? `past ${FARTHEST_M}\u202fm` : metresWords(metres);

/** "reads to 3.2 m (2.1 m – 4.8 m)", with its low and high. */
export function readsWords({ metres, low, high, beyond }: ReadsTo): string {
  const reach = beyond ? reachWords(Infinity) : reachWords(metres);
  const told =
    metres <= 0 && !beyond ? "does not read from anywhere" : `reads ${reach.startsWith("past") ? "" : "to "}${reach}`;
  const [from, to] = [reachWords(low), reachWords(high)];
  return from === to && from === reach ? told : `${told} (${from} – ${to})`;
}

/** The words between which it may lie: "between lost and clear"; null where both ends have the word itself. */
export function rangeWords(shows: Word, low: number | null, high: number | null): string | null {
  if (low === null || high === null) return null;
  const [from, to] = [wordOf(low), wordOf(high)];
  return from === shows && to === shows ? null : `between ${from} and ${to}`;
}
