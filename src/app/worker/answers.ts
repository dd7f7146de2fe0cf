/** Answers of the worker as values of a panel: the last one stays while the next is worked out. */
import { useEffect, useMemo, useRef, useState } from "react";
import type { Project } from "../../document/project.ts";
import type {
  PlacesQuestion,
  PlaceTrial,
  ReadsInLight,
  ReadsQuestion,
  TogetherQuestion,
  TogetherResult,
  TrialQuestion,
  TrialResult,
  YarnSet,
} from "./api.ts";
import { useBench } from "../shell/bench.ts";
import { deficiencyOf } from "../shell/view.ts";
import { newest, quickJobs } from "./client.ts";

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

/** Every yarn tried in the place of a chart colour, looked at as the fabric is; null asks nothing. */
export function useTrial(colour: string | null): Answer<TrialResult> {
  const { project, colourway, view } = useBench();
  const id = colourway?.id ?? null;
  const { distance, light, eye, severity } = view;
  const question = useMemo(
    () =>
      project && id !== null && colour !== null
        ? { project, asked: { colourway: id, colour, distance, light, ...deficiencyOf({ eye, severity }) } }
        : null,
    [project, id, colour, distance, light, eye, severity],
  );
  return useAnswer(tryAll, question);
}

const tryAll = ({ project, asked }: { readonly project: Project; readonly asked: TrialQuestion }) =>
  quickJobs().tryYarns(project, asked);

/** A yarn tried in the place of every chart colour, looked at as the fabric is; null asks nothing. */
export function useCarried(yarn: string | null): Answer<PlaceTrial[]> {
  const { project, colourway, view } = useBench();
  const id = colourway?.id ?? null;
  const { distance, light, eye, severity } = view;
  const question = useMemo(
    () =>
      project && id !== null && yarn !== null
        ? { project, asked: { colourway: id, yarn, distance, light, ...deficiencyOf({ eye, severity }) } }
        : null,
    [project, id, yarn, distance, light, eye, severity],
  );
  return useAnswer(tryEverywhere, question);
}

const tryEverywhere = ({ project, asked }: { readonly project: Project; readonly asked: PlacesQuestion }) =>
  quickJobs().tryPlaces(project, asked);

/** Several yarns put in their places at once, looked at as the fabric is; null asks nothing. The same sets are the same array. */
export function useTogether(sets: readonly YarnSet[] | null): Answer<TogetherResult> {
  const { project, colourway, view } = useBench();
  const id = colourway?.id ?? null;
  const { distance, light, eye, severity } = view;
  const question = useMemo(
    () =>
      project && id !== null && sets !== null
        ? { project, asked: { colourway: id, sets, distance, light, ...deficiencyOf({ eye, severity }) } }
        : null,
    [project, id, sets, distance, light, eye, severity],
  );
  return useAnswer(trySets, question);
}

const trySets = ({ project, asked }: { readonly project: Project; readonly asked: TogetherQuestion }) =>
  quickJobs().tryTogether(project, asked);

/** How far a row of the chart in view reads in each light of a day; null asks nothing. */
export function useReadsInLights(row: number | null): Answer<readonly ReadsInLight[]> {
  const { shown, colourway, chart, view } = useBench();
  const [id, of] = [colourway?.id, chart?.id];
  const { eye, severity } = view;
  const question = useMemo(() => {
    if (!shown || id === undefined || of === undefined || row === null) return null;
    const asked: ReadsQuestion = { colourway: id, chart: of, rows: [row, row], ...deficiencyOf({ eye, severity }) };
    return { project: shown, asked };
  }, [shown, id, of, row, eye, severity]);
  return useAnswer(readAll, question);
}

const readAll = async ({ project, asked }: { readonly project: Project; readonly asked: ReadsQuestion }) =>
  quickJobs().readsInLights(project, asked);
