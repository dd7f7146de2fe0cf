/** The newest request wins: what was overtaken is neither run nor drawn. */
import { describe, expect, it } from "vitest";
import { newest } from "./client.ts";

/** A job that ends when the test says so, and notes what it was asked. */
function handJob() {
  const ends: ((value: string) => void)[] = [];
  const asked: string[] = [];
  const job = (question: string) => {
    asked.push(question);
    return new Promise<string>((resolve) => ends.push((tail) => resolve(question + tail)));
  };
  return { job, asked, end: (i: number) => ends[i]!("!") };
}

describe("the newest request wins", () => {
  it("answers a lone request", async () => {
    const { job, end } = handJob();
    const answer = newest(job)("a");
    end(0);
    expect(await answer).toBe("a!");
  });

  it("never runs what was overtaken while it waited, and drops what was overtaken while it ran", async () => {
    const { job, asked, end } = handJob();
    const ask = newest(job);
    const [a, b, c] = [ask("a"), ask("b"), ask("c")];
    end(0);
    expect(await a).toBeNull();
    expect(await b).toBeNull();
    await Promise.resolve();
    expect(asked).toEqual(["a", "c"]);
    end(1);
    expect(await c).toBe("c!");
  });

  it("goes on after a job that failed", async () => {
    let fail = true;
    const ask = newest(async (question: string) => {
      if (fail) throw new Error("no");
      return question;
    });
    await expect(ask("a")).rejects.toThrow("no");
    fail = false;
    expect(await ask("b")).toBe("b");
  });

  it("tells when somebody waits, so that what runs too long may be ended", async () => {
    const { job, end } = handJob();
    let waiting = 0;
    const ask = newest(job, () => (waiting += 1));
    const a = ask("a");
    expect(waiting).toBe(0);
    const b = ask("b");
    expect(waiting).toBe(1);
    end(0);
    await a;
    end(1);
    expect(await b).toBe("b!");
  });
});
