/** Puts a colourway before the checks: measures its cloths and the pattern's own, and audits them. */
import { asPattern, clothOf, type Cloth } from "../fabric/cloth.ts";
import type { Colourway } from "../fabric/colourway.ts";
import {
  remembered,
  spectrumMemory,
  UNTUNED,
  type Doubt,
  type SpectrumMemory,
  type Viewing,
} from "../fabric/contrast.ts";
import { partContrasts } from "../fabric/figures.ts";
import { textOfCells } from "../fabric/layout.ts";
import { measureCloth, type Measures } from "../fabric/measures.ts";
import type { Pattern } from "../fabric/pattern.ts";
import { limitsFor } from "../fabric/visibility.ts";
import type { Yarn } from "../yarn/yarn.ts";
import { THRESHOLDS } from "./thresholds.ts";
import {
  mainColourOf,
  type AuditContext,
  type Judged,
  type PartsOfBand,
  type LadderWish,
  type Supply,
} from "./context.ts";

export interface Case {
  readonly pattern: Pattern;
  readonly yarns: readonly Yarn[];
  readonly colourway: Colourway;
  readonly viewing: Viewing;
  /** Her threshold; nothing known of it where missing. */
  readonly doubt?: Doubt | undefined;
  readonly supplies?: readonly Supply[];
  /** What she wants of the order from light to dark; the pattern's where missing. */
  readonly ladder?: LadderWish | undefined;
  /** The longest strand that she leaves uncaught, cm; what is usual where missing. */
  readonly floatCm?: number | undefined;
}

/** Keeps what does not change with the yarns: spectra, how stitches lie, and the pattern in its own colours. */
export interface JudgeMemory extends SpectrumMemory {
  readonly layouts: Map<string, Laid>;
  readonly patterns: WeakMap<Uint8Array, Map<string, Measures>>;
}

/** How the stitches of a cloth lie; what is counted of them is remembered with the cells themselves. */
type Laid = Pick<Cloth, "chart" | "grid" | "cells" | "knitted">;

export const judgeMemory = (): JudgeMemory => ({
  ...spectrumMemory(),
  layouts: new Map(),
  patterns: new WeakMap(),
});

/** Different layings of stitches that are kept at once: charts, and the places with yarns of their own that are tried out. */
const LAYOUTS_REMEMBERED = 60;

/** Distances and lights at which one laying's pattern is kept; more than she tries in an hour. */
const PATTERNS_REMEMBERED = 200;

export function contextOf(input: Case, memory: JudgeMemory): AuditContext {
  const { pattern, yarns, colourway, viewing, doubt = UNTUNED, supplies = [], ladder = "same" } = input;
  const { floatCm = THRESHOLDS.floatCm } = input;
  const mainColour = mainColourOf(pattern);
  const charts = pattern.charts.flatMap((chart) =>
    usesOf(input, chart.id).map((section): Judged => {
      const cloth = laidAsBefore(
        clothOf({ chart, pattern, yarns, colourway, ...(section ? { section } : {}) }),
        memory,
      );
      const now = measureCloth(cloth, viewing, memory, { mainColour, doubt });
      const was = patternMeasures(asPattern(cloth), viewing, { mainColour, doubt }, memory);
      return { chart, section: section?.id ?? null, now, was, parts: partsIn(now, was, input, memory) };
    }),
  );
  return {
    pattern,
    yarns,
    colourway,
    viewing,
    limits: limitsFor(doubt.thresholdMean),
    charts,
    supplies,
    ladder,
    floatCm,
  };
}

/**
 * A part can fall from clear to lost, to a third, only where its figure has fallen about as far; elsewhere they are not measured. Some room
 * is left for the light, which is the band's own.
 */
const FALLEN = 0.5;

function partsIn(now: Measures, was: Measures, { viewing, doubt }: Case, memory: JudgeMemory): Judged["parts"] {
  const parts = new Map<number, PartsOfBand>();
  now.bands.forEach(({ band, contrast }, index) => {
    const before = was.bands[index]!;
    const fell = contrast.figures.some(({ area, against, V }) => {
      const ends = [area, against];
      return before.contrast.figures.some(
        (figure) =>
          V < figure.V * FALLEN &&
          [figure.area, figure.against].every(({ colours }) => ends.some((end) => end.colours.includes(colours[0]!))),
      );
    });
    if (fell)
      parts.set(index, {
        now: partContrasts(now.cloth, band, viewing, memory, doubt),
        was: partContrasts(was.cloth, band, viewing, memory, doubt),
      });
  });
  return parts;
}

/** A chart as every use has it, and once more for each section in which the colourway makes changes of its own. */
function usesOf({ pattern, colourway }: Case, chart: string) {
  const changed = new Set([
    ...(colourway.changes ?? []).flatMap(({ at }) => ("section" in at ? [at.section] : [])),
    ...(colourway.overStitched ?? []).flatMap(({ at }) => ("section" in at ? [at.section] : [])),
  ]);
  const sections = (pattern.sections ?? []).filter(
    (section) => section.chart === chart && section.on !== false && changed.has(section.id),
  );
  return [null, ...sections];
}

/** The cloth with the cells of the first one whose stitches lay the same. */
function laidAsBefore(cloth: Cloth, { layouts }: JudgeMemory): Cloth {
  const { chart, grid, cells, knitted } = cloth;
  const key = `${JSON.stringify(chart)} ${textOfCells(cells)} ${knitted === cells ? "" : textOfCells(knitted)}`;
  return { ...cloth, ...remembered(layouts, key, () => ({ chart, grid, cells, knitted }), LAYOUTS_REMEMBERED) };
}

function patternMeasures(
  cloth: Cloth,
  viewing: Viewing,
  seenBy: { readonly mainColour: string | undefined; readonly doubt: Doubt },
  memory: JudgeMemory,
): Measures {
  let known = memory.patterns.get(cloth.cells);
  if (!known) memory.patterns.set(cloth.cells, (known = new Map()));
  const key = JSON.stringify([
    cloth.gauge,
    viewing,
    seenBy,
    cloth.inks.map(({ colour, was, wasUncertainty, over }) => [colour, was, wasUncertainty, over]),
  ]);
  return remembered(known, key, () => measureCloth(cloth, viewing, memory, seenBy), PATTERNS_REMEMBERED);
}
