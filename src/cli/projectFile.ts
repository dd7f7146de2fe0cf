/** Opens a project for a command, and picks from it what the command's options name. */
import { problemSentence, type Problem } from "../base/problem.ts";
import type { Colourway } from "../fabric/colourway.ts";
import { readProject } from "../document/read.ts";
import type { Project } from "../document/project.ts";
import type { Deficiency } from "../vision/deficiency.ts";
import type { Given } from "./args.ts";
import { readText } from "./files.ts";
import { EXIT, Refusal } from "./io.ts";
import { nearestWord } from "./nearest.ts";
import { counted } from "./words.ts";

/** Refuses with 66 or 65; doubts come along. */
export async function openProject(path: string): Promise<{ project: Project; problems: Problem[] }> {
  const { value, problems } = readProject(await readText(path));
  if (!value) throw badInput(path, problems);
  return { project: value, problems };
}

/** The most sentences that are told before the rest is counted. */
const MOST_TOLD = 20;

export function badInput(path: string, problems: readonly Problem[]): Refusal {
  const faults = problems.filter(({ severity }) => severity === "fault");
  const told = faults.slice(0, MOST_TOLD).map((problem) => `  ${problemSentence(problem)}`);
  const more = faults.length > MOST_TOLD ? [`  and ${counted(faults.length - MOST_TOLD, "more fault")}.`] : [];
  return new Refusal(EXIT.badInput, [`${path} cannot be used:`, ...told, ...more].join("\n"));
}

/** The colourway that `--colourway` names, the first without it. Refuses with 64 or 65. */
export function colourwayIn(project: Project, given: Given): Colourway {
  const id = given.text("colourway");
  const { colourways } = project;
  const found = id === undefined ? colourways[0] : colourways.find((colourway) => colourway.id === id);
  if (found) return found;
  if (id === undefined) throw new Refusal(EXIT.badInput, "The project has no colourway yet.");
  throw unknownId("colourway", id, idsOf(colourways));
}

/** Refuses with 64 what names none of the ids. */
export function idIn(option: string, id: string | undefined, ids: readonly string[]): string | undefined {
  if (id === undefined || ids.includes(id)) return id;
  throw unknownId(option, id, ids);
}

export const idsOf = (items: readonly { id: string }[]): string[] => items.map(({ id }) => id);

function unknownId(option: string, id: string, ids: readonly string[]): Refusal {
  const near = nearestWord(id, ids);
  const hint = near ? ` Did you mean ${near}?` : "";
  const expected = ids.length > 0 ? ids.join(", ") : "nothing, for there is none";
  return new Refusal(EXIT.usage, `--${option}: expected ${expected}, found ${JSON.stringify(id)}.${hint}`);
}

/** Options that were given, without those that were not: a job's own defaults hold. */
export function only<T extends object>(options: T): { [Field in keyof T]: Exclude<T[Field], undefined> } {
  return Object.fromEntries(Object.entries(options).filter(([, value]) => value !== undefined)) as {
    [Field in keyof T]: Exclude<T[Field], undefined>;
  };
}

/** Where she stands and how light it is; limits are a hand's breadth to a street, candle to sun. Our choice. */
export const seeingOf = (from: Given): { distance?: number; light?: number } =>
  only({
    distance: from.number("distance", { least: 0.1, most: 100 }),
    light: from.number("light", { least: 1, most: 100_000 }),
  });

/** With what kind of eye. */
export const deficiencyOf = (from: Given): { deficiency?: Deficiency; severity?: number } =>
  only({
    deficiency: from.choice("deficiency", ["protan", "deutan", "tritan"] as const),
    severity: from.number("severity", { least: 0, most: 1 }),
  });
