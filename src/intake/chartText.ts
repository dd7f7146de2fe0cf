/** A chart as people type or paste one: signs in a grid, a table, or rows in words, made into rows we can trust. */
import type { Problem } from "../base/problem.ts";
import { chartOfTokens, isUsed } from "./chartText/colourTokens.ts";
import { chartOfGrid } from "./chartText/gridRows.ts";
import type { Key } from "./chartText/keyLines.ts";
import { sortLines } from "./chartText/sortLines.ts";
import { leftOut, titleOf, type TextLine, type TokenChart } from "./chartText/tokenChart.ts";
import { chartOfWords } from "./chartText/wordRows.ts";
import type { ReadCharts } from "./readChart.ts";

/**
 * Every chart in a text, in order. Signs, codes or words in rows as they are seen, top row first unless they are numbered;
 * tables with a tab, comma or semicolon; rows in words ("Rnd 3: *k3 MC, k1 CC; rep from * to end"). Key lines
 * ("A = #e8e2d2 hoar") hold for all charts. Never throws. Whatever does not fit is kept as far as it goes, and told by its line.
 */
export function readChartText(text: string): ReadCharts {
  const problems: Problem[] = [];
  if (looksBinary(text)) {
    problems.push(fault("a chart as letters in a grid", "what looks like a file of another kind"));
    return { charts: [], problems };
  }
  if (text.length > LONGEST_TEXT) {
    problems.push(fault(`at most ${LONGEST_TEXT} characters`, String(text.length)));
    return { charts: [], problems };
  }
  const key: Key = new Map();
  const written: TokenChart[] = [];
  /** Words that may be the name of the chart after them. */
  let said: TextLine | null = null;
  for (const block of sortLines(text, key, problems)) {
    const heading: string | null = said === null ? null : titleOf(said.text);
    const chart: TokenChart | null =
      block.kind === "grid"
        ? chartOfGrid(block.lines, heading, key, problems)
        : chartOfWords({ ...block.block, name: block.block.name ?? heading }, problems);
    // A name that nothing takes up is told, like every other line that is no row.
    if (said && (!chart || chart.rows.length === 0 || chart.name !== heading)) problems.push(leftOut(said));
    const named: boolean = chart?.rows.length === 0 && chart.name !== null && chart.name !== heading;
    said = named && block.kind === "grid" ? block.lines[0]! : null;
    if (!chart || chart.rows.length === 0) continue;
    if (written.length === MOST_CHARTS) {
      problems.push({
        where: "the text",
        expected: `at most ${MOST_CHARTS} charts`,
        got: "more, left out",
        severity: "doubt",
      });
      break;
    }
    written.push(chart);
  }
  if (said) problems.push(leftOut(said));
  for (const [id, { line }] of key)
    if (written.length > 0 && !isUsed(id, key, written))
      problems.push({
        where: `the key of ${id}`,
        expected: "stitches of that colour",
        got: "none",
        severity: "note",
        line,
      });
  const charts = written.map((chart) => chartOfTokens(chart, key, problems)).filter((chart) => chart !== null);
  if (charts.length === 0 && !problems.some(({ severity }) => severity === "fault"))
    problems.push(fault("a grid of letters, one for each stitch, or rows in words", "no line that reads as a row"));
  return { charts, problems };
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

const fault = (expected: string, got: string): Problem => ({ where: "the text", expected, got, severity: "fault" });

/** A pattern has some ten. Our choice. */
const MOST_CHARTS = 60;
/** A chart of 1000 × 1000 with a comma after each stitch, twice over. Our choice. */
const LONGEST_TEXT = 4_000_000;
