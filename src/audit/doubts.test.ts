/** What a check leaves open: which rows are in doubt, how likely a word is wrong, and how well her threshold must be known to settle it. */
import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { seededRandom } from "../base/random.ts";
import { threeNormals } from "../colour/shadeDraw.ts";
import { readProject } from "../document/read.ts";
import type { Pattern } from "../fabric/pattern.ts";
import { USUAL_VIEWING } from "../fabric/contrast.ts";
import { audit } from "./audit.ts";
import { doubtsOf, type Doubts } from "./doubts.ts";
import { contextOf, judgeMemory } from "./judge.ts";
import { lowerTail, openAt } from "./rowDoubts.ts";
import { doubtOf, herEye, lookInformation, type HerEye, type SeenVerdict } from "./verdicts.ts";

const vest = readProject(readFileSync("examples/weather-station-vest.twostrand.json", "utf8")).value!;

function doubtsIn(
  of: Pick<typeof vest, "pattern" | "yarns">,
  colourway: (typeof vest.colourways)[number],
  eye = herEye([]),
): Doubts {
  const { pattern, yarns } = of;
  const context = contextOf({ pattern, yarns, colourway, viewing: USUAL_VIEWING, doubt: doubtOf(eye) }, judgeMemory());
  return doubtsOf(context, audit(context), eye);
}

const colourwayCalled = (id: string) => vest.colourways.find((one) => one.id === id)!;

/** A yarn for each colour, light or dark as the pattern has it. */
function small(rows: string[], shades: Record<string, number>, more: Partial<Pattern["charts"][number]> = {}) {
  const ids = Object.keys(shades);
  const of = (L: number) => ({ lab: [L, 0, 0] as [number, number, number], uncertainty: 1 });
  return {
    pattern: {
      gauge: { stitches: 28, rows: 30 },
      colours: ids.map((id) => ({ id, shade: of(shades[id]!), ...(id === ids[0] ? { role: "main" as const } : {}) })),
      charts: [{ id: "c1", rows, ...more }],
    },
    yarns: ids.map((id) => ({ id: `yarn ${id}`, name: id, shade: of(shades[id]!) })),
    colourway: { id: "w1", yarns: Object.fromEntries(ids.map((id) => [id, `yarn ${id}`])) },
  };
}

describe("chances", () => {
  it.each([
    // Any table of the normal distribution.
    [0, 0.5],
    [-1, 0.15866],
    [-1.28155, 0.1],
    [-1.96, 0.025],
    [-3, 0.00135],
  ])("below %d lies %d of a normal distribution", (z, part) => expect(lowerTail(z)).toBeCloseTo(part, 5));

  it("a word on its limit is as likely wrong as right, and less likely the farther off it is", () => {
    const eye = herEye([]);
    const at = (V: number) => openAt({ V, low: V / 5, high: V * 5 }, 3, eye)!.chance;
    expect(at(3)).toBeCloseTo(0.5, 6);
    expect(at(4)).toBeLessThan(at(3));
    expect(at(6)).toBeLessThan(at(4));
    expect(at(2)).toBeCloseTo(at(4.5), 6);
  });

  it("what lies on one side of the limit altogether is no doubt", () => {
    expect(openAt({ V: 20, low: 3, high: 80 }, 3, herEye([]))).toBeNull();
    expect(openAt({ V: 0.3, low: 0.1, high: 2.9 }, 3, herEye([]))).toBeNull();
    expect(openAt({ V: 5, low: 1, high: 20 }, 0, herEye([]))).toBeNull();
  });
});

describe("how well her threshold must be known", () => {
  /** In how many of the outcomes the range then lies on one side: drawn, and not reckoned. */
  function settled(
    { V, low, high, limit }: Record<"V" | "low" | "high" | "limit", number>,
    precision: number,
    { sd }: HerEye,
  ): number {
    const random = seededRandom(11);
    const left = 1 / Math.sqrt(precision);
    const tenth = 1.2816;
    let count = 0;
    for (let draw = 0; draw < 4000; draw++) {
      const [moved] = threeNormals(random);
      const mean = moved * Math.sqrt(sd ** 2 - left ** 2);
      const least = low * Math.exp(tenth * sd - tenth * left - mean);
      const most = high * Math.exp(-tenth * sd + tenth * left - mean);
      if (least >= limit || most < limit) count += 1;
    }
    expect(V).toBeGreaterThan(0);
    return count / 4000;
  }

  it("is told so that the doubt is settled in four of five outcomes", () =>
    fc.assert(
      fc.property(
        fc.record({
          V: fc.double({ min: 0.5, max: 20, noNaN: true }),
          below: fc.double({ min: 1, max: 1.6, noNaN: true }),
          above: fc.double({ min: 1, max: 2, noNaN: true }),
        }),
        ({ V, below, above }) => {
          const eye = herEye([]);
          const spread = Math.exp(1.2816 * eye.sd);
          const range = { V, low: V / below / spread, high: V * above * spread };
          const open = openAt(range, 3, eye);
          if (!open?.precision) return;
          // Drawn four thousand times: three standard deviations of a share of 0.8.
          expect(settled({ ...range, limit: 3 }, open.precision, eye)).toBeGreaterThan(0.8 - 0.02);
          expect(open.precision).toBeGreaterThan(1 / eye.sd ** 2);
        },
      ),
      { seed: 7, numRuns: 60 },
    ));

  it("never by her threshold alone where the word is near its limit", () =>
    expect(openAt({ V: 3.2, low: 0.5, high: 15 }, 3, herEye([]))!.precision).toBeNull());

  it("what looks tell adds up to about what is then known: simulated", () => {
    const random = seededRandom(3);
    const looks = [0.6, 1, 2, 4, 8, 15];
    const before = herEye([]);
    const promised = looks.reduce((sum, V) => sum + lookInformation(V, before), 1 / before.sd ** 2) ** -0.5;
    const found: number[] = [];
    for (let run = 0; run < 300; run++) {
      const theta = threeNormals(random)[0] * before.sd;
      const seen = looks.map((V): SeenVerdict => {
        const luck = random();
        const words = ["lost", "faint", "clear", "strong"] as const;
        const reached = [1, 3, 10].filter((limit) => luck < 1 / (1 + Math.exp(-(Math.log(V / limit) - theta) / 0.5)));
        return { V, verdict: words[reached.length]! };
      });
      found.push(herEye(seen).sd);
    }
    const middle = found.sort((a, b) => a - b)[150]!;
    // Within a tenth: Fisher's information is a bound that the first looks do not quite reach.
    expect(Math.abs(middle / promised - 1)).toBeLessThan(0.1);
  });
});

describe("doubts", () => {
  const LINES = ["AAAA", "AEAE", "AAAA", "AEAE", "AAAA"];

  it("rows of the same yarns that show about alike are one question, each with its own neighbours", () => {
    const { pattern, yarns, colourway } = small(LINES, { A: 85, E: 62 });
    const { doubts, looks } = doubtsIn({ pattern, yarns }, colourway);
    const rows = doubts.filter(({ kind }) => kind === "row");
    expect(rows.map((doubt) => doubt.rows)).toEqual([[2, 4]]);
    expect(rows[0]!.options).toEqual([[{ cloth: 0, rows: [1, 3] }], [{ cloth: 0, rows: [3, 5] }]]);
    expect(looks[rows[0]!.look!]!.options).toEqual(rows[0]!.options);
  });

  it("black on white is no doubt to anybody whose eye is known", () => {
    const { pattern, yarns, colourway } = small(LINES, { A: 90, E: 15 });
    const knows = herEye(
      Array.from({ length: 12 }, (_, at) => ({ V: 3, verdict: at % 2 ? "clear" : "faint" }) as const),
    );
    expect(doubtsIn({ pattern, yarns }, colourway, knows).doubts).toEqual([]);
  });

  it("more is known of her eye, less is open", () => {
    const looked = herEye(
      Array.from({ length: 9 }, (_, at) => ({
        V: [1, 3, 10][at % 3]!,
        verdict: (["faint", "clear", "strong"] as const)[at % 3]!,
      })),
    );
    const [before, after] = [herEye([]), looked].map((eye) => doubtsIn(vest, colourwayCalled("w1"), eye).doubts.length);
    expect(after!).toBeLessThan(before!);
  });

  it("a band meant soft is asked whether it is hard, and none of its rows whether it shows", () => {
    const { doubts } = doubtsIn(vest, colourwayCalled("w1"));
    // Rows 71 to 77 of the example are the fog, meant to be soft (examples/README.md).
    const fog = doubts.filter(({ rows }) => rows.some((row) => row >= 71 && row <= 77));
    expect(fog.map(({ kind, options }) => [kind, options])).toEqual([["soft", [[{ cloth: 0, rows: [70, 78] }]]]]);
  });

  it("a colour that takes over is asked about with as many bands as make it recur, each whole", () => {
    const [loud] = doubtsIn(vest, colourwayCalled("w3")).doubts.filter(({ kind }) => kind === "weight");
    // Marigold is in rows 5–9, 11, 68, 99–102 and 112–117 (examples/README.md); recurring begins at three bands.
    expect(loud!.options.map(([place]) => place!.rows)).toEqual([
      [4, 10],
      [10, 12],
      [67, 69],
      [98, 103],
      [111, 118],
    ]);
    expect([loud!.times, loud!.precision, loud!.look]).toEqual([3, null, null]);
  });

  it("two yarns of which nobody knows which is the lighter are asked about where they meet", () => {
    const made = small(["AAAA", "AEAE", "ABAB", "AAAA"], { A: 90, B: 40, E: 30 });
    const guessed = made.yarns.map((yarn) =>
      yarn.id === "yarn A"
        ? yarn
        : { ...yarn, shade: { lab: [35, 0, 0] as [number, number, number], uncertainty: 12 } },
    );
    const orders = doubtsIn({ pattern: made.pattern, yarns: guessed }, made.colourway).doubts.filter(
      ({ kind }) => kind === "order",
    );
    expect(orders.map(({ id, options }) => [id, options])).toEqual([["order/B-E", [[{ cloth: 0, rows: [1, 4] }]]]]);
    expect(orders[0]!.chance).toBeCloseTo(0.5, 6);
  });

  it("bands a stitch off one another are asked about together", () => {
    const diamond = ["AAAEAAAA", "AAEEEAAA", "AEEEEEAA", "AAEEEAAA", "AAAEAAAA"];
    const moved = diamond.map((row) => row.slice(-1) + row.slice(0, -1));
    const { pattern, yarns, colourway } = small([...moved, "AAAAAAAA", ...diamond], { A: 90, E: 20 });
    const slips = doubtsIn({ pattern, yarns }, colourway).doubts.filter(({ kind }) => kind === "alignment");
    expect(slips.map(({ options }) => options)).toEqual([[[{ cloth: 0, rows: [1, 11] }]]]);
  });
});
