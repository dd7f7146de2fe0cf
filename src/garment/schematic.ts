/** A schematic: the outline of a piece laid flat, in centimetres, with the stitches and rows at its edges. */
import type { Gauge } from "./gauge.ts";

/** cm; x to the right from the piece's middle, y up from its lowest edge. */
export type SchematicPoint = readonly [number, number];

export interface SchematicEdge {
  readonly name: string;
  /** Index of the points between which it lies; the last point meets the first. */
  readonly points: readonly [number, number];
  /** Around the piece where it is a tube, else along the edge. */
  readonly cm: number;
  /** All around where it is a tube; null for an edge along rows. */
  readonly stitches: number | null;
  /** null for an edge along stitches. */
  readonly rows: number | null;
}

export interface SchematicLine {
  readonly name: string;
  readonly from: SchematicPoint;
  readonly to: SchematicPoint;
  /** Stitches of the round there. */
  readonly stitches: number | null;
}

export interface Piece {
  readonly id: string;
  readonly name: string;
  /** Ids of the sections that it is knitted in, from its lowest edge up. */
  readonly sections: readonly string[];
  /** How often it is made. */
  readonly times: number;
  /** A tube is drawn flat, half as wide as it is around. */
  readonly tube: boolean;
  readonly outline: readonly SchematicPoint[];
  readonly edges: readonly SchematicEdge[];
  /** Where ribs end, stitches go, and steeks are cut. */
  readonly lines: readonly SchematicLine[];
}

/** A height of a piece at which it is told how wide it is. */
export interface Level {
  readonly name: string;
  /** Rows from the level below; 0 where the width changes at once. */
  readonly rows: number;
  /** Stitches across, all around for a tube. */
  readonly stitches: number;
  readonly gauge: Gauge;
  /** What is written on the side up to here; none where it goes without saying. */
  readonly side?: string;
}

export interface StackedPiece extends Pick<Piece, "id" | "name" | "sections" | "times" | "tube"> {
  readonly levels: readonly Level[];
  /** A neck cut out of the top edge: its width in stitches, its depth in rows, and its form. */
  readonly neck?: { readonly stitches: number; readonly rows: number; readonly form: "round" | "V" };
  /** A line down the middle that is cut. */
  readonly cut?: string;
}

/** A piece that is alike left and right, from widths at heights. */
export function stackedPiece({ levels, neck, cut, ...piece }: StackedPiece): Piece {
  const heights: number[] = [];
  for (const { rows, gauge } of levels) heights.push((heights.at(-1) ?? 0) + (rows * 10) / gauge.rows);
  const half = ({ stitches, gauge }: Level): number => (stitches * 10) / gauge.stitches / (piece.tube ? 4 : 2);
  const right = levels.map((level, index): SchematicPoint => [half(level), heights[index]!]);
  const left = right.toReversed().map(([x, y]): SchematicPoint => [-x, y]);
  const top = levels.at(-1)!;
  const dip = neck ? neckPoints(neck, top, heights.at(-1)!) : [];
  const outline = [...right, ...dip, ...left];
  const topAt = levels.length - 1;
  const bottom = levels[0]!;
  const around = (level: Level): number => (level.stitches * 10) / level.gauge.stitches;
  const shoulders = dip.length > 0 ? [topAt, topAt + 1, topAt + dip.length, topAt + dip.length + 1] : [];
  const neckStitches = neck?.stitches ?? 0;
  const shoulder = (top.stitches - neckStitches) / 2;
  const neckEdge = dip.length > 0;
  return {
    ...piece,
    outline,
    edges: [
      {
        name: bottom.name,
        points: [outline.length - 1, 0],
        cm: around(bottom),
        stitches: bottom.stitches,
        rows: null,
      },
      ...levels.slice(1).flatMap((level, index): SchematicEdge[] =>
        level.rows === 0
          ? []
          : [
              {
                name: level.side ?? level.name,
                points: [index, index + 1],
                cm: (level.rows * 10) / level.gauge.rows,
                stitches: null,
                rows: level.rows,
              },
            ],
      ),
      ...(neckEdge
        ? (
            [
              [shoulders[0]!, shoulders[1]!],
              [shoulders[2]!, shoulders[3]!],
            ] as const
          ).map((points): SchematicEdge => ({
            name: "shoulder",
            points,
            cm: (shoulder * 10) / top.gauge.stitches,
            stitches: shoulder,
            rows: null,
          }))
        : [
            {
              name: top.name,
              points: [topAt, topAt + 1] as const,
              cm: around(top),
              stitches: top.stitches,
              rows: null,
            },
          ]),
      ...(neckEdge
        ? [
            {
              name: "neck",
              points: [topAt + 1, topAt + dip.length] as const,
              cm: (neckStitches * 10) / top.gauge.stitches,
              stitches: neckStitches,
              rows: neck!.rows,
            },
          ]
        : []),
    ],
    lines: [
      ...levels.slice(1, -1).map((level, index): SchematicLine => {
        const [x, y] = right[index + 1]!;
        return { name: level.name, from: [-x, y], to: [x, y], stitches: level.stitches };
      }),
      ...(cut === undefined
        ? []
        : [{ name: cut, from: [0, 0] as const, to: [0, heights.at(-1)! - dipOf(neck, top)] as const, stitches: null }]),
    ],
  };
}

const dipOf = (neck: StackedPiece["neck"], { gauge }: Level): number => (neck ? (neck.rows * 10) / gauge.rows : 0);

/** From the right shoulder to the left; a round neck begins with half its stitches at once and slants from there (common practice). */
function neckPoints(neck: NonNullable<StackedPiece["neck"]>, top: Level, height: number): SchematicPoint[] {
  const half = (neck.stitches * 10) / top.gauge.stitches / 2;
  const low = height - dipOf(neck, top);
  const floor: SchematicPoint[] =
    neck.form === "V"
      ? [[0, low]]
      : [
          [half / 2, low],
          [-half / 2, low],
        ];
  return [[half, height], ...floor, [-half, height]];
}
