/** How numbers are written for her: thin spaces before units, no digits that mean nothing. */

const THIN = "\u202f";

/** Made once: making it is what takes the time. */
const BRITISH = new Intl.NumberFormat("en-GB");

export function metresWords(metres: number): string {
  const digits = metres < 1 ? 2 : 1;
  return `${BRITISH.format(Number(metres.toFixed(digits)))}${THIN}m`;
}

/** The farthest that is claimed. Birthplace: docs/vision.md B2. */
const FARTHEST_M = 6;

/** A farthest distance: "never", "2.4 m", "past 6 m". */
export function reachWords({ metres, beyond }: { readonly metres: number; readonly beyond: boolean }): string {
  if (beyond || metres > FARTHEST_M) return `past ${FARTHEST_M}${THIN}m`;
  return metres <= 0 ? "never" : metresWords(metres);
}

export const wholeWords = (value: number): string => BRITISH.format(Math.round(value));
export const gramsWords = (grams: number): string => `${wholeWords(grams)}${THIN}g`;
export const percentWords = (share: number): string => `${Math.round(share * 100)}${THIN}%`;
export const luxWords = (lux: number): string => `${BRITISH.format(lux)}${THIN}lx`;

export function rowsWords([from, to]: readonly [number, number]): string {
  return from === to ? `row ${from}` : `rows ${from}–${to}`;
}

export const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** The first id of a letter and a number that is not taken. */
export function freeId(letter: string, taken: readonly { readonly id: string }[]): string {
  for (let number = 1; ; number++)
    if (!taken.some(({ id }) => id === `${letter}${number}`)) return `${letter}${number}`;
}
