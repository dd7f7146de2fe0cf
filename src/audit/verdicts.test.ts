/** What verdicts tell of her eye: laws of the fit, knitters of known threshold, and looks at swatches of a project. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { seededRandom, type Random } from "../base/random.ts";
import { spectrumMemory, USUAL_VIEWING } from "../fabric/contrast.ts";
import { visibility, type Word } from "../fabric/visibility.ts";
import { audit } from "./audit.ts";
import { contextOf, judgeMemory } from "./judge.ts";
import { doubtOf, herEye, verdictsOf, type SeenVerdict, type Swatched } from "./verdicts.ts";

const WORDS: readonly Word[] = ["lost", "faint", "clear", "strong"];

describe("the fit", () => {
  it("before any verdict is what is known of nobody: N(0, ln 3), its middle 80 %", () => {
    // 1.2816 standard deviations hold 80 % of a normal distribution (any table of it); ln 3 = 1.0986.
    const eye = herEye([]);
    expect([eye.verdicts, eye.theta]).toEqual([0, 0]);
    expect(eye.sd).toBeCloseTo(1.0986, 4);
    expect(eye.low).toBeCloseTo(-1.408, 3);
    expect(eye.high).toBeCloseTo(1.408, 3);
  });

  it("one verdict, worked by hand: the mean of θ where the likelihood is one logistic", () => {
    // "strong" at V = 10: P = logistic(−θ/0.5), odd about 1/2, so the mean is −2 ∫ θ φ(θ) (logistic(2θ) − 1/2) over θ > 0, doubled
    // by symmetry. Trapezes of ten thousand steps, written out here and not taken from the fit.
    const sd = Math.log(3);
    let mean = 0;
    for (let step = 1; step < 10_000; step++) {
      const theta = (step / 10_000) * 10;
      const density = Math.exp(-(theta ** 2) / (2 * sd ** 2)) / (sd * Math.sqrt(2 * Math.PI));
      mean += -4 * theta * density * (1 / (1 + Math.exp(-2 * theta)) - 0.5) * 1e-3;
    }
    expect(herEye([{ V: 10, verdict: "strong" }]).theta).toBeCloseTo(mean, 3);
    // And its mirror: "lost" at V = 1.
    expect(herEye([{ V: 1, verdict: "lost" }]).theta).toBeCloseTo(-mean, 3);
  });

  it.each([
    [2, "lost", 1],
    [2, "clear", -1],
    [2, "strong", -1],
    [20, "faint", 1],
    [0.3, "faint", -1],
  ] as const)("at V %d she says %s: θ moves to its side", (V, verdict, side) =>
    expect(Math.sign(herEye([{ V, verdict }]).theta)).toBe(side),
  );

  const verdict = fc.record({ V: fc.double({ min: 1e-3, max: 1e3, noNaN: true }), verdict: fc.constantFrom(...WORDS) });

  it("does not heed the order of verdicts", () =>
    fc.assert(
      fc.property(fc.array(verdict, { minLength: 2, maxLength: 12 }), (list) => {
        const [one, other] = [herEye(list), herEye(list.toReversed())];
        for (const key of ["theta", "sd", "low", "high"] as const) expect(one[key]).toBeCloseTo(other[key], 6);
      }),
      { seed: 7, numRuns: 40 },
    ));

  it("a better word at the same V never raises θ", () =>
    fc.assert(
      fc.property(fc.array(verdict, { maxLength: 6 }), verdict, fc.nat(2), (rest, { V }, worse) => {
        const said = (word: Word) => herEye([...rest, { V, verdict: word }]).theta;
        expect(said(WORDS[worse + 1]!)).toBeLessThanOrEqual(said(WORDS[worse]!) + 1e-9);
      }),
      { seed: 7, numRuns: 60 },
    ));

  it("is finite, ordered and within the grid whatever is said", () =>
    fc.assert(
      fc.property(fc.array(verdict, { minLength: 1, maxLength: 40 }), (list) => {
        const { theta, sd, low, high } = herEye(list);
        expect([theta, sd, low, high].every(Number.isFinite)).toBe(true);
        expect(low).toBeLessThan(high);
        expect(low).toBeGreaterThanOrEqual(-10.01);
        expect(high).toBeLessThanOrEqual(10.01);
      }),
      { seed: 7, numRuns: 100 },
    ));

  it("many verdicts that agree narrow it", () => {
    const agreeing = (count: number): SeenVerdict[] =>
      Array.from({ length: count }, (_, at) => ({ V: 2, verdict: at % 2 ? "faint" : "clear" }));
    const widths = [0, 2, 8, 32].map((count) => {
      const { low, high } = herEye(agreeing(count));
      return high - low;
    });
    expect(widths).toEqual(widths.toSorted((a, b) => b - a));
    expect(widths[3]!).toBeLessThan(widths[0]! / 4);
  });

  it("verdicts that contradict one another leave it wide", () => {
    const contrary = herEye([
      { V: 20, verdict: "lost" },
      { V: 0.5, verdict: "strong" },
    ]);
    const agreeing = herEye([
      { V: 2, verdict: "faint" },
      { V: 4, verdict: "clear" },
    ]);
    expect(contrary.high - contrary.low).toBeGreaterThan(1.4 * (agreeing.high - agreeing.low));
  });
});

describe("knitters whose threshold is known", () => {
  /** A normal deviate by Box and Muller. */
  const normal = (random: Random): number => Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());

  /** Says what P(at least w) of vision.md D makes a knitter of that θ say. */
  function says(V: number, theta: number, random: Random): Word {
    const chance = random();
    const reaches = (limit: number) => chance < 1 / (1 + Math.exp(-(Math.log(V / limit) - theta) / 0.5));
    return reaches(10) ? "strong" : reaches(3) ? "clear" : reaches(1) ? "faint" : "lost";
  }

  it.each([1, 3, 7, 15])("lie in the stated 80 % interval after %d verdicts", (count) => {
    const random = seededRandom(100 + count);
    const runs = 500;
    let held = 0;
    for (let run = 0; run < runs; run++) {
      const theta = Math.log(3) * normal(random);
      const verdicts = Array.from({ length: count }, (): SeenVerdict => {
        // Swatches of things in doubt: V from 0.3 to 30, evenly in its logarithm.
        const V = 0.3 * 100 ** random();
        return { V, verdict: says(V, theta, random) };
      });
      const { low, high } = herEye(verdicts);
      held += Number(theta >= low && theta <= high);
    }
    // Our bar: 75 to 85 % of runs. One standard deviation of 500 runs is 1.8 %.
    expect(held / runs).toBeGreaterThan(0.75);
    expect(held / runs).toBeLessThan(0.85);
  });
});

describe("looks at swatches", () => {
  const GAUGE = { stitches: 28, rows: 30 };
  const chart = { id: "c", rows: ["BA", "AB", "AA", "CC", "AA", "BA"] };
  const project = (looks: NonNullable<Swatched["swatches"]>[number]["looks"], gauge = null): Swatched => ({
    pattern: {
      gauge: GAUGE,
      colours: [
        { id: "A", shade: { lab: [80, 0, 0] } },
        { id: "B", shade: { lab: [20, 0, 0] } },
        { id: "C", shade: { lab: [50, 0, 0] } },
      ],
      charts: [chart],
      sections: [{ id: "s", chart: "c", startRow: 3, rounds: { M: 12 }, stitches: { M: 100 } }],
    },
    yarns: [
      { id: "a", name: "light", shade: { lab: [70, 0, 0] } },
      { id: "b", name: "grey", shade: { lab: [60, 0, 0] } },
    ],
    colourways: [
      { id: "w", yarns: { A: "a", B: "b" } },
      { id: "plain", yarns: { A: "a", B: "a" } },
    ],
    swatches: [{ colourway: "w", gauge, looks: looks ?? [] }],
  });
  const at = (rows?: [number, number]) => ({ chart: "c", ...(rows ? { rows } : {}) });
  const memory = spectrumMemory();
  const V = (motif: string[], distance: number, light = 500) =>
    visibility({ background: [70, 0, 0], foreground: [60, 0, 0], motif, gauge: GAUGE, distance, light, rows: "once" })
      .V;

  it("a look at a row has the V of that row in the swatch's yarns, at its distance and light", () => {
    const [seen] = verdictsOf(project([{ at: at([1, 1]), distanceM: 3, lux: 150, verdict: "faint" }]), memory);
    expect(seen!.V).toBeCloseTo(V(["10"], 3, 150), 9);
    expect(seen!.verdict).toBe("faint");
  });

  it("a look over several rows is judged as those rows as one band", () => {
    const [seen] = verdictsOf(project([{ at: at([5, 6]), distanceM: 1.5, verdict: "clear" }]), memory);
    expect(seen!.V).toBeCloseTo(V(["10", "01"], 1.5), 9);
  });

  it("a look at rounds of a section is a look at the rows that are knitted there", () => {
    // Chart row 3 is round 1, so rounds 3 and 4, and 9 and 10, are rows 5 and 6; rounds 4 and 5 go over the chart's top.
    const looks = ([[3, 4], [9, 10], [4, 5]] as [number, number][]).map((rounds) => ({
      at: { section: "s", rounds },
      distanceM: 1.5,
      verdict: "clear" as const,
    })); // prettier-ignore
    const seen = verdictsOf(project(looks), memory);
    expect(seen).toHaveLength(2);
    for (const one of seen) expect(one.V).toBeCloseTo(V(["10", "01"], 1.5), 9);
  });

  it("a stripe is judged against its neighbours, and the swatch's own gauge counts", () => {
    const [stripe] = verdictsOf(project([{ at: at([3, 3]), distanceM: 1.5, verdict: "clear" }]), memory);
    expect(stripe!.V).toBeGreaterThan(0);
    const loose = { ...project([{ at: at([1, 1]), distanceM: 1.5, verdict: "clear" }]) };
    const [swatch] = loose.swatches!;
    const [seen] = verdictsOf({ ...loose, swatches: [{ ...swatch!, gauge: { stitches: 14, rows: 15 } }] }, memory);
    // Every length doubled, seen from twice as far, shows the same.
    expect(seen!.V).toBeCloseTo(V(["10"], 0.75), 6);
  });

  it("looks at what is gone, or at what nobody could see, are left out", () => {
    const look = { distanceM: 1.5, verdict: "clear" as const };
    const gone = [
      { ...look, at: { chart: "lost" } },
      { ...look, at: { section: "lost" } },
      { ...look, at: at([9, 9]) },
      { ...look, at: at([2, 2]) }, // a plain row that its colour goes on from
    ];
    expect(verdictsOf(project(gone), memory)).toEqual([]);
    const missing = project([{ ...look, at: at([1, 1]) }]);
    for (const colourway of ["lost", "plain"])
      expect(verdictsOf({ ...missing, swatches: [{ ...missing.swatches![0]!, colourway }] }, memory)).toEqual([]);
    expect(verdictsOf({ ...missing, swatches: [] }, memory)).toEqual([]);
  });

  it("her eye shifts words, ranges and how far it reads, and leaves V alone", () => {
    const { pattern, yarns, colourways } = project([]);
    const judged = (theta: number) =>
      contextOf(
        {
          pattern,
          yarns,
          colourway: colourways[0]!,
          viewing: USUAL_VIEWING,
          doubt: { thresholdMean: theta, thresholdSd: 0.3 },
        },
        judgeMemory(),
      );
    const rowIn = (theta: number) => judged(theta).charts[0]!.now.rows[0]!.contrast;
    const [sharp, usual, dull] = [-Math.log(3), 0, Math.log(3)].map(rowIn);
    expect([sharp!.V, dull!.V]).toEqual([usual!.V, usual!.V]);
    // Greys 10 apart, one and one: faint for ordinary eyes (vision.md B7, between the columns of 8 and 15).
    expect([sharp, usual, dull].map((one) => one!.shows)).toEqual(["clear", "faint", "lost"]);
    expect(sharp!.low! / usual!.low!).toBeCloseTo(3, 9);
    expect(dull!.high! / usual!.high!).toBeCloseTo(1 / 3, 9);
    // The row has lost what the pattern has there: nothing, a doubt while it is faint, a fault where it is lost.
    const said = (theta: number) =>
      audit(judged(theta)).flatMap(({ severity, where }) => (where.rows[0] === 1 ? [severity] : []));
    expect([-Math.log(3), 0, Math.log(2.2)].map(said)).toEqual([[], ["doubt"], ["fault"]]);
  });

  it("a texture that was measured takes the place of wool's", () => {
    const { pattern, yarns, colourways } = project([]);
    const [colourway] = colourways;
    const seen = (stitch: number) => {
      const viewing = { ...USUAL_VIEWING, texture: { stitch, floor: 0.025, strength: 1 } };
      return contextOf({ pattern, yarns, colourway: colourway!, viewing }, memoryOf).charts[0]!.now.rows[0]!.contrast
        .V!;
    };
    const memoryOf = judgeMemory();
    expect(seen(0.24)).toBeLessThan(seen(0.12));
    expect(seen(0.12)).toBeLessThan(seen(0.06));
    const usual = contextOf({ pattern, yarns, colourway: colourway!, viewing: USUAL_VIEWING }, memoryOf);
    expect(seen(0.12)).toBe(usual.charts[0]!.now.rows[0]!.contrast.V);
  });

  it("doubt is what she has been found to be", () => {
    const eye = herEye([{ V: 5, verdict: "faint" }]);
    expect(doubtOf(eye)).toEqual({ thresholdMean: eye.theta, thresholdSd: eye.sd });
  });
});
