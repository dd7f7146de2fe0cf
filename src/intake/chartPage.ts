/** Charts off a page that is drawn, not photographed: what its shapes and letters say is taken exactly. */
import type { Problem } from "../base/problem.ts";
import { isColourId } from "../chart/text.ts";
import { gridOfLines, cornersOfGrid, type ChartGrid, type Point } from "./chartGrid.ts";
import { hasSign, keyOf, keyWordsOf, kindOfEntry, nearestFirst, saysNoStitch, type KeyEntry } from "./chartPage/key.ts";
import { kindsOf, type Kinds } from "./chartPage/kinds.ts";
import { regionsOfLetters } from "./chartPage/letterGrid.ts";
import { withFlatPictures } from "./chartPage/flatPictures.ts";
import { greyedOut, missingCells } from "./chartPage/missing.ts";
import { numberedSides, numbersBeside, type Numbered } from "./chartPage/numbers.ts";
import { glyphMiddle, paintCells, type CellLook, type PaintedCells } from "./chartPage/paint.ts";
import { boxHeight, boxOfRuns, boxWidth, distanceBetween, piecesOf, type Box } from "./chartPage/pieces.ts";
import { regionsOf, type Region } from "./chartPage/regions.ts";
import { shadesOf } from "./chartPage/shades.ts";
import { signPicture } from "./chartPage/signPicture.ts";
import { filledStamps } from "./chartPage/stamps.ts";
import { titleBars } from "./chartPage/titleBars.ts";
import { titleOf } from "./chartPage/title.ts";
import { uprightPage } from "./chartPage/upright.ts";
import { wordsOf, type Words } from "./chartPage/words.ts";
import type { PageGlyph, PagePrimitives } from "./pagePrimitives.ts";
import { freeIds, type ReadChart, type ReadCharts, type ReadColour, type ReadSymbol } from "./readChart.ts";

/** Every chart on the page from the top left on; null where nothing drawn makes a chart, and the picture is to be read. */
export function readChartPage(page: PagePrimitives): ReadCharts | null {
  const { page: upright, back } = uprightPage(withFlatPictures(page));
  const pieces = piecesOf(upright.shapes);
  const drawn = { pieces, glyphs: upright.glyphs, pictures: upright.pictures };
  const letter = usualSize(upright.glyphs);
  let found = regionsOf(pieces, page)
    .filter((region) => !isSwatch(region, letter))
    .flatMap((region) => chartIn(region, drawn) ?? []);
  if (found.length === 0) found = regionsOfLetters(upright.glyphs).flatMap((region) => chartIn(region, drawn) ?? []);
  // Where something is painted over a chart that is not told, only its picture shows it all.
  const untold = upright.untold?.map((run) => boxOfRuns([run])) ?? [];
  found = found.filter(({ box }) => isOutside(box, untold));
  if (found.length === 0) return null;
  found.sort((one, other) => one.box.top - other.box.top || one.box.left - other.box.left);

  const boxes = found.map(({ box }) => box);
  const words = wordsOf(upright.glyphs.filter((glyph) => !boxes.some((box) => holdsPoint(box, glyphMiddle(glyph)))));
  const key = keyOf({
    ...drawn,
    pieces: pieces.filter((piece) => isOutside(piece.box, boxes)),
    words,
    cell: cellOf(found[0]!),
  });
  const headings = words.filter(({ text }) => !key.some((entry) => entry.words.endsWith(text)));
  const charts = found.map((one) => {
    const others = boxes.filter((box) => box !== one.box);
    const own = words.filter(({ box }) => others.every((other) => distanceBetween(box, one.box) <= distanceBetween(box, other))); // prettier-ignore
    const numbers = numbersBeside(one.region, [...own, ...one.ownNumbers]);
    return chartOf(one, { key, words, title: titleOf(one.box, headings, others), numbers, back });
  });
  return { charts, problems: charts.flatMap(doubtsOf) };
}

interface FoundChart {
  readonly region: Region;
  readonly box: Box;
  readonly painted: PaintedCells;
  readonly kinds: Kinds;
  readonly missing: Uint8Array;
  /** Numbers that stand in cells of the chart's own grid, as words beside it. */
  readonly ownNumbers: readonly Words[];
}

type Drawn = Parameters<typeof paintCells>[1];

/** Null where the cells are no chart's: a table of words, squared paper with nothing on it. */
function chartIn(given: Region, drawn: Drawn): FoundChart | null {
  const pieces = given.stamps ? filledStamps(drawn.pieces, { ...given, stamps: given.stamps }) : drawn.pieces;
  const first = paintCells(given, { ...drawn, pieces });
  const texts = first.cells.map(textOf);
  const [columns0, rows0] = [given.across.length - 1, given.down.length - 1];
  const sides = numberedSides(texts, columns0, rows0);
  const bars = titleBars(given, drawn);
  sides.top = Math.max(sides.top, bars.top);
  sides.bottom = Math.max(sides.bottom, bars.bottom);
  const isCut = sides.left + sides.right + sides.top + sides.bottom > 0;
  const region: Region = {
    across: given.across.slice(sides.left, columns0 + 1 - sides.right),
    down: given.down.slice(sides.top, rows0 + 1 - sides.bottom),
  };
  const [columns, rows] = [region.across.length - 1, region.down.length - 1];
  if (columns < 2 || rows < 2 || columns * rows < LEAST_CELLS) return null;
  const painted = isCut ? paintCells(region, { ...drawn, pieces }) : first;
  const kinds = kindsOf(painted.cells);
  const missing = missingCells(painted, columns, rows);
  const shown = new Set(kinds.of.filter((_, cell) => !missing[cell]));
  if (shown.size < 2 || shown.size > Math.max(FEW_KINDS, MOST_KINDS * columns * rows)) return null;
  if (isTable(painted) || isTorn(kinds)) return null;
  const box = {
    left: region.across[0]!,
    right: region.across.at(-1)!,
    top: region.down[0]!,
    bottom: region.down.at(-1)!,
  };
  const ownNumbers = isCut
    ? wordsOf(
        drawn.glyphs.filter((glyph) => {
          const middle = glyphMiddle(glyph);
          return !holdsPoint(box, middle) && holdsPoint(boxOfRegion(given), middle);
        }),
      )
    : [];
  return { region, box, painted, kinds, missing, ownNumbers };
}

/** A key's swatch has lines of its own; whole, it is as high as a line or two of words, and a chart's cells can be seen. */
function isSwatch({ across, down }: Region, letter: number): boolean {
  const [width, height] = [across.at(-1)! - across[0]!, down.at(-1)! - down[0]!];
  const cell = Math.min(width / (across.length - 1), height / (down.length - 1));
  return Math.min(width, height) < SWATCH * letter && cell < SMALL_CELL * letter;
}

/** The size of a page's plain letters, headings and watermarks left out; 0 where there are none. */
function usualSize(glyphs: readonly PageGlyph[]): number {
  const sizes = glyphs.map(({ size }) => size).sort((one, other) => one - other);
  return sizes[Math.floor(sizes.length / 4)] ?? 0;
}

/** Cells with words in them: more letters than a sign has. */
function isTable({ cells }: PaintedCells): boolean {
  const lettered = cells.flatMap(({ marks }) => {
    const letters = marks.filter(({ kind }) => kind === "letter").length;
    return letters > 0 ? [letters] : [];
  });
  return lettered.reduce((sum, letters) => sum + letters, 0) > LETTERS_OF_SIGN * lettered.length;
}

/** Shapes that end anywhere within cells, as bars of a diagram do: many kinds, each met once or twice. */
function isTorn({ looks, of }: Kinds): boolean {
  const counts = new Uint32Array(looks.length);
  for (const kind of of) counts[kind]!++;
  const torn = looks.filter(({ pattern, marks }, kind) => pattern !== null && marks.length === 0 && counts[kind]! <= 3);
  return torn.length >= LEAST_TORN && torn.length >= TORN * looks.length;
}

interface PageAbout {
  readonly key: readonly KeyEntry[];
  readonly words: readonly Words[];
  readonly title: string | null;
  readonly numbers: Numbered;
  readonly back: (point: Point) => Point;
}

function chartOf(found: FoundChart, { key, words, title, numbers, back }: PageAbout): ReadChart {
  const { region, painted, kinds, missing } = found;
  const [columns, rows] = [region.across.length - 1, region.down.length - 1];
  const said = namesOf(found, key, words);
  const greyed = greyedOut(kinds, said, columns);
  const counts = new Map<number, number>();
  for (const [cell, kind] of kinds.of.entries()) {
    if (missing[cell] || greyed.has(kind) || saysNoStitch(said.get(kind) ?? "")) continue;
    counts.set(kind, (counts.get(kind) ?? 0) + 1);
  }
  const order = [...counts].sort((one, other) => other[1] - one[1] || one[0] - other[0]).map(([kind]) => kind);
  const { ids, names } = idsOf(order, said);
  const idOf = (cell: number): string => (missing[cell] ? NO_STITCH : (ids.get(kinds.of[cell]!) ?? NO_STITCH));
  const shades = shadesOf(
    order.map((kind) => ({ look: kinds.looks[kind]!, name: names.get(kind) ?? null })),
    painted.page,
  );
  const colours = Object.fromEntries(
    order.map((kind, index): [string, ReadColour] => [ids.get(kind)!, shades[index]!]),
  );
  const symbols = Object.fromEntries(
    order.filter((kind) => hasSign(kinds.looks[kind]!)).map((kind) => [ids.get(kind)!, symbolOf(kinds.looks[kind]!)]),
  );
  const grid = placedGrid(region, back);
  return {
    ...(title === null ? {} : { name: title }),
    rows: Array.from({ length: rows }, (_, row) =>
      Array.from({ length: columns }, (_, column) => idOf(row * columns + column)).join(""),
    ),
    colours,
    confidence: 1,
    box: cornersOfGrid(grid).map(([x, y]): [number, number] => [x, y]),
    page: null,
    uncertain: [],
    ...(Object.keys(symbols).length === 0 ? {} : { symbols }),
    grid,
    ...numbers,
  };
}

/** Where the key gives each a letter of its own before its name ("A hoar"), that is its id; else ids in the order given. */
function idsOf(
  kinds: readonly number[],
  said: ReadonlyMap<number, string>,
): { readonly ids: ReadonlyMap<number, string>; readonly names: ReadonlyMap<number, string> } {
  const coded = kinds.map((kind) => /^(\S) (\S.+)$/.exec(said.get(kind) ?? ""));
  const codes = new Set(coded.map((found) => found?.[1] ?? ""));
  if (kinds.length > 1 && codes.size === kinds.length && [...codes].every(isColourId)) {
    return {
      ids: new Map(kinds.map((kind, index) => [kind, coded[index]![1]!])),
      names: new Map(kinds.map((kind, index) => [kind, coded[index]![2]!])),
    };
  }
  const free = freeIds(new Set());
  return { ids: new Map(kinds.map((kind, index) => [kind, free[index]!])), names: said };
}

/** By kind: what the key calls it. Swatches speak first, then words of the form "× = rust". */
function namesOf(
  { kinds, painted, box }: FoundChart,
  key: readonly KeyEntry[],
  words: readonly Words[],
): Map<number, string> {
  const names = new Map<number, string>();
  const name = (kind: number | null | undefined, text: string): void => {
    if (kind !== null && kind !== undefined && kind >= 0 && !names.has(kind)) names.set(kind, text);
  };
  for (const entry of nearestFirst(key, box)) name(kindOfEntry(entry.look, kinds.looks, painted.page), entry.words);
  const signs = kinds.looks.map(textOf);
  for (const { sign, words: text } of nearestFirst(keyWordsOf(words), box)) {
    if (sign !== "") name(signs.indexOf(sign.normalize("NFKC")), text);
    else
      name(
        kinds.looks.findIndex((look) => !hasSign(look) && (look.ground ?? painted.page) === painted.page),
        text,
      );
  }
  for (const { text } of words) {
    const parts = /^(\S{1,2})\s+(\S.{1,40})$/.exec(text);
    if (parts) name(signs.indexOf(parts[1]!), parts[2]!);
  }
  return names;
}

function symbolOf(look: CellLook): ReadSymbol {
  const text = textOf(look);
  return text === "" || /\p{Co}/u.test(text) ? { text: null, picture: signPicture(look) } : { text };
}

/** What is written in a cell where letters are all that stands in it. */
function textOf({ marks }: CellLook): string {
  if (marks.some(({ kind }) => kind !== "letter")) return "";
  return marks
    .map(({ text }) => text)
    .join("")
    .normalize("NFKC");
}

function placedGrid({ across, down }: Region, back: (point: Point) => Point): ChartGrid {
  const grid = gridOfLines(across, down);
  const { corners } = grid;
  for (let at = 0; at < corners.length; at += 2) {
    const [x, y] = back([corners[at]!, corners[at + 1]!]);
    corners[at] = x;
    corners[at + 1] = y;
  }
  return grid;
}

/** What is expected where signs stand without one. */
export const A_KEY = "a key that says which colour each sign is";

function doubtsOf({ name, colours }: ReadChart): Problem[] {
  const greys = Object.entries(colours).filter(([, colour]) => colour.assumed && colour.uncertainty === undefined);
  if (greys.length === 0) return [];
  const ids = greys.map(([id, colour]) => colour.name ?? id).join(", ");
  return [
    {
      where: name === undefined ? "the chart" : `chart "${name}"`,
      expected: A_KEY,
      got: `signs without one; ${greys.length === 1 ? "a grey stands" : "greys stand"} in for ${ids}`,
      severity: "note",
    },
  ];
}

const boxOfRegion = ({ across, down }: Region): Box => ({
  left: across[0]!,
  right: across.at(-1)!,
  top: down[0]!,
  bottom: down.at(-1)!,
});
const holdsPoint = ({ left, right, top, bottom }: Box, [x, y]: Point): boolean =>
  x >= left && x <= right && y >= top && y <= bottom;

const cellOf = ({ region, box }: FoundChart): { width: number; height: number } => ({
  width: boxWidth(box) / (region.across.length - 1),
  height: boxHeight(box) / (region.down.length - 1),
});

const isOutside = (box: Box, charts: readonly Box[]): boolean =>
  !charts.some(
    (chart) => box.left < chart.right && box.right > chart.left && box.top < chart.bottom && box.bottom > chart.top,
  );

const NO_STITCH = "-";
const LEAST_CELLS = 12;
/** Sizes of letters. */
const SWATCH = 2.5;
const SMALL_CELL = 0.3;
/** Kinds of cells that a chart may have in any case, and by its cells: a calendar or a table has nearly as many as cells. */
const FEW_KINDS = 6;
const MOST_KINDS = 0.3;
/** Kinds, and part of all kinds, from which on cells are no cells: our choice. */
const LEAST_TORN = 4;
const TORN = 0.25;
/** Letters of a cell on average; signs have one, codes two. */
const LETTERS_OF_SIGN = 2.2;
