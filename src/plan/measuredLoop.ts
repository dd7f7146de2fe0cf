/** Her own loop length and slack out of a swatch: by unpicking stitches, or by weighing, with what the ruler and the scale leave open. */
import type { Outcome, Problem } from "../base/problem.ts";
import { stitchSizeMm, type Gauge } from "../garment/gauge.ts";
import { metresFromGrams } from "../yarn/lengths.ts";
import { CAST_ON_AND_OFF, type MeasuredLoop } from "./settings.ts";

/** A ruler is read to the centimetre where yarn is laid along it. Source: trade.md 1.7. */
const READING_CM = 1;

/**
 * From so many stitches, a hundred as a rule, that were knotted off, unpicked and laid along a ruler: the best single number. Source: trade.md 1.7.
 * Example: 100 stitches of 160 cm are 16 mm each, within 0.6 %.
 */
export function loopByUnpicking({
  stitches,
  lengthCm,
  gauge,
}: {
  readonly stitches: number;
  readonly lengthCm: number;
  readonly gauge: Gauge;
}): Outcome<MeasuredLoop> {
  const mm = (10 * lengthCm) / stitches;
  return judged({ mm, gauge, within: READING_CM / lengthCm }, []);
}

/** A scale that leaves more open than this is no better than the model. Source: trade.md 1.7: a 1 g scale is refused under about 20 g. */
const MOST_WITHIN = 0.05;

/**
 * From a swatch on the scales: its yarn, without what cast-on (two rows) and cast-off (one) take, by its stitches. Wool weighs 4 to 8 % less in a
 * heated room than where its label was printed, so that the length reads as much too short: a whole ball weighed the same day
 * cancels it. Source: trade.md 1.7.
 * Example: 2000 stitches of 7.6 g: a 0.1 g scale leaves 1.3 % open, a 1 g scale 13 %, and is refused.
 */
export function loopByWeighing({
  grams,
  stitches,
  rows,
  scaleG,
  metresPer100g,
  gauge,
  wholeBall,
}: {
  readonly grams: number;
  /** Across the swatch, and rows of it. */
  readonly stitches: number;
  readonly rows: number;
  /** The scale's least step. */
  readonly scaleG: number;
  readonly metresPer100g: number;
  readonly gauge: Gauge;
  /** A whole ball of the yarn: what its band says, and what it weighs today. */
  readonly wholeBall?: { readonly labelG: number; readonly weighedG: number };
}): Outcome<MeasuredLoop> {
  const damp = wholeBall ? wholeBall.labelG / wholeBall.weighedG : 1;
  const metres = metresFromGrams(grams * damp, metresPer100g);
  const loops = stitches * (rows + CAST_ON_AND_OFF.castOnRows + CAST_ON_AND_OFF.castOffRows);
  const within = scaleG / grams;
  const problems: Problem[] = [];
  if (within > MOST_WITHIN)
    problems.push({
      where: "the scales",
      expected: `steps of ${roundedDown(grams * MOST_WITHIN)} g or less for ${grams} g of knitting`,
      got: `${scaleG} g, which leaves ${Math.round(within * 100)} % open`,
      severity: "fault",
    });
  if (!wholeBall)
    problems.push({
      where: "the swatch's weight",
      expected: "a whole ball of the yarn weighed on the same day",
      got: "none: in a heated room wool weighs 4 to 8 % less than its band says, and the length comes out as much too short",
      severity: "note",
    });
  return judged({ mm: (1000 * metres) / loops, gauge, within }, problems);
}

/**
 * Slack of floats out of the yarn of one stitch in two strands against plain: (measured − l) / w − 1. Source: trade.md 1.7.
 * Example: 19.964 mm in two strands at 28 stitches, 16.036 mm plain: 0.10.
 */
export function slackFrom({
  twoStrandMm,
  plainMm,
  gauge,
}: {
  readonly twoStrandMm: number;
  readonly plainMm: number;
  readonly gauge: Gauge;
}): Outcome<number> {
  const slack = (twoStrandMm - plainMm) / stitchSizeMm(gauge).widthMm - 1;
  if (slack >= LEAST_SLACK && slack <= MOST_SLACK) return { value: Math.max(0, slack), problems: [] };
  return {
    value: null,
    problems: [
      {
        where: "the two-strand stitches",
        expected: "floats as long as what they pass, or up to half as long again",
        got: `${twoStrandMm.toFixed(1)} mm a stitch against ${plainMm.toFixed(1)} mm plain, a slack of ${Math.round(slack * 100)} %`,
        severity: "fault",
      },
    ],
  };
}

/** Beyond these somebody has measured something else: the ruler's own error is a few percent of a float. Our choice. */
const LEAST_SLACK = -0.1;
const MOST_SLACK = 0.5;

/** A loop is about four times as long as its stitch is wide (trade.md 1.5: 3.9 to 4.5). Far from that is a slip of the pen. Our choice. */
const WIDTHS = { least: 2.5, most: 7 } as const;

function judged(measured: MeasuredLoop, problems: readonly Problem[]): Outcome<MeasuredLoop> {
  const widths = measured.mm / stitchSizeMm(measured.gauge).widthMm;
  const isOdd = !(widths >= WIDTHS.least && widths <= WIDTHS.most);
  const all = isOdd
    ? [
        ...problems,
        {
          where: "the yarn of one stitch",
          expected: `${WIDTHS.least} to ${WIDTHS.most} times its width`,
          got: `${measured.mm.toFixed(1)} mm, ${widths.toFixed(1)} times ${stitchSizeMm(measured.gauge).widthMm.toFixed(1)} mm`,
          severity: "fault" as const,
        },
      ]
    : [...problems];
  return { value: all.some(({ severity }) => severity === "fault") ? null : measured, problems: all };
}

const roundedDown = (grams: number): number => Math.floor(grams * 100) / 100;
