/** The page's side of the worker for photographs: it begins when the first is chosen and ends, with all its memory, when she stops it. */
import { proxy } from "comlink";
import type { PhotoReference } from "../../jobs/shade.ts";
import { workerDesk } from "./desk.ts";
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
  const { ask, running, stop } = workerDesk<PhotoApi>(
    () => new Worker(new URL("./photo.worker.ts", import.meta.url), { type: "module", name: "photographs" }),
    "the reader of photographs did not start",
  );
  return {
    look: (photo, onStage) => ask((api) => api.look(photo, proxy(onStage))),
    survey: (photo, reference, onStage) => ask((api) => api.survey(photo, reference, proxy(onStage))),
    measure: (photo, surveyed, yarns, onYarn) => ask((api) => api.measure(photo, surveyed, yarns, proxy(onYarn))),
    letGo: (id) => void running()?.letGo(id),
    stop,
  };
}
