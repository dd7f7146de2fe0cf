/** What a check says of a colourway: its ladder, weights, bands and rows in numbers, and what is found, not yet what would mend it. */
import { contextOf, judgeMemory, type Case, type JudgeMemory } from "../audit/judge.ts";
import { audit } from "../audit/audit.ts";
import { yarnName, type AuditContext, type Judged } from "../audit/context.ts";
import type { Finding } from "../audit/finding.ts";
import { crossingPairs, isFlipped, openPairs } from "../audit/valueOrder.ts";
import { doubtOf, type HerEye } from "../audit/verdicts.ts";
import type { Want } from "../chart/chart.ts";
import type { Repeat } from "../chart/repeats.ts";
import type { BandEcho, BandStructure } from "../chart/structure.ts";
import { hexFromLab, type Lab } from "../colour/lab.ts";
import { plainName } from "../colour/names.ts";
import type { ValueClass } from "../colour/value.ts";
import type { Project } from "../document/project.ts";
import type { Colourway } from "../fabric/colourway.ts";
import { readsToIn, type Contrast, type Doubt, type Viewing } from "../fabric/contrast.ts";
import { valueLadder, type Lightness } from "../fabric/ladder.ts";
import { leadersOf } from "../fabric/leaders.ts";
import type { InkWeight } from "../fabric/measures.ts";
import { structureIn } from "../fabric/structure.ts";
import { valueSides } from "../fabric/valueSides.ts";
import { wordOf, type ReadsTo, type Word } from "../fabric/visibility.ts";
import { withWantedBands } from "../recolour/wantedBands.ts";
import type { Wish } from "../recolour/wish.ts";
import type { Deficiency } from "../vision/deficiency.ts";
import { alignmentsIn, type Alignments } from "./alignments.ts";
import { asSeenBy } from "./deficient.ts";
import { asKnitted } from "./knitted.ts";
import type { LookedAt } from "./lookedAt.ts";
import { colourwayOf, eyeOf, suppliesOf, viewingOf } from "./parts.ts";

/** How light a colour is: L*, the ends between which it lies in 80 % of cases, and the value classes that these touch. */
export interface RungLightness {
  readonly L: number;
  readonly low: number;
  readonly high: number;
  readonly class: ValueClass;
  readonly mayBe: readonly ValueClass[];
  readonly rank: number;
  readonly hex: string;
}

export interface LadderRung extends RungLightness {
  readonly colour: string;
  readonly name: string;
  readonly yarn: string | null;
  readonly yarnName: string | null;
  readonly main: boolean;
  readonly was: RungLightness;
  /** Chart colours whose order against this one is not the pattern's any more. */
  readonly crosses: readonly string[];
  /** Chart colours whose order against this one the shades leave open. */
  readonly mayCross: readonly string[];
}

export interface WeightLine {
  readonly chart: string;
  /** null: the chart as a whole. */
  readonly band: string | null;
  readonly colour: string;
  readonly yarn: string | null;
  readonly yarnName: string | null;
  /** Laid on in duplicate stitch, and counted beside the same yarn where it is knitted. */
  readonly over: boolean;
  readonly area: number;
  readonly share: number;
  readonly standsOut: number | null;
  readonly recurs: { readonly bands: number; readonly height: number };
  readonly was: { readonly share: number; readonly standsOut: number | null };
}

interface Shown {
  readonly V: number | null;
  readonly shows: Word | null;
  /** The words at the two ends of what is not known: shades, weight of hue, her threshold. */
  readonly between: readonly [Word, Word] | null;
}

export interface BandLine extends Shown {
  readonly id: string;
  readonly chart: string;
  readonly section: string | null;
  readonly name: string | null;
  readonly rows: readonly [number, number];
  readonly want: Want | null;
  readonly cast: { readonly hex: string; readonly lab: Lab; readonly name: string };
  readonly echoOf: string | null;
  /** Plain rows, single stitches strewn, a line of dashes, or a motif. */
  readonly kind: BandStructure["kind"];
  readonly repeat: Repeat;
  /** Lines about which it mirrors: columns and rows, .5 between two. */
  readonly axes: { readonly across: readonly number[]; readonly up: readonly number[] };
  readonly shaded: BandStructure["shaded"];
  /** As `echoOf`, mirrored ones too, and how it is the same again. */
  readonly echo: BandEcho | null;
  /** Rows in which the figure lies on the other side of its ground in value than in the rest of the band. */
  readonly crossed: readonly number[];
  readonly lightDark: number | null;
  readonly low: number | null;
  readonly high: number | null;
  readonly readsTo: ReadsTo | null;
  /** The one or two chart colours that the eye goes to first; none where several weigh about the same, and in plain rows. */
  readonly leads: readonly string[];
  readonly was: Shown & { readonly leads: readonly string[]; readonly crossed: readonly number[] };
}

export interface RowLine extends Shown {
  readonly chart: string;
  readonly section: string | null;
  readonly row: number;
  readonly band: string;
  readonly colours: readonly string[];
  readonly yarns: readonly (string | null)[];
  readonly deltaL: number | null;
  readonly deltaE00: number | null;
  readonly lightDark: number | null;
  readonly low: number | null;
  readonly high: number | null;
  readonly readsTo: ReadsTo | null;
  readonly was: Shown;
  readonly figures: readonly {
    readonly colour: string;
    readonly against: string;
    readonly V: number;
    readonly shows: Word;
  }[];
}

export interface CheckResult {
  readonly colourway: string;
  readonly distance: number;
  readonly light: number;
  /** The eye that looks: every colour below is what is left to it. null: an ordinary one. */
  readonly deficiency: { readonly kind: Deficiency; readonly severity: number } | null;
  /** Her eye: words and ranges go by it, V does not. */
  readonly eye: Pick<HerEye, "verdicts" | "theta" | "low" | "high">;
  readonly ladder: readonly LadderRung[];
  /** The ladder as a whole is turned over: light is dark and dark is light; `crosses` is then told against that. */
  readonly turnedOver: boolean;
  readonly weights: readonly WeightLine[];
  readonly bands: readonly BandLine[];
  readonly rows: readonly RowLine[];
  /** How bands lie over one another. */
  readonly alignments: Alignments["alignments"];
  /** … how their repeats go into each section's rounds … */
  readonly rounds: Alignments["rounds"];
  /** … and how they meet through decreases that are spread over the round. */
  readonly throughDecreases: Alignments["throughDecreases"];
  readonly findings: readonly Finding[];
}

export interface Checked {
  readonly result: CheckResult;
  /** What the findings were judged by, for whoever tries out what would mend them. */
  readonly project: Project;
  readonly input: Case;
  readonly memory: JudgeMemory;
}

export function checkColourway(known: Project, options: LookedAt = {}): Checked {
  const memory = options.memory ?? judgeMemory();
  const { deficiency, severity = 1 } = options;
  const project = deficiency ? asSeenBy(known, deficiency, severity) : known;
  const viewing = viewingOf(known, options);
  // Her verdicts were given on the colours as they are.
  const eye = eyeOf(known, memory, viewing.texture);
  const doubt = doubtOf(eye);
  const colourway = colourwayOf(project, options.colourway);
  const wish: Wish = colourway.wish ?? {};
  const { yarns, ...knitted } = asKnitted(project);
  const pattern = withWantedBands(knitted.pattern, wish);
  const supplies = suppliesOf(project, colourway);
  const input = {
    pattern,
    yarns,
    colourway,
    viewing,
    doubt,
    supplies,
    ladder: wish.ladder,
    floatCm: project.knitting?.floatCm,
  };
  const context = contextOf(input, memory);
  const result = {
    colourway: colourway.id,
    distance: viewing.distanceM,
    light: viewing.lux,
    deficiency: deficiency ? { kind: deficiency, severity } : null,
    eye: { verdicts: eye.verdicts, theta: eye.theta, low: eye.low, high: eye.high },
    ladder: ladderLines(project, colourway),
    turnedOver: isFlipped(valueLadder(project.pattern, project.yarns, colourway)),
    weights: context.charts.flatMap((judged) => weightLines(judged, context)),
    bands: context.charts.flatMap((judged) => bandLines(judged, viewing, memory, doubt)),
    rows: context.charts.flatMap((judged) => rowLines(judged, viewing, memory, doubt)),
    ...alignmentsIn(pattern, context.charts),
    findings: audit(context),
  };
  return { result, project, input, memory };
}

/** Of the yarns as they are, not of the cloth. */
function ladderLines({ pattern, yarns }: Project, colourway: Colourway): LadderRung[] {
  const rungs = valueLadder(pattern, yarns, colourway);
  const crossings = crossingPairs(rungs, isFlipped(rungs));
  const open = openPairs(rungs);
  const partnersOf = (colour: string, pairs: typeof open): string[] =>
    pairs.flatMap(([one, other]) =>
      one.colour === colour ? [other.colour] : other.colour === colour ? [one.colour] : [],
    );
  return rungs.map((rung) => ({
    colour: rung.colour,
    name: pattern.colours.find(({ id }) => id === rung.colour)?.name ?? plainName(rung.was.lab),
    yarn: rung.yarn,
    yarnName: rung.yarn === null ? null : yarnName({ yarns }, rung.yarn),
    ...rungLightness(rung),
    main: rung.main,
    was: rungLightness(rung.was),
    crosses: partnersOf(rung.colour, crossings),
    mayCross: partnersOf(rung.colour, open),
  }));
}

const rungLightness = ({ lab, low, high, class: valueClass, mayBe, rank }: Lightness): RungLightness => ({
  L: lab[0],
  low,
  high,
  class: valueClass,
  mayBe,
  rank,
  hex: hexFromLab(lab),
});

function weightLines({ chart, section, now, was }: Judged, context: AuditContext): WeightLine[] {
  if (section !== null) return [];
  const line = (band: string | null, weight: InkWeight, before: InkWeight): WeightLine => {
    const ink = now.cloth.inks[weight.ink]!;
    return {
      chart: chart.id,
      band,
      colour: ink.colour,
      yarn: ink.yarn,
      yarnName: ink.yarn === null ? null : yarnName(context, ink.yarn),
      over: ink.over,
      area: weight.area,
      share: weight.share,
      standsOut: weight.standsOut,
      recurs: weight.recurs,
      was: { share: before.share, standsOut: before.standsOut },
    };
  };
  return [
    ...now.weights.map((weight, index) => line(null, weight, was.weights[index]!)),
    ...now.bands.flatMap(({ band, weights }, index) =>
      band.pattern.length === 0
        ? []
        : weights.map((weight, at) => line(band.id, weight, was.bands[index]!.weights[at]!)),
    ),
  ];
}

/** Low and high are over her threshold already, so the usual limits hold for their words. */
const shown = ({ V, shows, low, high }: Contrast): Shown => ({
  V,
  shows,
  between: low === null || high === null ? null : [wordOf(low), wordOf(high)],
});

function bandLines(
  { chart, section, now, was }: Judged,
  viewing: Viewing,
  memory: JudgeMemory,
  doubt: Doubt,
): BandLine[] {
  const structure = structureIn(now.cloth).bands;
  return now.bands.map(({ band, contrast, cast, weights }, index) => ({
    id: band.id,
    chart: chart.id,
    section,
    name: band.name ?? null,
    rows: band.rows,
    want: band.want ?? null,
    cast: { hex: hexFromLab(cast), lab: cast, name: plainName(cast) },
    echoOf: band.echoOf,
    ...builtOf(structure[index]!),
    crossed: valueSides(now.cloth, band).crossed,
    ...shown(contrast),
    lightDark: contrast.lightDark,
    low: contrast.low,
    high: contrast.high,
    readsTo: contrast.V === null ? null : readsToIn(now.cloth, band.rows, viewing, memory, doubt),
    leads: band.pattern.length === 0 ? [] : leadersOf(weights, now.cloth.inks),
    was: {
      ...shown(was.bands[index]!.contrast),
      leads: band.pattern.length === 0 ? [] : leadersOf(was.bands[index]!.weights, was.cloth.inks),
      crossed: valueSides(was.cloth, band).crossed,
    },
  }));
}

function builtOf({
  kind,
  repeat,
  mirrors: { across, up },
  shaded,
  echo,
}: BandStructure): Pick<BandLine, "kind" | "repeat" | "axes" | "shaded" | "echo"> {
  return { kind, repeat, axes: { across, up }, shaded, echo };
}

function rowLines(
  { chart, section, now, was }: Judged,
  viewing: Viewing,
  memory: JudgeMemory,
  doubt: Doubt,
): RowLine[] {
  return now.rows.map(({ row, band, contrast }, index) => ({
    chart: chart.id,
    section,
    row,
    band: now.bands[band]!.band.id,
    colours: contrast.areas.flatMap(({ colours }) => colours),
    yarns: contrast.areas.map(({ yarn }) => yarn),
    deltaL: contrast.deltaL,
    deltaE00: contrast.deltaE00,
    ...shown(contrast),
    lightDark: contrast.lightDark,
    low: contrast.low,
    high: contrast.high,
    readsTo: contrast.V === null ? null : readsToIn(now.cloth, [row, row], viewing, memory, doubt),
    was: shown(was.rows[index]!.contrast),
    figures: figuresOf(contrast),
  }));
}

const figuresOf = (contrast: Contrast): RowLine["figures"] =>
  contrast.figures.map(({ area, against, V, shows }) => ({
    colour: area.colours[0]!,
    against: against.colours[0]!,
    V,
    shows,
  }));
