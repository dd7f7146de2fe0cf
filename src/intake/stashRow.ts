/** One row of a yarn table: its cells read into what a yarn or a lot is made of, each doubt told with its place. */
import type { Severity } from "../base/problem.ts";
import { deltaE2000 } from "../colour/difference.ts";
import { hexFromLab, labFromHex, type Lab } from "../colour/lab.ts";
import { SHADE_SOURCES, type Shade, type ShadeSource } from "../colour/shade.ts";
import { hexFromLinear, parseHex } from "../colour/srgb.ts";
import type { Fleck } from "../yarn/yarn.ts";
import { readFlecks } from "./fleckText.ts";
import { classByLength, flagOf, pliesOf, superwashOf, classesOfWord } from "./labelWords.ts";
import { readNumber, type DecimalSign } from "./quantity.ts";
import { gramsOf, quoted, thicknessOf } from "./rowAmounts.ts";
import { findShade, isLab } from "./statedShade.ts";
import { hexText, type Meaning } from "./tableHeaders.ts";

export interface RowReader {
  decimal: DecimalSign;
  /** The cell's text without space around it; null where it is empty. */
  text: (meaning: Meaning) => string | null;
  unit: (meaning: Meaning) => string;
  notes: readonly string[];
  tell: (where: string, expected: string, got: string, severity: Severity) => void;
}

export interface RowYarn {
  id?: string;
  name?: string;
  shadeName?: string;
  shadeNumber?: string;
  shade?: Shade;
  /** A shade was there but could not be read, and that has been told. */
  toldShade: boolean;
  /** What stood where a colour's code was expected, such as "red". */
  colourWords?: string;
  metresPer100g?: number;
  grams?: number;
  /** Of the yarn as a whole, where its lots have no weights of their own. */
  gramsOfAllLots?: number;
  lot?: string;
  lotId?: string;
  weighed?: boolean;
  maker?: string;
  fibre?: string;
  note?: string;
  plies?: number;
  weightClass?: number;
  superwash?: boolean;
  handDyed?: boolean;
  flecks?: Fleck[];
}

export function yarnOfRow(reader: RowReader): RowYarn {
  const { text } = reader;
  const { shade, told } = shadeOf(reader);
  const thickness = thicknessOf(reader);
  const grams = gramsOf(reader, thickness?.metresPer100g ?? null, thickness?.gramsPerBall ?? null);
  const gramsOfAllLots = numberIn(reader, "grams of all lots", 0);
  const shadeNumber = text("shade number");
  const notes = [...reader.notes, shadeNumber === null ? "" : `Shade ${shadeNumber}.`].filter(Boolean);
  const entry: RowYarn = { toldShade: told, ...labelOf(reader, thickness?.metresPer100g) };
  if (shade) entry.shade = shade;
  const words = told ? text("hex") : null;
  if (words !== null) entry.colourWords = words;
  if (thickness) entry.metresPer100g = thickness.metresPer100g;
  if (grams !== null) entry.grams = grams;
  if (gramsOfAllLots !== null) entry.gramsOfAllLots = gramsOfAllLots;
  if (notes.length > 0) entry.note = notes.join(" ");
  for (const [field, meaning] of WORDS) {
    const cell = text(meaning);
    if (cell !== null) entry[field] = cell;
  }
  const flecks = flecksOf(reader);
  if (flecks) entry.flecks = flecks;
  return entry;
}

const WORDS = [
  ["id", "id"],
  ["name", "name"],
  ["shadeName", "shade name"],
  ["shadeNumber", "shade number"],
  ["lot", "lot"],
  ["lotId", "lot id"],
  ["maker", "maker"],
  ["fibre", "fibre"],
] as const satisfies readonly (readonly [keyof RowYarn, Meaning])[];

/** What a band tells beside colour and amount. */
function labelOf(reader: RowReader, metresPer100g: number | undefined): Partial<RowYarn> {
  const { text, tell } = reader;
  const label: Partial<RowYarn> = {};
  const read = <T>(meaning: Meaning, reading: (cell: string) => T | null, expected: string): T | null => {
    const cell = text(meaning);
    if (cell === null) return null;
    const value = reading(cell);
    if (value === null) tell(`the ${meaning}`, expected, quoted(cell), "doubt");
    return value;
  };
  const plies = read("plies", pliesOf, "a number of strands such as 2");
  const superwash = read("superwash", superwashOf, "superwash, yes or no");
  const handDyed = read("hand-dyed", flagOf, "yes or no");
  const weighed = read("weighed", flagOf, "yes or no");
  if (plies !== null) label.plies = plies;
  if (superwash !== null) label.superwash = superwash;
  if (handDyed !== null) label.handDyed = handDyed;
  if (weighed !== null) label.weighed = weighed;
  const cell = text("weight class");
  if (cell === null) return label;
  const classes = classesOfWord(cell);
  const weightClass = classes.length === 0 ? null : classByLength(classes, metresPer100g);
  if (weightClass !== null) label.weightClass = weightClass;
  else if (classes.length > 0)
    tell("the weight class", "one class", `${quoted(cell)}, which may be ${classes.join(" or ")}; left open`, "doubt");
  else tell("the weight class", "0 to 7, or a word such as fingering", quoted(cell), "doubt");
  return label;
}

function flecksOf({ text, tell }: RowReader): Fleck[] | null {
  const cell = text("flecks");
  if (cell === null) return null;
  const flecks = readFlecks(cell);
  if (!flecks) tell("the flecks", 'shares of shades such as "0.12 × #8a5a2b"', quoted(cell), "doubt");
  return flecks;
}

function numberIn({ text, tell, decimal }: RowReader, meaning: Meaning, least: number): number | null {
  const cell = text(meaning);
  if (cell === null) return null;
  const value = readNumber(cell, decimal);
  if (value !== null && value >= least) return value;
  tell(`the ${meaning}`, `a number of ${least} or more`, quoted(cell), "doubt");
  return null;
}

function shadeOf(reader: RowReader): { shade: Shade | null; told: boolean } {
  const stated = hexOf(reader);
  const lab = labOf(reader);
  const told = stated === "bad" || lab === "bad";
  const shade: Shade = {};
  if (stated !== null && stated !== "bad") Object.assign(shade, stated);
  if (lab !== null && lab !== "bad") shade.lab = lab;
  if (shade.hex === undefined && shade.lab === undefined) return { shade: null, told };
  if (shade.hex !== undefined && shade.lab !== undefined) {
    const apart = deltaE2000(labFromHex(shade.hex)!, shade.lab as Lab);
    if (apart > APART) {
      reader.tell("the shade", `hex and Lab alike (the Lab is ${hexFromLab(shade.lab as Lab)})`, shade.hex, "doubt");
    }
  }
  const uncertainty = reader.text("uncertainty");
  const range = uncertainty === null ? null : readNumber(uncertainty, reader.decimal);
  if (range !== null && range >= 0 && range <= 100) shade.uncertainty = range;
  else if (uncertainty !== null) reader.tell("the uncertainty", "a number of 0 to 100", uncertainty, "doubt");
  const from = reader.text("shade from");
  if (from !== null && isSource(from)) shade.from = from;
  else if (from !== null) reader.tell("where the shade is from", SHADE_SOURCES.join(", "), quoted(from), "doubt");
  return { shade, told };
}

const isSource = (word: string): word is ShadeSource => SHADE_SOURCES.some((source) => source === word);

/** A hex code, or Lab where the cell under such a heading says it as lab(…). */
function hexOf({ text, tell }: RowReader): Shade | "bad" | null {
  const cell = text("hex");
  if (cell === null) return null;
  const linear = parseHex(hexText(cell));
  if (linear) return { hex: hexFromLinear(linear) };
  const bytes = /^\(?\s*(\d{1,3})[\s,;/]+(\d{1,3})[\s,;/]+(\d{1,3})\s*\)?$/.exec(cell);
  const found = findShade(bytes ? `rgb(${bytes[1]}, ${bytes[2]}, ${bytes[3]})` : cell);
  if (found) return /\b(?:lab|lch)\s*\(/i.test(cell) ? { lab: found.lab } : { hex: found.hex };
  tell("the hex code", 'a colour such as "#e8e2d2"', quoted(cell), "fault");
  return "bad";
}

function labOf({ text, tell, decimal }: RowReader): number[] | "bad" | null {
  const together = text("lab");
  const apart = [text("L"), text("a"), text("b")];
  const written =
    together ?? (apart.some((cell) => cell !== null) ? apart.map((cell) => cell ?? "nothing").join("; ") : null);
  if (written === null) return null;
  const called = /^\s*(?:lab|lch)\s*\(/i.test(written) ? findShade(written) : null;
  if (called) return [...called.lab];
  let parts =
    together === null ? apart.map((cell) => cell ?? "") : (numbersOf(together, /[-+−]?\d+(?:[.,]\d+)?/g) ?? []);
  // "54,12,20" are three numbers with commas between, "54,5 12 20,1" three with decimal commas.
  if (together !== null && parts.length !== 3) parts = numbersOf(together, /[-+−]?\d+(?:\.\d+)?/g) ?? [];
  const numbers = parts.map((part) => readNumber(part.replace(/^[lab]\s*\*?\s*=?\s*/i, ""), decimal));
  if (numbers.length === 3 && numbers.every((number) => number !== null) && isLab(numbers as unknown as Lab)) {
    return numbers as number[];
  }
  tell("the Lab", "L* of 0 to 100, a* and b* within 160 either way", written.slice(0, 60), "fault");
  return "bad";
}

const numbersOf = (text: string, pattern: RegExp): string[] | null => text.match(pattern);

/** CIEDE2000: twice the doubt about a stated shade. Our choice. */
const APART = 10;
