/** Where one section is knitted on to another, and where a chart begins again: bands that meet there by one stitch off, or by half a stitch. */
import type { BandStructure } from "../chart/structure.ts";
import { structureIn } from "../fabric/structure.ts";
import { bandRounds, meetingsInRounds, type KnittedSection, type RoundMeeting } from "../garment/rounds.ts";
import { capital, shortList, wholeCharts, type AuditContext, type Judged } from "./context.ts";
import type { Finding } from "./finding.ts";
import { colourOf, nameOf, slipOf, type Slip } from "./slips.ts";
import { THRESHOLDS } from "./thresholds.ts";

/** Two bands that meet so, in whichever sizes. */
export interface MeetingSlip extends Off {
  readonly finding: Finding;
  /** The upper one's chart. */
  readonly judged: Judged;
  /** Below and above. */
  readonly both: readonly [BandStructure, BandStructure];
  /** Name of the lower section. */
  readonly lower: string;
}

export function meetingSlips(context: AuditContext): MeetingSlip[] {
  const { sections = [], sizes = [] } = context.pattern;
  const used = sections.filter(({ on }) => on !== false);
  const chartOf = new Map(wholeCharts(context).map((judged) => [judged.chart.id, judged]));
  const judgedOf = new Map(used.map(({ id, chart }) => [id, chartOf.get(chart)!]));
  const offs = new Map<string, Off>();
  const known = new Set([...sizes.map(({ id }) => id), ...used.flatMap(({ rounds }) => Object.keys(rounds))]);
  for (const size of known) {
    const knitted = used.map((section): KnittedSection => {
      const { cloth } = judgedOf.get(section.id)!.now;
      return { section, bands: bandRounds(section, structureIn(cloth).bandOfRow, size) };
    });
    for (const met of meetingsInRounds(knitted, size)) {
      const slip = slipOf(met);
      if (!slip || met.between > THRESHOLDS.rowsBetween) continue;
      const key = [...met.sections, met.below, met.above, slip].join("/");
      const off = offs.get(key) ?? { met, slip, sizes: [] };
      off.sizes.push({ size, offBy: met.offBy! });
      offs.set(key, off);
    }
  }
  const called = (id: string): string => sections.find((one) => one.id === id)!.name ?? `section ${id}`;
  return [...offs.values()].flatMap((off): MeetingSlip[] => {
    const [lower, upper] = off.met.sections.map((id) => judgedOf.get(id)!) as [Judged, Judged];
    const below = bandIn(lower, off.met.below);
    const above = bandIn(upper, off.met.above);
    const isLookedAt =
      Math.min(...off.met.repeats) >= THRESHOLDS.middlesFromRepeat &&
      [below, above].every(({ kind }) => kind === "motif") &&
      above.band.declared?.meant !== true;
    if (!isLookedAt) return [];
    const both = [below, above] as const;
    const names = [called(off.met.sections[0]), called(off.met.sections[1])] as const;
    const finding = meetingFinding(context, upper, off, { both, names });
    return [{ ...off, finding, judged: upper, both, lower: names[0] }];
  });
}

interface Off {
  readonly met: RoundMeeting;
  readonly slip: Slip;
  readonly sizes: SizeOff[];
}

export interface SizeOff {
  readonly size: string;
  readonly offBy: number;
}

const bandIn = ({ now }: Judged, id: string): BandStructure =>
  structureIn(now.cloth).bands.find(({ band }) => band.id === id)!;

function meetingFinding(
  context: AuditContext,
  judged: Judged,
  { met, slip, sizes }: Off,
  {
    both: [below, above],
    names: [lower, upper],
  }: Pick<MeetingSlip, "both"> & { readonly names: readonly [string, string] },
): Finding {
  const { chart } = judged;
  const { sections, repeats, round } = met;
  const isAgain = sections[0] === sections[1];
  const rows: [number, number] = [above.band.rows[0], above.band.rows[1]];
  const offBy = sizes[0]!.offBy;
  const away = `${Math.abs(offBy)} ${Math.abs(offBy) === 1 ? "stitch" : "stitches"} to the ${offBy > 0 ? "left" : "right"}`;
  const where = isAgain
    ? `where the chart begins again in round ${round} of ${upper}`
    : `where ${upper} is knitted on to ${lower}`;
  const why =
    slip === "half a stitch"
      ? "One has its middle on a stitch and the other between two, so that nothing brings them over one another."
      : `The middles of ${nameOf(above)} lie ${away} of those of ${nameOf(below)}, all round.`;
  return {
    id: `alignment/${chart.id}@${sections.join("+")}/${below.band.rows.join("-")}/${above.band.rows.join("-")}`,
    severity: slip === "one stitch" && repeats[0] === repeats[1] ? "doubt" : "note",
    where: { chart: chart.id, rows, band: above.band.id, colours: colourOf(judged, above) },
    numbers: { offBy, repeatBelow: repeats[0], repeatAbove: repeats[1], every: met.every, meets: met.meets },
    headline: `${capital(isAgain ? nameOf(above) : upper)} over ${isAgain ? nameOf(below) : lower}: ${slip} off`,
    sentence: `${why} It is so ${where}${sizes.length > 1 || Object.keys(context.pattern.sections![0]!.rounds).length > 1 ? `, in ${sizes.length === 1 ? "size" : "sizes"} ${shortList(sizes.map(({ size }) => size))}` : ""}. If you want it so, say that it is meant.`,
    meant: { chart: chart.id, rows },
  };
}
