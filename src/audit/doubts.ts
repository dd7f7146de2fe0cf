/** What a check leaves open and a swatch could settle: as plain data, for whoever plans the swatch. */
import { areasOf } from "../fabric/areas.ts";
import { valueLadder, type Rung } from "../fabric/ladder.ts";
import { lyingSlips } from "./alignment.ts";
import { capital, namedInk, told, type AuditContext, type Judged } from "./context.ts";
import { turnedEchoes } from "./echoes.ts";
import type { Finding } from "./finding.ts";
import { enoughV } from "./legibility.ts";
import { EVEN, lowerTail, openAt, rowDoubts, withNeighbours } from "./rowDoubts.ts";
import { THRESHOLDS } from "./thresholds.ts";
import { openPairs } from "./valueOrder.ts";
import type { HerEye } from "./verdicts.ts";

/** Neighbouring rows of one of the cloths that were judged, by its index; a doubtful row has its own neighbours in it. */
export interface SwatchRows {
  readonly cloth: number;
  readonly rows: readonly [number, number];
}

export interface OpenDoubt {
  /** Stable for the same doubt at the same place. */
  readonly id: string;
  readonly kind: "row" | "figure" | "soft" | "weight" | "order" | "alignment" | "echo" | "flecks";
  readonly chart: string;
  readonly section: string | null;
  /** Chart rows that it is about. */
  readonly rows: readonly number[];
  /** Where and what, in one line. */
  readonly headline: string;
  /** Why it is open. */
  readonly sentence: string;
  /** How likely it is that what is told is wrong: what settling it is worth. */
  readonly chance: number;
  /** Each of them settles it where all its rows are knitted; none where no swatch does. */
  readonly options: readonly (readonly SwatchRows[])[];
  /** How many of the options it takes. */
  readonly times: number;
  /** The look that settles it; null where it is not a matter of one look. */
  readonly look: number | null;
  /** 1/sd² of her threshold from which it is settled without being knitted; null where that would not do. */
  readonly precision: number | null;
}

/** Something to look at in a swatch, which tells of her threshold. */
export interface OpenLook {
  /** To be added to 1/sd². */
  readonly information: number;
  readonly options: readonly (readonly SwatchRows[])[];
}

export interface Doubts {
  readonly doubts: readonly OpenDoubt[];
  readonly looks: readonly OpenLook[];
  /** 1/sd² of her threshold as it is known now. */
  readonly precision: number;
}

/**
 * Rows whose range reaches to both sides of what is asked of them; figures that were found wanting and may not be; bands meant soft that may
 * be hard; colours that take over; two yarns of which nobody knows which is the lighter, where they meet; bands that lie over one
 * another by a stitch off or unlike the rest; echoes turned over; lengths of a variegated yarn. What is certain is no doubt.
 */
export function doubtsOf(context: AuditContext, findings: readonly Finding[], eye: HerEye): Doubts {
  const { looks, doubts } = rowDoubts(context, eye);
  return {
    looks,
    precision: 1 / eye.sd ** 2,
    doubts: [
      ...doubts,
      ...findings.flatMap((finding) => figureDoubt(context, finding, eye)),
      ...softDoubts(context, eye),
      ...findings.flatMap((finding) => weightDoubt(context, finding)),
      ...orderDoubts(context),
      ...alignmentDoubts(context),
      ...echoDoubts(context),
      ...findings.flatMap((finding) => fleckDoubt(finding)),
    ],
  };
}

const NO_LOOK = { look: null, precision: null } as const;

const rowsFrom = ([from, to]: readonly [number, number]): number[] =>
  Array.from({ length: to - from + 1 }, (_, step) => from + step);

function clothOf({ charts }: AuditContext, { chart, section }: Finding["where"]): number {
  return charts.findIndex((judged) => judged.chart.id === chart && judged.section === (section ?? null));
}

/** What of a finding its doubt is told with. */
const toldAs = ({ id, where, headline, sentence }: Finding) => ({
  id,
  chart: where.chart,
  section: where.section ?? null,
  rows: rowsFrom(where.rows),
  headline,
  sentence,
});

/** A figure that is told of although at best it would show enough. */
function figureDoubt(context: AuditContext, finding: Finding, eye: HerEye): OpenDoubt[] {
  const { where, numbers } = finding;
  const cloth = clothOf(context, where);
  const band = context.charts[cloth]?.now.bands.find((one) => one.band.id === where.band);
  if (!finding.id.startsWith("figure/") || !band) return [];
  const figure = band.contrast.figures.find(({ area, against }) =>
    [area, against].every(({ colours }) => where.colours?.includes(colours[0]!)),
  );
  const open = figure && openAt(figure, enoughV(numbers.was as number, band.band.want, context.limits), eye);
  if (!open) return [];
  const options = [[{ cloth, rows: withNeighbours(context.charts[cloth]!.now.cloth, band.band.rows) }]];
  return [{ ...toldAs(finding), kind: "figure", ...open, options, times: 1, look: null }];
}

/** A band that she wants soft and that may be hard. */
function softDoubts(context: AuditContext, eye: HerEye): OpenDoubt[] {
  const { limits, viewing } = context;
  return context.charts.flatMap((judged, cloth) =>
    judged.section !== null
      ? []
      : judged.now.bands.flatMap(({ band, contrast }, index): OpenDoubt[] => {
          const { V, low, high } = contrast;
          if (band.want !== "soft" || V === null) return [];
          const was = judged.was.bands[index]!.contrast.V ?? 0;
          const hard = Math.max(limits.strong, was / THRESHOLDS.worseThanPattern);
          const open = openAt({ V, low: low!, high: high! }, hard, eye);
          if (!open) return [];
          const rows = band.rows as [number, number];
          return [
            {
              id: `soft/${judged.chart.id}/${band.id}`,
              kind: "soft",
              chart: judged.chart.id,
              section: null,
              rows: rowsFrom(rows),
              headline: `${capital(nameOf(judged, index))}: wanted soft`,
              sentence: `${capital(contrast.shows!)} at ${viewing.distanceM} m, and at most strong.`,
              ...open,
              options: [[{ cloth, rows: withNeighbours(judged.now.cloth, rows) }]],
              times: 1,
              look: null,
            },
          ];
        }),
  );
}

const nameOf = ({ now }: Judged, index: number): string => {
  const { name, rows } = now.bands[index]!.band;
  return name ?? `rows ${rows[0]}–${rows[1]}`;
};

/** Whether a colour is too much is taste: even odds. It takes as many bands as make a colour recur, each whole. */
function weightDoubt(context: AuditContext, finding: Finding): OpenDoubt[] {
  if (!finding.id.startsWith("visualWeight/")) return [];
  const cloth = clothOf(context, finding.where);
  const { now } = context.charts[cloth]!;
  const [colour] = finding.where.colours!;
  const yarn = finding.where.yarns![0] ?? null;
  const inks = now.cloth.inks.flatMap((ink, at) => (ink.colour === colour && ink.yarn === yarn ? [at] : []));
  const bands = now.bands.filter(({ weights }) => weights.some(({ ink }) => inks.includes(ink)));
  return [
    {
      ...toldAs(finding),
      kind: "weight",
      chance: EVEN,
      options: bands.map(({ band }) => [{ cloth, rows: withNeighbours(now.cloth, band.rows) }]),
      times: Math.min(THRESHOLDS.recursInBands, bands.length),
      ...NO_LOOK,
    },
  ];
}

/** Two chart colours of which the shades leave open which is the lighter; only where rows show them side by side. */
function orderDoubts(context: AuditContext): OpenDoubt[] {
  if (context.ladder === "free") return [];
  const rungs = valueLadder(context.pattern, context.yarns, context.colourway);
  return openPairs(rungs).flatMap(([one, other]): OpenDoubt[] => {
    // Colours without a yarn are nothing to knit.
    if (one.yarn === null || other.yarn === null) return [];
    const places = context.charts.flatMap((judged, cloth) =>
      judged.section === null
        ? meetings(judged, one.colour, other.colour).map((rows) => ({
            cloth,
            rows: withNeighbours(judged.now.cloth, rows),
          }))
        : [],
    );
    const [first] = places;
    if (!first) return [];
    const { chart } = context.charts[first.cloth]!;
    const names = [one, other].map(({ colour, yarn }) => namedInk(context, colour, yarn));
    const apart = one.lab[0] - other.lab[0];
    return [
      {
        id: `order/${one.colour}-${other.colour}`,
        kind: "order",
        chart: chart.id,
        section: null,
        rows: rowsFrom(first.rows),
        headline: `${capital(names[0]!)} beside ${names[1]}: which is the lighter`,
        sentence: `In the pattern ${one.colour} is lighter than ${other.colour}; these two are ${told(Math.abs(apart))} apart in L*, less than their shades are known to.`,
        chance: orderChance(one, other),
        options: places.map((place) => [place]),
        times: 1,
        ...NO_LOOK,
      },
    ];
  });
}

function orderChance(one: Rung, other: Rung): number {
  const [lighter, darker] = one.lab[0] >= other.lab[0] ? [one, other] : [other, one];
  const range = Math.hypot(lighter.lab[0] - lighter.low, darker.high - darker.lab[0]);
  return range === 0 ? EVEN : lowerTail((-1.2816 * (lighter.lab[0] - darker.lab[0])) / range);
}

/** Rows that have both, or one of two neighbouring rows each. */
function meetings({ now: { cloth } }: Judged, one: string, other: string): (readonly [number, number])[] {
  const has = (row: number, colour: string): boolean =>
    row >= 1 &&
    row <= cloth.grid.height &&
    areasOf(cloth, row, row).areas.some(({ colours }) => colours.includes(colour));
  return rowsFrom([1, cloth.grid.height]).flatMap((row): (readonly [number, number])[] => {
    if (has(row, one) && has(row, other)) return [[row, row]];
    const meets = (a: string, b: string): boolean => has(row, a) && has(row + 1, b) && !has(row, b) && !has(row + 1, a);
    return meets(one, other) || meets(other, one) ? [[row, row + 1]] : [];
  });
}

const alignmentDoubts = (context: AuditContext): OpenDoubt[] =>
  lyingSlips(context).map(({ finding, judged, both: [below, above] }) => ({
    ...toldAs(finding),
    kind: "alignment",
    chance: EVEN,
    options: [
      [
        {
          cloth: context.charts.indexOf(judged),
          rows: withNeighbours(judged.now.cloth, [below.band.rows[0], above.band.rows[1]]),
        },
      ],
    ],
    times: 1,
    ...NO_LOOK,
  }));

const echoDoubts = (context: AuditContext): OpenDoubt[] =>
  turnedEchoes(context).map(({ finding, judged, first, again }) => ({
    ...toldAs(finding),
    kind: "echo",
    chance: EVEN,
    options: [
      [first, again].map(({ rows }) => ({
        cloth: context.charts.indexOf(judged),
        rows: withNeighbours(judged.now.cloth, rows),
      })),
    ],
    times: 1,
    ...NO_LOOK,
  }));

/** Where a variegated yarn's colours come to lie hangs on the width of the round; a swatch lays them out otherwise. */
function fleckDoubt(finding: Finding): OpenDoubt[] {
  if (!finding.id.startsWith("flecks/")) return [];
  return [{ ...toldAs(finding), kind: "flecks", chance: EVEN, options: [], times: 1, ...NO_LOOK }];
}
