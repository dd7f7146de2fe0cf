/** Why nothing fits: the parts that stand in each other's way, none of which could be left out, in sentences. */
import { assignYarns, type AssignmentProblem, type AssignmentResult, type ClashPart } from "./assign.ts";
import type { Search } from "./prepare.ts";

export interface Clash {
  readonly sentence: string;
  readonly parts: readonly ClashSentence[];
}

export interface ClashSentence {
  readonly kind: ClashPart["kind"];
  readonly colour: string;
  readonly with?: string;
  readonly sentence: string;
}

export function clashOf(search: Search, settled: AssignmentResult): Clash {
  const { problem } = search;
  const result = settled.status === "infeasible" ? assignYarns(problem) : settled;
  if (result.status === "stopped")
    return { sentence: "The search was stopped before it found a colourway. Give it more time.", parts: [] };
  if (search.yarns.length === 0) return { sentence: "This wish leaves no yarn to choose from.", parts: [] };
  const parts = (result.clash ?? []).map((part) => sentenceOf(part, problem, search));
  const colours = [...new Set(parts.flatMap(({ colour, with: other }) => (other ? [colour, other] : [colour])))];
  return {
    sentence: `Nothing that you own fits ${colours.join(", ")} all at once. Give up any one of these and something does.`,
    parts,
  };
}

function sentenceOf({ kind, i, j }: ClashPart, problem: AssignmentProblem, { targets, yarns }: Search): ClashSentence {
  const colour = targets[i]!.colour;
  const other = j === undefined ? undefined : targets[j]!.colour;
  const allowed = yarns.filter((_, k) => Number.isFinite(problem.costs[i]![k]!));
  const names = allowed.map(({ name }) => name);
  const list = names.length <= 3 ? names.join(", ") || "no yarn" : `${names.length} yarns`;
  const { need = [], have = [] } = problem.capacity ?? {};
  const needed = (need[i] ?? 0) + (j === undefined ? 0 : (need[j] ?? 0));
  const most = Math.max(0, ...yarns.map((_, k) => (Number.isFinite(problem.costs[i]![k]!) ? (have[k] ?? 0) : 0)));
  if (kind === "quota") return { kind, colour: "", sentence: "A demand on the whole cannot be met." };
  const sentences: Record<Exclude<ClashPart["kind"], "quota">, string> = {
    yarn: `${colour} may only be ${list}.`,
    pair: `${colour} and ${other} must part from each other where they meet, in their order of light and dark.`,
    distinct: `${colour} and ${other} may not be the same yarn.`,
    capacity: `There must be enough yarn for ${colour}${other === undefined ? "" : ` and ${other}`}: about ${Math.round(needed)} m with its reserve, and of what may be used there is ${Math.round(most)} m at most.`,
  };
  return { kind, colour, ...(other === undefined ? {} : { with: other }), sentence: sentences[kind] };
}
