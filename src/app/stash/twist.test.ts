import { describe, expect, it } from "vitest";
import { twisted } from "./twist.ts";

const size = { width: 120, height: 60, turn: 60, thick: 24 };
const plain = (lab: [number, number, number]) => [{ lab, share: 1 }];
const red = plain([50, 60, 40]);
const blue = plain([50, 0, -45]);

/** Pixels of yarn that are redder than blue, and the other way round. */
function counted(rgba: Uint8ClampedArray): { red: number; blue: number; clear: number } {
  const count = { red: 0, blue: 0, clear: 0 };
  for (let at = 0; at < rgba.length; at += 4) {
    if (rgba[at + 3] === 0) count.clear++;
    else if (rgba[at]! > rgba[at + 2]!) count.red++;
    else count.blue++;
  }
  return count;
}

describe("strands twisted together", () => {
  it("two strands of one thickness show about the same of each over whole turns, and ground around them", () => {
    const count = counted(twisted([red, blue], size));
    expect(Math.abs(count.red - count.blue) / (count.red + count.blue)).toBeLessThan(0.1);
    expect(count.clear).toBeGreaterThan(0);
  });
  it("the same strands give the same picture", () => {
    expect(twisted([red, blue], size).join()).toBe(twisted([red, blue], size).join());
  });
  it("in grey, two hues of one lightness are one", () => {
    const grey = twisted([red, blue], size, "grey");
    const same = twisted([red, red], size, "grey");
    expect(grey.join()).toBe(same.join());
    const spread = Array.from({ length: grey.length / 4 }, (_, at) => {
      const [r, g, b] = grey.subarray(4 * at, 4 * at + 3) as unknown as [number, number, number];
      return Math.max(r, g, b) - Math.min(r, g, b);
    });
    expect(Math.max(...spread)).toBeLessThanOrEqual(1);
  });
  it("a heather shows its flecks by their share", () => {
    const heather = [
      { lab: [50, 60, 40] as [number, number, number], share: 0.7 },
      { lab: [50, 0, -45] as [number, number, number], share: 0.3 },
    ];
    const count = counted(twisted([heather], { ...size, width: 2400 }));
    expect(count.blue / (count.red + count.blue)).toBeGreaterThan(0.2);
    expect(count.blue / (count.red + count.blue)).toBeLessThan(0.4);
  });
});
