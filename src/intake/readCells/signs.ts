/** What the kinds of cells of a chart are when they are looked at as a whole: ground and sign, and a picture of the sign. */
import { labFromLinear, type Lab } from "../../colour/lab.ts";
import { LINEAR_OF_BYTE } from "../../colour/srgb.ts";
import { SYMBOL_SIDE } from "../readChart.ts";
import type { Kind } from "./kinds.ts";
import type { Looking } from "./shapes.ts";

export interface SeenKind extends Kind {
  /** Rows of "0" to "9", as `ReadSymbol` has them; null where it is plain. */
  readonly picture: string[] | null;
  /** Drawn with many slanting strokes, as what is left out of a chart is. */
  readonly hatched: boolean;
  /** Whether what stands in it is all over it, as no sign's strokes are. */
  readonly allOver: boolean;
}

export function seenKinds(kinds: readonly Kind[], looking: Looking): SeenKind[] {
  const means = kinds.map(({ cells }) => meanPatch(looking, cells));
  const kindly = kinds.map((kind, index) => (kind.signed ? partsOf(means[index]!, kind.lab) : null));
  const everywhere = kinds.length > 1 && kinds.every(({ signed }) => signed) && allAlike(kinds);
  return kinds.map((kind, index): SeenKind => {
    const parts = kindly[index];
    if (!parts || everywhere) return { ...kind, picture: null, hatched: false, allOver: true, signed: false };
    // What is taken for the ground is a large sign where it is black or white and stands in the middle of the other.
    const turned = isInk(parts.ground) && parts.within;
    const lab = turned ? parts.other : kind.lab;
    return {
      ...kind,
      lab,
      picture: pictureOf(means[index]!, lab),
      hatched: isHatched(means[index]!),
      allOver: isAllOver(means[index]!, kind.lab),
    };
  });
}

/** Chroma below which, and lightness outside which, a colour may be a sign's ink: our choice, black or white by any lamp. */
const INK_CHROMA = 16;
const INK_DARK = 45;
const INK_LIGHT = 85;

const isInk = ([lightness, a, b]: Lab): boolean =>
  Math.hypot(a, b) < INK_CHROMA && (lightness < INK_DARK || lightness > INK_LIGHT);

interface MeanPatch {
  readonly side: number;
  /** CIELAB, three to the sample. */
  readonly labs: Float32Array;
}

/** Cells that are enough for a mean. */
const ENOUGH = 80;

function meanPatch({ patches, inside, gains }: Looking, cells: readonly number[]): MeanPatch {
  const { side, bytes } = patches;
  const each = side * side * 3;
  const sums = new Float64Array(each);
  const stride = Math.max(1, Math.floor(cells.length / ENOUGH));
  let count = 0;
  for (let index = 0; index < cells.length; index += stride, count++) {
    const cell = cells[index]!;
    const from = inside[cell]! * each;
    for (let at = 0; at < each; at++) sums[at]! += LINEAR_OF_BYTE[bytes[from + at]!]! * gains[cell * 3 + (at % 3)]!;
  }
  const labs = new Float32Array(each);
  for (let at = 0; at < each; at += 3)
    labs.set(labFromLinear([sums[at]! / count, sums[at + 1]! / count, sums[at + 2]! / count]), at);
  return { side, labs };
}

/** Part of the cell left out at each side. */
const MARGIN = 0.15;

function insideLabs({ side, labs }: MeanPatch): Lab[] {
  const skip = Math.round(MARGIN * side);
  const list: Lab[] = [];
  for (let y = skip; y < side - skip; y++)
    for (let x = skip; x < side - skip; x++) {
      const at = (y * side + x) * 3;
      list.push([labs[at]!, labs[at + 1]!, labs[at + 2]!]);
    }
  return list;
}

const apart = (one: Lab, other: Lab): number => Math.hypot(one[0] - other[0], one[1] - other[1], one[2] - other[2]);

/** The colour taken for the ground and the one that is most unlike it; `within` where the second surrounds the first. */
function partsOf(patch: MeanPatch, ground: Lab): { ground: Lab; other: Lab; within: boolean } {
  const inside = insideLabs(patch);
  const farthest = inside.reduce((best, lab) => (apart(lab, ground) > apart(best, ground) ? lab : best), ground);
  const most = apart(farthest, ground);
  const others = inside.filter((lab) => apart(lab, ground) > 0.75 * most);
  const mean = (axis: 0 | 1 | 2): number =>
    others.reduce((sum, lab) => sum + lab[axis], 0) / Math.max(1, others.length);
  const other: Lab = others.length > 0 ? [mean(0), mean(1), mean(2)] : ground;
  const around = aroundLab(patch);
  return { ground, other, within: apart(around, other) < apart(around, ground) };
}

/** The median colour of a ring near the cell's sides, away from lines. */
function aroundLab({ side, labs }: MeanPatch): Lab {
  const ring: Lab[] = [];
  for (let y = 0; y < side; y++)
    for (let x = 0; x < side; x++) {
      const away = Math.min(x + 0.5, y + 0.5, side - x - 0.5, side - y - 0.5) / side;
      if (away > RING_FROM && away < RING_TO)
        ring.push([0, 1, 2].map((part) => labs[(y * side + x) * 3 + part]!) as unknown as Lab);
    }
  const middle = (axis: 0 | 1 | 2): number =>
    ring.map((lab) => lab[axis]).sort((one, two) => one - two)[ring.length >> 1] ?? 0;
  return [middle(0), middle(1), middle(2)];
}

/** Parts of the cell from its sides between which signs hardly reach and lines no more. */
const RING_FROM = 0.12;
const RING_TO = 0.22;

/** Whether the marks of all kinds have one shape: then it is how stitches are drawn, and no sign. */
function allAlike(kinds: readonly Kind[]): boolean {
  const first = kinds[0]!.mark!;
  return kinds.every(({ mark }) => {
    const common = mark!.reduce((sum, value, at) => sum + value * first[at]!, 0);
    return common > SAME_SHAPE * Math.hypot(...mark!) * Math.hypot(...first);
  });
}

/** Cosine from which two marks have one shape. */
const SAME_SHAPE = 0.85;

function pictureOf({ side, labs }: MeanPatch, ground: Lab): string[] {
  const skip = 0.1 * side;
  const depth = new Float64Array(side * side);
  let most = 1;
  for (let y = 0; y < side; y++)
    for (let x = 0; x < side; x++) {
      const at = y * side + x;
      if (Math.min(x + 0.5, y + 0.5, side - x - 0.5, side - y - 0.5) < skip) continue;
      depth[at] = apart([labs[at * 3]!, labs[at * 3 + 1]!, labs[at * 3 + 2]!], ground);
      most = Math.max(most, depth[at]!);
    }
  return Array.from({ length: SYMBOL_SIDE }, (_, row) =>
    Array.from({ length: SYMBOL_SIDE }, (_, column) => {
      const x = Math.min(side - 1, Math.floor(((column + 0.5) * side) / SYMBOL_SIDE));
      const y = Math.min(side - 1, Math.floor(((row + 0.5) * side) / SYMBOL_SIDE));
      return String(Math.min(9, Math.floor((10 * depth[y * side + x]!) / most)));
    }).join(""),
  );
}

/** How even strokes are over the inside: the square of their mean strength by the mean of their squares, as strengths are squares already. */
function isAllOver(patch: MeanPatch, ground: Lab): boolean {
  const strengths = insideLabs(patch).map((lab) => apart(lab, ground) ** 2);
  const [sum, squares] = strengths.reduce(([one, two], each) => [one + each, two + each * each], [0, 0]);
  return sum * sum > ALL_OVER * strengths.length * squares;
}

/** 1 for what is even, 0.2 for a line across. */
const ALL_OVER = 0.55;

/** Strokes that a diagonal must cross to be hatching. */
const STROKES = 3;

function isHatched({ side, labs }: MeanPatch): boolean {
  const along = (turned: boolean): number => {
    const skip = Math.round(MARGIN * side);
    const light = Array.from({ length: side - 2 * skip }, (_, place) => place + skip).map(
      (at) => labs[(at * side + (turned ? side - 1 - at : at)) * 3]!,
    );
    const [least, most] = [Math.min(...light), Math.max(...light)];
    if (most - least < 4) return 0;
    let [strokes, dark] = [0, false];
    for (const value of light) {
      if (!dark && value < least + 0.4 * (most - least)) [strokes, dark] = [strokes + 1, true];
      else if (dark && value > least + 0.6 * (most - least)) dark = false;
    }
    return strokes;
  };
  return Math.max(along(false), along(true)) >= STROKES;
}
