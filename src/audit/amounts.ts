/** Is there enough of every yarn? Judges metres that were worked out elsewhere. */
import type { Severity } from "../base/problem.ts";
import { capital, yarnName, type AuditContext, type Supply } from "./context.ts";
import type { Finding } from "./finding.ts";

export function amounts(context: AuditContext): Finding[] {
  const { chart } = context.charts[0]!;
  return context.supplies.flatMap((supply): Finding[] => {
    const { yarn, metres, low, high, reserve, have, short } = supply;
    if (short === null || short <= 0 || have === null) return [];
    const name = yarnName(context, yarn);
    const { severity, headline } = shortage(supply, have, name);
    return [
      {
        id: `amounts/${yarn}`,
        severity,
        where: { chart: chart.id, rows: [1, chart.rows.length], colours: coloursIn(context, yarn), yarns: [yarn] },
        numbers: { metres, low, high, reserve, have, short },
        headline,
        sentence:
          `It takes about ${metresText(metres)} m (${metresText(low)} to ${metresText(high)}, an estimate until your swatch is measured), ` +
          `${metresText(metres + reserve)} m with a reserve; you have ${Math.round(have)} m.`,
      },
    ];
  });
}

/** Less than the least it can take, less than the most, or less than the most and a reserve. */
function shortage({ low, high }: Supply, have: number, name: string): { severity: Severity; headline: string } {
  if (have < low) return { severity: "fault", headline: `Not enough ${name}` };
  if (have < high) return { severity: "doubt", headline: `${capital(name)} may run out` };
  return { severity: "note", headline: `${capital(name)} is enough, without a reserve` };
}

/** Chart colours that have a yarn somewhere. */
function coloursIn({ colourway }: AuditContext, yarn: string): string[] {
  const everywhere = Object.keys(colourway.yarns).filter((colour) => colourway.yarns[colour] === yarn);
  const somewhere = (colourway.changes ?? []).flatMap((change) => (change.yarn === yarn ? [change.colour] : []));
  return [...new Set([...everywhere, ...somewhere])];
}

/** Whole metres to 100, fives to 500, tens above: no more is known. */
function metresText(metres: number): string {
  const step = metres < 100 ? 1 : metres < 500 ? 5 : 10;
  return String(step * Math.round(metres / step));
}
