/** A chart, or several put together, as numbers in rows: what is laid against another to see whether they continue. */

/** No stitch, or nothing there. */
export const NOTHING = -1;

export interface Sheet {
  readonly columns: number;
  readonly rows: number;
  /** Row by row from the top, left to right: the colour's number, `NOTHING` for no stitch. */
  readonly cells: Int16Array;
  /** 0 to 9 in the same order. */
  readonly sureness: Uint8Array;
  /** Numbers of the bottom row and of the right column; null where none are printed. */
  readonly firstRow: number | null;
  readonly firstColumn: number | null;
  /** Charts in it, and how far each one's top left corner is from its own. */
  readonly parts: readonly SheetPart[];
}

export interface SheetPart {
  readonly chart: number;
  readonly top: number;
  readonly left: number;
  readonly rows: number;
  readonly columns: number;
}

/** Rows become columns: side by side is then one above the other, what lies right below what lies left. */
export function turned(sheet: Sheet): Sheet {
  const { columns, rows, cells, sureness } = sheet;
  const [turnedCells, turnedSureness] = [new Int16Array(cells.length), new Uint8Array(cells.length)];
  for (let row = 0; row < rows; row++)
    for (let column = 0; column < columns; column++) {
      turnedCells[column * rows + row] = cells[row * columns + column]!;
      turnedSureness[column * rows + row] = sureness[row * columns + column]!;
    }
  return {
    columns: rows,
    rows: columns,
    cells: turnedCells,
    sureness: turnedSureness,
    firstRow: sheet.firstColumn,
    firstColumn: sheet.firstRow,
    parts: sheet.parts.map(({ chart, top, left, rows: down, columns: across }) => ({
      chart,
      top: left,
      left: top,
      rows: across,
      columns: down,
    })),
  };
}

/** One over the other, the lower one's uppermost `overlap` rows being the upper one's lowest; the surer reading of a cell counts. */
export function stacked(upper: Sheet, lower: Sheet, overlap: number): Sheet {
  const { columns } = upper;
  const rows = upper.rows + lower.rows - overlap;
  const [cells, sureness] = [new Int16Array(rows * columns), new Uint8Array(rows * columns)];
  const from = (upper.rows - overlap) * columns;
  cells.set(lower.cells, from);
  sureness.set(lower.sureness, from);
  for (let at = 0; at < upper.cells.length; at++) {
    if (at >= from && sureness[at]! > upper.sureness[at]!) continue;
    cells[at] = upper.cells[at]!;
    sureness[at] = upper.sureness[at]!;
  }
  const down = upper.rows - overlap;
  return {
    columns,
    rows,
    cells,
    sureness,
    firstRow: lower.firstRow ?? (upper.firstRow === null ? null : upper.firstRow - (lower.rows - overlap)),
    firstColumn: upper.firstColumn ?? lower.firstColumn,
    parts: [...upper.parts, ...lower.parts.map((part) => ({ ...part, top: part.top + down }))],
  };
}
