/** Where one section is knitted on to another, and where a chart begins again: bands that meet there by one stitch off, or by half a stitch. */
import type { BandStructure } from "../chart/structure.ts";
import { structureIn } from "../fabric/structure.ts";
import { bandRounds, meetingsInRounds, type KnittedSection, type RoundMeeting } from "../garment/rounds.ts";
import { capital, shortList, type AuditContext, type Judged } from "./context.ts";
import type { Finding } from "./finding.ts";
import { colourOf, nameOf, shifts, starts, type SizeOff } from "./lyingMends.ts";
import { slipOf, type Slip } from "./slips.ts";
import { THRESHOLDS } from "./thresholds.ts";

/** @param whole each chart as every use has it */
export function meetingFindings(context: AuditContext, whole: readonly Judged[]): Finding[] {
  const { sections = [], sizes = [] } = context.pattern;
  const used = sections.filter(({ on }) => on !== false);
  const chartOf = new Map(whole.map((judged) => [judged.chart.id, judged]));
  const judgedOf = new Map(used.map(({ id, chart }) => [id, chartOf.get(chart)!]));
  const offs = new Map<string, Off>();
  const known = new Set([...sizes.map(({ id }) => id), ...used.flatMap(({ rounds }) => Object.keys(rounds))]);
  for (const size of known) {
    const knitted = used.map((section): KnittedSection => {
      const { cloth } = judgedOf.get(section.id)!.now;
      return { section, bands: bandRounds(section, structureIn(cloth).bandOfRow, size) };
    });
    for (const meeting of meetingsInRounds(knitted, size)) {
      const slip = slipOf(meeting);
      if (!slip || meeting.between > THRESHOLDS.rowsBetween) continue;
      const key = [...meeting.sections, meeting.below, meeting.above, slip].join("/");
      const off = offs.get(key) ?? { meeting, slip, sizes: [] };
      off.sizes.push({ size, offBy: meeting.offBy! });
      offs.set(key, off);
    }
  }
  return [...offs.values()].flatMap((off) => {
    const [lower, upper] = off.meeting.sections.map((id) => judgedOf.get(id)!) as [Judged, Judged];
    const below = bandIn(lower, off.meeting.below);
    const above = bandIn(upper, off.meeting.above);
    const isLookedAt =
      Math.min(...off.meeting.repeats) >= THRESHOLDS.middlesFromRepeat &&
      [below, above].every(({ kind }) => kind === "motif") &&
      above.band.declared?.meant !== true;
    return isLookedAt ? [meetingFinding(context, upper, off, [below, above])] : [];
  });
}

interface Off {
  readonly meeting: RoundMeeting;
  readonly slip: Slip;
  readonly sizes: SizeOff[];
}

const bandIn = ({ now }: Judged, id: string): BandStructure =>
  structureIn(now.cloth).bands.find(({ band }) => band.id === id)!;

function meetingFinding(
  context: AuditContext,
  judged: Judged,
  { meeting, slip, sizes }: Off,
  [below, above]: readonly [BandStructure, BandStructure],
): Finding {
  const { chart } = judged;
  const { sections, repeats, round } = meeting;
  const isAgain = sections[0] === sections[1];
  const called = (id: string): string =>
    context.pattern.sections!.find((one) => one.id === id)!.name ?? `section ${id}`;
  const [lower, upper] = sections.map(called) as [string, string];
  const repeat = Math.min(...repeats);
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
  const mends =
    slip === "half a stitch"
      ? []
      : isAgain
        ? shifts(context, judged, { offBy, repeats }, [below, above])
        : starts(context, judged, { section: sections[1], below: lower, sizes, repeat, band: above });
  return {
    id: `alignment/${chart.id}@${sections.join("+")}/${below.band.rows.join("-")}/${above.band.rows.join("-")}`,
    severity: slip === "one stitch" && repeats[0] === repeats[1] ? "doubt" : "note",
    where: { chart: chart.id, rows, band: above.band.id, colours: colourOf(judged, above) },
    numbers: { offBy, repeatBelow: repeats[0], repeatAbove: repeats[1], every: meeting.every, meets: meeting.meets },
    headline: `${capital(isAgain ? nameOf(above) : upper)} over ${isAgain ? nameOf(below) : lower}: ${slip} off`,
    sentence: `${why} It is so ${where}${sizes.length > 1 || Object.keys(context.pattern.sections![0]!.rounds).length > 1 ? `, in ${sizes.length === 1 ? "size" : "sizes"} ${shortList(sizes.map(({ size }) => size))}` : ""}. If you want it so, say that it is meant.`,
    meant: { chart: chart.id, rows },
    ...(mends.length > 0 ? { mends } : {}),
  };
}
