/** The photographs in hand: what she says of each, what was found on it, and what is still to be done. */
import type { PaperTint, PhotoReference } from "../../jobs/shade.ts";
import type { Box } from "../../raster/raster.ts";
import type { LookedAt, Point, Surveyed, YarnAsked, YarnTold } from "../worker/photoApi.ts";
import { foundOutline, liesIn, measuredArea, type YarnOutline } from "./outline.ts";
import type { YarnDetails } from "./shelving.ts";

/** What she says is neutral in the photograph; null where it has still to be framed. */
export type ReferenceChoice =
  | { readonly kind: "find" }
  | { readonly kind: "none" }
  | { readonly kind: "patches"; readonly corners: readonly Point[] | null }
  /** `percent`: how much light the card reflects. */
  | { readonly kind: "grey"; readonly area: Box | null; readonly percent: number }
  | { readonly kind: "white"; readonly area: Box | null; readonly tint: PaperTint };

export interface PhotoYarn {
  readonly key: string;
  readonly outline: YarnOutline;
  /** Proposed, and not surely one yarn. */
  readonly isDoubtful: boolean;
  readonly told: ToldYarn | null;
  /** As typed; a suggested name stands in for none. */
  readonly name: string;
  /** What is otherwise than for all. */
  readonly own: Partial<YarnDetails>;
  /** The yarn on the shelf that is measured anew. */
  readonly anew: string | null;
}

/** A reading, and of what: another outline or another reference makes it old. */
export interface ToldYarn extends YarnTold {
  readonly of: YarnOutline;
  readonly by: Surveyed;
}

export interface PhotoInHand {
  readonly id: string;
  readonly file: File;
  readonly state: "waiting" | "ready" | "refused";
  /** An address of the picture that is shown. */
  readonly preview: string;
  /** Pixels; 0 until it was opened. */
  readonly width: number;
  readonly height: number;
  readonly reference: ReferenceChoice;
  /** What the reference told, and which one that was. */
  readonly surveyed: Surveyed | null;
  readonly surveyedBy: ReferenceChoice | null;
  /** Sentences about the photograph and its reference. */
  readonly told: readonly string[];
  readonly yarns: readonly PhotoYarn[];
}

export type Task =
  | { readonly kind: "look"; readonly photo: PhotoInHand }
  | { readonly kind: "survey"; readonly photo: PhotoInHand; readonly reference: PhotoReference }
  | { readonly kind: "measure"; readonly photo: PhotoInHand; readonly yarns: readonly PhotoYarn[] };

/** What is to be done next: what she corrected before what waits. Null where all is done. */
export function nextTask(photos: readonly PhotoInHand[]): Task | null {
  for (const photo of photos) {
    if (photo.state !== "ready") continue;
    const reference = photo.reference === photo.surveyedBy ? null : completed(photo.reference);
    if (reference) return { kind: "survey", photo, reference };
    const yarns = photo.surveyed ? photo.yarns.filter((yarn) => isOld(yarn, photo)) : [];
    if (yarns.length > 0) return { kind: "measure", photo, yarns };
  }
  const photo = photos.find(({ state }) => state === "waiting");
  return photo ? { kind: "look", photo } : null;
}

/** Whether a yarn's reading is of another outline or by another reference, or missing. */
export const isOld = ({ told, outline }: PhotoYarn, { surveyed }: PhotoInHand): boolean =>
  told === null || told.of !== outline || told.by !== surveyed;

function completed(choice: ReferenceChoice): PhotoReference | null {
  switch (choice.kind) {
    case "find":
    case "none":
      return choice;
    case "patches":
      return choice.corners && { kind: "patches", corners: choice.corners };
    case "grey":
      return choice.area && { kind: "grey", area: choice.area, reflectance: choice.percent / 100 };
    case "white":
      return choice.area && { kind: "white", area: choice.area, tint: choice.tint };
  }
}

/** Below this a proposal is drawn as a doubtful one; our choice. */
const DOUBTFUL = 0.5;

export function lookedAt(photo: PhotoInHand, looked: LookedAt, preview: string, told: readonly string[]): PhotoInHand {
  const { width, height, surveyed } = looked;
  return {
    ...photo,
    state: "ready",
    preview,
    width,
    height,
    surveyed,
    surveyedBy: photo.reference,
    told,
    yarns: looked.yarns.map((found, at) =>
      freshYarn(`${photo.id}.${at + 1}`, foundOutline(found, { width, height }), found.confidence < DOUBTFUL),
    ),
  };
}

export const freshYarn = (key: string, outline: YarnOutline, isDoubtful = false): PhotoYarn => ({
  key,
  outline,
  isDoubtful,
  told: null,
  name: "",
  own: {},
  anew: null,
});

/** What lies on a reference was proposed as a yarn by mistake; what she drew there herself stays. */
export function withoutReference(yarns: readonly PhotoYarn[], choice: ReferenceChoice): readonly PhotoYarn[] {
  const area = choice.kind === "grey" || choice.kind === "white" ? choice.area : null;
  if (!area) return yarns;
  return yarns.filter(({ outline }) => outline.form !== "found" || !liesIn(outline.box, area));
}

export const askedOf = (yarns: readonly PhotoYarn[]): YarnAsked[] =>
  yarns.map(({ key, outline }) => ({ key, area: measuredArea(outline), where: "the yarn" }));
