import { expect, it } from "vitest";
import { netOf } from "./net.ts";
import { twinsOf } from "./twins.ts";

const costs = [
  [1, 2, 1, 1],
  [3, 3, 3, 3],
];

it("same costs, no tables: yarns 0, 2 and 3 are alike", () => {
  expect([...twinsOf(netOf({ costs, distinct: true }))]).toEqual([0, 1, 0, 0]);
});

it("a clash that only yarn 3 has sets it apart", () => {
  const forbidden = new Uint8Array(16);
  forbidden[3 * 4 + 1] = 1; // yarn 3 for colour 0 with yarn 1 for colour 1
  expect([...twinsOf(netOf({ costs, clashes: [{ i: 0, j: 1, forbidden }], distinct: true }))]).toEqual([0, 1, 0, 3]);
});

it("so does having less of it, where yarns may be shared", () => {
  const capacity = { need: [1, 1], have: [9, 9, 9, 8] };
  expect([...twinsOf(netOf({ costs, capacity, distinct: false }))]).toEqual([0, 1, 0, 3]);
});
