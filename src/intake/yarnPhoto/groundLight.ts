/**
 * What everything lies on, where it has one colour: a table or a sheet seen in many places tells how the light changes across the
 * picture, whatever its colour is.
 */
import type { LinearRgb } from "../../colour/srgb.ts";
import type { Raster } from "../../raster/raster.ts";
import type { Point } from "./homography.ts";
import { leastSquares } from "./leastSquares.ts";
import { lightness } from "./yarnSurface.ts";

export interface GroundPlace {
  readonly at: Point;
  /** Median linear light of a block about there, as decoded. */
  readonly rgb: LinearRgb;
}

/** Blocks across the longer side: a ball of yarn covers several, a gap between balls at least one. */
const BLOCKS = 40;
/** Points looked at in a block, each way. */
const POINTS = 7;
/** The middle half of a block's light spreads less than this, ln light: wood and cloth do, a pattern does not. */
const EVEN = 0.22;
/** Blocks of one ground differ in colour by less than this from the first one, ln of channels' ratios, and in light at all. */
const ALIKE = { colour: 0.1, light: 0.5 };
/** From a smooth course of light over the picture they differ by less than this, ln. */
const COURSE = 0.09;
/** The fewest blocks, as part of all, that make a ground, and how many are kept. */
const LEAST_PART = 0.12;
const KEPT = 40;
/** Too dark or too bright for a ground to tell light by: encoded 16 and 250 of 255. */
const DARKEST = 0.005;
const BRIGHTEST = 0.95;

interface Block extends GroundPlace {
  /** ln light, ln red over green, ln blue over green. */
  readonly logs: readonly [number, number, number];
}

/** Places on the ground, evenly over the picture; empty where there is no such thing. */
export function seeGround(picture: Raster): GroundPlace[] {
  const side = Math.max(picture.width, picture.height) / BLOCKS;
  const blocks = evenBlocks(picture, side);
  const all = Math.floor(picture.width / side) * Math.floor(picture.height / side);
  let best: Block[] = [];
  // Every block in turn is asked how many are like it; the largest company is the ground.
  for (const first of blocks) {
    const company = blocks.filter(
      ({ logs }) =>
        Math.abs(logs[1] - first.logs[1]) < ALIKE.colour &&
        Math.abs(logs[2] - first.logs[2]) < ALIKE.colour &&
        Math.abs(logs[0] - first.logs[0]) < ALIKE.light,
    );
    if (company.length > best.length) best = company;
  }
  const ground = onOneCourse(best, picture);
  if (ground.length < LEAST_PART * all) return [];
  const step = Math.max(1, ground.length / KEPT);
  return Array.from({ length: Math.min(KEPT, ground.length) }, (_, index) => {
    const { at, rgb } = ground[Math.floor(index * step)]!;
    return { at, rgb };
  });
}

function evenBlocks({ width, height, data }: Raster, side: number): Block[] {
  const blocks: Block[] = [];
  for (let top = 0; top + side <= height + 0.5; top += side)
    for (let left = 0; left + side <= width + 0.5; left += side) {
      const channels: [number[], number[], number[]] = [[], [], []];
      const lights: number[] = [];
      for (let v = 0; v < POINTS; v++)
        for (let u = 0; u < POINTS; u++) {
          const x = Math.min(width - 1, Math.floor(left + ((u + 0.5) / POINTS) * side));
          const y = Math.min(height - 1, Math.floor(top + ((v + 0.5) / POINTS) * side));
          const at = (y * width + x) * 3;
          for (const channel of [0, 1, 2] as const) channels[channel].push(data[at + channel]!);
          lights.push(lightness(data[at]!, data[at + 1]!, data[at + 2]!));
        }
      for (const list of [...channels, lights]) list.sort((one, other) => one - other);
      const part = (list: number[], share: number): number => list[Math.floor(share * (list.length - 1))]!;
      const rgb: LinearRgb = [part(channels[0], 0.5), part(channels[1], 0.5), part(channels[2], 0.5)];
      if (Math.min(...rgb) < DARKEST || Math.max(...rgb) > BRIGHTEST) continue;
      if (Math.log(part(lights, 0.75) / Math.max(1e-5, part(lights, 0.25))) > EVEN) continue;
      const logs = [Math.log(part(lights, 0.5)), Math.log(rgb[0] / rgb[1]), Math.log(rgb[2] / rgb[1])] as const;
      blocks.push({ at: [left + side / 2, top + side / 2], rgb, logs });
    }
  return blocks;
}

/** Those whose light and colour follow one smooth course over the picture; others are shadows or other things of its colour. */
function onOneCourse(blocks: readonly Block[], { width, height }: Raster): Block[] {
  let kept = [...blocks];
  for (const limit of [3 * COURSE, 1.7 * COURSE, COURSE]) {
    if (kept.length < 12) return [];
    const termsAt = ([x, y]: Point): number[] => {
      const [u, v] = [x / width - 0.5, y / height - 0.5];
      return [1, u, v, u * u, v * v, u * v];
    };
    const courses = ([0, 1, 2] as const).map((axis) =>
      leastSquares(
        kept.map(({ at, logs }) => ({ factors: termsAt(at), value: logs[axis], weight: 1 })),
        [0, 0, 0, 0, 0, 0],
        1e-3,
      ),
    );
    kept = blocks.filter(({ at, logs }) => {
      const terms = termsAt(at);
      return courses.every((course, axis) => {
        const expected = course.reduce((sum, part, term) => sum + part * terms[term]!, 0);
        return Math.abs(logs[axis]! - expected) < limit;
      });
    });
  }
  return kept;
}
