/** Charts laid where their joints put them, as one: the surer reading of a shared cell counts, and where two differ it is told. */
import type { Problem } from "../../base/problem.ts";
import type { Joint } from "../joinCharts.ts";
import type { ReadChart } from "../readChart.ts";
import { sameColours } from "./sameColours.ts";

interface Place {
  top: number;
  left: number;
}

/** Null where the joints do not hold all charts together, or put one at two places. */
export function laidTogether(
  charts: readonly ReadChart[],
  joints: readonly Joint[],
): { chart: ReadChart; problems: Problem[] } | null {
  const places = placesOf(charts, joints);
  if (!places) return null;
  const { maps, colours, symbols } = sameColours(charts);
  const [rows, columns] = [
    Math.max(...places.map(({ top }, index) => top + charts[index]!.rows.length)),
    Math.max(...places.map(({ left }, index) => left + charts[index]!.rows[0]!.length)),
  ];
  const cells = Array.from({ length: rows }, () => Array<string>(columns).fill("-"));
  const sure = Array.from({ length: rows }, () => Array<number>(columns).fill(-1));
  const doubtful = new Set<number>();
  const differing = new Set<number>();
  for (const [index, chart] of charts.entries()) {
    const { top, left } = places[index]!;
    for (const [row, text] of chart.rows.entries())
      for (const [column, own] of Array.from(text).entries()) {
        const id = own === "-" ? "-" : maps[index]!.get(own)!;
        const [down, across] = [top + row, left + column];
        const sureness = Number(chart.sureness?.[row]?.[column] ?? 9);
        const before = sure[down]![across]!;
        if (before >= 0 && cells[down]![across] !== id) differing.add(down * columns + across);
        if (before >= sureness) continue;
        cells[down]![across] = id;
        sure[down]![across] = sureness;
      }
    for (const [row, column] of chart.uncertain)
      doubtful.add((top + chart.rows.length - row) * columns + left + widthOf(chart) - column);
  }
  const gaps = sure.reduce((sum, line) => sum + line.filter((one) => one < 0).length, 0);
  const [first] = charts as [ReadChart];
  const cornered = places.findIndex(({ top }, index) => top + charts[index]!.rows.length === rows);
  const firstRow = charts[cornered]?.firstRow;
  const edge = places.findIndex(({ left }, index) => left + widthOf(charts[index]!) === columns);
  const firstColumn = charts[edge]?.firstColumn;
  const name = charts.find((chart) => chart.name !== undefined)?.name;
  const pages = new Set(charts.map(({ page }) => page));
  const uncertain = [...new Set([...doubtful, ...differing])]
    .sort((one, other) => other - one)
    .map((at): [number, number] => [rows - Math.floor(at / columns), columns - (at % columns)]);
  const chart: ReadChart = {
    ...(name === undefined ? {} : { name }),
    rows: cells.map((line) => line.join("")),
    colours,
    confidence:
      Math.min(...charts.map(({ confidence }) => confidence)) * Math.min(...joints.map(({ sureness }) => sureness)),
    box: null,
    page: pages.size === 1 ? first.page : null,
    uncertain,
    ...(charts.some(({ sureness }) => sureness) ? { sureness: surenessRows(sure, differing, columns) } : {}),
    ...(Object.keys(symbols).length > 0 ? { symbols } : {}),
    ...(firstRow === undefined ? {} : { firstRow }),
    ...(firstColumn === undefined ? {} : { firstColumn }),
  };
  return { chart, problems: problemsOf(joints, { differing: differing.size, gaps, cells: rows * columns }) };
}

const widthOf = (chart: ReadChart): number => chart.rows[0]!.length;

const surenessRows = (
  sure: readonly (readonly number[])[],
  differing: ReadonlySet<number>,
  columns: number,
): string[] =>
  sure.map((line, row) =>
    line
      .map((one, column) => (differing.has(row * columns + column) ? Math.min(one, SURENESS_OF_TWO) : Math.max(0, one)))
      .join(""),
  );

function placesOf(charts: readonly ReadChart[], joints: readonly Joint[]): Place[] | null {
  const places: (Place | undefined)[] = charts.map(() => undefined);
  if (charts.length === 0 || joints.some(({ first, second }) => !charts[first] || !charts[second])) return null;
  places[0] = { top: 0, left: 0 };
  let found = true;
  while (found) {
    found = false;
    for (const joint of joints) {
      const [one, other] = [places[joint.first], places[joint.second]];
      const step = stepOf(joint, charts);
      if (one && other && (other.top - one.top !== step.top || other.left - one.left !== step.left)) return null;
      if (one && !other) places[joint.second] = { top: one.top + step.top, left: one.left + step.left };
      else if (other && !one) places[joint.first] = { top: other.top - step.top, left: other.left - step.left };
      else continue;
      found = true;
    }
  }
  if (places.includes(undefined)) return null;
  const known = places as Place[];
  const [top, left] = [Math.min(...known.map((at) => at.top)), Math.min(...known.map((at) => at.left))];
  return known.map((at) => ({ top: at.top - top, left: at.left - left }));
}

function stepOf({ first, second, side, overlap }: Joint, charts: readonly ReadChart[]): Place {
  const [one, other] = [charts[first]!, charts[second]!];
  switch (side) {
    case "above":
      return { top: overlap - other.rows.length, left: 0 };
    case "below":
      return { top: one.rows.length - overlap, left: 0 };
    case "left":
      return { top: 0, left: overlap - widthOf(other) };
    case "right":
      return { top: 0, left: widthOf(one) - overlap };
  }
}

function problemsOf(
  joints: readonly Joint[],
  { differing, gaps, cells }: { differing: number; gaps: number; cells: number },
): Problem[] {
  const problems: Problem[] = [];
  for (const { first, second, side, overlap, sureness } of joints) {
    if (sureness >= SURE_ENOUGH) continue;
    const lines = side === "above" || side === "below" ? "row" : "column";
    const shared =
      overlap === 0 ? `no ${lines} that both have` : `${overlap} ${lines}${overlap === 1 ? "" : "s"} that both have`;
    const beside = side === "left" || side === "right" ? `${side} of` : side;
    problems.push({
      where: `parts ${first + 1} and ${second + 1}`,
      expected: `${lines} numbers, or ${lines}s that can only be the same, to say how they lie`,
      got: `part ${second + 1} taken to lie ${beside} part ${first + 1} with ${shared}; the sureness of that is ${Math.round(100 * sureness)} %`,
      severity: "doubt",
    });
  }
  if (differing > 0) {
    problems.push({
      where: "cells that two parts show",
      expected: "the same colour on both",
      got: `another in ${differing}; the surer reading is taken`,
      severity: "doubt",
    });
  }
  if (gaps > 0) {
    problems.push({
      where: "the chart put together",
      expected: "parts that fill it",
      got: `${gaps} of ${cells} cells that no part shows, left without stitches`,
      severity: "doubt",
    });
  }
  return problems;
}

/** Below that a joint is told of. Our choice. */
const SURE_ENOUGH = 0.9;
/** How sure a cell is that two parts show differently. Our choice. */
const SURENESS_OF_TWO = 3;
