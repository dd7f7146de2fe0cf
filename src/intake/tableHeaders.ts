/** What the columns of somebody's yarn table mean, from their headings and, where these leave it open, from their cells. */
import { parseHex } from "../colour/srgb.ts";
import { englishHeading } from "./headerWords.ts";
import { classesOfWord } from "./labelWords.ts";
import { decimalSignOf, readQuantity, readThickness } from "./quantity.ts";
import { findShade } from "./statedShade.ts";

export type Meaning = (typeof MEANINGS)[number];
/** In the order in which a table is written, and offered. */
export const MEANINGS = [
  "id",
  "name",
  "maker",
  "fibre",
  "shade name",
  "shade number",
  "hex",
  "lab",
  "L",
  "a",
  "b",
  "uncertainty",
  "shade from",
  "metres per 100 g",
  "metres per ball",
  "grams per ball",
  "grams",
  "metres",
  "balls",
  "lot",
  "lot id",
  "weighed",
  "grams of all lots",
  "plies",
  "weight class",
  "superwash",
  "hand-dyed",
  "flecks",
  "note",
  "not used",
] as const;

/** "known": the heading says it; "cells": what stands below it does; "guess": there was no heading; "chosen": she said so. */
export type Sure = "known" | "cells" | "guess" | "chosen";

export interface Column {
  header: string;
  meaning: Meaning;
  /** A unit in the heading, such as "oz" of "Weight (oz)", for cells that have none. */
  unit: string;
  sure: Sure;
}

/** What she says of columns, by heading as told or by number from 1. */
export type ChosenColumns = Readonly<Record<string, Meaning>>;

/** Columns from a row of headings; `cells(i)` gives the cells below the i-th. */
export function columnsOf(
  headers: readonly string[],
  cells: (index: number) => readonly string[],
  chosen: ChosenColumns = {},
): Column[] {
  const headings = headers.map(meaningOfHeader);
  const mayHead = colourHeadings(headings, cells);
  const read = headers.map((header, index) => ({
    header: header.trim() || `column ${index + 1}`,
    ...byCells(headings[index]!, cells(index), mayHead),
  }));
  return settled(read, chosen);
}

/** Columns of a table without headings, by what stands in them. */
export function columnsByCells(
  count: number,
  cells: (index: number) => readonly string[],
  chosen: ChosenColumns = {},
): Column[] {
  const columns = Array.from({ length: count }, (_, index): Column => {
    const filled = cells(index).filter((cell) => cell.trim() !== "");
    const most = (test: (cell: string) => boolean): boolean => filled.filter(test).length * 2 > filled.length;
    let meaning: Meaning = "not used";
    if (most(isColourCell) || most((cell) => /^lab\s*\(/i.test(cell.trim()))) meaning = "hex";
    else if (most(isThicknessCell)) meaning = "metres per 100 g";
    else if (most((cell) => readQuantity(cell, decimalSignOf(filled)) !== null)) meaning = "grams";
    else if (most((cell) => classesOfWord(cell).length > 0)) meaning = "weight class";
    else if (most((cell) => /\p{L}/u.test(cell))) meaning = "name";
    return { header: `column ${index + 1}`, meaning, unit: "", sure: "guess" };
  });
  return settled(columns, chosen);
}

/** How many of a row's cells are headings we know. */
export function knownHeaders(row: readonly string[]): number {
  return row.filter((cell) => meaningOfHeader(cell).meaning !== "not used").length;
}

/** A column states a thing once: what she chose, then what says "left", then the first; but notes add up. */
function settled(columns: readonly Column[], chosen: ChosenColumns): Column[] {
  const seen = new Map<string, number>();
  const named = columns.map((column) => {
    const times = (seen.get(column.header) ?? 0) + 1;
    seen.set(column.header, times);
    return times > 1 ? { ...column, header: `${column.header} (${times})` } : { ...column };
  });
  named.forEach((column, index) => {
    const key = [column.header, String(index + 1)].find((name) => Object.hasOwn(chosen, name));
    if (key === undefined) return;
    [column.meaning, column.sure] = [chosen[key]!, "chosen"];
  });
  if (!named.some(({ meaning }) => meaning === "name")) {
    const shade = named.find(({ meaning, sure }) => meaning === "shade name" && sure !== "chosen");
    if (shade) shade.meaning = "name";
  }
  const ranked = [
    ...named.filter(({ sure }) => sure === "chosen"),
    ...named.filter(({ sure, meaning, header }) => sure !== "chosen" && meaning === "grams" && saysLeft(header)),
    ...named,
  ];
  const taken = new Map<Meaning, Column>();
  for (const column of ranked) {
    const { meaning } = column;
    if (meaning === "not used" || meaning === "note") continue;
    const first = taken.get(meaning);
    if (first && first !== column) column.meaning = "not used";
    else taken.set(meaning, column);
  }
  return named;
}

const saysLeft = (header: string): boolean => /\b(?:left|remaining)\b/.test(englishHeading(header));

export const isHexCell = (cell: string): boolean => parseHex(hexText(cell)) !== null;
const isColourCell = (cell: string): boolean => isHexCell(cell) || COLOUR.test(cell);
const COLOUR = /^\s*rgba?\s*\(|^[\s(]*(?:\d{1,3}[\s,;/]+){2}\d{1,3}[\s)]*$/i;
const isThicknessCell = (cell: string): boolean => readThickness(cell, ".") !== null;

/** A hex code with its "#", which tables often leave away. */
export function hexText(cell: string): string {
  const bare = cell.trim().replace(/^(?:hex|0x)[:\s]*/i, "");
  return /^[0-9a-f]{6}$|^[0-9a-f]{3}$/i.test(bare) ? `#${bare}` : bare;
}

/** Headings below which a colour may stand; where another column is headed as the colour, names such as "Bee" are no hex codes. */
function colourHeadings(headings: readonly Heading[], cells: (index: number) => readonly string[]): readonly Meaning[] {
  if (headings.some(({ meaning }, index) => meaning === "hex" && cells(index).some(isColourCell))) return [];
  const besideLab: readonly Meaning[] = ["shade name", "shade number", "not used"];
  return headings.some(({ meaning }) => meaning === "lab" || meaning === "L") ? besideLab : ["name", ...besideLab];
}

/** "Shade" and "Colour" may head a name, a hex code or Lab, and "Weight" grams or a class; the cells decide. */
function byCells(
  { meaning, unit }: Heading,
  cells: readonly string[],
  mayHead: readonly Meaning[],
): Omit<Column, "header"> {
  const filled = cells.filter((cell) => cell.trim() !== "").slice(0, LOOKED_AT);
  const as = (other: Meaning): Omit<Column, "header"> => ({ meaning: other, unit, sure: "cells" });
  const asHeaded: Omit<Column, "header"> = { meaning, unit, sure: "known" };
  if (filled.length === 0) return asHeaded;
  const most = (test: (cell: string) => boolean): boolean => filled.filter(test).length * 2 > filled.length;
  if (mayHead.includes(meaning)) {
    const hashed = (cell: string): boolean =>
      /^\s*#|^\s*rgba?\s*\(/i.test(cell) || (meaning !== "not used" && isHexCell(cell));
    if (most(hashed) && filled.some((cell) => /#|rgb|[a-f]/i.test(cell))) return as("hex");
    if (most((cell) => /^\s*lab\s*\(/i.test(cell) && findShade(cell) !== null)) return as("lab");
  }
  if (meaning === "not used" && most(isThicknessCell)) return as("metres per 100 g");
  const isAmount = (cell: string): boolean => readQuantity(cell, ".") !== null;
  if (meaning === "name" && unit === COUNT && most(isAmount)) return as("balls");
  if (meaning === "grams" || meaning === "weight class") {
    if (most((cell) => classesOfWord(cell).length > 0 && /\p{L}/u.test(cell))) return as("weight class");
    if (most(isThicknessCell)) return as("metres per 100 g");
  }
  // Nobody's yarn has eight strands of that name: in some countries "ply" is a thickness.
  if (meaning === "plies" && unit === PLY && filled.some((cell) => /^\s*(?:5|8|10|12|14)\b/.test(cell)))
    return as("weight class");
  // A maker's own colour codes are no colours.
  if (
    meaning === "hex" &&
    !most(isColourCell) &&
    !filled.some((cell) => findShade(cell) !== null || /^#/.test(cell.trim()))
  )
    return most((cell) => /\d/.test(cell)) ? as("shade number") : asHeaded;
  return asHeaded;
}

interface Heading {
  meaning: Meaning;
  unit: string;
}

function meaningOfHeader(header: string): Heading {
  if (header.length > LONGEST_HEADER || header.trim() === "") return { meaning: "not used", unit: "" };
  const text = englishHeading(header);
  const unit =
    /[([]\s*([^)\]]+?)\s*[)\]]\s*$/.exec(text)?.[1] ??
    /\bin (g|grams|oz|ounces|m|metres|yds?|yards)$/.exec(text)?.[1] ??
    "";
  const bare = text
    .replace(/[([].*?[)\]]/g, "")
    .replace(/\bin (?:g|grams|oz|ounces|m|metres|yds?|yards)$/, "")
    .trim();
  // In French a number, in Spanish a name.
  if (bare === "nombre") return { meaning: "name", unit: COUNT };
  if (bare === "ply") return { meaning: "plies", unit: PLY };
  const counted = bare.replace(/^nombre of\b/, "number of");
  for (const [meaning, pattern] of HEADERS) {
    if (pattern.test(counted) || (bare !== text && pattern.test(text)))
      return { meaning, unit: unitOf(meaning, counted, unit) };
  }
  return { meaning: "not used", unit };
}

function unitOf(meaning: Meaning, bare: string, unit: string): string {
  if (unit) return unit;
  if (meaning === "metres per 100 g") return /(\b(?:m|metres?|meters?|yds?|yards?)\b.*)/.exec(bare)?.[1] ?? "";
  const stated = /\b(g|grams|oz|ounces|kg|lb|yds?|yards|yardage|m|metres|meters)\b/.exec(bare)?.[1] ?? "";
  return stated === "yardage" ? "yards" : stated;
}

/** Letters; a cell longer than this is prose, not a heading. Our choice. */
const LONGEST_HEADER = 48;
/** Cells that are enough to know a column by; our choice. */
const LOOKED_AT = 400;
/** Marks a heading that may mean a number of things. */
const COUNT = "count";
/** Marks a heading that means strands, or in some countries a thickness. */
const PLY = "ply";

const LENGTH = "(?:m|metres?|meters?|yds?|yards?|yardage|length|metrage)";
const WEIGHT = "(?:g|gr|gm|grams?|weight|oz|ounces)";
const BALL = "(?:ball|skein|hank|unit|cone|cake)";
const LEFT = "(?:owned|left|left over|remaining|available|in stash|on hand|have|total)";

/** Tried in order, on headings as `englishHeading` gives them. Common practice, no source. */
const HEADERS: readonly (readonly [Meaning, RegExp])[] = (
  [
    [
      "hex",
      "(?:(?:colour|shade|rgb|html|web|srgb) ?)?(?:hex|rgb|srgb)(?: ?(?:code|value|colour|shade))?|#|(?:colour|html|web) code",
    ],
    ["lab", "(?:cie ?)?l ?\\*? ?,? ?a ?\\*? ?,? ?b ?\\*?(?: ?(?:value|colour|d65))?|cielab"],
    ["L", "(?:cie ?|lab[ -]*)?l ?\\*?|lightness"],
    ["a", "(?:cie ?|lab[ -]*)?a ?\\*?"],
    ["b", "(?:cie ?|lab[ -]*)?b ?\\*?"],
    ["uncertainty", "uncertainty|delta e|de00|±"],
    ["shade from", "(?:shade|colour) (?:from|known (?:from|by)|source)"],
    ["grams of all lots", "(?:all lots? together|grams of all lots?)"],
    [
      "metres per ball",
      `${LENGTH} ?(?:/|per|a|in a|each) ?${BALL}|${BALL} (?:length|metres|meters|yards|yardage|m|yds?)|length of ${BALL}`,
    ],
    ["grams per ball", `${WEIGHT} ?(?:/|per|of a|of|each) ?${BALL}|${BALL} (?:weight|grams|g|size)`],
    [
      "metres per 100 g",
      `${LENGTH} ?(?:/|per|in) ?(?:\\d+ ?(?:g|gr|grams?|oz)|g|gram|oz|lb)|metrage|yardage|put-?up|put up|ball band|label length|length per weight|metresper100g|meterage|(?:nm|tex|yarn count)`,
    ],
    [
      "balls",
      `(?:(?:no|number|nr|#|quantity) ?(?:of )?)?(?:balls?|skeins?|hanks?|cones?)(?: ${LEFT})?|quantity|count|(?:quantity|number) (?:of )?(?:balls?|skeins?|hanks?|yarn)|(?:balls?|skeins?) quantity`,
    ],
    [
      "weight class",
      "(?:yarn )?(?:weight|thickness) (?:class|category|name|type)|yarn weight|thickness|yarn thickness|category|cyc(?: weight| number)?|weight number|(?:class|category) of (?:weight|thickness)",
    ],
    [
      "grams",
      `(?:g|gr|gm|grams?|grammes?|weight|oz|ounces)(?: ?(?:g|grams|${LEFT}))?|(?:total|remaining|left|my|stash|owned) (?:g|grams|weight)|(?:amount|quantity left|left|left over|leftover|leftovers|remaining|stock|have|on hand|owned)(?: left)?`,
    ],
    [
      "metres",
      `(?:m|metres?|meters?|yds?|yards?|length)(?: ?${LEFT})?|(?:total|remaining) (?:metres|meters|yards|length|m)`,
    ],
    ["lot id", "lot id"],
    ["lot", "(?:dye[ -]*|colour )?(?:lot|batch)(?: ?(?:no|number|nr|#|code))?|dyelot|(?:number|no|nr) of lot"],
    ["weighed", "weighed(?: on scales)?|on (?:the )?scales"],
    ["plies", "ply|plies|(?:number|quantity) of plies|plied|ply count|no of plies|quantity plies"],
    ["superwash", "superwash|washing|super wash|machine ?wash(?:able|ing)?"],
    ["hand-dyed", "hand ?dyed|dyed by hand|teint main|teint a la main|tenido a mano|tinto a mano"],
    ["flecks", "flecks?|fleck colours|heather"],
    ["maker", "(?:maker|brand|manufacturer|company|mill|producer|spinner|make|dyer)(?: name)?|name of maker"],
    ["fibre", "(?:fibre|fibres|content|blend|yarn type)(?: ?(?:content|type|mix|fibre))?"],
    ["note", "(?:notes?|comments?|remarks?|memo)"],
    ["id", "id|yarn id|key"],
    [
      "shade number",
      "(?:shade|colour) ?(?:no|nr|n|number|#|id|code)|(?:number|no|nr|n) of (?:shade|colour)|no|nr|n|number|code|shade code|ref",
    ],
    [
      "name",
      "name|yarn|yarn name|yarn line|title|label|item|line|quality|name of yarn|name yarn|yarn quality|product|article|artikel|produkt|produit|article name|yarn colour",
    ],
    ["shade name", "(?:shade|colour|hue|colourway)(?: ?name)?|name of (?:shade|colour)"],
  ] as const
).map(([meaning, pattern]) => [meaning, new RegExp(`^(?:${pattern})$`)] as const);
