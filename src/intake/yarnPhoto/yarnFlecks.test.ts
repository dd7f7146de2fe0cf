/** Flecks in painted yarn whose colours, shares and lengths are known; plain yarn has shadow, shine and noise, and no flecks. */
import { describe, expect, it } from "vitest";
import { paintFlecked, type PaintedKind } from "../../../test/intake/fleckPainter.ts";
import { labFromLinear } from "../../colour/lab.ts";
import { flecksOf, type PhotographedFleck } from "./yarnFlecks.ts";

const SEEDS = Array.from({ length: 8 }, (_, at) => 301 + at);
const seen = (kind: PaintedKind, seed: number) => {
  const painted = paintFlecked(seed, kind);
  return { painted, flecks: flecksOf(painted.picture, painted.box, labFromLinear) };
};
const middle = (list: readonly number[]): number => list.toSorted((a, b) => a - b)[list.length >> 1]!;
const least = (flecks: readonly PhotographedFleck[]): number => Math.min(...flecks.map(({ share }) => share));

it("plain yarn is not called flecked for its shadows and shine", () => {
  expect(SEEDS.filter((seed) => seen("plain", seed).flecks.length > 0)).toHaveLength(0);
});

it.each(["heather", "tweed", "marl", "variegated"] as const)("%s is found, with its shares", (kind) => {
  const all = SEEDS.map((seed) => seen(kind, seed)).filter(({ flecks }) => flecks.length > 1);
  expect(all.length).toBeGreaterThanOrEqual(SEEDS.length - 1);
  const off = all.map(({ painted: { share }, flecks }) => Math.abs(least(flecks) - Math.min(share, 1 - share)));
  // Of a variegated ball only a few runs lie on its face.
  expect(middle(off)).toBeLessThan(kind === "variegated" ? 0.1 : 0.03);
});

describe("how long the rarer colour lasts, in widths of a strand", () => {
  it.each(["tweed", "variegated"] as const)("%s", (kind) => {
    const ratios = SEEDS.flatMap((seed) => {
      const { painted, flecks } = seen(kind, seed);
      const strands = flecks.at(-1)?.strands;
      return strands === undefined ? [] : [(strands * painted.pitch) / painted.length];
    });
    expect(ratios.length).toBeGreaterThan(SEEDS.length * 0.7);
    expect(middle(ratios)).toBeGreaterThan(0.6);
    expect(middle(ratios)).toBeLessThan(1.6);
  });

  it("a yarn without strands that can be told apart has none", () => {
    const { picture, box } = paintFlecked(301, "heather");
    expect(
      flecksOf(picture, { ...box, width: 30, height: 30 }, labFromLinear).every(({ strands }) => strands === undefined),
    ).toBe(true);
  });
});
