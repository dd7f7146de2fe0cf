/** How bands lie over one another and how their repeats close in the round: said where it looks like a slip, with what would change it; the rest is her taste. */
import type { Alignment } from "../chart/alignment.ts";
import { oncePer } from "../base/oncePer.ts";
import type { BandStructure } from "../chart/structure.ts";
import type { Pattern } from "../fabric/pattern.ts";
import { structureIn } from "../fabric/structure.ts";
import { repeatsThatFit, roundsThatFit } from "../garment/fitting.ts";
import { bandRounds } from "../garment/rounds.ts";
import { capital, shortList, wholeCharts, type AuditContext, type Judged } from "./context.ts";
import type { Finding } from "./finding.ts";
import { meetingSlips } from "./sectionMeetings.ts";
import { colourOf, nameOf, oddOneOut, slipOf, type Slip } from "./slips.ts";
import { THRESHOLDS } from "./thresholds.ts";

export function alignment(context: AuditContext): Finding[] {
  return [
    ...lyingSlips(context).map(({ finding }) => finding),
    ...wholeCharts(context).flatMap((judged) => roundFindings(context, judged)),
    ...meetingSlips(context).map(({ finding }) => finding),
  ];
}

/** A pair of bands of which there is something to say. */
export interface LyingSlip {
  readonly finding: Finding;
  readonly judged: Judged;
  readonly found: Alignment;
  /** Below and above. */
  readonly both: readonly [BandStructure, BandStructure];
  readonly slip: Slip | "by accident";
}

export const lyingSlips = (context: AuditContext): LyingSlip[] =>
  wholeCharts(context).flatMap((judged) => slipsIn(judged));

function slipsIn(judged: Judged): LyingSlip[] {
  const { cloth } = judged.now;
  const { bands, alignments } = structureIn(cloth);
  const bandOf = new Map(bands.map((one) => [one.band.id, one]));
  const looked = alignments.filter(({ above, below, between, repeats }) => {
    const both = [below, above].map((id) => bandOf.get(id)!);
    return (
      between <= THRESHOLDS.rowsBetween &&
      Math.min(...repeats) >= THRESHOLDS.middlesFromRepeat &&
      both.every(({ kind }) => kind === "motif") &&
      both[1]!.band.declared?.meant !== true
    );
  });
  const odd = oddOneOut(looked);
  return looked.flatMap((found): LyingSlip[] => {
    const slip = slipOf(found) ?? (found === odd ? "by accident" : null);
    const both = [bandOf.get(found.below)!, bandOf.get(found.above)!] as const;
    return slip ? [{ finding: lyingFinding(judged, found, slip, both), judged, found, both, slip }] : [];
  });
}

function lyingFinding(
  judged: Judged,
  found: Alignment,
  slip: LyingSlip["slip"],
  [below, above]: LyingSlip["both"],
): Finding {
  const names = { below: nameOf(below), above: nameOf(above) };
  const same = found.repeats[0] === found.repeats[1];
  return {
    id: `alignment/${judged.chart.id}/${below.band.rows.join("-")}/${above.band.rows.join("-")}`,
    severity: slip === "one stitch" && same ? "doubt" : "note",
    where: {
      chart: judged.chart.id,
      rows: [found.rows[0], found.rows[1]],
      band: above.band.id,
      colours: colourOf(judged, above),
    },
    numbers: {
      offBy: found.offBy,
      repeatBelow: found.repeats[0],
      repeatAbove: found.repeats[1],
      every: found.every,
      meets: found.meets,
    },
    headline: `${capital(names.above)} over ${names.below}: ${HEADLINES[slip](found)}`,
    sentence: sentenceOf(found, slip, names),
    meant: { chart: judged.chart.id, rows: [above.band.rows[0], above.band.rows[1]] },
  };
}

const HEADLINES: Record<LyingSlip["slip"], (found: Alignment) => string> = {
  "one stitch": () => "one stitch off",
  "half a stitch": () => "half a stitch off",
  "by accident": ({ meets }) =>
    meets === "lined up" ? "lined up, unlike the others" : "offset by half a repeat, unlike the others",
};

function sentenceOf(
  found: Alignment,
  slip: LyingSlip["slip"],
  { below, above }: Record<"below" | "above", string>,
): string {
  const { offBy, repeats, meets } = found;
  const repeat = Math.min(...repeats);
  const side = (stitches: number): string => `${Math.abs(stitches)} to the ${stitches > 0 ? "left" : "right"}`;
  switch (slip) {
    case "one stitch":
      return Math.abs(offBy!) === 1
        ? `The middles of ${above} lie ${side(offBy!)} of those of ${below}, all round: too little to be meant, and a stitch or two in a chart are easily lost. If you want it so, say that it is meant.`
        : `The middles of ${above} miss the gaps of ${below} by one stitch, all round: half the repeat of ${repeat} would be ${repeat / 2}. If you want it so, say that it is meant.`;
    case "half a stitch":
      return `One has its middle on a stitch and the other between two, so that no shift brings them over one another: they miss by half a stitch all round. A plain row or two between hide it; many do not mind.`;
    case "by accident":
      return `${meets === "lined up" ? "Middle lies over middle" : "Middle lies over gap"} here alone; the other bands of the chart are ${meets === "lined up" ? "offset by half a repeat" : "lined up"}. Either looks well; one alone may look like an accident.`;
  }
}

/** Sections in whose rounds a repeat does not close. Worked flat, what is left over goes to the edges. */
function roundFindings(context: AuditContext, judged: Judged): Finding[] {
  if (judged.chart.worked === "flat") return [];
  return brokenRounds(context.pattern, judged).map((broken) => roundFinding(judged, broken));
}

interface Broken {
  readonly section: string;
  readonly name: string;
  /** Each band once, with the first of its rounds that breaks it. */
  readonly bands: readonly {
    readonly band: BandStructure;
    readonly repeat: number;
    readonly stitches: number;
    readonly over: number;
  }[];
  readonly sizes: readonly string[];
}

/** They depend on the pattern alone, whatever the yarns. */
function brokenRounds(pattern: Pattern, { chart, now: { cloth } }: Judged): readonly Broken[] {
  const known = knownBroken(pattern);
  let found = known.get(cloth.grid);
  if (found) return found;
  const { bands: structure, bandOfRow } = structureIn(cloth);
  found = (pattern.sections ?? [])
    .filter((section) => section.chart === chart.id && section.on !== false)
    .flatMap((section): Broken[] => {
      const bands = new Map<string, Broken["bands"][number]>();
      const sizes = new Set<string>();
      for (const size of Object.keys(section.rounds)) {
        for (const { band, stitches, over } of bandRounds(section, bandOfRow, size)) {
          // A round shorter than one repeat shows a part of it and is meant to.
          if (!over || stitches[0] < band.repeat) continue;
          sizes.add(size);
          if (!bands.has(band.id))
            bands.set(band.id, {
              band: structure.find((one) => one.band.id === band.id)!,
              repeat: band.repeat,
              stitches: stitches[0],
              over,
            });
        }
      }
      return bands.size === 0
        ? []
        : [
            {
              section: section.id,
              name: section.name ?? `section ${section.id}`,
              bands: [...bands.values()],
              sizes: [...sizes],
            },
          ];
    });
  known.set(cloth.grid, found);
  return found;
}

const knownBroken = oncePer((_pattern: Pattern) => new WeakMap<object, readonly Broken[]>());

function roundFinding(judged: Judged, { section, name, bands, sizes }: Broken): Finding {
  const rows: [number, number] = [
    Math.min(...bands.map(({ band }) => band.band.rows[0])),
    Math.max(...bands.map(({ band }) => band.band.rows[1])),
  ];
  // The largest repeat speaks for all: what takes it is hardest to find.
  const [worst] = bands.toSorted((a, b) => b.repeat - a.repeat || a.band.band.rows[0] - b.band.band.rows[0]);
  const { repeat, stitches, over } = worst!;
  const rounds = roundsThatFit(stitches, [
    ...new Set(bands.filter((one) => one.stitches === stitches).map((one) => one.repeat)),
  ]);
  const repeats = repeatsThatFit(stitches, repeat);
  const counts = [rounds.below, rounds.above].filter((count) => count !== null).join(" or ");
  const widths = [repeats.below > 2 ? repeats.below : null, repeats.above].filter((width) => width !== null);
  const more = bands.length - 1;
  const others =
    more === 0 ? "" : `; so ${more === 1 ? "does that of one other band" : `do those of ${more} other bands`}`;
  return {
    id: `alignment/${judged.chart.id}@${section}/round`,
    severity: "doubt",
    where: {
      chart: judged.chart.id,
      rows,
      band: worst!.band.band.id,
      colours: [...new Set(bands.flatMap(({ band }) => colourOf(judged, band)))],
    },
    numbers: { stitches, repeat, over, bands: bands.length, fitsBelow: rounds.below, fitsAbove: rounds.above },
    headline: `${capital(name)}: the repeat of ${repeat} does not go into ${stitches} stitches`,
    sentence:
      `${Math.floor(stitches / repeat)} repeats of ${nameOf(worst!.band)} leave ${over} ${over === 1 ? "stitch" : "stitches"} over, so that the figure breaks off at the round's end${others}. ` +
      `${counts} stitches take ${bands.length > 1 ? "them all" : "it"}${widths.length > 0 ? `, and ${stitches} take a repeat of ${widths.join(" or ")}` : ""}; at a side seam or a steek it may not matter.` +
      (sizes.length > 1 ? ` It is so in sizes ${shortList(sizes)}.` : ""),
  };
}
