/** How much of each yarn a colourway takes in one size: stitches, metres and grams, against what she has. */
import type { Problem } from "../base/problem.ts";
import type { Colourway } from "../fabric/colourway.ts";
import type { Pattern } from "../fabric/pattern.ts";
import { ballsFromMetres, gramsFromMetres, metresFromGrams } from "../yarn/lengths.ts";
import { gramsOwned } from "../yarn/lots.ts";
import { isOwned } from "../yarn/owned.ts";
import type { Yarn } from "../yarn/yarn.ts";
import { assumptionsOf } from "./assumptions.ts";
import { knittingOf, saysFrom } from "./knitting.ts";
import { CAST_ON_AND_OFF, DEFAULT_SETTINGS, type AmountSettings } from "./settings.ts";
import { addTallies, emptyTally, loopMm, metresOf, rangeOf, type Tally } from "./tally.ts";
import { isUnassigned, tallySection, UNASSIGNED } from "./tallySection.ts";

/** Metres without reserve, with their least and most until a swatch is measured. */
export interface Metres {
  readonly metres: number;
  readonly low: number;
  readonly high: number;
}

export interface YarnAmount extends Metres {
  readonly yarn: string;
  readonly name: string;
  /** Knitted stitches; duplicate stitches lie on top of them and are counted beside. */
  readonly stitches: number;
  readonly duplicateStitches: number;
  /** Of `metres`: what lies in stitches, behind them, in tails, at cast-on and cast-off, sewn on top, and in the swatch. */
  readonly parts: {
    readonly loops: number;
    readonly floats: number;
    readonly tails: number;
    readonly edges: number;
    readonly sewn: number;
    readonly swatch: number;
  };
  /** Of `metres`; null where the yarn's thickness is not known. */
  readonly grams: number | null;
  /** Metres on top of `metres`. */
  readonly reserve: number;
  /** Metres owned; null where weight or thickness is not known. */
  readonly have: number | null;
  /** Metres missing, reserve included; 0 where there is enough, null where `have` is not known. */
  readonly short: number | null;
  /** Balls to buy for what is short; null unless a ball's weight and the yarn's thickness are known. */
  readonly balls: number | null;
}

export interface SectionAmount {
  readonly id: string;
  readonly name: string;
  readonly rounds: number;
  readonly stitches: number;
  readonly metres: number;
  /** How often a yarn is joined and left again, two ends each time, and where that is done: what lies in a steek falls in the cut. */
  readonly joins: number;
  readonly joinsAt: "steek" | "round's start" | "edge";
  readonly yarns: readonly { readonly yarn: string; readonly stitches: number; readonly metres: number }[];
}

export interface Amounts {
  /** Null for a pattern that has no sections. */
  readonly size: string | null;
  readonly total: Metres & { readonly stitches: number };
  readonly sections: readonly SectionAmount[];
  /** In the order of the project's yarns. */
  readonly yarns: readonly YarnAmount[];
  /** Chart colours that no yarn was chosen for, in the places where they are knitted. */
  readonly unassigned: readonly { readonly colour: string; readonly stitches: number; readonly metres: number }[];
  readonly problems: readonly Problem[];
  /** What the estimate takes for granted, one sentence each. */
  readonly assumptions: readonly string[];
}

export interface AmountsOf {
  readonly pattern: Pattern;
  readonly yarns: readonly Yarn[];
  readonly colourway: Colourway;
  /** A size's id; by default the pattern's first. */
  readonly size?: string | undefined;
  readonly settings?: Partial<AmountSettings> | undefined;
}

/**
 * Yarn by round of every section: a loop for each stitch, a stitch's width and slack for each stitch that a strand is
 * carried behind (once for a yarn that stands for several chart colours), tails at each start and stop, what is sewn on
 * top, steeks and panels worked in the round's strands by turns, cast-on and cast-off where the settings ask for them or the sections tell what
 * they go on from, and a swatch where one is still to come. A pattern without sections is counted as one use of each chart.
 * Source: trade.md 1.3 and 1.4. Limits: a rib counts as plain knitting; short rows and seams are not counted.
 * Example: 240 stitches of a figure on its ground, 28 × 30 per 10 cm: 19.96 mm a stitch in every two-colour round.
 */
export function amountsOf({ pattern, yarns, colourway, size, settings: given }: AmountsOf): Amounts {
  const settings = settingsFor(pattern, given);
  const knitting = knittingOf(pattern, size);
  const problems = [...knitting.problems];
  const owned = new Map(yarns.map((yarn) => [yarn.id, yarn]));
  const tallied = knitting.sections.map((section) => ({
    section,
    strands: tallySection(section, colourway, settings),
  }));

  const totals = new Map<string, Tally>();
  for (const { strands } of tallied) {
    for (const [strand, tally] of strands) totals.set(strand, addTallies(totals.get(strand) ?? emptyTally(), tally));
  }
  if (settings.swatch) addSwatch(totals, pattern, settings);
  for (const strand of totals.keys()) {
    const problem = strandProblem(strand, owned, colourway);
    if (problem) problems.push(problem);
  }

  const chosen = [...totals.keys()].filter((strand) => !isUnassigned(strand));
  const place = new Map(yarns.map((yarn, index) => [yarn.id, index]));
  chosen.sort((a, b) => (place.get(a) ?? yarns.length) - (place.get(b) ?? yarns.length));
  const everything = [...totals.values()].reduce(addTallies, emptyTally());
  return {
    size: knitting.size,
    total: { stitches: everything.stitches, ...measured(everything, settings) },
    sections: tallied.map(({ section, strands }) => {
      const sum = [...strands.values()].reduce(addTallies, emptyTally());
      return {
        id: section.id,
        name: section.name,
        rounds: section.rounds.length,
        stitches: sum.stitches,
        metres: metresOf(sum, settings.slack),
        joins: sum.joins,
        joinsAt: section.hasSteek ? "steek" : section.worked === "round" ? "round's start" : "edge",
        yarns: [...strands]
          .filter(([strand]) => !isUnassigned(strand))
          .map(([yarn, tally]) => ({ yarn, stitches: tally.stitches, metres: metresOf(tally, settings.slack) })),
      };
    }),
    yarns: chosen.map((id) => yarnAmount(id, owned.get(id), totals.get(id)!, settings)),
    unassigned: [...totals]
      .filter(([strand]) => isUnassigned(strand))
      .map(([strand, tally]) => ({
        colour: strand.slice(UNASSIGNED.length),
        stitches: tally.stitches,
        metres: metresOf(tally, settings.slack),
      })),
    problems,
    assumptions: assumptionsOf(pattern, knitting, settings),
  };
}

/** What is not said otherwise; sections that tell what they go on from tell too where stitches are cast on and off. */
export const settingsFor = (
  { sections = [] }: Pattern,
  given: Partial<AmountSettings> | undefined,
): AmountSettings => ({ ...DEFAULT_SETTINGS, ...(saysFrom(sections) && CAST_ON_AND_OFF), ...given });

/** A swatch shows the garment in little: of every yarn as large a part as of the garment's loops and floats. */
function addSwatch(totals: Map<string, Tally>, { gauge }: Pattern, settings: AmountSettings): void {
  const { stitches, rows } = settings.swatch!;
  const knitted = [...totals.values()].reduce((sum, tally) => sum + tally.stitches, 0);
  if (knitted === 0) return;
  const { slack } = settings;
  // Cast-on and cast-off count as three rows (trade.md 1.4).
  const edges = (3 * stitches * loopMm(gauge, settings)) / 1000;
  for (const tally of totals.values()) {
    const inCloth = tally.loopsM + tally.passedM * (1 + slack);
    tally.swatchM += (inCloth * stitches * rows) / knitted + (edges * tally.stitches) / knitted;
  }
}

/** "About 1470 m (1370 to 1540 m), until your swatch is measured." The range itself: it is wider below than above. */
export function amountsSentence({ total }: Pick<Amounts, "total">): string {
  const { stitches, metres, low, high } = total;
  if (stitches === 0) return "Nothing is knitted in this size.";
  const round = (value: number): string =>
    metres >= 200 ? String(Math.round(value / 10) * 10) : value.toFixed(metres >= 10 ? 0 : 1);
  return `About ${round(metres)} m (${round(low)} to ${round(high)} m), until your swatch is measured.`;
}

const measured = (tally: Tally, settings: AmountSettings): Metres => ({
  metres: metresOf(tally, settings.slack),
  ...rangeOf(tally, settings),
});

function yarnAmount(id: string, yarn: Yarn | undefined, tally: Tally, settings: AmountSettings): YarnAmount {
  const { metres, low, high } = measured(tally, settings);
  const thickness = yarn?.metresPer100g ?? null;
  const grams = yarn ? gramsOwned(yarn) : null;
  const have = thickness === null || grams === null ? null : metresFromGrams(grams, thickness);
  const reserve = metres * settings.reserve;
  const short = have === null ? null : Math.max(0, metres + reserve - have);
  return {
    yarn: id,
    name: yarn?.name || id,
    stitches: tally.stitches,
    duplicateStitches: tally.duplicateStitches,
    metres,
    low,
    high,
    parts: {
      loops: tally.loopsM,
      floats: tally.passedM * (1 + settings.slack),
      tails: tally.tailsM,
      edges: tally.edgesM,
      sewn: tally.sewnLoopsM + tally.linesM,
      swatch: tally.swatchM,
    },
    grams: thickness === null ? null : gramsFromMetres(metres, thickness),
    reserve,
    have,
    short,
    balls:
      short === null || thickness === null || settings.ballGrams === null
        ? null
        : ballsFromMetres(short, {
            grams: settings.ballGrams,
            metres: metresFromGrams(settings.ballGrams, thickness),
          }),
  };
}

function strandProblem(strand: string, owned: ReadonlyMap<string, Yarn>, colourway: Colourway): Problem | null {
  if (isUnassigned(strand)) {
    return {
      where: `chart colour ${strand.slice(UNASSIGNED.length)} in colourway "${colourway.name ?? colourway.id}"`,
      expected: "a yarn",
      got: "none",
      severity: "doubt",
    };
  }
  const yarn = owned.get(strand);
  if (!yarn) {
    return {
      where: `yarn "${strand}"`,
      expected: "one of the project's yarns",
      got: "an id that none of them has",
      severity: "fault",
    };
  }
  if (!isOwned(yarn)) {
    return {
      where: `yarn "${yarn.name}"`,
      expected: "a yarn to knit with",
      got: "a colour taken from a picture, to compare with",
      severity: "doubt",
    };
  }
  if (yarn.metresPer100g === undefined) {
    return {
      where: `yarn "${yarn.name}"`,
      expected: "metres per 100 g",
      got: "nothing, so its grams cannot be told",
      severity: "note",
    };
  }
  return null;
}
