/** Amounts as people write them in a cell: "43 g", "1,5 oz", "105 m/25 g", "2 x 50 g". */
import { GRAMS_PER_POUND, METRES_PER_YARD } from "../yarn/lengths.ts";

/** Which sign parts the whole from its fraction in this table. */
export type DecimalSign = "." | ",";

export interface Quantity {
  value: number;
  /** "g" or "m" after conversion, "balls", or "" where no unit was written. */
  unit: "g" | "m" | "balls" | "";
}

/** One amount, in grams or metres; null where the text is not just that. */
export function readQuantity(text: string, decimal: DecimalSign): Quantity | null {
  const bare = text
    .trim()
    .toLowerCase()
    .replace(/^(?:~|≈|about|approx\.?|ca\.?|c\.|circa)\s*/, "")
    .replace(/\s*(?:left|remaining|over|total)$/, "");
  const times = /^(\d+(?:[.,]\d+)?)\s*(?:x|×|\*|balls? (?:of|à|a)|skeins? (?:of|à|a))\s*(\S.*)$/.exec(bare);
  if (times) {
    const count = readNumber(times[1]!, decimal);
    const each = readQuantity(times[2]!, decimal);
    return count === null || each === null ? null : { ...each, value: count * each.value };
  }
  const match = /^([-+−]?[\d.,'’\u00a0\u202f ]*\d)\s*([a-zµ]*)\.?$/.exec(bare);
  if (!match) return null;
  const value = readNumber(match[1]!, decimal);
  const unit = UNITS.get(match[2]!);
  if (value === null || unit === undefined) return null;
  return { value: value * unit.factor, unit: unit.unit };
}

export interface Thickness {
  metresPer100g: number;
  /** The ball that the thickness was stated by, where it was not 100 g. */
  gramsPerBall: number | null;
}

/** "420 m/100g", "105m per 25 g", "459 yds / 3.5 oz", "50 g = 210 m". */
export function readThickness(text: string, decimal: DecimalSign): Thickness | null {
  const parts = text.split(/\s*(?:\/|\bper\b|\bpro\b|\bin\b|=|\bauf\b)\s*/i);
  if (parts.length !== 2) return null;
  const [one, other] = parts.map((part) => readQuantity(/^\d/.test(part.trim()) ? part : `1 ${part}`, decimal));
  if (!one || !other) return null;
  const metres = [one, other].find(({ unit }) => unit === "m")?.value;
  const grams = [one, other].find(({ unit }) => unit === "g")?.value;
  if (metres === undefined || grams === undefined || !(metres > 0) || !(grams > 0)) return null;
  return { metresPer100g: (100 * metres) / grams, gramsPerBall: grams === 100 ? null : grams };
}

/** A plain number with its thousands and decimal signs; null where it is none. */
export function readNumber(text: string, decimal: DecimalSign): number | null {
  const bare = text.replace(/[\s'’\u00a0\u202f]/g, "").replace(/^−/, "-");
  if (!/^[-+]?\d[\d.,]*$|^[-+]?[.,]\d+$/.test(bare)) return null;
  const last = Math.max(bare.lastIndexOf("."), bare.lastIndexOf(","));
  if (last < 0) return Number(bare);
  const sign = bare[last] as DecimalSign;
  const signs = bare.split(sign).length - 1;
  const mixed = bare.includes(sign === "." ? "," : ".");
  const grouped = /^[-+]?\d{1,3}(?:[.,]\d{3})+$/.test(bare);
  // "1,234" is a thousand where the table writes its decimals with a point; "1.234,5" and "1,234.5" are clear by themselves.
  if (signs > 1 || (grouped && !mixed && sign !== decimal)) {
    return grouped && !mixed ? Number(bare.replace(/[.,]/g, "")) : null;
  }
  const whole = bare.slice(0, last);
  if (mixed && !/^[-+]?\d{1,3}(?:[.,]\d{3})+$/.test(whole)) return null;
  return Number(`${whole.replace(/[.,]/g, "")}.${bare.slice(last + 1)}`);
}

/** How a table writes its decimals: by commas where more cells can only be read so than the other way. */
export function decimalSignOf(cells: Iterable<string>): DecimalSign {
  let commas = 0;
  let points = 0;
  for (const cell of cells) {
    if (/^[^\d,.]*\d+,(?:\d{1,2}|\d{4,})(?:\D|$)/.test(cell) || /\d\.\d{3},\d/.test(cell)) commas++;
    if (/^[^\d,.]*\d+\.(?:\d{1,2}|\d{4,})(?:\D|$)/.test(cell) || /\d,\d{3}\.\d/.test(cell)) points++;
  }
  return commas > points ? "," : ".";
}

const GRAMS_PER_OUNCE = GRAMS_PER_POUND / 16;

const UNITS: ReadonlyMap<string, { unit: Quantity["unit"]; factor: number }> = new Map(
  (
    [
      ["", 1, [""]],
      ["g", 1, ["g", "gr", "gm", "gms", "gram", "grams", "gramme", "grammes", "gramm"]],
      ["g", 1000, ["kg"]],
      ["g", GRAMS_PER_OUNCE, ["oz", "ounce", "ounces"]],
      ["g", GRAMS_PER_POUND, ["lb", "lbs"]],
      ["m", 1, ["m", "mtr", "mtrs", "metre", "metres", "meter", "meters"]],
      ["m", 1000, ["km"]],
      ["m", METRES_PER_YARD, ["y", "yd", "yds", "yard", "yards"]],
      ["balls", 1, ["ball", "balls", "skein", "skeins", "hank", "hanks", "cone", "cones"]],
    ] as const
  ).flatMap(([unit, factor, names]) => names.map((name) => [name as string, { unit, factor }] as const)),
);
