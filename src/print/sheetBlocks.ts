/** The parts of a working sheet that stand above one another: head, key, legend and notes, each of known height. */
import type { Colourway } from "../fabric/colourway.ts";
import type { Pattern } from "../fabric/pattern.ts";
import { metresText } from "./cautions.ts";
import { noStitch } from "./chartDrawing.ts";
import { BLACK, WHITE, type Operation, type Point } from "./drawing.ts";
import { drawMark, type KeyEntry } from "./sheetKey.ts";
import { fitText, textWidth, wrapText } from "./textWidth.ts";

export interface Block {
  readonly heightMm: number;
  /** Operations with the block's top left corner at the origin given. */
  readonly draw: (at: Point) => Operation[];
}

const GREY = "#505050";

export interface HeadParts {
  readonly name: string;
  readonly pattern: Pattern;
  readonly colourway: Colourway;
  readonly size: string | null;
  readonly widthMm: number;
  /** Which strand she holds low; undefined: a line to write it on. */
  readonly heldLow: "ground" | "pattern" | undefined;
}

export function headBlock({ name, pattern, colourway, size, widthMm, heldLow }: HeadParts): Block {
  const chosen = pattern.sizes?.find(({ id }) => id === size);
  const chest = chosen?.chestCm === undefined ? "" : ` (chest ${chosen.chestCm} cm)`;
  const gauge = pattern.gauge;
  const facts: [string, string][] = [
    ["Colourway", colourway.name ?? colourway.id],
    ["Gauge", `${gauge.stitches} stitches and ${gauge.rows} rows to 10 cm`],
    ["Worked", workedText(pattern)],
  ];
  if (size !== null) facts.splice(1, 0, ["Size", `${chosen?.name ?? size}${chest}`]);
  if (pattern.name !== undefined) facts.unshift(["Pattern", pattern.name]);
  const half = widthMm / 2;
  const perColumn = Math.ceil(facts.length / 2);
  const factsTop = 12.5;
  const linesTop = factsTop + perColumn * 5 + 3.5;
  const heightMm = linesTop + 7;
  return {
    heightMm,
    draw: ([x, y]) => [
      text([x, y + 6], fitText(name, 7, widthMm, "bold"), 7, { weight: "bold" }),
      ...facts.flatMap(([label, value], index): Operation[] => {
        const at: Point = [x + (index < perColumn ? 0 : half), y + factsTop + (index % perColumn) * 5];
        return [text(at, label, 3, { fill: GREY }), text([at[0] + 20, at[1]], fitText(value, 3.4, half - 24), 3.4)];
      }),
      ...(heldLow === undefined
        ? toFillIn([x, y + linesTop], half - 6, "Strand held low (choose once, keep to it)")
        : [text([x, y + linesTop], heldLowWords(heldLow), 3)]),
      ...toFillIn([x + half, y + linesTop], half, "Needles, and the date of casting on"),
    ],
  };
}

export const heldLowWords = (strand: "ground" | "pattern"): string =>
  `Strand held low: the ${strand} yarn, in every round`;

function workedText(pattern: Pattern): string {
  const flat = pattern.charts.filter(({ worked }) => worked === "flat").length;
  if (flat === 0) return "in the round, every row from right to left";
  if (flat === pattern.charts.length) return "flat; odd rows right side, from the right";
  return "in the round, and flat where a chart says so";
}

function toFillIn([x, y]: Point, width: number, label: string): Operation[] {
  const start = x + textWidth(label, 3) + 1.5;
  return [
    text([x, y], label, 3, { fill: GREY }),
    { kind: "line", from: [start, y + 0.6], to: [x + width, y + 0.6], stroke: BLACK, lineWidth: 0.2 },
  ];
}

/** Where the columns of the key begin, in mm; the name takes what is left over. */
const FROM_RIGHT = { needs: 90, reserve: 44, have: 22, short: 0 } as const;
const NAME_AT = 36;

export function keyHeading(widthMm: number): Block {
  return {
    heightMm: 6,
    draw: ([x, y]) => [
      heading([x, y + 3.6], "As in the chart"),
      heading([x + NAME_AT, y + 3.6], "Yarn and lot, light to dark"),
      heading([x + widthMm - FROM_RIGHT.needs, y + 3.6], "Needs, about"),
      heading([x + widthMm - FROM_RIGHT.reserve, y + 3.6], "+ reserve", "end"),
      heading([x + widthMm - FROM_RIGHT.have, y + 3.6], "Have", "end"),
      heading([x + widthMm - FROM_RIGHT.short, y + 3.6], "Short", "end"),
      { kind: "line", from: [x, y + 5], to: [x + widthMm, y + 5], stroke: BLACK, lineWidth: 0.3 },
    ],
  };
}

export function keyRow(entry: KeyEntry, widthMm: number): Block {
  const { amount } = entry;
  const nameWidth = widthMm - FROM_RIGHT.needs - NAME_AT - 3;
  const second = [entry.maker, entry.lots, entry.letters.length === 0 ? "sewn on top" : ""]
    .filter((part) => part !== "")
    .join(" · ");
  return {
    heightMm: 9.4,
    draw: ([x, y]) => {
      const right = x + widthMm;
      const operations: Operation[] = [
        { kind: "rect", x, y: y + 1, width: 11, height: 7.2, fill: entry.fill, stroke: "#606060", lineWidth: 0.15 },
        ...drawMark(entry, [x + 5.5, y + 4.6], 4),
        { kind: "rect", x: x + 13, y: y + 1, width: 7.2, height: 7.2, fill: WHITE, stroke: "#606060", lineWidth: 0.15 },
        ...drawMark(entry, [x + 16.6, y + 4.6], 4, BLACK),
        text([x + 22, y + 5.9], fitText(entry.letters.join(" "), 4.2, 12.5, "bold"), 4.2, { weight: "bold" }),
        text([x + NAME_AT, y + (second === "" ? 5.7 : 4)], fitText(entry.name, 3.6, nameWidth, "bold"), 3.6, {
          weight: "bold",
        }),
        { kind: "line", from: [x, y + 9.2], to: [right, y + 9.2], stroke: "#b8b8b8", lineWidth: 0.1 },
      ];
      if (second !== "")
        operations.push(text([x + NAME_AT, y + 7.6], fitText(second, 2.7, nameWidth), 2.7, { fill: GREY }));
      if (!amount) return operations;
      const grams = amount.grams === null ? "" : `, ${Math.ceil(amount.grams)} g`;
      const range = `${metresNumber(amount.low)} to ${metresText(amount.high)}${grams}`;
      operations.push(
        text([right - FROM_RIGHT.needs, y + 4], metresText(amount.metres), 3.6, { weight: "bold" }),
        text([right - FROM_RIGHT.needs, y + 7.6], range, 2.7, { fill: GREY }),
        text([right - FROM_RIGHT.reserve, y + 4], metresText(amount.metres + amount.reserve), 3.6, { anchor: "end" }),
        text([right - FROM_RIGHT.have, y + 4], amount.have === null ? "not known" : metresText(amount.have), amount.have === null ? 2.7 : 3.6, { anchor: "end" }), // prettier-ignore
        ...shortText(amount.short, [right - FROM_RIGHT.short, y + 4]),
      );
      return operations;
    },
  };
}

function shortText(short: number | null, at: Point): Operation[] {
  if (short === null) return [text(at, "not known", 2.7, { anchor: "end" })];
  if (short === 0) return [text(at, "enough", 3.2, { anchor: "end" })];
  return [text(at, metresText(short), 3.6, { anchor: "end", weight: "bold" })];
}

const metresNumber = (metres: number): string => metresText(metres).replace(" m", "");

export type LegendMark = "repeat" | "float" | "duplicate" | "no stitch";

interface FloatLimit {
  /** Stitches. */
  readonly limit: number;
  readonly floatCm: number;
}

export function legendBlock(mark: LegendMark, floats: FloatLimit): Block {
  return {
    heightMm: 5.4,
    draw: ([x, y]) => [...legendPicture(mark, [x, y + 0.8]), text([x + 13, y + 3.9], legendText(mark, floats), 3)],
  };
}

function legendText(mark: LegendMark, { limit, floatCm }: FloatLimit): string {
  switch (mark) {
    case "repeat":
      return "The bold frame is the repeat. Begin each row on the side where its number stands.";
    case "float":
      return `A float over more than ${limit} stitches (${floatCm} cm): the number beside the row is its length.`;
    case "duplicate":
      return "Knit the stitch as it is marked; sew a duplicate stitch on it afterwards, in the colour of the corner.";
    case "no stitch":
      return "No stitch: pass over it.";
  }
}

function legendPicture(mark: LegendMark, [x, y]: Point): Operation[] {
  const cell = { width: 4, height: 3.8 };
  const outline: Operation = { kind: "rect", x, y, ...cell, stroke: "#808080", lineWidth: 0.1 };
  switch (mark) {
    case "repeat":
      return [{ kind: "rect", x, y, ...cell, stroke: BLACK, lineWidth: 0.9 }];
    case "float":
      return [
        { kind: "line", from: [x, y + 3.2], to: [x + 5, y + 3.2], stroke: BLACK, lineWidth: 0.25, dash: [0.5, 0.5] },
        text([x + 5.6, y + 3.2], `~${FLOAT_EXAMPLE}`, 2.4, { fill: GREY }),
      ];
    case "duplicate":
      return [outline, { kind: "polygon", points: [[x, y], [x + 1.7, y], [x, y + 1.7]], fill: "#707070", stroke: BLACK, lineWidth: 0.2 }]; // prettier-ignore
    case "no stitch":
      return [...noStitch(x, y, cell), outline];
  }
}

const FLOAT_EXAMPLE = 9;

/** A paragraph behind a mark, which is a short rule. */
export function noteBlock(sentence: string, widthMm: number): Block {
  const lines = wrapText(sentence, 3, widthMm - 4);
  return {
    heightMm: lines.length * 4 + 1.2,
    draw: ([x, y]) => [
      { kind: "line", from: [x, y + 2.2], to: [x + 2, y + 2.2], stroke: BLACK, lineWidth: 0.4 },
      ...lines.map((line, index) => text([x + 4, y + 3.2 + index * 4], line, 3)),
    ],
  };
}

/** One entry of the key beside a chart, in little: mark, letters, name. */
export function smallKeyRow(entry: KeyEntry, widthMm: number): Block {
  const letters = entry.letters.join(" ");
  const lead = 9 + Math.min(9, Math.max(4, textWidth(letters, 3, "bold") + 1.2));
  return {
    heightMm: 5.6,
    draw: ([x, y]) => [
      { kind: "rect", x, y: y + 0.5, width: 7, height: 4.6, fill: entry.fill, stroke: "#606060", lineWidth: 0.15 },
      ...drawMark(entry, [x + 3.5, y + 2.8], 2.8),
      text([x + 9, y + 3.9], fitText(letters, 3, lead - 9.5, "bold"), 3, { weight: "bold" }),
      text([x + lead, y + 3.9], fitText(entry.name, 3, widthMm - lead), 3),
    ],
  };
}

function heading(at: Point, label: string, anchor: "start" | "end" = "start"): Operation {
  return text(at, label, 2.7, { weight: "bold", anchor });
}

type TextLook = Partial<Pick<Extract<Operation, { kind: "text" }>, "weight" | "anchor" | "fill">>;
export function text(at: Point, words: string, size: number, look: TextLook = {}): Operation {
  return { kind: "text", at, text: words, size, ...look };
}
