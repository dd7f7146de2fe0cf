/** Is the order from light to dark as the pattern has it, and does every contrast colour lie on its own side of the main colour? */
import { touchingAreas, areasOf } from "../fabric/areas.ts";
import { valueLadder, type Rung } from "../fabric/ladder.ts";
import { mainColourOf, namedInk, told, type AuditContext } from "./context.ts";
import type { Finding } from "./finding.ts";
import { THRESHOLDS } from "./thresholds.ts";

export function valueOrder(context: AuditContext): Finding[] {
  const ladder = valueLadder(context.pattern, context.yarns, context.colourway);
  const used = new Set(context.charts.flatMap(({ now }) => now.cloth.inks.map(({ colour }) => colour)));
  const rungs = ladder.filter(({ colour }) => used.has(colour));
  const flipped = isFlipped(rungs);
  const crossings = crossingPairs(rungs, flipped);
  const main = mainColourOf(context.pattern);
  return [
    ...(flipped ? [flipFinding(context, rungs)] : []),
    ...crossings.flatMap(([lighter, darker]) => crossingFinding(context, lighter, darker, main)),
  ];
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
  // Kendall's rank correlation below −0.6: our choice for "on purpose".
  return kept + turned >= 3 && (kept - turned) / (kept + turned) < -0.6;
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
      "What is light in the pattern is dark in your yarns, and the other way round. It is judged as a ladder on purpose: the pattern's order, reversed.",
  };
}

function crossingFinding(context: AuditContext, lighter: Rung, darker: Rung, main: string | undefined): Finding[] {
  const meeting = meetingPlace(context, lighter.colour, darker.colour);
  const acrossMain = lighter.colour === main || darker.colour === main;
  if (!meeting && !acrossMain) return [];
  const names = [lighter, darker].map(({ colour, yarn }) => namedInk(context, colour, yarn)) as [string, string];
  const where = meeting ?? wholeOf(context, [lighter.colour, darker.colour]);
  const contrast = lighter.colour === main ? names[1] : names[0];
  const side = lighter.colour === main ? "lighter" : "darker";
  const sentence = acrossMain
    ? `${contrast} lies on the other side of the main colour now: ${told(Math.abs(lighter.lab[0] - darker.lab[0]))} ${side} in L*, where the pattern has it ${told(lighter.was.lab[0] - darker.was.lab[0])} ${side === "lighter" ? "darker" : "lighter"}. Figure and ground change their parts there.`
    : `In the pattern ${lighter.colour} is the lighter of the two, by ${told(lighter.was.lab[0] - darker.was.lab[0])} L*; your yarns have it darker, by ${told(darker.lab[0] - lighter.lab[0])}. Where they meet, light and dark change their parts.`;
  return [
    {
      id: `valueOrder/${[lighter.colour, darker.colour].join("-")}`,
      severity: "doubt",
      where: { ...where, yarns: [lighter.yarn, darker.yarn].filter((yarn) => yarn !== null) },
      numbers: {
        deltaL: lighter.lab[0] - darker.lab[0],
        was: lighter.was.lab[0] - darker.was.lab[0],
      },
      headline: `${lighter.colour} and ${darker.colour} have changed places: ${names[0]} is darker than ${names[1]}`,
      sentence,
    },
  ];
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

function wholeOf(context: AuditContext, colours: string[]): Finding["where"] {
  const { chart } = context.charts[0]!;
  return { chart: chart.id, rows: [1, chart.rows.length], colours };
}
