/** What every reader of charts hands over, whatever it read from. */
import type { Problem } from "../base/problem.ts";
import type { Lab } from "../colour/lab.ts";

export interface ReadColour {
  /** "#rrggbb". */
  hex: string;
  /** CIELAB, D65. */
  lab: Lab;
  name?: string;
  /** True where nothing was stated and a grey stands in. */
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
}

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
