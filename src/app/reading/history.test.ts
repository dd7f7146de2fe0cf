import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { acted, alongside, begun, redone, undone } from "./history.ts";

const acts = fc.array(fc.record({ name: fc.string(), value: fc.integer() }), { maxLength: 12 });

describe("steps within a door", () => {
  it("undone as often as acted is where it began, and done again as it was", () => {
    fc.assert(
      fc.property(acts, (list) => {
        const end = list.reduce((history, { name, value }) => acted(history, name, value), begun(0));
        const back = end.past.reduce((history) => undone(history), end);
        expect(back.now).toBe(0);
        expect(back.past).toEqual([]);
        const again = back.future.reduce((history) => redone(history), back);
        expect(again).toEqual(end);
      }),
      { seed: 7, numRuns: 100 },
    );
  });
  it("an act that changes nothing is no step, and nothing comes before the first", () => {
    const history = acted(begun(3), "same", 3);
    expect(history.past).toHaveLength(0);
    expect(undone(history)).toBe(history);
    expect(redone(history)).toBe(history);
  });
  it("an act after going back leaves what was ahead", () => {
    const history = acted(undone(acted(acted(begun("a"), "one", "b"), "two", "c")), "three", "d");
    expect(history.future).toEqual([]);
    expect(undone(history).now).toBe("b");
  });
  it("what comes in from outside is there at every step", () => {
    const history = alongside(undone(acted(begun(["a"]), "one", ["a", "b"])), (list) => [...list, "z"]);
    expect(history.now).toEqual(["a", "z"]);
    expect(redone(history).now).toEqual(["a", "b", "z"]);
  });
});
