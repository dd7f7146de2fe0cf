/** Lengths of variegated yarn against the other colour: told of where stitches vanish, and of nothing finer. */
import { describe, expect, it } from "vitest";
import { inventedVest } from "../../test/inventedVests.ts";
import type { Lab } from "../colour/lab.ts";
import { USUAL_VIEWING } from "../fabric/contrast.ts";
import { checkProject } from "../jobs/check.ts";
import type { Fleck } from "../yarn/yarn.ts";
import { audit } from "./audit.ts";
import { contextOf, judgeMemory, type Case } from "./judge.ts";

const memory = judgeMemory();
const GREY = (L: number): Lab => [L, 0, 0];

/** Two rows of four and four in yarn B on yarn A of L* 80; yarn B is 50 as a whole. */
function made(flecks: Fleck[], want?: "soft"): Case {
  const rows = ["AAAAAAAA", "AAAABBBB", "AAAABBBB", "AAAAAAAA"];
  return {
    pattern: {
      gauge: { stitches: 28, rows: 30 },
      colours: [
        { id: "A", role: "main", shade: { lab: GREY(80) } },
        { id: "B", shade: { lab: GREY(50) } },
      ],
      charts: [{ id: "c", rows, ...(want ? { bands: [{ rows: [2, 3], want }] } : {}) }],
    },
    yarns: [
      { id: "yA", name: "Chalk", shade: { lab: GREY(80), uncertainty: 2 } },
      { id: "yB", name: "Moor", shade: { lab: GREY(50), uncertainty: 2 }, flecks },
    ],
    colourway: { id: "w", yarns: { A: "yA", B: "yB" } },
    viewing: USUAL_VIEWING,
  };
}
const found = (flecks: Fleck[], want?: "soft") =>
  audit(contextOf(made(flecks, want), memory)).filter(({ id }) => id.startsWith("flecks/"));
const light: Fleck = { shade: { lab: GREY(77) }, share: 0.3, lengthMm: 96 };

describe("a variegated yarn", () => {
  it("whose light lengths are of the other yarn's value is told of, with what they do", () => {
    const [finding, ...more] = found([light]);
    expect(more).toEqual([]);
    expect(finding!.severity).toBe("doubt");
    expect(finding!.headline).toMatch(/^Moor on Chalk: its .* lengths vanish$/);
    // 96 mm at 16.04 mm a stitch (Munden) are 6 stitches; 8 of 32 stitches, three tenths of them, are 7.5 %.
    expect(finding!.sentence).toMatch(
      /^Moor is 30 % [a-z ]+, in lengths of about 6 stitches\. They are only 3 apart from Chalk in L\*, while the yarn as a whole is 30 apart: in rows 2–3 the pattern goes under in patches\. A swatch settles it\.$/,
    );
    expect(finding!.where).toMatchObject({ chart: "c", rows: [2, 3], colours: ["B", "A"], yarns: ["yB", "yA"] });
    expect(finding!.numbers.affected).toBeCloseTo(0.075, 6);
    expect(finding!.numbers.deltaL).toBeCloseTo(3, 6);
  });

  it.each([
    ["in flecks finer than a stitch", { ...light, lengthMm: 4 }],
    ["in small flecks of which nobody has said how long they are", { shade: light.shade, share: 0.2 }],
    ["in lengths that are far in value from the other yarn", { ...light, shade: { lab: GREY(60) } }],
    ["in lengths of the same value and quite another hue", { ...light, shade: { lab: [77, 45, 50] as Lab } }],
    ["in lengths that are a trace of it", { ...light, share: 0.05 }],
  ])("%s raises nothing", (_, fleck) => expect(found([fleck])).toEqual([]));

  it("of whose lengths nobody has spoken is noted where a large part of it would vanish, and its lengths are not told", () => {
    const [finding, ...more] = found([{ shade: light.shade, share: 0.3 }]);
    expect(more).toEqual([]);
    expect(finding).toMatchObject({ severity: "note", numbers: { lengthMm: null, stitchesLong: null } });
    expect(finding!.sentence).toMatch(
      /Nobody has said how long its colours last.*in rows 2–3\. A swatch settles it\.$/,
    );
  });

  it("in a band that she wants soft raises nothing", () => expect(found([light], "soft")).toEqual([]));
});

describe("in invented vests", () => {
  /** The figures' darkest yarn with light lengths as light as the grounds, which are about 74 and 87. */
  const withFlecks = (seed: number, lengthMm?: number) => {
    const { project } = inventedVest(seed);
    const own = project.colourways[0]!.yarns.C!;
    const flecks = [
      { shade: { lab: [74, 0, 4] as Lab }, share: 0.15, ...(lengthMm === undefined ? {} : { lengthMm }) },
      { shade: { lab: [87, 0, 4] as Lab }, share: 0.15, ...(lengthMm === undefined ? {} : { lengthMm }) },
    ];
    const yarns = project.yarns.map((yarn) => (yarn.id === own ? { ...yarn, flecks } : yarn));
    return { plain: project, flecked: { ...project, yarns } };
  };
  const SEEDS = [0, 1, 2, 3, 4];

  it.each(SEEDS)("vest %i: found when its flecks are long, and only then", (seed) => {
    const findings = (project: Parameters<typeof checkProject>[0]) =>
      checkProject(project, { colourway: "good", mends: "without" }).findings.map(
        ({ id, severity }) => `${severity} ${id}`,
      );
    const { plain, flecked } = withFlecks(seed, 110);
    const before = findings(plain);
    expect(before.filter((id) => id.includes("flecks/"))).toEqual([]);
    // As a heather it has the same findings as without.
    expect(findings(withFlecks(seed).flecked)).toEqual(before);
    const told = findings(flecked);
    expect(told.filter((id) => id.startsWith("doubt flecks/")).length).toBeGreaterThan(0);
    expect(told.filter((id) => !id.includes("flecks/"))).toEqual(before);
  });

  it("a yarn that she owns mends it", () => {
    const { flecked } = withFlecks(1, 110);
    const finding = checkProject(flecked, { colourway: "good", mends: "with" }).findings.find(({ id }) =>
      id.startsWith("flecks/"),
    );
    expect(finding!.mends!.length).toBeGreaterThan(0);
  });
});
