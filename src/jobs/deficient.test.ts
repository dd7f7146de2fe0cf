/** A colour-deficient eye in numbers: what it must not change, and what it must make worse. */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { judgeMemory } from "../audit/judge.ts";
import { deltaE2000 } from "../colour/difference.ts";
import { labFromHex } from "../colour/lab.ts";
import type { Project } from "../document/project.ts";
import { readProject } from "../document/read.ts";
import { labOfYarn } from "../yarn/yarn.ts";
import { checkProject } from "./check.ts";
import { asSeenBy } from "./deficient.ts";
import { readsInLights } from "./reads.ts";
import { tryYarns } from "./trial.ts";

const vest = readProject(readFileSync("examples/weather-station-vest.twostrand.json", "utf8")).value!;
const memory = judgeMemory();
const KINDS = ["protan", "deutan", "tritan"] as const;

/** A 1×1 pattern of two yarns, the pattern's own colours the same or others. */
function small(yarns: readonly [string, string], own: readonly [string, string] = yarns): Project {
  const ids = ["A", "B"] as const;
  return {
    format: "twostrand-project",
    version: 1,
    name: "two yarns",
    pattern: {
      gauge: { stitches: 28, rows: 30 },
      colours: ids.map((id, at) => ({ id, shade: { hex: own[at]! } })),
      charts: [{ id: "c", rows: ["ABABABAB", "BABABABA", "ABABABAB"] }],
    },
    yarns: ids.map((id, at) => ({ id: id.toLowerCase(), name: id, shade: { hex: yarns[at]! } })),
    colourways: [{ id: "w", yarns: { A: "a", B: "b" } }],
  };
}

describe("a check with a colour-deficient eye", () => {
  it.each(KINDS)("%s of severity 0 changes nothing", (deficiency) => {
    const options = { colourway: "w2", memory, mends: "without" as const };
    const { deficiency: eye, ...seen } = checkProject(vest, { ...options, deficiency, severity: 0 });
    expect(eye).toEqual({ kind: deficiency, severity: 0 });
    expect(checkProject(vest, options)).toEqual({ deficiency: null, ...seen });
  });

  // The red and green of vision.md B5, told apart by hue alone.
  it.each(["protan", "deutan"] as const)("%s: red and green show worse than to ordinary eyes", (deficiency) => {
    const V = (severity: number): number =>
      checkProject(small(["#B03A3A", "#2F7A4B"]), { deficiency, severity, memory }).bands[0]!.V!;
    const ordinary = checkProject(small(["#B03A3A", "#2F7A4B"]), { memory }).bands[0]!.V!;
    expect(V(0)).toBe(ordinary);
    expect(V(0.5)).toBeLessThan(ordinary);
    // Not worse and worse: to a protan eye red also grows darker, which parts it from green again.
    expect(V(1)).toBeLessThan(ordinary);
    // Severity is 1 where it is not said.
    expect(checkProject(small(["#B03A3A", "#2F7A4B"]), { deficiency, memory }).bands[0]!.V).toBe(V(1));
  });

  it("deutan: what light and dark still part stays", () => {
    const V = (options: object): number =>
      checkProject(small(["#EDE6D6", "#1F2A4D"]), { memory, ...options }).bands[0]!.V!;
    expect(V({ deficiency: "deutan" }) / V({})).toBeGreaterThan(0.8);
  });

  it.each(KINDS)("%s: greys stay as they are", (deficiency) => {
    const greys = small(["#767676", "#8b8b8b"]);
    const [before, after] = [checkProject(greys, { memory }), checkProject(greys, { memory, deficiency })];
    // The published matrices have rows that add up to 1 within 1e-6.
    expect(after.bands[0]!.V).toBeCloseTo(before.bands[0]!.V!, 3);
    after.ladder.forEach(({ L }, at) => expect(L).toBeCloseTo(before.ladder[at]!.L, 3));
  });

  it("looks at the pattern's own colours with the same eye", () => {
    const project = small(["#303030", "#d0d0d0"], ["#B03A3A", "#2F7A4B"]);
    const was = (options: object): number => checkProject(project, { memory, ...options }).bands[0]!.was.V!;
    expect(was({ deficiency: "protan" })).toBeLessThan(was({}));
    const { ladder, weights } = checkProject(project, { memory, deficiency: "protan" });
    expect(deltaE2000(labFromHex(ladder[0]!.was.hex)!, labFromHex(ladder[1]!.was.hex)!)).toBeLessThan(
      deltaE2000(labFromHex("#B03A3A")!, labFromHex("#2F7A4B")!),
    );
    expect(weights.length).toBeGreaterThan(0);
  });

  it("keeps how sure a shade is, and a heather without a shade of its own gets the colour it has from afar", () => {
    const project = small(["#303030", "#d0d0d0"]);
    const flecks = [
      { shade: { hex: "#c04040" }, share: 0.5 },
      { shade: { hex: "#4040c0" }, share: 0.5 },
    ];
    const yarns = [
      { id: "a", name: "a", shade: { hex: "#c04040", uncertainty: 1.5 } },
      { id: "b", name: "b", flecks },
    ];
    const seen = asSeenBy({ ...project, yarns }, "tritan", 0.7).yarns;
    expect(seen[0]!.shade!.uncertainty).toBe(1.5);
    // A fleck is seen as a yarn in its shade is.
    expect(seen[1]!.flecks!.map(({ share }) => share)).toEqual([0.5, 0.5]);
    expect(seen[1]!.flecks![0]!.shade.lab).toEqual(seen[0]!.shade!.lab);
    expect(labOfYarn(seen[1]!)[0]).toBeGreaterThan(20);
  });
});

describe("with verdicts, which were given with her own eyes", () => {
  const looks = [{ at: { chart: "c1", rows: [3, 3] as [number, number] }, distanceM: 1.5, verdict: "lost" as const }];
  const looked: Project = { ...vest, swatches: [{ id: "t1", chart: "c1", colourway: "w1", looks }] };
  it("a trial and how far rows read go by the same threshold as the check", () => {
    const asked = { colourway: "w1", deficiency: "protan" as const, memory };
    const check = checkProject(looked, { ...asked, mends: "without" });
    const counts = { lost: 0, faint: 0, clear: 0, strong: 0 };
    for (const { shows } of check.rows) if (shows) counts[shows] += 1;
    const { trials, yarn } = tryYarns(looked, { ...asked, colour: "E" });
    expect(trials.find((trial) => trial.yarn === yarn)!.rows).toEqual(counts);
    const band = check.bands.find(({ readsTo }) => readsTo && !readsTo.beyond)!;
    const { lux: _, ...room } = readsInLights(looked, { ...asked, chart: band.chart, rows: band.rows })[1]!;
    expect(room).toEqual(band.readsTo);
  });
});
