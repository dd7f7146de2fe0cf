/** How wide a text will be, so that a page can be laid out without the font at hand. */
import type { FontWeight } from "./drawing.ts";

/** Width in mm at an em of `size` mm. Exact for plain Latin in the sheet's font, near enough for the rest. */
export function textWidth(text: string, size: number, weight: FontWeight = "regular"): number {
  let thousandths = 0;
  for (const character of text) thousandths += advance(character, weight);
  return (thousandths * size) / 1000;
}

/** The text, or as much of its beginning as fits with an ellipsis. */
export function fitText(text: string, size: number, maxWidth: number, weight: FontWeight = "regular"): string {
  if (textWidth(text, size, weight) <= maxWidth) return text;
  const characters = [...text];
  while (characters.length > 0 && textWidth(`${characters.join("")}…`, size, weight) > maxWidth) characters.pop();
  return `${characters.join("").trimEnd()}…`;
}

/** The text in lines that fit, broken at spaces; a word that is too long for a line is broken where it must. */
export function wrapText(text: string, size: number, maxWidth: number, weight: FontWeight = "regular"): string[] {
  const lines: string[] = [];
  let line = "";
  for (const word of text.split(/\s+/).filter((part) => part !== "")) {
    let rest = word;
    const joined = line === "" ? rest : `${line} ${rest}`;
    if (textWidth(joined, size, weight) <= maxWidth) {
      line = joined;
      continue;
    }
    if (line !== "") lines.push(line);
    while (textWidth(rest, size, weight) > maxWidth) {
      const head = longestHead(rest, size, maxWidth, weight);
      lines.push(head);
      rest = rest.slice(head.length);
    }
    line = rest;
  }
  if (line !== "") lines.push(line);
  return lines;
}

/** At least one character, so that wrapping ends. */
function longestHead(word: string, size: number, maxWidth: number, weight: FontWeight): string {
  const characters = [...word];
  let count = 1;
  while (count < characters.length && textWidth(characters.slice(0, count + 1).join(""), size, weight) <= maxWidth)
    count++;
  return characters.slice(0, count).join("");
}

function advance(character: string, weight: FontWeight): number {
  const known = MARKS[character] ?? ADVANCES[weight][character.normalize("NFD").charCodeAt(0) - FIRST];
  return known ?? UNKNOWN;
}

const FIRST = 0x20;

/** Advance widths in thousandths of the em, U+0020 to U+007E. Birthplace: the hmtx tables of src/print/fonts; a test reads them again. */
const ADVANCES: Readonly<Record<FontWeight, readonly number[]>> = {
  // prettier-ignore
  regular: [260,269,408,646,572,831,732,225,300,300,551,572,268,322,268,372,572,572,572,572,572,572,572,572,572,572,268,268,572,572,572,434,
    899,639,650,632,730,556,519,728,741,339,273,619,524,907,760,781,605,781,622,549,556,731,600,930,586,566,572,329,372,329,572,444,
    281,561,615,480,615,564,344,615,618,258,258,534,258,935,618,605,615,615,413,479,361,618,508,786,529,510,470,380,551,380,572],
  // prettier-ignore
  bold: [260,282,479,646,572,902,750,266,339,339,542,572,285,320,281,415,572,572,572,572,572,572,572,572,572,572,281,285,572,572,572,477,
    898,692,665,642,732,560,549,724,765,389,331,664,559,943,813,791,621,791,656,551,577,756,650,967,670,626,579,331,415,331,572,411,
    365,599,632,516,632,597,387,632,650,299,298,620,298,975,650,625,632,632,447,502,434,650,571,856,578,571,493,394,551,394,572],
};

/** Signs that the sheet itself uses; the wider of the two weights. */
const MARKS: Readonly<Record<string, number>> = { "…": 855, "–": 500, "×": 572, "·": 281 };

/** The mean letter of other alphabets, a little on the wide side. Birthplace: our choice. */
const UNKNOWN = 700;
