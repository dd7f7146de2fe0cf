/** One row of a yarn table: its cells read into what a yarn or a lot is made of, each doubt told with its place. */
import type { Severity } from "../base/problem.ts";
import { deltaE2000 } from "../colour/difference.ts";
import { hexFromLab, labFromHex, type Lab } from "../colour/lab.ts";
import { hexFromLinear, parseHex } from "../colour/srgb.ts";
import type { Shade } from "../colour/shade.ts";
import { readNumber, readQuantity, readThickness, type DecimalSign } from "./quantity.ts";
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
  metresPer100g?: number;
  grams?: number;
  lot?: string;
  maker?: string;
  fibre?: string;
  note?: string;
}

export function yarnOfRow(reader: RowReader): RowYarn {
  const { text } = reader;
  const { shade, told } = shadeOf(reader);
  const thickness = thicknessOf(reader);
  const grams = gramsOf(reader, thickness?.metresPer100g ?? null, thickness?.gramsPerBall ?? null);
  const shadeNumber = text("shade number");
  const notes = [...reader.notes, shadeNumber === null ? "" : `Shade ${shadeNumber}.`].filter(Boolean);
  const entry: RowYarn = { toldShade: told };
  if (shade) entry.shade = shade;
  if (thickness) entry.metresPer100g = thickness.metresPer100g;
  if (grams !== null) entry.grams = grams;
  if (notes.length > 0) entry.note = notes.join(" ");
  const words = {
    id: "id",
    name: "name",
    shadeName: "shade name",
    lot: "lot",
    maker: "maker",
    fibre: "fibre",
  } as const;
  for (const [field, meaning] of Object.entries(words) as [keyof typeof words, Meaning][]) {
    const cell = text(meaning);
    if (cell !== null) entry[field] = cell;
  }
  if (shadeNumber !== null) entry.shadeNumber = shadeNumber;
  return entry;
}

function shadeOf(reader: RowReader): { shade: Shade | null; told: boolean } {
  const hex = hexOf(reader);
  const lab = labOf(reader);
  const told = hex === "bad" || lab === "bad";
  const shade: Shade = {};
  if (hex !== null && hex !== "bad") shade.hex = hex;
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
  return { shade, told };
}

function hexOf({ text, tell }: RowReader): string | "bad" | null {
  const cell = text("hex");
  if (cell === null) return null;
  const linear = parseHex(hexText(cell));
  if (linear) return hexFromLinear(linear);
  const bytes = /^\(?\s*(\d{1,3})[\s,;/]+(\d{1,3})[\s,;/]+(\d{1,3})\s*\)?$/.exec(cell);
  const found = findShade(bytes ? `rgb(${bytes[1]}, ${bytes[2]}, ${bytes[3]})` : cell);
  if (found) return found.hex;
  tell("the hex code", 'a colour such as "#e8e2d2"', JSON.stringify(cell.slice(0, 40)), "fault");
  return "bad";
}

function labOf({ text, tell, decimal }: RowReader): number[] | "bad" | null {
  const together = text("lab");
  const apart = [text("L"), text("a"), text("b")];
  const written =
    together ?? (apart.some((cell) => cell !== null) ? apart.map((cell) => cell ?? "nothing").join("; ") : null);
  if (written === null) return null;
  let parts =
    together === null ? apart.map((cell) => cell ?? "") : (numbersOf(together, /[-+−]?\d+(?:[.,]\d+)?/g) ?? []);
  // "54,12,20" are three numbers with commas between, "54,5 12 20,1" three with decimal commas.
  if (together !== null && parts.length !== 3) parts = numbersOf(together, /[-+−]?\d+(?:\.\d+)?/g) ?? [];
  const numbers = parts.map((part) => readNumber(part.replace(/^[lab]\s*\*?\s*=?\s*/i, ""), decimal));
  if (numbers.length === 3 && numbers.every((number) => number !== null) && isLab(numbers as unknown as Lab)) {
    return numbers as number[];
  }
  tell("the Lab", "L* of 0 to 100, a* and b* within 150 either way", written.slice(0, 60), "fault");
  return "bad";
}

const numbersOf = (text: string, pattern: RegExp): string[] | null => text.match(pattern);

function thicknessOf(reader: RowReader): { metresPer100g: number; gramsPerBall: number | null } | null {
  const { text, unit, tell, decimal } = reader;
  for (const meaning of ["metres per 100 g", "metres per ball", "metres", "grams per ball"] as const) {
    const cell = text(meaning);
    const whole = cell === null ? null : readThickness(cell, decimal);
    if (whole) return plausible(whole, cell!, tell);
  }
  const per = text("metres per 100 g");
  if (per !== null) {
    const quantity = readQuantity(per, decimal);
    // "105" under "m / 25 g", or "420" under "m per 100 g".
    const [lengthUnit, base] = unit("metres per 100 g").split(/\s*(?:\/|per)\s*/);
    const asked =
      quantity && quantity.unit === "" ? readQuantity(`${quantity.value} ${lengthUnit || "m"}`, ".") : quantity;
    const grams = base ? readQuantity(/^\d/.test(base) ? base : `1 ${base}`, ".") : { value: 100, unit: "g" };
    if (asked && (asked.unit === "m" || asked.unit === "") && asked.value > 0 && grams?.unit === "g") {
      const gramsPerBall = grams.value === 100 || grams.value === 1 ? null : grams.value;
      return plausible({ metresPer100g: (100 * asked.value) / grams.value, gramsPerBall }, per, tell);
    }
    tell("the length by weight", 'a length such as "420 m/100 g"', JSON.stringify(per.slice(0, 40)), "doubt");
    return null;
  }
  const metres = amount(reader, "metres per ball", "m");
  const grams = amount(reader, "grams per ball", "g");
  if (metres !== null && grams !== null) {
    return plausible({ metresPer100g: (100 * metres) / grams, gramsPerBall: grams }, `${metres} m in ${grams} g`, tell);
  }
  if (metres !== null)
    tell("the metres per ball", "the grams per ball beside it", "none; thickness not known", "doubt");
  return null;
}

function gramsOf(reader: RowReader, metresPer100g: number | null, gramsPerBall: number | null): number | null {
  const { text, tell, decimal } = reader;
  const stated = text("grams");
  if (stated !== null) {
    const quantity = readQuantity(stated, decimal);
    const written = quantity?.unit === "" ? withUnit(quantity.value, reader.unit("grams"), "g") : quantity;
    if (written && written.value < 0) {
      tell("the grams", "0 or more", stated, "fault");
      return null;
    }
    if (written?.unit === "g") return written.value;
    if (written?.unit === "m" && metresPer100g !== null) return (100 * written.value) / metresPer100g;
    const ball = written?.unit === "balls" ? ballGrams(reader, gramsPerBall) : null;
    if (written && ball !== null) return written.value * ball;
    tell("the grams", 'a weight such as "43 g"', JSON.stringify(stated.slice(0, 40)), "fault");
    return null;
  }
  const balls = amount(reader, "balls", "balls");
  const ball = ballGrams(reader, gramsPerBall);
  if (balls !== null && ball !== null) return balls * ball;
  if (balls !== null) tell("the balls", "the grams per ball beside them", "none; weight not known", "doubt");
  const metres = readThickness(text("metres") ?? "", decimal) ? null : amount(reader, "metres", "m");
  if (metres !== null && metresPer100g !== null) return (100 * metres) / metresPer100g;
  if (metres !== null) tell("the metres owned", "the metres per 100 g beside them", "none; weight not known", "doubt");
  return null;
}

const ballGrams = (reader: RowReader, gramsPerBall: number | null): number | null =>
  gramsPerBall ?? (reader.text("grams per ball") === null ? null : amount(reader, "grams per ball", "g"));

/** A cell's amount in the unit wanted, above zero; told and null where it is something else. */
function amount(reader: RowReader, meaning: Meaning, unit: "g" | "m" | "balls"): number | null {
  const cell = reader.text(meaning);
  if (cell === null) return null;
  const quantity = readQuantity(cell, reader.decimal);
  const written = quantity?.unit === "" ? withUnit(quantity.value, reader.unit(meaning), unit) : quantity;
  if (written?.unit === unit && written.value > 0) return written.value;
  reader.tell(`the ${meaning}`, "an amount above 0", JSON.stringify(cell.slice(0, 40)), "doubt");
  return null;
}

/** A bare number in the unit of its heading, or in the one that is usual there. */
function withUnit(value: number, heading: string, usual: "g" | "m" | "balls"): { value: number; unit: string } {
  const quantity = heading === "" ? null : readQuantity(`${value} ${heading}`, ".");
  return quantity && quantity.unit !== "" ? quantity : { value, unit: usual };
}

function plausible<T extends { metresPer100g: number }>(thickness: T, cell: string, tell: RowReader["tell"]): T {
  const { metresPer100g } = thickness;
  if (metresPer100g < THICKEST || metresPer100g > THINNEST) {
    tell(
      "the length by weight",
      `${THICKEST} to ${THINNEST} m per 100 g`,
      `${Math.round(metresPer100g)} (${cell})`,
      "doubt",
    );
  }
  return thickness;
}

/** CIEDE2000: twice the doubt about a stated shade. Our choice. */
const APART = 10;
/** Metres per 100 g: super bulky lies below 100, cobweb lace above 800 (trade tables); with room on either side. */
const THICKEST = 15;
const THINNEST = 3000;
