/** Another yarn for one of a finding's colours, everywhere or in its rows; and for two of them at once. */
import { isOwned } from "../../yarn/owned.ts";
import type { Yarn } from "../../yarn/yarn.ts";
import { capital, listText, rowsText, yarnName } from "../context.ts";
import { stepsAt, type Attempt, type Move, type RowsPlace } from "./attempt.ts";
import { isEnough, partIn } from "./supplies.ts";
import type { Target } from "./target.ts";
import type { Tries } from "./tries.ts";

/** A change everywhere keeps the pattern's own plan; one for a place must be nearer by this much L*. Our choice. */
export const PLACE_COSTS = 5;

/** A colour with a yarn that it might have. */
export interface Choice {
  readonly colour: string;
  readonly yarn: Yarn;
  readonly near: number;
}

/** The yarns that she does not use yet, and has enough of, for one colour: nearest to what the pattern has there first. */
export function choicesFor(tries: Tries, colour: string, at?: RowsPlace): Choice[] {
  const { input, used, needs, yarnOf } = tries;
  if (!input.pattern.colours.some(({ id }) => id === colour)) return [];
  const from = yarnOf(colour, at);
  // Where a change at that place is to blame, the colour's own yarn is the plainest way out.
  const own = at ? (input.colourway.yarns[colour] ?? null) : null;
  const share = partIn(input.pattern, colour, at);
  return input.yarns
    .filter((yarn) => yarn.id !== from && (yarn.id === own || (!used.has(yarn.id) && isOwned(yarn))))
    .filter(({ id }) => isEnough({ colour, from, to: id, share }, needs))
    .map((yarn) => ({ colour, yarn, near: tries.near(colour, yarn) }))
    .sort((a, b) => a.near - b.near);
}

/** The choices that reach the finding's place on their own. */
export const reaching = (target: Target, choices: readonly Choice[]): Choice[] =>
  choices.filter(({ colour, yarn }) => target.reach(new Map([[colour, yarn]])) >= 1);

/** Some colours in other yarns at once, everywhere or in some rows. */
export function yarnsAttempt(tries: Tries, choices: readonly Choice[], at?: RowsPlace): Attempt {
  const { input, yarnOf } = tries;
  const { colourway, pattern } = input;
  const [first] = choices as [Choice];
  const moves = choices.map(({ colour, yarn }): Move => ({
    colour,
    from: yarnOf(colour, at),
    to: yarn.id,
    share: partIn(pattern, colour, at),
  }));
  return {
    kind: choices.length > 1 ? "twoYarns" : at ? "yarnInRows" : "yarn",
    edits: at
      ? choices.flatMap(({ colour, yarn }) => stepsAt(colourway, colour, at, yarn.id))
      : choices.length > 1
        ? [
            {
              kind: "assignYarns",
              colourway: colourway.id,
              yarns: Object.fromEntries(choices.map(({ colour, yarn }) => [colour, yarn.id])),
            },
          ]
        : [{ kind: "assignYarn", colourway: colourway.id, colour: first.colour, yarn: first.yarn.id }],
    colour: first.colour,
    from: moves[0]!.from,
    to: first.yarn.id,
    ...(at ? { at: at.at } : {}),
    change: `${moves.map((move) => wordsOf(tries, move)).join(" and ")}${at ? ` in ${rowsText(at.rows)}` : ""}`,
    moves,
    near: choices.reduce((sum, { near }) => sum + near, 0) + (at ? PLACE_COSTS : 0),
  };
}

/** "Bark for Oat"; what has no yarn yet is called by its chart colour. */
const wordsOf = ({ input }: Tries, { colour, from, to }: Move, which = ""): string =>
  `${capital(yarnName(input, to))}${which} for ${from === null ? colour : yarnName(input, from)}`;

/** The yarns of two colours swapped: of one of the finding's colours with any other's. */
export function swapAttempts(tries: Tries, target: Target): Attempt[] {
  const { input, near } = tries;
  const { colourway, pattern, yarns } = input;
  const yarnOf = new Map(yarns.map((yarn) => [yarn.id, yarn]));
  const held = pattern.colours.flatMap(({ id }) => {
    const yarn = yarnOf.get(colourway.yarns[id] ?? "");
    return yarn && isOwned(yarn) ? [{ colour: id, yarn }] : [];
  });
  return held
    .flatMap((one, index) =>
      held
        .slice(index + 1)
        .filter((other) => one.yarn.id !== other.yarn.id)
        .filter((other) => [one, other].some(({ colour }) => target.colours.includes(colour)))
        .map((other) => (target.colours.includes(one.colour) ? ([one, other] as const) : ([other, one] as const))),
    )
    .filter(
      ([one, other]) =>
        target.reach(
          new Map([
            [one.colour, other.yarn],
            [other.colour, one.yarn],
          ]),
        ) >= 1,
    )
    .map(([one, other]): Attempt => ({
      kind: "swap",
      edits: [
        {
          kind: "assignYarns",
          colourway: colourway.id,
          yarns: { [one.colour]: other.yarn.id, [other.colour]: one.yarn.id },
        },
      ],
      colour: one.colour,
      from: one.yarn.id,
      to: other.yarn.id,
      change: swapText(held.filter((each) => each === one || each === other)),
      moves: [
        { colour: one.colour, from: one.yarn.id, to: other.yarn.id, share: 1 },
        { colour: other.colour, from: other.yarn.id, to: one.yarn.id, share: 1 },
      ],
      near: near(one.colour, other.yarn) + near(other.colour, one.yarn),
    }))
    .filter(({ moves }) => moves.every((move) => isEnough(move, tries.needs)))
    .sort((a, b) => a.near - b.near);
}

/** "Oat and ink swapped (B and C)". */
const swapText = (pair: readonly { readonly colour: string; readonly yarn: Yarn }[]): string =>
  `${capital(listText(pair.map(({ yarn }) => yarn.name)))} swapped (${listText(pair.map(({ colour }) => colour))})`;

/** Rows of two colours in another pair of the yarns that she uses anyway. */
export function pairAttempts(tries: Tries, target: Target, at: RowsPlace): Attempt[] {
  const { input, used, near, needs } = tries;
  const { colourway, pattern } = input;
  const [one, other, ...more] = target.colours;
  if (one === undefined || other === undefined || more.length > 0) return [];
  const from = [one, other].map((colour) => tries.yarnOf(colour, at));
  const inUse = input.yarns.filter((yarn) => used.has(yarn.id) && isOwned(yarn));
  const shares = [one, other].map((colour) => partIn(pattern, colour, at));
  const movesTo = (yarns: readonly Yarn[]): Move[] =>
    [one, other].flatMap((colour, index): Move[] => {
      const to = yarns[index]!.id;
      return to === from[index] ? [] : [{ colour, from: from[index]!, to, share: shares[index]! }];
    });
  return inUse
    .flatMap((first) => inUse.flatMap((second) => (first === second ? [] : [[first, second] as const])))
    .flatMap((yarns): Attempt[] => {
      const moves = movesTo(yarns);
      const [move] = moves;
      // A colour's own yarn where a change has taken its place is offered as that.
      if (!move || (moves.length === 1 && move.to === colourway.yarns[move.colour])) return [];
      const reaches = target.reach(new Map([one, other].map((colour, index) => [colour, yarns[index]!]))) >= 1;
      if (!reaches || !moves.every((each) => isEnough(each, needs))) return [];
      return [
        {
          kind: "pairInRows",
          edits: moves.flatMap(({ colour, to }) => stepsAt(colourway, colour, at, to)),
          colour: move.colour,
          from: move.from,
          to: move.to,
          at: at.at,
          change:
            moves.length > 1
              ? `${capital(rowsText(at.rows))} in ${yarns.map(({ name }) => name).join(" on ")}, both in use elsewhere`
              : `${wordsOf(tries, move, ", in use elsewhere,")} in ${rowsText(at.rows)}`,
          moves,
          near: near(one, yarns[0]) + near(other, yarns[1]) + PLACE_COSTS * moves.length,
        },
      ];
    })
    .sort((a, b) => a.moves.length - b.moves.length || a.near - b.near);
}
