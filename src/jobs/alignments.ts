/** How the bands of a project lie over one another: in the chart, and round by round in each section and size. */
import type { Judged } from "../audit/context.ts";
import type { Alignment } from "../chart/alignment.ts";
import { structureIn } from "../fabric/structure.ts";
import { oppositeShows } from "../garment/fitting.ts";
import { bandRounds, meetingsThroughDecreases, type MeetingThroughDecreases } from "../garment/rounds.ts";
import type { Pattern } from "../fabric/pattern.ts";

export interface AlignmentLine extends Alignment {
  readonly chart: string;
}

export interface RoundLine {
  readonly chart: string;
  readonly section: string;
  readonly size: string;
  readonly band: string;
  /** Rounds of the section, from 1. */
  readonly rounds: readonly [number, number];
  /** In the first of them. */
  readonly stitches: number;
  readonly repeat: number;
  /** Stitches over whole repeats; null where the piece is shaped at its edges there. */
  readonly over: number | null;
  /** What the stitch opposite the front shows. */
  readonly opposite: ReturnType<typeof oppositeShows>;
}

export interface DecreaseLine extends MeetingThroughDecreases {
  readonly chart: string;
  readonly section: string;
  readonly size: string;
}

export interface Alignments {
  readonly alignments: readonly AlignmentLine[];
  readonly rounds: readonly RoundLine[];
  readonly throughDecreases: readonly DecreaseLine[];
}

export function alignmentsIn({ sections = [] }: Pattern, charts: readonly Judged[]): Alignments {
  const whole = charts.filter(({ section }) => section === null);
  const knitted = whole.flatMap(({ chart, now: { cloth } }) =>
    sections
      .filter((section) => section.chart === chart.id && section.on !== false)
      .flatMap((section) =>
        Object.keys(section.rounds).map((size) => {
          const bands = bandRounds(section, structureIn(cloth).bandOfRow, size);
          return { place: { chart: chart.id, section: section.id, size }, section, size, bands };
        }),
      ),
  );
  return {
    alignments: whole.flatMap(({ chart, now: { cloth } }) =>
      structureIn(cloth).alignments.map((one) => ({ chart: chart.id, ...one })),
    ),
    rounds: knitted.flatMap(({ place, bands }) =>
      bands.map(({ band, rounds, stitches: [stitches], over }) => ({
        ...place,
        band: band.id,
        rounds,
        stitches,
        repeat: band.repeat,
        over,
        opposite: oppositeShows(stitches, band.repeat),
      })),
    ),
    throughDecreases: knitted.flatMap(({ place, section, size, bands }) =>
      meetingsThroughDecreases(section, bands, size).map((one) => ({ ...place, ...one })),
    ),
  };
}
