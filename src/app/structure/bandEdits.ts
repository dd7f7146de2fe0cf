/** What she says of a band as edits: where it ends, that two are one, and what is so of it whatever is found. */
import type { ChartBand } from "../../chart/chart.ts";
import type { Edit } from "../../document/edit.ts";
import type { BuiltBand } from "../worker/api.ts";

export type SaidField = Exclude<keyof ChartBand, "rows">;
type DeclareBand = Extract<Edit, { kind: "declareBand" }>;

/** Her word for one thing of a band. */
export const sayOf = (chart: string, { rows }: Pick<BuiltBand, "rows">, fields: DeclareBand["fields"]): Edit => ({
  kind: "declareBand",
  chart,
  rows: [...rows],
  fields,
});

/** Her word for one thing taken back; of a band of which nothing else is said all of it, so that it is found again. */
export function takeBack(chart: string, { rows, said }: Pick<BuiltBand, "rows" | "said">, field: SaidField): Edit {
  const others = Object.keys(said ?? {}).filter((name) => name !== "rows" && name !== field);
  if (others.length === 0) return { kind: "releaseBand", chart, rows: [...rows] };
  const found = field === "axis" || field === "echoOf";
  return {
    kind: "declareBand",
    chart,
    rows: [...rows],
    fields: found ? {} : { [field]: null },
    ...(found ? { found: [field] } : {}),
  };
}

/** Two bands where one was; the upper begins with that row. Both are called as it was, and wanted as it was. */
export function splitBefore(chart: string, { rows, said }: Pick<BuiltBand, "rows" | "said">, row: number): Edit[] {
  const { name, want } = said ?? {};
  const kept = { ...(name !== undefined && { name }), ...(want !== undefined && { want }) };
  return [
    { kind: "declareBand", chart, rows: [rows[0], row - 1], fields: kept },
    { kind: "declareBand", chart, rows: [row, rows[1]], fields: kept },
  ];
}

/** One band where two were, called as the one of them that has a name, the lower first. */
export function joined(chart: string, lower: Pick<BuiltBand, "rows" | "said">, upper: typeof lower): Edit {
  const name = lower.said?.name ?? upper.said?.name;
  const want = lower.said?.want ?? upper.said?.want;
  return {
    kind: "declareBand",
    chart,
    rows: [lower.rows[0], upper.rows[1]],
    fields: { ...(name !== undefined && { name }), ...(want !== undefined && { want }) },
  };
}
