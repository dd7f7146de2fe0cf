/** What may be wished: each wish holds in every way that is offered, or it is told what stands against it. */
import { describe, expect, it } from "vitest";
import { problemSentence } from "../base/problem.ts";
import { lchFromLab } from "../colour/lab.ts";
import { labOfYarn, type Yarn } from "../yarn/yarn.ts";
import { greyYarns, inputOf, pattern } from "../../test/garments/small.ts";
import { feltingOf, partedBy } from "./together.ts";
import { waysUnder } from "./ways.ts";
import { wishProblems } from "./wish.ts";

const yarnOf = (id: string, lab: [number, number, number], more: Partial<Yarn> = {}): Yarn => ({
  id,
  name: id,
  shade: { lab, uncertainty: 2 },
  ...more,
});

describe("rows pinned to a yarn", () => {
  // Row 5 is ABBBAA, the widest of the diamond.
  const at = { chart: "c1", rows: [5, 5] as [number, number] };
  const yarns = greyYarns([20, 36, 54, 70, 84]);

  it("become a change of the way, and the rest is chosen around them", () => {
    const { ways } = waysUnder(inputOf(yarns, { keep: [{ colour: "B", yarn: "y0", at }], ways: 1 }));
    expect(ways[0]!.yarns).toEqual({ A: "y4", B: "y1", C: "y2" });
    expect(ways[0]!.changes).toEqual([{ at, colour: "B", yarn: "y0" }]);
    expect(ways[0]!.findings).toEqual([]);
  });

  it("count in what shows: what they lie on may not be their like", () => {
    const { ways, clash } = waysUnder(inputOf(yarns, { keep: [{ colour: "B", yarn: "y4", at }], never: ["y3"] }));
    for (const way of ways) expect(way.yarns.A).not.toBe("y4");
    expect(ways.length > 0 || clash!.relaxations.length > 0).toBe(true);
  });

  it("may share their yarn with a colour they never meet", () => {
    const only = ["y0", "y2", "y4"];
    const { ways } = waysUnder(inputOf(yarns, { keep: [{ colour: "B", yarn: "y2", at }], only, ways: 1 }));
    expect(ways[0]!.yarns.C).toBe("y2");
  });
});

describe("what is wished of the whole", () => {
  it("leftovers that must be used occur", () => {
    const yarns = [...greyYarns([20, 36, 54, 70, 84]), yarnOf("loud", [52, 30, 20])];
    const [way] = waysUnder(inputOf(yarns, { use: ["loud", "y0"], ways: 1 })).ways;
    expect(Object.values(way!.yarns)).toEqual(expect.arrayContaining(["loud", "y0"]));
    expect(way!.proven).toBe(true);
  });

  it("a quieter fabric is quieter, a louder one louder", () => {
    const yarns = [84, 54, 36].flatMap((lightness) =>
      [2, 8, 15, 30].map((chroma) => yarnOf(`${lightness}/${chroma}`, [lightness, chroma * 0.8, chroma * 0.6])),
    );
    const loudness = (fabric?: "quieter" | "louder"): number => {
      const [way] = waysUnder(inputOf(yarns, { ...(fabric ? { fabric } : {}), ways: 1 })).ways;
      const chromas = Object.values(way!.yarns).map((id) => lchFromLab(labOfYarn(yarns.find((one) => one.id === id)!))[1]); // prettier-ignore
      return chromas.reduce((sum, chroma) => sum + chroma, 0);
    };
    expect(loudness("quieter")).toBeLessThan(loudness());
    expect(loudness("louder")).toBeGreaterThan(loudness());
  });

  it("weights are factors on the terms, and a character kept closely weighs contrasts twice", () => {
    const yarns = greyYarns([20, 36, 54, 70, 84]);
    const weightsUnder = (wish: object) => waysUnder(inputOf(yarns, { ...wish, ways: 1 })).ways[0]!.weights;
    const usual = weightsUnder({});
    expect(weightsUnder({ weights: { hue: 3 } })).toEqual({ ...usual, hue: 3 * usual.hue });
    expect(weightsUnder({ character: "close" })).toEqual({
      ...usual,
      contrast: 2 * usual.contrast,
      loudness: 2 * usual.loudness,
    });
  });

  it("echoes stay alike where the ladder is free", () => {
    // The band of rows 2 and 8 is one row high and echoes nothing; the diamond, knitted again in C, does.
    const diamond = ["AABAAA", "ABBBAA", "AABAAA"];
    const rows = [...diamond.map((row) => row.replaceAll("B", "C")), "AAAAAA", ...diamond];
    const twice = { ...pattern, charts: [{ id: "c1", rows }] };
    const yarns = greyYarns([14, 50, 86]);
    const free = waysUnder(
      inputOf(yarns, { ladder: "free", echoes: "alike", keep: [{ colour: "A", yarn: "y0" }] }, { pattern: twice }),
    );
    // A on the dark side would turn both echoes over; in the pattern A is lighter than both.
    expect(free.ways).toEqual([]);
    const without = waysUnder(
      inputOf(yarns, { ladder: "free", keep: [{ colour: "A", yarn: "y0" }] }, { pattern: twice }),
    );
    expect(without.ways.length).toBeGreaterThan(0);
  });
});

describe("yarns that go together", () => {
  const thin = greyYarns([36, 54]).map((yarn) => ({ ...yarn, metresPer100g: 420 }));
  const thick = yarnOf("thick", [85, 0, 0], { metresPer100g: 200 });
  const near = yarnOf("near", [80, 0, 0], { metresPer100g: 400 });
  const unknown = yarnOf("unknown", [79, 0, 0]);

  it("a thick yarn is not put beside thin ones, one of unknown thickness is", () => {
    const groundOf = (yarns: readonly Yarn[], thickness: boolean) =>
      waysUnder(inputOf(yarns, { together: { thickness }, ways: 1 })).ways[0]?.yarns.A;
    expect(groundOf([...thin, thick, near], false)).toBe("thick");
    expect(groundOf([...thin, thick, near], true)).toBe("near");
    expect(groundOf([...thin, thick, unknown], true)).toBe("unknown");
  });

  it("words of fibre tell what felts; the trade's, from memory", () => {
    expect(feltingOf({ fibre: "wool" })).toBe("felts");
    expect(feltingOf({ fibre: "Superwash merino" })).toBe("superwash");
    expect(feltingOf({ fibre: "cotton" })).toBe("does not felt");
    expect(feltingOf({ fibre: "hers" })).toBeNull();
    expect(feltingOf({})).toBeNull();
    const [wool, superwash] = [yarnOf("a", [50, 0, 0], { fibre: "wool" }), yarnOf("b", [50, 0, 0], { fibre: "superwash wool" })]; // prettier-ignore
    expect(partedBy(wool, superwash, { felting: true })).toBe("one felts, the other is superwash");
    expect(partedBy(wool, superwash, { thickness: true })).toBeNull();
  });

  it("15 % in metres per 100 g is the most, common practice", () => {
    const of = (metresPer100g: number) => yarnOf("a", [50, 0, 0], { metresPer100g });
    expect(partedBy(of(420), of(366), { thickness: true })).toBeNull();
    expect(partedBy(of(420), of(364), { thickness: true })).not.toBeNull();
  });

  it("lots that are not mixed leave only the largest", () => {
    const lots = [
      { id: "l1", grams: 40 },
      { id: "l2", grams: 35 },
    ];
    const yarns = greyYarns([36, 54, 80, 84]).map((yarn, k) => (k === 3 ? { ...yarn, lots } : yarn));
    const needs = { ofColour: new Map([["A", 250]]), owned: new Map([["y3", 315], ["y2", 300]]) }; // prettier-ignore
    const groundOf = (wish: object) => waysUnder(inputOf(yarns, { ...wish, ways: 1 }, { needs })).ways[0]?.yarns.A;
    expect(groundOf({})).toBe("y3");
    // 40 of 75 g are 168 of 315 m.
    expect(groundOf({ together: { lots: true } })).toBe("y2");
  });
});

describe("a shade to buy", () => {
  const yarns = greyYarns([36, 54, 60]);

  it("takes no more places than may be bought for, says that it is no yarn, and passes the checks", () => {
    const { ways } = waysUnder(inputOf(yarns, { buy: 1, ways: 2 }));
    expect(ways.length).toBeGreaterThan(0);
    for (const way of ways) {
      const bought = Object.values(way.yarns).filter((id) => !yarns.some((yarn) => yarn.id === id));
      expect(bought.length).toBe(1);
      expect(way.toFind.map(({ yarn }) => yarn.id)).toEqual(bought);
      expect(way.findings).toEqual([]);
      const [shade] = way.toFind;
      expect(shade!.sentence).toMatch(/A shade to look for, for A: .*not a yarn/);
      expect(shade!.hex).toMatch(/^#[0-9a-f]{6}$/);
      expect(shade!.nearest.length).toBe(3);
      expect(shade!.radius).toBeGreaterThan(0);
    }
  });

  it("buys nothing where that would bring little", () => {
    expect(waysUnder(inputOf(greyYarns([36, 54, 84]), { buy: 2, ways: 1 })).ways[0]?.toFind).toEqual([]);
  });
});

describe("problems", () => {
  const yarns = [...greyYarns([30, 84]), yarnOf("mystery", [50, 0, 0])];
  it.each([
    [{ use: ["q"] }, 'Use[0]: expected the id of one of the yarns, found "q".'],
    [{ use: ["y0"], never: ["y0"] }, 'Use[0]: expected a yarn that may be used, found "y0".'],
    [{ keep: [{ colour: "A", yarn: "y0", at: { chart: "c9" } }] }, 'Keep[0].at: expected a chart of the pattern, found "c9".'], // prettier-ignore
    [{ keep: [{ colour: "A", yarn: "y0", at: { chart: "c1", rows: [2, 12] as [number, number] } }] }, "Keep[0].at.rows: expected rows up to 9, found rows 2–12."], // prettier-ignore
    [{ keep: [{ colour: "A", yarn: "y0", at: { section: "s" } }] }, 'Keep[0].at: expected a section of the pattern, found "s".'], // prettier-ignore
    [{ together: { thickness: true } }, "Together.thickness: expected metres per 100 g of every yarn, found nothing for yarn 0, yarn 1, mystery; they are allowed."], // prettier-ignore
    [{ together: { felting: true } }, "Together.felting: expected a fibre, such as wool, superwash or cotton, of every yarn, found nothing for yarn 0, yarn 1, mystery; they are allowed."], // prettier-ignore
    [{ buy: 2, weights: { hue: 2 }, character: "close" as const }, null],
  ])("%j", (wish, sentence) => {
    expect(wishProblems(wish, pattern, yarns).map(problemSentence)).toEqual(sentence === null ? [] : [sentence]);
  });
});
