/** The yarn of one section, strand by strand. */
import { cellAt } from "../chart/chart.ts";
import { yarnInRound, yarnInRow, type Colourway, type OverStitch } from "../fabric/colourway.ts";
import { stitchSizeMm } from "../garment/gauge.ts";
import { placeHoldsRound, placeHoldsRow, type Place } from "../garment/place.ts";
import type { KnittedRound, KnittedSection } from "./knitting.ts";
import { useOfRound, type StrandUse } from "./roundUse.ts";
import type { AmountSettings } from "./settings.ts";
import { emptyTally, loopMm, type Tally } from "./tally.ts";

/** Begins the name of a strand that has no yarn yet; no yarn's id begins with a line break. */
export const UNASSIGNED = "\n";
export const isUnassigned = (strand: string): boolean => strand.startsWith(UNASSIGNED);

/** Tally by yarn id, or by UNASSIGNED and the chart colour where no yarn was chosen, in the order of first use. */
export function tallySection(
  section: KnittedSection,
  colourway: Colourway,
  settings: AmountSettings,
): Map<string, Tally> {
  const tallies = new Map<string, Tally>();
  const tallyOf = (strand: string): Tally => {
    const known = tallies.get(strand);
    if (known) return known;
    const fresh = emptyTally();
    tallies.set(strand, fresh);
    return fresh;
  };
  const roundsUsed = new Map<string, number[]>();
  const mains: string[] = [];
  for (const round of section.rounds) {
    const uses = tallyRound({ section, colourway, settings }, round, tallyOf);
    for (const { strand } of uses) {
      const rounds = roundsUsed.get(strand);
      if (rounds) rounds.push(round.round);
      else roundsUsed.set(strand, [round.round]);
    }
    mains.push(uses.reduce((most, use) => (use.stitches > most.stitches ? use : most)).strand);
  }
  for (const [strand, rounds] of roundsUsed) {
    const tally = tallyOf(strand);
    tally.joins += stretches(rounds, settings.restRounds);
    tally.tailsM += tally.joins * settings.tailsM;
  }
  for (const tally of tallies.values()) {
    tally.tailsM += Math.ceil((tally.sewnLoopsM + tally.linesM) / settings.sewingLengthM) * settings.tailsM;
  }
  const loop = loopMm(section.gauge, settings) / 1000;
  const [first, last] = [mains[0], mains.at(-1)];
  if (first !== undefined) tallyOf(first).edgesM += section.castOn * settings.castOnRows * loop;
  if (last !== undefined) tallyOf(last).edgesM += section.castOff * settings.castOffRows * loop;
  return tallies;
}

export interface TallyOf {
  readonly section: KnittedSection;
  readonly colourway: Colourway;
  readonly settings: AmountSettings;
}

/** Adds what one round takes, without the tails of yarns that begin or end in it. */
export function tallyRound(
  { section, colourway, settings }: TallyOf,
  round: KnittedRound,
  tallyOf: (strand: string) => Tally,
): StrandUse[] {
  const loop = loopMm(section.gauge, settings) / 1000;
  const width = stitchSizeMm(section.gauge).widthMm / 1000;
  const uses = useOfRound(strandsOf(section, colourway, round), section.worked);
  for (const { strand, stitches, carried } of uses) {
    const tally = tallyOf(strand);
    tally.stitches += stitches;
    tally.loopsM += stitches * loop;
    tally.passedM += carried * width;
  }
  for (const over of colourway.overStitched ?? []) {
    if (holds(over.at, section, round)) addSewn(tallyOf(over.yarn), over, section, round, loop, settings);
  }
  return uses;
}

/** How often a yarn is joined: its rounds, parted where it rests for more than `restRounds`. */
export function stretches(rounds: readonly number[], restRounds: number): number {
  return rounds.filter((round, index) => index === 0 || round - rounds[index - 1]! - 1 > restRounds).length;
}

function strandsOf(section: KnittedSection, colourway: Colourway, round: KnittedRound): string[] {
  const strandOf = section.grid.ids.map((colour) => {
    const yarn =
      section.section === null
        ? yarnInRow(colourway, colour, section.chart, round.chartRow)
        : yarnInRound(colourway, colour, {
            section: section.section,
            round: round.round,
            chart: section.chart,
            row: round.chartRow,
          });
    return yarn ?? UNASSIGNED + colour;
  });
  const strands = round.columns.map((column) => strandOf[cellAt(section.grid, round.chartRow, column)]!);
  return round.beside === 0 ? strands : [...strands, ...strandsBeside(strands, round.beside)];
}

/** A steek or panel is worked in the round's two strands of most stitches by turns, in stripes of one stitch (trade.md 3). */
function strandsBeside(strands: readonly string[], stitches: number): string[] {
  const counts = new Map<string, number>();
  for (const strand of strands) counts.set(strand, (counts.get(strand) ?? 0) + 1);
  const two = [...counts].sort((a, b) => b[1] - a[1]).slice(0, 2);
  return Array.from({ length: stitches }, (_, index) => two[index % two.length]![0]);
}

function holds(place: Place, section: KnittedSection, round: KnittedRound): boolean {
  return section.section === null
    ? placeHoldsRow(place, section.chart, round.chartRow)
    : placeHoldsRound(place, {
        section: section.section,
        round: round.round,
        chart: section.chart,
        row: round.chartRow,
      });
}

/** Duplicate stitches and lines of one round: cells and corners are the chart's, and come again with each repeat. */
function addSewn(
  tally: Tally,
  over: OverStitch,
  section: KnittedSection,
  round: KnittedRound,
  loop: number,
  settings: AmountSettings,
): void {
  const times = (column: number): number => round.columns.filter((other) => other === column).length;
  for (const [row, column] of over.cells ?? []) {
    if (row !== round.chartRow) continue;
    const stitches = times(column);
    tally.duplicateStitches += stitches;
    tally.sewnLoopsM += stitches * settings.duplicateLoops * loop;
  }
  const { widthMm, heightMm } = stitchSizeMm(section.gauge);
  for (const [[rowA, columnA], [rowB, columnB]] of over.lines ?? []) {
    // A line is counted with the stitch that its middle lies in or touches.
    if (Math.max(1, Math.ceil((rowA + rowB) / 2)) !== round.chartRow) continue;
    const length = Math.hypot((columnA - columnB) * widthMm, (rowA - rowB) * heightMm) / 1000;
    tally.linesM += times(Math.max(1, Math.ceil((columnA + columnB) / 2))) * length * settings.lineFactor;
  }
}
