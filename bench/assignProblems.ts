/** The published, seeded generator of assignment problems that bench and oracle tests share: what it makes depends on its arguments alone. */
import { seededRandom } from "../src/base/random.ts";
import type { AssignmentProblem, PairClash, PairCost } from "../src/recolour/assign.ts";

/**
 * random: costs uniform in 0…100, every pair its own forbidden table of the given density.
 * apart: yarns are points of an invented colour solid, chart colours too, cost = distance; all pairs share one table: too near in L.
 * ladder: as apart, and the colours' own order from light to dark must be kept with a least step.
 * near: cost = distance, but all chart colours lie close together, so that all want the same few yarns; random tables.
 */
export type Kind = "random" | "apart" | "ladder" | "near";

export interface Recipe {
  readonly kind: Kind;
  readonly colours: number;
  readonly yarns: number;
  /** Share of forbidden entries; for apart and ladder the least step in L is chosen from it. */
  readonly density: number;
  readonly seed: number;
}

export function makeProblem({ kind, colours, yarns, density, seed }: Recipe): AssignmentProblem {
  const random = seededRandom(seed * 7919 + colours * 31 + yarns);
  const point = (): [number, number, number] => [15 + 80 * random(), 90 * (random() - 0.5), 90 * (random() - 0.5)];
  const yarnLabs = Array.from({ length: yarns }, point);
  const colourLabs = Array.from({ length: colours }, () =>
    kind === "near" ? [45 + 20 * random(), 20 * random(), 20 * random()] : point(),
  );
  const distance = (a: readonly number[], b: readonly number[]): number =>
    Math.hypot(a[0]! - b[0]!, a[1]! - b[1]!, a[2]! - b[2]!);
  const costs = colourLabs.map((lab) =>
    yarnLabs.map((other) => (kind === "random" ? 100 * random() : distance(lab, other))),
  );
  const clashes: PairClash[] = [];
  // Two independent uniform lightnesses over a range R are nearer than s with probability 2s/R − (s/R)².
  const step = 80 * (1 - Math.sqrt(1 - density));
  const near = new Uint8Array(yarns * yarns);
  for (let k = 0; k < yarns; k++) {
    for (let l = 0; l < yarns; l++) near[k * yarns + l] = Math.abs(yarnLabs[k]![0] - yarnLabs[l]![0]) < step ? 1 : 0;
  }
  for (let i = 0; i < colours; i++) {
    for (let j = i + 1; j < colours; j++) {
      if (kind === "random" || kind === "near") {
        clashes.push({
          i,
          j,
          forbidden: Uint8Array.from({ length: yarns * yarns }, () => (random() < density ? 1 : 0)),
        });
      } else if (kind === "apart") {
        clashes.push({ i, j, forbidden: near });
      } else {
        const sign = Math.sign(colourLabs[i]![0]! - colourLabs[j]![0]!);
        const forbidden = near.map((_, at) =>
          sign * (yarnLabs[Math.floor(at / yarns)]![0] - yarnLabs[at % yarns]![0]) < step ? 1 : 0,
        );
        clashes.push({ i, j, forbidden });
      }
    }
  }
  return { costs, clashes, distinct: true, seed };
}

/**
 * Soft problems: cost = distance of the shade, and for every listed pair a price for missing the wanted step in L.
 * `pairs` of all the pairs of colours carry a price, in a fixed order.
 */
export function makeSoftProblem(
  colours: number,
  yarns: number,
  pairs: number,
  noise: number,
  seed: number,
): AssignmentProblem {
  const random = seededRandom(seed * 104729 + pairs);
  const point = (): [number, number, number] => [15 + 80 * random(), 90 * (random() - 0.5), 90 * (random() - 0.5)];
  const yarnLabs = Array.from({ length: yarns }, point);
  const colourLabs = Array.from({ length: colours }, point);
  const distance = (a: readonly number[], b: readonly number[]): number =>
    Math.hypot(a[0]! - b[0]!, a[1]! - b[1]!, a[2]! - b[2]!);
  const pairCosts: PairCost[] = [];
  for (let i = 0; i < colours; i++) {
    for (let j = i + 1; j < colours && pairCosts.length < pairs; j++) {
      const wanted = colourLabs[i]![0] - colourLabs[j]![0];
      const cost = Float32Array.from({ length: yarns * yarns }, (_, at) => {
        const step = yarnLabs[Math.floor(at / yarns)]![0] - yarnLabs[at % yarns]![0];
        return (1 - noise) * Math.abs(step - wanted) + noise * 40 * random();
      });
      pairCosts.push({ i, j, cost });
    }
  }
  return {
    costs: colourLabs.map((lab) => yarnLabs.map((other) => distance(lab, other))),
    pairCosts,
    distinct: true,
    seed,
  };
}
