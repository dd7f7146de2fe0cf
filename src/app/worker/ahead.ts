/** Answers for every distance at which she may stand, worked out before she comes there, so that moving needs no waiting. */

export interface AheadJob<Q, A> {
  /** The stands in their order; a stand's neighbours here are what is worked out next. */
  readonly stands: readonly number[];
  /** The same for questions that have the same answers. */
  readonly keyOf: (question: Q) => string;
  readonly ask: (question: Q, stand: number) => Promise<A>;
  readonly sizeOf: (answer: A) => number;
  /** Sizes that are kept in all; what was asked for longest ago goes first. */
  readonly most: number;
  /** After so many milliseconds of work on one question nothing more of it is worked out ahead. */
  readonly patience: number;
  readonly drop?: (answer: A) => void;
}

export interface Ahead<Q, A> {
  readonly find: (question: Q, stand: number) => A | undefined;
  /** What is asked now and where she stands. "here" works out nothing but what she stands before. */
  readonly want: (questions: readonly Q[], stand: number, reach: "here" | "everywhere") => void;
  readonly wanted: () => readonly Q[];
  /** All that was wanted last is there at a stand, or will not come. */
  readonly ready: (stand: number) => boolean;
  /** Nothing is left to be worked out. */
  readonly settled: () => boolean;
  readonly failure: () => unknown;
  /** Told when something is there at the stand that is wanted, when all is settled, and when a job broke. */
  readonly subscribe: (listener: () => void) => () => void;
  /** Another number whenever listeners were told. */
  readonly version: () => number;
}

interface Kept<A> {
  readonly key: string;
  readonly stand: number;
  readonly answer: A;
}

/** One answer is asked for at a time, nearest first, so that the hand never waits behind more than one. */
export function createAhead<Q, A>(job: AheadJob<Q, A>): Ahead<Q, A> {
  const { stands, keyOf, ask, sizeOf, most, patience, drop = () => undefined } = job;
  const kept = new Map<string, Kept<A>>();
  const failed = new Map<string, unknown>();
  const spent = new Map<string, number>();
  const listeners = new Set<() => void>();
  let wanted: readonly Q[] = [];
  let here = stands[0]!;
  let reach: "here" | "everywhere" = "here";
  let running = false;
  let size = 0;
  let version = 0;
  let wasSettled = true;

  const placeOf = (key: string, stand: number): string => `${stand} ${key}`;
  const there = (key: string, stand: number): boolean =>
    kept.has(placeOf(key, stand)) || failed.has(placeOf(key, stand));
  const steps = (stand: number): number => Math.abs(stands.indexOf(stand) - stands.indexOf(here));
  const tell = () => {
    version++;
    for (const listener of listeners) listener();
  };

  const next = (): { question: Q; key: string; stand: number } | null => {
    const keyed = wanted.map((question) => ({ question, key: keyOf(question) }));
    const missing = (stand: number) => keyed.find(({ key }) => !there(key, stand));
    const first = missing(here);
    if (first) return { ...first, stand: here };
    if (reach === "here" || size >= most) return null;
    for (const stand of stands.toSorted((a, b) => steps(a) - steps(b))) {
      const found = missing(stand);
      if (found && (spent.get(found.key) ?? 0) < patience) return { ...found, stand };
    }
    return null;
  };

  const forget = () => {
    const keys = new Set(wanted.map(keyOf));
    const drops = [...kept].filter(([, one]) => !keys.has(one.key));
    const far = [...kept]
      .filter(([, one]) => keys.has(one.key))
      .sort(([, a], [, b]) => steps(b.stand) - steps(a.stand));
    for (const [place, one] of [...drops, ...far]) {
      if (size <= most || (keys.has(one.key) && one.stand === here)) break;
      size -= sizeOf(one.answer);
      kept.delete(place);
      drop(one.answer);
    }
  };

  const work = async (): Promise<void> => {
    if (running) return;
    const task = next();
    if (!task) {
      if (!wasSettled) {
        wasSettled = true;
        tell();
      }
      return;
    }
    running = true;
    wasSettled = false;
    const { question, key, stand } = task;
    const place = placeOf(key, stand);
    const began = performance.now();
    try {
      const answer = await ask(question, stand);
      size += sizeOf(answer);
      kept.set(place, { key, stand, answer });
      forget();
    } catch (reason) {
      failed.set(place, reason);
    }
    spent.set(key, (spent.get(key) ?? 0) + performance.now() - began);
    running = false;
    if (stand === here || failed.has(place)) tell();
    void work();
  };

  return {
    find: (question, stand) => kept.get(placeOf(keyOf(question), stand))?.answer,
    want: (questions, stand, howFar) => {
      const keys = questions.map(keyOf);
      // What is asked for again is not what was asked for longest ago.
      if (keys.join() !== wanted.map(keyOf).join()) {
        for (const [place, one] of [...kept])
          if (keys.includes(one.key)) {
            kept.delete(place);
            kept.set(place, one);
          }
      }
      [wanted, here, reach] = [questions, stand, howFar];
      void work();
    },
    wanted: () => wanted,
    ready: (stand) => wanted.every((question) => there(keyOf(question), stand)),
    settled: () => !running && next() === null,
    failure: () => [...failed].find(([place]) => wanted.some((question) => place.endsWith(` ${keyOf(question)}`)))?.[1],
    subscribe: (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    version: () => version,
  };
}
