/** A shade typed into one field: hex, Lab or LCh, told apart by how it is written. */
import type { Outcome, Problem } from "../base/problem.ts";
import { hexFromLinear, parseHex } from "../colour/srgb.ts";
import { labFromLch, labFromHex, type Lab } from "../colour/lab.ts";
import { findShade } from "./statedShade.ts";

export interface TypedShade {
  /** CIELAB, D65, 2°. */
  readonly lab: Lab;
  /** "#rrggbb" where it was typed as a code. */
  readonly hex?: string;
}

/** What a field may be told to hold. */
export const TYPED_SHADE_WORDS = "a code such as #8f7a55, Lab such as 54 12 20, or LCh such as lch 54 23 59";

/**
 * Three bare numbers are L*, a*, b*; with "lch" before them, or with C and h, they are L*, C*, h in degrees. Decimal points or commas.
 * No value and one fault where it is none of these.
 */
export function readTypedShade(text: string): Outcome<TypedShade> {
  const bare = text.trim();
  if (bare === "") return refused("the shade", TYPED_SHADE_WORDS, "nothing");
  if (bare.startsWith("#") || /^[0-9a-f]{6}$/i.test(bare)) return hexShade(bare);
  const rgb = /^rgb\b/i.test(bare) ? findShade(bare) : null;
  if (rgb) return { value: { lab: rgb.lab, hex: rgb.hex }, problems: [] };
  const { isPolar, rest } = withoutNames(bare);
  const stranger = /[^\d\s.,;:/|+\-−°%]+/.exec(rest);
  if (stranger) return refused("the shade", TYPED_SHADE_WORDS, JSON.stringify(stranger[0]));
  const numbers = threeNumbers(rest);
  if (numbers.length !== 3)
    return refused("the shade", "three numbers", numbers.length === 0 ? "none" : `${numbers.length}: ${rest.trim()}`);
  return isPolar ? polarShade(numbers) : labShade(numbers);
}

function hexShade(text: string): Outcome<TypedShade> {
  const code = text.startsWith("#") ? text : `#${text}`;
  const linear = parseHex(code);
  const lab = labFromHex(code);
  if (!linear || !lab)
    return refused("the code", "# and three or six of the signs 0–9 and a–f", JSON.stringify(text.slice(0, 20)));
  return { value: { lab, hex: hexFromLinear(linear) }, problems: [] };
}

function labShade([lightness, a, b]: readonly number[]): Outcome<TypedShade> {
  const problem =
    outside("the L*", lightness!, [0, 100]) ?? outside("the a*", a!, REACH) ?? outside("the b*", b!, REACH);
  return problem ? { value: null, problems: [problem] } : { value: { lab: [lightness!, a!, b!] }, problems: [] };
}

function polarShade([lightness, chroma, hue]: readonly number[]): Outcome<TypedShade> {
  const problem =
    outside("the L*", lightness!, [0, 100]) ??
    outside("the C*", chroma!, [0, REACH[1]]) ??
    outside("the h", hue!, [-360, 360]);
  if (problem) return { value: null, problems: [problem] };
  return { value: { lab: labFromLch([lightness!, chroma!, hue!]) }, problems: [] };
}

/** The project file holds a* and b* within these. */
const REACH: readonly [number, number] = [-160, 160];

function outside(where: string, value: number, [least, most]: readonly [number, number]): Problem | null {
  if (value >= least && value <= most) return null;
  return fault(where, `a number from ${least} to ${most}`, String(value));
}

/** "lab(…)", "LCh: …", "L 54 C 23 h 59" lose their letters and say what they are. */
function withoutNames(text: string): { isPolar: boolean; rest: string } {
  const head = /^(?:cie\s*)?(l\*?\s*a\*?\s*b\*?|l\*?\s*c\*?\s*h)(?![a-z])\s*[:=(]*/i.exec(text);
  const rest = (head ? text.slice(head[0].length) : text).replace(/\)\s*$/, "");
  const named = /^\s*l\*?\s*[:=]?\s*[\d.,]+%?[\s,;]+(a|c)\*?\s*[:=]?\s*[-+−]?[\d.,]+[\s,;]+(b|h)\*?\s*[:=]?/i.exec(
    rest,
  );
  if (named)
    return {
      isPolar: named[1]!.toLowerCase() === "c",
      rest: rest.replace(/[lacbh]\*?\s*[:=]?(?=\s*[-+−\d.])/gi, " "),
    };
  return { isPolar: head !== null && /c/i.test(head[1]!), rest };
}

/** "54,5 12 −20,1" has decimal commas, "54,12,20" commas between. */
function threeNumbers(text: string): number[] {
  const read = (pattern: RegExp): number[] =>
    (text.match(pattern) ?? []).map((part) => Number(part.replace("−", "-").replace(",", ".")));
  const withCommas = read(/[-+−]?(?:\d+(?:[.,]\d+)?|[.,]\d+)/g);
  return withCommas.length === 3 ? withCommas : read(/[-+−]?(?:\d+(?:\.\d+)?|\.\d+)/g);
}

const fault = (where: string, expected: string, got: string): Problem => ({ where, expected, got, severity: "fault" });
const refused = (where: string, expected: string, got: string): Outcome<TypedShade> => ({
  value: null,
  problems: [fault(where, expected, got)],
});
