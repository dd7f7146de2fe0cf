/** The key of a typed chart: "A = #e8e2d2 hoar", "MC: cream", "CC1 rust", one to a line or several. */
import type { Problem } from "../../base/problem.ts";
import type { Lab } from "../../colour/lab.ts";
import { isPlainColour } from "../colourWords.ts";
import { findShade } from "../statedShade.ts";
import type { TextLine } from "./tokenChart.ts";

export interface KeyEntry {
  name: string | null;
  hex: string | null;
  lab: Lab | null;
  /** "no stitch". */
  empty: boolean;
  line: number;
}

export type Key = Map<string, KeyEntry>;

/** What a key calls the ground of a table whose cells are left blank. */
export const BLANK = "blank";

/** Takes the line into the key; false where it is no key line. A second word on the same colour is told and left out. */
export function takeKeyLine({ line, text }: TextLine, key: Key, problems: Problem[]): boolean {
  if (KEY_TITLE.test(text)) return true;
  const bare = text.replace(/^\s*(?:key|legend|colou?rs?|yarns?)\s*:\s*(?=\S+\s*[=:])/i, "");
  const parts = bare.split(/[,;]\s*(?=(?:\S|[A-Za-z]{1,4}\d{0,3})\s*(?:=|:\s))/u);
  const read = parts.map((part) => entryOf(part, line));
  if (read.some((one) => one === null)) {
    const whole = parts.length > 1 ? entryOf(bare, line) : null;
    if (!whole) return false;
    add(whole, key, problems);
    return true;
  }
  for (const one of read) add(one!, key, problems);
  return true;
}

interface ReadEntry extends KeyEntry {
  id: string;
  /** Something like a colour that is none. */
  bad: string | null;
}

function entryOf(text: string, line: number): ReadEntry | null {
  const match = SIGNED.exec(text) ?? SPACED.exec(text);
  if (!match) return null;
  const [, id, rest] = match as unknown as [string, string, string];
  const shade = findShade(rest);
  // Without a colour only a spaced sign and words make a key ("A=B=A=" may well be a row), or a code and words ("CC1 rust").
  const signed = /^\s*(?:(?:colou?r|yarn|shade)\s+)?\S+\s*(?:=>?|:|→|->|[–—])\s+\S/iu.test(text);
  const worded =
    signed && /\p{L}{2,}/u.test(rest) && !/\d\s*:/.test(text.slice(0, text.indexOf(rest)).replace(/\p{L}\d+/gu, ""));
  const coded =
    !signed &&
    /^[\p{L}\d\s'’-]+$/u.test(rest) &&
    (/^(?:MC|CC\d{0,2})$/.test(id) ? /\p{L}{3,}/u.test(rest) : isPlainColour(rest));
  if (!shade && !worded && !(coded && rest.trim().split(/\s+/).length <= MOST_WORDS)) return null;
  if (shade && shade.rest.trim() === "" && !/[\s=:→>–—]/u.test(text.slice(0, text.indexOf(rest)))) return null;
  const bad = shade ? null : (/#[0-9a-z]+/i.exec(rest)?.[0] ?? null);
  const name = (shade ? shade.rest : bad === null ? rest : rest.replace(bad, " "))
    .replace(/\s+/g, " ")
    .replace(/^[\s,;:()=–—-]+|[\s,;:()=–—-]+$/gu, "");
  return {
    id: /^(?:blank|empty)$/i.test(id) ? BLANK : id,
    name: name === "" ? null : name,
    hex: shade?.hex ?? null,
    lab: shade?.lab ?? null,
    empty: !shade && /^no[\s-]*st(?:itch)?(?:es)?$/i.test(name),
    line,
    bad,
  };
}

function add({ id, bad, ...entry }: ReadEntry, key: Key, problems: Problem[]): void {
  const where = `the key of ${id}`;
  const { line } = entry;
  if (bad !== null) problems.push({ where, expected: "a colour such as #e8e2d2", got: bad, severity: "doubt", line });
  const before = key.get(id);
  if (!before) {
    key.set(id, entry);
    return;
  }
  if (before.hex === null && entry.hex !== null) key.set(id, { ...entry, name: before.name ?? entry.name });
  else if (entry.hex !== null && before.hex !== entry.hex)
    problems.push({
      where,
      expected: "one colour",
      got: `a second one, ${entry.hex}, left out`,
      severity: "doubt",
      line,
    });
  else if (entry.name !== null && before.name !== null && entry.name !== before.name)
    problems.push({
      where,
      expected: "one name",
      got: `a second one, ${JSON.stringify(entry.name)}, left out`,
      severity: "doubt",
      line,
    });
}

const SIGNED =
  /^\s*(?:(?:colou?r|yarn|shade)\s+)?["']?(\S|[A-Za-z]{1,4}\d{0,3}|blank|empty)["']?\s*(?:=>?|:|→|->|[–—])\s*(\S.*)$/iu;
const SPACED = /^\s*(?:(?:colou?r|yarn|shade)\s+)?["']?(\S|[A-Za-z]{1,4}\d{0,3})["']?\s+(\S.*)$/iu;
const KEY_TITLE = /^\s*(?:#+\s*)?(?:the\s+)?(?:colou?r\s+)?(?:key|legend|colou?rs?|yarns?)\s*[:.]?\s*$/i;
/** Words of a name in a key line without a sign between; more are prose. Our choice. */
const MOST_WORDS = 4;
