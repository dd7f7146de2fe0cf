/** What all garments for the body begin with: a hem in rib and a tube up to the underarms, closed or with a steek at the front. */
import type { Gauge } from "../gauge.ts";
import {
  around,
  balanceOf,
  bandsOf,
  cmOfStitches,
  gaugeOf,
  heightOf,
  partOf,
  roundsIn,
  type Height,
  type Knitted,
  type Lengths,
  type Measured,
  type ShapedBeside,
  type ShapedPart,
  type ShapeNote,
  type ShapeOf,
} from "./parts.ts";
import { oppositeShows } from "../fitting.ts";
import type { Line } from "../centring.ts";

export interface Torso {
  readonly parts: readonly ShapedPart[];
  readonly measured: Measured;
  readonly height: Height;
  readonly notes: readonly ShapeNote[];
  /** Around the body, panels and all, without the steek. */
  readonly stitches: number;
  readonly cm: number;
  readonly gauge: Gauge;
  readonly steek: readonly ShapedBeside[];
  /** Chart row of the round after the body's last. */
  readonly nextRow: number;
  /** Chart column of the body's stitch at so many from the round's beginning. */
  readonly columnAt: (stitch: number) => number;
}

/** The hem is drawn in. Source: trade.md 3, the percentage system. */
const RIB_SHARE = 0.9;
/** Five for a crocheted edge, cut through the middle stitch. Source: trade.md 3. */
const USUAL_STEEK = 5;

/** @param after stitches of the chart before it; with how many of its columns passed over */
export const steekNamed = (of: ShapeOf, name: string, after: number, skips?: number): ShapedBeside => ({
  kind: "steek",
  name,
  stitches: of.steekStitches ?? USUAL_STEEK,
  after,
  ...(skips !== undefined && { skips }),
});

/** @param above rounds that go on above the underarms in the same chart */
export function torso(of: ShapeOf, lengths: Lengths, { open, above }: { open: boolean; above: number }): Torso {
  const gauge = gaugeOf(of, "body");
  const chart = of.charts?.body;
  const length = of.body.bodyLength - lengths.hemRib;
  const rounds = of.choices?.body?.rounds ?? roundsIn(Math.max(1, length), gauge);
  const knitted = { startRow: 1, rounds: rounds + above };
  const measured = around(of, "body", {
    name: "chest",
    cm: of.body.chest + of.easeCm,
    rounds,
    knitted,
    balance: open ? balanceOf(chart, knitted) : 0,
    every: open ? 1 : 2,
    hasSides: true,
  });
  const { chosen } = measured;
  const sides = sidesOf(chosen.stitches, open);
  const panels: ShapedBeside[] =
    chosen.panel > 0
      ? [
          { kind: "panel", name: "left side", stitches: chosen.panel, after: sides.left },
          { kind: "panel", name: "right side", stitches: chosen.panel, after: sides.right },
        ]
      : [];
  const stitches = chosen.stitches + 2 * chosen.panel;
  const steek = open ? [steekNamed(of, "front", 0)] : [];
  const own = chosen.how === "another gauge" ? chosen.gauge : (of.gauges?.body ?? null);
  const ribGauge = gaugeOf(of, "rib");
  const ribRounds = roundsIn(lengths.hemRib, ribGauge);
  const hem = around(of, "rib", {
    name: "hem",
    cm: cmOfStitches(RIB_SHARE * stitches, ribGauge),
    rounds: ribRounds,
    balance: open ? balanceOf(of.charts?.rib) : 0,
    every: 2,
  }).chosen.stitches;
  const lines = bodyLines(chosen.stitches, open);
  const body = partOf(of, "body", {
    id: "body",
    name: "body",
    stitches: chosen.stitches,
    rounds,
    from: ["hem"],
    beside: [...panels, ...steek],
    lines,
    maySlip: !open,
    gauge: own,
  });
  const height = heightOf("body above the hem", length, rounds, { gauge: own ?? gauge, chart });
  const rows = chart?.bandOfRow.length ?? 0;
  return {
    parts: [
      partOf(of, "rib", {
        id: "hem",
        name: "hem",
        stitches: hem,
        rounds: ribRounds,
        from: [],
        beside: steek,
      }),
      body,
    ],
    measured,
    height,
    notes: open ? [] : opposite(of, body, knitted),
    stitches,
    cm: cmOfStitches(stitches, own ?? gauge),
    gauge: own ?? gauge,
    steek,
    nextRow: rows === 0 ? 1 : (rounds % rows) + 1,
    columnAt: (stitch) => (chart ? ((body.startColumn - 1 + stitch) % chart.width) + 1 : 1),
  };
}

/** Stitches of the round before each side. It begins at the left side, the front first; cut open, in the middle of the front. */
export function sidesOf(stitches: number, open: boolean): { left: number; right: number } {
  const quarter = Math.round(stitches / 4);
  return open ? { right: quarter, left: stitches - quarter } : { left: 0, right: stitches / 2 };
}

/** The round begins at the left side, the front first; cut open, it begins at the front edge. */
function bodyLines(stitches: number, open: boolean): Line[] {
  const line = (name: string, stitch: number): Line => ({ name, stitchOf: () => stitch });
  return open
    ? [line("the middle of the back", (stitches - 1) / 2)]
    : [line("the middle of the front", stitches / 4 - 0.5), line("the middle of the back", (3 * stitches) / 4 - 0.5)];
}

/** Where the back does not show what the front does, by the widest band; a piece with a steek has no round to close. */
function opposite(of: ShapeOf, body: ShapedPart, knitted: Knitted): ShapeNote[] {
  const widest = bandsOf(of.charts?.body, knitted).toSorted((a, b) => b.band.repeat - a.band.repeat)[0];
  if (!widest) return [];
  const shows = oppositeShows(body.stitches, widest.band.repeat);
  return shows === "same" ? [] : [{ kind: "opposite", section: body.name, shows }];
}
