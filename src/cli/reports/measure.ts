/** What `measure` tells people: each number with what counting, ruler or scale leave open. */
import type { MeasuredSwatch } from "../../jobs/measured.ts";
import { paragraph } from "../words.ts";

export function measureReport({ gauge, within, washed, loop, slack }: MeasuredSwatch): string {
  const percent = (share: number): string => `${(100 * share).toFixed(1)} %`;
  const lines = [
    `Gauge: ${gauge.stitches.toFixed(1)} stitches (within ${percent(within.stitches)}) and ${gauge.rows.toFixed(1)} rows (within ${percent(within.rows)}) to 10 cm.`,
    ...(washed
      ? [
          `Washing made it ${changeWords(washed.width, "narrower", "wider")} and ${changeWords(washed.height, "lower", "higher")}.`,
        ]
      : []),
    ...(loop ? [`One plain stitch takes ${loop.mm.toFixed(2)} mm of yarn, within ${percent(loop.within)}.`] : []),
    ...(slack === null ? [] : [`Floats have ${Math.round(100 * slack)} % slack.`]),
  ];
  return lines.map((line) => paragraph(line)).join("\n");
}

const changeWords = (factor: number, less: string, more: string): string =>
  Math.abs(factor - 1) < 0.002
    ? `no ${more}`
    : `${(100 * Math.abs(factor - 1)).toFixed(1)} % ${factor < 1 ? less : more}`;
