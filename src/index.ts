/** The public list: what other programs may use, and nothing else. A name here is for ever; `test/api.test.ts` holds the list. */
export { judgeMemory } from "./audit/judge.ts";
export { problemSentence } from "./base/problem.ts";
export { deltaE2000, deltaE2000Batch } from "./colour/difference.ts";
export { hexFromLab, labFromHex } from "./colour/lab.ts";
export { plainName } from "./colour/names.ts";
export { perceivedLightness, valueClass } from "./colour/value.ts";
export { applyEdit, tryEdit } from "./document/edit.ts";
export { readProject } from "./document/read.ts";
export { projectSchema } from "./document/schema.ts";
export { writeProject } from "./document/write.ts";
export { readsTo, visibility } from "./fabric/visibility.ts";
export { visualWeight } from "./fabric/weight.ts";
export { readChartPicture } from "./intake/chartPicture.ts";
export { readChartText } from "./intake/chartText.ts";
export { readStashTable } from "./intake/stashTable.ts";
export {
  amountsOfProject,
  applyWay,
  checkProject,
  compareProject,
  fabricOfProject,
  newProject,
  recolourProject,
  sheetOfProject,
} from "./jobs.ts";
export { rasterFromBytes } from "./raster/raster.ts";
export { assignYarns } from "./recolour/assign.ts";

export type { Finding, FindingPlace, Mend } from "./audit/finding.ts";
export type { JudgeMemory } from "./audit/judge.ts";
export type { Outcome, Problem, Severity } from "./base/problem.ts";
export type { Chart, ChartBand, Want } from "./chart/chart.ts";
export type { Lab } from "./colour/lab.ts";
export type { Shade } from "./colour/shade.ts";
export type { ValueClass } from "./colour/value.ts";
export type { Edit } from "./document/edit.ts";
export type { Project } from "./document/project.ts";
export type { Change, Colourway, OverStitch } from "./fabric/colourway.ts";
export type { Pattern, PatternColour } from "./fabric/pattern.ts";
export type { Motif, ReadsTo, Word } from "./fabric/visibility.ts";
export type { WeighedColour, Weight } from "./fabric/weight.ts";
export type { Gauge } from "./garment/gauge.ts";
export type { Place } from "./garment/place.ts";
export type { Section, Size } from "./garment/sections.ts";
export type { ReadChart, ReadCharts, ReadColour } from "./intake/readChart.ts";
export type { StashTable } from "./intake/stashTable.ts";
export type {
  BandLine,
  CheckOptions,
  CheckResult,
  ClothPicture,
  ComparedColourway,
  LadderRung,
  NewProject,
  PictureOptions,
  RecolourOptions,
  RecolourResult,
  RowLine,
  SheetOptions,
  WeightLine,
} from "./jobs.ts";
export type { Amounts } from "./plan/amounts.ts";
export type { SheetFonts } from "./print/pdf.ts";
export type { Pixels } from "./raster/pixels.ts";
export type { Raster } from "./raster/raster.ts";
export type { AssignmentProblem, AssignmentResult, ClashPart } from "./recolour/assign.ts";
export type { Way } from "./recolour/ways.ts";
export type { Wish } from "./recolour/wish.ts";
export type { Fleck, Lot, Yarn } from "./yarn/yarn.ts";
