/** What the page may ask of the worker. Arguments and answers are plain data that survive a structured clone. */
import type { Finding } from "../../audit/finding.ts";
import type { Outcome } from "../../base/problem.ts";
import type { ValueClass } from "../../colour/value.ts";
import type { Want } from "../../chart/chart.ts";
import type { Project } from "../../document/project.ts";
import type { Amounts } from "../../plan/amounts.ts";
import type { Change, OverStitch } from "../../fabric/colourway.ts";

export type Word = "lost" | "faint" | "clear" | "strong";

export interface ReadsTo {
  metres: number;
  low: number;
  high: number;
  beyond: boolean;
}
export interface Rung {
  L: number;
  class: ValueClass;
  rank: number;
  hex: string;
}
export interface LadderLine extends Rung {
  colour: string;
  name: string;
  yarn: string | null;
  yarnName: string | null;
  main: boolean;
  was: Rung;
  crosses: string[];
}
export interface RowLine {
  chart: string;
  row: number;
  band: string | null;
  colours: string[];
  yarns: (string | null)[];
  deltaL: number | null;
  deltaE00: number | null;
  V: number | null;
  lightDark: number | null;
  readsTo: ReadsTo | null;
  shows: Word | null;
  was: { V: number | null; shows: Word | null };
}
export interface BandLine {
  id: string;
  chart: string;
  name: string | null;
  rows: [number, number];
  want: Want | null;
  cast: { hex: string; name: string };
  echoOf: string | null;
  V: number | null;
  readsTo: ReadsTo | null;
  shows: Word | null;
}
export interface CheckResult {
  colourway: string;
  distance: number;
  light: number;
  ladder: LadderLine[];
  bands: BandLine[];
  rows: RowLine[];
  findings: Finding[];
}
export interface FabricPicture {
  width: number;
  height: number;
  millimetresPerPixel: number;
  rgba: Uint8ClampedArray;
}
export interface FabricOptions {
  colourway?: string;
  chart?: string;
  distance?: number;
  light?: number;
  grey?: boolean;
  pixelsPerStitch?: number;
  rows?: [number, number];
  repeats?: number;
}
export interface Way {
  name: string;
  yarns: Record<string, string>;
  changes: Change[];
  overStitched: OverStitch[];
  score: number;
  bound: number;
  gap: number;
  proven: boolean;
  because: string[];
  differs: number;
}
export interface Clash {
  sentence: string;
  parts: { kind: string; colour?: string; with?: string; sentence: string }[];
}
export interface RecolourOptions {
  colourway?: string;
  wish?: object;
  ways?: number;
}
export type RecolourProgress = { done: number; sentence: string };
export interface RecolourResult {
  ways: Way[];
  clash: Clash | null;
}
export interface JobsApi {
  check(project: Project, options: { colourway?: string; distance?: number; light?: number }): CheckResult;
  fabric(project: Project, options: FabricOptions): FabricPicture;
  recolour(project: Project, options: RecolourOptions, onProgress: (p: RecolourProgress) => void): RecolourResult;
  applyWay(project: Project, way: Way, options: { name?: string }): { project: Project; colourway: string };
  amounts(project: Project, options: { colourway?: string; size?: string }): Amounts;
  sheet(
    project: Project,
    options: { colourway?: string; paper?: "A4" | "Letter"; mono?: boolean },
  ): Promise<{ bytes: Uint8Array; pages: number }>;
  read(text: string): Outcome<Project>;
  write(project: Project): string;
}
