/** Puts a colourway before the checks: measures its cloths and the pattern's own, and audits them. */
import { asPattern, clothOf, type Cloth } from "../fabric/cloth.ts";
import type { Colourway } from "../fabric/colourway.ts";
import { spectrumMemory, UNTUNED, type Doubt, type SpectrumMemory, type Viewing } from "../fabric/contrast.ts";
import { measureCloth, type Measures } from "../fabric/measures.ts";
import type { Pattern } from "../fabric/pattern.ts";
import { limitsFor } from "../fabric/visibility.ts";
import type { Yarn } from "../yarn/yarn.ts";
import { mainColourOf, type AuditContext, type Judged, type Supply } from "./context.ts";

export interface Case {
  readonly pattern: Pattern;
  readonly yarns: readonly Yarn[];
  readonly colourway: Colourway;
  readonly viewing: Viewing;
  /** Her threshold; nothing known of it where missing. */
  readonly doubt?: Doubt | undefined;
  readonly supplies?: readonly Supply[];
}

/** Keeps what does not change with the yarns: spectra, and the pattern in its own colours. */
export interface JudgeMemory extends SpectrumMemory {
  readonly patterns: Map<string, Measures>;
}

export const judgeMemory = (): JudgeMemory => ({ ...spectrumMemory(), patterns: new Map() });

/** Different placings of one pattern that are kept at once; more than she has on the wall. */
const REMEMBERED = 200;

export function contextOf(input: Case, memory: JudgeMemory): AuditContext {
  const { pattern, yarns, colourway, viewing, doubt = UNTUNED, supplies = [] } = input;
  const mainColour = mainColourOf(pattern);
  const charts = pattern.charts.flatMap((chart) =>
    usesOf(input, chart.id).map((section): Judged => {
      const cloth = clothOf({ chart, pattern, yarns, colourway, ...(section ? { section } : {}) });
      return {
        chart,
        section: section?.id ?? null,
        now: measureCloth(cloth, viewing, memory, { mainColour, doubt }),
        was: patternMeasures(asPattern(cloth), viewing, { mainColour, doubt }, memory),
      };
    }),
  );
  return { pattern, yarns, colourway, viewing, limits: limitsFor(doubt.thresholdMean), charts, supplies };
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

function patternMeasures(
  cloth: Cloth,
  viewing: Viewing,
  { mainColour, doubt }: { mainColour: string | undefined; doubt: Doubt },
  memory: JudgeMemory,
): Measures {
  const key = JSON.stringify([
    cloth.chart,
    cloth.gauge,
    viewing,
    doubt,
    mainColour ?? null,
    cloth.inks.map(({ colour, was, over }) => [colour, was, over]),
    Array.from(cloth.cells, (ink) => String.fromCharCode(ink + 32)).join(""),
  ]);
  let measures = memory.patterns.get(key);
  if (!measures) {
    measures = measureCloth(cloth, viewing, memory, { mainColour, doubt });
    memory.patterns.set(key, measures);
    if (memory.patterns.size > REMEMBERED) memory.patterns.delete(memory.patterns.keys().next().value!);
  }
  return measures;
}
