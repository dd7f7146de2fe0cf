/** Answers that are there before she is: in which order they are asked for, and what is forgotten. */
import { describe, expect, it } from "vitest";
import { createAhead, type AheadJob } from "./ahead.ts";

const STANDS = [1, 2, 3, 4, 5];

/** A job that ends when the test says so, and notes what it was asked and what was dropped. */
function handAhead(part: Partial<AheadJob<string, string>> = {}) {
  const ends: { resolve: (answer: string) => void; reject: (reason: unknown) => void }[] = [];
  const asked: string[] = [];
  const dropped: string[] = [];
  const ahead = createAhead<string, string>({
    stands: STANDS,
    keyOf: (question) => question,
    ask: (question, stand) => {
      asked.push(`${question}${stand}`);
      return new Promise((resolve, reject) => ends.push({ resolve, reject }));
    },
    sizeOf: () => 1,
    most: 100,
    patience: Infinity,
    drop: (answer) => dropped.push(answer),
    ...part,
  });
  const end = async () => {
    const at = asked.length - 1;
    ends[at]!.resolve(`${asked[at]!}!`);
    await new Promise((resolve) => setTimeout(resolve));
  };
  const endAll = async () => {
    for (let turns = 0; turns < 100 && !ahead.settled(); turns++) await end();
  };
  const fail = async () => {
    ends[asked.length - 1]!.reject(new Error("no"));
    await new Promise((resolve) => setTimeout(resolve));
  };
  return { ahead, asked, dropped, end, endAll, fail };
}

describe("what is worked out ahead", () => {
  it("begins where she stands and goes on to the nearest, one at a time", async () => {
    const { ahead, asked, end, endAll } = handAhead();
    ahead.want(["a"], 3, "everywhere");
    expect(asked).toEqual(["a3"]);
    expect(ahead.ready(3)).toBe(false);
    await end();
    expect(ahead.ready(3)).toBe(true);
    expect(ahead.find("a", 3)).toBe("a3!");
    await endAll();
    expect(asked).toEqual(["a3", "a2", "a4", "a1", "a5"]);
    expect(ahead.settled()).toBe(true);
  });

  it("works out nothing but her own stand while the hand moves, and comes to it before all others", async () => {
    const { ahead, asked, end } = handAhead();
    ahead.want(["a"], 1, "here");
    await end();
    expect(asked).toEqual(["a1"]);
    ahead.want(["a"], 1, "everywhere");
    expect(asked).toEqual(["a1", "a2"]);
    ahead.want(["a"], 5, "everywhere");
    await end();
    expect(asked).toEqual(["a1", "a2", "a5"]);
  });

  it("is ready at a stand when all questions are answered there", async () => {
    const { ahead, asked, end } = handAhead();
    ahead.want(["a", "b"], 2, "here");
    await end();
    expect(ahead.ready(2)).toBe(false);
    await end();
    expect(ahead.ready(2)).toBe(true);
    expect(asked).toEqual(["a2", "b2"]);
  });

  it("tells when the wanted stand is answered and when nothing is left, and not in between", async () => {
    const { ahead, end, endAll } = handAhead();
    let told = 0;
    ahead.subscribe(() => (told += 1));
    ahead.want(["a"], 3, "everywhere");
    await end();
    expect(told).toBe(1);
    await end();
    expect(told).toBe(1);
    await endAll();
    expect(told).toBe(2);
  });

  it("forgets what was asked for longest ago, never where she stands, and does not work beyond its room", async () => {
    const { ahead, asked, dropped, endAll } = handAhead({ most: 5 });
    ahead.want(["a"], 1, "everywhere");
    await endAll();
    ahead.want(["b"], 2, "here");
    await endAll();
    expect(dropped).toEqual(["a1!"]);
    expect(ahead.find("b", 2)).toBe("b2!");
    const before = asked.length;
    ahead.want(["a", "b"], 2, "everywhere");
    await endAll();
    expect(asked.slice(before)).toEqual([]);
    expect(ahead.find("b", 2)).toBe("b2!");
  });

  it("stops working ahead when its patience is spent, and still answers where she stands", async () => {
    const { ahead, asked, endAll } = handAhead({ patience: 0 });
    ahead.want(["a"], 1, "everywhere");
    await endAll();
    ahead.want(["a"], 4, "everywhere");
    await endAll();
    expect(asked).toEqual(["a1", "a4"]);
  });

  it("does not wait for what broke, and tells of it", async () => {
    const { ahead, asked, fail } = handAhead();
    ahead.want(["a"], 1, "here");
    await fail();
    expect(ahead.ready(1)).toBe(true);
    expect(ahead.failure()).toBeInstanceOf(Error);
    expect(asked).toEqual(["a1"]);
    ahead.want(["b"], 1, "here");
    expect(ahead.failure()).toBeUndefined();
  });
});
