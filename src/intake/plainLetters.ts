/** Words without case and accents, so that "Lauflänge", "LAUFLANGE" and "løpelengde" meet their entries. */
export const plainLetters = (text: string): string =>
  text
    .toLowerCase()
    .normalize("NFD")
    .replace(/\p{M}/gu, "")
    .replace(/[øæœßðþłı]/g, (letter) => PLAIN.get(letter)!);

const PLAIN: ReadonlyMap<string, string> = new Map(
  Object.entries({ ø: "o", æ: "ae", œ: "oe", ß: "ss", ð: "d", þ: "th", ł: "l", ı: "i" }),
);
