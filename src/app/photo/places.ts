/** Everything on a photograph that can be taken hold of: the reference, by its frame or its corners, and each yarn. */
import type { Box } from "../../raster/raster.ts";
import type { Point } from "../worker/photoApi.ts";
import { boxBetween } from "../ui/FramedPicture.tsx";
import { fitted, moved, pulled, resized, type Grip } from "./outline.ts";
import type { PhotoInHand, PhotoYarn, ReferenceChoice } from "./photos.ts";

/** The key of a yarn, "reference", or "corner 0" to "corner 3". */
export type PlaceKey = string;

export const REFERENCE: PlaceKey = "reference";
export const cornerKey = (at: number): PlaceKey => `corner ${at}`;

/** A change to a photograph made by hand: of its reference or of its yarns. */
export interface PlaceChange {
  readonly reference?: ReferenceChoice;
  readonly yarns?: readonly PhotoYarn[];
}

/** The corners of the chart as they are shown: hers, or those that were found. */
export function shownCorners({ reference, surveyed }: PhotoInHand): readonly Point[] | null {
  if (reference.kind === "patches") return reference.corners;
  return reference.kind === "find" ? (surveyed?.told.corners ?? null) : null;
}

export function referenceArea({ reference }: PhotoInHand): Box | null {
  return reference.kind === "grey" || reference.kind === "white" ? reference.area : null;
}

/** In the order in which keys go through them. */
export function placesOn(photo: PhotoInHand): PlaceKey[] {
  return [
    ...(shownCorners(photo) ?? []).map((_, at) => cornerKey(at)),
    ...(referenceArea(photo) ? [REFERENCE] : []),
    ...photo.yarns.map(({ key }) => key),
  ];
}

/** The box of a place; a corner has none. */
export function boxOfPlace(photo: PhotoInHand, key: PlaceKey): Box | null {
  if (key === REFERENCE) return referenceArea(photo);
  return photo.yarns.find((yarn) => yarn.key === key)?.outline.box ?? null;
}

export function movedBy(photo: PhotoInHand, key: PlaceKey, across: number, down: number): PlaceChange {
  const corners = shownCorners(photo);
  const at = cornerOf(key);
  if (at !== null) {
    const corner = corners?.[at];
    return corner ? cornerPut(photo, at, [corner[0] + across, corner[1] + down]) : {};
  }
  if (key !== REFERENCE)
    return {
      yarns: photo.yarns.map((yarn) =>
        yarn.key === key ? { ...yarn, outline: moved(yarn.outline, across, down, photo) } : yarn,
      ),
    };
  const box = referenceArea(photo);
  return box ? boxPut(photo, key, { ...box, x: box.x + across, y: box.y + down }) : {};
}

export function boxPut(photo: PhotoInHand, key: PlaceKey, box: Box): PlaceChange {
  const { reference } = photo;
  if (key !== REFERENCE)
    return {
      yarns: photo.yarns.map((yarn) =>
        yarn.key === key ? { ...yarn, outline: resized(yarn.outline, box, photo) } : yarn,
      ),
    };
  return reference.kind === "grey" || reference.kind === "white"
    ? { reference: { ...reference, area: fitted(box, photo) } }
    : {};
}

export function pulledTo(photo: PhotoInHand, key: PlaceKey, from: Box, grip: Grip, at: Point): PlaceChange {
  return boxPut(photo, key, pulled(from, grip, at));
}

export function cornerPut(photo: PhotoInHand, at: number, to: Point): PlaceChange {
  const corners = shownCorners(photo);
  if (!corners) return {};
  const within = (value: number, most: number) => Math.min(most, Math.max(0, Math.round(value)));
  const put: Point = [within(to[0], photo.width), within(to[1], photo.height)];
  return { reference: { kind: "patches", corners: corners.map((corner, index) => (index === at ? put : corner)) } };
}

export const cornerOf = (key: PlaceKey): number | null => (key.startsWith("corner ") ? Number(key.slice(7)) : null);

/** The middle third of the photograph, where a frame stands that nobody has drawn yet. */
export const middleOf = ({ width, height }: PhotoInHand): Box =>
  fitted(boxBetween([width / 3, height / 3], [(2 * width) / 3, (2 * height) / 3]), { width, height });

/** Clockwise from the top left. */
export const boxCorners = ({ x, y, width, height }: Box): Point[] => [
  [x, y],
  [x + width, y],
  [x + width, y + height],
  [x, y + height],
];
