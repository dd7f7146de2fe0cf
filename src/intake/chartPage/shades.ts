/** What colour each kind of cell stands for: its ground, its sign's ink, what the key's words say, or a grey for want of any. */
import { hexFromLab, labFromHex, type Lab } from "../../colour/lab.ts";
import { shadeByKeyWords } from "../colourWords.ts";
import type { ReadColour } from "../readChart.ts";
import { hasSign } from "./key.ts";
import type { CellLook } from "./paint.ts";

export interface ShadedKind {
  readonly look: CellLook;
  readonly name: string | null;
}

/** In the order given, which is that of the most stitches first. */
export function shadesOf(kinds: readonly ShadedKind[], page: string): ReadColour[] {
  const grounds = kinds.map(({ look }) => look.ground ?? page);
  const isPaper = grounds.map((ground) => ground === page || ground === "#ffffff");
  const signed = kinds.map(({ look }) => hasSign(look));
  const inks = kinds.map(({ look }) => inkOf(look));
  // Signs in one ink on paper say nothing of colour, and then nor does the paper.
  const tells = (kind: number): boolean =>
    signed[kind]! &&
    inks[kind] !== null &&
    !kinds.some((_, other) => other !== kind && signed[other] && inks[other] === inks[kind]) &&
    isHue(inks[kind]!);
  const onlySigns = isPaper.every(Boolean) && !kinds.some((_, kind) => tells(kind));
  const stated = kinds.map((_, kind): string | null => {
    if (!isPaper[kind]) return grounds[kind]!;
    if (signed[kind]) return tells(kind) ? inks[kind]! : null;
    return onlySigns && kinds.length > 1 ? null : grounds[kind]!;
  });
  const greys = stated.flatMap((hex, kind) => (hex === null ? [kind] : []));
  return kinds.map(({ name }, kind): ReadColour => {
    const named = name === null ? {} : { name };
    const hex = stated[kind] ?? null;
    const lab = hex === null ? null : labFromHex(hex);
    if (hex !== null && lab !== null) return { hex, lab, ...named };
    const said = name === null ? null : shadeByKeyWords(name);
    if (said)
      return { hex: hexFromLab(said.lab), lab: said.lab, ...named, uncertainty: said.uncertainty, assumed: true };
    const grey: Lab = [standIn(greys.indexOf(kind), greys.length), 0, 0];
    return { hex: hexFromLab(grey), lab: grey, ...named, assumed: true };
  });
}

/** The ink of a sign that has one. */
function inkOf({ marks, ground, pattern }: CellLook): string | null {
  const inks = new Set(marks.map(({ colour }) => colour).filter((colour) => colour !== "#ffffff"));
  for (const colour of pattern ?? [])
    if (colour !== null && colour !== ground && colour !== "#ffffff") inks.add(colour);
  return inks.size === 1 ? [...inks][0]! : null;
}

const isHue = (hex: string): boolean => {
  const [, a, b] = labFromHex(hex) ?? [0, 0, 0];
  return Math.hypot(a, b) > GREYISH;
};

/** L* of the n-th of so many stand-ins, most stitches first: from paper to print, our choice. */
const standIn = (index: number, count: number): number => 92 - (index * 70) / Math.max(1, count - 1);

/** C*ab up to which an ink is black or grey. */
const GREYISH = 8;
