/** Bodies that go on straight above the underarms, with armholes cut out of the tube: a drop shoulder with its sleeves, and a vest. */
import { stackedPiece, type Piece } from "../schematic.ts";
import type { Decrease } from "../sections.ts";
import {
  around,
  evenly,
  gaugeOf,
  heightOf,
  partOf,
  roundsIn,
  stitchesIn,
  type Lengths,
  type Shaped,
  type ShapedBeside,
  type ShapedPart,
  type ShapeNote,
  type ShapeOf,
} from "./parts.ts";
import { sleeves } from "./sleeve.ts";
import { sidesOf, steekNamed, torso, type Torso } from "./torso.ts";

/** A pullover, or a cardigan where the front is cut: no shaping up to the neck, steeks at armholes and neck, sleeves from the cuff up. */
export function dropShoulder(of: ShapeOf, lengths: Lengths, open: boolean): Shaped {
  const armhole = of.body.armholeDepth + lengths.armholeEase;
  const trunk = torso(of, lengths, { open, above: roundsIn(armhole, gaugeOf(of, "body")) });
  const gauge = trunk.gauge;
  const upper = roundsIn(armhole - lengths.neckDepth, gauge);
  const neck = roundsIn(lengths.neckDepth, gauge);
  const neckStitches = evenStitches(lengths.neckWidth, of);
  const body = trunk.parts[1]!;
  const sides = sidesOf(body.stitches, open);
  const armholes = [steekNamed(of, "left armhole", sides.left), steekNamed(of, "right armhole", sides.right)];
  const above = partOf(of, "body", {
    ...aboveTorso(trunk),
    id: "upper-body",
    name: "upper body",
    stitches: body.stitches,
    rounds: upper,
    from: ["body"],
    beside: [...body.beside, ...armholes],
  });
  const held = Math.floor(neckStitches / 4) * 2;
  const front = frontOf(body.stitches, open);
  // The round begins at the neck, so that what stands at the sides comes so much sooner; a left side at its beginning comes at its end.
  const sooner = (after: number): number => (after === 0 ? body.stitches : after) - front - held / 2;
  const neckSteek = open ? trunk.steek[0]! : steekNamed(of, "neck", 0);
  const shoulders = partOf(of, "body", {
    ...aboveTorso(trunk),
    id: "shoulders",
    name: "shoulders",
    startRow: rowAfter(of, trunk.nextRow, upper),
    startColumn: trunk.columnAt(front + held / 2),
    stitches: body.stitches - held,
    rounds: neck,
    decreases: evenly({ from: body.stitches - held, to: body.stitches - neckStitches, rounds: neck }, 2, [
      neckSteek.name,
    ]),
    from: ["upper-body"],
    beside: [
      ...body.beside.filter(({ kind }) => kind === "panel").map((one) => ({ ...one, after: sooner(one.after) })),
      ...armholes.map((one) => ({ ...one, after: sooner(one.after) })),
      neckSteek,
    ],
  });
  const sleeveCm = Math.max(2 * armhole, of.body.upperArm);
  const arms = sleeves(of, lengths, { cm: sleeveCm, lengthCm: of.body.neckToWrist - trunk.cm / 4 });
  const neckline = neckband(of, lengths, {
    frontCm: 2 * lengths.neckDepth + lengths.neckWidth / 2,
    backCm: lengths.neckWidth,
    from: "shoulders",
    open,
  });
  const steeks = [...armholes, neckSteek];
  return {
    parts: [...trunk.parts, above, shoulders, ...arms.parts, neckline],
    pieces: [
      ...torsoPieces(of, trunk, { upper, neck, neckStitches, form: "round" }, open, ["upper-body", "shoulders"]),
      arms.piece,
    ],
    measured: [trunk.measured, arms.measured],
    heights: [
      trunk.height,
      heightOf("armhole", armhole, upper + neck, { gauge, chart: of.charts?.body, startRow: trunk.nextRow }),
      arms.height,
    ],
    notes: [
      ...trunk.notes,
      steekNote(steeks),
      ...(2 * armhole < of.body.upperArm
        ? [
            {
              kind: "arm widened",
              from: stitchesIn(2 * armhole, gauge),
              to: arms.stitches,
              upperArmCm: of.body.upperArm,
            } as const,
          ]
        : []),
    ],
    finishedCm: trunk.cm,
  };
}

/** A vest: armholes narrowed to the shoulders, a V at the neck, bands in rib around both. */
export function vest(of: ShapeOf, lengths: Lengths, open: boolean): Shaped {
  const armhole = of.body.armholeDepth + lengths.armholeEase;
  const trunk = torso(of, lengths, { open, above: roundsIn(armhole, gaugeOf(of, "body")) });
  const gauge = trunk.gauge;
  const rounds = roundsIn(armhole, gauge);
  const neckStitches = evenStitches(lengths.neckWidth, of);
  const across = stitchesIn(of.body.crossBack * ACROSS, gauge);
  const body = trunk.parts[1]!;
  const panel = body.beside.find(({ kind }) => kind === "panel")?.stitches ?? 0;
  const edge = Math.max(Math.ceil(panel / 2), Math.round((trunk.stitches / 2 - across) / 2));
  // A panel lies under the arm and is cast off whole.
  const castOff = Math.max(Math.ceil(panel / 2), Math.ceil(edge / 2));
  const start = trunk.stitches - 4 * castOff;
  const neckSteek = open ? trunk.steek[0]! : steekNamed(of, "neck", 0);
  const steeks = [...armholesOf(of, body.stitches, open, 2 * castOff - panel), neckSteek];
  // Armholes narrow in every second round; the neck goes on to the shoulders.
  const armRounds = Math.min(rounds, 2 * (edge - castOff) + 1);
  const decreases = together(start, [
    going(4 * (edge - castOff), armRounds, 4, ["right armhole", "left armhole"]),
    going(neckStitches, rounds, 2, [neckSteek.name]),
  ]);
  const above = partOf(of, "body", {
    ...aboveTorso(trunk),
    id: "upper-body",
    name: "upper body",
    // The round begins at the neck, in the middle of the front.
    startColumn: trunk.columnAt(frontOf(body.stitches, open)),
    stitches: start,
    rounds,
    decreases,
    from: ["body"],
    beside: steeks,
  });
  const bands = (["left", "right"] as const).map((side) =>
    partOf(of, "rib", {
      id: `${side}-armhole-band`,
      name: `${side} armhole band`,
      stitches: pickedUp(2 * armhole + (2 * castOff * 10) / gauge.stitches, of),
      rounds: roundsIn(lengths.neckband, gaugeOf(of, "rib")),
      from: ["upper-body"],
    }),
  );
  const neckline = neckband(of, lengths, {
    frontCm: 2 * Math.hypot(armhole, lengths.neckWidth / 2),
    backCm: lengths.neckWidth,
    from: "upper-body",
    open,
  });
  return {
    parts: [...trunk.parts, above, ...bands, neckline],
    pieces: torsoPieces(
      of,
      trunk,
      { upper: 0, neck: rounds, neckStitches, form: "V", armhole: { castOff, edge, rows: armRounds } },
      open,
      ["upper-body"],
    ),
    measured: [trunk.measured],
    heights: [
      trunk.height,
      heightOf("armhole", armhole, rounds, { gauge, chart: of.charts?.body, startRow: trunk.nextRow }),
    ],
    notes: [...trunk.notes, steekNote(steeks)],
    finishedCm: trunk.cm,
  };
}

/** Where the armholes stand in a round that begins in the middle of the front, so many columns of the chart cast off at each. */
function armholesOf(of: ShapeOf, stitches: number, open: boolean, skips: number): ShapedBeside[] {
  const sides = sidesOf(stitches, open);
  const halfFront = sides.right - frontOf(stitches, open);
  const back = (open ? sides.left : stitches) - sides.right;
  const ofFront = Math.floor(skips / 2);
  const right = halfFront - ofFront;
  return [
    steekNamed(of, "right armhole", right, skips),
    steekNamed(of, "left armhole", right + back - 2 * (skips - ofFront), skips),
  ];
}

/** A vest ends inside the shoulder: the part of the cross back that it covers. Our choice. */
const ACROSS = 0.9;
/** Picked up along an edge: nine stitches where the cloth has ten, so that the band draws in. Common practice, no source. */
const PICKED_UP = 0.9;

const evenStitches = (cm: number, of: ShapeOf): number => 2 * Math.round(stitchesIn(cm, gaugeOf(of, "body")) / 2);
const pickedUp = (cm: number, of: ShapeOf): number =>
  around(of, "rib", { name: "band", cm: PICKED_UP * cm, rounds: 1, every: 4 }).chosen.stitches;

const aboveTorso = (trunk: Torso): Pick<ShapedPart, "startRow" | "startColumn" | "gauge" | "centring"> => ({
  startRow: trunk.nextRow,
  startColumn: trunk.parts[1]!.startColumn,
  gauge: trunk.parts[1]!.gauge,
  centring: trunk.parts[1]!.centring,
});

/** Stitches from the round's beginning to the middle of the front; a front that is cut is where it begins. */
const frontOf = (stitches: number, open: boolean): number => (open ? 0 : Math.round(stitches / 4));

const rowAfter = (of: ShapeOf, row: number, rounds: number): number => {
  const rows = of.charts?.body?.bandOfRow.length ?? 0;
  return rows === 0 ? 1 : ((row - 1 + rounds) % rows) + 1;
};

const steekNote = (steeks: readonly ShapedBeside[]): ShapeNote => ({
  kind: "steek",
  stitches: steeks[0]!.stitches,
  names: steeks.map(({ name }) => name),
});

const going = (from: number, rounds: number, step: number, at: readonly string[]): Going => ({
  from,
  list: evenly({ from, to: 0, rounds }, step, at),
});

interface Going {
  /** Stitches that there are to go. */
  readonly from: number;
  readonly list: readonly Decrease[];
}

/** What goes in several places of a piece, as one list of counts. */
function together(start: number, places: readonly Going[]): Decrease[] {
  const all = places.flatMap(({ list }) => list);
  const rounds = [...new Set(all.map(({ round }) => round))].sort((a, b) => a - b);
  const leftIn = ({ from, list }: Going, round: number): number =>
    list.findLast((decrease) => decrease.round <= round)?.to ?? from;
  return rounds.map((round) => {
    const gone = places.reduce((sum, place) => sum + place.from - leftIn(place, round), 0);
    const at = all.filter((decrease) => decrease.round === round).flatMap((decrease) => decrease.at ?? []);
    return { round, to: start - gone, at };
  });
}

function neckband(
  of: ShapeOf,
  lengths: Lengths,
  { frontCm, backCm, from, open }: { frontCm: number; backCm: number; from: string; open: boolean },
): ShapedPart {
  return partOf(of, "rib", {
    id: "neckband",
    name: open ? "neck and front bands" : "neckband",
    stitches: pickedUp(frontCm + backCm, of),
    rounds: roundsIn(lengths.neckband, gaugeOf(of, "rib")),
    from: [from],
  });
}

function torsoPieces(
  of: ShapeOf,
  trunk: Torso,
  top: {
    readonly upper: number;
    readonly neck: number;
    readonly neckStitches: number;
    readonly form: "round" | "V";
    readonly armhole?: { readonly castOff: number; readonly edge: number; readonly rows: number };
  },
  open: boolean,
  above: readonly string[],
): Piece[] {
  const { gauge } = trunk;
  const [hem, body] = trunk.parts as [ShapedPart, ShapedPart];
  const half = trunk.stitches / 2;
  const ribGauge = gaugeOf(of, "rib");
  const { armhole, upper, neck } = top;
  const narrow = armhole ? half - 2 * armhole.edge : half;
  const levels = [
    { name: "hem", rows: 0, stitches: hem.stitches / 2, gauge: ribGauge },
    { name: "end of the rib", rows: hem.rounds, stitches: hem.stitches / 2, gauge: ribGauge, side: "rib" },
    { name: "after the rib", rows: 0, stitches: half, gauge },
    { name: "underarm", rows: body.rounds, stitches: half, gauge, side: "body" },
    ...(armhole
      ? [
          { name: "cast off at the underarm", rows: 0, stitches: half - 2 * armhole.castOff, gauge },
          { name: "armhole narrowed", rows: armhole.rows, stitches: narrow, gauge, side: "armhole shaping" },
        ]
      : []),
    {
      name: "shoulders",
      rows: upper + neck - (armhole?.rows ?? 0),
      stitches: narrow,
      gauge,
      side: "armhole",
    },
  ];
  const piece = { sections: ["hem", "body", ...above], times: 1, tube: false, levels };
  return [
    stackedPiece({ ...piece, id: "back", name: "back" }),
    stackedPiece({
      ...piece,
      id: "front",
      name: "front",
      neck: { stitches: top.neckStitches, rows: neck, form: top.form },
      ...(open && { cut: "front steek" }),
    }),
  ];
}
