/** Tables that were saved as a web page and called .csv, as some shops and programs do: their rows as plain cells. */
import type { TableRow } from "./tableRows.ts";

export const isPageTable = (text: string): boolean =>
  /^\s*(?:<!doctype html|<html|<head|<meta|<body|<table|<!--)/i.test(text.slice(0, 200)) && /<tr[\s>]/i.test(text);

/** Rows that are not blank. Only what stands in cells is read; nothing in the page is run or fetched. */
export function rowsOfPage(page: string): TableRow[] {
  const rows: TableRow[] = [];
  let line = 1;
  let at = 0;
  let row: TableRow | null = null;
  let cell: { from: number; span: number } | null = null;
  const endCell = (to: number): void => {
    if (row && cell) row.cells.push(plainText(page.slice(cell.from, to)), ...Array<string>(cell.span - 1).fill(""));
    cell = null;
  };
  const endRow = (to: number): void => {
    endCell(to);
    if (row?.cells.some((text) => text.trim() !== "")) rows.push(row);
    row = null;
  };
  const tags = /<(\/?)(tr|td|th|table)\b([^<>]*)>/gi;
  for (let tag = tags.exec(page); tag; tag = tags.exec(page)) {
    for (; at < tag.index; at++) if (page.charCodeAt(at) === 10) line++;
    const [whole, closing, name, attributes] = tag as unknown as [string, string, string, string];
    const kind = name.toLowerCase();
    if (kind === "table" || kind === "tr") endRow(tag.index);
    else endCell(tag.index);
    if (closing) continue;
    if (kind === "tr") row = { line, cells: [] };
    else if (kind !== "table") {
      const span = Number(/colspan\s*=\s*["']?(\d{1,2})/i.exec(attributes)?.[1] ?? 1);
      cell = { from: tag.index + whole.length, span: Math.max(1, span) };
    }
  }
  endRow(page.length);
  return rows;
}

function plainText(part: string): string {
  return part
    .replace(/\s+/g, " ")
    .replace(/<br\s*\/?>/gi, "\n")
    .replace(/<[^<>]*>/g, "")
    .replace(/&(?:#(\d{1,7})|#x([0-9a-f]{1,6})|([a-z]{2,8}));/gi, (whole, decimal, hex, name: string | undefined) => {
      if (name !== undefined) return NAMED.get(name) ?? whole;
      const point = decimal === undefined ? parseInt(hex as string, 16) : Number(decimal);
      return point > 0 && point <= 0x10ffff ? String.fromCodePoint(point) : whole;
    })
    .trim();
}

/** Character references of HTML that stand in tables of yarns. */
const NAMED: ReadonlyMap<string, string> = new Map(
  Object.entries({
    amp: "&",
    lt: "<",
    gt: ">",
    quot: '"',
    apos: "'",
    nbsp: " ",
    times: "×",
    frac12: "½",
    frac14: "¼",
    frac34: "¾",
    plusmn: "±",
    aelig: "æ",
    oslash: "ø",
    aring: "å",
    auml: "ä",
    ouml: "ö",
    uuml: "ü",
    szlig: "ß",
    eacute: "é",
    egrave: "è",
    AElig: "Æ",
    Oslash: "Ø",
    Aring: "Å",
    Auml: "Ä",
    Ouml: "Ö",
    Uuml: "Ü",
  }),
);
