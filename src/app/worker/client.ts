/** The page's side of the workers: some that stand by for what follows the hand, others for what takes long and may be stopped. */
import { proxy, wrap, type Remote } from "comlink";
import type { CheckQuestion, CheckResult, JobsApi, RecolourQuestion, RecolourResult, Way } from "./api.ts";
import type { Project } from "../../document/project.ts";

function start(name: string): { api: Remote<JobsApi>; worker: Worker } {
  const worker = new Worker(new URL("./jobs.worker.ts", import.meta.url), { type: "module", name });
  return { api: wrap<JobsApi>(worker), worker };
}

const standing = new Map<string, ReturnType<typeof start>>();
function standingWorker(name: string): Remote<JobsApi> {
  let found = standing.get(name);
  if (!found) standing.set(name, (found = start(name)));
  return found.api;
}

/** Checks, amounts, reading and writing: each a fraction of a second. */
export const quickJobs = (): Remote<JobsApi> => standingWorker("bench");
/** Pictures have a worker of their own, so that the fabric never waits for a judgement. */
export const pictureJobs = (): Remote<JobsApi> => standingWorker("pictures");
/** Those that are worked out ahead, so that a sharp one never waits for a row of them. */
export const smallPictureJobs = (): Remote<JobsApi> => standingWorker("small pictures");

const MENDS = "mends";
/** A trial of mends that has run so long is not waited for once it is overtaken: what it remembers is made anew sooner. */
const LONG_MENDS_MS = 1500;
let mending: { readonly since: number; readonly stop: () => void } | null = null;

/** Mends are tried out one by one on the whole garment; on a large chart that takes longer than anyone waits for a word. */
export async function checkWithMends(project: Project, question: Omit<CheckQuestion, "mends">): Promise<CheckResult> {
  const stopped = new Promise<never>((_, reject) => {
    mending = {
      since: performance.now(),
      stop: () => {
        standing.get(MENDS)?.worker.terminate();
        standing.delete(MENDS);
        reject(new Stopped());
      },
    };
  });
  try {
    return await Promise.race([standingWorker(MENDS).check(project, { ...question, mends: "with" }), stopped]);
  } finally {
    mending = null;
  }
}

/** Somebody waits for newer mends. */
export function overtakeMends(): void {
  const old = mending;
  if (!old) return;
  const left = Math.max(0, LONG_MENDS_MS - (performance.now() - old.since));
  setTimeout(() => mending === old && old.stop(), left);
}

export interface Search {
  readonly result: Promise<RecolourResult>;
  /** A running search hears no message, so stopping it ends its worker; each way was handed over when it was found. */
  readonly stop: () => void;
}

export class Stopped extends Error {}

/** The search for ways, in a worker of its own so that the fabric stays alive meanwhile. */
export function findWays(project: Project, question: RecolourQuestion, onWay: (way: Way) => void): Search {
  const { api, worker } = start("search");
  let stop = () => {};
  const stopped = new Promise<never>((_, reject) => {
    stop = () => reject(new Stopped());
  });
  const result = Promise.race([api.recolour(project, question, proxy(onWay)), stopped]).finally(() =>
    worker.terminate(),
  );
  return { result, stop };
}

/** A piece of long work in a worker that is ended afterwards. */
export async function once<T>(job: (api: Remote<JobsApi>) => Promise<T>): Promise<T> {
  const { api, worker } = start("once");
  try {
    return await job(api);
  } finally {
    worker.terminate();
  }
}

/**
 * Lets one request run at a time and keeps only the newest of those that wait.
 * An overtaken request gives null, so nobody draws an answer to an old question. `onWaiting` may end what runs.
 */
export function newest<A extends unknown[], R>(
  job: (...args: A) => Promise<R>,
  onWaiting?: () => void,
): (...args: A) => Promise<R | null> {
  let running = false;
  let asked = 0;
  let waiting: { args: A; resolve: (value: R | null) => void; reject: (reason: unknown) => void } | null = null;
  const run = async (args: A, own: number): Promise<R | null> => {
    running = true;
    try {
      const value = await job(...args);
      return own === asked ? value : null;
    } finally {
      running = false;
      const next = waiting;
      waiting = null;
      if (next) run(next.args, asked).then(next.resolve, next.reject);
    }
  };
  return (...args) => {
    const own = ++asked;
    if (!running) return run(args, own);
    waiting?.resolve(null);
    onWaiting?.();
    return new Promise((resolve, reject) => {
      waiting = { args, resolve, reject };
    });
  };
}
