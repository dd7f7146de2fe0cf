/** A yarn table from anybody's spreadsheet, made into yarns: every row ends as a yarn, a lot of one, or a problem that names its line. */
import type { Problem } from "../base/problem.ts";
import { unguarded } from "./formulaCell.ts";
import { gatherYarns, problem, type Gathered } from "./gatherYarns.ts";
import { plainLetters } from "./plainLetters.ts";
import { decimalSignOf, type DecimalSign } from "./quantity.ts";
import { yarnOfRow, type RowReader, type RowYarn } from "./stashRow.ts";
import {
  columnsByCells,
  columnsOf,
  isHexCell,
  knownHeaders,
  type ChosenColumns,
  type Column,
  type Meaning,
} from "./tableHeaders.ts";
import { HEADING_ROWS, rowsOfTable, type TableRow } from "./tableRows.ts";

export interface StashTable extends Gathered {
  /** What each column was taken for, by its heading. */
  columns: Record<string, Meaning>;
  problems: Problem[];
  /** The columns in their order, with the first cells below them, so that she sees what was made of them. */
  preview: ColumnPreview[];
  /** The line of the headings; null where there are none. */
  headings: number | null;
  /** Null for a page's table. */
  separator: string | null;
  decimal: DecimalSign;
}

export interface ColumnPreview extends Column {
  /** The first cells that are filled. */
  samples: string[];
}

/** What she says of a table; all that is left out is found out. */
export interface TableReading {
  readonly columns?: ChosenColumns | undefined;
  readonly separator?: string | undefined;
  readonly decimal?: DecimalSign | undefined;
  /** The line of the headings; null: there are none. */
  readonly headings?: number | null | undefined;
  /** Lines that are left out. */
  readonly skip?: readonly number[] | undefined;
}

/** Reads comma, semicolon, tab or bar separated text, or a page's table. Never throws; formulas stay the text that they are. */
export function readStashTable(text: string, reading: TableReading = {}): StashTable {
  const problems: Problem[] = [];
  const skipped = new Set(reading.skip);
  const found = rowsOfTable(text, knownHeaders, reading.separator);
  const rows = found.rows
    .filter(({ line }) => !skipped.has(line))
    .map(({ line, cells }) => ({ line, cells: cells.map((cell) => unguarded(cell)) }));
  const { separator } = found;
  if (rows.length === 0 || rows.some(({ cells }) => cells.some((cell) => cell.includes("\u0000")))) {
    const got = rows.length === 0 ? "nothing" : "what looks like a file of another kind";
    problems.push({ where: "the table", expected: "yarns, one to a line", got, severity: "fault" });
    const nothing = {
      yarns: [],
      unshaded: [],
      byName: {},
      noShade: {},
      lines: {},
      columns: {},
      preview: [],
      headings: null,
    };
    return { ...nothing, problems, separator, decimal: reading.decimal ?? "." };
  }
  for (const line of found.stray)
    problems.push(problem(line, "the quotes", "a quote that is closed", "one that is not; taken as a letter", "doubt"));
  const { columns, body, headings } = headed(rows, reading, problems);
  const decimal = reading.decimal ?? decimalOf(columns, body);
  const layout = layoutOf(columns);
  const entries = body.flatMap((row) => {
    const stranger = strangerOf(row, columns);
    if (stranger) {
      problems.push(problem(row.line, "the line", "a yarn", `${stranger}; left out`, "note"));
      return [];
    }
    const read = yarnOfRow(readerOf(row, layout, decimal, problems));
    if (isNamed(read)) return [{ line: row.line, row: read }];
    problems.push(problem(row.line, "the line", "the name or the shade of a yarn", "neither; left out", "fault"));
    return [];
  });
  const gathered = gatherYarns(entries, problems);
  if (gathered.yarns.length === 0 && !problems.some(({ severity }) => severity === "fault"))
    problems.push({ where: "the table", expected: "yarns, one to a line", got: "none", severity: "fault" });
  problems.sort((one, other) => (one.line ?? 0) - (other.line ?? 0));
  return {
    ...gathered,
    columns: Object.fromEntries(columns.map(({ header, meaning }) => [header, meaning])),
    problems,
    preview: columns.map((column, index) => ({ ...column, samples: samplesOf(body, index) })),
    headings,
    separator,
    decimal,
  };
}

function headed(
  rows: readonly TableRow[],
  { headings, columns: chosen = {} }: TableReading,
  problems: Problem[],
): { columns: Column[]; body: TableRow[]; headings: number | null } {
  const at = headings === undefined ? headingsAt(rows, chosen) : rows.findIndex(({ line }) => line === headings);
  if (at >= 0) {
    const { line, cells } = rows[at]!;
    for (const above of rows.slice(0, at))
      problems.push(
        problem(above.line, "a line above the headings", "headings or a yarn", "other text; left out", "note"),
      );
    const body = rows.slice(at + 1);
    return { columns: columnsOf(cells, columnIn(body), chosen), body, headings: line };
  }
  if (headings === undefined)
    problems.push(
      problem(rows[0]!.line, "the headings", "a first line such as name, hex, grams", "none; read by content", "doubt"),
    );
  const width = rows.reduce((most, { cells }) => Math.max(most, cells.length), 0);
  return { columns: columnsByCells(width, columnIn(rows), chosen), body: [...rows], headings: null };
}

/** The row with the most words that head a column, hers first; -1 where none has any, or where it holds a colour. */
function headingsAt(rows: readonly TableRow[], chosen: ChosenColumns): number {
  const hers = (cell: string): boolean => !/^\d+$/.test(cell.trim()) && Object.hasOwn(chosen, cell.trim());
  const known = rows
    .slice(0, HEADING_ROWS)
    .map(({ cells }) => knownHeaders(cells) + HEADING_ROWS * cells.filter(hers).length);
  const most = Math.max(...known);
  const at = known.indexOf(most);
  return most > 0 && !rows[at]!.cells.some((cell) => isHexCell(cell) && /[#\d]/.test(cell)) ? at : -1;
}

const columnIn =
  (body: readonly TableRow[]) =>
  (index: number): string[] =>
    body.map((row) => row.cells[index] ?? "");

function samplesOf(body: readonly TableRow[], index: number): string[] {
  const samples: string[] = [];
  for (const { cells } of body) {
    const cell = cells[index]?.trim() ?? "";
    if (cell !== "") samples.push(cell.slice(0, LONGEST_SAMPLE));
    if (samples.length === SAMPLES) break;
  }
  return samples;
}

/** What a row is instead of a yarn: totals at the bottom, headings said again; null where it may be one. */
function strangerOf({ cells }: TableRow, columns: readonly Column[]): string | null {
  if (columns.every(({ header }, index) => (cells[index]?.trim() || `column ${index + 1}`) === header))
    return "the headings again";
  const first = plainLetters(cells.find((cell) => cell.trim() !== "") ?? "").trim();
  const told = columns.some(({ meaning }, index) => A_YARN_HAS.has(meaning) && (cells[index]?.trim() ?? "") !== "");
  return TOTAL.test(first) && !told ? "a total" : null;
}

/** What no line of totals has. */
const A_YARN_HAS: ReadonlySet<Meaning> = new Set(["hex", "lab", "L", "flecks", "lot", "maker", "fibre"]);

const isNamed = ({ name, shadeName, shadeNumber, id, shade, toldShade, flecks }: RowYarn): boolean =>
  [name, shadeName, shadeNumber, id, shade, flecks].some((told) => told !== undefined) || toldShade;

/** In the languages of the headings, from memory. */
const TOTAL =
  /^(?:grand |sub-?)?(?:totals?|sum|summe|summa|gesamt|gesamtsumme|insgesamt|totalt|totaal|totale|total general|somme|suma|somma|yhteensa|samtals|i ?alt|sum total)\s*:?\s*$/;

/** Names and notes have commas of their own; only cells of amounts tell how decimals are written. */
function decimalOf(columns: readonly Column[], body: readonly TableRow[]): DecimalSign {
  const amounts = columns.flatMap(({ meaning }, index) => (AMOUNTS.has(meaning) ? [index] : []));
  return decimalSignOf(body.flatMap(({ cells }) => amounts.map((index) => cells[index] ?? "")));
}

const AMOUNTS: ReadonlySet<Meaning> = new Set([
  "L",
  "a",
  "b",
  "uncertainty",
  "metres per 100 g",
  "metres per ball",
  "grams per ball",
  "grams",
  "metres",
  "balls",
  "grams of all lots",
]);

interface Layout {
  readonly columns: readonly Column[];
  /** Where the column of a meaning stands. */
  readonly places: ReadonlyMap<Meaning, number>;
  readonly notes: readonly number[];
}

const layoutOf = (columns: readonly Column[]): Layout => ({
  columns,
  places: new Map(columns.map(({ meaning }, index) => [meaning, index])),
  notes: columns.flatMap(({ meaning }, index) => (meaning === "note" ? [index] : [])),
});

function readerOf(row: TableRow, layout: Layout, decimal: DecimalSign, problems: Problem[]): RowReader {
  const { columns, places, notes } = layout;
  const extra = row.cells.length > columns.length ? row.cells.slice(columns.length) : [];
  if (extra.some((cell) => cell.trim() !== "")) {
    const words = extra.filter((cell) => cell.trim() !== "").join(", ");
    const got = `${row.cells.length}; left out: ${JSON.stringify(words.slice(0, 60))}`;
    problems.push(problem(row.line, "the row", `${columns.length} cells`, got, "doubt"));
  }
  const text = (meaning: Meaning): string | null => {
    const place = places.get(meaning);
    return (place === undefined ? "" : (row.cells[place] ?? "")).trim() || null;
  };
  return {
    decimal,
    text,
    unit: (meaning) => (text(meaning) === null ? "" : columns[places.get(meaning)!]!.unit),
    notes: notes.map((index) => (row.cells[index] ?? "").trim()),
    tell: (where, expected, got, severity) => problems.push(problem(row.line, where, expected, got, severity)),
  };
}

/** Cells of a column that she is shown, and characters of each. */
const SAMPLES = 3;
const LONGEST_SAMPLE = 60;
