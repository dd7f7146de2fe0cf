/** A swatch as she measured it: gauge before and after washing, the yarn of a stitch, the slack of floats. */
import { isFault, type Outcome, type Problem } from "../base/problem.ts";
import type { Gauge } from "../garment/gauge.ts";
import { measuredGauge, washedBy, type Counted } from "../garment/measuredGauge.ts";
import { loopByUnpicking, loopByWeighing, slackFrom } from "../plan/measuredLoop.ts";
import type { MeasuredLoop } from "../plan/settings.ts";

interface Unpicked {
  readonly stitches: number;
  readonly lengthCm: number;
}

export interface SwatchCounts {
  /** In the middle, washed and dry. */
  readonly counted: Omit<Counted, "swatchWidthCm">;
  /** Per 10 cm, before it was washed. */
  readonly before?: Gauge;
  readonly widthCm?: number;
  /** Plain knitting. */
  readonly unpicked?: Unpicked;
  /** In two strands, of all yarn together. */
  readonly stranded?: Unpicked;
  /** Instead of unpicking. */
  readonly weighed?: Omit<Parameters<typeof loopByWeighing>[0], "gauge">;
}

export interface MeasuredSwatch {
  readonly gauge: Gauge;
  readonly within: { readonly stitches: number; readonly rows: number };
  /** What washing did to width and height, as factors; null where it was not counted before. */
  readonly washed: { readonly width: number; readonly height: number } | null;
  readonly loop: MeasuredLoop | null;
  readonly slack: number | null;
}

/** Unpicked stitches count before a weight. */
export function measuredSwatch(counts: SwatchCounts): Outcome<MeasuredSwatch> {
  const { counted, before, widthCm, unpicked, stranded, weighed } = counts;
  const { gauge, within, problems } = measuredGauge({
    ...counted,
    ...(widthCm !== undefined && { swatchWidthCm: widthCm }),
  });
  const found: Problem[] = [...problems];
  const kept = <T>(outcome: Outcome<T> | null): T | null => {
    found.push(...(outcome?.problems ?? []));
    return outcome?.value ?? null;
  };
  const loop = kept(
    unpicked ? loopByUnpicking({ ...unpicked, gauge }) : weighed ? loopByWeighing({ ...weighed, gauge }) : null,
  );
  if (stranded && !loop)
    found.push({
      where: "the two-strand stitches",
      expected: "plain ones of the same swatch, unpicked or weighed, beside them",
      got: "none",
      severity: "fault",
    });
  const slack =
    stranded && loop
      ? kept(slackFrom({ twoStrandMm: (10 * stranded.lengthCm) / stranded.stitches, plainMm: loop.mm, gauge }))
      : null;
  if (found.some(isFault)) return { value: null, problems: found };
  return { value: { gauge, within, washed: before ? washedBy(before, gauge) : null, loop, slack }, problems: found };
}
