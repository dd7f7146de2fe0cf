/** A chart as people type or paste one: signs in a grid, a table, or rows in words, made into rows we can trust. */
import type { Problem } from "../base/problem.ts";
import { chartOfTokens } from "./chartText/colourTokens.ts";
import { chartOfGrid } from "./chartText/gridRows.ts";
import type { Key } from "./chartText/keyLines.ts";
import { sortLines } from "./chartText/sortLines.ts";
import type { TokenChart } from "./chartText/tokenChart.ts";
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
  let heading: string | null = null;
  for (const block of sortLines(text, key, problems)) {
    const chart: TokenChart | null =
      block.kind === "grid"
        ? chartOfGrid(block.lines, heading, key, problems)
        : chartOfWords({ ...block.block, name: block.block.name ?? heading }, problems);
    heading = chart && chart.rows.length === 0 ? chart.name : null;
    if (chart && chart.rows.length > 0) written.push(chart);
  }
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

/** A chart of 1000 × 1000 with a comma after each stitch, twice over. Our choice. */
const LONGEST_TEXT = 4_000_000;
