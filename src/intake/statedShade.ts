/** A colour as people type it: a hex code, rgb(…) or lab(…) somewhere in a piece of text. */
import { hexFromLab, labFromHex, labFromLinear, type Lab } from "../colour/lab.ts";
import { linearFromBytes } from "../colour/srgb.ts";

export interface StatedShade {
  /** "#rrggbb", lower case. */
  hex: string;
  /** CIELAB, D65. */
  lab: Lab;
  /** What else the text said, without the colour. */
  rest: string;
}

/** The first colour stated in a text; null where there is none. A hex code needs its "#". */
export function findShade(text: string): StatedShade | null {
  const hex = /#([0-9a-f]{6}|[0-9a-f]{3})(?![0-9a-z])/i.exec(text);
  if (hex) return stated(text, hex, labFromHex(hex[0]));
  const rgb = /\brgb\s*\(\s*(\d{1,3})[\s,;]+(\d{1,3})[\s,;]+(\d{1,3})\s*\)/i.exec(text);
  if (rgb) {
    const [red, green, blue] = [Number(rgb[1]), Number(rgb[2]), Number(rgb[3])];
    const inRange = red <= 255 && green <= 255 && blue <= 255;
    return stated(text, rgb, inRange ? labFromLinear(linearFromBytes(red, green, blue)) : null);
  }
  const number = String.raw`([-+]?\d+(?:\.\d+)?)`;
  const labs = new RegExp(String.raw`\blab\s*\(\s*${number}%?[\s,;]+${number}[\s,;]+${number}\s*\)`, "i").exec(text);
  if (!labs) return null;
  const lab: Lab = [Number(labs[1]), Number(labs[2]), Number(labs[3])];
  return stated(text, labs, isLab(lab) ? lab : null);
}

/** Whether three numbers can be a CIELAB colour of cloth: L* 0 to 100, a* and b* within ±150. */
export function isLab([lightness, a, b]: Lab): boolean {
  // ±150: the far corners of wide-gamut displays lie within ±130; our choice, only to catch a wrong column.
  return lightness >= 0 && lightness <= 100 && Math.abs(a) <= 150 && Math.abs(b) <= 150;
}

function stated(text: string, match: RegExpExecArray, lab: Lab | null): StatedShade | null {
  if (!lab) return null;
  const rest = `${text.slice(0, match.index)} ${text.slice(match.index + match[0].length)}`;
  return { hex: hexFromLab(lab), lab, rest };
}
