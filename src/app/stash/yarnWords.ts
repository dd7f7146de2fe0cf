/** What the page says of a yarn, in the words of somebody who has it before her. */
import type { ShadeSource } from "../../colour/shade.ts";
import type { ValueClass } from "../../colour/value.ts";
import { gramsKnownFrom } from "../../yarn/lots.ts";
import { knownWeightClass, weightClassWords } from "../../yarn/weightClass.ts";
import { uncertaintyOfYarn, type Yarn } from "../../yarn/yarn.ts";
import { gramsWords, wholeWords } from "../shell/words.ts";
import type { StashLine } from "./lines.ts";

const SOURCES: Readonly<Record<ShadeSource, string>> = {
  label: "the maker’s own figure",
  photo: "from a photograph",
  screen: "compared on the screen",
  eye: "picked by eye",
  picture: "off a picture of something knitted",
};

/** "from a photograph, ± 2.8". */
export function shadeKnownWords(yarn: Yarn): string {
  if (!yarn.shade) return "mixed from its flecks, ± 5 taken for granted";
  const known = yarn.shade.from ? SOURCES[yarn.shade.from] : "nobody has said how it is known";
  const range = `± ${Number(uncertaintyOfYarn(yarn).toFixed(1))}`;
  return yarn.shade.uncertainty === undefined ? `${known}, ${range} taken for granted` : `${known}, ${range}`;
}

/** "light", or "light or light-medium" where its range leaves it between them. */
export const classesWords = (classes: readonly ValueClass[]): string => classes.join(" or ");

/** "43 g by the label, about 181 m". */
export function amountWords({ yarn, grams, metres }: Pick<StashLine, "yarn" | "grams" | "metres">): string {
  if (grams === null) return "nobody has said how much";
  const known = { scales: " weighed", label: " by the label", both: ", partly weighed" };
  const from = known[gramsKnownFrom(yarn) ?? "label"];
  const long = metres === null ? "" : `, about ${wholeWords(metres)}\u202fm`;
  return `${gramsWords(grams)}${from}${long}`;
}

/** "43 g · 181 m", for a line of a list. */
export const shortAmountWords = ({ grams, metres }: Pick<StashLine, "grams" | "metres">): string =>
  [grams === null ? "? g" : gramsWords(grams), ...(metres === null ? [] : [`${wholeWords(metres)}\u202fm`])].join(
    " · ",
  );

/** "fingering", "fingering or sport by its metres", "not known". */
export function weightWords(yarn: Yarn): string {
  const { classes, from } = knownWeightClass(yarn);
  if (from === null) return "not known";
  return from === "label"
    ? `${weightClassWords(classes)}, as the label says`
    : `${weightClassWords(classes)}, by its metres`;
}

/** For the cell of a table. */
export const weightShortWords = (yarn: Yarn): string => weightClassWords(knownWeightClass(yarn).classes) || "?";

const SHORT_SOURCES: Readonly<Record<ShadeSource, string>> = {
  label: "maker",
  photo: "photo",
  screen: "screen",
  eye: "eye",
  picture: "picture",
};

/** "photo ± 2.8". */
export function shadeShortWords(yarn: Yarn): string {
  const range = `±\u202f${Number(uncertaintyOfYarn(yarn).toFixed(1))}`;
  return yarn.shade?.from ? `${SHORT_SOURCES[yarn.shade.from]} ${range}` : range;
}

/** Limits of ΔE00 and what two shades so near are to each other, side by side in good light. Our choice, after common use in dyeing. */
const NEARNESS: readonly (readonly [number, string])[] = [
  [1, "as good as the same"],
  [2, "hardly to be told apart"],
  [5, "near"],
  [10, "akin"],
  [20, "another shade"],
  [Infinity, "another colour"],
];

export const nearnessWords = (deltaE00: number): string => NEARNESS.find(([most]) => deltaE00 < most)![1];

/** What knitters say of so much difference in L*. Source: docs/trade.md, common practice. */
const LIGHTNESS: readonly (readonly [number, string])[] = [
  [8, "they melt together"],
  [15, "a whisper"],
  [30, "it reads"],
  [Infinity, "bold"],
];

export const lightnessApartWords = (deltaL: number): string => LIGHTNESS.find(([most]) => Math.abs(deltaL) < most)![1];

/** For a screen reader: all that a line of a picture shows. */
export const lineWords = (line: StashLine): string =>
  [
    line.yarn.name,
    `${classesWords(line.classes)}, L* ${Math.round(line.L)}`,
    shortAmountWords(line),
    ...(line.free !== null && line.free < 0 ? ["more is promised than there is"] : line.isPromised ? ["promised"] : []),
    ...(line.laidOut ? ["on the bench"] : []),
  ].join(", ");
