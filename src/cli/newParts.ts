/** The parts that a new project is made of, each from an option or a file. */
import { basename } from "node:path";
import type { Problem } from "../base/problem.ts";
import type { Gauge } from "../garment/gauge.ts";
import type { ReadChart, ReadCharts } from "../intake/readChart.ts";
import { stashOfTable } from "../jobs.ts";
import type { Yarn } from "../yarn/yarn.ts";
import type { Given } from "./args.ts";
import { readBytes } from "./files.ts";
import { EXIT, Refusal } from "./io.ts";
import { badInput } from "./projectFile.ts";

/** Undefined where nothing was said. Refuses with 64. */
export function gaugeOf(given: Given): Gauge | undefined {
  const text = given.text("gauge");
  if (text === undefined) return undefined;
  const [, stitches, rows] = /^(\d+(?:\.\d+)?)\s*[x×/]\s*(\d+(?:\.\d+)?)$/iu.exec(text) ?? [];
  const gauge = { stitches: Number(stitches), rows: Number(rows) };
  if (gauge.stitches > 0 && gauge.rows > 0) return gauge;
  throw new Refusal(
    EXIT.usage,
    `--gauge: expected stitches and rows to 10 cm like 28x30, found ${JSON.stringify(text)}.`,
  );
}

/** The chart that is wanted of those in the file. Refuses with 65 where there is none. */
export function oneChart(
  path: string,
  { charts, problems }: ReadCharts,
  number = 1,
): { value: ReadChart; problems: Problem[] } {
  if (charts.length === 0) throw badInput(path, problems);
  const value = charts[number - 1];
  if (!value)
    throw new Refusal(EXIT.usage, `--number: expected a number between 1 and ${charts.length}, found ${number}.`);
  const others: Problem[] = [
    {
      where: path,
      expected: "one chart",
      got: `${charts.length}; number ${number} is taken (--number N)`,
      severity: "note",
    },
  ];
  return { value, problems: charts.length > 1 ? [...problems, ...others] : problems };
}

/** A colour of which only its sign is known is called by that: greys that stand in would have names that mean nothing. */
export function namedBySigns(chart: ReadChart): ReadChart {
  const colours = Object.entries(chart.colours).map(([id, colour]) => {
    const sign = chart.symbols?.[id]?.text;
    const name = colour.name ?? (colour.assumed && sign ? `sign ${sign}` : undefined);
    return [id, name === undefined ? colour : { ...colour, name }] as const;
  });
  return { ...chart, colours: Object.fromEntries(colours) };
}

export async function yarnsOf(path: string | undefined): Promise<{ value: Yarn[]; problems: Problem[] }> {
  if (path === undefined) return { value: [], problems: [] };
  const { value, problems } = stashOfTable(await readBytes(path));
  if (!value || value.yarns.length === 0) throw badInput(path, problems);
  return { value: value.yarns, problems };
}

/** "snow-vest.twostrand.json" → "snow vest". */
export const nameOf = (name: string | undefined, out: string): string =>
  name ??
  basename(out)
    .replace(/(\.twostrand)?\.json$/i, "")
    .replace(/[-_]+/g, " ");
