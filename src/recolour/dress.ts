/** Putting other yarns into a colourway's places: what it does by place stays, whatever the yarns are. */
import type { Change, Colourway, OverStitch } from "../fabric/colourway.ts";
import type { Chart } from "../chart/chart.ts";

/**
 * A colourway with the yarns of `yarns` for its chart colours. A change or duplicate stitch that had borrowed the yarn of a
 * chart colour borrows that colour's new yarn; one in a yarn of its own keeps it.
 */
export function dress(
  colourway: Colourway,
  yarns: Readonly<Record<string, string>>,
  charts: readonly Chart[],
): Colourway {
  return {
    ...colourway,
    yarns: { ...yarns },
    ...(colourway.changes
      ? { changes: colourway.changes.map((change) => dressChange(change, colourway, yarns, charts)) }
      : {}),
    ...(colourway.overStitched
      ? { overStitched: colourway.overStitched.map((over) => dressOver(over, colourway, yarns, charts)) }
      : {}),
  };
}

function dressChange(
  change: Change,
  colourway: Colourway,
  yarns: Readonly<Record<string, string>>,
  charts: readonly Chart[],
): Change {
  const lender = lenderOf(change.yarn, colourway, coloursIn(change.at, charts), change.colour);
  return { ...change, yarn: (lender !== null && yarns[lender]) || change.yarn };
}

function dressOver(
  over: OverStitch,
  colourway: Colourway,
  yarns: Readonly<Record<string, string>>,
  charts: readonly Chart[],
): OverStitch {
  const lender = lenderOf(over.yarn, colourway, coloursIn(over.at, charts), null);
  return { ...over, yarn: (lender !== null && yarns[lender]) || over.yarn };
}

/** The chart colour whose yarn is meant: one that is knitted at that place before any other. */
function lenderOf(
  yarn: string,
  colourway: Colourway,
  here: ReadonlySet<string>,
  notThis: string | null,
): string | null {
  const lenders = Object.keys(colourway.yarns).filter(
    (colour) => colourway.yarns[colour] === yarn && colour !== notThis,
  );
  return lenders.find((colour) => here.has(colour)) ?? lenders[0] ?? null;
}

function coloursIn(at: Change["at"], charts: readonly Chart[]): Set<string> {
  const chart = "chart" in at ? charts.find(({ id }) => id === at.chart) : undefined;
  if (!chart || !("chart" in at)) return new Set();
  const [from, to] = at.rows ?? [1, chart.rows.length];
  return new Set(chart.rows.slice(chart.rows.length - to, chart.rows.length - from + 1).join(""));
}

/**
 * The colourway's places without its yarns: every chart colour is a yarn that bears its own name. A change or duplicate stitch in
 * a yarn that no chart colour has belonged to the old yarns and is left out.
 */
export function inOwnColours(colourway: Colourway, charts: readonly Chart[], colours: readonly string[]): Colourway {
  const own = Object.fromEntries(colours.map((id) => [id, id]));
  const lent = new Set(Object.values(colourway.yarns));
  const borrowed = <T extends { yarn: string }>(places: T[] | undefined): T[] =>
    (places ?? []).filter(({ yarn }) => lent.has(yarn));
  return dress(
    { ...colourway, changes: borrowed(colourway.changes), overStitched: borrowed(colourway.overStitched) },
    own,
    charts,
  );
}
