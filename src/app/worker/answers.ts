/** Answers of the worker as values of a panel: the last one stays while the next is worked out. */
import { useEffect, useRef, useState } from "react";
import type { Project } from "../../document/project.ts";
import type { CheckResult } from "./api.ts";
import { newest, quickJobs } from "./client.ts";

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

const check = ({ project, looking: { colourway, distance, light } }: Question): Promise<CheckResult> =>
  quickJobs().check(project, { colourway, distance, light });

export function useChecks(project: Project | null, looking: Looking): Answer<CheckResult> {
  const [question, setQuestion] = useState<Question | null>(null);
  useEffect(() => {
    setQuestion(
      project && looking.colourway !== null ? { project, looking: { ...looking, colourway: looking.colourway } } : null,
    );
  }, [project, looking]);
  return useAnswer(check, question);
}
