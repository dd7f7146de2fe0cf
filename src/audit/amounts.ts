/** Is there enough of every yarn? Judges metres that were worked out elsewhere. */
import { capital, yarnName, type AuditContext } from "./context.ts";
import type { Finding } from "./finding.ts";

export function amounts(context: AuditContext): Finding[] {
  const { chart } = context.charts[0]!;
  return context.supplies.flatMap(({ yarn, metres, low, high, reserve, have, short }): Finding[] => {
    if (short === null || short <= 0 || have === null) return [];
    const colours = Object.keys(context.colourway.yarns).filter((colour) => context.colourway.yarns[colour] === yarn);
    const name = yarnName(context, yarn);
    const sure = have < low;
    return [
      {
        id: `amounts/${yarn}`,
        severity: sure ? "fault" : "doubt",
        where: { chart: chart.id, rows: [1, chart.rows.length], colours, yarns: [yarn] },
        numbers: { metres, low, high, reserve, have, short },
        headline: sure ? `Not enough ${name}` : `${capital(name)} may run out`,
        sentence:
          `It takes about ${Math.round(metres)} m (${Math.round(low)} to ${Math.round(high)}, an estimate until your swatch is measured), ` +
          `${Math.round(metres + reserve)} m with a reserve; you have ${Math.round(have)} m.`,
      },
    ];
  });
}
