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
  const rgb = RGB.exec(text);
  if (rgb) {
    const bytes = rgb.slice(1, 4).map((part) => (part.endsWith("%") ? Number(part.slice(0, -1)) * 2.55 : Number(part)));
    const [red, green, blue] = bytes as [number, number, number];
    return stated(text, rgb, Math.max(...bytes) <= 255 ? labFromLinear(linearFromBytes(red, green, blue)) : null);
  }
  const three = LAB.exec(text);
  if (!three) return null;
  const [one, two, last] = three.slice(2, 5).map(Number) as [number, number, number];
  const turn = (last * Math.PI) / 180;
  const round = three[1]!.toLowerCase() === "lch";
  const lab: Lab = round ? [one, two * Math.cos(turn), two * Math.sin(turn)] : [one, two, last];
  return stated(text, three, isLab(lab) ? lab : null);
}

const PART = String.raw`(\d{1,3}(?:\.\d+)?%?)`;
/** As in CSS Color 4, with or without commas and an opacity. */
const RGB = new RegExp(String.raw`\brgba?\s*\(\s*${PART}[\s,;]+${PART}[\s,;]+${PART}\s*(?:[,/]\s*[\d.]+%?\s*)?\)`, "i");
const NUMBER = String.raw`([-+]?\d+(?:\.\d+)?(?:e[-+]?\d{1,3})?)`;
const LAB = new RegExp(
  String.raw`\b(lab|lch)\s*\(\s*${NUMBER}%?[\s,;]+${NUMBER}[\s,;]+${NUMBER}(?:deg|°)?\s*(?:/\s*[\d.]+%?\s*)?\)`,
  "i",
);

/** Whether three numbers can be a CIELAB colour: L* 0 to 100, a* and b* within ±160, as a file may hold them. */
export function isLab([lightness, a, b]: Lab): boolean {
  return lightness >= 0 && lightness <= 100 && Math.abs(a) <= 160 && Math.abs(b) <= 160;
}

function stated(text: string, match: RegExpExecArray, lab: Lab | null): StatedShade | null {
  if (!lab) return null;
  const rest = `${text.slice(0, match.index)} ${text.slice(match.index + match[0].length)}`;
  return { hex: hexFromLab(lab), lab, rest };
}
