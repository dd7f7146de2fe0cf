/** What the columns of somebody's yarn table mean, from their headings and, where these leave it open, from their cells. */
import { parseHex } from "../colour/srgb.ts";

export type Meaning =
  | "id"
  | "name"
  | "shade name"
  | "shade number"
  | "hex"
  | "lab"
  | "L"
  | "a"
  | "b"
  | "uncertainty"
  | "grams"
  | "metres"
  | "balls"
  | "metres per 100 g"
  | "metres per ball"
  | "grams per ball"
  | "lot"
  | "maker"
  | "fibre"
  | "note"
  | "not used";

export interface Column {
  header: string;
  meaning: Meaning;
  /** A unit in the heading, such as "oz" of "Weight (oz)", for cells that have none. */
  unit: string;
}

/** Columns from a row of headings; `cells(i)` gives the cells below the i-th. */
export function columnsOf(headers: readonly string[], cells: (index: number) => readonly string[]): Column[] {
  const taken = new Set<Meaning>();
  const columns = headers.map((header, index): Column => {
    const { meaning, unit } = meaningOfHeader(header);
    return { header: header.trim() || `column ${index + 1}`, meaning: byCells(meaning, cells(index)), unit };
  });
  // A column states a thing once; of two that state the same the first counts, but notes add up.
  for (const column of columns) {
    if (column.meaning === "shade name" && !columns.some(({ meaning }) => meaning === "name")) column.meaning = "name";
    if (column.meaning !== "not used" && column.meaning !== "note") {
      if (taken.has(column.meaning)) column.meaning = "not used";
      taken.add(column.meaning);
    }
  }
  const seen = new Map<string, number>();
  for (const column of columns) {
    const times = (seen.get(column.header) ?? 0) + 1;
    seen.set(column.header, times);
    if (times > 1) column.header = `${column.header} (${times})`;
  }
  return columns;
}

/** How many of a row's cells are headings we know. */
export function knownHeaders(row: readonly string[]): number {
  return row.filter((cell) => meaningOfHeader(cell).meaning !== "not used").length;
}

/** Columns of a table without headings, by what stands in them. */
export function columnsByCells(count: number, cells: (index: number) => readonly string[]): Column[] {
  const taken = new Set<Meaning>();
  return Array.from({ length: count }, (_, index) => {
    const filled = cells(index).filter((cell) => cell.trim() !== "");
    const most = (test: (cell: string) => boolean): boolean => filled.filter(test).length * 2 > filled.length;
    let meaning: Meaning = "not used";
    if (most(isHexCell)) meaning = "hex";
    else if (most((cell) => /\d\s*(?:m|yds?)\s*(?:\/|per)/i.test(cell))) meaning = "metres per 100 g";
    else if (most((cell) => /^\s*[\d.,]+\s*(?:g|gr|grams?|oz)?\s*$/i.test(cell))) meaning = "grams";
    else if (most((cell) => /\p{L}/u.test(cell))) meaning = "name";
    if (taken.has(meaning)) meaning = "not used";
    taken.add(meaning);
    return { header: `column ${index + 1}`, meaning, unit: "" };
  });
}

export const isHexCell = (cell: string): boolean => parseHex(hexText(cell)) !== null;

/** A hex code with its "#", which tables often leave away. */
export function hexText(cell: string): string {
  const bare = cell.trim().replace(/^(?:hex|0x)[:\s]*/i, "");
  return /^[0-9a-f]{6}$|^[0-9a-f]{3}$/i.test(bare) ? `#${bare}` : bare;
}

/** "Shade" and "Colour" may head a name, a hex code or Lab; the cells decide. */
function byCells(meaning: Meaning, cells: readonly string[]): Meaning {
  if (!["shade name", "name", "shade number", "not used"].includes(meaning)) return meaning;
  const filled = cells.filter((cell) => cell.trim() !== "");
  if (filled.length === 0) return meaning;
  const hashed = filled.filter(
    (cell) => /^\s*#|^\s*rgb\s*\(/i.test(cell) || (meaning !== "not used" && isHexCell(cell)),
  );
  if (hashed.length * 2 > filled.length && filled.some((cell) => /#|rgb|[a-f]/i.test(cell))) return "hex";
  if (filled.filter((cell) => /^\s*lab\s*\(/i.test(cell)).length * 2 > filled.length) return "lab";
  return meaning;
}

function meaningOfHeader(header: string): { meaning: Meaning; unit: string } {
  const text = header
    .toLowerCase()
    .normalize("NFD")
    .replace(/\p{M}/gu, "")
    .replace(/colou?r(?:way)?/g, "colour")
    .replace(/[_–—.:?]+/g, " ")
    .replace(/\s+/g, " ")
    .trim();
  if (text === "" || text.length > LONGEST_HEADER) return { meaning: "not used", unit: "" };
  const unit =
    /[([]\s*([^)\]]+?)\s*[)\]]\s*$/.exec(text)?.[1] ?? /\bin (g|grams|oz|m|metres|yds?|yards)$/.exec(text)?.[1] ?? "";
  const bare = text
    .replace(/[([].*?[)\]]/g, "")
    .replace(/\bin (?:g|grams|oz|m|metres|yds?|yards)$/, "")
    .trim();
  for (const [meaning, pattern] of HEADERS) {
    if (pattern.test(bare) || (bare !== text && pattern.test(text)))
      return { meaning, unit: unitOf(meaning, bare, unit) };
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

/** Tried in order, on lower-case text without accents where "color" and "colourway" are "colour". Common practice, no source. */
const HEADERS: readonly (readonly [Meaning, RegExp])[] = [
  [
    "hex",
    /^(?:(?:colour|shade|rgb|html|web|srgb)\s*)?(?:hex|rgb|srgb)(?:\s*(?:code|value|colour|shade))?$|^#$|^(?:colour|html|web) code$/,
  ],
  ["lab", /^(?:cie\s*)?l\s*\*?\s*,?\s*a\s*\*?\s*,?\s*b\s*\*?(?:\s*(?:value|colour|d65))?$|^cielab$/],
  ["L", /^(?:cie\s*|lab[\s-]*)?l\s*\*?$|^lightness$/],
  ["a", /^(?:cie\s*|lab[\s-]*)?a\s*\*?$/],
  ["b", /^(?:cie\s*|lab[\s-]*)?b\s*\*?$/],
  ["uncertainty", /^uncertainty$|^(?:delta e|de00|±)$/],
  [
    "metres per ball",
    /^(?:m|metres?|meters?|yds?|yards?|yardage|length|put-?up)\s*(?:\/|per|a|in a|each)\s*(?:ball|skein|hank|unit|cone)$|^(?:ball|skein|hank) (?:length|metres|meters|yards|yardage|m|yds?)$/,
  ],
  [
    "grams per ball",
    /^(?:g|grams?|weight|oz)\s*(?:\/|per|of a|of)\s*(?:ball|skein|hank|unit|cone)$|^(?:ball|skein|hank|unit) (?:weight|grams|g|size)$/,
  ],
  [
    "metres per 100 g",
    /^(?:m|metres?|meters?|yds?|yards?|length|yardage)\s*(?:\/|per)\s*(?:\d+\s*(?:g|gr|grams?|oz)|g|gram)$|^(?:thickness|metrage|yardage|put-?up|ball band|label length|laufl(?:a|ae)nge|lopelengde|lobelaengde|length per weight|metresper100g|meterage)$/,
  ],
  ["balls", /^(?:(?:no|number|nr|#)?\s*(?:of )?)?(?:balls|skeins|hanks)(?: (?:owned|left))?$|^(?:quantity|qty|count)$/],
  [
    "grams",
    /^(?:g|gr|gm|grams?|grammes?|weight|oz|ounces)(?:\s*(?:g|grams|owned|left|remaining|available|in stash|on hand|have))?$|^(?:total |remaining |left |my |stash |owned )(?:g|grams|weight)$|^(?:amount|amount left|remaining|left|left over|leftover|stock|have|on hand|owned|gewicht|poids|vekt|vaegt|menge)$/,
  ],
  [
    "metres",
    /^(?:m|metres?|meters?|yds?|yards?|length)(?:\s*(?:owned|left|remaining|available|in stash|on hand))?$|^(?:total |remaining )(?:metres|meters|yards|length|m)$/,
  ],
  [
    "lot",
    /^(?:dye\s*-?\s*)?(?:lot|batch)(?:\s*(?:no|number|nr|#|id|code))?$|^(?:dyelot|partie|farbpartie|innfargingsparti|parti|bain)$/,
  ],
  [
    "maker",
    /^(?:maker|brand|manufacturer|company|mill|producer|spinner|marke|hersteller|marque|merke|maerke|make)(?: name)?$/,
  ],
  [
    "fibre",
    /^(?:fib(?:re|er)s?|material|composition|content|blend|faser|fibres?|garnart)(?:\s*(?:content|type|mix|composition))?$/,
  ],
  ["note", /^(?:notes?|comments?|remarks?|memo|bemerkung|anmerkung|notiz|merknad|note)$/],
  ["id", /^(?:id|yarn id|key)$/],
  [
    "shade number",
    /^(?:(?:shade|colour)\s*(?:no|nr|number|#|id)|no|nr|number|code|shade code|farbnummer|fargenr|farvenr)$/,
  ],
  ["name", /^(?:name|yarn|yarn name|yarn line|title|garn|garn name|label|item|line|quality)$/],
  [
    "shade name",
    /^(?:shade|colour|hue|farbe|couleur|farge|farve)(?:\s*name)?$|^(?:name of (?:shade|colour)|farbname)$/,
  ],
];
