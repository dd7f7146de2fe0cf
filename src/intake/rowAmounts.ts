/** How thick the yarn of a row is and how much of it there is, from whichever of its cells tell. */
import { readQuantity, readThickness, type Quantity, type Thickness } from "./quantity.ts";
import type { RowReader } from "./stashRow.ts";
import type { Meaning } from "./tableHeaders.ts";

/** Metres per 100 g, by whichever cells state a length and a weight; null where none do. */
export function thicknessOf(reader: RowReader): Thickness | null {
  const { text, unit, tell, decimal } = reader;
  for (const meaning of ["metres per 100 g", "metres per ball", "metres", "grams per ball"] as const) {
    const cell = text(meaning);
    const whole = cell === null ? null : readThickness(cell, decimal);
    if (whole) return plausible(whole, cell!, tell);
  }
  const per = text("metres per 100 g");
  if (per !== null) {
    const quantity = readQuantity(per, decimal);
    const heading = unit("metres per 100 g");
    const counted =
      quantity?.unit === "" && /^(?:nm|tex)$/.test(heading) ? readThickness(`${per} ${heading}`, decimal) : null;
    if (counted) return plausible(counted, per, tell);
    // "105" under "m / 25 g", or "420" under "m per 100 g".
    const [lengthUnit, base] = heading.split(/\s*(?:\/|per)\s*/);
    const asked =
      quantity && quantity.unit === "" ? readQuantity(`${quantity.value} ${lengthUnit || "m"}`, ".") : quantity;
    const grams = base ? readQuantity(/^\d/.test(base) ? base : `1 ${base}`, ".") : { value: 100, unit: "g" };
    if (asked && (asked.unit === "m" || asked.unit === "") && asked.value > 0 && grams?.unit === "g") {
      const gramsPerBall = grams.value === 100 || grams.value === 1 ? null : grams.value;
      const metresPer100g = grams.value === 100 ? asked.value : (100 * asked.value) / grams.value;
      return plausible({ metresPer100g, gramsPerBall }, per, tell);
    }
    tell("the length by weight", 'a length such as "420 m/100 g"', quoted(per), "doubt");
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

/** Grams owned, from a weight, balls or metres; null where nothing tells or what tells cannot be used. */
export function gramsOf(reader: RowReader, metresPer100g: number | null, gramsPerBall: number | null): number | null {
  const { text, tell, decimal, unit } = reader;
  for (const [meaning, usual] of OWNED) {
    const cell = text(meaning);
    if (cell === null || (meaning !== "grams" && readThickness(cell, decimal))) continue;
    const quantity = readQuantity(cell, decimal);
    const written = quantity?.unit === "" ? withUnit(quantity.value, unit(meaning), usual) : quantity;
    if (!written) {
      tell(`the ${meaning}`, `${EXPECTED[usual]}`, quoted(cell), "fault");
      return null;
    }
    if (written.value < 0) {
      tell(`the ${meaning}`, "0 or more", cell.slice(0, 40), "fault");
      return null;
    }
    const grams = inGrams(reader, written, metresPer100g, gramsPerBall);
    if (grams === null) {
      const [wanted, lacking] = written.unit === "m" ? ["metres per 100 g", "it"] : ["grams per ball", "them"];
      tell(`the ${meaning}`, `the ${wanted} beside ${lacking}`, `none; ${quoted(cell)} is no weight without`, "doubt");
      continue;
    }
    if (grams > MOST_GRAMS)
      tell(`the ${meaning}`, `at most ${MOST_GRAMS / 1000} kg of one yarn`, cell.slice(0, 40), "doubt");
    return grams > LARGEST ? null : grams;
  }
  return null;
}

const OWNED = [
  ["grams", "g"],
  ["balls", "balls"],
  ["metres", "m"],
] as const satisfies readonly (readonly [Meaning, Quantity["unit"]])[];

const EXPECTED = {
  g: 'a weight such as "43 g"',
  balls: 'a number such as "2"',
  m: 'a length such as "105 m"',
} as const;

function inGrams(
  reader: RowReader,
  { value, unit }: Quantity,
  metresPer100g: number | null,
  gramsPerBall: number | null,
): number | null {
  if (unit === "g") return value;
  if (unit === "m") return metresPer100g === null ? null : (100 * value) / metresPer100g;
  const ball = gramsPerBall ?? (reader.text("grams per ball") === null ? null : amount(reader, "grams per ball", "g"));
  return ball === null ? null : value * ball;
}

/** A cell's amount in the unit wanted, above zero; told and null where it is something else. */
function amount(reader: RowReader, meaning: Meaning, unit: "g" | "m"): number | null {
  const cell = reader.text(meaning);
  if (cell === null) return null;
  const quantity = readQuantity(cell, reader.decimal);
  const written = quantity?.unit === "" ? withUnit(quantity.value, reader.unit(meaning), unit) : quantity;
  if (written?.unit === unit && written.value > 0) return written.value;
  reader.tell(`the ${meaning}`, "an amount above 0", quoted(cell), "doubt");
  return null;
}

/** A bare number in the unit of its heading, or in the one that is usual there. */
function withUnit(value: number, heading: string, usual: Quantity["unit"]): Quantity {
  const quantity = heading === "" ? null : readQuantity(`1 ${heading}`, ".");
  return quantity && quantity.unit !== ""
    ? { value: value * quantity.value, unit: quantity.unit }
    : { value, unit: usual };
}

/** Doubted where no yarn is so thick or so thin; beyond what a record holds it is left out. */
function plausible(thickness: Thickness, cell: string, tell: RowReader["tell"]): Thickness | null {
  const { metresPer100g } = thickness;
  if (metresPer100g < THICKEST || metresPer100g > THINNEST) {
    tell(
      "the length by weight",
      `${THICKEST} to ${THINNEST} m per 100 g`,
      `${Math.round(metresPer100g)} (${cell.slice(0, 40)})`,
      "doubt",
    );
  }
  return metresPer100g > LARGEST ? null : thickness;
}

/** A cell as a problem shows it. */
export const quoted = (cell: string): string => JSON.stringify(cell.slice(0, 40));

/** Metres per 100 g: super bulky lies below 100, cobweb lace above 800 (trade tables); with room on either side. */
const THICKEST = 15;
const THINNEST = 3000;
/** Grams of one yarn on a shelf: more than four grown-up's jackets (our choice), to catch a slip of the finger. */
const MOST_GRAMS = 20_000;
/** What a stored number may be at most. */
const LARGEST = 1_000_000;
