/** A chart as people type one: letters in a grid, perhaps with a key, row numbers and spaces, made into rows we can trust. */
import type { Problem } from "../base/problem.ts";
import { hexFromLab, type Lab } from "../colour/lab.ts";
import { isColourId, MOST_COLOURS } from "../chart/text.ts";
import { linesOfText, type TextLine } from "./chartLines.ts";
import { freeIds, type ReadChart, type ReadCharts, type ReadColour } from "./readChart.ts";

/**
 * Every chart in a text, in order. Blank lines divide charts; key lines ("A = #e8e2d2 hoar") hold for all of them.
 * Never throws. A ragged row is kept: filled up with no stitch, or cut, to the width that most rows have, and told.
 */
export function readChartText(text: string): ReadCharts {
  const problems: Problem[] = [];
  if (looksBinary(text)) {
    problems.push(fault("the text", "a chart as letters in a grid", "what looks like a file of another kind"));
    return { charts: [], problems };
  }
  const { blocks, keys } = linesOfText(text, problems);
  const charts = blocks.map((block) => chartOfBlock(block.name, block.lines, keys, problems));
  const found = charts.filter((chart) => chart !== null);
  if (found.length === 0 && !problems.some((problem) => problem.severity === "fault")) {
    problems.push(fault("the text", "a grid of letters, one for each stitch", "no line that reads as a row"));
  }
  return { charts: found, problems };
}

function chartOfBlock(
  name: string | null,
  lines: readonly TextLine[],
  keys: ReadonlyMap<string, KeyEntry>,
  problems: Problem[],
): ReadChart | null {
  const width = commonWidth(lines);
  const ids = new Map<string, string>();
  const tokens = new Set(lines.flatMap(({ cells }) => cells));
  // An id may be any one printable character; whatever else stands in a cell is given one that is free.
  for (const token of tokens) if (token === "-" ? !keys.has("-") : isColourId(token)) ids.set(token, token);
  const strangers = [...tokens].filter((token) => !ids.has(token));
  const free = freeIds(new Set(ids.values()));
  if (ids.size + strangers.length > MOST_COLOURS || strangers.length > free.length) {
    problems.push(fault(chartWhere(name), `at most ${MOST_COLOURS} colours`, `${tokens.size} different signs`));
    return null;
  }
  for (const token of strangers) {
    const id = /^\p{L}/u.test(token) && free.includes(token[0]!) ? token[0]! : free[0]!;
    free.splice(free.indexOf(id), 1);
    ids.set(token, id);
    problems.push({
      where: chartWhere(name),
      expected: "one printable character for each colour",
      got: `${quote(token)}, read as colour ${id}`,
      severity: "note",
      line: lines.find(({ cells }) => cells.includes(token))!.line,
    });
  }
  const uncertain: [number, number][] = [];
  const rows = lines.map(({ cells, line }, index) => {
    const row = lines.length - index;
    if (cells.length !== width) {
      problems.push({
        where: `row ${row}`,
        expected: `${width} stitches`,
        got: `${cells.length}, ${cells.length < width ? "filled up with no stitch at its right end" : "cut at its right end"}`,
        severity: "doubt",
        line,
      });
      for (let column = 1; column <= Math.max(1, width - cells.length); column++) uncertain.push([row, column]);
    }
    const fitted = cells.slice(0, width).map((cell) => ids.get(cell)!);
    return fitted.join("") + "-".repeat(width - fitted.length);
  });
  if (!rows.some((row) => /[^-]/.test(row))) {
    problems.push({ ...fault(chartWhere(name), "stitches", 'only "-", which is no stitch'), line: lines[0]!.line });
    return null;
  }
  return {
    ...(name === null ? {} : { name }),
    rows,
    colours: coloursOf(rows, ids, keys, problems),
    confidence: uncertain.length > 0 ? 0.5 : 1,
    box: null,
    page: null,
    uncertain,
  };
}

export interface KeyEntry {
  name: string | null;
  hex: string | null;
  lab: Lab | null;
}

/** The key's colours, and for a colour that it does not name a grey: the more stitches, the lighter, as a blank ground is drawn. */
function coloursOf(
  rows: readonly string[],
  ids: ReadonlyMap<string, string>,
  keys: ReadonlyMap<string, KeyEntry>,
  problems: Problem[],
): Record<string, ReadColour> {
  const stitches = new Map<string, number>();
  for (const id of rows.join("")) if (id !== "-") stitches.set(id, (stitches.get(id) ?? 0) + 1);
  const order = [...stitches].sort((one, other) => other[1] - one[1]).map(([id]) => id);
  const tokenOf = new Map([...ids].map(([token, id]) => [id, token]));
  const missing = order.filter((id) => !keys.get(tokenOf.get(id)!)?.hex);
  const colours = order.map((id): [string, ReadColour] => {
    const token = tokenOf.get(id)!;
    const entry = keys.get(token);
    const name = entry?.name ?? (token === id ? null : token);
    const named = name === null ? {} : { name };
    if (entry?.hex && entry.lab) return [id, { hex: entry.hex, lab: entry.lab, ...named }];
    const lab: Lab = [standInLightness(missing.indexOf(id), missing.length), 0, 0];
    return [id, { hex: hexFromLab(lab), lab, ...named, assumed: true }];
  });
  if (missing.length > 0) {
    problems.push({
      where: `colour ${missing.join(", ")}`,
      expected: `a key line such as "${missing[0]} = #e8e2d2"`,
      got: `no colour; ${missing.length === 1 ? "a grey stands" : "greys stand"} in`,
      severity: "note",
    });
  }
  return Object.fromEntries(colours);
}

/** L* of the stand-in for the n-th of so many colours: even steps from paper to print, our choice. */
const standInLightness = (index: number, count: number): number => 92 - (index * 70) / Math.max(1, count - 1);

/** The width that most rows have; of two as common the wider, so that less is cut. */
function commonWidth(lines: readonly TextLine[]): number {
  const counts = new Map<number, number>();
  for (const { cells } of lines) counts.set(cells.length, (counts.get(cells.length) ?? 0) + 1);
  return [...counts].sort((one, other) => other[1] - one[1] || other[0] - one[0])[0]![0];
}

/** Text has no control characters but tabs and line ends; more than a few in a thousand is no text. */
function looksBinary(text: string): boolean {
  let strange = 0;
  for (let index = 0; index < text.length; index++) {
    const code = text.charCodeAt(index);
    if (code === 0) return true;
    if ((code < 32 && code !== 9 && code !== 10 && code !== 12 && code !== 13) || code === 0xfffd) strange++;
  }
  return strange * 200 > text.length;
}

const chartWhere = (name: string | null): string => (name === null ? "the chart" : `chart "${name}"`);
const quote = (text: string): string => JSON.stringify(text.length > 40 ? `${text.slice(0, 40)}…` : text);
const fault = (where: string, expected: string, got: string): Problem => ({ where, expected, got, severity: "fault" });
