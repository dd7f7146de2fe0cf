/** The shade that is being found in the form: where it comes from and how sure it is. */
import { hexFromLab, type Lab } from "../../colour/lab.ts";
import { labOfShade, type Shade, type ShadeSource } from "../../colour/shade.ts";
import { DEFAULT_UNCERTAINTY } from "../../yarn/yarn.ts";

export interface ShadeDraft {
  readonly lab: Lab;
  /** Where it was typed as a code. */
  readonly hex?: string;
  /** ΔE00 that holds the truth in four cases of five. */
  readonly uncertainty: number;
  readonly from: ShadeSource;
}

/** What every way to a shade is handed: the shade so far, and where the one it finds goes. */
export interface ShadeWayProps {
  readonly shade: ShadeDraft | null;
  readonly onShade: (shade: ShadeDraft) => void;
}

/** How she knows it, and what that is usually worth. ΔE00. */
export const KNOWN_BY: readonly {
  readonly from: ShadeSource;
  readonly uncertainty: number;
  readonly words: string;
}[] = [
  // Birthplace: hand-held instruments on wool differ by about so much, from memory; no source.
  { from: "label", uncertainty: 2, words: "the maker’s measured figure" },
  { from: "label", uncertainty: DEFAULT_UNCERTAINTY, words: "the maker’s code" },
  // Wider than a comparison on the screen comes to in its test (about 6.5), which takes more trouble; our choice.
  { from: "eye", uncertainty: 10, words: "by eye" },
];

export const BY_EYE = KNOWN_BY[2]!.uncertainty;

/** A step by eye is taken to be off by half of its size; our choice. */
const STEP_DOUBT = 0.5;

/** @param moved ΔE00 between the shade it was likened to and the one it became */
export const likeUncertainty = (of: number, moved: number): number =>
  Math.round(10 * Math.hypot(Math.max(of, DEFAULT_UNCERTAINTY), STEP_DOUBT * moved)) / 10;

export function shadeDraftOf(shade: Shade | undefined): ShadeDraft | null {
  if (!shade) return null;
  return {
    lab: labOfShade(shade),
    ...(shade.hex !== undefined && !shade.lab ? { hex: shade.hex } : {}),
    uncertainty: shade.uncertainty ?? DEFAULT_UNCERTAINTY,
    from: shade.from ?? "eye",
  };
}

const rounded = (value: number): number => Math.round(100 * value) / 100 + 0;

export function shadeOf({ lab, hex, uncertainty, from }: ShadeDraft): Shade {
  const [L, a, b] = lab.map(rounded) as [number, number, number];
  return hex === undefined ? { lab: [L, a, b], uncertainty, from } : { hex, uncertainty, from };
}

export const shownHex = ({ lab, hex }: Pick<ShadeDraft, "lab" | "hex">): string => hex ?? hexFromLab(lab);
