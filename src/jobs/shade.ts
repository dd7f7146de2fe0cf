/** Shades of yarns from a photograph: at once by boxes, or a survey first and then yarn by yarn. */
export { PAPER_TINTS, readYarnPhoto as shadesFromPhoto, surveyPhoto, yarnReader } from "../intake/yarnPhoto.ts";
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
} from "../intake/yarnPhoto.ts";
