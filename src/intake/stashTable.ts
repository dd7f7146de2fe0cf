/** A yarn table from anybody's spreadsheet, made into yarns: every row ends as a yarn, a lot of one, or a problem that names its line. */
// Ambient types have no import style, and the shells compile this file without seeing the whole room.
// eslint-disable-next-line @typescript-eslint/triple-slash-reference
/// <reference path="./papaparse.d.ts" />
import papaparse from "papaparse";
import type { Problem, Severity } from "../base/problem.ts";
import { deltaE2000 } from "../colour/difference.ts";
import { labOfShade, type Shade } from "../colour/shade.ts";
import { DEFAULT_UNCERTAINTY, type Lot, type Yarn } from "../yarn/yarn.ts";
import { decimalSignOf, type DecimalSign } from "./quantity.ts";
import { columnsByCells, columnsOf, isHexCell, knownHeaders, type Column, type Meaning } from "./tableHeaders.ts";
import { yarnOfRow, type RowReader, type RowYarn } from "./stashRow.ts";

export interface StashTable {
  yarns: Yarn[];
  /** Yarns of rows without a usable shade, as far as they could be read; each is also a problem. */
  unshaded: Yarn[];
  /** What each column was taken for, by its heading. */
  columns: Record<string, Meaning>;
  problems: Problem[];
}

interface Row {
  /** From 1 at the top of the file. */
  line: number;
  cells: string[];
}

/** Reads comma, semicolon, tab or bar separated text. Never throws; formulas stay the text that they are. */
export function readStashTable(text: string): StashTable {
  const problems: Problem[] = [];
  const rows = rowsOfTable(text);
  if (rows.length === 0 || rows.some(({ cells }) => cells.some((cell) => cell.includes("\u0000")))) {
    const got = rows.length === 0 ? "nothing" : "what looks like a file of another kind";
    problems.push({ where: "the table", expected: "yarns, one to a line", got, severity: "fault" });
    return { yarns: [], unshaded: [], columns: {}, problems };
  }
  const { columns, body } = headed(rows, problems);
  const decimal = decimalOf(columns, body);
  const read = body.map((row) => ({ row, reader: readerOf(row, columns, decimal, problems) }));
  const yarns: Yarn[] = [];
  const unshaded: Yarn[] = [];
  const ids = new Set<string>();
  const named = read.map(({ row, reader }) => ({ row, entry: yarnOfRow(reader) }));
  const nameBoth = sharedNames(named.map(({ entry }) => entry));
  for (const { row, entry } of named) {
    const name = nameOf(entry, nameBoth);
    const same = yarns.find((yarn) => isSameYarn(yarn, name, entry));
    const shade = entry.shade ?? null;
    if (same && (!shade || nearEnough(same.shade!, shade))) {
      addLot(same, entry, row.line, problems);
      continue;
    }
    const yarn = newYarn(uniqueId(entry.id ?? name, ids), name, entry);
    if (!shade) {
      // The cell that could not be read has had its say; a missing one is told here.
      if (!entry.toldShade) {
        problems.push(problem(row.line, `the shade of ${name || "a yarn"}`, "a hex code or Lab", "none", "fault"));
      }
      unshaded.push(yarn);
      continue;
    }
    if (same) {
      const apart = deltaE2000(labOfShade(same.shade!), labOfShade(shade)).toFixed(0);
      const got = `another shade, ${apart} apart (CIEDE2000); kept as a yarn of its own`;
      problems.push(problem(row.line, `the yarn ${name}`, "the shade it had before", got, "doubt"));
    }
    yarns.push(yarn);
  }
  if (yarns.length === 0 && !problems.some(({ severity }) => severity === "fault")) {
    problems.push({ where: "the table", expected: "yarns, one to a line", got: "none", severity: "fault" });
  }
  const meanings = Object.fromEntries(columns.map(({ header, meaning }) => [header, meaning]));
  problems.sort((one, other) => (one.line ?? 0) - (other.line ?? 0));
  return { yarns, unshaded, columns: meanings, problems };
}

/** The rows that are not blank, divided by whichever sign divides them most evenly. */
function rowsOfTable(text: string): Row[] {
  const bare = text.replace(/^\uFEFF/, "").replace(/^sep=.\r?\n/i, (line) => "\n".repeat(line.split("\n").length - 1));
  let best: { rows: Row[]; score: number } = { rows: [], score: -1 };
  for (const delimiter of ["\t", ";", ",", "|"]) {
    const rows = divide(bare, delimiter);
    const widths = new Map<number, number>();
    for (const { cells } of rows) widths.set(cells.length, (widths.get(cells.length) ?? 0) + 1);
    const [width, often] = [...widths].sort((one, other) => other[1] - one[1])[0] ?? [0, 0];
    const known = Math.max(0, ...rows.slice(0, HEADER_ROWS).map(({ cells }) => knownHeaders(cells)));
    // Known headings speak loudest; then how many of the rows have the same number of cells, more than one.
    const score = known * 10 + (width > 1 ? often / rows.length : 0);
    if (score > best.score) best = { rows, score };
  }
  return best.rows;
}

function divide(text: string, delimiter: string): Row[] {
  const rows: Row[] = [];
  let line = 1;
  let from = 0;
  papaparse.parse(text, {
    delimiter,
    quoteChar: '"',
    step: ({ data, meta }) => {
      if (data.some((cell) => cell.trim() !== "")) rows.push({ line, cells: data });
      // Cells in quotes may hold line ends, so that a row is not a line.
      for (; from < meta.cursor; from++) {
        const code = text.charCodeAt(from);
        if (code === 10 || (code === 13 && text.charCodeAt(from + 1) !== 10)) line++;
      }
    },
  });
  return rows;
}

function headed(rows: readonly Row[], problems: Problem[]): { columns: Column[]; body: Row[] } {
  const known = rows.slice(0, HEADER_ROWS).map(({ cells }) => knownHeaders(cells));
  const most = Math.max(...known);
  const at = known.indexOf(most);
  const looksHeaded = most > 0 && !rows[at]!.cells.some((cell) => isHexCell(cell) && /[#\d]/.test(cell));
  const body = looksHeaded ? rows.slice(at + 1) : [...rows];
  const cells = (index: number): string[] => body.map((row) => row.cells[index] ?? "");
  if (looksHeaded) {
    for (const { line } of rows.slice(0, at)) {
      problems.push(problem(line, "a line above the headings", "headings or a yarn", "other text; left out", "note"));
    }
    return { columns: columnsOf(rows[at]!.cells, cells), body };
  }
  problems.push(
    problem(rows[0]!.line, "the headings", "a first line such as name, hex, grams", "none; read by content", "doubt"),
  );
  return { columns: columnsByCells(Math.max(...rows.map(({ cells }) => cells.length)), cells), body };
}

/** Names and notes have commas of their own; only cells of amounts tell how decimals are written. */
function decimalOf(columns: readonly Column[], body: readonly Row[]): DecimalSign {
  const text: readonly Meaning[] = [
    "name",
    "shade name",
    "note",
    "fibre",
    "maker",
    "lot",
    "id",
    "shade number",
    "not used",
    "hex",
    "lab",
  ];
  const amounts = columns.flatMap(({ meaning }, index) => (text.includes(meaning) ? [] : [index]));
  return decimalSignOf(body.flatMap(({ cells }) => amounts.map((index) => cells[index] ?? "")));
}

function readerOf(row: Row, columns: readonly Column[], decimal: DecimalSign, problems: Problem[]): RowReader {
  const find = (meaning: Meaning): { column: Column; text: string } | null => {
    const index = columns.findIndex((column) => column.meaning === meaning);
    const text = index < 0 ? "" : (row.cells[index] ?? "").trim();
    return text === "" ? null : { column: columns[index]!, text };
  };
  const extra = row.cells.slice(columns.length).filter((cell) => cell.trim() !== "");
  if (extra.length > 0) {
    const got = `${row.cells.length}; left out: ${JSON.stringify(extra.join(", ").slice(0, 60))}`;
    problems.push(problem(row.line, "the row", `${columns.length} cells`, got, "doubt"));
  }
  return {
    decimal,
    text: (meaning) => find(meaning)?.text ?? null,
    unit: (meaning) => find(meaning)?.column.unit ?? "",
    notes: columns.flatMap(({ meaning }, index) => (meaning === "note" ? [(row.cells[index] ?? "").trim()] : [])),
    tell: (where, expected, got, severity) => problems.push(problem(row.line, where, expected, got, severity)),
  };
}

/** True where one name stands for several shades, as the name of a quality does; then a yarn needs both words. */
function sharedNames(entries: readonly RowYarn[]): boolean {
  const shades = new Map<string, string>();
  return entries.some(({ name, shadeName }) => {
    if (!name || !shadeName) return false;
    const before = shades.get(name);
    shades.set(name, shadeName);
    return before !== undefined && before !== shadeName;
  });
}

function nameOf({ name, shadeName, shadeNumber }: RowYarn, both: boolean): string {
  if (name && shadeName && both && !name.toLowerCase().includes(shadeName.toLowerCase())) return `${name} ${shadeName}`;
  return name ?? shadeName ?? shadeNumber ?? "";
}

function isSameYarn(yarn: Yarn, name: string, entry: RowYarn): boolean {
  if (name === "" || yarn.name.toLowerCase() !== name.toLowerCase()) return false;
  const sameText = (one: string | undefined, other: string | undefined): boolean =>
    one === undefined || other === undefined || one.toLowerCase() === other.toLowerCase();
  return (
    sameText(yarn.maker, entry.maker) &&
    (!entry.shade || nearEnough(yarn.shade!, entry.shade) || sameText(yarn.fibre, entry.fibre))
  );
}

/** Two dye lots of one shade differ, but not by more than the doubt about a stated shade. */
const nearEnough = (one: Shade, other: Shade): boolean =>
  deltaE2000(labOfShade(one), labOfShade(other)) <= DEFAULT_UNCERTAINTY;

function newYarn(id: string, name: string, entry: RowYarn): Yarn {
  const { shade, metresPer100g, lot, grams, maker, fibre, note } = entry;
  return {
    id,
    name: name || id,
    ...(shade ? { shade } : {}),
    ...(metresPer100g === undefined ? {} : { metresPer100g }),
    ...(lot !== undefined ? { lots: [lotOf(1, entry)] } : grams !== undefined ? { grams } : {}),
    ...(maker === undefined ? {} : { maker }),
    ...(fibre === undefined ? {} : { fibre }),
    ...(note === undefined ? {} : { note }),
  };
}

function lotOf(number: number, { lot, grams }: RowYarn): Lot {
  return { id: `l${number}`, ...(lot === undefined ? {} : { lot }), ...(grams === undefined ? {} : { grams }) };
}

function addLot(yarn: Yarn, entry: RowYarn, line: number, problems: Problem[]): void {
  const lots: Lot[] = yarn.lots ?? [{ id: "l1", ...(yarn.grams === undefined ? {} : { grams: yarn.grams }) }];
  const repeated = lots.some(({ lot }) => lot === entry.lot);
  delete yarn.grams;
  yarn.lots = [...lots, lotOf(lots.length + 1, entry)];
  if (repeated) {
    problems.push(
      problem(line, `the yarn ${yarn.name}`, "each lot once", "the same again; kept as another lot", "note"),
    );
  }
  const { metresPer100g } = entry;
  if (metresPer100g === undefined) return;
  yarn.metresPer100g ??= metresPer100g;
  if (Math.abs(yarn.metresPer100g - metresPer100g) > 1) {
    const expected = `${Math.round(yarn.metresPer100g)} m per 100 g as before`;
    problems.push(problem(line, `the yarn ${yarn.name}`, expected, `${Math.round(metresPer100g)}; left out`, "doubt"));
  }
}

/** A slug that the same name always gives; the second of a name gets "-2". */
function uniqueId(name: string, taken: Set<string>): string {
  const slug =
    name
      .normalize("NFD")
      .replace(/\p{M}/gu, "")
      .toLowerCase()
      .replace(/[^a-z0-9]+/g, "-")
      .slice(0, LONGEST_ID)
      .replace(/^-+|-+$/g, "") || "yarn";
  let id = slug;
  for (let number = 2; taken.has(id); number++) id = `${slug}-${number}`;
  taken.add(id);
  return id;
}

const problem = (line: number, where: string, expected: string, got: string, severity: Severity): Problem => ({
  where: `line ${line}, ${where}`,
  expected,
  got,
  severity,
  line,
});

/** Titles and empty lines may stand above the headings; our choice of how far to look. */
const HEADER_ROWS = 12;
/** Letters; long enough to know a yarn by. */
const LONGEST_ID = 40;
