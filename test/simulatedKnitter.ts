/** A knitter who is made up: her threshold, her slack and her loops are hidden, and all she tells is what she sees and measures on swatches. */
import { readFileSync } from "node:fs";
import { herEye, verdictsOf } from "../src/audit/verdicts.ts";
import { likelyYarns } from "../src/audit/likely.ts";
import type { JudgeMemory } from "../src/audit/judge.ts";
import { seededRandom, type Random } from "../src/base/random.ts";
import { threeNormals } from "../src/colour/shadeDraw.ts";
import type { Project, Swatch as KnittedSwatch, Verdict } from "../src/document/project.ts";
import { readProject } from "../src/document/read.ts";
import { UNTUNED } from "../src/fabric/contrast.ts";
import { stitchSizeMm, type Gauge } from "../src/garment/gauge.ts";
import { amountsOf, type Amounts } from "../src/plan/amounts.ts";
import { yarnSettings } from "../src/jobs/yarnSettings.ts";
import { measuredSwatch } from "../src/jobs/measured.ts";
import type { Swatch } from "../src/jobs/swatch.ts";
import { loopLengthMm, MUNDEN_KS } from "../src/plan/loopLength.ts";

export const vest: Project = readProject(readFileSync("examples/weather-station-vest.twostrand.json", "utf8")).value!;

/** What a run comes to: whether the truth lies within what is told, before any swatch and after two. */
export interface Run {
  readonly threshold: { readonly before: boolean; readonly after: boolean; readonly factor: number };
  readonly amounts: {
    readonly before: boolean;
    readonly after: boolean;
    readonly widthBefore: number;
    readonly widthAfter: number;
  };
}

/**
 * She knits two swatches that were planned for two colourways and looks once at each thing that is in them; of each she unpicks a hundred
 * stitches plain and a hundred in two strands and lays them along a ruler. Hidden are ln of her threshold over the model's, N(0, ln 3); slack,
 * N(0.1, 0.078) and not below 0, of which four fifths lie between none and 20 %; and her loops against the model's, by Munden's states, four
 * fifths between the dry and the fully relaxed. A look is unsteady by 0.5 in ln V, as the model has it; a ruler by up to 1 cm.
 */
export function knitterOf(seed: number, swatches: readonly PlannedSwatch[], memory: JudgeMemory): Run {
  const random = seededRandom(seed);
  random();
  const normal = (): number => threeNormals(random)[0];
  const theta = normal() * UNTUNED.thresholdSd;
  const slack = Math.max(0, 0.1 + 0.078 * normal());
  const [dry, full] = [MUNDEN_KS["dry-relaxed"], MUNDEN_KS["fully-relaxed"]].map(Math.log) as [number, number];
  const ks = Math.exp((dry + full) / 2 + (((full - dry) / 2) * normal()) / TENTH);

  const looked = swatches.map((swatch) => lookedAt(swatch, theta, random));
  const eye = herEye(verdictsOf({ ...vest, swatches: looked }, memory));
  const untuned = herEye([]);

  const { gauge } = vest.pattern;
  const measured = swatches.map(() => measuredBy({ ks, slack }, gauge, random));
  const loop = measured[0]!.loop!;
  const after: Project = {
    ...vest,
    knitting: {
      loop: { ...loop, mm: measured.reduce((sum, one) => sum + one.loop!.mm, 0) / measured.length },
      slack: measured.reduce((sum, one) => sum + one.slack!, 0) / measured.length,
    },
  };
  const truth = trueMetres({ ks, slack });
  const toldAfter = totalOf(after.knitting);
  const holds = ({ low, high }: { low: number; high: number }, value: number): boolean => low <= value && value <= high;
  return {
    threshold: { before: holds(untuned, theta), after: holds(eye, theta), factor: Math.exp(TENTH * eye.sd) },
    amounts: {
      before: holds(told, truth),
      after: holds(toldAfter, truth),
      widthBefore: (told.high - told.low) / told.metres,
      widthAfter: (toldAfter.high - toldAfter.low) / toldAfter.metres,
    },
  };
}

/** Swatches with what such a knitter says of them. */
export function lookedAtBy(seed: number, swatches: readonly PlannedSwatch[]): KnittedSwatch[] {
  const random = seededRandom(seed);
  random();
  const theta = threeNormals(random)[0] * UNTUNED.thresholdSd;
  return swatches.map((swatch) => lookedAt(swatch, theta, random));
}

const lookedAt = ({ colourway, looks }: PlannedSwatch, theta: number, random: Random): KnittedSwatch => ({
  id: colourway,
  chart: "c1",
  colourway,
  looks: looks.map(({ row, V }) => ({
    at: { chart: "c1", rows: [row, row] },
    distanceM: 1.5,
    verdict: wordFor(V, theta, random),
  })),
});

/** The upper tenth of a normal distribution. */
const TENTH = 1.2816;

/** A swatch with what can be looked at in it: one row for each question, and its V by the model. */
export interface PlannedSwatch {
  readonly colourway: string;
  readonly looks: readonly { readonly row: number; readonly V: number }[];
}

export function plannedSwatch(colourway: string, swatch: Swatch, memory: JudgeMemory): PlannedSwatch {
  const rows = swatch.covers
    .filter(({ id, by }) => by === "seen" && id.startsWith("row/"))
    .map(({ swatchRows }) => {
      const run = swatch.rows.find(({ swatchRows: [from, to] }) => from <= swatchRows[0]! && to >= swatchRows[0]!)!;
      return run.rows[0] + swatchRows[0]! - run.swatchRows[0];
    });
  return { colourway, looks: rows.map((row) => ({ row, V: modelV(vest.yarns, colourway, row, memory) })) };
}

/** V of a row at a metre and a half, as every look is given it; hardly above 0 where there is nothing to see. */
function modelV(yarns: Project["yarns"], colourway: string, row: number, memory: JudgeMemory): number {
  const looks = [
    { at: { chart: "c1", rows: [row, row] as [number, number] }, distanceM: 1.5, verdict: "clear" as const },
  ];
  return verdictsOf({ ...vest, yarns, swatches: [{ colourway, looks }] }, memory)[0]?.V ?? 1e-6;
}

/** The same looks at yarns whose shades are in truth a little off what is stated, as their uncertainties allow. */
export function withShadesOff(swatches: readonly PlannedSwatch[], draw: number, memory: JudgeMemory): PlannedSwatch[] {
  const yarns = likelyYarns(vest.yarns, draw);
  return swatches.map(({ colourway, looks }) => ({
    colourway,
    looks: looks.map(({ row }) => ({ row, V: modelV(yarns, colourway, row, memory) })),
  }));
}

/** P(at least a word) = logistic((ln V − ln limit − θ) / 0.5). Source: vision.md D. */
function wordFor(V: number, theta: number, random: Random): Verdict {
  const luck = random();
  const reached = [1, 3, 10].filter((limit) => luck < 1 / (1 + Math.exp(-(Math.log(V / limit) - theta) / 0.5)));
  return (["lost", "faint", "clear", "strong"] as const)[reached.length]!;
}

/** A hundred stitches of each, unpicked. */
function measuredBy({ ks, slack }: { ks: number; slack: number }, gauge: Gauge, random: Random) {
  const plain = loopLengthMm(gauge, ks);
  const two = plain + stitchSizeMm(gauge).widthMm * (1 + slack);
  const along = (mm: number): { stitches: number; lengthCm: number } => ({
    stitches: 100,
    lengthCm: 10 * mm + 2 * random() - 1,
  });
  const { value, problems } = measuredSwatch({
    counted: { stitches: 28, acrossCm: 10, rows: 30, upCm: 10 },
    unpicked: along(plain),
    stranded: along(two),
  });
  if (!value) throw new Error(JSON.stringify(problems));
  return value;
}

/** What the garment takes in truth: the same stitches and floats with what is hidden. */
function trueMetres({ ks, slack }: { ks: number; slack: number }): number {
  const loop = { mm: loopLengthMm(vest.pattern.gauge, ks), gauge: vest.pattern.gauge, within: 0 };
  return totalOf({ loop, slack }).metres;
}

function totalOf(knitting: Project["knitting"] = {}): Amounts["total"] {
  const { pattern, yarns, colourways } = vest;
  return amountsOf({ pattern, yarns, colourway: colourways[0]!, settings: yarnSettings({ knitting }) }).total;
}

/** Before any swatch. */
const told = totalOf();
