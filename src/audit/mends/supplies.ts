/** What a mend takes of every yarn, as far as the audit can tell without going through the garment round by round. */
import type { Colourway } from "../../fabric/colourway.ts";
import type { Pattern } from "../../fabric/pattern.ts";
import type { Supply } from "../context.ts";
import type { Move, RowsPlace } from "./attempt.ts";

/** Metres that a chart colour takes with reserve, and metres owned of a yarn; unknown where undefined. */
export interface YarnNeeds {
  readonly ofColour: ReadonlyMap<string, number>;
  readonly owned: ReadonlyMap<string, number>;
}

export const NO_NEEDS: YarnNeeds = { ofColour: new Map(), owned: new Map() };

/** A stitch laid on takes 1.25 loops. Birthplace: trade.md 1.4, common practice. */
export const LOOPS_LAID_ON = 1.25;

/** Metres, with reserve, that a move takes. */
export const metresOf = ({ colour, share }: Pick<Move, "colour" | "share">, { ofColour }: YarnNeeds): number =>
  (ofColour.get(colour) ?? 0) * share;

/** Whether she has what a move takes; a yarn of which nothing is known is taken to be enough. */
export const isEnough = (move: Move, needs: YarnNeeds): boolean =>
  (needs.owned.get(move.to) ?? Infinity) >= metresOf(move, needs);

/** Metres after some moves. A yarn that is no longer used is no longer asked after. */
export function suppliesAfter(
  supplies: readonly Supply[],
  colourway: Colourway,
  moves: readonly Move[],
  needs: YarnNeeds,
): Supply[] {
  const used = usedYarns(colourway);
  const more = new Map<string, number>();
  const add = (yarn: string, metres: number): unknown => more.set(yarn, (more.get(yarn) ?? 0) + metres);
  for (const move of moves) {
    const metres = metresOf(move, needs);
    add(move.to, metres);
    if (move.from !== null) add(move.from, -metres);
  }
  const known = new Set(supplies.map(({ yarn }) => yarn));
  return [
    ...supplies.flatMap((supply): Supply[] =>
      used.has(supply.yarn) ? [grown(supply, more.get(supply.yarn) ?? 0)] : [],
    ),
    ...[...more].flatMap(([yarn, metres]): Supply[] => {
      if (known.has(yarn) || metres <= 0) return [];
      const have = needs.owned.get(yarn) ?? null;
      const short = have === null ? null : Math.max(0, metres - have);
      return [{ yarn, metres, low: metres, high: metres, reserve: 0, have, short }];
    }),
  ];
}

/** @param metres with reserve; below 0 what is saved */
function grown(supply: Supply, metres: number): Supply {
  const all = supply.metres + supply.reserve;
  if (metres === 0 || all <= 0) return supply;
  const factor = Math.max(0, 1 + metres / all);
  const { have } = supply;
  return {
    ...supply,
    metres: supply.metres * factor,
    reserve: supply.reserve * factor,
    low: supply.low * factor,
    high: supply.high * factor,
    short: have === null ? null : Math.max(0, all * factor - have),
  };
}

export const usedYarns = ({ yarns, changes = [], overStitched = [] }: Colourway): Set<string> =>
  new Set([...Object.values(yarns), ...changes.map(({ yarn }) => yarn), ...overStitched.map(({ yarn }) => yarn)]);

/** Which part of a colour's stitches lies in some rows, 0 to 1; 1 without a place. */
export function partIn({ charts }: Pattern, colour: string, at?: RowsPlace): number {
  if (!at) return 1;
  const all = stitchesOfColour(
    charts.flatMap(({ rows }) => rows),
    colour,
  );
  const { rows } = charts.find(({ id }) => id === at.chart)!;
  const here = stitchesOfColour(rows.slice(rows.length - at.rows[1], rows.length - at.rows[0] + 1), colour);
  return all === 0 ? 0 : here / all;
}

export const stitchesOfColour = (rows: readonly string[], colour: string): number =>
  rows.reduce((sum, row) => sum + row.split(colour).length - 1, 0);
