/** What a chart's cells look like once everything is painted over everything: their ground, and what stands on it. */
import type { Point } from "../chartGrid.ts";
import type { PageGlyph, PagePicture } from "../pagePrimitives.ts";
import { nearestLine } from "./lattice.ts";
import { boxHeight, boxOfRuns, boxWidth, type Box, type Piece } from "./pieces.ts";
import type { Region } from "./regions.ts";

/** A part of a sign. */
export interface Mark {
  readonly kind: "area" | "bar" | "stroke" | "letter" | "picture";
  readonly colour: string;
  /** In parts of its cell from the cell's top left. */
  readonly box: Box;
  /** Runs in parts of the cell, to draw the sign by; none for letters and pictures. */
  readonly runs: readonly (readonly Point[])[];
  /** What a letter says and its font, or which picture it is. */
  readonly text: string;
  readonly font: string;
  readonly order: number;
}

export interface CellLook {
  /** "#rrggbb"; null where nothing but the page shows. */
  readonly ground: string | null;
  /** Colours of `SAMPLES` × `SAMPLES` points, where the ground is not all of one; null elsewhere. */
  readonly pattern: readonly (string | null)[] | null;
  readonly marks: readonly Mark[];
}

export interface PaintedCells {
  /** Top row first, from the left. */
  readonly cells: readonly CellLook[];
  /** Whether a line is drawn between a cell and the one above it (rows + 1 rows), and left of it (columns + 1 columns). */
  readonly drawnAbove: Uint8Array;
  readonly drawnLeft: Uint8Array;
  /** What shows where nothing of the chart is painted. */
  readonly page: string;
}

interface Drawn {
  readonly pieces: readonly Piece[];
  readonly glyphs: readonly PageGlyph[];
  readonly pictures: readonly PagePicture[];
}

export function paintCells({ across, down }: Region, { pieces, glyphs, pictures }: Drawn): PaintedCells {
  const [columns, rows] = [across.length - 1, down.length - 1];
  const whole: Box = { left: across[0]!, right: across[columns]!, top: down[0]!, bottom: down[rows]! };
  const pitch = { x: boxWidth(whole) / columns, y: boxHeight(whole) / rows };
  const canvas = new Canvas(across, down);
  const marks: Mark[][] = Array.from({ length: columns * rows }, () => []);
  const drawnAbove = new Uint8Array(columns * (rows + 1));
  const drawnLeft = new Uint8Array((columns + 1) * rows);
  let page = "#ffffff";

  const place = (axis: readonly number[], at: number): number => {
    const near = nearestLine(axis, at);
    return at < axis[near]! ? near - 1 : near;
  };
  const cellAt = (x: number, y: number): number | null => {
    const [column, row] = [place(across, x), place(down, y)];
    return column < 0 || row < 0 || column >= columns || row >= rows ? null : row * columns + column;
  };
  const inCell = (cell: number): ((point: Point) => Point) => {
    const [column, row] = [cell % columns, Math.floor(cell / columns)];
    const [x, y] = [across[column]!, down[row]!];
    const [width, height] = [across[column + 1]! - x, down[row + 1]! - y];
    return ([px, py]) => [(px - x) / width, (py - y) / height];
  };
  const addMark = (cell: number, mark: Omit<Mark, "box" | "runs">, runs: readonly (readonly Point[])[]): void => {
    const into = inCell(cell);
    const own = runs.map((run) => run.map(into));
    marks[cell]!.push({ ...mark, runs: own, box: boxOfRuns(own) });
  };
  const lines = (box: Box): void => {
    const isDown = boxHeight(box) >= boxWidth(box);
    const axis = isDown ? across : down;
    const middle = isDown ? (box.left + box.right) / 2 : (box.top + box.bottom) / 2;
    const line = nearestLine(axis, middle);
    const [along, from, to] = isDown ? [down, box.top, box.bottom] : [across, box.left, box.right];
    for (let at = Math.max(0, place(along, from)); at < along.length - 1; at++) {
      const half = (along[at]! + along[at + 1]!) / 2;
      if (half > to) break;
      if (half < from) continue;
      if (isDown) drawnLeft[at * (columns + 1) + line] = 1;
      else drawnAbove[line * columns + at] = 1;
    }
  };
  const isOnLine = (box: Box, beside: number): boolean => {
    const isDown = boxHeight(box) >= boxWidth(box);
    const [axis, step] = isDown ? [across, pitch.x] : [down, pitch.y];
    const middle = isDown ? (box.left + box.right) / 2 : (box.top + box.bottom) / 2;
    return Math.abs(middle - axis[nearestLine(axis, middle)]!) <= beside * step;
  };

  for (const { kind, box, runs, colour, opacity, evenOdd, isBox, dashed, order } of pieces) {
    if (box.left >= whole.right || box.right <= whole.left || box.top >= whole.bottom || box.bottom <= whole.top)
      continue;
    const [wide, high] = [boxWidth(box) / pitch.x, boxHeight(box) / pitch.y];
    const [long, thin] = [Math.max(wide, high), Math.min(wide, high)];
    const cell = cellAt((box.left + box.right) / 2, (box.top + box.bottom) / 2);
    if (isBox && thin <= THIN) {
      if (long >= WHOLE && isOnLine(box, BESIDE_LINE)) lines(box);
      // A line that crosses cells belongs to none of them; a broken one, or its pieces between two cells, tell of something else.
      else if (cell !== null && long <= ONE_CELL && !dashed && !isOnLine(box, ON_LINE))
        addMark(cell, { kind: "bar", colour, text: "", font: "", order }, runs);
      continue;
    }
    if (kind === "stroke") {
      if (cell !== null && long <= ONE_CELL) addMark(cell, { kind, colour, text: "", font: "", order }, runs);
      continue;
    }
    if (wide < WHOLE && high < WHOLE) {
      if (cell !== null) addMark(cell, { kind: "area", colour, text: "", font: "", order }, runs);
      continue;
    }
    if (covers(box, whole, pitch)) page = opacity >= 0.99 ? colour : page;
    else if (isBox) canvas.box(box, colour, opacity);
    else canvas.path(runs, box, evenOdd, colour, opacity);
  }

  for (const [order, glyph] of glyphs.entries()) {
    const [x, y] = glyphMiddle(glyph);
    const cell = cellAt(x, y);
    if (cell === null || glyph.size > LARGE_LETTER * pitch.y) continue;
    const { text, font, colour } = glyph;
    addMark(cell, { kind: "letter", colour, text, font, order: 1e9 + order }, [[[x, y]]]);
  }
  for (const [order, { corners, id }] of pictures.entries()) {
    const box = boxOfRuns([corners]);
    const cell = cellAt((box.left + box.right) / 2, (box.top + box.bottom) / 2);
    if (cell === null || id === undefined || Math.max(boxWidth(box) / pitch.x, boxHeight(box) / pitch.y) > ONE_CELL)
      continue;
    addMark(cell, { kind: "picture", colour: "#000000", text: id, font: "", order: 2e9 + order }, [corners]);
  }

  const cells = marks.map((own, cell): CellLook => {
    const even = canvas.evenColour(cell);
    return even === undefined ? lookOf(canvas.samples(cell), own) : { ground: even, pattern: null, marks: own };
  });
  return { cells, drawnAbove, drawnLeft, page };
}

/** Where the middle of a letter of usual height is. */
export function glyphMiddle({ x, y, size, width, turned }: PageGlyph): Point {
  const angle = (turned * Math.PI) / 180;
  const [along, up] = [width / 2, size * HALF_LETTER];
  return [x + along * Math.cos(angle) + up * Math.sin(angle), y + along * Math.sin(angle) - up * Math.cos(angle)];
}

/** A shape that goes beyond the chart on some side is the ground it lies on. */
function covers(box: Box, whole: Box, pitch: { readonly x: number; readonly y: number }): boolean {
  const [x, y] = [BESIDE_LINE * 2 * pitch.x, BESIDE_LINE * 2 * pitch.y];
  const all =
    box.left <= whole.left + x &&
    box.right >= whole.right - x &&
    box.top <= whole.top + y &&
    box.bottom >= whole.bottom - y;
  return (
    all &&
    (box.left < whole.left - x ||
      box.right > whole.right + x ||
      box.top < whole.top - y ||
      box.bottom > whole.bottom + y)
  );
}

function lookOf(samples: readonly (string | null)[], marks: readonly Mark[]): CellLook {
  const counts = new Map<string | null, number>();
  for (const colour of samples) counts.set(colour, (counts.get(colour) ?? 0) + 1);
  const [[most, count]] = [...counts].sort((one, other) => other[1] - one[1]) as [[string | null, number]];
  if (count >= EVEN * samples.length || isEdged(samples, most)) return { ground: most, pattern: null, marks };
  const corner = [0, SAMPLES - 1, SAMPLES * (SAMPLES - 1), SAMPLES * SAMPLES - 1].map((at) => samples[at]!);
  const shared = corner.find((colour) => corner.filter((other) => other === colour).length >= 3);
  return { ground: shared === undefined ? most : shared, pattern: samples, marks };
}

/** Whether only points along one or two sides differ: there a gap, or the cell beside it, was reached. */
function isEdged(samples: readonly (string | null)[], colour: string | null): boolean {
  const last = SAMPLES - 1;
  const sides = new Set<string>();
  for (const [at, sample] of samples.entries()) {
    if (sample === colour) continue;
    const [x, y] = [at % SAMPLES, Math.floor(at / SAMPLES)];
    if (x > 0 && y > 0 && x < last && y < last) return false;
    // A corner belongs to the sides of its neighbours, which differ too.
    if (x > 0 && x < last) sides.add(y === 0 ? "top" : "bottom");
    if (y > 0 && y < last) sides.add(x === 0 ? "left" : "right");
  }
  return sides.size <= 2;
}

/** Points of a cell to a side, at which colours are taken. */
export const SAMPLES = 6;

/** The chart's cells as points of colour, painted in order. */
class Canvas {
  private readonly columns: number;
  private readonly xs: Float64Array;
  private readonly ys: Float64Array;
  private readonly at: Int32Array;
  private readonly colours: string[] = [];
  private readonly numbers = new Map<string, number>();

  constructor(across: readonly number[], down: readonly number[]) {
    this.columns = across.length - 1;
    [this.xs, this.ys] = [samplePlaces(across), samplePlaces(down)];
    this.at = new Int32Array(this.xs.length * this.ys.length).fill(-1);
  }

  /** The colour of all of a cell's points; undefined where they differ. */
  evenColour(cell: number): string | null | undefined {
    const start = Math.floor(cell / this.columns) * SAMPLES * this.xs.length + (cell % this.columns) * SAMPLES;
    const first = this.at[start]!;
    for (let y = 0; y < SAMPLES; y++)
      for (let x = 0; x < SAMPLES; x++) if (this.at[start + y * this.xs.length + x] !== first) return undefined;
    return this.colours[first] ?? null;
  }

  samples(cell: number): (string | null)[] {
    const [column, row] = [cell % this.columns, Math.floor(cell / this.columns)];
    return Array.from({ length: SAMPLES * SAMPLES }, (_, sample) => {
      const [x, y] = [column * SAMPLES + (sample % SAMPLES), row * SAMPLES + Math.floor(sample / SAMPLES)];
      return this.colours[this.at[y * this.xs.length + x]!] ?? null;
    });
  }

  box(box: Box, colour: string, opacity: number): void {
    const [x1, x2] = [lowerBound(this.xs, box.left), lowerBound(this.xs, box.right)];
    for (let y = lowerBound(this.ys, box.top); y < this.ys.length && this.ys[y]! < box.bottom; y++)
      this.fill(y, x1, x2, colour, opacity);
  }

  path(runs: readonly (readonly Point[])[], box: Box, evenOdd: boolean, colour: string, opacity: number): void {
    const [first, last] = [lowerBound(this.ys, box.top), lowerBound(this.ys, box.bottom)];
    const crossings: { x: number; way: number }[][] = Array.from({ length: Math.max(0, last - first) }, () => []);
    for (const run of runs)
      for (const [index, from] of run.entries()) {
        const to = run[(index + 1) % run.length]!;
        const [high, low] = from[1] < to[1] ? [from, to] : [to, from];
        const end = Math.min(last, lowerBound(this.ys, low[1]));
        for (let y = Math.max(first, lowerBound(this.ys, high[1])); y < end; y++) {
          const part = (this.ys[y]! - from[1]) / (to[1] - from[1]);
          crossings[y - first]!.push({ x: from[0] + part * (to[0] - from[0]), way: from[1] < to[1] ? 1 : -1 });
        }
      }
    for (const [index, row] of crossings.entries()) {
      row.sort((one, other) => one.x - other.x);
      let winding = 0;
      for (const [at, { x, way }] of row.entries()) {
        winding += evenOdd ? 1 : way;
        const inside = evenOdd ? winding % 2 !== 0 : winding !== 0;
        const next = row[at + 1];
        if (inside && next)
          this.fill(first + index, lowerBound(this.xs, x), lowerBound(this.xs, next.x), colour, opacity);
      }
    }
  }

  private fill(y: number, from: number, to: number, colour: string, opacity: number): void {
    const start = y * this.xs.length;
    if (opacity >= 1) {
      this.at.fill(this.number(colour), start + from, start + Math.max(from, to));
      return;
    }
    for (let at = start + from; at < start + to; at++)
      this.at[at] = this.number(mixed(this.colours[this.at[at]!] ?? "#ffffff", colour, opacity));
  }

  private number(colour: string): number {
    const known = this.numbers.get(colour);
    if (known !== undefined) return known;
    this.numbers.set(colour, this.colours.length);
    return this.colours.push(colour) - 1;
  }
}

function samplePlaces(lines: readonly number[]): Float64Array {
  const places = new Float64Array((lines.length - 1) * SAMPLES);
  for (let cell = 0; cell + 1 < lines.length; cell++)
    for (let sample = 0; sample < SAMPLES; sample++)
      places[cell * SAMPLES + sample] = lines[cell]! + ((sample + 0.5) / SAMPLES) * (lines[cell + 1]! - lines[cell]!);
  return places;
}

function lowerBound(places: Float64Array, wanted: number): number {
  let [low, high] = [0, places.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (places[middle]! < wanted) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** As viewers do: in encoded numbers. */
function mixed(below: string, above: string, opacity: number): string {
  const [b, a] = [below, above].map((hex) => Number.parseInt(hex.slice(1), 16)) as [number, number];
  const channel = (shift: number): number =>
    Math.round(((b >> shift) & 255) * (1 - opacity) + ((a >> shift) & 255) * opacity);
  return `#${((channel(16) << 16) | (channel(8) << 8) | channel(0)).toString(16).padStart(6, "0")}`;
}

/** All below in parts of a cell. What is thinner is a line; what is at least so long is as long as a cell. */
const THIN = 0.3;
const WHOLE = 0.82;
const ONE_CELL = 1.15;
const BESIDE_LINE = 0.17;
const ON_LINE = 0.05;
const LARGE_LETTER = 2;
/** Half the height of a lower-case letter, in ems: common in text faces, no source. */
const HALF_LETTER = 0.3;
/** Part of the points that are of one colour where a ground is plain. */
const EVEN = 0.88;
