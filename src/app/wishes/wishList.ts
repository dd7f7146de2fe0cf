/** A wish as sentences, each of which can be taken back by itself. */
import type { Kept, Wish } from "../../recolour/wish.ts";

export interface WishLine {
  readonly key: string;
  readonly sentence: string;
  /** The wish without this line. */
  readonly without: Wish;
}

export interface Names {
  readonly yarn: (id: string) => string;
  readonly band: (id: string) => string;
}

/** In the order of the form; what a later version wrote is kept and not told. */
export function wishLines(wish: Wish, names: Names): WishLine[] {
  const lines: WishLine[] = [];
  const add = (key: string, sentence: string, parts: WishParts) =>
    lines.push({ key, sentence, without: changedWish(wish, parts) });
  if (wish.ladder && wish.ladder !== "same") add("ladder", LADDER_WORDS[wish.ladder], { ladder: undefined });
  if (wish.character && wish.character !== "usual")
    add("character", CHARACTER_WORDS[wish.character], { character: undefined });
  if (wish.fabric) add("fabric", `The whole fabric ${wish.fabric} than the pattern`, { fabric: undefined });
  if (wish.echoes) add("echoes", "Bands that echo one another stay alike", { echoes: undefined });
  for (const kept of wish.keep ?? [])
    add(`keep ${kept.colour} ${placeWords(kept)}`, `${kept.colour} stays ${names.yarn(kept.yarn)}${placeWords(kept)}`, {
      keep: wish.keep!.filter((one) => one !== kept),
    });
  for (const look of wish.look ?? []) {
    const what = look.colour ?? (look.band === undefined ? "" : `band ${names.band(look.band)}`);
    add(`look ${what} ${look.be}`, `${what} ${beWords(look.be)}`, { look: wish.look!.filter((one) => one !== look) });
  }
  for (const band of wish.bands ?? [])
    add(`band ${band.band}`, `Band ${names.band(band.band)} ${band.want}`, {
      bands: wish.bands!.filter((one) => one !== band),
    });
  for (const yarn of wish.use ?? [])
    add(`use ${yarn}`, `${names.yarn(yarn)} must be in it`, { use: wish.use!.filter((one) => one !== yarn) });
  for (const yarn of wish.never ?? [])
    add(`never ${yarn}`, `Not ${names.yarn(yarn)}`, { never: wish.never!.filter((one) => one !== yarn) });
  if (Array.isArray(wish.only)) {
    const only: readonly string[] = wish.only;
    add("only", `Only ${only.map((id) => names.yarn(id)).join(", ")}`, { only: undefined });
  }
  if (wish.share?.allow === true) add("share", "A yarn may serve two colours", { share: undefined });
  if (Array.isArray(wish.share?.allow)) {
    const pairs: readonly (readonly [string, string])[] = wish.share.allow;
    for (const pair of pairs) {
      const left = pairs.filter((one) => one !== pair);
      add(`share ${pair.join()}`, `${pair[0]} and ${pair[1]} may be one yarn`, {
        share: left.length > 0 ? { allow: left } : undefined,
      });
    }
  }
  for (const [key, words] of TOGETHER_WORDS)
    if (wish.together?.[key]) add(key, words, { together: { ...wish.together, [key]: undefined } });
  if (wish.buy)
    add("buy", `${wish.buy === 1 ? "One colour" : `${wish.buy} colours`} may be bought`, { buy: undefined });
  for (const [term, name] of TERM_NAMES) {
    const factor = wish.weights?.[term];
    if (factor !== undefined && factor !== 1)
      add(`weight ${term}`, `${name} counts ${factor === 0 ? "nothing" : `${factor} times as much`}`, {
        weights: { ...wish.weights, [term]: undefined },
      });
  }
  return lines;
}

export const LADDER_WORDS = {
  same: "Light and dark as in the pattern",
  reversed: "Light for dark: the ladder turned over",
  free: "Light and dark as it comes",
} as const;

export const CHARACTER_WORDS = {
  close: "Close to the pattern’s own contrasts",
  usual: "The pattern’s contrasts as usual",
  free: "The pattern’s contrasts count little",
} as const;

export const TOGETHER_WORDS = [
  ["thickness", "Yarns of one thickness"],
  ["felting", "Superwash and other wool not mixed"],
  ["lots", "No colour in two dye lots"],
] as const;

export const TERM_NAMES = [
  ["value", "Lightness"],
  ["contrast", "Contrast of neighbours"],
  ["hue", "Hue"],
  ["loudness", "Loudness"],
  ["showing", "What shows"],
] as const;

const BE_WORDS: Readonly<Record<string, string>> = {
  "like-original": "as in the pattern",
  quieter: "quieter",
  louder: "louder",
  light: "light",
  dark: "dark",
};
export const beWords = (be: string): string => BE_WORDS[be] ?? be.replace(/^hue:/, "in ");

function placeWords({ at }: Kept): string {
  if (!at) return "";
  const range = "chart" in at ? at.rows : at.rounds;
  const unit = "chart" in at ? "row" : "round";
  if (!range) return "chart" in at ? "" : " in that section";
  return range[0] === range[1] ? ` in ${unit} ${range[0]}` : ` in ${unit}s ${range[0]} to ${range[1]}`;
}

/** Parts of a wish to set; undefined takes one back. */
export type WishParts = { readonly [Part in keyof Wish]?: Wish[Part] | undefined };

/** The wish with some parts set. What is empty is left out, so that an empty wish is no wish. */
export function changedWish(wish: Wish, parts: WishParts): Wish {
  const entries = Object.entries({ ...wish, ...parts })
    .map(([name, value]) => [name, trimmed(value)] as const)
    .filter(([, value]) => value !== undefined);
  return Object.fromEntries(entries) as Wish;
}

function trimmed(value: unknown): unknown {
  if (Array.isArray(value)) return value.length > 0 ? value : undefined;
  if (typeof value !== "object" || value === null) return value;
  const left = Object.entries(value).filter(([, part]) => part !== undefined);
  return left.length > 0 ? Object.fromEntries(left) : undefined;
}
