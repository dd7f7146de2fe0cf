/** What the page may ask of the worker. Arguments and answers are plain data that survive a structured clone. */
import type { Outcome } from "../../base/problem.ts";
import type { Project } from "../../document/project.ts";
import type { CheckResult, ClothPicture, PictureOptions, RecolourResult } from "../../jobs.ts";
import type { Amounts } from "../../plan/amounts.ts";

export type { BandLine, CheckResult, LadderRung, RowLine } from "../../jobs.ts";
export type { RecolourResult } from "../../jobs.ts";
export type { Word } from "../../fabric/visibility.ts";

export type Way = RecolourResult["ways"][number];

export interface CheckQuestion {
  readonly colourway: string;
  /** Metres. */
  readonly distance: number;
  /** Lux. */
  readonly light: number;
  /** "without": the findings at once, without the changes that would mend them. */
  readonly mends: "with" | "without";
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

export interface SheetQuestion {
  readonly colourway: string;
  readonly paper: "A4" | "Letter";
  readonly mono: boolean;
}

export interface JobsApi {
  check(project: Project, question: CheckQuestion): CheckResult;
  fabric(project: Project, options: PictureOptions): ClothPicture;
  /** `onWay` is handed each way as soon as it is found. Gives what was found when the time is up. */
  recolour(project: Project, question: RecolourQuestion, onWay: (way: Way) => void): Promise<RecolourResult>;
  applyWay(
    project: Project,
    way: Way,
    options: { readonly name: string; readonly from: string },
  ): Promise<{ project: Project; colourway: string }>;
  amounts(project: Project, options: { readonly colourway: string; readonly size?: string }): Amounts;
  sheet(project: Project, question: SheetQuestion): Promise<{ bytes: Uint8Array; pages: number }>;
  read(text: string): Outcome<Project>;
  write(project: Project): string;
}
