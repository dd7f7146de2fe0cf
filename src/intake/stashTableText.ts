/** Yarns as a table for any spreadsheet, in the columns that `stashTable.ts` reads, so that nothing is lost on the way there and back. */
import type { Lot, Yarn } from "../yarn/yarn.ts";
import { fleckText } from "./fleckText.ts";
import { guarded } from "./formulaCell.ts";
import type { DecimalSign } from "./quantity.ts";

export interface TableWriting {
  /** A comma by default, a semicolon where decimals have commas. */
  readonly separator?: string | undefined;
  readonly decimal?: DecimalSign | undefined;
}

/**
 * A row for each lot, with a byte order mark and the line ends of RFC 4180. Every field but the small picture and the link of
 * a project's copy; columns that no yarn needs are left out. Cells that a spreadsheet would calculate are guarded.
 */
export function stashTableText(yarns: readonly Yarn[], writing: TableWriting = {}): string {
  const decimal = writing.decimal ?? ".";
  const separator = writing.separator ?? (decimal === "," ? ";" : ",");
  const lotIds = yarns.some(needsLotIds);
  const rows = yarns.flatMap((yarn) => {
    const lots = yarn.lots?.length ? yarn.lots : [null];
    return lots.map((lot) => ({ yarn, lot }));
  });
  const columns = COLUMNS.filter(({ heading, always, cell }) =>
    heading === LOT_ID ? lotIds : always || rows.some((row) => cell(row) !== undefined),
  );
  const lines = [
    columns.map(({ heading }) => heading),
    ...rows.map((row) => columns.map(({ cell }) => cellText(cell(row), decimal))),
  ];
  return `\uFEFF${lines.map((cells) => cells.map((cell) => quotedCell(cell, separator)).join(separator)).join("\r\n")}\r\n`;
}

type Cell = string | number | boolean | undefined;
interface Row {
  readonly yarn: Yarn;
  readonly lot: Lot | null;
}

const LOT_ID = "lot id";

const COLUMNS: readonly { heading: string; always?: true; cell: (row: Row) => Cell }[] = [
  { heading: "id", always: true, cell: ({ yarn }) => yarn.id },
  { heading: "name", always: true, cell: ({ yarn }) => yarn.name },
  { heading: "maker", cell: ({ yarn }) => yarn.maker },
  { heading: "fibre", cell: ({ yarn }) => yarn.fibre },
  { heading: "hex", always: true, cell: ({ yarn }) => yarn.shade?.hex },
  { heading: "L*", cell: ({ yarn }) => yarn.shade?.lab?.[0] },
  { heading: "a*", cell: ({ yarn }) => yarn.shade?.lab?.[1] },
  { heading: "b*", cell: ({ yarn }) => yarn.shade?.lab?.[2] },
  { heading: "uncertainty", cell: ({ yarn }) => yarn.shade?.uncertainty },
  { heading: "shade from", cell: ({ yarn }) => yarn.shade?.from },
  { heading: "m per 100 g", always: true, cell: ({ yarn }) => yarn.metresPer100g },
  { heading: "grams", always: true, cell: ({ yarn, lot }) => (lot ? lot.grams : yarn.grams) },
  { heading: "lot", cell: ({ lot }) => lot?.lot },
  { heading: LOT_ID, cell: ({ lot }) => lot?.id },
  { heading: "weighed", cell: ({ lot }) => lot?.weighed },
  { heading: "all lots together (g)", cell: ({ yarn, lot }) => (lot ? yarn.grams : undefined) },
  { heading: "plies", cell: ({ yarn }) => yarn.plies },
  { heading: "weight class", cell: ({ yarn }) => yarn.weightClass },
  { heading: "superwash", cell: ({ yarn }) => yarn.superwash },
  { heading: "hand-dyed", cell: ({ yarn }) => yarn.handDyed },
  { heading: "flecks", cell: ({ yarn }) => (yarn.flecks?.length ? fleckText(yarn.flecks) : undefined) },
  { heading: "note", cell: ({ yarn }) => yarn.note },
];

/** Lots are numbered as they are read, l1, l2 and so on; any other ids must be said, and so must a lot that has no name. */
const needsLotIds = ({ lots = [] }: Yarn): boolean =>
  lots.some(({ id }, index) => id !== `l${index + 1}`) ||
  (lots.length > 0 && lots[0]!.lot === undefined && lots[0]!.weighed === undefined);

/** Plain numbers are not guarded, "-12.5" neither: a spreadsheet takes them for what they are. */
function cellText(cell: Cell, decimal: DecimalSign): string {
  if (cell === undefined) return "";
  if (typeof cell === "boolean") return cell ? "yes" : "no";
  if (typeof cell === "string") return guarded(cell.replaceAll("\0", ""));
  // Three digits after a sign may be thousands to a reader; four are not.
  return String(cell)
    .replace(/\.\d{3}$/, (digits) => `${digits}0`)
    .replace(".", decimal);
}

const quotedCell = (cell: string, separator: string): string =>
  cell.includes(separator) || /["\r\n]|^\s|\s$/.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell;
