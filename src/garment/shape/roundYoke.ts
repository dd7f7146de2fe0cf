/** A garment with a round yoke: body and sleeves are joined at the underarms, and stitches go by the percentage system on rounds that suit the bands. */
import type { RoundBand } from "../rounds.ts";
import { stackedPiece, type Level, type Piece } from "../schematic.ts";
import { underarmShare, yokeCounts, yokeDepthCm } from "../yoke.ts";
import { yokePlan, type YokePlan } from "../yokePlan.ts";
import {
  around,
  balanceOf,
  cmOfRounds,
  cmOfStitches,
  gaugeOf,
  partOf,
  roundsIn,
  type Lengths,
  type Shaped,
  type ShapedPart,
  type ShapeNote,
  type ShapeOf,
} from "./parts.ts";
import { sleeves } from "./sleeve.ts";
import { torso, type Torso } from "./torso.ts";

export interface ShapedYoke extends Shaped {
  readonly yoke: YokePlan;
}

export function roundYoke(of: ShapeOf, lengths: Lengths, open: boolean): ShapedYoke {
  const gauge = gaugeOf(of, "yoke");
  const trunk = torso(of, lengths, { open, above: 0 });
  const share = underarmShare(trunk.cm);
  const system = yokeCounts(trunk.stitches, { underarmShare: share });
  // The standard's arms run tight in large sizes (trade.md 3): no sleeve is narrower than the arm and half of the ease.
  const armCm = of.body.upperArm + Math.max(0, of.easeCm) / 2;
  const sleeveGauge = gaugeOf(of, "sleeve");
  const systemCm = (system.upperArm * 10) / sleeveGauge.stitches;
  const depthCm = yokeDepthCm(trunk.cm);
  const arms = sleeves(of, lengths, {
    cm: Math.max(systemCm, armCm),
    lengthCm: of.body.underarmLength,
    wrist: system.wrist,
  });
  const counts = yokeCounts(trunk.stitches, { underarmShare: share, upperArm: arms.stitches });
  const chart = of.charts?.yoke;
  const wanted = Math.max(4, of.choices?.yoke?.rounds ?? roundsIn(depthCm, gauge));
  const plan = yokePlan({
    rounds: wanted,
    union: counts.union,
    gauge,
    bandOfRow: chart?.bandOfRow ?? [],
    balance: open ? balanceOf(chart) : 0,
    ...(chart?.stitchesOfRow && { stitchesOfRow: chart.stitchesOfRow }),
  });
  const parts = yokeParts(of, plan, trunk, open);
  const neck = plan.decreases.at(-1)!.to;
  const band = partOf(of, "rib", {
    id: "neckband",
    name: "neckband",
    stitches: of.charts?.rib
      ? around(of, "rib", {
          name: "neckband",
          cm: cmOfStitches(neck, gaugeOf(of, "rib")),
          rounds: 1,
          balance: open ? balanceOf(of.charts.rib) : 0,
        }).chosen.stitches
      : neck,
    rounds: roundsIn(lengths.neckband, gaugeOf(of, "rib")),
    from: [parts.at(-1)!.id],
    beside: trunk.steek,
  });
  const cm = cmOfRounds(plan.rounds, gauge);
  const notes: ShapeNote[] = [
    ...trunk.notes,
    ...(open ? [{ kind: "steek", stitches: trunk.steek[0]!.stitches, names: ["front"] } as const] : []),
    { kind: "back neck", cm: BACK_NECK_CM },
    ...(armCm > systemCm
      ? [
          {
            kind: "arm widened",
            from: system.upperArm,
            to: arms.stitches,
            upperArmCm: of.body.upperArm,
          } as const,
        ]
      : []),
    ...(plan.rounds > wanted ? [{ kind: "yoke deeper", wantedCm: depthCm, cm } as const] : []),
    ...(plan.inPattern.length > 0 ? [{ kind: "in pattern", rounds: plan.inPattern } as const] : []),
  ];
  return {
    parts: [...trunk.parts, ...arms.parts, ...parts, band],
    pieces: [
      bodyPiece(of, trunk, open),
      arms.piece,
      yokePiece(of, plan, parts, { cut: open, union: counts.union, band }),
    ],
    measured: [trunk.measured, arms.measured],
    heights: [
      trunk.height,
      arms.height,
      { name: "yoke", wantedCm: depthCm, cm, rounds: plan.rounds, endsIn: null, whole: [] },
    ],
    notes,
    finishedCm: trunk.cm,
    yoke: plan,
  };
}

/** The plain circle rides up at the throat: short rows lift the back by so much. The need: trade.md 3; the height: common practice, no source. */
const BACK_NECK_CM = 2.5;

/** Plain rounds below, the chart, plain rounds above; a plain yoke is one part. */
function yokeParts(of: ShapeOf, plan: YokePlan, trunk: Torso, open: boolean): ShapedPart[] {
  const chart = of.charts?.yoke;
  const rows = chart?.bandOfRow.length ?? 0;
  const beside = trunk.steek;
  const from = ["body", "left-sleeve", "right-sleeve"];
  const stitchesAt = (round: number): number =>
    plan.decreases.findLast((decrease) => decrease.round <= round)?.to ?? plan.stitches;
  const span = (first: number, last: number): Pick<ShapedPart, "stitches" | "rounds" | "decreases"> => ({
    stitches: stitchesAt(first),
    rounds: last - first + 1,
    decreases: plan.decreases
      .filter(({ round }) => round > first && round <= last)
      .map(({ round, to }) => ({ round: round - first + 1, to })),
  });
  if (rows === 0)
    return [partOf(of, "yoke", { id: "yoke", name: "yoke", ...span(1, plan.rounds), from, beside, plain: true })];
  const first = plan.before + 1;
  const last = plan.before + rows;
  const onBand = new Map(plan.parts.flatMap(({ stitches, bands }) => bands.map(({ id }) => [id, stitches] as const)));
  const stitchOf = ({ id }: RoundBand): number => {
    const stitches = onBand.get(id) ?? plan.stitches;
    return open ? (stitches - 1) / 2 : stitches / 2 - 0.5;
  };
  const lines = [{ name: open ? "the middle of the back" : "the middle of the front", stitchOf }];
  return [
    partOf(of, "yoke", {
      id: "yoke-below",
      name: "yoke below the chart",
      ...span(1, plan.before),
      from,
      beside,
      plain: true,
    }),
    partOf(of, "yoke", {
      id: "yoke",
      name: "yoke",
      ...span(first, last),
      from: ["yoke-below"],
      beside,
      // A chart that narrows begins with its own edge: its columns are no stitches of the round.
      lines: chart?.stitchesOfRow ? [] : lines,
      maySlip: !open,
    }),
    partOf(of, "yoke", {
      id: "yoke-above",
      name: "yoke above the chart",
      ...span(last + 1, plan.rounds),
      from: ["yoke"],
      beside,
      plain: true,
    }),
  ];
}

function bodyPiece(of: ShapeOf, trunk: Torso, open: boolean): Piece {
  const [hem, body] = trunk.parts as [ShapedPart, ShapedPart];
  const ribGauge = gaugeOf(of, "rib");
  return stackedPiece({
    id: "body",
    name: "body",
    sections: ["hem", "body"],
    times: 1,
    tube: true,
    levels: [
      { name: "hem", rows: 0, stitches: hem.stitches, gauge: ribGauge },
      { name: "end of the rib", rows: hem.rounds, stitches: hem.stitches, gauge: ribGauge, side: "rib" },
      { name: "after the rib", rows: 0, stitches: trunk.stitches, gauge: trunk.gauge },
      { name: "underarm", rows: body.rounds, stitches: trunk.stitches, gauge: trunk.gauge, side: "body" },
    ],
    ...(open && { cut: "front steek" }),
  });
}

function yokePiece(
  of: ShapeOf,
  plan: YokePlan,
  parts: readonly ShapedPart[],
  { cut, union, band }: { cut: boolean; union: number; band: ShapedPart },
): Piece {
  const gauge = gaugeOf(of, "yoke");
  const places = [1, ...plan.decreases.map(({ round }) => round)];
  const counts = [plan.stitches, ...plan.decreases.map(({ to }) => to)];
  const levels = plan.decreases.flatMap(({ round, to }, index): Level[] => {
    const before = { rows: round - places[index]!, stitches: counts[index]!, gauge };
    return [
      { name: `round ${round}`, ...before, side: "yoke" },
      { name: index === plan.decreases.length - 1 ? "neck" : `after round ${round}`, rows: 0, stitches: to, gauge },
    ];
  });
  return stackedPiece({
    id: "yoke",
    name: "yoke",
    sections: [...parts.map(({ id }) => id), band.id],
    times: 1,
    tube: true,
    levels: [
      { name: "body and sleeves joined", rows: 0, stitches: union, gauge },
      ...(plan.stitches === union ? [] : [{ name: "first round", rows: 0, stitches: plan.stitches, gauge }]),
      ...levels,
      { name: "neckband", rows: band.rounds + 1, stitches: band.stitches, gauge: gaugeOf(of, "rib"), side: "neckband" },
    ],
    ...(cut && { cut: "front steek" }),
  });
}
