/** Measures of a body, and the standard sizes from which she begins: every number is hers to change. */
import table from "./data/bodySizes.json" with { type: "json" };

/** All in cm. */
export interface Body {
  /** Around the chest or bust. */
  chest: number;
  /** Around the arm at its widest. */
  upperArm: number;
  /** From the underarm to the wrist. */
  underarmLength: number;
  /** From the shoulder down to the underarm. */
  armholeDepth: number;
  /** From shoulder to shoulder across the back. */
  crossBack: number;
  /** From the middle of the neck at the back over the shoulder to the wrist. */
  neckToWrist: number;
  /** From the underarm down to where the garment ends. */
  bodyLength: number;
  wrist: number;
  /** Around the hand without the thumb. */
  hand: number;
  /** From the wrist to the tip of the middle finger. */
  handLength: number;
  head: number;
}

export const BODY_FIELDS = [
  "chest",
  "upperArm",
  "underarmLength",
  "armholeDepth",
  "crossBack",
  "neckToWrist",
  "bodyLength",
  "wrist",
  "hand",
  "handLength",
  "head",
] as const satisfies readonly (keyof Body)[];

export type SizeGroup = "women" | "men" | "children" | "babies";

/** Sizes of the table by group, smallest first. */
export const sizesIn = (group: SizeGroup): string[] => table[group].map(({ size }) => size);

export const SIZE_GROUPS: readonly SizeGroup[] = ["women", "men", "children", "babies"];

/**
 * A standard size: the middle of each of its ranges; null for a size that the group does not have.
 * Source: data/bodySizes.json. What that table lacks is reckoned: see `BESIDE_THE_TABLE`.
 * Limit: arms of the standard run tight above a bust of 102 cm (a published survey of knitters).
 * Example: women's M has a chest of 94 cm, between 91.4 and 96.5.
 */
export function standardBody(group: SizeGroup, size: string): Body | null {
  const row = (table[group] as readonly SizeRow[]).find((one) => one.size === size);
  if (!row) return null;
  const { chest, upperArm, underarmLength, armholeDepth, crossBack, neckToWrist } = row;
  const found = { chest, upperArm, underarmLength, armholeDepth, crossBack, neckToWrist };
  const middles = Object.fromEntries(
    Object.entries(found).map(([field, range]) => [field, toMillimetre(middle(range))]),
  ) as Record<keyof typeof found, number>;
  const { wristShare, handShare, handLengthShare, head, belowWaist } = BESIDE_THE_TABLE;
  const length = row.backHip ? middle(row.backHip) : middle(row.backWaist!) * (1 + belowWaist);
  return {
    ...middles,
    bodyLength: toMillimetre(length - middles.armholeDepth),
    wrist: toMillimetre(middles.upperArm * wristShare[group]),
    hand: toMillimetre(middles.upperArm * wristShare[group] * handShare),
    handLength: toMillimetre(middles.underarmLength * handLengthShare),
    head: head[group],
  };
}

interface SizeRow {
  readonly size: string;
  readonly chest: readonly number[];
  readonly upperArm: readonly number[];
  readonly underarmLength: readonly number[];
  readonly armholeDepth: readonly number[];
  readonly crossBack: readonly number[];
  readonly neckToWrist: readonly number[];
  readonly backWaist?: readonly number[];
  readonly backHip?: readonly number[];
}

/**
 * Our choices, to begin with and to be measured instead: a garment ends three tenths of the back's length below the waist, which gives a
 * woman's medium 38.5 cm from the underarm (36–42 is typical: trade.md 3); wrists as a part of the upper arm, hands as a part of the wrist and
 * of the arm's length; heads in cm (common practice, no source).
 */
const BESIDE_THE_TABLE = {
  belowWaist: 0.3,
  wristShare: { women: 0.58, men: 0.54, children: 0.68, babies: 0.75 },
  handShare: 1.16,
  handLengthShare: 0.41,
  head: { women: 56, men: 58, children: 52, babies: 44 },
} as const;

const middle = (range: readonly number[]): number => (range[0]! + range[1]!) / 2;
const toMillimetre = (cm: number): number => Math.round(cm * 10) / 10;

export type Fit = "very close" | "close" | "standard" | "loose" | "oversized";

/**
 * Ease at the chest in cm, by how a garment should sit: from, to, and what is usual there. Source: trade.md 3 (trade articles and a handbook agree:
 * close 1–2 in, standard 2–4, loose 4–6); the middle is taken as usual, and the open ends at no ease and 20 cm, our choice.
 */
export const EASE: Readonly<Record<Fit, { readonly from: number; readonly to: number; readonly usual: number }>> = {
  "very close": { from: -5, to: 0, usual: 0 },
  close: { from: 2.5, to: 5, usual: 4 },
  standard: { from: 5, to: 10, usual: 7.5 },
  loose: { from: 10, to: 15, usual: 12.5 },
  oversized: { from: 15, to: 25, usual: 20 },
};

/** How a garment with so much ease sits. */
export function fitOf(easeCm: number): Fit {
  if (easeCm <= 0) return "very close";
  const found = (["close", "standard", "loose"] as const).find((fit) => easeCm <= EASE[fit].to);
  return found ?? "oversized";
}
