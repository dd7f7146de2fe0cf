/** The jobs: data in, data out, for the worker, the commands and the library. */
export { amountsOfProject } from "./jobs/amounts.ts";
export { checkProject } from "./jobs/check.ts";
export type { BandLine, CheckOptions, CheckResult, LadderRung, RowLine, WeightLine } from "./jobs/check.ts";
export { compareProject } from "./jobs/compare.ts";
export type { ComparedColourway } from "./jobs/compare.ts";
export { fabricOfProject } from "./jobs/picture.ts";
export type { ClothPicture, PictureOptions } from "./jobs/picture.ts";
export { readsInLights } from "./jobs/reads.ts";
export type { ReadsInLight } from "./jobs/reads.ts";
export { applyWay, recolourProject } from "./jobs/recolour.ts";
export type { RecolourOptions, RecolourResult } from "./jobs/recolour.ts";
export { sheetOfProject, sheetPages } from "./jobs/sheet.ts";
export type { SheetOptions } from "./jobs/sheet.ts";
export { newProject } from "./jobs/start.ts";
export type { NewProject } from "./jobs/start.ts";
export { tryYarns } from "./jobs/trial.ts";
export type { TrialLine, TrialOptions, TrialReading, TrialResult } from "./jobs/trial.ts";
