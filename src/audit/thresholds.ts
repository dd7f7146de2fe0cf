/** The limits of judgement, each a setting with its birthplace. */

export const THRESHOLDS = {
  /** Two values of the pattern lie in an order that she would notice when they differ by this much L*. Common practice: under 8 vanishes. */
  orderMatters: 8,
  /** The order has changed when her yarns differ by this much L* the other way. Our choice: half of what vanishes. */
  orderChanged: 4,
  /** A row is worse than the pattern's own only when it has lost this part of its V. Our choice, to be quiet about small changes. */
  worseThanPattern: 0.75,
  /** A colour can take over when it is met in this many bands … Birthplace: vision.md C3, where stands-out begins to mean something. */
  recursInBands: 3,
  /** … or in this part of the stitches. Common practice: an accent has at most 5–10 %; a little less, our choice. */
  recursInArea: 0.04,
  /** C* as seen from which a yarn is called saturated. Our choice: a quiet yarn has C* under 20 or so, a bright one over 50, and stitches mixed with others are seen duller. */
  loudChroma: 30,
  /** … so far above the mean of the rest, C*. Our choice. */
  louderThanRest: 18,
  /** … and by this much more so than the pattern's colour was above its own rest, C*. Our choice. */
  louderThanPattern: 22,
  /** Without being saturated, a colour takes over when its visual weight has grown by this share of the whole … Our choice. */
  weightGrown: 0.15,
  /** … and by this factor; no ranking closer than 10 % is told, so well beyond it. Our choice. */
  weightFactor: 1.5,
  /** … and it stands out by this much more than the pattern's colour did, in standard deviations. Our choice. */
  standsOutMore: 0.3,
  /** Shares of the visual weight are set side by side from this factor on. Design: no ranking closer than 10 %. */
  tellsShares: 1.1,
  /** Two colours nearer than this in L* are not told apart by value. Common practice: under 8 vanishes. */
  oneValue: 8,
  /** A colour of a variegated yarn is noticed when it has this part of it. Our choice: one stitch in ten. */
  fleckShare: 0.1,
  /** Of a yarn of which nobody has said how long its colours last; a smaller part is most likely specks. Our choice. */
  fleckShareUnsaid: 0.25,
  /** Of nearly one value, it still parts from the other colour by hue when this far from it, ΔE00. Our choice: a third of the way from red to green. */
  fleckHue: 20,
  /** Patches are told of when this part of the chart's stitches may vanish in them. Our choice: fewer are a stray stitch here and there. */
  fleckStitches: 0.003,
  /** The longest strand left uncaught at the back, cm. Trade sources: no more than 1 in / 2.5 cm. */
  floatCm: 2.5,
  /** Stitches of repeat from which the middles of two bands are looked at: smaller ones make a texture in which nobody looks for middles. Our choice. */
  middlesFromRepeat: 6,
  /** … from which a single stitch off is a slip, and not a quarter of the repeat. Our choice. */
  oneOffFromRepeat: 8,
  /** Plain rows between two bands up to which they are seen as lying over one another. Our choice. */
  rowsBetween: 1,
  /** So many pairs of bands that all lie one way make a single other way look like a slip. Our choice. */
  othersAlike: 3,
} as const;
