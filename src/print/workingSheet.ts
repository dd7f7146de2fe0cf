/** The working sheet: her chart in her own yarns, with all that she needs beside it while she knits. */
import { comfortableFloat } from "../audit/floats.ts";
import { THRESHOLDS } from "../audit/thresholds.ts";
import { NO_STITCH } from "../chart/chart.ts";
import { floatsInRow } from "../chart/floats.ts";
import type { Colourway } from "../fabric/colourway.ts";
import type { Pattern } from "../fabric/pattern.ts";
import type { Gauge } from "../garment/gauge.ts";
import type { Amounts } from "../plan/amounts.ts";
import type { Yarn } from "../yarn/yarn.ts";
import { sheetCautions } from "./cautions.ts";
import { drawChart, GUTTER, leftGutter, sewnRows, type Cell } from "./chartDrawing.ts";
import { chartUses, type ChartUse } from "./chartUses.ts";
import type { Operation, Point } from "./drawing.ts";
import { MARGIN_MM, PAPER_MM, tileLabel, tilesOf, type Page, type Paper, type Tile } from "./page.ts";
import {
  headBlock,
  heldLowWords,
  keyHeading,
  keyRow,
  legendBlock,
  noteBlock,
  smallKeyRow,
  text,
  type Block,
  type LegendMark,
} from "./sheetBlocks.ts";
import { sheetKey, type KeyEntry } from "./sheetKey.ts";
import { fitText } from "./textWidth.ts";

export interface WorkingSheetParts {
  readonly name: string;
  readonly pattern: Pattern;
  readonly yarns: readonly Yarn[];
  readonly colourway: Colourway;
  readonly amounts: Amounts;
  /** By default the size that the amounts are for. */
  readonly size?: string | null | undefined;
  readonly paper?: Paper | undefined;
  /** Greys and marks only. */
  readonly mono?: boolean | undefined;
  /** The longest strand that she leaves uncaught, cm; what is usual where missing. */
  readonly floatCm?: number | undefined;
  /** Which strand she holds low throughout: told at the head and at the foot of every sheet. */
  readonly heldLow?: "ground" | "pattern" | undefined;
}

/**
 * Head, key, legend and notes; then every chart, cut into as many sheets as it needs, each with a small key. A chart
 * that fits below the notes stands there. Cells are at least 3.5 mm and as wide to high as the knitted stitch.
 */
export function workingSheet(parts: WorkingSheetParts): Page[] {
  const { name, pattern, yarns, colourway, amounts, paper = "A4", floatCm = THRESHOLDS.floatCm } = parts;
  const size = parts.size ?? amounts.size;
  const uses = chartUses(pattern, colourway, size ?? undefined);
  const inkColours = parts.mono ? "mono" : "colour";
  const key = sheetKey({ pattern, yarns, colourway, amounts, uses, inkColours });
  const composer = new Composer(paper);
  const { widthMm } = composer;

  composer.open("key");
  composer.put(headBlock({ name, pattern, colourway, size, widthMm, heldLow: parts.heldLow }));
  composer.space(1);
  composer.table(
    keyHeading(widthMm),
    key.map((entry) => keyRow(entry, widthMm)),
  );
  composer.space(2);
  const limit = comfortableFloat(pattern.gauge.stitches, floatCm);
  const worked = yarns.filter(({ id }) => key.some(({ strand }) => strand === id));
  for (const mark of legendOf(uses, colourway, floatCm)) composer.put(legendBlock(mark, { limit, floatCm }));
  composer.space(2);
  const notes = [
    ...sheetCautions({ pattern, amounts, key, yarns: worked, longFloats: longFloatsOf(uses, floatCm) }),
    ...sewingNotes(uses, colourway, key),
    `How the metres are reckoned: ${amounts.assumptions.join(" ")}`,
  ];
  for (const note of notes) composer.put(noteBlock(note, widthMm));

  // One stitch, for plain knitting, asks for no chart where there is another.
  const drawn = uses.filter(({ grid }) => grid.cells.length > 1);
  for (const use of drawn.length > 0 ? drawn : uses) placeChart(use, { key, colourway, floatCm }, composer);
  const held = parts.heldLow === undefined ? [] : [heldLowWords(parts.heldLow).toLowerCase()];
  return composer.finish([...held, name, colourway.name ?? colourway.id].join(" · "));
}

/** Smallest side of a printed cell, and the largest that is still pleasant, in mm. Source: trade.md 6 (common practice); our choice. */
const CELL = { least: 3.5, most: 6.5 } as const;

/** Width : height = rows : stitches per 10 cm, so that the chart has the cloth's proportions. */
function smallestCell({ stitches, rows }: Gauge): Cell {
  return rows >= stitches
    ? { width: (CELL.least * rows) / stitches, height: CELL.least }
    : { width: CELL.least, height: (CELL.least * stitches) / rows };
}

const scaled = ({ width, height }: Cell, factor: number): Cell => ({ width: width * factor, height: height * factor });
const rowCount = ({ rows }: { readonly rows: readonly [number, number] }): number => rows[1] - rows[0] + 1;

interface Area {
  readonly width: number;
  readonly height: number;
}

function grown(cell: Cell, rows: number, columns: number, area: Area): Cell {
  const most = CELL.most / Math.max(cell.width, cell.height);
  const factor = Math.min(area.width / (columns * cell.width), area.height / (rows * cell.height), most);
  return scaled(cell, Math.max(1, factor));
}

/** Height of a chart's title, and mm between two charts on one page. */
const STRIP = 9;
const BETWEEN = 5;

/** Width of the small key beside a chart; of a column and a row of the one below it. */
const SIDE_KEY = 50;
const KEY_COLUMN = 60;
const KEY_ROW = 5.6;

interface Layout {
  /** What the cells may take. */
  readonly area: Area;
  readonly key: "beside" | "below" | "none";
}

/** Where the head's full key is on the same page, a chart needs no small one. */
function layoutOf(use: ChartUse, entries: number, heightMm: number, composer: Composer): Layout {
  const width = composer.widthMm - leftGutter(use) - GUTTER.right;
  const height = heightMm - STRIP - GUTTER.bottom;
  if (composer.hasKey) return { area: { width, height }, key: "none" };
  if (width - SIDE_KEY >= use.grid.width * smallestCell(use.gauge).width) {
    return { area: { width: width - SIDE_KEY, height }, key: "beside" };
  }
  return { area: { width, height: height - smallKeyHeight(entries, composer) }, key: "below" };
}

const keyColumns = ({ widthMm }: Composer): number => Math.floor(widthMm / KEY_COLUMN);
const smallKeyHeight = (entries: number, composer: Composer): number =>
  Math.ceil(entries / keyColumns(composer)) * KEY_ROW + 3;

/** Below what is already on the page where all of the chart fits, else on sheets of its own. */
function placeChart(
  use: ChartUse,
  {
    key,
    colourway,
    floatCm,
  }: { readonly key: readonly KeyEntry[]; readonly colourway: Colourway; readonly floatCm: number },
  composer: Composer,
): void {
  const entries = key.filter(({ strand }) => use.strands.ids.includes(strand) || sewnHere(use, colourway, strand));
  const least = smallestCell(use.gauge);
  const { width } = use.grid;
  const title = chartTitle(use);
  const put = (tile: Tile, cell: Cell, layout: Layout, label: string): void => {
    const [x, y] = composer.cursor;
    const corner: Point = [x + leftGutter(use), y + STRIP];
    const bottom = corner[1] + rowCount(tile) * cell.height + GUTTER.bottom;
    composer.draw([
      text([x, y + 4.4], fitText(title, 4, composer.widthMm - 62, "bold"), 4, { weight: "bold" }),
      text([x + composer.widthMm, y + 4.4], label, 3.2, { anchor: "end" }),
      ...drawChart({
        use,
        key,
        tile,
        cell,
        at: corner,
        overStitched: colourway.overStitched ?? [],
        floatLimit: comfortableFloat(use.gauge.stitches, floatCm),
      }),
      ...smallKey(entries, layout, composer, y + STRIP, bottom + 3),
    ]);
    const beside = layout.key === "beside" ? y + STRIP + entries.length * KEY_ROW : 0;
    const below = layout.key === "below" ? smallKeyHeight(entries.length, composer) : 0;
    composer.space(Math.max(bottom + below, beside) - y);
  };

  const here = layoutOf(use, entries.length, composer.left - BETWEEN, composer);
  const fits = here.area.height >= rowCount(use) * least.height && here.area.width >= width * least.width;
  const keyFits = here.key !== "beside" || composer.left - BETWEEN - STRIP >= entries.length * KEY_ROW;
  if (fits && keyFits) {
    const tile: Tile = { rows: use.rows, columns: [1, width] };
    const label = tileLabel(tile, width, 1, 1);
    composer.alsoHolds(`${title}: ${label}`);
    composer.space(BETWEEN);
    put(tile, grown(least, rowCount(use), width, here.area), here, label);
    return;
  }

  composer.closeKey();
  const layout = layoutOf(use, entries.length, composer.pageHeight, composer);
  const tiles = tilesOf({
    rows: use.rows,
    width,
    rowsPerSheet: Math.max(1, Math.floor(layout.area.height / least.height + ROUNDING)),
    columnsPerSheet: Math.max(1, Math.floor(layout.area.width / least.width + ROUNDING)),
    welcome: use.bands.map((band) => band.rows[1]),
  });
  const tallest = Math.max(...tiles.map(rowCount));
  const widest = Math.max(...tiles.map(({ columns }) => columns[1] - columns[0] + 1));
  const cell = grown(least, tallest, widest, layout.area);
  for (const [index, tile] of tiles.entries()) {
    const label = tileLabel(tile, width, index + 1, tiles.length);
    composer.open(`${title}: ${label}`);
    put(tile, cell, layout, label);
  }
}

function smallKey(
  entries: readonly KeyEntry[],
  layout: Layout,
  composer: Composer,
  besideY: number,
  belowY: number,
): Operation[] {
  if (layout.key === "none") return [];
  const [x] = composer.cursor;
  const columns = keyColumns(composer);
  return entries.flatMap((entry, place) => {
    const beside: Point = [x + composer.widthMm - SIDE_KEY + 3, besideY + place * KEY_ROW];
    const below: Point = [x + (place % columns) * KEY_COLUMN, belowY + Math.floor(place / columns) * KEY_ROW];
    return layout.key === "beside"
      ? smallKeyRow(entry, SIDE_KEY - 3).draw(beside)
      : smallKeyRow(entry, KEY_COLUMN - 3).draw(below);
  });
}

/** A whole number of cells must not be lost to the last bit of a division. */
const ROUNDING = 1e-9;

function chartTitle(use: ChartUse): string {
  const worked = use.chart.worked === "flat" ? "worked flat" : "in the round";
  return [use.chart.name ?? `chart ${use.chart.id}`, worked, use.places].filter((part) => part !== null).join(" · ");
}

function sewnHere(use: ChartUse, colourway: Colourway, strand: string): boolean {
  return (colourway.overStitched ?? []).some(
    (over) => over.yarn === strand && rowsOf(use).some((row) => sewnRows(over, use, row)),
  );
}

const rowsOf = (use: ChartUse): number[] => Array.from({ length: rowCount(use) }, (_, index) => use.rows[0] + index);

function legendOf(uses: readonly ChartUse[], colourway: Colourway, floatCm: number): LegendMark[] {
  const marks: LegendMark[] = ["repeat"];
  if (longFloatsOf(uses, floatCm).rows > 0) marks.push("float");
  if ((colourway.overStitched ?? []).some(({ cells }) => (cells ?? []).length > 0)) marks.push("duplicate");
  if (uses.some(({ grid }) => grid.cells.includes(NO_STITCH))) marks.push("no stitch");
  return marks;
}

function longFloatsOf(uses: readonly ChartUse[], floatCm: number): { rows: number; longest: number; limit: number } {
  let rows = 0;
  let longest = 0;
  let limit = Infinity;
  for (const use of uses) {
    const here = comfortableFloat(use.gauge.stitches, floatCm);
    limit = Math.min(limit, here);
    for (const row of rowsOf(use)) {
      const found = Math.max(0, ...floatsInRow(use.strands, row, use.chart.worked).map(({ length }) => length));
      if (found > here) rows++;
      longest = Math.max(longest, found);
    }
  }
  return { rows, longest, limit };
}

/** Which stitches are sewn over, in words, because a small corner says little without colour. */
function sewingNotes(uses: readonly ChartUse[], colourway: Colourway, key: readonly KeyEntry[]): string[] {
  return (colourway.overStitched ?? []).flatMap((over) => {
    const use = uses.find((each) => rowsOf(each).some((row) => sewnRows(over, each, row)));
    const cells = (over.cells ?? []).filter(([row]) => use && sewnRows(over, use, row));
    if (!use || cells.length === 0) return [];
    const rows = [...new Set(cells.map(([row]) => row))].sort((a, b) => a - b);
    const said = rows.slice(0, SEWN_ROWS).map((row) => {
      const columns = cells.filter((cell) => cell[0] === row).map(([, column]) => column);
      return `row ${row}: ${columns.toSorted((a, b) => a - b).join(", ")}`;
    });
    const more = rows.length > SEWN_ROWS ? `; and ${rows.length - SEWN_ROWS} rows more` : "";
    const yarn = key.find(({ strand }) => strand === over.yarn)?.name ?? over.yarn;
    return [`Duplicate stitch in ${yarn}, ${chartTitle(use)}, by row and stitch: ${said.join("; ")}${more}.`];
  });
}

/** Rows of duplicate stitch that are written out. Birthplace: our choice, what fits a few lines. */
const SEWN_ROWS = 12;

/** Room for the line at the foot of each sheet. */
const FOOT = 6;

/** Puts blocks below one another and begins a new page where the next does not fit. */
class Composer {
  readonly widthMm: number;
  /** Height between the margins, without the foot. */
  readonly pageHeight: number;
  private readonly paper: { readonly width: number; readonly height: number };
  private readonly pages: { label: string; operations: Operation[] }[] = [];
  private y = 0;
  private keyOpen = true;

  constructor(paper: Paper) {
    this.paper = PAPER_MM[paper];
    this.widthMm = this.paper.width - 2 * MARGIN_MM;
    this.pageHeight = this.paper.height - 2 * MARGIN_MM - FOOT;
  }

  get cursor(): Point {
    return [MARGIN_MM, MARGIN_MM + this.y];
  }

  get left(): number {
    return this.pageHeight - this.y;
  }

  open(label: string): void {
    this.pages.push({ label, operations: [] });
    this.y = 0;
  }

  alsoHolds(label: string): void {
    const page = this.pages.at(-1)!;
    page.label = `${page.label}; ${label}`;
  }

  /** From the next page on, charts need a key of their own. */
  closeKey(): void {
    this.keyOpen = false;
  }

  get hasKey(): boolean {
    return this.keyOpen && this.pages.length === 1;
  }

  space(heightMm: number): void {
    this.y += heightMm;
  }

  draw(operations: readonly Operation[]): void {
    this.pages.at(-1)!.operations.push(...operations);
  }

  put(block: Block): void {
    if (block.heightMm > this.left) this.open(`${this.pages.at(-1)!.label} (continued)`);
    this.draw(block.draw(this.cursor));
    this.y += block.heightMm;
  }

  /** Rows under a heading that comes again on each page. */
  table(head: Block, rows: readonly Block[]): void {
    this.put(head);
    for (const row of rows) {
      if (row.heightMm > this.left) {
        this.open(`${this.pages.at(-1)!.label} (continued)`);
        this.put(head);
      }
      this.put(row);
    }
  }

  finish(title: string): Page[] {
    const { width, height } = this.paper;
    return this.pages.map(({ label, operations }, index) => ({
      widthMm: width,
      heightMm: height,
      label,
      operations: [
        ...operations,
        text([MARGIN_MM, height - MARGIN_MM], fitText(title, 2.7, this.widthMm - 30), 2.7, { fill: "#505050" }),
        text([width - MARGIN_MM, height - MARGIN_MM], `page ${index + 1} of ${this.pages.length}`, 2.7, {
          anchor: "end",
          fill: "#505050",
        }),
      ],
    }));
  }
}
