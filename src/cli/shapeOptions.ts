/** What a command line says of a garment: sizes and measures, charts by part, and which way of taking the repeats. */
import { BODY_FIELDS, EASE, SIZE_GROUPS, sizesIn, standardBody, type Body, type Fit } from "../garment/body.ts";
import type { Gauge } from "../garment/gauge.ts";
import type { RoundChoice } from "../garment/roundChoices.ts";
import { GARMENTS, usualLengths } from "../garment/shape.ts";
import { PARTS, type Lengths, type Part, type PartChoice } from "../garment/shape/parts.ts";
import type { ShapeQuestion } from "../jobs/shape.ts";
import type { Given } from "./args.ts";
import type { Command } from "./command.ts";
import { EXIT, Refusal } from "./io.ts";
import { nearestWord } from "./nearest.ts";
import { only } from "./projectFile.ts";

const FITS = Object.keys(EASE) as Fit[];
const WAYS: readonly RoundChoice["how"][] = ["whole repeats", "side panels", "another gauge", "another repeat"];

export const SHAPE_OPTIONS = {
  garment: { value: "KIND", help: GARMENTS.join(", "), required: true },
  size: {
    value: "GROUP/SIZE",
    help: "a standard size to begin with, as women/M; again for more",
    required: true,
    many: true,
  },
  body: { value: "NAME=CM", help: `a measure of the body instead: ${BODY_FIELDS.join(", ")}`, many: true },
  ease: { value: "CM", help: "added around; 7.5 by default, -3 for a hat, 1 for hands" },
  fit: { value: "WORD", help: `ease by a word instead: ${FITS.join(", ")}` },
  chart: { value: "PART=ID", help: `which chart a part is knitted from: ${PARTS.join(", ")}`, many: true },
  gauge: { value: "PART=STxROWS", help: "a part's own gauge, stitches and rows to 10 cm", many: true },
  length: {
    value: "NAME=CM",
    help: "a length: hemRib, cuffRib, neckband, armholeEase, neckDepth, neckWidth",
    many: true,
  },
  take: { value: "PART=WAY", help: `how body or hand take their repeats: ${WAYS.join(", ")}`, many: true },
  stitches: { value: "PART=N", help: "stitches around body, sleeve or hand, whatever comes out", many: true },
  rounds: { value: "PART=N", help: "rounds of body, sleeve, yoke or hand", many: true },
  steek: { value: "N", help: "stitches of a steek; 5 by default" },
} as const satisfies Command["options"];

/** Refuses with 64 what is not understood. */
export function shapeQuestion(given: Given): ShapeQuestion {
  const garment = given.choice("garment", GARMENTS)!;
  const measures: Partial<Body> = Object.fromEntries(numbersBy(given, "body", BODY_FIELDS));
  const sizes = given.texts("size").map((text) => sizeNamed(text, measures));
  const fit = given.choice("fit", FITS);
  const easeCm = given.number("ease", { least: -100, most: 200 });
  if (fit !== undefined && easeCm !== undefined)
    throw new Refusal(EXIT.usage, "--fit: expected it or --ease, found both.");
  const lengthNames = Object.keys(usualLengths(garment, sizes[0]!.body)) as (keyof Lengths)[];
  const choices: Partial<Record<Part, PartChoice>> = {};
  const put = (part: Part, choice: PartChoice): void => {
    choices[part] = { ...choices[part], ...choice };
  };
  for (const [part, how] of wordsBy(given, "take", ["body", "hand"])) put(part, { how: oneOf("take", how, WAYS) });
  for (const [part, stitches] of numbersBy(given, "stitches", ["body", "sleeve", "hand"]))
    put(part, { stitches: wholeOf("stitches", stitches) });
  for (const [part, rounds] of numbersBy(given, "rounds", ["body", "sleeve", "yoke", "hand"]))
    put(part, { rounds: wholeOf("rounds", rounds) });
  return {
    garment,
    sizes,
    choices,
    charts: Object.fromEntries(wordsBy(given, "chart", PARTS)),
    gauges: Object.fromEntries(wordsBy(given, "gauge", PARTS).map(([part, text]) => [part, gaugeIn(text)])),
    lengths: Object.fromEntries(numbersBy(given, "length", lengthNames)),
    ...only({
      easeCm: fit === undefined ? easeCm : EASE[fit].usual,
      steekStitches: given.number("steek", { least: 3, most: 12, whole: true }),
    }),
  };
}

function sizeNamed(text: string, measures: Partial<Body>): ShapeQuestion["sizes"][number] {
  const at = text.indexOf("/");
  const group = oneOf("size", text.slice(0, Math.max(0, at)), SIZE_GROUPS);
  const size = oneOf("size", text.slice(at + 1), sizesIn(group));
  return { id: size, name: `${group} ${size}`, body: { ...standardBody(group, size)!, ...measures } };
}

/** NAME=VALUE, each name one of those that are known. */
function wordsBy<Name extends string>(given: Given, option: string, names: readonly Name[]): [Name, string][] {
  return given.texts(option).map((text): [Name, string] => {
    const at = text.indexOf("=");
    if (at < 1) throw new Refusal(EXIT.usage, `--${option}: expected NAME=VALUE, found ${JSON.stringify(text)}.`);
    return [oneOf(option, text.slice(0, at), names), text.slice(at + 1)];
  });
}

function numbersBy<Name extends string>(given: Given, option: string, names: readonly Name[]): [Name, number][] {
  return wordsBy(given, option, names).map(([name, text]): [Name, number] => {
    const value = /^\d+(\.\d+)?$/.test(text) ? Number(text) : NaN;
    if (value >= 0 && value <= 10_000) return [name, value];
    throw new Refusal(EXIT.usage, `--${option} ${name}: expected a number, found ${JSON.stringify(text)}.`);
  });
}

function wholeOf(option: string, value: number): number {
  if (Number.isInteger(value) && value >= 1) return value;
  throw new Refusal(EXIT.usage, `--${option}: expected a whole number from 1, found ${value}.`);
}

function gaugeIn(text: string): Gauge {
  const [, stitches, rows] = /^(\d+(?:\.\d+)?)[x×](\d+(?:\.\d+)?)$/iu.exec(text) ?? [];
  if (Number(stitches) > 0 && Number(rows) > 0) return { stitches: Number(stitches), rows: Number(rows) };
  throw new Refusal(EXIT.usage, `--gauge: expected stitches and rows like 28x30, found ${JSON.stringify(text)}.`);
}

function oneOf<Word extends string>(option: string, text: string, words: readonly Word[]): Word {
  const found = words.find((word) => word.toLowerCase() === text.toLowerCase());
  if (found) return found;
  const near = nearestWord(text, words);
  const hint = near ? ` Did you mean ${near}?` : "";
  throw new Refusal(EXIT.usage, `--${option}: expected ${words.join(", ")}, found ${JSON.stringify(text)}.${hint}`);
}
