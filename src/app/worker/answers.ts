/** Answers of the worker as values of a panel: the last one stays while the next is worked out. */
import type { Remote } from "comlink";
import { useEffect, useMemo, useRef, useState } from "react";
import type { Project } from "../../document/project.ts";
import type { CheckResult, JobsApi } from "./api.ts";
import { mendJobs, newest, quickJobs } from "./client.ts";

export interface Answer<R> {
  readonly value: R | null;
  readonly busy: boolean;
  /** A sentence, when the job itself broke. */
  readonly failed: string | null;
}

export const brokenSentence = (reason: unknown): string =>
  `This is our own fault, and your work is safe: ${reason instanceof Error ? reason.message : String(reason)}.`;

/** Asks again whenever `question` is another one; a question of null asks nothing. */
export function useAnswer<Q extends object, R>(job: (question: Q) => Promise<R>, question: Q | null): Answer<R> {
  const ask = useRef<((question: Q) => Promise<R | null>) | null>(null);
  ask.current ??= newest(job);
  const [answer, setAnswer] = useState<Answer<R>>({ value: null, busy: false, failed: null });
  useEffect(() => {
    if (!question) {
      setAnswer({ value: null, busy: false, failed: null });
      return;
    }
    let live = true;
    setAnswer((now) => ({ ...now, busy: true }));
    ask.current!(question).then(
      (value) => live && value !== null && setAnswer({ value, busy: false, failed: null }),
      (reason: unknown) => live && setAnswer((now) => ({ ...now, busy: false, failed: brokenSentence(reason) })),
    );
    return () => {
      live = false;
    };
  }, [question]);
  return answer;
}

export interface Looking {
  readonly colourway: string | null;
  readonly distance: number;
  readonly light: number;
}

interface Question {
  readonly project: Project;
  readonly looking: Looking & { readonly colourway: string };
}

interface Checked {
  readonly of: Question;
  readonly result: CheckResult;
}

const ask = async (jobs: Remote<JobsApi>, of: Question, mends: "with" | "without"): Promise<Checked> => {
  const { project, looking } = of;
  return { of, result: await jobs.check(project, { ...looking, mends }) };
};
const checkWords = (question: Question) => ask(quickJobs(), question, "without");
const checkMends = (question: Question) => ask(mendJobs(), question, "with");

/** The words at once, and with their mends as soon as these have been tried out. */
export function useChecks(project: Project | null, looking: Looking): Answer<CheckResult> {
  const question = useMemo<Question | null>(
    () =>
      project && looking.colourway !== null ? { project, looking: { ...looking, colourway: looking.colourway } } : null,
    [project, looking],
  );
  const words = useAnswer(checkWords, question);
  const mends = useAnswer(checkMends, question);
  const value = useMemo(() => withLastMends(words.value, mends.value), [words.value, mends.value]);
  return {
    value,
    busy: words.busy || mends.busy,
    failed: words.failed ?? mends.failed,
  };
}

/**
 * The newest words, with the mends that belong to them or, while these are being tried out, those of the same colourway
 * at another distance: a change that may be tried stays one, and the page does not jump while the hand moves.
 */
function withLastMends(words: Checked | null, mends: Checked | null): CheckResult | null {
  if (!words || !mends) return (words ?? mends)?.result ?? null;
  if (words.of === mends.of) return mends.result;
  if (words.of.project !== mends.of.project || words.of.looking.colourway !== mends.of.looking.colourway)
    return words.result;
  const known = new Map(mends.result.findings.map((finding) => [finding.id, finding.mends]));
  return {
    ...words.result,
    findings: words.result.findings.map((finding) => {
      const last = finding.mends ?? known.get(finding.id);
      return last ? { ...finding, mends: last } : finding;
    }),
  };
}
