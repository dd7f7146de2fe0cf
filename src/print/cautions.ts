/** What is told on the sheet before the work can be hurt: sentences for this piece, not a list for all. */
import { cautionsTogether } from "../audit/cautions.ts";
import { shortList } from "../audit/context.ts";
import type { Pattern } from "../fabric/pattern.ts";
import type { Section } from "../garment/sections.ts";
import type { Amounts } from "../plan/amounts.ts";
import { amountsSentence } from "../plan/amounts.ts";
import { STEEK_CAUTION } from "../plan/shapeWords.ts";
import { isUnassigned } from "../plan/tallySection.ts";
import { isOwned } from "../yarn/owned.ts";
import type { Yarn } from "../yarn/yarn.ts";
import type { KeyEntry } from "./sheetKey.ts";

export interface CautionParts {
  readonly pattern: Pattern;
  readonly amounts: Amounts;
  readonly key: readonly KeyEntry[];
  /** Those that the key has. */
  readonly yarns: readonly Yarn[];
  /** Rows with a float longer than the limit, and the limit in stitches. */
  readonly longFloats: { readonly rows: number; readonly longest: number; readonly limit: number };
}

export function sheetCautions({ pattern, amounts, key, yarns, longFloats }: CautionParts): string[] {
  const said = [
    "A printed colour is not the yarn, and a plan is not a swatch: knit one, wash and dry it as the garment will be, and look at it from where it will be seen.",
    `${amounts.size === null ? "One use of each chart: " : ""}${amountsSentence(amounts)} The reserve is on top.`,
  ];
  const short = amounts.yarns.filter((yarn) => (yarn.short ?? 0) > 0);
  if (short.length > 0) {
    const names = short.map(({ name, short: missing }) => `${name} by ${metresText(missing!)}`);
    said.push(
      `Short, reserve included: ${shortList(names)}. Settle this before you cast on; dye lots do not come again.`,
    );
  }
  const missing = key.filter(({ strand, letters }) => letters.length > 0 && isUnassigned(strand));
  if (missing.length > 0) {
    said.push(
      `No yarn is chosen for ${shortList(missing.flatMap(({ letters }) => letters))}; the pattern's own colour stands there.`,
    );
  }
  const pictured = yarns.filter((yarn) => !isOwned(yarn));
  if (pictured.length > 0)
    said.push(
      `Colours taken from a picture, to compare with, and no yarns to knit with: ${shortList(pictured.map(({ name }) => name))}.`,
    );
  const unseen = key.filter(({ shadeKnown }) => !shadeKnown);
  if (unseen.length > 0)
    said.push(`Shade not known, so a grey stands for it: ${shortList(unseen.map(({ name }) => name))}.`);
  if (longFloats.rows > 0) {
    said.push(
      `${longFloats.rows === 1 ? "One row has" : `${longFloats.rows} rows have`} floats over more than ${longFloats.limit} stitches (up to ${longFloats.longest}): catch them, not above each other in the same column.${
        longFloats.longest > 2 * longFloats.limit ? " The longest ask for ladderback or duplicate stitch." : ""
      }`,
    );
  }
  // How a shade is known counts where a colourway is judged; the sheet is for one that was chosen.
  for (const { kind, sentence, advice } of cautionsTogether(yarns))
    if (kind !== "shade") said.push(`${sentence} ${advice}`);
  const steeked = (pattern.sections ?? []).filter(({ on }) => on !== false).some(hasSteek);
  if (steeked) said.push(`Steek: ${STEEK_CAUTION}`);
  return said;
}

/** As planned, or by its name where nobody has said more. */
const hasSteek = ({ id, name, beside = [] }: Section): boolean =>
  beside.some(({ kind }) => kind === "steek") || /steek/i.test(`${id} ${name ?? ""}`);

/** Metres as she would say them: one decimal only where it matters. */
export function metresText(metres: number): string {
  return metres < 10 ? `${metres.toFixed(1)} m` : `${Math.round(metres)} m`;
}
