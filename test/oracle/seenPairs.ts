/** Pairs of colours that seen pictures are tried in: greys from close to far apart, hue alone, two darks, two lights. */
import { labFromHex, type Lab } from "../../src/colour/lab.ts";

export const SEEN_PAIRS: Readonly<Record<string, readonly [Lab, Lab]>> = {
  "greys 3 apart": [grey(48.5), grey(51.5)],
  "greys 8 apart": [grey(46), grey(54)],
  "greys 15 apart": [grey(42.5), grey(57.5)],
  "cream and charcoal": [labFromHex("#ede6d6")!, labFromHex("#3a3a3a")!],
  "madder and moss": [labFromHex("#b03a3a")!, labFromHex("#2f7a4b")!],
  "navy and black": [labFromHex("#1f2a4d")!, labFromHex("#1a1a1a")!],
  "oat and pebble": [labFromHex("#b9ae9a")!, labFromHex("#a7a7a5")!],
};

export function grey(lightness: number): Lab {
  return [lightness, 0, 0];
}
