/** Answers of the worker as values of a panel: the last one stays while the next is worked out. */
import { useEffect, useMemo, useRef, useState } from "react";
import type { Mend } from "../../audit/finding.ts";
import type { Project } from "../../document/project.ts";
import type { CheckResult, TrialQuestion, TrialResult } from "./api.ts";
import { useBench } from "../shell/bench.ts";
import { deficiencyOf, type Eye } from "../shell/view.ts";
import { checkWithMends, newest, overtakeMends, quickJobs } from "./client.ts";

export interface Answer<R> {
  readonly value: R | null;
  readonly busy: boolean;
  /** A sentence, when the job itself broke. */
  readonly failed: string | null;
}

export const brokenSentence = (reason: unknown): string =>
  `This is our own fault, and your work is safe: ${reason instanceof Error ? reason.message : String(reason)}.`;

/** Asks again whenever `question` is another one; a question of null asks nothing. `onWaiting` as in `newest`. */
export function useAnswer<Q extends object, R>(
  job: (question: Q) => Promise<R>,
  question: Q | null,
  onWaiting?: () => void,
): Answer<R> {
  const ask = useRef<((question: Q) => Promise<R | null>) | null>(null);
  ask.current ??= newest(job, onWaiting);
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
  readonly eye: Eye;
  readonly severity: number;
}

const lookQuestion = ({ colourway, distance, light, ...eye }: Looking & { readonly colourway: string }) => ({
  colourway,
  distance,
  light,
  ...deficiencyOf(eye),
});

interface Question {
  readonly project: Project;
  readonly looking: Looking & { readonly colourway: string };
}

interface Checked {
  readonly of: Question;
  readonly result: CheckResult;
}

const checkWords = async (of: Question): Promise<Checked> => ({
  of,
  result: await quickJobs().check(of.project, { ...lookQuestion(of.looking), mends: "without" }),
});
const checkMends = async (of: Question): Promise<Checked> => ({
  of,
  result: await checkWithMends(of.project, lookQuestion(of.looking)),
});

export interface CheckAnswer extends Answer<CheckResult> {
  /** The words are there; the mends are still being tried out. */
  readonly mending: boolean;
}

/** The words at once, and with their mends, where they are wanted, as soon as these have been tried out. */
export function useChecks(project: Project | null, looking: Looking, mendsWanted: "mends" | "words"): CheckAnswer {
  const question = useMemo<Question | null>(
    () =>
      project && looking.colourway !== null ? { project, looking: { ...looking, colourway: looking.colourway } } : null,
    [project, looking],
  );
  const words = useAnswer(checkWords, question);
  const mends = useAnswer(checkMends, mendsWanted === "mends" ? question : null, overtakeMends);
  const value = useMemo(() => withLastMends(words.value, mends.value), [words.value, mends.value]);
  return {
    value,
    busy: words.busy,
    mending: mends.busy,
    failed: words.failed ?? mends.failed,
  };
}

/** What it was at another distance is not what it will be at this one. */
const withoutWord = (mend: Mend): Mend => ({
  ...mend,
  sentence: mend.sentence.replace(/: (lost|faint|clear|strong)$/, ""),
});

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
      return last ? { ...finding, mends: finding.mends ?? last.map(withoutWord) } : finding;
    }),
  };
}

/** Every yarn tried in the place of a chart colour, looked at as the fabric is; null asks nothing. */
export function useTrial(colour: string | null): Answer<TrialResult> {
  const { project, colourway, view } = useBench();
  const id = colourway?.id ?? null;
  const { distance, light, eye, severity } = view;
  const question = useMemo(
    () =>
      project && id !== null && colour !== null
        ? { project, asked: { ...lookQuestion({ colourway: id, distance, light, eye, severity }), colour } }
        : null,
    [project, id, colour, distance, light, eye, severity],
  );
  return useAnswer(tryAll, question);
}

const tryAll = ({ project, asked }: { readonly project: Project; readonly asked: TrialQuestion }) =>
  quickJobs().tryYarns(project, asked);
