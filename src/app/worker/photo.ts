/** Photographs off the main thread: a reference looked for, yarns outlined and measured, each as closely as is worth while. */
import type { Outcome } from "../../base/problem.ts";
import { findYarns } from "../../intake/yarnPhoto/findYarns.ts";
import { plainSwatch, type PlainSwatch, type PlainSwatchQuestion } from "../../jobs/plainSwatch.ts";
import { surveyPhoto, yarnReader, type Area, type PhotoReference, type ReferenceTold } from "../../jobs/shade.ts";
import { boxOf, isRegion } from "../../intake/yarnPhoto/area.ts";
import { clipBox, type Box, type Raster } from "../../raster/raster.ts";
import { openPicture, type OpenPicture } from "./openPicture.ts";
import type { LookedAt, OnStage, Point, Surveyed, YarnAsked, YarnTold } from "./photoApi.ts";

/** Pixels, the longer side: enough for a chart's patches and for outlines. */
const SURVEYED = 2400;
/** Pixels, the longer side, of what is shown on the page: as sharp as a large screen. Our choice. */
const PREVIEW = 1600;
/** Pixels of a yarn's box that are looked at; strands are still seen. Our choice. */
const YARN_PIXELS = 400_000;
/** Pixels, the longer side, of the small picture kept with a yarn. */
const KEPT = 144;

/** The reduced picture, what it tells by its chart if it has one, and the yarns that lie beside that. */
export async function lookAt(picture: OpenPicture, onStage: OnStage): Promise<Outcome<LookedAt>> {
  const step = surveyStep(picture);
  const preview = picture.small(whole(picture), PREVIEW).convertToBlob({ type: "image/jpeg", quality: 0.86 });
  const reduced = picture.read(whole(picture), step, (share) => onStage("opening", share));
  const { value, problems } = surveyed(reduced, step, { kind: "find" }, onStage);
  const corners = value?.told.corners?.map(timesAll(1 / step));
  onStage("outlining", 0);
  const found = findYarns(reduced, {
    avoid: corners ? [corners] : [],
    onStep: (share) => onStage("outlining", share),
  });
  const yarns = (found.value ?? []).map(({ outline, inner, confidence }) => ({
    outline: outline.map(timesAll(step)),
    inner: timesBox(inner, step),
    confidence,
  }));
  const { width, height } = picture;
  return {
    value: { width, height, preview: await preview, surveyed: value, yarns },
    problems: [...problems, ...found.problems],
  };
}

export function surveyBy(picture: OpenPicture, reference: PhotoReference, onStage: OnStage): Outcome<Surveyed> {
  const step = surveyStep(picture);
  const reduced = picture.read(whole(picture), step, (share) => onStage("opening", share));
  return surveyed(reduced, step, reference, onStage);
}

function surveyed(reduced: Raster, step: number, reference: PhotoReference, onStage: OnStage): Outcome<Surveyed> {
  onStage("reference", 0);
  const { value, problems } = surveyPhoto(reduced, reducedReference(reference, step, reduced), {
    onStep: (share) => onStage("reference", share),
  });
  if (!value) return { value: null, problems };
  const { reference: told } = yarnReader(value);
  return { value: { survey: value, step, told: enlargedTold(told, step) }, problems };
}

/** One yarn after the other, each handed over at once. */
export async function measureYarns(
  picture: OpenPicture,
  { survey, step }: Surveyed,
  yarns: readonly YarnAsked[],
  onYarn: (told: YarnTold) => void,
): Promise<void> {
  const { shadeOf } = yarnReader(survey);
  for (const { key, area, where } of yarns) {
    const box = wholeBox(boxOf(area));
    const closeness = Math.max(1, Math.ceil(Math.sqrt((box.width * box.height) / YARN_PIXELS)));
    // Some pixels more on every side, so that no rounding puts the area's edge outside what is read.
    const about = clipBox(picture, grown(box, 2 * closeness));
    const piece = picture.read(about, closeness);
    const covers = { ...about, width: piece.width * closeness, height: piece.height * closeness };
    const inside = within(area, covers, { width: survey.width * step, height: survey.height * step });
    const outcome = shadeOf({
      picture: piece,
      covers: timesBox(covers, 1 / step),
      area: timesArea(inside, 1 / step),
      where,
    });
    onYarn({ key, outcome, picture: await keptPicture(picture, box) });
  }
}

/** A small picture as text, to be kept within her file. */
async function keptPicture(picture: OpenPicture, box: Box): Promise<string> {
  const blob = await picture.small(box, KEPT).convertToBlob({ type: "image/jpeg", quality: 0.8 });
  const bytes = new Uint8Array(await blob.arrayBuffer());
  return `data:image/jpeg;base64,${btoa(Array.from(bytes, (byte) => String.fromCharCode(byte)).join(""))}`;
}

/** Only the two areas are ever copied out of the photograph, however large it is. */
export async function plainSwatchOn(
  photo: Blob,
  question: PlainSwatchQuestion & { readonly area: Box },
): Promise<Outcome<PlainSwatch>> {
  const { area, yarn } = question;
  const { value: picture, problems } = await openPicture(photo);
  if (!picture) return { value: null, problems };
  const about = clipBox(picture, yarn ? around(area, yarn) : area);
  const raster = picture.read(about, 1);
  picture.close();
  const inside = (box: Box): Box => ({ ...box, x: box.x - about.x, y: box.y - about.y });
  return plainSwatch(raster, { ...question, area: inside(area), ...(yarn ? { yarn: inside(yarn) } : {}) });
}

function around(one: Box, other: Box): Box {
  const x = Math.min(one.x, other.x);
  const y = Math.min(one.y, other.y);
  const right = Math.max(one.x + one.width, other.x + other.width);
  const bottom = Math.max(one.y + one.height, other.y + other.height);
  return { x, y, width: right - x, height: bottom - y };
}

const whole = ({ width, height }: OpenPicture): Box => ({ x: 0, y: 0, width, height });
const surveyStep = ({ width, height }: OpenPicture): number =>
  Math.max(1, Math.ceil(Math.max(width, height) / SURVEYED));

const timesAll =
  (factor: number) =>
  ([x, y]: Point): Point => [x * factor, y * factor];
const timesBox = ({ x, y, width, height }: Box, factor: number): Box => ({
  x: x * factor,
  y: y * factor,
  width: width * factor,
  height: height * factor,
});
const timesArea = (area: Area, factor: number): Area =>
  isRegion(area) ? { outline: area.outline.map(timesAll(factor)) } : timesBox(area, factor);

const wholeBox = ({ x, y, width, height }: Box): Box => {
  const [left, top] = [Math.floor(x), Math.floor(y)];
  return { x: left, y: top, width: Math.ceil(x + width) - left, height: Math.ceil(y + height) - top };
};
const grown = ({ x, y, width, height }: Box, by: number): Box => ({
  x: x - by,
  y: y - by,
  width: width + 2 * by,
  height: height + 2 * by,
});

/** Pixels by which an area is kept away from the last ones that were read, so that no rounding puts it outside. */
const EDGE = 0.01;

function within(area: Area, covers: Box, size: { readonly width: number; readonly height: number }): Area {
  const keep = (value: number, least: number, most: number): number => Math.min(most, Math.max(least, value));
  const across = (x: number): number =>
    keep(x, Math.max(0, covers.x) + EDGE, Math.min(size.width, covers.x + covers.width) - EDGE);
  const down = (y: number): number =>
    keep(y, Math.max(0, covers.y) + EDGE, Math.min(size.height, covers.y + covers.height) - EDGE);
  if (isRegion(area)) return { outline: area.outline.map(([x, y]) => [across(x), down(y)]) };
  const [x, y] = [across(area.x), down(area.y)];
  return { x, y, width: across(area.x + area.width) - x, height: down(area.y + area.height) - y };
}

function reducedReference(reference: PhotoReference, step: number, reduced: Raster): PhotoReference {
  switch (reference.kind) {
    case "find":
    case "none":
      return reference;
    case "patches":
      return { ...reference, corners: reference.corners.map(timesAll(1 / step)) };
    case "grey":
    case "white": {
      const all = { x: 0, y: 0, width: reduced.width, height: reduced.height };
      return { ...reference, area: within(timesArea(reference.area, 1 / step), all, reduced) };
    }
  }
}

const enlargedTold = (told: ReferenceTold, step: number): ReferenceTold =>
  told.corners ? { ...told, corners: told.corners.map(timesAll(step)) } : told;
