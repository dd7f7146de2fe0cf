/** How far a band reads, in words: the estimate first, then its least and most. */
import { expect, it } from "vitest";
import { readsToWords } from "./check.ts";

it.each<[number, number, number, string]>([
  [9, 7, 15, "past 6 m"],
  [9, 3.21, 15, "past 6 m (3.2–past 6)"],
  [9, 0, 15, "past 6 m (0–past 6)"],
  [4.2, 3.1, 5, "4.2 m (3.1–5)"],
  [4.2, 0, 15, "4.2 m (0–past 6)"],
  [4.2, 4.2, 4.2, "4.2 m"],
  [0, 0, 2.04, "never (0–2)"],
  [0, 0, 15, "never (0–past 6)"],
  [0, 0, 0, "never"],
])("%d m, from %d to %d: %s", (metres, low, high, words) =>
  expect(readsToWords({ metres, low, high, beyond: false })).toBe(words),
);

it("a row with nothing to see reads nowhere", () => expect(readsToWords(null)).toBe(""));
