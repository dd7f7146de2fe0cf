/** The changes that mend a finding, from what she owns: thought of in numbers, tried out on the whole garment before they are offered. */
import { atLeast } from "./audit.ts";
import type { Finding, Mend } from "./finding.ts";
import type { Case, JudgeMemory } from "./judge.ts";
import { lyingMends } from "./lyingMends.ts";
import { rowsPlaceOf, type Attempt, type RowsPlace } from "./mends/attempt.ts";
import { overStitchAttempts } from "./mends/overStitches.ts";
import { pairsOf, type Single } from "./mends/pairs.ts";
import { NO_NEEDS, type YarnNeeds } from "./mends/supplies.ts";
import { targetOf } from "./mends/target.ts";
import { kindOf } from "./mends/troubles.ts";
import { triesOf, type Offer, type Tries, type TriesOptions } from "./mends/tries.ts";
import { choicesFor, pairAttempts, reaching, swapAttempts, yarnsAttempt } from "./mends/yarnAttempts.ts";

export type { YarnNeeds } from "./mends/supplies.ts";

export interface MendLimits {
  /** Findings that are mended, worst first. */
  readonly findings: number;
  /** Of each kind of change, colour by colour, so many are tried out on the whole garment for a finding: those nearest to the pattern. */
  readonly tries: number;
  /** Mends offered for a finding, and of one kind. */
  readonly offers: number;
  readonly ofOneKind: number;
}

/** Enough for the findings that are shown first; our choice. */
export const USUAL_LIMITS: MendLimits = { findings: 12, tries: 6, offers: 4, ofOneKind: 2 };

export interface MendOptions extends Partial<TriesOptions> {
  readonly limits?: MendLimits;
  readonly needs?: YarnNeeds;
  /** Asked between two changes that are tried out: true and nothing more is handed over. */
  readonly stop?: (() => boolean) | undefined;
  /** Handed each finding with its mends as soon as they have been tried out. */
  readonly onMended?: ((finding: Finding) => void) | undefined;
}

/** The findings with their mends. A mend takes away its finding and brings no new one. Stopped, the rest stay as they were. */
export function withMends(
  findings: readonly Finding[],
  input: Case,
  memory: JudgeMemory,
  options: MendOptions = {},
): Finding[] {
  const mended = new Map<string, Finding>();
  for (const finding of mendsOneByOne(findings, input, memory, options)) {
    mended.set(finding.id, finding);
    options.onMended?.(finding);
  }
  return findings.map((finding) => mended.get(finding.id) ?? finding);
}

/** The findings that can be mended, worst first, each handed over with its mends as soon as they have been tried out. */
export function* mendsOneByOne(
  findings: readonly Finding[],
  input: Case,
  memory: JudgeMemory,
  { limits = USUAL_LIMITS, needs = NO_NEEDS, suppliesFor, stop = () => false }: MendOptions = {},
): Generator<Finding, void, undefined> {
  const mendable = findings.filter(
    (finding) =>
      finding.mends || kindOf(finding) === "alignment" || (atLeast(finding, "doubt") && kindOf(finding) !== "floats"),
  );
  if (mendable.length === 0) return;
  const tries = triesOf(findings, input, memory, { needs, suppliesFor });
  for (const finding of mendable.slice(0, limits.findings)) {
    const mends = mendsFor(finding, tries, limits, stop);
    if (!mends) return;
    if (mends.length > 0) yield { ...finding, mends };
    else if (finding.mends) {
      const { mends: _, ...bare } = finding;
      yield bare;
    }
  }
}

/** No yarn mends these: a long float is laid on or caught, and how bands lie is a matter of their stitches. */
const BRINGS_ITS_OWN = new Set(["floats", "alignment"]);

/** A finding over more rows than these is no longer a place: the colour changes everywhere or not at all. Our choice. */
const HIGHEST_PLACE = 40;

/** For each change that is tried out so many may be put aside by numbers alone. Our choice. */
const SCREENED = 6;

/** What is laid on in one yarn and does not mend does so in hardly any other. Our choice. */
const LAID_ON_TRIES = 2;

/** null where it was stopped. */
function mendsFor(finding: Finding, tries: Tries, limits: MendLimits, stop: () => boolean): Mend[] | null {
  const target = targetOf(finding, tries.base, tries.input, tries.memory);
  const { kind, colours } = target;
  const { rows } = finding.where;
  const here =
    target.judged && kind !== "amounts" && !BRINGS_ITS_OWN.has(kind) && rows[1] - rows[0] < HIGHEST_PLACE
      ? rowsPlaceOf(target.judged, [rows[0], rows[1]], tries.input.pattern)
      : null;
  const offers: Offer[] = [];
  let stopped = false;

  /** Tries some attempts in their order until so many have mended, or enough were tried out. */
  const tryFirst = (attempts: readonly Attempt[], wanted: number, audits = limits.tries): void => {
    let [mended, audited] = [0, 0];
    for (const attempt of attempts.slice(0, SCREENED * limits.tries)) {
      stopped ||= stop();
      if (stopped || mended >= wanted || audited >= audits) return;
      if (tries.breaks(attempt)) continue;
      audited += 1;
      const offer = tries.offer(attempt, target);
      if (!offer) continue;
      offers.push(offer);
      mended += 1;
    }
  };
  const singles: Single[] = [];
  const tryYarns = (wanted: number, at?: RowsPlace): void => {
    for (const colour of colours) {
      const found = reaching(target, choicesFor(tries, colour, at)).map((choice) => ({
        choice,
        attempt: yarnsAttempt(tries, [choice], at),
      }));
      singles.push(...found);
      tryFirst(
        found.map(({ attempt }) => attempt),
        wanted,
      );
    }
  };

  if (BRINGS_ITS_OWN.has(kind)) {
    const own = finding.mends ?? lyingMends(finding, tries.base);
    for (const one of new Set(own.map((mend) => mend.kind)))
      tryFirst(own.filter((mend) => mend.kind === one).map(asAttempt), limits.ofOneKind);
    return stopped ? null : best(offers, tries, limits);
  }
  tryYarns(limits.ofOneKind);
  if (here) tryYarns(offers.length > 0 ? 1 : limits.ofOneKind, here);
  if (here && kind === "legibility") tryFirst(pairAttempts(tries, target, here), 1);
  tryFirst(swapAttempts(tries, target), 1);
  if (here && (kind === "legibility" || kind === "figure" || kind === "part"))
    for (const attempts of overStitchAttempts(tries, target, here)) tryFirst(attempts, 1, LAID_ON_TRIES);
  // Main colour everywhere is changed only where nothing else helps, two yarns at once before it.
  if (!offers.some(({ rank: [onMain] }) => onMain === 0))
    for (const at of here ? [undefined, here] : [undefined]) tryFirst(pairsOf(tries, target, singles, at), 1);
  return stopped ? null : best(offers, tries, limits);
}

/** The first of the ranking: the best of each kind, and where there is room more of a kind. The same yarn in the same colour is offered once. */
function best(offers: readonly Offer[], { isSupplied }: Tries, limits: MendLimits): Mend[] {
  const ranked: { readonly offer: Offer; readonly ofItsKind: number }[] = [];
  for (const offer of offers.toSorted((a, b) => compare(a.rank, b.rank))) {
    const again = ranked.some((one) => isAlike(one.offer.mend, offer.mend));
    const ofItsKind = ranked.filter((one) => one.offer.mend.kind === offer.mend.kind).length;
    if (!again && ofItsKind < limits.ofOneKind) ranked.push({ offer, ofItsKind });
  }
  const chosen = new Set<Offer>();
  for (const { offer } of ranked.toSorted((a, b) => a.ofItsKind - b.ofItsKind))
    if (chosen.size < limits.offers && isSupplied(offer.attempt)) chosen.add(offer);
  return ranked.flatMap(({ offer }) => (chosen.has(offer) ? [offer.mend] : []));
}

const isAlike = (one: Mend, other: Mend): boolean =>
  [one, other].every(({ kind }) => kind === "yarn" || kind === "yarnInRows") &&
  one.colour === other.colour &&
  one.to === other.to;

function compare(one: readonly number[], other: readonly number[]): number {
  const at = one.findIndex((value, index) => value !== other[index]);
  return at < 0 ? 0 : one[at]! - other[at]!;
}

/** What a finding brought with it is tried out like anything else. */
const asAttempt = ({ kind, edits, colour, from, to, at, overStitched, change, effect, numbers }: Mend): Attempt => ({
  kind,
  edits,
  colour,
  from,
  to,
  ...(at ? { at } : {}),
  ...(overStitched ? { overStitched } : {}),
  change,
  ...(effect ? { effect } : {}),
  moves: [],
  near: 0,
  ...(typeof numbers.stitches === "number" ? { stitches: numbers.stitches } : {}),
});
