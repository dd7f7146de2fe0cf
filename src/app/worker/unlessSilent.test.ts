/** What has fallen silent is given up, what goes on is waited for. */
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { unlessSilent } from "./unlessSilent.ts";

beforeEach(() => void vi.useFakeTimers());
afterEach(() => void vi.useRealTimers());

const never = (): Promise<string> => new Promise(() => {});

describe("work that may fall silent", () => {
  it("is given up after so long without a word, and only then", async () => {
    const giveUp = vi.fn(() => "given up");
    const answer = unlessSilent(never, 20_000, giveUp);
    await vi.advanceTimersByTimeAsync(19_000);
    expect(giveUp).not.toHaveBeenCalled();
    await vi.advanceTimersByTimeAsync(1_000);
    expect(await answer).toBe("given up");
    await vi.advanceTimersByTimeAsync(60_000);
    expect(giveUp).toHaveBeenCalledTimes(1);
  });

  it("is waited for as long as a word comes now and then", async () => {
    const work = (heard: () => void): Promise<string> =>
      new Promise((resolve) => {
        for (let at = 1; at <= 6; at++) setTimeout(heard, at * 15_000);
        setTimeout(() => resolve("read"), 100_000);
      });
    const giveUp = vi.fn(() => "given up");
    const answer = unlessSilent(work, 20_000, giveUp);
    await vi.advanceTimersByTimeAsync(100_000);
    expect(await answer).toBe("read");
    expect(giveUp).not.toHaveBeenCalled();
    expect(vi.getTimerCount()).toBe(0);
  });

  it("fails as it failed", async () => {
    const answer = unlessSilent(
      () => Promise.reject(new Error("stopped")),
      20_000,
      () => "given up",
    );
    await expect(answer).rejects.toThrow("stopped");
    expect(vi.getTimerCount()).toBe(0);
  });
});
