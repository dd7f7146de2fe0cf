/** What the page may ask about photographs. All places are in pixels of the photograph, upright; answers are plain data. */
import type { Outcome } from "../../base/problem.ts";
import type { Area, PhotographedYarn, PhotoReference, PhotoSurvey, ReferenceTold } from "../../jobs/shade.ts";
import type { Box } from "../../raster/raster.ts";

export type Point = readonly [number, number];

/** A file and what it is called among the photographs, so that it need not be opened for every question. */
export interface PhotoFile {
  readonly id: string;
  readonly file: Blob;
}

export type Stage = "opening" | "reference" | "outlining";

/** Hears what is being done and how much of it, 0 to 1. */
export type OnStage = (stage: Stage, share: number) => void;

export interface LookedAt {
  readonly width: number;
  readonly height: number;
  /** For the eye: a JPEG of moderate size, in the photograph's own colours. */
  readonly preview: Blob;
  readonly surveyed: Surveyed | null;
  /** Why there is no survey, or what is doubtful of it. */
  readonly yarns: readonly FoundOutline[];
}

export interface FoundOutline {
  readonly outline: readonly Point[];
  readonly inner: Box;
  /** 0 to 1: how surely it is one yarn. */
  readonly confidence: number;
}

/** What a reference tells of the whole photograph; kept by the page and handed back with every yarn. */
export interface Surveyed {
  readonly survey: PhotoSurvey;
  /** Pixels of the photograph to one of the survey. */
  readonly step: number;
  readonly told: ReferenceTold;
}

export interface YarnAsked {
  readonly key: string;
  readonly area: Area;
  /** What problems call it: "yarn 3". */
  readonly where: string;
}

export interface YarnTold {
  readonly key: string;
  readonly outcome: Outcome<PhotographedYarn>;
  /** A small picture of it as a data address, to keep with the yarn. */
  readonly picture: string;
}

export interface PhotoApi {
  /** Opens, looks for a reference, outlines the yarns. No value where the file cannot be opened. */
  look(photo: PhotoFile, onStage: OnStage): Promise<Outcome<LookedAt>>;
  /** The photograph by another reference. */
  survey(photo: PhotoFile, reference: PhotoReference, onStage: OnStage): Promise<Outcome<Surveyed>>;
  /** Each yarn is handed over as soon as it is measured. */
  measure(
    photo: PhotoFile,
    surveyed: Surveyed,
    yarns: readonly YarnAsked[],
    onYarn: (told: YarnTold) => void,
  ): Promise<void>;
  /** The photograph is not needed any more. */
  letGo(id: string): void;
}
