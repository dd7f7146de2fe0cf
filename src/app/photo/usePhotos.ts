/** The photographs in hand and the work on them: whatever is not yet measured, or measured by what was since corrected, is done next. */
import { useCallback, useEffect, useMemo, useRef, useState } from "react";
import { problemSentence } from "../../base/problem.ts";
import { brokenSentence } from "../worker/answers.ts";
import { Stopped } from "../worker/client.ts";
import type { Stage } from "../worker/photoApi.ts";
import { photoDesk } from "../worker/photoClient.ts";
import { askedOf, lookedAt, nextTask, withoutReference, type PhotoInHand, type Task } from "./photos.ts";
import type { PlaceChange } from "./places.ts";

export interface Progress {
  readonly photo: string;
  readonly stage: Stage | "measuring";
  /** 0 to 1 of this stage. */
  readonly share: number;
  /** Of "measuring 7 of 20". */
  readonly done?: number;
  readonly of?: number;
}

export interface Photos {
  readonly photos: readonly PhotoInHand[];
  /** null while nothing is being done. */
  readonly progress: Progress | null;
  /** She stopped it, and there is more to do. */
  readonly isStopped: boolean;
  readonly add: (files: readonly File[]) => void;
  readonly remove: (photo: string) => void;
  /** A change made by hand, worked out on the photograph as it is by then. */
  readonly edit: (photo: string, how: (photo: PhotoInHand) => PlaceChange) => void;
  /** All is done with. */
  readonly clear: () => void;
  readonly stop: () => void;
  readonly goOn: () => void;
}

/** Milliseconds of rest before a correction is measured: a hand that still pulls is not asked about. Our choice. */
const REST = 200;

/** What was in hand when she looked at something else: names of sixty balls are not lost by a press on the way back. */
let left: readonly PhotoInHand[] = [];

export function usePhotos(): Photos {
  const [photos, setPhotos] = useState(left);
  const [progress, setProgress] = useState<Progress | null>(null);
  const [isStopped, setStopped] = useState(false);
  const [desk] = useState(photoDesk);
  const now = useRef(photos);
  now.current = photos;
  const running = useRef<Task | null>(null);
  const [runs, setRuns] = useState(0);

  const change = useCallback((id: string, how: (photo: PhotoInHand) => PhotoInHand) => {
    setPhotos((all) => all.map((photo) => (photo.id === id ? how(photo) : photo)));
  }, []);

  const perform = useCallback(
    async (task: Task) => {
      const { photo } = task;
      // A word from a worker that has been ended meanwhile is not heard any more.
      const tell = (progress: Progress) => running.current === task && setProgress(progress);
      const onStage = (stage: Stage, share: number) => void tell({ photo: photo.id, stage, share });
      if (task.kind === "look") {
        const { value, problems } = await desk.look(photo, onStage);
        const told = problems.map(problemSentence);
        const address = value ? URL.createObjectURL(value.preview) : "";
        if (value && !now.current.some(({ id }) => id === photo.id)) URL.revokeObjectURL(address);
        change(photo.id, (kept) =>
          value ? lookedAt(kept, value, address, told) : { ...kept, state: "refused", told },
        );
      } else if (task.kind === "survey") {
        const { value, problems } = await desk.survey(photo, task.reference, onStage);
        const told = problems.map(problemSentence);
        change(photo.id, (kept) => ({ ...kept, surveyed: value, surveyedBy: photo.reference, told }));
      } else {
        const { yarns } = task;
        const by = photo.surveyed!;
        let done = 0;
        const show = () =>
          tell({ photo: photo.id, stage: "measuring", share: done / yarns.length, done, of: yarns.length });
        show();
        await desk.measure(photo, by, askedOf(yarns), (told) => {
          const of = yarns.find(({ key }) => key === told.key)!.outline;
          done++;
          show();
          change(photo.id, (kept) => ({
            ...kept,
            yarns: kept.yarns.map((yarn) => (yarn.key === told.key ? { ...yarn, told: { ...told, of, by } } : yarn)),
          }));
        });
      }
    },
    [desk, change],
  );

  useEffect(() => {
    if (isStopped || running.current) return;
    const task = nextTask(photos);
    if (!task) {
      setProgress(null);
      return;
    }
    const begin = () => {
      running.current = task;
      perform(task)
        .catch((reason: unknown) => {
          if (reason instanceof Stopped) return;
          const told = [brokenSentence(reason)];
          change(task.photo.id, (photo) => ({ ...photo, state: "refused", told }));
        })
        .finally(() => {
          if (running.current === task) running.current = null;
          setRuns((count) => count + 1);
        });
    };
    const timer = setTimeout(begin, task.kind === "look" ? 0 : REST);
    return () => clearTimeout(timer);
  }, [photos, isStopped, runs, perform, change]);

  // With the page the worker goes and all that it holds open; what she has done so far waits for her.
  useEffect(
    () => () => {
      desk.stop();
      left = now.current;
    },
    [desk],
  );

  const acts = useMemo(
    () => ({
      add: (files: readonly File[]) => {
        setStopped(false);
        setPhotos((all) => [...all, ...files.map(inHand)]);
      },
      remove: (id: string) => {
        const photo = now.current.find((one) => one.id === id);
        if (photo?.preview) URL.revokeObjectURL(photo.preview);
        if (running.current?.photo.id === id) desk.stop();
        else desk.letGo(id);
        setPhotos((all) => all.filter((one) => one.id !== id));
      },
      edit: (id: string, how: (photo: PhotoInHand) => PlaceChange) => {
        setStopped(false);
        change(id, (photo) => {
          const after = { ...photo, ...how(photo) };
          return after.reference === photo.reference
            ? after
            : { ...after, yarns: withoutReference(after.yarns, after.reference) };
        });
      },
      clear: () => {
        for (const { preview } of now.current) URL.revokeObjectURL(preview);
        now.current = [];
        setPhotos([]);
      },
      stop: () => {
        running.current = null;
        setStopped(true);
        setProgress(null);
        desk.stop();
      },
      goOn: () => setStopped(false),
    }),
    [desk, change],
  );
  return { photos, progress, isStopped: isStopped && nextTask(photos) !== null, ...acts };
}

let last = 0;
function inHand(file: File): PhotoInHand {
  return {
    id: `photo ${++last}`,
    file,
    state: "waiting",
    preview: "",
    width: 0,
    height: 0,
    reference: { kind: "find" },
    surveyed: null,
    surveyedBy: null,
    told: [],
    yarns: [],
  };
}
