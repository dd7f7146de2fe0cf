/** Two yarns at once, where no single change mends: both colours of a place, or one that mends it and one that mends what the first would break. */
import type { Attempt, RowsPlace } from "./attempt.ts";
import { targetOf, type Target } from "./target.ts";
import type { Tries } from "./tries.ts";
import { choicesFor, reaching, yarnsAttempt, type Choice } from "./yarnAttempts.ts";

/** Of each colour so many of the nearest yarns are put together, by numbers alone. Our choice. */
const NEAREST = 12;

/** Single changes that mend and break something else, of which a second change is asked. Our choice. */
const REPAIRED = 4;

/** Second changes of each of these that are worth an audit. Our choice. */
const REPAIRS = 3;

/** A change that breaks more places than these is not repaired by one yarn. Our choice. */
const MOST_BROKEN = 2;

/** A single change of yarn that was tried out. */
export interface Single {
  readonly choice: Choice;
  readonly attempt: Attempt;
}

/** Attempts of two yarns; the nearest to the pattern first. */
export function pairsOf(tries: Tries, target: Target, singles: readonly Single[], at?: RowsPlace): Attempt[] {
  return [...together(tries, target, at), ...repairs(tries, target, singles, at)]
    .filter(({ moves: [one, other] }) => one!.to !== other!.to)
    .sort((a, b) => a.near - b.near);
}

/** Two of the finding's colours, each nearly enough. */
function together(tries: Tries, target: Target, at?: RowsPlace): Attempt[] {
  const choices = target.colours.map((colour) => choicesFor(tries, colour, at).slice(0, NEAREST));
  return choices.flatMap((ones, index) =>
    choices.slice(index + 1).flatMap((others) =>
      ones.flatMap((one) =>
        others.flatMap((other) =>
          one.yarn !== other.yarn &&
          target.reach(
            new Map([
              [one.colour, one.yarn],
              [other.colour, other.yarn],
            ]),
          ) >= 1
            ? [yarnsAttempt(tries, [one, other], at)]
            : [],
        ),
      ),
    ),
  );
}

/** What a single change breaks may be mended by another one in a colour that meets it there. */
function repairs(tries: Tries, target: Target, singles: readonly Single[], at?: RowsPlace): Attempt[] {
  const { input, memory, tryOut, contextAfter } = tries;
  return singles
    .filter(({ attempt: { at: place } }) => Boolean(place) === Boolean(at))
    .sort((a, b) => a.attempt.near - b.attempt.near)
    .slice(0, 2 * REPAIRED)
    .map((single) => ({ ...single, fresh: tryOut(single.attempt).fresh }))
    .filter(({ fresh }) => fresh.length > 0 && fresh.length <= MOST_BROKEN)
    .sort((a, b) => a.fresh.length - b.fresh.length || a.attempt.near - b.attempt.near)
    .slice(0, REPAIRED)
    .flatMap(({ choice, attempt, fresh: [worst] }) => {
      const broken = targetOf(worst!, contextAfter(attempt), input, memory);
      return broken.colours
        .filter((colour) => colour !== choice.colour)
        .flatMap((colour) => reaching(broken, choicesFor(tries, colour, at)))
        .filter(({ yarn }) => yarn !== choice.yarn)
        .filter((second) => stillReaches(target, choice, second))
        .sort((a, b) => a.near - b.near)
        .slice(0, REPAIRS)
        .map((second) => yarnsAttempt(tries, [choice, second], at));
    });
}

const stillReaches = (target: Target, one: Choice, other: Choice): boolean =>
  target.reach(
    new Map([
      [one.colour, one.yarn],
      [other.colour, other.yarn],
    ]),
  ) >= 1;
