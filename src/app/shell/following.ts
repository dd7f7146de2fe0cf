/** The check that follows the hand: at every stand it is there before the hand is, and never of another distance than the picture. */
import { useEffect, useLayoutEffect, useMemo, useRef, useState, useSyncExternalStore } from "react";
import type { Mend } from "../../audit/finding.ts";
import type { Project } from "../../document/project.ts";
import { createAhead, type Ahead } from "../worker/ahead.ts";
import { brokenSentence, useAnswer } from "../worker/answers.ts";
import type { CheckResult } from "../worker/api.ts";
import { checkWithMends, overtakeMends, quickJobs } from "../worker/client.ts";
import { serialOf } from "../worker/serial.ts";
import { DISTANCES, deficiencyOf, type Look, type View } from "./view.ts";

export interface Following {
  /** The last complete answer: check and picture are of this look, though the hand may be ahead of it. */
  readonly seenFrom: Look;
  readonly check: CheckResult | null;
  readonly previewCheck: CheckResult | null;
  /** The hand is ahead of what is shown. */
  readonly checking: boolean;
  readonly mending: boolean;
  /** Nothing is left to be worked out ahead. */
  readonly settled: boolean;
  readonly checkFailed: string | null;
}

/** A picture of the whole cloth as seen from a stand, good enough while the hand moves. */
export interface SmallPicture {
  readonly bitmap: ImageBitmap;
  readonly pixels: number;
}

export interface SmallQuestion {
  readonly key: string;
  readonly light: number;
  readonly eye: View["eye"];
  readonly severity: number;
  readonly ask: (distance: number) => Promise<SmallPicture>;
}

/** Pixels at four bytes each that small pictures may take in all: 60 MB. */
const SMALL_PIXELS_IN_ALL = 15_000_000;
/** Milliseconds of work ahead on one question. Our choice: what a charged tablet gives without growing warm. */
const PATIENCE = { checks: 6_000, pictures: 15_000 };
/** Check results kept in all: four colourways at every stand. */
const CHECKS_IN_ALL = 4 * DISTANCES.length;
/** The hand rests when it has not moved for so long. */
export const REST_MS = 250;

export const createSmalls = (): Ahead<SmallQuestion, SmallPicture> =>
  createAhead({
    stands: DISTANCES,
    keyOf: ({ key }) => key,
    ask: ({ ask }, distance) => ask(distance),
    sizeOf: ({ pixels }) => pixels,
    most: SMALL_PIXELS_IN_ALL,
    patience: PATIENCE.pictures,
    drop: ({ bitmap }) => bitmap.close(),
  });

interface Question extends Pick<View, "light" | "eye" | "severity"> {
  readonly project: Project;
  readonly colourway: string;
}

const keyOf = ({ project, colourway, light, eye, severity }: Question): string =>
  JSON.stringify([serialOf(project), colourway, light, eye, severity]);

function createChecks(): Ahead<Question, CheckResult> {
  // The ladder is the same from everywhere: one and the same, so that what shows it may rest.
  let ladder: { readonly key: string; readonly rungs: CheckResult["ladder"] } | null = null;
  return createAhead({
    stands: DISTANCES,
    keyOf,
    ask: async (question, distance) => {
      const key = keyOf(question);
      const result = await quickJobs().check(question.project, { ...asked(question, distance), mends: "without" });
      if (ladder?.key !== key) ladder = { key, rungs: result.ladder };
      return { ...result, ladder: ladder.rungs };
    },
    sizeOf: () => 1,
    most: CHECKS_IN_ALL,
    patience: PATIENCE.checks,
  });
}

const asked = ({ colourway, light, ...eye }: Question, distance: number) => ({
  colourway,
  light,
  distance,
  ...deficiencyOf(eye),
});

interface Shown {
  readonly of: Question;
  readonly look: Look;
  readonly words: CheckResult;
  readonly then: CheckResult | null;
}

interface Wearing {
  readonly project: Project;
  readonly colourway: string;
}

export function useFollowing(
  worn: Wearing | null,
  tried: Wearing | null,
  view: View,
  smalls: Ahead<SmallQuestion, SmallPicture>,
): Following {
  const [checks] = useState(createChecks);
  useSyncExternalStore(checks.subscribe, checks.version);
  useSyncExternalStore(smalls.subscribe, smalls.version);
  const { distance, light, eye, severity } = view;
  const look = useMemo<Look>(() => ({ distance, light, eye, severity }), [distance, light, eye, severity]);
  const now = useQuestion(worn, look);
  const then = useQuestion(tried, look);
  const hand = useMemo(() => ({ now, distance }), [now, distance]);
  const rested = useRested(hand);
  useEffect(() => {
    const questions = [hand.now, then].filter((question) => question !== null);
    checks.want(questions, hand.distance, rested === hand ? "everywhere" : "here");
  }, [checks, hand, then, rested]);

  const last = useRef<Shown | null>(null);
  const words = now && checks.find(now, distance);
  const thenWords = (then && checks.find(then, distance)) ?? null;
  // At the same distance the picture that is there is of that distance, if of other yarns, and follows when it can.
  const following =
    !last.current || sameLook(last.current.look, look)
      ? true
      : (!then || thenWords !== null) &&
        smalls.ready(distance) &&
        smalls.wanted().every((small) => sameLook({ ...small, distance }, look));
  const answer = now && words && following ? { of: now, look, words, then: thenWords } : null;
  const shown = now ? (answer ?? last.current) : null;
  useLayoutEffect(() => {
    last.current = shown;
  });

  const mends = useAnswer(checkMends, rested.now ? rested : null, overtakeMends);
  const check = useMemo(() => withLastMends(shown, mends.value), [shown?.words, mends.value]);
  const failure = checks.failure();
  return {
    seenFrom: shown?.look ?? look,
    check,
    previewCheck: shown?.then ?? null,
    checking: now !== null && answer === null,
    mending: mends.busy || rested !== hand,
    settled: checks.settled() && smalls.settled() && rested === hand,
    checkFailed: failure === undefined ? mends.failed : brokenSentence(failure),
  };
}

function useQuestion(worn: Wearing | null, { light, eye, severity }: Look): Question | null {
  const [project, colourway] = [worn?.project, worn?.colourway];
  return useMemo(
    () => (project && colourway !== undefined ? { project, colourway, light, eye, severity } : null),
    [project, colourway, light, eye, severity],
  );
}

export const sameLook = (one: Look, other: Look): boolean =>
  one.distance === other.distance &&
  one.light === other.light &&
  one.eye === other.eye &&
  one.severity === other.severity;

/** What a thing was when it had not changed for a while. */
export function useRested<T>(value: T): T {
  const [rested, setRested] = useState(value);
  useEffect(() => {
    const timer = setTimeout(() => setRested(value), REST_MS);
    return () => clearTimeout(timer);
  }, [value]);
  return rested;
}

interface Mended {
  readonly of: Question;
  readonly distance: number;
  readonly result: CheckResult;
}

async function checkMends({ now, distance }: { now: Question | null; distance: number }): Promise<Mended | null> {
  return now && { of: now, distance, result: await checkWithMends(now.project, asked(now, distance)) };
}

/** What it was at another distance is not what it will be at this one. */
const withoutEffect = (mend: Mend): Mend => ({ ...mend, sentence: mend.change });

/**
 * The words, with the mends that belong to them or, while these are being tried out, those of the same colourway
 * at another distance: a change that may be tried stays one, and the page does not jump while the hand moves.
 */
function withLastMends(shown: Shown | null, mends: Mended | null): CheckResult | null {
  if (!shown || !mends) return shown?.words ?? null;
  const { words, of } = shown;
  if (mends.of.project !== of.project || mends.of.colourway !== of.colourway) return words;
  if (keyOf(mends.of) === keyOf(of) && mends.distance === shown.look.distance)
    return { ...mends.result, ladder: words.ladder };
  const known = new Map(mends.result.findings.map((finding) => [finding.id, finding.mends]));
  return {
    ...words,
    findings: words.findings.map((finding) => {
      const mended = known.get(finding.id);
      return mended && !finding.mends ? { ...finding, mends: mended.map(withoutEffect) } : finding;
    }),
  };
}
