/** What is kept is kept for that object alone. */
import { expect, it } from "vitest";
import { oncePer } from "./oncePer.ts";

it("works a thing out once for each object, however alike two objects are", () => {
  let times = 0;
  const length = oncePer((list: readonly number[]) => {
    times += 1;
    return list.length;
  });
  const list = [1, 2];
  expect([length(list), length(list), length([1, 2])]).toEqual([2, 2, 2]);
  expect(times).toBe(2);
});
