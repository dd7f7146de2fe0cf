/** Several yarns put in their places at once and the whole checked: what an exchange of two would do. */
import { judgeMemory } from "../audit/judge.ts";
import type { Project } from "../document/project.ts";
import type { Word } from "../fabric/visibility.ts";
import { checkProject, type CheckResult } from "./check.ts";
import type { LookedAt } from "./lookedAt.ts";

/** Yarns by chart colour; what is left out stays as it is. */
export type YarnSet = Readonly<Record<string, string>>;

export interface TogetherOptions extends LookedAt {
  readonly colourway: string;
  readonly sets: readonly YarnSet[];
}

export interface TogetherReading {
  /** Rows of all charts by their word. */
  readonly rows: Readonly<Record<Word, number>>;
  /** The weakest row of all; null where no row has two colours. */
  readonly row: { readonly chart: string; readonly row: number; readonly V: number; readonly shows: Word } | null;
  /** Pairs of chart colours whose order is not the pattern's, the pattern's lighter one first. */
  readonly crossed: readonly (readonly [string, string])[];
}

export interface TogetherResult {
  /** The colourway as it is. */
  readonly now: TogetherReading;
  /** In the order of the sets. */
  readonly tries: readonly TogetherReading[];
}

/** Yarns, colours and the colourway were checked by the caller. */
export function tryTogether(project: Project, { sets, ...options }: TogetherOptions): TogetherResult {
  const memory = options.memory ?? judgeMemory();
  const reading = (set: YarnSet): TogetherReading =>
    readingOf(checkProject(having(project, options.colourway, set), { ...options, memory, mends: "without" }));
  return { now: reading({}), tries: sets.map(reading) };
}

const having = (project: Project, colourway: string, set: YarnSet): Project => ({
  ...project,
  colourways: project.colourways.map((one) =>
    one.id === colourway ? { ...one, yarns: { ...one.yarns, ...set } } : one,
  ),
});

function readingOf({ rows, ladder }: CheckResult): TogetherReading {
  const counts = { lost: 0, faint: 0, clear: 0, strong: 0 };
  let weakest: TogetherReading["row"] = null;
  for (const { chart, row, V, shows } of rows) {
    if (V === null || shows === null) continue;
    counts[shows] += 1;
    if (!weakest || V < weakest.V) weakest = { chart, row, V, shows };
  }
  const crossed = ladder.flatMap(({ colour, crosses }, at) =>
    ladder
      .slice(at + 1)
      .filter((darker) => crosses.includes(darker.colour))
      .map((darker): [string, string] => [colour, darker.colour]),
  );
  return { rows: counts, row: weakest, crossed };
}
