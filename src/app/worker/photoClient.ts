/** The page's side of the worker for photographs: it begins when the first is chosen and ends, with all its memory, when she stops it. */
import { proxy, wrap, type Remote } from "comlink";
import type { PhotoReference } from "../../jobs/shade.ts";
import { Stopped } from "./client.ts";
import type { OnStage, PhotoApi, PhotoFile, Surveyed, YarnAsked, YarnTold } from "./photoApi.ts";

export interface PhotoDesk {
  look(photo: PhotoFile, onStage: OnStage): ReturnType<PhotoApi["look"]>;
  survey(photo: PhotoFile, reference: PhotoReference, onStage: OnStage): ReturnType<PhotoApi["survey"]>;
  measure(
    photo: PhotoFile,
    surveyed: Surveyed,
    yarns: readonly YarnAsked[],
    onYarn: (told: YarnTold) => void,
  ): Promise<void>;
  letGo(id: string): void;
  /** Ends whatever runs at once; what was asked and not answered is rejected with `Stopped`. The next question starts anew. */
  stop(): void;
}

export function photoDesk(): PhotoDesk {
  let running: { api: Remote<PhotoApi>; worker: Worker; rejects: Set<(reason: Error) => void> } | null = null;
  const start = () => {
    const worker = new Worker(new URL("./photo.worker.ts", import.meta.url), { type: "module", name: "photographs" });
    const rejects = new Set<(reason: Error) => void>();
    worker.onerror = () => rejects.forEach((reject) => reject(new Error("the reader of photographs did not start")));
    return { api: wrap<PhotoApi>(worker), worker, rejects };
  };
  const ask = async <T>(question: (api: Remote<PhotoApi>) => Promise<T>): Promise<T> => {
    const { api, rejects } = (running ??= start());
    let reject: (reason: Error) => void = () => {};
    const stopped = new Promise<never>((_, no) => rejects.add((reject = no)));
    try {
      return await Promise.race([question(api), stopped]);
    } finally {
      rejects.delete(reject);
    }
  };
  return {
    look: (photo, onStage) => ask((api) => api.look(photo, proxy(onStage))),
    survey: (photo, reference, onStage) => ask((api) => api.survey(photo, reference, proxy(onStage))),
    measure: (photo, surveyed, yarns, onYarn) => ask((api) => api.measure(photo, surveyed, yarns, proxy(onYarn))),
    letGo: (id) => void running?.api.letGo(id),
    stop: () => {
      const ended = running;
      running = null;
      ended?.worker.terminate();
      for (const reject of ended?.rejects ?? []) reject(new Stopped());
    },
  };
}
