/** What every reader of charts hands over, whatever it read from. */
import type { Problem } from "../base/problem.ts";
import type { Lab } from "../colour/lab.ts";
import type { ChartGrid } from "./chartGrid.ts";

export interface ReadColour {
  /** "#rrggbb". */
  hex: string;
  /** CIELAB, D65. */
  lab: Lab;
  name?: string;
  /** A ΔE00 that holds the truth in 80 % of cases, where the reader knows how far it may be off. */
  uncertainty?: number;
  /** True where no shade was stated: what its name says stands in, or else a grey. */
  assumed?: true;
}

export interface ReadChart {
  name?: string;
  /** Top row first, one character a stitch, "-" for no stitch. */
  rows: string[];
  colours: Record<string, ReadColour>;
  /** How far to trust the reading, 0 to 1: an estimate, not a probability. */
  confidence: number;
  /** Corners in pixels, clockwise from top left; null where there is no picture. */
  box: [number, number][] | null;
  /** From 1; null where there are no pages. */
  page: number | null;
  /** Cells to look at again: [row, column], row 1 at the bottom, column 1 at the right edge. */
  uncertain: [number, number][];
  /** How sure each cell is, "0" to "9", in the shape of `rows`; absent where nothing was in doubt by its nature (text). */
  sureness?: string[];
  /** Chart colours that are drawn as a sign: what is known of it. */
  symbols?: Record<string, ReadSymbol>;
  /** Where its cells are in the picture (or on the page, in the page's own units). */
  grid?: ChartGrid;
  /** What the numbers beside the chart say of its bottom row and of its right column; absent where there are none. */
  firstRow?: number;
  firstColumn?: number;
}

export interface ReadSymbol {
  /** The sign as text where the page has it as text, or what the key says of it. */
  text: string | null;
  /** The sign's darkness on `SYMBOL_SIDE` × `SYMBOL_SIDE` squares, "0" to "9", rows from the top; absent where it is text. */
  picture?: string[];
}

/** Squares to a side of a sign's picture. */
export const SYMBOL_SIDE = 16;

export interface ReadCharts {
  charts: ReadChart[];
  problems: Problem[];
}

/** Names for chart colours in the order handed out: capitals, small letters, digits, then other printable signs. */
export function freeIds(taken: ReadonlySet<string>): string[] {
  return Array.from(ID_ORDER).filter((id) => !taken.has(id));
}

/** The most colours that a chart can be given from `ID_ORDER`. */
export const ID_ORDER =
  "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+*=%&@!?<>/|~^_:;,.$#()[]{}" +
  "ÀÁÂÃÄÅÆÇÈÉÊËÌÍÎÏÐÑÒÓÔÕÖØÙÚÛÜÝÞßàáâãäåæçèéêëìíîïðñòóôõöøùúûüýþÿĀāĂăĄąĆćĈĉĊċČčĎďĐđĒēĔĕĖėĘęĚěĜĝĞğĠġĢģĤĥĦħĨĩĪīĬĭĮįİı";
