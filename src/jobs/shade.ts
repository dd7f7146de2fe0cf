/** Shades of yarns from a photograph. */
export { readYarnPhoto as shadesFromPhoto } from "../intake/yarnPhoto.ts";
export type {
  PhotographedYarn,
  PhotoReference,
  ReferenceTold,
  YarnPhoto,
  YarnPhotoQuestion,
} from "../intake/yarnPhoto.ts";
