/** `measure`: what her own swatch says of gauge, loop length and slack, kept in a project if she wants. */
import type { Problem } from "../../base/problem.ts";
import { tryEdit, type Edit } from "../../document/edit.ts";
import type { Project } from "../../document/project.ts";
import { writeProject } from "../../document/write.ts";
import { measuredSwatch, type MeasuredSwatch, type SwatchCounts } from "../../jobs/measured.ts";
import type { Given } from "../args.ts";
import { WRITE_OPTIONS, type Command } from "../command.ts";
import { checkWritable, writeWhole } from "../files.ts";
import { EXIT, Refusal } from "../io.ts";
import { badInput, idIn, idsOf, only, openProject } from "../projectFile.ts";
import { measureReport } from "../reports/measure.ts";
import { savedReport } from "../reports/saved.ts";

export const measureCommand: Command = {
  name: "measure",
  summary: "Takes gauge, loop length and slack from her own swatch, with what ruler and scale leave open.",
  operands: [{ name: "PROJECT", required: true }],
  options: {
    counted: { value: "STxROWS", help: "stitches and rows counted in the middle, washed and dry", required: true },
    over: { value: "CMxCM", help: "over so many cm across and up; 10x10 by default" },
    before: { value: "STxROWS", help: "counted over the same before it was washed" },
    across: { value: "CM", help: "how wide the whole swatch is" },
    unpicked: { value: "CM", help: "length of the yarn of stitches that were unpicked" },
    stitches: { value: "N", help: "how many were unpicked; 100 by default" },
    stranded: { value: "CM", help: "length of the yarn of as many stitches in two strands" },
    weighed: { value: "G", help: "the swatch on the scales, where nothing is unpicked" },
    scale: { value: "G", help: "the scale's least step; 1 by default" },
    size: { value: "STxROWS", help: "stitches and rows of the whole swatch that was weighed" },
    yarn: { value: "ID", help: "the yarn it was knitted in" },
    ball: { value: "G/G", help: "a whole ball of it: what its band says, what it weighs today" },
    swatch: { value: "ID", help: "the swatch of the project that it is, to be kept with it" },
    section: { value: "ID", help: "the section that has this gauge; the whole pattern by default" },
    low: { value: "STRAND", help: "which strand she holds low throughout: ground or pattern" },
    out: { value: "PROJECT", help: "where the project that goes by them is written" },
    ...WRITE_OPTIONS,
  },
  details: [
    "Knot off a hundred stitches of plain knitting, unpick them and lay the yarn along a ruler: within a centimetre that is better than any model.",
    "Weighing wants scales that show a tenth of a gram, and a whole ball of the yarn weighed on the same day, for wool is lighter in a heated room.",
  ],
  example:
    "twostrand measure vest.twostrand.json --counted 29x31 --unpicked 158 --low pattern --out mine.twostrand.json",
  run: async (given) => {
    const [path, out] = [given.operand(0), given.text("out")];
    const writing = { force: given.flag("force"), inputs: [path] };
    const { project, problems } = await openProject(path);
    const section = idIn("section", given.text("section"), idsOf(project.pattern.sections ?? []));
    const swatch = idIn("swatch", given.text("swatch"), idsOf(project.swatches ?? []));
    const heldLow = given.choice("low", ["ground", "pattern"] as const);
    const counts = countsOf(given, project);
    const { value, problems: found } = measuredSwatch(counts);
    if (!value) throw badInput("The swatch", found);
    const edits: Edit[] = [
      ...editsOf(value, { section, heldLow }),
      ...(swatch === undefined
        ? []
        : [{ kind: "setSwatchGauge", swatch, gauge: value.gauge, gaugeBefore: counts.before ?? null } as const]),
    ];
    if (out !== undefined) {
      await checkWritable(out, writing);
      await writeWhole(out, writeProject(after(project, edits)), writing);
    }
    const told: Problem[] = [...problems, ...found];
    const words = (): string => measureReport(value);
    return {
      json: { ...value, ...(out !== undefined && { file: out }) },
      text: () =>
        out === undefined ? words() : `${words()}\n\n${savedReport(out, "it goes by this swatch from now on")}`,
      problems: told,
    };
  },
};

function countsOf(given: Given, project: Project): SwatchCounts {
  const [stitches, rows] = pairIn(given, "counted", "x")!;
  const [acrossCm, upCm] = pairIn(given, "over", "x") ?? [10, 10];
  const before = pairIn(given, "before", "x");
  const widthCm = given.number("across", { above: 0, most: 200 });
  const length = (option: string): number | undefined => given.number(option, { above: 0, most: 100_000 });
  const counted = given.number("stitches", { least: 1, most: 10_000, whole: true }) ?? 100;
  const grams = length("weighed");
  return {
    counted: { stitches, acrossCm, rows, upCm },
    ...only({
      before: before && { stitches: (10 * before[0]) / acrossCm, rows: (10 * before[1]) / upCm },
      widthCm,
      unpicked: optional(length("unpicked"), (lengthCm) => ({ stitches: counted, lengthCm })),
      stranded: optional(length("stranded"), (lengthCm) => ({ stitches: counted, lengthCm })),
      weighed: optional(grams, (weight) => weighing(given, project, weight)),
    }),
  };
}

const optional = <From, To>(value: From | undefined, make: (value: From) => To): To | undefined =>
  value === undefined ? undefined : make(value);

function weighing(given: Given, project: Project, grams: number): NonNullable<SwatchCounts["weighed"]> {
  const size = pairIn(given, "size", "x");
  const id = idIn("yarn", given.text("yarn"), idsOf(project.yarns));
  const metresPer100g = project.yarns.find((yarn) => yarn.id === id)?.metresPer100g;
  if (!size || id === undefined || metresPer100g === undefined)
    throw new Refusal(
      EXIT.usage,
      "--weighed: expected --size with the swatch's stitches and rows, and --yarn with one whose metres are known.",
    );
  const ball = pairIn(given, "ball", "/");
  return {
    grams,
    stitches: size[0],
    rows: size[1],
    scaleG: given.number("scale", { above: 0, most: 100 }) ?? 1,
    metresPer100g,
    ...(ball && { wholeBall: { labelG: ball[0], weighedG: ball[1] } }),
  };
}

function pairIn(given: Given, option: string, between: "x" | "/"): [number, number] | undefined {
  const text = given.text(option);
  if (text === undefined) return undefined;
  const [one, other, ...more] = text.toLowerCase().replaceAll("×", "x").split(between).map(Number);
  if (more.length === 0 && one !== undefined && other !== undefined && one > 0 && other > 0 && one + other < 100_000)
    return [one, other];
  throw new Refusal(
    EXIT.usage,
    `--${option}: expected two numbers like ${between === "x" ? "28x30" : "50/47"}, found ${JSON.stringify(text)}.`,
  );
}

function editsOf(
  { gauge, loop, slack }: MeasuredSwatch,
  { section, heldLow }: { readonly section: string | undefined; readonly heldLow: "ground" | "pattern" | undefined },
): Edit[] {
  const fields = only({ loop: loop ?? undefined, slack: slack ?? undefined, heldLow });
  return [
    section === undefined ? { kind: "setGauge", gauge } : { kind: "setSectionGauge", section, gauge },
    ...(Object.keys(fields).length > 0 ? [{ kind: "setKnitting", fields } as const] : []),
  ];
}

function after(project: Project, edits: readonly Edit[]): Project {
  let found = project;
  for (const edit of edits) {
    const { value, problems } = tryEdit(found, edit);
    if (!value) throw badInput("The swatch", problems);
    found = value;
  }
  return found;
}
