/** Small things in the round: a hat with its crown, mittens with their tips and thumbs, and plain tubes for wrists. */
import { stackedPiece } from "../schematic.ts";
import {
  around,
  cmOfRounds,
  cmOfStitches,
  evenly,
  gaugeOf,
  heightOf,
  partOf,
  roundsIn,
  type Height,
  type Lengths,
  type Measured,
  type Shaped,
  type ShapedPart,
  type ShapeOf,
} from "./parts.ts";

/** Wedges of a crown: eight stitches go in a round of decreases. Common practice, no source. */
const WEDGES = 8;
/** From the brim over the head to the crown's middle, as a part of the head's measure: 20.7 cm for 56. Common practice, no source. */
const HAT_HEIGHT = 0.37;

export function hat(of: ShapeOf, lengths: Lengths): Shaped {
  const gauge = gaugeOf(of, "body");
  const cm = of.body.head + of.easeCm;
  // The crown lies flat where it is as high as a circle of the hat's measure is wide from its middle.
  const crownCm = cm / (2 * Math.PI);
  const bodyCm = Math.max(1, of.body.head * HAT_HEIGHT - lengths.hemRib - crownCm);
  const rounds = of.choices?.body?.rounds ?? roundsIn(bodyCm, gauge);
  const measured = around(of, "body", { name: "head", cm, rounds, every: of.charts?.body ? 2 : WEDGES });
  const { stitches, own } = taken(of, measured);
  const rib = ribOf(of, measured, { id: "brim", name: "brim", cm: lengths.hemRib });
  const crownStart = WEDGES * Math.max(1, Math.round(stitches / WEDGES));
  const crownGauge = gaugeOf(of, "crown");
  const crownRounds = Math.max(roundsIn(crownCm, crownGauge), crownStart / WEDGES);
  const decreases = evenly({ from: crownStart, to: WEDGES, rounds: crownRounds }, WEDGES);
  const body = partOf(of, "body", {
    id: "body",
    name: "hat",
    stitches,
    rounds,
    from: ["brim"],
    gauge: own,
    lines: [{ name: "the middle of the front", stitchOf: () => stitches / 2 - 0.5 }],
    maySlip: true,
  });
  const crown = partOf(of, "crown", {
    id: "crown",
    name: "crown",
    stitches: crownStart,
    rounds: crownRounds,
    decreases,
    from: ["body"],
  });
  const height = heightOf("hat above the brim", bodyCm, rounds, { gauge: own ?? gauge, chart: of.charts?.body });
  return {
    parts: [rib, body, crown],
    pieces: [
      stackedPiece({
        id: "hat",
        name: "hat",
        sections: ["brim", "body", "crown"],
        times: 1,
        tube: true,
        levels: [
          ...ribLevels(of, rib),
          { name: "after the rib", rows: 0, stitches, gauge: own ?? gauge },
          { name: "crown begins", rows: rounds, stitches, gauge: own ?? gauge, side: "hat" },
          { name: "crown", rows: 0, stitches: crownStart, gauge: crownGauge },
          { name: "drawn together", rows: crownRounds, stitches: WEDGES, gauge: crownGauge, side: "crown" },
        ],
      }),
    ],
    measured: [measured],
    heights: [height],
    notes: [],
    finishedCm: measured.chosen.cm,
  };
}

/** A thumb is about two fifths of the hand around, and begins at a third of its height; it is a third as long. Common practice, no source. */
const THUMB = { around: 0.4, at: 1 / 3, long: 1 / 3 } as const;
/** Four stitches go in every round of a mitten's tip, two at either side, until so many are left to be drawn together. Common practice, no source. */
const TIP = { step: 4, left: 8 } as const;

export function mittens(of: ShapeOf, lengths: Lengths): Shaped {
  const gauge = gaugeOf(of, "hand");
  const thumbRounds = roundsIn(of.body.handLength * THUMB.long, gauge);
  const measured = around(of, "hand", {
    name: "hand",
    cm: of.body.hand + of.easeCm,
    rounds: of.choices?.hand?.rounds ?? roundsIn(of.body.handLength, gauge),
    every: 2,
  });
  const { stitches, own } = taken(of, measured);
  const tipRounds = Math.max(1, Math.floor((stitches - TIP.left) / TIP.step));
  const handCm = Math.max(1, of.body.handLength - cmOfRounds(tipRounds, gauge));
  const rounds = of.choices?.hand?.rounds ?? roundsIn(handCm, gauge);
  const rows = of.charts?.hand?.bandOfRow.length ?? 0;
  const tipRow = rows === 0 ? 1 : (rounds % rows) + 1;
  const thumb = 2 * Math.round((THUMB.around * stitches) / 2);
  const parts = (["left", "right"] as const).flatMap((side): ShapedPart[] => [
    ribOf(of, measured, { id: `${side}-cuff`, name: `${side} cuff`, cm: lengths.cuffRib }),
    partOf(of, "hand", {
      id: `${side}-hand`,
      name: `${side} hand`,
      stitches,
      rounds,
      from: [`${side}-cuff`],
      gauge: own,
      lines: [{ name: "the back of the hand", stitchOf: () => stitches / 4 - 0.5 }],
      maySlip: true,
    }),
    partOf(of, "hand", {
      id: `${side}-tip`,
      name: `${side} tip`,
      startRow: tipRow,
      stitches,
      rounds: tipRounds + 1,
      // Of the four stitches of a round, one goes at its beginning.
      decreases: evenly({ from: stitches, to: stitches - TIP.step * tipRounds, rounds: tipRounds + 1 }, TIP.step, 1),
      from: [`${side}-hand`],
      gauge: own,
    }),
    partOf(of, "hand", {
      id: `${side}-thumb`,
      name: `${side} thumb`,
      stitches: thumb,
      rounds: thumbRounds,
      from: [`${side}-hand`],
      plain: true,
    }),
  ]);
  const [rib] = parts as [ShapedPart];
  const used = own ?? gauge;
  return {
    parts,
    pieces: [
      stackedPiece({
        id: "mitten",
        name: "mitten",
        sections: ["left-cuff", "left-hand", "left-tip"],
        times: 2,
        tube: true,
        levels: [
          ...ribLevels(of, rib),
          { name: "after the rib", rows: 0, stitches, gauge: used },
          { name: "thumb", rows: Math.round(rounds * THUMB.at), stitches, gauge: used, side: "up to the thumb" },
          {
            name: "tip begins",
            rows: rounds - Math.round(rounds * THUMB.at),
            stitches,
            gauge: used,
            side: "hand above the thumb",
          },
          {
            name: "drawn together",
            rows: tipRounds + 1,
            stitches: stitches - TIP.step * tipRounds,
            gauge: used,
            side: "tip",
          },
        ],
      }),
      stackedPiece({
        id: "thumb",
        name: "thumb",
        sections: ["left-thumb"],
        times: 2,
        tube: true,
        levels: [
          { name: "picked up", rows: 0, stitches: thumb, gauge },
          { name: "thumb top", rows: thumbRounds, stitches: thumb, gauge, side: "thumb" },
        ],
      }),
    ],
    measured: [measured],
    heights: [heightOf("hand up to the tip", handCm, rounds, { gauge: used, chart: of.charts?.hand })],
    notes: of.charts?.hand ? [{ kind: "columns run on", section: "tip" }] : [],
    finishedCm: measured.chosen.cm,
  };
}

/** How long a warmer for the wrist is, as a part of the hand's length: 14 cm for one of 18. Our choice. */
const WARMER = 0.8;

export function cuffs(of: ShapeOf, lengths: Lengths): Shaped {
  const gauge = gaugeOf(of, "hand");
  const tubeCm = Math.max(1, of.body.handLength * WARMER - 2 * lengths.cuffRib);
  const rounds = of.choices?.hand?.rounds ?? roundsIn(tubeCm, gauge);
  const measured = around(of, "hand", { name: "wrist", cm: of.body.hand + of.easeCm, rounds, every: 2 });
  const { stitches, own } = taken(of, measured);
  const parts = (["left", "right"] as const).flatMap((side): ShapedPart[] => [
    ribOf(of, measured, { id: `${side}-rib`, name: `${side} rib`, cm: lengths.cuffRib }),
    partOf(of, "hand", {
      id: `${side}-tube`,
      name: `${side} wrist warmer`,
      stitches,
      rounds,
      from: [`${side}-rib`],
      gauge: own,
      lines: [{ name: "the back of the hand", stitchOf: () => stitches / 4 - 0.5 }],
      maySlip: true,
    }),
    {
      ...ribOf(of, measured, { id: `${side}-edge`, name: `${side} edge`, cm: lengths.cuffRib }),
      from: [`${side}-tube`],
    },
  ]);
  const [rib] = parts as [ShapedPart];
  const used = own ?? gauge;
  const height: Height = heightOf("tube between the ribs", tubeCm, rounds, { gauge: used, chart: of.charts?.hand });
  const ribGauge = gaugeOf(of, "rib");
  return {
    parts,
    pieces: [
      stackedPiece({
        id: "cuff",
        name: "wrist warmer",
        sections: ["left-rib", "left-tube", "left-edge"],
        times: 2,
        tube: true,
        levels: [
          ...ribLevels(of, rib),
          { name: "after the rib", rows: 0, stitches, gauge: used },
          { name: "rib begins", rows: rounds, stitches, gauge: used, side: "tube" },
          { name: "before the rib", rows: 0, stitches: rib.stitches, gauge: ribGauge },
          { name: "edge", rows: rib.rounds, stitches: rib.stitches, gauge: ribGauge, side: "rib" },
        ],
      }),
    ],
    measured: [measured],
    heights: [height],
    notes: [],
    finishedCm: measured.chosen.cm,
  };
}

/** The count that was chosen, and the gauge where that is another. */
function taken(of: ShapeOf, { part, chosen }: Measured): { stitches: number; own: ShapedPart["gauge"] } {
  return {
    stitches: chosen.stitches,
    own: chosen.how === "another gauge" ? chosen.gauge : (of.gauges?.[part] ?? null),
  };
}

/** A rib draws in by a tenth. Source: trade.md 3, the percentage system. */
const RIB_SHARE = 0.9;

function ribOf(
  of: ShapeOf,
  { chosen }: Measured,
  { id, name, cm }: { id: string; name: string; cm: number },
): ShapedPart {
  const gauge = gaugeOf(of, "rib");
  const wanted = cmOfStitches(RIB_SHARE * chosen.stitches, gauge);
  return partOf(of, "rib", {
    id,
    name,
    stitches: around(of, "rib", { name, cm: wanted, rounds: 1, every: 2 }).chosen.stitches,
    rounds: roundsIn(cm, gauge),
    from: [],
  });
}

const ribLevels = (of: ShapeOf, rib: ShapedPart) => {
  const gauge = gaugeOf(of, "rib");
  return [
    { name: rib.name.replace(/^left /, ""), rows: 0, stitches: rib.stitches, gauge },
    { name: "end of the rib", rows: rib.rounds, stitches: rib.stitches, gauge, side: "rib" },
  ];
};
