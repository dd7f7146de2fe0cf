/** Bringing motifs to the lines that knitters care about: the middle of the front, of the back, the top of a sleeve. */
import { nearestToZero } from "../base/divisors.ts";
import type { RoundBand } from "./rounds.ts";

/** A line of the garment, and where it lies in the round. */
export interface Line {
  readonly name: string;
  /** Stitches before it in the round, 0 at its first stitch; .5 between two. In each band's own round where they differ. */
  readonly stitchOf: (band: RoundBand) => number;
}

export interface CentredBand {
  readonly band: string;
  readonly line: string;
  /** Stitches by which the nearest middle of the band lies further on than the line; null for a motif that has no middle. */
  readonly offBy: number | null;
}

export interface Centring {
  /** Chart column of the round's first stitch, from 1 at the right edge. */
  readonly startColumn: number;
  readonly bands: readonly CentredBand[];
}

export interface CentringOf {
  /** Stitches of the chart's width. */
  readonly width: number;
  readonly bands: readonly { readonly band: RoundBand; readonly rows: number }[];
  /** The first counts; the others are told of. */
  readonly lines: readonly Line[];
  /** Whether the lines may lie half a stitch beside where they are: a round that closes has no seam to hold them. */
  readonly maySlip?: boolean;
}

/**
 * The column in which the round begins so that the bands' middles miss the first line by as little as can be, each band counted by its rows; of
 * columns that are as good the one that serves the next lines best, then the least. A middle on a stitch and one between two stitches cannot share
 * a line: the least miss is then half a stitch, and it is told. Source: trade.md 3.
 */
export function centred({ maySlip = false, ...of }: CentringOf): Centring {
  const still = bestColumn(of);
  const first = of.lines[0];
  if (!maySlip || !first) return still;
  const slipped = bestColumn({
    ...of,
    lines: of.lines.map((line) => ({ ...line, stitchOf: (band) => line.stitchOf(band) - 0.5 })),
  });
  const missed = ({ bands }: Centring): number =>
    bands.reduce((sum, { line, offBy }, index) => {
      const rows = of.bands[index % of.bands.length]!.rows;
      return line === first.name ? sum + rows * Math.abs(offBy ?? 0) : sum;
    }, 0);
  return missed(slipped) < missed(still) - ROUNDING ? slipped : still;
}

function bestColumn({ width, bands, lines }: CentringOf): Centring {
  const withMiddle = bands.filter(({ band }) => band.centre !== null);
  let best = { startColumn: 1, misses: lines.map(() => Infinity) };
  for (let startColumn = 1; startColumn <= width; startColumn++) {
    const misses = lines.map((line) =>
      withMiddle.reduce((sum, { band, rows }) => sum + rows * Math.abs(missOf(band, line, startColumn)), 0),
    );
    const at = misses.findIndex((miss, index) => Math.abs(miss - best.misses[index]!) > ROUNDING);
    if (at >= 0 && misses[at]! < best.misses[at]!) best = { startColumn, misses };
  }
  const { startColumn } = best;
  return {
    startColumn,
    bands: lines.flatMap((line) =>
      bands.map(({ band }) => ({
        band: band.id,
        line: line.name,
        offBy: band.centre && missOf(band, line, startColumn),
      })),
    ),
  };
}

/** Stitches: sums of halves are exact, sums of thirds are not met. */
const ROUNDING = 1e-9;

/** How many stitches further on than the line the nearest middle lies. */
function missOf(band: RoundBand, line: Line, startColumn: number): number {
  const column = startColumn + line.stitchOf(band);
  return nearestToZero(band.centre!.column - column, band.repeat) + 0;
}
