/** Cells that stand by themselves near a chart whose ground is the bare page: they are its own where they go by its steps. */
import { nearestLine } from "./lattice.ts";
import { boxHeight, boxWidth, isThin, type Box, type Piece } from "./pieces.ts";

interface Lines {
  readonly across: readonly number[];
  readonly down: readonly number[];
}

/** The region led on over bare rows and columns to such cells; as it is where lines are drawn or no cell is bare. */
export function withScattered<R extends Lines>(region: R, pieces: readonly Piece[]): R {
  const within = pieces.filter(({ box }) => meets(box, boxOf(region)));
  const drawn = within.reduce((sum, { box }) => sum + boxWidth(box) * boxHeight(box), 0);
  const whole = boxWidth(boxOf(region)) * boxHeight(boxOf(region));
  if (drawn >= BARE * whole || within.some(({ kind, box }) => kind !== "area" || isThin(box))) return region;
  const others = pieces.filter(({ kind, isBox, box }) => kind === "area" && isBox && !isThin(box));
  let { across, down } = region;
  for (let grown = true; grown;) {
    grown = false;
    const room = boxOf({ across, down });
    const [stepX, stepY] = [pitchOf(across), pitchOf(down)];
    for (const { box } of others) {
      const away = Math.max(
        (box.left - room.right) / stepX,
        (room.left - box.right) / stepX,
        (box.top - room.bottom) / stepY,
        (room.top - box.bottom) / stepY,
      );
      const isOut = box.left < room.left - stepX / 2 || box.right > room.right + stepX / 2 || box.top < room.top - stepY / 2 || box.bottom > room.bottom + stepY / 2; // prettier-ignore
      if (!isOut || away > REACH) continue;
      const [x, y] = [ledTo(across, box.left, box.right), ledTo(down, box.top, box.bottom)];
      if (!x || !y) continue;
      [across, down, grown] = [x, y, true];
      break;
    }
  }
  return { ...region, across, down };
}

/** Lines led on so that they reach over both places; null where one lies between two lines. */
function ledTo(lines: readonly number[], from: number, to: number): readonly number[] | null {
  const pitch = pitchOf(lines);
  const [first, last] = [lines[0]!, lines.at(-1)!];
  const off = (at: number): number =>
    at < first || at > last
      ? Math.abs((at - first) / pitch - Math.round((at - first) / pitch))
      : Math.abs(at - lines[nearestLine(lines, at)]!) / pitch;
  if (off(from) > IN_STEP || off(to) > IN_STEP) return null;
  const [before, after] = [Math.round((first - from) / pitch), Math.round((to - last) / pitch)];
  return [
    ...Array.from({ length: Math.max(0, before) }, (_, step) => first - (before - step) * pitch),
    ...lines,
    ...Array.from({ length: Math.max(0, after) }, (_, step) => last + (step + 1) * pitch),
  ];
}

const boxOf = ({ across, down }: Lines): Box => ({
  left: across[0]!,
  right: across.at(-1)!,
  top: down[0]!,
  bottom: down.at(-1)!,
});
const pitchOf = (lines: readonly number[]): number => (lines.at(-1)! - lines[0]!) / (lines.length - 1);
const meets = (one: Box, other: Box): boolean =>
  one.left < other.right && one.right > other.left && one.top < other.bottom && one.bottom > other.top;

/** Part of the chart that is drawn at most where the page is its ground. */
const BARE = 0.93;
/** Steps away that a cell may stand, and off a line by which its sides may lie. */
const REACH = 3.2;
const IN_STEP = 0.06;
