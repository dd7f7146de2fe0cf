/** Amounts as people write them in a cell: "43 g", "1,5 oz", "ca. 30 g", "105 m/25 g", "2½ × 50 g". */
import {
  GRAMS_PER_POUND,
  METRES_PER_YARD,
  metresPer100gFromMetricCount,
  metresPer100gFromTex,
} from "../yarn/lengths.ts";
import { plainLetters } from "./plainLetters.ts";

/** Which sign parts the whole from its fraction in this table. */
export type DecimalSign = "." | ",";

export interface Quantity {
  value: number;
  /** "g" or "m" after conversion, "balls", or "" where no unit was written. */
  unit: "g" | "m" | "balls" | "";
}

/** One amount, in grams or metres; null where the text is not just that. */
export function readQuantity(text: string, decimal: DecimalSign): Quantity | null {
  if (text.length > LONGEST) return null;
  const bare = withoutFractions(plainLetters(text.trim()))
    .replace(ABOUT, "")
    .replace(LEFT, "")
    .replace(/^([^()]*\d[^()]*)\([^()]*\)$/, "$1")
    .trim();
  const parts = bare.split(/\s*\+\s*/);
  if (parts.length > 1 && parts[0] !== "") return sumOf(parts, decimal);
  const times = TIMES.exec(bare);
  if (times) {
    const count = readNumber(times[1]!, decimal);
    const each = readQuantity(times[2]!, decimal);
    return count === null || each === null ? null : { ...each, value: count * each.value };
  }
  const match = /^([-+−]?[\d.,'’\u00a0\u202f ]*\d(?:e[-+]?\d{1,3})?)\s*([a-zµ]*)\.?$/.exec(bare);
  if (!match) return null;
  const value = readNumber(match[1]!, decimal);
  const unit = UNITS.get(match[2]!);
  if (value === null || unit === undefined) return null;
  return { value: value * unit.factor, unit: unit.unit };
}

/** "50 g + 12 g" and "50 + 12 g". */
function sumOf(parts: readonly string[], decimal: DecimalSign): Quantity | null {
  const read = parts.map((part) => readQuantity(part, decimal));
  const last = read.at(-1);
  if (!last || read.some((part) => !part || (part.unit !== last.unit && part.unit !== ""))) return null;
  const factor = UNITS.get(/([a-z]*)\.?$/.exec(parts.at(-1)!)![1]!)?.factor ?? 1;
  const values = read.map((part) => (part!.unit === last.unit ? part!.value : part!.value * factor));
  return { value: values.reduce((sum, value) => sum + value, 0), unit: last.unit };
}

export interface Thickness {
  metresPer100g: number;
  /** The ball that the thickness was stated by, where it was not 100 g. */
  gramsPerBall: number | null;
}

/** "420 m/100g", "105m per 25 g", "459 yds / 3.5 oz", "50 g = 210 m", "210 m (50 g)"; the counts "2/8.4 Nm" and "238 tex". */
export function readThickness(text: string, decimal: DecimalSign): Thickness | null {
  if (text.length > LONGEST) return null;
  const bare = plainLetters(text.trim())
    .replace(/^(?:ll|lauflange|lopelengde|lobelaengde|approx\.?)\s*[:=]?\s*/, "")
    .replace(ABOUT, "");
  const counted = readCount(bare, decimal);
  if (counted !== null) return { metresPer100g: counted, gramsPerBall: null };
  const parts = bare
    .split(/\s*(?:[/=~≈(;]|\b(?:per|pro|par|por|pr|je|in|auf)\b\.?|,\s)\s*/)
    .filter((part) => part !== "");
  if (parts.length < 2) return null;
  const read = parts.map((part) => readQuantity(/^\d/.test(part) ? part.replace(/\)$/, "") : `1 ${part}`, decimal));
  const metres = read.find((part) => part?.unit === "m")?.value;
  const grams = read.find((part) => part?.unit === "g")?.value;
  if (metres === undefined || grams === undefined || !(metres > 0) || !(grams > 0)) return null;
  return { metresPer100g: (100 * metres) / grams, gramsPerBall: grams === 100 || grams === 1 ? null : grams };
}

function readCount(text: string, decimal: DecimalSign): number | null {
  const tex = /^(?:tex\s*)?([\d.,]+)\s*(?:tex)?$/.exec(text);
  if (tex && text.includes("tex")) {
    const value = readNumber(tex[1]!, decimal);
    return value !== null && value > 0 ? metresPer100gFromTex(value) : null;
  }
  const metric = /^(?:nm\s*)?(?:(\d{1,2})\s*\/\s*)?(\d+(?:[.,]\d+)?)\s*(?:nm)?$/.exec(text);
  if (!metric || !text.includes("nm")) return null;
  const count = readNumber(metric[2]!, decimal);
  const plies = Number(metric[1] ?? 1);
  return count !== null && count > 0 && plies > 0 ? metresPer100gFromMetricCount(count, plies) : null;
}

/** A plain number with its thousands and decimal signs, or with an exponent; null where it is none. */
export function readNumber(text: string, decimal: DecimalSign): number | null {
  const bare = text.replace(/[\s'’\u00a0\u202f]/g, "").replace(/^−/, "-");
  if (/^[-+]?\d+(?:[.,]\d+)?e[-+]?\d{1,3}$/i.test(bare)) return finite(Number(bare.replace(",", ".")));
  if (!/^[-+]?\d[\d.,]*$|^[-+]?[.,]\d+$/.test(bare)) return null;
  const last = Math.max(bare.lastIndexOf("."), bare.lastIndexOf(","));
  if (last < 0) return finite(Number(bare));
  const sign = bare[last] as DecimalSign;
  const signs = bare.split(sign).length - 1;
  const mixed = bare.includes(sign === "." ? "," : ".");
  const grouped = /^[-+]?[1-9]\d{0,2}(?:[.,]\d{3})+$/.test(bare);
  // "1,234" is a thousand where the table writes its decimals with a point; "1.234,5" and "1,234.5" are clear by themselves.
  if (signs > 1 || (grouped && !mixed && sign !== decimal)) {
    return grouped && !mixed ? Number(bare.replace(/[.,]/g, "")) : null;
  }
  const whole = bare.slice(0, last);
  if (mixed && !/^[-+]?\d{1,3}(?:[.,]\d{3})+$/.test(whole)) return null;
  return Number(`${whole.replace(/[.,]/g, "")}.${bare.slice(last + 1)}`);
}

const finite = (value: number): number | null => (Number.isFinite(value) ? value : null);

/** How a table writes its decimals: by commas where more cells can only be read so than the other way. */
export function decimalSignOf(cells: Iterable<string>): DecimalSign {
  let commas = 0;
  let points = 0;
  for (const cell of cells) {
    if (cell.length > LONGEST) continue;
    if (/^[^\d,.]*\d+,(?:\d{1,2}|\d{4,})(?:\D|$)/.test(cell) || /\d\.\d{3},\d|^\D*0,\d/.test(cell)) commas++;
    if (/^[^\d,.]*\d+\.(?:\d{1,2}|\d{4,})(?:\D|$)/.test(cell) || /\d,\d{3}\.\d|^\D*0\.\d/.test(cell)) points++;
  }
  return commas > points ? "," : ".";
}

/** "2½" and "2 1/2" as decimals with four digits and more, which no sign of thousands can be mistaken for. */
function withoutFractions(text: string): string {
  const signs = text.replace(/(\d*)\s*([¼½¾⅓⅔⅛⅜⅝⅞])/g, (_, whole: string, sign: string) =>
    (Number(whole) + FRACTIONS.get(sign)!).toFixed(6),
  );
  return signs.replace(/^(?:(\d+)\s+)?(\d{1,2})\s*[/⁄]\s*(\d{1,2})(?=\s|$|[a-z])/, (all, whole, top, under) =>
    Number(under) > Number(top) ? (Number(whole ?? 0) + Number(top) / Number(under)).toFixed(6) : all,
  );
}

const FRACTIONS: ReadonlyMap<string, number> = new Map([
  ["¼", 1 / 4],
  ["½", 1 / 2],
  ["¾", 3 / 4],
  ["⅓", 1 / 3],
  ["⅔", 2 / 3],
  ["⅛", 1 / 8],
  ["⅜", 3 / 8],
  ["⅝", 5 / 8],
  ["⅞", 7 / 8],
]);

/** Characters; a longer cell is prose. Our choice. */
const LONGEST = 80;

const BALLS =
  "balls?|skeins?|hanks?|cones?|cakes?|knauel|strange?|pelotes?|echeveaux?|noster?|nogler?|nystan|bol(?:len)?|streng(?:en)?|ovillos?|madejas?|gomitol[oi]|matass[ae]|keraa?|vyyhtia?|hnyk(?:ill|lar)|hesp(?:a|er|ur)|hespe|dokk[ae]r?|harv(?:a|or)|fed|konen?|bobin[ae]s?|stk|stuck|pcs|pieces?|kpl";

/** Words for "about" and "left" in the languages of the headings. Common practice, no source. */
const ABOUT =
  /^(?:~|≈|±|about|approx(?:imately)?\b\.?|aprox\.?|ca\b\.?|c\.|circa|cirka|etwa|rund|ungefahr|environ|env\.|omkring|ungefar|noin|unos|ongeveer|around|omtrent|um)\s*/;
const LEFT =
  /\s*\b(?:left(?: over)?|remaining|over|total|ubrig|rest|restant|igjen|kvar|tilbage|jaljella|eftir|quedan|rimasti)$/;
const TIMES = new RegExp(
  String.raw`^(\d+(?:[.,]\d+)?)\s*(?:x|×|\*|(?:${BALLS})\.?\s*(?:of|a|@|von|zu|de|di|av|af|van|x)?)\s*(\d.*)$`,
);

const GRAMS_PER_OUNCE = GRAMS_PER_POUND / 16;

const UNITS: ReadonlyMap<string, { unit: Quantity["unit"]; factor: number }> = new Map(
  (
    [
      ["", 1, ""],
      [
        "g",
        1,
        "g gr gm gms grs gram grams gramme grammes gramm grammi grammaa gramos gramo grammer gramas grammar gromm",
      ],
      ["g", 1000, "kg kilo kilos"],
      ["g", GRAMS_PER_OUNCE, "oz ozs ounce ounces unze unzen once onces onza onzas oncia once"],
      ["g", GRAMS_PER_POUND, "lb lbs pound pounds"],
      ["m", 1, "m mt mts mtr mtrs lm metre metres meter meters metern metros metro metri metria metrar metra"],
      ["m", 1000, "km"],
      ["m", METRES_PER_YARD, "y yd yds yard yards yarda yardas"],
      [
        "balls",
        1,
        "ball balls skein skeins hank hanks cone cones cake cakes knauel strang strange pelote pelotes echeveau echeveaux noste noster nogle nogler nystan bol bollen streng strengen ovillo ovillos madeja madejas gomitolo gomitoli matassa matasse kera keraa vyyhti vyyhtia hnykill hnyklar hespa hespe hesper hespur dokka dokker harva harvor fed kone konen bobina bobine bobines stk stuck pcs piece pieces kpl",
      ],
    ] as const
  ).flatMap(([unit, factor, names]) => names.split(" ").map((name) => [name as string, { unit, factor }] as const)),
);
