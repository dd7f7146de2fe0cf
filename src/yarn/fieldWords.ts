/** What stands in a field of a yarn, in a few words, so that before and after can be laid side by side. */
import type { Shade, ShadeSource } from "../colour/shade.ts";
import { weightClassWords } from "./weightClass.ts";
import { DEFAULT_UNCERTAINTY, type Yarn } from "./yarn.ts";

/** Null where the yarn does not tell. */
export function fieldWords(yarn: Yarn, field: keyof Yarn): string | null {
  const value = yarn[field];
  if (value === undefined) return null;
  switch (field) {
    case "shade":
      return shadeWords(yarn.shade!);
    case "lots":
      return yarn
        .lots!.map(({ id, lot, grams, weighed }) =>
          [
            lot === undefined ? `lot ${id}` : `lot ${lot}`,
            grams === undefined ? "" : `${rounded(grams)} g`,
            weighed ? "weighed" : "",
          ]
            .filter(Boolean)
            .join(" "),
        )
        .join(", ");
    case "grams":
      return `${rounded(yarn.grams!)} g`;
    case "metresPer100g":
      return `${rounded(yarn.metresPer100g!)} m in 100 g`;
    case "flecks":
      return yarn.flecks!.map((fleck) => `${rounded(100 * fleck.share)} % ${colourWords(fleck.shade)}`).join(", ");
    case "weightClass":
      return weightClassWords([yarn.weightClass!]);
    case "photo":
      return "a picture";
    default:
      return typeof value === "boolean" ? (value ? "yes" : "no") : String(value);
  }
}

/** A field as it is called beside its values. */
export const FIELD_NAMES: Readonly<Record<keyof Yarn, string>> = {
  id: "id",
  name: "name",
  shade: "shade",
  metresPer100g: "length",
  lots: "lots",
  grams: "amount",
  flecks: "flecks",
  maker: "maker",
  fibre: "fibre",
  note: "note",
  plies: "plies",
  weightClass: "weight class",
  superwash: "superwash",
  handDyed: "hand-dyed",
  photo: "picture",
  shelf: "place on the shelf",
};

/** "#e8e2d2, ± 2, by a photograph"; the range is ΔE00 that holds the truth in 80 % of cases. */
export function shadeWords(shade: Shade): string {
  const range = `± ${rounded(shade.uncertainty ?? DEFAULT_UNCERTAINTY)}`;
  return [colourWords(shade), range, ...(shade.from ? [SOURCE_WORDS[shade.from]] : [])].join(", ");
}

const colourWords = ({ hex, lab = [] }: Shade): string => hex ?? `Lab ${lab.map((part) => Math.round(part)).join(" ")}`;

const rounded = (value: number): number => Math.round(value * 10) / 10;

const SOURCE_WORDS: Readonly<Record<ShadeSource, string>> = {
  photo: "by a photograph",
  screen: "matched on the screen",
  label: "by its label",
  eye: "by eye",
  picture: "from a picture",
};
