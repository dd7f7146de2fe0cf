/** From the signs that stood in the text to a chart with ids of one character, and the colours that its key gives them. */
import type { Problem } from "../../base/problem.ts";
import { isColourId, MOST_COLOURS } from "../../chart/text.ts";
import { hexFromLab, type Lab } from "../../colour/lab.ts";
import { shadeByKeyWords } from "../colourWords.ts";
import { freeIds, type ReadChart, type ReadColour, type ReadSymbol } from "../readChart.ts";
import { findShade } from "../statedShade.ts";
import type { Key, KeyEntry } from "./keyLines.ts";
import { NO_CELL, type TokenChart, type TokenRow } from "./tokenChart.ts";

/** Null, with a fault told, where the signs are no chart. Ragged rows are filled or cut to the width that most have, and told. */
export function chartOfTokens(written: TokenChart, key: Key, problems: Problem[]): ReadChart | null {
  const { name, rows, firstRow } = written;
  const tell = (problem: Omit<Problem, "where">, where = name === null ? "the chart" : `chart "${name}"`): void => {
    problems.push({ where, ...problem });
  };
  const resolve = resolver(key);
  const cells = rows.map((row) => row.cells.map((cell) => (cell === NO_CELL ? NO_CELL : resolve(cell))));
  const lineOf = new Map<string, number>();
  for (const [index, row] of cells.entries())
    for (const token of row) if (!lineOf.has(token)) lineOf.set(token, rows[index]!.line);
  const tokens = [...lineOf.keys()].filter((token) => token !== NO_CELL && key.get(token)?.empty !== true);
  if (tokens.length === 0) {
    tell({ expected: "stitches", got: 'only "-", which is no stitch', severity: "fault", ...lineOfFirst(rows) });
    return null;
  }
  const ids = idsFor(tokens);
  if (!ids) {
    tell({ expected: `at most ${MOST_COLOURS} colours`, got: `${tokens.length} different signs`, severity: "fault" });
    return null;
  }
  const strangers = tokens.filter((token) => ids.get(token) !== token);
  if (strangers.length > 0) {
    tell({
      expected: "one letter or sign for each colour",
      got: strangers.map((token) => `${quoted(token)}, read as colour ${ids.get(token)!}`).join("; "),
      severity: "note",
      line: lineOf.get(strangers[0]!)!,
    });
  }
  const width = commonWidth(cells);
  const uncertain = [...written.uncertain];
  const chart = cells.map((row, index) => {
    const number = firstRow + rows.length - 1 - index;
    if (row.length !== width) {
      const got = `${row.length}, ${row.length < width ? "filled up with no stitch at its right end" : "cut at its right end"}`;
      tell({ expected: `${width} stitches`, got, severity: "doubt", line: rows[index]!.line }, `row ${number}`);
      for (let column = 1; column <= Math.max(1, width - row.length); column++)
        uncertain.push([rows.length - index, column]);
    }
    const fitted = row.slice(0, width).map((token) => ids.get(token) ?? "-");
    return fitted.join("") + "-".repeat(width - fitted.length);
  });
  const symbols = strangers.map((token): [string, ReadSymbol] => [ids.get(token)!, { text: token }]);
  return {
    ...(name === null ? {} : { name }),
    rows: chart,
    colours: coloursOf(chart, ids, key, problems),
    confidence: uncertain.length > 0 ? 0.5 : 1,
    box: null,
    page: null,
    uncertain,
    ...(symbols.length > 0 ? { symbols: Object.fromEntries(symbols) } : {}),
    ...(firstRow === 1 ? {} : { firstRow }),
  };
}

const lineOfFirst = (rows: readonly TokenRow[]): { line?: number } => {
  const line = rows.find((row) => row.line > 0)?.line;
  return line === undefined ? {} : { line };
};

/** Whether a chart has stitches, or places without one, of what the key names so. */
export function isUsed(id: string, key: Key, charts: readonly TokenChart[]): boolean {
  const resolve = resolver(key);
  return charts.some(({ rows }) =>
    rows.some(({ cells }) => cells.some((cell) => cell !== NO_CELL && resolve(cell) === id)),
  );
}

/** The same colour written another way is the same: "mc", "Main colour", "Colour A", or the name that the key gives it. */
function resolver(key: Key): (token: string) => string {
  const known = new Map<string, string>();
  for (const [id, { name }] of key) {
    if (name !== null && !known.has(folded(name))) known.set(folded(name), id);
  }
  for (const id of key.keys()) if (id.length > 1) known.set(folded(id), id);
  // "M" and "C" are the trade's codes shortened, where the key has only these.
  for (const code of ["MC", "CC"]) if (key.has(code) && !key.has(code[0]!)) known.set(code[0]!, code);
  const met = new Map<string, string>();
  return (token) => {
    const before = met.get(token);
    if (before !== undefined) return before;
    const bare = folded(token);
    let meant = known.get(token) ?? token;
    if (!key.has(token) && Array.from(token).length > 1) {
      meant = known.get(bare) ?? (Array.from(bare).length === 1 ? token.trim().at(-1)! : token);
      if (!known.has(bare)) known.set(bare, meant);
    }
    met.set(token, meant);
    return meant;
  };
}

const folded = (text: string): string =>
  text
    .toLowerCase()
    .replace(/\s+/g, " ")
    .trim()
    .replace(/^main(?: colou?r)?$/, "mc")
    .replace(/^contrast(?:ing)?(?: colou?r)? ?(\d*)$/, "cc$1")
    .replace(/^(?:colou?r|col|yarn|shade) (?=\S)/, "");

/** Any one printable character stays; what else stands for a colour is given one of its own letters, or one that is free. */
function idsFor(tokens: readonly string[]): Map<string, string> | null {
  const ids = new Map<string, string>();
  for (const token of tokens) if (isColourId(token)) ids.set(token, token);
  const free = freeIds(new Set(ids.values()));
  for (const token of tokens.toSorted()) {
    if (ids.has(token)) continue;
    const own = /^\p{L}/u.test(token)
      ? [token[0]!.toUpperCase(), ...token].find((letter) => free.includes(letter))
      : undefined;
    const id = own ?? free[0];
    if (id === undefined || ids.size === MOST_COLOURS) return null;
    free.splice(free.indexOf(id), 1);
    ids.set(token, id);
  }
  return ids;
}

/** The key's colours; where it states none, what the name says, and else a grey: the more stitches, the lighter, as a blank ground is drawn. */
function coloursOf(
  rows: readonly string[],
  ids: ReadonlyMap<string, string>,
  key: Key,
  problems: Problem[],
): Record<string, ReadColour> {
  const stitches = new Map<string, number>();
  for (const id of rows.join("")) if (id !== "-") stitches.set(id, (stitches.get(id) ?? 0) + 1);
  const tokenOf = new Map([...ids].map(([token, id]) => [id, token]));
  const order = [...stitches].sort((one, other) => other[1] - one[1]).map(([id]) => id);
  const known = order.map((id) => ({ id, ...shadeOf(tokenOf.get(id)!, id, key.get(tokenOf.get(id)!)) }));
  const greys = known.filter(({ shade }) => shade === null);
  const guessed = known.filter(({ shade }) => shade?.assumed);
  const tellNone = (missing: typeof known, got: string): void => {
    if (missing.length === 0) return;
    const signs = missing.map(({ id }) => tokenOf.get(id)!);
    problems.push({
      where: `colour ${signs.join(", ")}`,
      expected: `a key line such as "${signs[0]} = #e8e2d2"`,
      got,
      severity: "note",
    });
  };
  tellNone(
    guessed,
    guessed.length === 1 ? "no shade; what its name says stands in" : "no shades; what their names say stands in",
  );
  tellNone(greys, `no colour; ${greys.length === 1 ? "a grey stands" : "greys stand"} in`);
  return Object.fromEntries(
    known.map(({ id, name, shade }) => {
      const named = name === null ? {} : { name };
      if (shade) return [id, { ...shade, ...named }];
      const lab: Lab = [
        standInLightness(
          greys.findIndex((grey) => grey.id === id),
          greys.length,
        ),
        0,
        0,
      ];
      return [id, { hex: hexFromLab(lab), lab, ...named, assumed: true }];
    }),
  );
}

function shadeOf(
  token: string,
  id: string,
  entry: KeyEntry | undefined,
): { name: string | null; shade: ReadColour | null } {
  const name = entry?.name ?? (token === id ? null : token);
  if (entry?.hex && entry.lab) return { name, shade: { hex: entry.hex, lab: entry.lab } };
  // A table may hold the colours themselves, "#e8e2d2" in every cell.
  const own = findShade(token);
  if (own) return { name: entry?.name ?? null, shade: { hex: own.hex, lab: own.lab } };
  const said = name === null ? null : shadeByKeyWords(name);
  if (!said) return { name, shade: null };
  return { name, shade: { hex: hexFromLab(said.lab), lab: said.lab, uncertainty: said.uncertainty, assumed: true } };
}

/** L* of the stand-in for the n-th of so many colours: even steps from paper to print, our choice. */
const standInLightness = (index: number, count: number): number => 92 - (index * 70) / Math.max(1, count - 1);

/** The width that most rows have; of two as common the wider, so that less is cut. */
function commonWidth(rows: readonly (readonly string[])[]): number {
  const counts = new Map<number, number>();
  for (const { length } of rows) counts.set(length, (counts.get(length) ?? 0) + 1);
  return [...counts].sort((one, other) => other[1] - one[1] || other[0] - one[0])[0]![0];
}

const quoted = (text: string): string => JSON.stringify(text.length > 40 ? `${text.slice(0, 40)}…` : text);
