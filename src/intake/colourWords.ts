/** Colour names on labels, in the languages of the headings, as the English words that a plain name is made of. */
import { shadeOfName, type NamedShade } from "../colour/namedShade.ts";
import { PLAIN_NAME_WORDS } from "../colour/names.ts";
import { plainLetters } from "./plainLetters.ts";

/** What the first text that names a hue means; null where none does. */
export function shadeByWords(texts: readonly (string | undefined)[]): NamedShade | null {
  for (const text of texts) {
    if (text === undefined || text.length > LONGEST) continue;
    const found = shadeOfName(plainWords(text));
    if (found) return found;
  }
  return null;
}

/**
 * What a chart's key or she calls a colour: words that patterns use for one are looked for where the plain ones say
 * nothing. A yarn's own name is no such word: mills call any colour "Moss".
 */
export function shadeByKeyWords(name: string | undefined): NamedShade | null {
  const words = name === undefined || name.length > LONGEST ? [] : plainLetters(name).split(/[^a-z]+/);
  return shadeByWords([name, words.flatMap((word) => PATTERN_WORDS.get(word) ?? []).join(" ")]);
}

/** Whether a text is made of colour words alone, as "dark blue" is and "Night sky" is not. */
export function isPlainColour(text: string): boolean {
  const words = plainWords(text);
  return words.length > 0 && words.every((word) => PLAIN_NAME_WORDS.has(word));
}

function plainWords(text: string): string[] {
  return plainLetters(text)
    .split(/[^a-z]+/)
    .filter(Boolean)
    .flatMap((word) => wordsFor(word));
}

/** "Hellblau" and "mørkegrøn" are two words in one. */
function wordsFor(word: string): string[] {
  const whole = WORDS.get(word);
  if (whole) return whole;
  for (const [opening, meaning] of OPENINGS) {
    const rest = word.startsWith(opening) ? WORDS.get(word.slice(opening.length)) : undefined;
    if (rest) return [meaning, ...rest];
  }
  return [word];
}

const entries = (list: string): [string, string[]][] =>
  list.split(", ").flatMap((entry) => {
    const [words, meaning] = entry.split(": ") as [string, string];
    return words.split(" ").map((word): [string, string[]] => [word, meaning.split(" ")]);
  });

/**
 * German, French, Norwegian, Danish, Swedish, Dutch, Spanish, Italian, Finnish and Icelandic; then words that stand for a
 * shade in any language. All from memory.
 */
const WORDS: ReadonlyMap<string, string[]> = new Map(
  entries(
    [
      "rot rote rotes roter rouge rod rodt rott rood rosso rossa rojo roja punainen raudur raudr: red",
      "blau blaue blaues blauer bleu bleue bla blatt blauw blauwe azul blu sininen blar: blue",
      "grun grune grunes gruner vert verte gron gront gronn groen groene verde vihrea graenn: green",
      "gelb gelbe gelbes gelber jaune gul gult geel gele amarillo amarilla giallo gialla keltainen gulur: yellow",
      "braun braune braunes brauner brun brune brunt bruin bruine marron pardo marrone ruskea brunn: brown",
      "grau graue graues grauer gris grise gra gratt grijs grijze grigio grigia harmaa grar: grey",
      "schwarz schwarze schwarzes noir noire svart svartur sort zwart zwarte negro negra nero nera musta: black",
      "weiss weisse weisses weisser blanc blanche hvit hvitt hvid hvidt vit vitt hvitur wit witte blanco blanca bianco bianca valkoinen: white",
      "orange oransje oranje naranja arancione oranssi: orange",
      "rosa roze rose vaaleanpunainen bleikur bleik: pink",
      "lila violett violet lilla paars morado morada viola violetti fjolublar purpur: purple",
      "hell helle helles heller clair claire lys lyst ljus ljust licht lichte claro clara chiaro chiara vaalea ljos: light",
      "dunkel dunkle dunkles fonce foncee mork morkt donker donkere oscuro oscura scuro scura tumma dokk dokkur: dark",
      "blass pale blek blekt bleg bleek palido pallido kalpea: pale",
      "navy marine marineblau marinbla marineblauw: dark blue",
      "bordeaux burgundy maroon weinrot vinrod bordo: dark red",
      "cream creme krem ecru natural natur naturweiss offwhite ivory elfenbein: yellowish white",
      "charcoal anthracite anthrazit antrasitt antracit antraciet: dark grey",
      "teal petrol: dark greenish blue",
      "turquoise turkis turkos turkoois turquesa turchese: brilliant bluish green",
      "beige sand camel kamel: light yellowish brown",
      "rust rost ruggine: brownish orange",
      "mustard senf moutarde sennep senap mosterd: dark yellow",
      "olive oliv olijf oliva: moderate olive",
      "silver silber argent solv: light grey",
      "lilac lavender flieder lavendel: light purple",
    ].join(", "),
  ),
);

/** From memory: what is called so is near enough for a beginning, and is told as an estimate. */
const PATTERN_WORDS: ReadonlyMap<string, string[]> = new Map(
  entries(
    [
      "moss: dark yellowish green",
      "fern: moderate yellowish green",
      "lichen: pale green",
      "gorse: vivid yellow",
      "straw: pale yellow",
      "oatmeal: yellowish grey",
      "gold: deep yellow",
      "peat: dark brown",
      "chocolate: deep brown",
      "brick: moderate reddish brown",
      "terracotta: moderate reddish orange",
      "berry: deep purplish red",
      "plum: dark purple",
      "heather heath: pale purple",
      "slate: dark bluish grey",
      "granite: medium grey",
      "ash: light grey",
      "sky: light blue",
      "ice: very pale blue",
      "fjord: deep blue",
      "forest: deep green",
      "snow: white",
      "hoar frost: bluish white",
      "coal: black",
      "ink: blackish blue",
    ].join(", "),
  ),
);

/** Openings of compounds, the longer first. */
const OPENINGS: readonly (readonly [string, string])[] = [
  ["dunkel", "dark"],
  ["donker", "dark"],
  ["morke", "dark"],
  ["mork", "dark"],
  ["dokk", "dark"],
  ["tumman", "dark"],
  ["vaalean", "light"],
  ["licht", "light"],
  ["hell", "light"],
  ["ljus", "light"],
  ["ljos", "light"],
  ["lyse", "light"],
  ["lys", "light"],
  ["blass", "pale"],
];

/** Characters; longer texts are prose. Our choice. */
const LONGEST = 120;
