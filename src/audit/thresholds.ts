/** The limits of judgement, each a setting with its birthplace. */

export const THRESHOLDS = {
  /** Two values of the pattern lie in an order that she would notice when they differ by this much L*. Common practice: under 8 vanishes. */
  orderMatters: 8,
  /** The order has changed when her yarns differ by this much L* the other way. Our choice: half of what vanishes. */
  orderChanged: 4,
  /** A row is worse than the pattern's own only when it has lost this part of its V. Our choice, to be quiet about small changes. */
  worseThanPattern: 0.75,
  /** A colour takes over when its visual weight grows by this share of the whole … Our choice. */
  weightGrown: 0.05,
  /** … and by this factor; design: no ranking closer than 10 % is told, so well beyond it. Our choice. */
  weightFactor: 1.35,
  /** … and it stands out by this much more than the pattern's colour did, in standard deviations. Our choice. */
  standsOutMore: 0.3,
  /** Or it stands out by this much more … Our choice: about twice the pattern's usual difference between a quiet and a leading colour. */
  standsOutFarMore: 0.5,
  /** … to at least this, without having lost weight. Our choice. */
  standsOutAtLeast: 1.5,
  /** Twice the weight is a fault. Our choice. */
  weightFault: 2,
  /** The longest strand left uncaught at the back, cm. Trade sources: no more than 1 in / 2.5 cm. */
  floatCm: 2.5,
} as const;
