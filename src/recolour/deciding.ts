/** An order of deciding for many colours: what everything else leans on first, and for each step the yarns from which the best follows. */
import { listText } from "../audit/context.ts";
import { leadersOf } from "../fabric/leaders.ts";
import type { Quota } from "./assign.ts";
import { colourwayIn, findingsIn, prepare, type Search, type SearchInput } from "./prepare.ts";
import { notChoosable, settle } from "./settle.ts";
import { sumOfTerms } from "./score.ts";
import { termsOf } from "./terms.ts";
import type { Way } from "./way.ts";

/** Chart colours that are decided together. */
export interface DecidingStep {
  readonly title: string;
  readonly colours: readonly string[];
  readonly why: string;
}

/** Yarns for the colours of a step, and what they would come to. */
export interface StepOption {
  /** Of the step's colours. */
  readonly yarns: Readonly<Record<string, string>>;
  /** Score of the best colourway around what is decided and these. */
  readonly score: number;
  /** By how much that is above the best of the options. */
  readonly more: number;
  /** No colourway with these yarns that the checks let pass is better. */
  readonly proven: boolean;
  /** That colourway, all colours, with what it has by place. */
  readonly completion: Pick<Way, "yarns" | "changes" | "overStitched">;
  /** What the checks would still say of it. */
  readonly findings: readonly string[];
}

/** A step decides no more colours than one can weigh against each other. Our choice. */
const MOST_AT_ONCE = 4;

/**
 * The main pair, then the bands that recur, the colours that lead the motifs, the rest: common practice, no source. Every chart colour
 * that is knitted comes in one step, those of most area first.
 */
export function decidingSteps(input: SearchInput): DecidingStep[] {
  const search = prepare(input);
  const { colours, targets, demands, charts, pattern } = search;
  if (colours.length === 0) return [];
  const count = targets.length;
  const areaOf = (colour: string): number => targets[colours.indexOf(colour)]!.area;
  const byArea = (some: Iterable<string>): string[] =>
    [...new Set(some)].filter((colour) => colours.includes(colour)).sort((a, b) => areaOf(b) - areaOf(a));
  const nameOf = (colour: string): string => pattern.colours.find(({ id }) => id === colour)?.name ?? colour;
  const decided = new Set<string>();
  const steps: DecidingStep[] = [];
  const add = (title: string, some: readonly string[], why: (step: readonly string[]) => string): void => {
    const left = some.filter((colour) => !decided.has(colour));
    for (let from = 0; from < left.length; from += MOST_AT_ONCE) {
      const step = left.slice(from, from + MOST_AT_ONCE);
      step.forEach((colour) => decided.add(colour));
      steps.push({ title: from === 0 ? title : `${title}, continued`, colours: step, why: why(step) });
    }
  };

  const main =
    pattern.colours.find(({ id, role }) => role === "main" && colours.includes(id))?.id ?? byArea(colours)[0]!;
  const at = colours.indexOf(main);
  const meets = (colour: string): number => demands.contacts[at * count + colours.indexOf(colour)]!;
  const partner = colours.filter((colour) => colour !== main).sort((a, b) => meets(b) - meets(a))[0];
  add("The main pair", partner === undefined ? [main] : [main, partner], () =>
    partner === undefined
      ? `${nameOf(main)} is the only colour.`
      : `${nameOf(main)} is the main colour, ${percent(areaOf(main))} of the fabric; ${nameOf(partner)} meets it most.`,
  );

  const bands = charts.flatMap(({ now }) => now.bands.map((measure) => ({ ...measure, cloth: now.cloth })));
  const again = new Set(bands.flatMap(({ band }) => (band.echoOf === null ? [] : [band.id, band.echoOf])));
  const recurring = bands.filter(({ band }) => again.has(band.id));
  const coloursIn = ({ band, cloth }: (typeof bands)[number]): string[] =>
    band.colours.map((index) => cloth.grid.ids[index]!);
  add("The bands that come again", byArea(recurring.flatMap(coloursIn)), (step) => {
    const where = recurring.filter((one) => coloursIn(one).some((colour) => step.includes(colour)));
    return `${listText(step.map(nameOf))}: in ${listText([...new Set(where.map(({ band }) => band.name ?? band.id))].slice(0, 4))}, which are met again and again.`;
  });

  const leads = bands.map((one) => ({ ...one, leaders: leadersOf(one.weights, one.cloth.inks) }));
  add("What leads each motif", byArea(leads.flatMap(({ leaders }) => leaders)), (step) => {
    const where = leads.filter(({ leaders }) => leaders.some((colour) => step.includes(colour)));
    return `${listText(step.map(nameOf))}: what the eye goes to first in ${listText([...new Set(where.map(({ band }) => band.name ?? band.id))].slice(0, 4))}.`;
  });
  add(
    "The rest",
    byArea(colours),
    (step) =>
      `${listText(step.map(nameOf))}: ${step.length === 1 ? "it follows" : "they follow"} from what is decided.`,
  );
  return steps;
}

/** Options that are shown for a step. Our choice. */
const USUAL_OPTIONS = 5;

/** Colourways put before the audit to prove one option. Our choice. */
const AUDITS = 20;

/**
 * The best choices of yarns for some chart colours around what the wish keeps, each with the best colourway that follows from it;
 * the best first, no two alike in all of these colours. Fewer where no more fit.
 */
export function optionsFor(input: SearchInput, step: readonly string[], most = USUAL_OPTIONS): StepOption[] {
  const search = prepare(input);
  const places = step.map((colour) => search.colours.indexOf(colour)).filter((i) => i >= 0);
  if (places.length === 0) return [];
  const found: number[][] = [];
  const options: StepOption[] = [];
  while (options.length < most && !(input.stop?.() && options.length > 0)) {
    const settled = settle(
      search,
      {
        ...search.tight,
        quotas: [...(search.tight.quotas ?? []), ...found.map((other) => otherwise(search, places, other))],
      },
      { most: AUDITS },
    );
    if (!settled.assignment || !settled.passes) break;
    found.push(settled.assignment);
    options.push(optionOf(search, places, settled.assignment, settled.proven));
  }
  const sorted = options.sort((one, other) => one.score - other.score);
  return sorted.map((option) => ({ ...option, more: option.score - sorted[0]!.score }));
}

/** At least one of these places in another yarn. */
function otherwise({ targets, yarns }: Search, places: readonly number[], other: readonly number[]): Quota {
  return {
    gains: targets.map((_, i) =>
      Float64Array.from(yarns, (_yarn, k) => (places.includes(i) && k !== other[i] ? 1 : 0)),
    ),
    least: 1,
  };
}

function optionOf(
  search: Search,
  places: readonly number[],
  assignment: readonly number[],
  proven: boolean,
): StepOption {
  const { colours, weights } = search;
  const { yarns, changes = [], overStitched = [] } = colourwayIn(search, assignment);
  return {
    yarns: Object.fromEntries(places.map((i) => [colours[i]!, search.yarns[assignment[i]!]!.id])),
    score: sumOfTerms(termsOf(search, assignment), weights),
    more: 0,
    proven,
    completion: { yarns, changes, overStitched },
    findings: findingsIn(search, assignment, "without")
      .filter((finding) => !notChoosable(finding))
      .map(({ headline }) => headline),
  };
}

const percent = (share: number): string => `${Math.round(100 * share)} %`;
