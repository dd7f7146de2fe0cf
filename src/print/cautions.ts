/** What is told on the sheet before the work can be hurt: sentences for this piece, not a list for all. */
import { lchFromLab, type Lab } from "../colour/lab.ts";
import type { Pattern } from "../fabric/pattern.ts";
import type { Amounts } from "../plan/amounts.ts";
import { amountsSentence } from "../plan/amounts.ts";
import { isUnassigned } from "../plan/tallySection.ts";
import type { KeyEntry } from "./sheetKey.ts";

export interface CautionParts {
  readonly pattern: Pattern;
  readonly amounts: Amounts;
  readonly key: readonly KeyEntry[];
  /** Rows with a float longer than the limit, and the limit in stitches. */
  readonly longFloats: { readonly rows: number; readonly longest: number; readonly limit: number };
}

export function cautionsOf({ pattern, amounts, key, longFloats }: CautionParts): string[] {
  const said = [
    "A printed colour is not the yarn, and a plan is not a swatch: knit one, wash and dry it as the garment will be, and look at it from where it will be seen.",
    `${amounts.size === null ? "One use of each chart: " : ""}${amountsSentence(amounts)} The reserve is on top.`,
  ];
  const short = amounts.yarns.filter((yarn) => (yarn.short ?? 0) > 0);
  if (short.length > 0) {
    const names = short.map(({ name, short: missing }) => `${name} by ${metresText(missing!)}`);
    said.push(`Short, reserve included: ${listed(names)}. Settle this before you cast on; dye lots do not come again.`);
  }
  const missing = key.filter(({ strand, letters }) => letters.length > 0 && isUnassigned(strand));
  if (missing.length > 0) {
    said.push(
      `No yarn is chosen for ${listed(missing.flatMap(({ letters }) => letters))}; the pattern's own colour stands there.`,
    );
  }
  const unseen = key.filter(({ shadeKnown }) => !shadeKnown);
  if (unseen.length > 0)
    said.push(`Shade not known, so a grey stands for it: ${listed(unseen.map(({ name }) => name))}.`);
  if (longFloats.rows > 0) {
    said.push(
      `${longFloats.rows === 1 ? "One row has" : `${longFloats.rows} rows have`} floats over more than ${longFloats.limit} stitches (up to ${longFloats.longest}): catch them, not above each other in the same column.${
        longFloats.longest > 2 * longFloats.limit ? " The longest ask for ladderback or duplicate stitch." : ""
      }`,
    );
  }
  // A chart colour without a yarn has a shade, but nothing that could bleed.
  const shaded = key.filter(({ strand, shadeKnown }) => shadeKnown && !isUnassigned(strand));
  const strong = shaded.filter(({ lab }) => mayBleed(lab));
  const pale = shaded.filter(({ lab }) => lab[0] > PALE);
  if (strong.length > 0 && pale.length > 0) {
    said.push(
      `${listed(strong.map(({ name }) => name))} may bleed into ${listed(pale.map(({ name }) => name))}: twist each strong colour with a white strand, soak half an hour in warm water with your wool wash, and let it dry. If the white stays white, go on.`,
    );
  }
  if ((pattern.sections ?? []).some(({ id, name, on }) => on !== false && /steek/i.test(`${id} ${name ?? ""}`))) {
    said.push(
      "Steek: try it on the swatch first. Superwash, cotton, silk, alpaca and slick yarns are sewn by machine before cutting. Check twice that the column is the steek and that no layer lies beneath; a cut cannot be undone.",
    );
  }
  return said;
}

/** Metres as she would say them: one decimal only where it matters. */
export function metresText(metres: number): string {
  return metres < 10 ? `${metres.toFixed(1)} m` : `${Math.round(metres)} m`;
}

/** "a, b and c"; more than six are counted. */
export function listed(names: readonly string[]): string {
  const shown = names.length > 6 ? [...names.slice(0, 5), `${names.length - 5} more`] : names;
  return shown.length < 2 ? (shown[0] ?? "") : `${shown.slice(0, -1).join(", ")} and ${shown.at(-1)}`;
}

/** L* above which a stain shows. Source: trade.md 4, fastness (common practice). */
const PALE = 75;

/**
 * Dark yarns, and saturated reds, blues and turquoises. Source: trade.md 4, fastness (common practice); the limits in
 * L*, chroma and hue angle that stand for these words are our choice.
 */
function mayBleed(lab: Lab): boolean {
  const [lightness, chroma, hueDegrees] = lchFromLab(lab);
  if (lightness < 35) return true;
  const red = hueDegrees >= 345 || hueDegrees <= 45;
  const blue = hueDegrees >= 180 && hueDegrees <= 310;
  return lightness <= PALE && ((red && chroma >= 40) || (blue && chroma >= 25));
}
