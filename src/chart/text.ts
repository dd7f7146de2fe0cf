/** The text form of a chart: a line for each row, top row first, a character for each stitch; exact both ways. */
import type { Outcome, Problem } from "../base/problem.ts";

/**
 * Reads what `chartText` writes and nothing else; the forgiving reader is intake's. Lines end in a line feed,
 * after the last one it may be missing. Problems name the line, counted from 1 at the top.
 */
export function parseChartText(text: string): Outcome<{ rows: string[] }> {
  const lines = text.split("\n");
  if (lines.at(-1) === "") lines.pop();
  const problems: Problem[] = [];
  const width = lines[0]?.length ?? 0;
  if (width === 0) {
    problems.push({
      where: "line 1",
      expected: "a row of stitches",
      got: "an empty line",
      severity: "fault",
      line: 1,
    });
  }
  const colours = new Set<string>();
  for (const [index, row] of lines.entries()) {
    const line = index + 1;
    const where = `line ${line}`;
    if (row.length !== width) {
      problems.push({ where, expected: `${width} stitches`, got: String(row.length), severity: "fault", line });
    }
    const stranger = Array.from(row).find((character) => character !== "-" && !isColourId(character));
    if (stranger !== undefined) {
      problems.push({ where, expected: COLOUR_ID_RULE, got: JSON.stringify(stranger), severity: "fault", line });
    }
    for (const character of row) if (character !== "-") colours.add(character);
  }
  if (colours.size > MOST_COLOURS) {
    problems.push({
      where: "the chart",
      expected: `at most ${MOST_COLOURS} colours`,
      got: String(colours.size),
      severity: "fault",
    });
  }
  return problems.length > 0 ? { value: null, problems } : { value: { rows: lines }, problems };
}

/** A cell is a byte, of which one value says that there is no stitch. */
export const MOST_COLOURS = 255;

export const COLOUR_ID_RULE = 'one printable character that is not a space, ", \\ or -';

/** Whether a character can stand for a chart colour: one UTF-16 unit, so that a row's length is its stitches. */
export function isColourId(character: string): boolean {
  return character.length === 1 && !/[\s\p{C}\p{M}\p{Z}"\\-]/u.test(character);
}

/** The rows as text, a line feed after each. */
export const chartText = (rows: readonly string[]): string => rows.map((row) => `${row}\n`).join("");
