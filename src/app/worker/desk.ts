/** A worker that begins with the first question and can be ended, with all its memory, in the middle of one. */
import { wrap, type Remote } from "comlink";
import { Stopped } from "./client.ts";

export interface Desk<Api> {
  ask<T>(question: (api: Remote<Api>) => Promise<T>): Promise<T>;
  /** The worker's own side, as long as it runs. */
  running(): Remote<Api> | null;
  /** Ends whatever runs at once; what was asked and not answered is rejected with `Stopped`. The next question starts anew. */
  stop(): void;
}

/** @param unstarted what is told where the worker does not start at all */
export function workerDesk<Api>(begin: () => Worker, unstarted: string): Desk<Api> {
  let running: { api: Remote<Api>; worker: Worker; rejects: Set<(reason: Error) => void> } | null = null;
  const start = () => {
    const worker = begin();
    const rejects = new Set<(reason: Error) => void>();
    worker.onerror = () => rejects.forEach((reject) => reject(new Error(unstarted)));
    return { api: wrap<Api>(worker), worker, rejects };
  };
  return {
    running: () => running?.api ?? null,
    ask: async (question) => {
      const { api, rejects } = (running ??= start());
      let reject: (reason: Error) => void = () => {};
      const stopped = new Promise<never>((_, no) => rejects.add((reject = no)));
      try {
        return await Promise.race([question(api), stopped]);
      } finally {
        rejects.delete(reject);
      }
    },
    stop: () => {
      const ended = running;
      running = null;
      ended?.worker.terminate();
      for (const reject of ended?.rejects ?? []) reject(new Stopped());
    },
  };
}
