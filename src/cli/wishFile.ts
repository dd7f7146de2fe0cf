/** Reads a wish from a file of its own. */
import { problemSentence } from "../base/problem.ts";
import { readJson } from "../document/json.ts";
import { readText } from "./files.ts";
import { EXIT, Refusal } from "./io.ts";
import { badInput } from "./projectFile.ts";

/** Refuses with 66 or 65. */
export async function wishOf(path: string | undefined): Promise<object | undefined> {
  if (path === undefined) return undefined;
  const { value, problems } = readJson(await readText(path));
  if (problems.length > 0) throw badInput(path, problems);
  if (typeof value === "object" && value !== null && !Array.isArray(value)) return value;
  const problem = { where: "the wish", expected: "an object", got: "something else", severity: "fault" } as const;
  throw new Refusal(EXIT.badInput, `${path}: ${problemSentence(problem)}`);
}
