/** The areas of a piece of cloth: stitches that share one yarn are one area to the eye, whatever chart colours they come from. */
import type { Lab } from "../colour/lab.ts";
import type { Cloth, Ink } from "./cloth.ts";
import { inkPieceOf, joined, touchingIn } from "./layout.ts";
import type { Piece } from "./spectra.ts";

export interface Area {
  /** The yarn, or the pattern's own colour where there is none. */
  readonly key: string;
  readonly yarn: string | null;
  readonly lab: Lab;
  readonly uncertainty: number;
  /** Chart colours that lie in it here, in order of first stitch. */
  readonly colours: readonly string[];
  readonly stitches: number;
}

export interface AreaPiece {
  readonly piece: Piece;
  readonly areas: readonly Area[];
}

export const areaKeyOf = (ink: Ink): string => (ink.yarn === null ? `colour ${ink.colour}` : `yarn ${ink.yarn}`);

/** Rows `from` to `to` of a cloth as areas, once across their repeat. */
export function areasOf(cloth: Cloth, from: number, to: number): AreaPiece {
  const { piece, inks, stitches } = inkPieceOf(cloth, from, to);
  const areas: (Area & { colours: string[]; stitches: number })[] = [];
  const labels = inks.map((index, at) => {
    const ink = cloth.inks[index]!;
    const key = areaKeyOf(ink);
    const known = areas.findIndex((area) => area.key === key);
    if (known >= 0) {
      const area = areas[known]!;
      if (!area.colours.includes(ink.colour)) area.colours.push(ink.colour);
      area.stitches += stitches[at]!;
      return known;
    }
    const { yarn, lab, uncertainty, colour } = ink;
    return areas.push({ key, yarn, lab, uncertainty, colours: [colour], stitches: stitches[at]! }) - 1;
  });
  return { piece: areas.length === inks.length ? piece : joined(piece, labels), areas };
}

/** Pairs of areas that touch by a side, the piece repeating sideways; `a` has fewer stitches, or comes first. */
export const touchingAreas = ({ piece, areas }: AreaPiece): { a: number; b: number }[] =>
  touchingIn(piece).map(([one, other]) =>
    areas[one]!.stitches <= areas[other]!.stitches ? { a: one, b: other } : { a: other, b: one },
  );
