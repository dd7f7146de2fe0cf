/** What the page may ask of the worker. Arguments and answers are plain data that survive a structured clone. */
import type { WorthMeasuring } from "../../audit/worthMeasuring.ts";
import type { Outcome } from "../../base/problem.ts";
import type { Project } from "../../document/project.ts";
import type {
  BuiltChart,
  BuiltChartQuestion,
  ChangedStitch,
  ChangedStitchQuestion,
  CheckResult,
  ClothPicture,
  decideNext,
  decidingOrder,
  PictureOptions,
  PlaceTrial,
  PlainSwatch,
  PlainSwatchQuestion,
  ReadsInLight,
  RecolourResult,
  StashAnswer,
  StashQuestion,
  TogetherResult,
  TrialResult,
  YarnSet,
} from "../../jobs.ts";
import type { TableWriting } from "../../intake/stashTableText.ts";
import type { Amounts } from "../../plan/amounts.ts";
import type { Box } from "../../raster/raster.ts";
import type { Deficiency } from "../../vision/deficiency.ts";
import type { Yarn } from "../../yarn/yarn.ts";

export type { BandLine, CheckResult, LadderRung, RowLine, WeightLine } from "../../jobs.ts";
export type {
  PlaceTrial,
  PlainSwatch,
  ReadsInLight,
  RecolourResult,
  TogetherReading,
  TogetherResult,
} from "../../jobs.ts";
export type { BuiltAlignment, BuiltBand, BuiltChart, BuiltRow, ChangedStitch } from "../../jobs.ts";
export type { TrialLine, TrialReading, TrialResult, YarnSet } from "../../jobs.ts";
export type { ColumnPreview, StashAnswer, StashChange, StashQuestion } from "../../jobs.ts";
export type { TableWriting } from "../../intake/stashTableText.ts";
export type { Word } from "../../fabric/visibility.ts";

export type Way = RecolourResult["ways"][number];
/** What of a way becomes a colourway. */
export type TriedWay = Pick<Way, "name" | "yarns" | "changes" | "overStitched" | "because"> &
  Partial<Pick<Way, "toFind" | "wish">>;

/** How a colourway is looked at. */
export interface LookQuestion {
  readonly colourway: string;
  /** Metres. */
  readonly distance: number;
  /** Lux. */
  readonly light: number;
  /** An ordinary eye where missing. */
  readonly deficiency?: Deficiency;
  /** 0 to 1. */
  readonly severity?: number;
}

export interface CheckQuestion extends LookQuestion {
  /** "without": the findings at once, without the changes that would mend them. */
  readonly mends: "with" | "without";
}

export interface TrialQuestion extends LookQuestion {
  /** The chart colour in whose place every yarn is tried. */
  readonly colour: string;
}

export interface PlacesQuestion extends LookQuestion {
  /** The yarn that is tried in every place. */
  readonly yarn: string;
}

export interface TogetherQuestion extends LookQuestion {
  readonly sets: readonly YarnSet[];
}

/** How far some rows of a chart read in the lights of a day. */
export interface ReadsQuestion extends Pick<LookQuestion, "colourway" | "deficiency" | "severity"> {
  readonly chart: string;
  readonly rows: readonly [number, number];
}

export interface RecolourQuestion {
  readonly colourway: string;
  readonly wish: object;
  readonly ways: number;
  /** Metres. */
  readonly distance: number;
  /** Lux. */
  readonly light: number;
  /** After these the search stops with what it has. */
  readonly seconds: number;
}

export interface DecideQuestion {
  readonly colourway: string;
  readonly wish: object;
  /** Chart colours of the step. */
  readonly colours: readonly string[];
  readonly decided: Readonly<Record<string, string>>;
  /** Metres. */
  readonly distance: number;
  /** Lux. */
  readonly light: number;
  /** After these the search stops with what it has. */
  readonly seconds: number;
}

export type DecidingStep = ReturnType<typeof decidingOrder>[number];
export type StepOption = ReturnType<typeof decideNext>["options"][number];

export interface SheetQuestion {
  readonly colourway: string;
  readonly paper: "A4" | "Letter";
  readonly mono: boolean;
}

export interface JobsApi {
  check(project: Project, question: CheckQuestion): Promise<CheckResult>;
  tryYarns(project: Project, question: TrialQuestion): Promise<TrialResult>;
  tryPlaces(project: Project, question: PlacesQuestion): Promise<PlaceTrial[]>;
  tryTogether(project: Project, question: TogetherQuestion): Promise<TogetherResult>;
  readsInLights(project: Project, question: ReadsQuestion): Promise<ReadsInLight[]>;
  /** The yarns worth measuring better, first the one that settles most. */
  measureNext(project: Project, question: LookQuestion): Promise<WorthMeasuring[]>;
  /** How a chart is built; null where there is no such chart. */
  builtChart(project: Project, question: BuiltChartQuestion): Promise<BuiltChart | null>;
  /** What a stitch in another colour would do to the strands behind its row; null where there is no such stitch. */
  changedStitch(project: Project, question: ChangedStitchQuestion): Promise<ChangedStitch | null>;
  fabric(project: Project, options: Omit<PictureOptions, "memory">): ClothPicture;
  /** `onWay` is handed each way as soon as it is found. Gives what was found when the time is up. */
  recolour(project: Project, question: RecolourQuestion, onWay: (way: Way) => void): Promise<RecolourResult>;
  decidingOrder(project: Project, colourway: string): Promise<readonly DecidingStep[]>;
  /** The best yarns for one step around what is decided; gives what was found when the time is up. */
  decideNext(project: Project, question: DecideQuestion): Promise<ReturnType<typeof decideNext>>;
  applyWay(
    project: Project,
    way: TriedWay,
    options: { readonly name: string; readonly from: string },
  ): Promise<{ project: Project; colourway: string }>;
  /** Measures plain cloth in a photograph; a file that the browser cannot open is a problem with a sentence. */
  plainSwatch(photo: Blob, question: PlainSwatchQuestion & { readonly area: Box }): Promise<Outcome<PlainSwatch>>;
  amounts(project: Project, options: { readonly colourway: string; readonly size?: string }): Amounts;
  sheet(project: Project, question: SheetQuestion): Promise<{ bytes: Uint8Array; pages: number }>;
  /** A file's bytes or pasted text, read as a table of yarns and held against the shelf. */
  readTable(source: Uint8Array | string, question: StashQuestion): Promise<Outcome<StashAnswer>>;
  /** The yarns as a table for any spreadsheet. */
  writeTable(yarns: readonly Yarn[], writing: TableWriting): Promise<string>;
  read(text: string): Promise<Outcome<Project>>;
  write(project: Project): Promise<string>;
}
