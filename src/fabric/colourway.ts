/** A colourway: yarns assigned to chart colours, with exceptions by place and its duplicate stitch and embroidery. */
import { placeHoldsRound, placeHoldsRow, type Place } from "../garment/place.ts";

export interface Change {
  at: Place;
  colour: string;
  yarn: string;
  note?: string;
}

export interface OverStitch {
  at: Place;
  /** [row, column] from 1 at the bottom right. */
  cells?: [number, number][];
  /** [[row line, column line], [row line, column line]] between cell corners, from 0 at the bottom right. */
  lines?: [[number, number], [number, number]][];
  yarn: string;
}

export interface Colourway {
  id: string;
  name?: string;
  from?: string | null;
  note?: string;
  /** Chart colour → yarn. */
  yarns: Record<string, string>;
  /** Later changes win. */
  changes?: Change[];
  overStitched?: OverStitch[];
  wish?: object;
}

/** The yarn of a chart colour in a chart row, wherever that row is used. */
export function yarnInRow(colourway: Colourway, colour: string, chart: string, row: number): string | undefined {
  const change = colourway.changes?.findLast((c) => c.colour === colour && placeHoldsRow(c.at, chart, row));
  return change ? change.yarn : colourway.yarns[colour];
}

/** The yarn of a chart colour in one round of one section. */
export function yarnInRound(
  colourway: Colourway,
  colour: string,
  at: { section: string; round: number; chart: string; row: number },
): string | undefined {
  const change = colourway.changes?.findLast((c) => c.colour === colour && placeHoldsRound(c.at, at));
  return change ? change.yarn : colourway.yarns[colour];
}
