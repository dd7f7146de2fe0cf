import { expect, test } from "vitest";
import { plainName } from "../../colour/names.ts";
import type { Lab } from "../../colour/lab.ts";
import { suggestedNames } from "./yarnNames.ts";

const GREY: Lab = [54, 0, 0];
const RED: Lab = [40, 55, 30];

test("a plain name that stands alone needs no number; those alike are counted, past names that are taken", () => {
  const [grey, red] = [plainName(GREY), plainName(RED)];
  expect(suggestedNames([GREY, RED, GREY], [])).toEqual([`${grey} 1`, red, `${grey} 2`]);
  expect(suggestedNames([GREY, null, RED], [`${grey.toUpperCase()} `, `${grey} 1`])).toEqual([`${grey} 2`, "", red]);
  expect(suggestedNames([], [])).toEqual([]);
});
