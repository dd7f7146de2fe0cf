/** Photographs have a worker of their own: opening a large one takes seconds, and the bench must not wait for it. */
import { expose } from "comlink";
import { openPicture, type OpenPicture } from "./openPicture.ts";
import { lookAt, measureYarns, surveyBy } from "./photo.ts";
import type { PhotoApi, PhotoFile } from "./photoApi.ts";
import type { Outcome } from "../../base/problem.ts";

/** Pixels kept open at once, four bytes each: one large photograph or several of a phone's. Our choice. */
const MOST_OPEN = 50_000_000;

/** By photograph, the one asked for last at the end. */
const open = new Map<string, OpenPicture>();

async function withPicture<T>(
  { id, file }: PhotoFile,
  job: (picture: OpenPicture) => T | Promise<T>,
): Promise<Outcome<T>> {
  const kept = open.get(id);
  const { value: picture, problems } = kept ? { value: kept, problems: [] } : await openPicture(file);
  if (!picture) return { value: null, problems };
  open.delete(id);
  open.set(id, picture);
  try {
    return { value: await job(picture), problems: [] };
  } finally {
    letGoOfOldest();
  }
}

function letGoOfOldest(): void {
  let pixels = [...open.values()].reduce((sum, { width, height }) => sum + width * height, 0);
  for (const [id, picture] of open) {
    if (pixels <= MOST_OPEN) return;
    pixels -= picture.width * picture.height;
    close(id);
  }
}

function close(id: string): void {
  open.get(id)?.close();
  open.delete(id);
}

const api: PhotoApi = {
  look: async (photo, onStage) => {
    onStage("opening", 0);
    const { value, problems } = await withPicture(photo, (picture) => lookAt(picture, onStage));
    return value ?? { value: null, problems };
  },
  survey: async (photo, reference, onStage) => {
    const { value, problems } = await withPicture(photo, (picture) => surveyBy(picture, reference, onStage));
    return value ?? { value: null, problems };
  },
  measure: async (photo, surveyed, yarns, onYarn) => {
    const { value, problems } = await withPicture(photo, (picture) =>
      measureYarns(picture, surveyed, yarns, onYarn).then(() => true),
    );
    if (!value) for (const { key } of yarns) onYarn({ key, outcome: { value: null, problems }, picture: "" });
  },
  letGo: close,
};

expose(api);
