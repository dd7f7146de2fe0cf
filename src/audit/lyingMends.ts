/** What changes how bands lie: a shift sideways, plain rows between them, another column for the rounds of a section to begin in. */
import { remainder } from "../base/divisors.ts";
import type { Alignment } from "../chart/alignment.ts";
import { NO_GROUND } from "../chart/grounds.ts";
import type { BandStructure } from "../chart/structure.ts";
import { partsALine, type BandShift } from "../fabric/bandShift.ts";
import { patternWithLines } from "../fabric/chartLines.ts";
import type { Pattern } from "../fabric/pattern.ts";
import type { StartColumnEdit } from "../fabric/startColumn.ts";
import type { Colourway } from "../fabric/colourway.ts";
import { capital, listText, rowsText, type AuditContext } from "./context.ts";
import type { Finding, Mend, RowsInserted } from "./finding.ts";
import { lyingSlips } from "./alignment.ts";
import { meetingSlips, type SizeOff } from "./sectionMeetings.ts";
import { colourOf, nameOf, type Laid } from "./slips.ts";
import { THRESHOLDS } from "./thresholds.ts";

/** What would change how bands lie of which a finding tells; none where its kind has none. They are made when they are wanted, and not with every check. */
export function lyingMends({ id }: Pick<Finding, "id">, context: AuditContext): Mend[] {
  const lying = lyingSlips(context).find(({ finding }) => finding.id === id);
  if (lying) {
    const { judged, found, both, slip } = lying;
    return [
      ...(slip === "half a stitch" ? [] : shifts(context, judged, found, both)),
      spacing(context, judged, found, both),
    ];
  }
  const meeting = meetingSlips(context).find(({ finding }) => finding.id === id);
  if (!meeting || meeting.slip === "half a stitch") return [];
  const { judged, both, lower, sizes, met } = meeting;
  const { sections, repeats } = met;
  return sections[0] === sections[1]
    ? shifts(context, judged, { offBy: sizes[0]!.offBy, repeats }, both)
    : starts(context, judged, {
        section: sections[1],
        below: lower,
        sizes,
        repeat: Math.min(...repeats),
        band: both[1],
      });
}

/** What is planned: of an audit's context only so much. */
export interface Planned {
  readonly pattern: Pattern;
  readonly colourway: Colourway;
}

/** The shifts that line the two up and that set them off by half a repeat; of the upper band first, which has one neighbour fewer below it. */
export function shifts(
  context: Planned,
  judged: Laid,
  { offBy, repeats }: Pick<Alignment, "offBy" | "repeats">,
  [below, above]: readonly [BandStructure, BandStructure],
): Mend[] {
  const repeat = Math.min(...repeats);
  const half = Math.floor(repeat / 2);
  // To the left is on; the shorter way round is taken.
  const shorter = (by: number): number =>
    by > half ? by - repeat : by <= -half && by + repeat <= half ? by + repeat : by;
  const ways = [
    { by: shorter(-offBy!), effect: "lined up with" },
    { by: shorter(half - offBy!), effect: "half a repeat off" },
  ].filter(({ by }) => by !== 0);
  return [above, below]
    .flatMap((band) =>
      ways.flatMap(({ by, effect }): Mend[] => {
        const mend = shiftOf(context, judged, band, band === above ? by : -by);
        return mend ? [{ ...mend, effect: `${effect} ${nameOf(band === above ? below : above)}` }] : [];
      }),
    )
    .map((mend) => ({ ...mend, sentence: `${mend.change}: ${mend.effect}` }));
}

function shiftOf(
  { pattern, colourway }: Planned,
  judged: Laid,
  { band, repeat }: BandStructure,
  by: number,
): Mend | null {
  const { chart } = judged;
  const rows: [number, number] = [band.rows[0], band.rows[1]];
  const edit: BandShift = { kind: "shiftBand", chart: chart.id, rows, by, repeat: repeat.stitches };
  if (partsALine(colourway, edit, pattern)) return null;
  const [colour] = colourOf(judged, { band });
  const yarn = colourway.yarns[colour!] ?? null;
  const stitches = `${Math.abs(by)} ${Math.abs(by) === 1 ? "stitch" : "stitches"} to the ${by > 0 ? "left" : "right"}`;
  return {
    kind: "shift",
    edits: [edit],
    colour: colour!,
    from: yarn,
    to: yarn,
    at: { chart: chart.id, rows },
    change: `${capital(band.name ?? rowsText(rows))} ${stitches}`,
    effect: "",
    sentence: "",
    numbers: { by },
  };
}

/**
 * Plain rows in the ground between two bands, so many that nobody looks from one to the other any more. What stands between them already is
 * knitted once more; else it is the ground of the lower one.
 */
export function spacing(
  { pattern, colourway }: Planned,
  judged: Laid,
  { between }: Pick<Alignment, "between">,
  [below, above]: readonly [BandStructure, BandStructure],
): Mend {
  const { chart, now } = judged;
  const at = above.band.rows[0];
  const count = THRESHOLDS.rowsBetween + 1 - between;
  const lowest = chart.rows[chart.rows.length - at + 1]!;
  const ground = below.rows.at(-1)!.ground;
  const colour = now.cloth.grid.ids[ground === NO_GROUND ? below.band.ground : ground]!;
  // Where there is no stitch below, none can stand on it.
  const row = between > 0 ? lowest : lowest.replaceAll(/[^-]/g, () => colour);
  const edit: RowsInserted = {
    kind: "insertRows",
    chart: chart.id,
    at,
    rows: Array.from({ length: count }, () => row),
  };
  const yarn = colourway.yarns[colour] ?? null;
  const change = `${count === 1 ? "A plain row" : `${capital(WORDS[count] ?? String(count))} plain rows`} between ${nameOf(below)} and ${nameOf(above)}`;
  const longer = longerText(pattern, edit);
  const effect = `apart, so that nobody looks for middles${longer}`;
  return {
    kind: "spacing",
    edits: [edit],
    colour,
    from: yarn,
    to: yarn,
    at: { chart: chart.id, rows: [at, at] },
    change,
    effect,
    sentence: `${change}: ${effect}`,
    numbers: { rows: count },
  };
}

const WORDS: Readonly<Record<number, string>> = { 2: "two", 3: "three", 4: "four" };

/** "; body becomes 2 rounds longer": what she would see in the piece. */
function longerText(pattern: Pattern, edit: RowsInserted): string {
  const after = patternWithLines(pattern, edit);
  const grown = (pattern.sections ?? []).flatMap((section, index) => {
    const by = Object.entries(section.rounds).map(([size, rounds]) => after.sections![index]!.rounds[size]! - rounds);
    return section.on !== false && by.some((more) => more > 0)
      ? [{ name: section.name ?? `section ${section.id}`, by }]
      : [];
  });
  if (grown.length === 0) return "";
  const by = grown.flatMap((one) => one.by);
  const most = Math.max(...by);
  const upTo = by.some((more) => more < most) ? "up to " : "";
  return `; ${listText(grown.map(({ name }) => name))} ${grown.length === 1 ? "becomes" : "become"} ${upTo}${most} ${most === 1 ? "round" : "rounds"} longer`;
}

/** The columns in which the upper section would have to begin, size by size, to stand in line with the lower or half a repeat off it. */
function starts(
  { pattern, colourway }: Planned,
  judged: Laid,
  {
    section,
    below,
    sizes,
    repeat,
    band,
  }: {
    readonly section: string;
    /** Name of the section below. */
    readonly below: string;
    readonly sizes: readonly SizeOff[];
    readonly repeat: number;
    readonly band: BandStructure;
  },
): Mend[] {
  const own = pattern.sections!.find(({ id }) => id === section)!;
  const width = judged.now.cloth.grid.width;
  const [colour] = colourOf(judged, band);
  const yarn = colourway.yarns[colour!] ?? null;
  const ways = [
    { to: 0, effect: `lined up with ${below}` },
    { to: Math.floor(repeat / 2), effect: `half a repeat off ${below}` },
  ];
  return ways.map(({ to, effect }): Mend => {
    // To begin a stitch further on moves what is knitted back by one.
    const edits = sizes.map(({ size, offBy }): StartColumnEdit => {
      const column = remainder((own.startColumn?.[size] ?? 1) - 1 + offBy - to, width) + 1;
      return { kind: "setStartColumn", section, size, column };
    });
    const columns = [...new Set(edits.map(({ column }) => column))];
    const change = `${capital(own.name ?? `section ${section}`)} begun in ${columns.length === 1 ? "column" : "columns"} ${listText(columns.map(String))}${columns.length === 1 ? "" : `, for ${listText(sizes.map(({ size }) => size))}`}`;
    return {
      kind: "start",
      edits,
      colour: colour!,
      from: yarn,
      to: yarn,
      at: { section },
      change,
      effect,
      sentence: `${change}: ${effect}`,
      numbers: { sizes: sizes.length },
    };
  });
}
