/** How sure a way is: whether the checks would let it pass if her shades were as far off as they may well be, and what of it hangs on them. */
import { atLeast, audit } from "../audit/audit.ts";
import { capital, listText, rowsText, type AuditContext } from "../audit/context.ts";
import { contextOf } from "../audit/judge.ts";
import { likelyYarns } from "../audit/likely.ts";
import { colourwayIn, yarnsOf, type Search } from "./prepare.ts";
import { notChoosable } from "./settle.ts";

export interface Sureness {
  /** So many times her shades were drawn anew; fewer where the chart is very large or the time is up. */
  readonly draws: number;
  /** In so many of them the checks find nothing that another yarn could mend. */
  readonly passes: number;
  /** Rows that are clear or better as stated and in less than four draws of five, with in which part of them. */
  readonly rows: readonly {
    readonly chart: string;
    readonly section: string | null;
    readonly row: number;
    readonly holds: number;
  }[];
  readonly sentence: string;
}

/** A share told to one in ten: its standard deviation is then at most 0.08. Our choice, to be done in half a second. */
const DRAWS = 40;
/** Above so many stitches a draw takes so long that fewer have to do. Our choice. */
const LARGE = { stitches: 40_000, draws: 10 };
/** Fewer tell nothing. */
const FEWEST = 10;
/** What holds in so many of the draws is taken as held, as everywhere where a range is told. */
const HOLDS = 0.8;

/** Seeded: the same way under the same wish is as sure whenever it is asked. The pattern's own colours are taken as stated. */
export function surenessOf(search: Search, assignment: readonly number[]): Sureness {
  const { pattern, taste, input } = search;
  const { viewing, doubt, memory, stop } = input;
  const colourway = colourwayIn(search, assignment);
  const yarns = yarnsOf(search);
  // What a drawn cloth looks like is asked for once: it must not push out what is asked for often.
  const apart = { ...memory, looks: new Map() };
  const look = (some: typeof yarns): AuditContext =>
    contextOf({ pattern, yarns: some, colourway, viewing, doubt, ladder: taste.ladder }, apart);
  const rows = clearRows(look(yarns));
  const held = rows.map(() => 0);
  const stitches = pattern.charts.reduce((sum, chart) => sum + chart.rows.length * (chart.rows[0]?.length ?? 0), 0);
  const most = stitches > LARGE.stitches ? LARGE.draws : DRAWS;
  let draws = 0;
  let passes = 0;
  while (draws < most && !(stop?.() && draws > 0)) {
    const context = look(likelyYarns(yarns, draws));
    draws += 1;
    if (!audit(context).some((finding) => atLeast(finding, "doubt") && !notChoosable(finding))) passes += 1;
    const clear = new Set(clearRows(context).map(nameOf));
    rows.forEach((row, at) => {
      if (clear.has(nameOf(row))) held[at]! += 1;
    });
  }
  const doubtful = rows.flatMap((row, at) => (held[at]! < HOLDS * draws ? [{ ...row, holds: held[at]! / draws }] : []));
  return { draws, passes, rows: doubtful, sentence: sentenceOf(passes / draws, draws, doubtful) };
}

interface RowPlace {
  readonly chart: string;
  readonly section: string | null;
  readonly row: number;
}

const nameOf = ({ chart, section, row }: RowPlace): string => JSON.stringify([chart, section, row]);

const clearRows = ({ charts, limits }: AuditContext): RowPlace[] =>
  charts.flatMap(({ chart, section, now }) =>
    now.rows.flatMap(({ row, contrast: { V } }) =>
      V !== null && V >= limits.clear ? [{ chart: chart.id, section, row }] : [],
    ),
  );

/** Rows are named up to so many runs. */
const NAMED = 5;

function sentenceOf(share: number, draws: number, rows: Sureness["rows"]): string {
  if (draws < FEWEST) return "There was no time to try how it stands if the shades are off.";
  const tenths = Math.round(10 * share);
  const part =
    share === 0
      ? "none"
      : share === 1
        ? "all"
        : tenths === 10
          ? "nearly all"
          : tenths === 0
            ? "hardly any"
            : `${tenths} of 10`;
  const first = `In ${part} of the likely shades of your yarns the checks let it pass.`;
  if (rows.length === 0) return first;
  const runs = runsOf(rows);
  const named = runs.slice(0, NAMED).map(rowsText);
  const rest = runs.length - named.length;
  const told = capital(listText(rest > 0 ? [...named, `${rest} more`] : named));
  return `${first} ${told} ${rows.length === 1 ? "is" : "are"} clear only if the shades are as stated.`;
}

function runsOf(rows: Sureness["rows"]): [number, number][] {
  const runs: [number, number][] = [];
  let chart = "";
  for (const row of rows) {
    const last = runs.at(-1);
    const place = `${row.chart} ${row.section}`;
    if (last && place === chart && last[1] === row.row - 1) last[1] = row.row;
    else runs.push([row.row, row.row]);
    chart = place;
  }
  return runs;
}
