/** The jobs: data in, data out, for the worker, the commands and the library. */
export { amountsOfProject } from "./jobs/amounts.ts";
export type { AmountsOptions, ProjectAmounts } from "./jobs/amounts.ts";
export { builtChart } from "./jobs/builtChart.ts";
export type { BuiltAlignment, BuiltBand, BuiltChart, BuiltChartQuestion, BuiltRow } from "./jobs/builtChart.ts";
export { changedStitch } from "./jobs/changedStitch.ts";
export type { ChangedStitch, ChangedStitchQuestion } from "./jobs/changedStitch.ts";
export { chartStructure } from "./jobs/chartStructure.ts";
export type { ChartStructure } from "./jobs/chartStructure.ts";
export { checkProject } from "./jobs/check.ts";
export type { BandLine, CheckOptions, CheckResult, LadderRung, RowLine, WeightLine } from "./jobs/check.ts";
export { compareProject } from "./jobs/compare.ts";
export type { ComparedColourway } from "./jobs/compare.ts";
export { measureNext } from "./jobs/measure.ts";
export type { MeasureOptions } from "./jobs/measure.ts";
export { fabricOfProject } from "./jobs/picture.ts";
export type { ClothPicture, PictureOptions } from "./jobs/picture.ts";
export { plainSwatch } from "./jobs/plainSwatch.ts";
export type { PlainSwatch, PlainSwatchQuestion } from "./jobs/plainSwatch.ts";
export { readsInLights } from "./jobs/reads.ts";
export type { ReadsInLight } from "./jobs/reads.ts";
export { applyWay, decideNext, decidingOrder, recolourProject } from "./jobs/recolour.ts";
export type { DecideOptions, RecolourOptions, RecolourResult } from "./jobs/recolour.ts";
export { PAPER_TINTS, shadesFromPhoto, surveyPhoto, yarnReader } from "./jobs/shade.ts";
export type {
  Area,
  PaperTint,
  PhotographedYarn,
  PhotoReference,
  PhotoSurvey,
  ReferenceTold,
  Region,
  UntoldYarn,
  Watch,
  YarnPhoto,
  YarnPhotoQuestion,
  YarnPiece,
  YarnReader,
} from "./jobs/shade.ts";
export { shapeProject } from "./jobs/shape.ts";
export type { ShapeAnswer, ShapedSize, ShapeQuestion } from "./jobs/shape.ts";
export { sheetOfProject, sheetPages } from "./jobs/sheet.ts";
export type { SheetOptions } from "./jobs/sheet.ts";
export { newProject } from "./jobs/start.ts";
export { stashOfTable, stashTableText } from "./jobs/stash.ts";
export type { ColumnPreview, StashAnswer, StashChange, StashMerge, StashQuestion, StashTable } from "./jobs/stash.ts";
export type { NewProject } from "./jobs/start.ts";
export { swatchOfProject } from "./jobs/swatch.ts";
export type { Swatch, SwatchOptions } from "./jobs/swatch.ts";
export { tryTogether } from "./jobs/together.ts";
export type { TogetherReading, TogetherResult, YarnSet } from "./jobs/together.ts";
export { tryPlaces, tryYarns } from "./jobs/trial.ts";
export type { PlaceTrial, TrialLine, TrialOptions, TrialReading, TrialResult } from "./jobs/trial.ts";
