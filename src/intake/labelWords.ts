/** Words on labels and in tables for thickness class, plies, wash and yes or no, in several languages. */
import { weightClassesOf } from "../yarn/weightClass.ts";
import { plainLetters } from "./plainLetters.ts";

/**
 * The council's categories (0 lace to 7 jumbo) that a word or number means; several where published words overlap, as
 * "baby" does; empty where it is none. Source: trade.md 2 and yarn-weights.json (council categories with the British and
 * Australian "ply" words; ply as a class differs by country, so it is never strands here).
 */
export function classesOfWord(text: string): readonly number[] {
  const bare = plainLetters(text.trim())
    .replace(/\(.*\)|\b(?:weight|yarn|garn|category|kategorie|class|klasse|cyc|craft yarn council)\b|[#:]/g, " ")
    .replace(/(?<=[a-z\d])\s*[-_/]+\s*(?=[a-z])/g, " ")
    .replace(/\s+/g, " ")
    .trim();
  const number = /^([0-7])(?: .*)?$/.exec(bare);
  const word = CLASSES.get(bare.replace(/ ?(?:ply|plies|fadig|tradig|trads)$/, " ply"));
  if (word) return word;
  if (number && (bare.length === 1 || CLASSES.has(bare.slice(2)))) return [Number(number[1])];
  const parts = bare.split(/ or | and | to |, /);
  if (parts.length < 2) return [];
  const each = parts.map((part) => CLASSES.get(part));
  return each.some((one) => !one) ? [] : [...new Set(each.flatMap((one) => one!))].sort();
}

/** Of several classes the one whose published ranges hold the yarn's metres per 100 g; null where they do not tell. */
export function classByLength(classes: readonly number[], metresPer100g: number | undefined): number | null {
  if (classes.length === 1) return classes[0]!;
  if (metresPer100g === undefined) return null;
  const holding = weightClassesOf(metresPer100g).filter((one) => classes.includes(one));
  return holding.length === 1 ? holding[0]! : null;
}

/** Strands twisted together: "2", "2-ply", "4fädig"; null where it is none. */
export function pliesOf(text: string): number | null {
  const words = plainLetters(text.trim());
  if (/^(?:singles?|single ply|einfach)$/.test(words)) return 1;
  const match =
    /^(\d{1,6})\s*-?\s*(?:ply|plies|strands?|fadig|fach|fils?|brins?|trads?|tradig|trader|tradar|draads|cabos?|capi|fili|saikeinen|tradur)?$/.exec(
      words,
    );
  const plies = match ? Number(match[1]) : 0;
  return plies >= 1 ? plies : null;
}

/** Yes or no in several languages; null where it is neither. */
export function flagOf(text: string): boolean | null {
  const word = plainLetters(text.trim());
  if (YES.has(word)) return true;
  return NO.has(word) ? false : null;
}

/** Superwash as a cell tells it: yes, no, or the words of a label; null where they leave it open, as "hand wash" does. */
export function superwashOf(text: string): boolean | null {
  const words = plainLetters(text.trim());
  if (/^(?:non|not|no|nicht|ikke|ej|pas|sin|niet)\b[\s-]*super\s?-?wash|^untreated|^felts?$/.test(words)) return false;
  if (/super\s?-?wash|^sw$|machine|maschin|maskin|lavadora|lavatrice|wasmachine|konepesu/.test(words)) return true;
  return flagOf(text);
}

const YES: ReadonlySet<string> = new Set("yes y true 1 x ✓ ✔ ja j oui o si s kylla k on sw".split(" "));
const NO: ReadonlySet<string> = new Set("no n false 0 - – nein non nei nej nee ei off".split(" "));

const CLASSES: ReadonlyMap<string, readonly number[]> = new Map(
  (
    [
      [[0], "lace, lace thread, thread, cobweb, light fingering, 1 ply, 2 ply, dentelle, blonde, spitze, pitsi"],
      [[1], "super fine, superfine, sock, fingering, light sport, 3 ply, 4 ply, sockengarn, sokkegarn, strompegarn"],
      [[1, 2], "baby"],
      [[2], "fine, sport, light dk, 5 ply, sportweight"],
      [[3], "light, dk, double knit, double knitting, light worsted, 8 ply"],
      [[4], "medium, worsted, afghan, aran, heavy worsted, 10 ply"],
      [[5], "bulky, chunky, craft, rug, 12 ply, grov"],
      [[6], "super bulky, super chunky, 14 ply"],
      [[6, 7], "roving"],
      [[7], "jumbo"],
    ] as const
  ).flatMap(([classes, words]) => words.split(", ").map((word) => [word, classes] as const)),
);
