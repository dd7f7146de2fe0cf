/** Tries a change out on the whole garment: it mends when its finding is gone and nothing new is found. */
import { deltaE2000 } from "../../colour/difference.ts";
import type { Lab } from "../../colour/lab.ts";
import { labOfShade } from "../../colour/shade.ts";
import type { Colourway } from "../../fabric/colourway.ts";
import { valueLadder } from "../../fabric/ladder.ts";
import { labOfYarn, type Yarn } from "../../yarn/yarn.ts";
import { amounts } from "../amounts.ts";
import { atLeast, audit } from "../audit.ts";
import { mainColourOf, type AuditContext, type Supply } from "../context.ts";
import type { Finding, Mend, MendKind } from "../finding.ts";
import { contextOf, type Case, type JudgeMemory } from "../judge.ts";
import { isFlipped } from "../valueOrder.ts";
import { asBefore } from "./asBefore.ts";
import { breaksARow } from "./breaks.ts";
import { edited, type Attempt, type RowsPlace } from "./attempt.ts";
import { suppliesAfter, usedYarns, type YarnNeeds } from "./supplies.ts";
import { shownIn, type ShownNow, type Target } from "./target.ts";
import { freshIn, troublesIn, troublesOf, type Troubles } from "./troubles.ts";

export interface TriesOptions {
  readonly needs: YarnNeeds;
  /** Metres round by round, asked only of what is about to be offered; without it shares of each colour's metres must do. */
  readonly suppliesFor?: ((colourway: Colourway) => readonly Supply[]) | undefined;
}

/** What a change came to. */
export interface Tried {
  /** Findings at doubt or worse that are left. */
  readonly left: number;
  readonly troubles: Troubles;
  /** Findings that were not there, or not as bad. */
  readonly fresh: readonly Finding[];
  /** Ids of what is only noted. */
  readonly notes: ReadonlySet<string>;
}

export interface Offer {
  readonly mend: Mend;
  readonly attempt: Attempt;
  /** The main colour everywhere last; then what is less to do for each finding that goes, then what lies nearer to the pattern. */
  readonly rank: readonly number[];
}

export type Tries = ReturnType<typeof triesOf>;

/** @param found the findings of the case as it stands */
export function triesOf(
  found: readonly Finding[],
  input: Case,
  memory: JudgeMemory,
  { needs, suppliesFor }: TriesOptions,
) {
  const { pattern, colourway } = input;
  const base = contextOf(input, memory);
  const before = troublesIn(found);
  const findingsBefore = found.filter((finding) => atLeast(finding, "doubt")).length;
  const main = mainColourOf(pattern);
  const wanted = wantedLabs(input);
  const used = usedYarns(colourway);
  // Findings of one cause are mended by one change: what it came to is known then.
  const tried = new Map<string, Tried>();
  let last: { readonly attempt: Attempt; readonly context: AuditContext } | null = null;

  const contextAfter = (attempt: Attempt): AuditContext => {
    if (last?.attempt === attempt) return last.context;
    const after = edited(input, attempt.edits);
    const supplies = suppliesAfter(input.supplies ?? [], after.colourway, attempt.moves, needs);
    const context = contextOf({ ...after, supplies }, memory);
    last = { attempt, context };
    return context;
  };
  const tryOut = (attempt: Attempt): Tried => {
    const key = JSON.stringify(attempt.edits);
    let result = tried.get(key);
    if (!result) {
      const context = contextAfter(attempt);
      const all = asBefore(audit(context), attempt.edits, [base, context]);
      const after = all.filter((finding) => atLeast(finding, "doubt"));
      const notes = new Set(all.flatMap(({ severity, id }) => (severity === "note" ? [id] : [])));
      result = { left: after.length, troubles: troublesIn(after), fresh: freshIn(after, before), notes };
      tried.set(key, result);
    }
    return result;
  };
  /** Of yarns everywhere, in numbers alone: most that fail do so in the first row or two. */
  const breaks = ({ edits, moves, at }: Attempt): boolean => {
    if (at || tried.has(JSON.stringify(edits))) return false;
    const yarns = new Map(moves.map(({ colour, to }) => [colour, input.yarns.find(({ id }) => id === to)!]));
    return breaksARow(yarns, base, input, memory, before);
  };
  /** The attempt as a mend, or null where it is none. */
  const offer = (attempt: Attempt, target: Target): Offer | null => {
    const { left, troubles, fresh, notes } = tryOut(attempt);
    if (notes.has(target.finding.id)) return null;
    if (fresh.length > 0 || troublesOf(target.finding).some((trouble) => troubles.has(trouble))) return null;
    const context = contextAfter(attempt);
    const { kind, edits, colour, from, to, at, overStitched, change, near, stitches } = attempt;
    const shown = shownIn(target, context);
    // A place that stays lost is not mended, though nothing be said of it: knitted in one yarn, or lost in the pattern too.
    if (kind !== "laidOn" && shown && !isBetter(shown, target)) return null;
    const gone = Math.max(1, findingsBefore - left);
    const effect = kind === "laidOn" ? "" : effectText(attempt.effect ?? shown?.text, gone - 1);
    return {
      attempt,
      rank: [Number(touchesMain(attempt)), (EFFORT[kind] + (colour === main ? MAIN_COSTS : 0)) / gone, near],
      mend: {
        kind,
        edits,
        colour,
        from,
        to,
        ...(at ? { at } : {}),
        ...(overStitched ? { overStitched } : {}),
        change,
        effect,
        sentence: effect === "" ? change : `${change}: ${effect}`,
        numbers: {
          V: shown?.V ?? null,
          was: typeof target.finding.numbers.V === "number" ? target.finding.numbers.V : null,
          findingsBefore,
          findingsAfter: left,
          ...(stitches === undefined ? {} : { stitches }),
        },
      },
    };
  };
  /** The garment's main colour everywhere is the last that anyone changes. */
  const touchesMain = ({ edits }: Attempt): boolean =>
    edits.some(
      (edit) =>
        main !== undefined &&
        ((edit.kind === "assignYarn" && edit.colour === main) ||
          (edit.kind === "assignYarns" && Object.hasOwn(edit.yarns, main))),
    );
  /** Whether there is enough of every yarn, round by round: the costliest question, asked last. */
  const isSupplied = ({ edits }: Attempt): boolean => {
    if (!suppliesFor || !input.supplies) return true;
    const after = edited(input, edits).colourway;
    return freshIn(amounts({ ...base, colourway: after, supplies: suppliesFor(after) }), before).length === 0;
  };
  return {
    input,
    base,
    memory,
    needs,
    used,
    breaks,
    offer,
    isSupplied,
    tryOut,
    contextAfter,
    near: (colour: string, yarn: Yarn): number => nearness(labOfYarn(yarn), wanted.get(colour)!),
    /** The yarn of a chart colour, everywhere or in some rows. */
    yarnOf: (colour: string, at?: RowsPlace): string | null => at?.yarns.get(colour) ?? colourway.yarns[colour] ?? null,
  };
}

/**
 * How much there is to do, for the ranking: a yarn that is exchanged is one thing, two yarns that she has in hand already are nearly two,
 * stitches that are laid on are work of their own; plain rows
 * make the piece longer. Our choice.
 */
const EFFORT: Record<MendKind, number> = {
  laidOn: 1,
  shift: 1,
  start: 1,
  yarn: 1,
  yarnInRows: 1,
  pairInRows: 1.5,
  swap: 1.5,
  spacing: 1.5,
  overStitch: 2,
  twoYarns: 2.5,
};

/** … and the main colour is what the eye knows the garment by, even in one row. Our choice. */
const MAIN_COSTS = 0.5;

/** What shows no more than by this factor shows as before, though a limit may lie between. Design: no ranking closer than 10 %. */
const SHOWS_MORE = 1.1;

/** A place that stays lost is not mended, though nothing be said of it: knitted in one yarn, or lost in the pattern too. */
function isBetter({ V, lightDark, text }: ShownNow, { kind, finding: { numbers } }: Target): boolean {
  if (V === null) return true;
  if (text === "" || text.startsWith("lost")) return false;
  const more = (now: number, before: unknown): boolean => typeof before === "number" && now >= before * SHOWS_MORE;
  return kind === "soft" || more(V, numbers.V) || more(lightDark, numbers.lightDark);
}

/** What comes of it, and that other findings go with this one. */
function effectText(shown: string | undefined, others: number): string {
  const more = others === 0 ? "" : `${others} more ${others === 1 ? "finding goes" : "findings go"} with it`;
  return [shown ?? "", more].filter((part) => part !== "").join("; ");
}

/** What each chart colour should be like: the pattern's own, mirrored in value where the ladder is turned over on purpose. */
function wantedLabs({ pattern, yarns, colourway }: Case): Map<string, Lab> {
  const labs = new Map(pattern.colours.map(({ id, shade }) => [id, labOfShade(shade)]));
  if (!isFlipped(valueLadder(pattern, yarns, colourway))) return labs;
  const lightnesses = [...labs.values()].map(([lightness]) => lightness);
  const turn = Math.max(...lightnesses) + Math.min(...lightnesses);
  return new Map([...labs].map(([id, [L, a, b]]) => [id, [turn - L, a, b]]));
}

/** The place on the ladder counts most, the hue a little. Our choice. */
const nearness = (lab: Lab, wanted: Lab): number => Math.abs(lab[0] - wanted[0]) + 0.25 * deltaE2000(lab, wanted);
