/** Shades all round the colours of yarn, near enough to one another that any ball has one that is somewhere near. */
import { ontoScreen } from "./gamut.ts";
import { labFromLch, type Lab } from "./lab.ts";

/** L*, C* and degrees between hues; our choice: about 25 apart in CIELAB, within what an sRGB screen shows. */
const RINGS: readonly { readonly lightness: number; readonly chroma: number; readonly apart: number }[] = [
  { lightness: 80, chroma: 14, apart: 60 },
  { lightness: 75, chroma: 38, apart: 36 },
  { lightness: 52, chroma: 50, apart: 30 },
  { lightness: 48, chroma: 20, apart: 45 },
  { lightness: 30, chroma: 38, apart: 36 },
  { lightness: 22, chroma: 14, apart: 60 },
];
const GREYS: readonly number[] = [95, 80, 65, 50, 35, 20, 8];

/** CIELAB, D65, each as a screen can show it: the greys from light to dark, then ring by ring from red round by yellow. */
export function startShades(): readonly Lab[] {
  const rings = RINGS.flatMap(({ lightness, chroma, apart }) =>
    Array.from({ length: 360 / apart }, (_, at) => ontoScreen(labFromLch([lightness, chroma, 20 + at * apart]))),
  );
  return [...GREYS.map((lightness): Lab => [lightness, 0, 0]), ...rings];
}
