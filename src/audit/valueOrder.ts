/** Is the order from light to dark as the pattern has it, and does every contrast colour lie on its own side of the main colour? */
import { touchingAreas, areasOf } from "../fabric/areas.ts";
import { mayChangePlaces, valueLadder, type Rung } from "../fabric/ladder.ts";
import { listText, mainColourOf, namedInk, told, type AuditContext } from "./context.ts";
import type { Finding } from "./finding.ts";
import { THRESHOLDS } from "./thresholds.ts";

export function valueOrder(context: AuditContext): Finding[] {
  if (context.ladder === "free") return [];
  const ladder = valueLadder(context.pattern, context.yarns, context.colourway);
  const used = new Set(context.charts.flatMap(({ now }) => now.cloth.inks.map(({ colour }) => colour)));
  const rungs = ladder.filter(({ colour }) => used.has(colour));
  const flipped = isFlipped(rungs);
  const main = mainColourOf(context.pattern);
  const crossings = crossingPairs(rungs, flipped).flatMap(([lighter, darker]): Crossing[] => {
    const meeting = meetingPlace(context, lighter.colour, darker.colour);
    // Two colours that never meet may lie in any order, but each keeps its side of the main colour.
    return meeting || lighter.colour === main || darker.colour === main ? [{ lighter, darker, meeting }] : [];
  });
  return [
    ...(flipped && context.ladder !== "reversed" ? [flipFinding(context, rungs)] : []),
    ...movesIn(crossings, main).map((move) => moveFinding(context, move, main)),
  ];
}

interface Crossing {
  readonly lighter: Rung;
  readonly darker: Rung;
  /** Where they first touch. */
  readonly meeting: Finding["where"] | null;
}

/** One colour that has gone past others: told once, not pair by pair. */
interface Move {
  readonly moved: Rung;
  readonly past: readonly Rung[];
  readonly now: "lighter" | "darker";
  readonly crossings: readonly Crossing[];
}

/** The fewest moves that tell of all crossings, found greedily: the colour that has gone past most others first. */
function movesIn(crossings: readonly Crossing[], main: string | undefined): Move[] {
  const moves: Move[] = [];
  let left = [...crossings];
  while (left.length > 0) {
    const rungs = new Set(left.flatMap(({ lighter, darker }) => [lighter, darker]));
    const choices = [...rungs].flatMap((moved): Move[] => {
      const down = left.filter(({ lighter }) => lighter === moved);
      const up = left.filter(({ darker }) => darker === moved);
      return [
        { moved, past: down.map(({ darker }) => darker), now: "darker", crossings: down },
        { moved, past: up.map(({ lighter }) => lighter), now: "lighter", crossings: up },
      ];
    });
    const isMain = ({ moved }: Move): number => Number(moved.colour === main);
    const move = choices.sort((a, b) => b.past.length - a.past.length || isMain(a) - isMain(b))[0]!;
    moves.push(move);
    left = left.filter((crossing) => !move.crossings.includes(crossing));
  }
  return moves;
}

/** Pairs whose order is not the pattern's any more: [was lighter, was darker]. `flipped`: judged against the ladder turned over. */
export function crossingPairs(rungs: readonly Rung[], flipped = false): [Rung, Rung][] {
  const turn = flipped ? -1 : 1;
  const pairs: [Rung, Rung][] = [];
  rungs.forEach((one, index) => {
    for (const other of rungs.slice(index + 1)) {
      const was = one.was.lab[0] - other.was.lab[0];
      const now = turn * (one.lab[0] - other.lab[0]);
      if (was >= THRESHOLDS.orderMatters && now <= -THRESHOLDS.orderChanged) pairs.push([one, other]);
    }
  });
  return pairs;
}

/**
 * Pairs that the pattern keeps apart and whose order her shades, or the pattern's own, leave open: they may change places, or may not
 * have changed them.
 */
export function openPairs(rungs: readonly Rung[]): [Rung, Rung][] {
  const isOpen = (one: Rung, other: Rung): boolean =>
    (one.yarn === null || one.yarn !== other.yarn) &&
    one.was.lab[0] - other.was.lab[0] >= THRESHOLDS.orderMatters &&
    (mayChangePlaces(one, other) || mayChangePlaces(one.was, other.was));
  return rungs.flatMap((one, index) =>
    rungs.slice(index + 1).flatMap((other): [Rung, Rung][] => (isOpen(one, other) ? [[one, other]] : [])),
  );
}

/** The ladder is turned over on purpose when far more pairs lie the other way than as they were. */
export function isFlipped(rungs: readonly Rung[]): boolean {
  let kept = 0;
  let turned = 0;
  rungs.forEach((one, index) => {
    for (const other of rungs.slice(index + 1)) {
      if (one.was.lab[0] - other.was.lab[0] < THRESHOLDS.orderMatters) continue;
      if (one.lab[0] >= other.lab[0]) kept += 1;
      else turned += 1;
    }
  });
  // Every pair, were it the only one; among many Kendall's rank correlation below −0.6: our choice for "on purpose".
  return kept === 0 ? turned > 0 : kept + turned >= 3 && (kept - turned) / (kept + turned) < -0.6;
}

function flipFinding(context: AuditContext, rungs: readonly Rung[]): Finding {
  const { chart } = context.charts[0]!;
  return {
    id: "valueOrder/flipped",
    severity: "note",
    where: { chart: chart.id, rows: [1, chart.rows.length], colours: rungs.map(({ colour }) => colour) },
    numbers: { colours: rungs.length },
    headline: "The value ladder is turned over",
    sentence:
      "What is light in the pattern is dark in your yarns, and the other way round. That is taken to be on purpose: the order is judged against the pattern's, reversed.",
  };
}

function moveFinding(context: AuditContext, { moved, past, now, crossings }: Move, main: string | undefined): Finding {
  const colours = [moved, ...past].map(({ colour }) => colour);
  const where = crossings.find(({ meeting }) => meeting)?.meeting ?? wholeOf(context);
  const name = namedInk(context, moved.colour, moved.yarn);
  const others = [...new Set(past.map(({ colour, yarn }) => namedInk(context, colour, yarn)))];
  const by = past.map((other) => Math.abs(other.lab[0] - moved.lab[0]));
  const was = past.map((other) => Math.abs(other.was.lab[0] - moved.was.lab[0]));
  const before = now === "darker" ? "lighter" : "darker";
  const acrossMain = colours.some((colour) => colour === main);
  return {
    id: `valueOrder/${crossings.map(({ lighter, darker }) => `${lighter.colour}-${darker.colour}`).join("+")}`,
    severity: "doubt",
    where: {
      ...where,
      colours,
      yarns: [moved, ...past].flatMap(({ yarn }) => (yarn === null ? [] : [yarn])),
    },
    numbers: {
      deltaL: (now === "darker" ? -1 : 1) * Math.max(...by),
      was: (now === "darker" ? 1 : -1) * Math.max(...was),
    },
    headline: `${moved.colour} is now ${now} than ${listText(past.map(({ colour }) => colour))}: ${name} beside ${listText(others)}`,
    sentence:
      `In the pattern ${moved.colour} is ${before} than ${listText(past.map(({ colour }) => colour))}, by ${spanText(was)} in L*; ` +
      `${name} is ${now} than ${listText(others)}, by ${spanText(by)}. ` +
      (acrossMain ? "Figure and ground change parts there." : "Where they meet, light and dark change parts."),
  };
}

/** "12", or "8 to 21". */
function spanText(numbers: readonly number[]): string {
  const [least, most] = [told(Math.min(...numbers)), told(Math.max(...numbers))];
  return least === most ? least : `${least} to ${most}`;
}

/** The first band from the bottom in which two chart colours touch. */
function meetingPlace(context: AuditContext, one: string, other: string): Finding["where"] | null {
  for (const { chart, was } of context.charts) {
    for (const { band } of was.bands) {
      const areaPiece = areasOf(was.cloth, band.rows[0], band.rows[1]);
      const meets = touchingAreas(areaPiece).some(({ a, b }) => {
        const colours = [areaPiece.areas[a]!, areaPiece.areas[b]!].flatMap((area) => area.colours);
        return colours.includes(one) && colours.includes(other);
      });
      if (meets) return { chart: chart.id, rows: [band.rows[0], band.rows[1]], band: band.id, colours: [one, other] };
    }
  }
  return null;
}

function wholeOf(context: AuditContext): Finding["where"] {
  const { chart } = context.charts[0]!;
  return { chart: chart.id, rows: [1, chart.rows.length] };
}
