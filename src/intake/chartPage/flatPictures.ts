/** Small pictures of one colour all over are areas of that colour: some programs draw the cells of charts so. */
import type { Pixels } from "../../raster/pixels.ts";
import type { PagePicture, PagePrimitives, PageShape } from "../pagePrimitives.ts";

export function withFlatPictures(page: PagePrimitives): PagePrimitives {
  const areas: PageShape[] = [];
  const pictures: PagePicture[] = [];
  for (const picture of page.pictures) {
    const fill = picture.pixels && flatColour(picture.pixels);
    if (fill === null) pictures.push(picture);
    else areas.push({ outline: [[...picture.corners, picture.corners[0]]], fill, stroke: null, lineWidth: 0 });
  }
  return areas.length === 0 ? page : { ...page, shapes: [...page.shapes, ...areas], pictures };
}

/** "#rrggbb"; null where it is not of one colour. */
function flatColour({ width, height, rgba }: Pixels): string | null {
  const [low, high, sum] = [
    [255, 255, 255],
    [0, 0, 0],
    [0, 0, 0],
  ];
  for (let at = 0; at < width * height * 4; at += 4)
    for (let channel = 0; channel < 3; channel++) {
      const value = rgba[at + channel]!;
      low[channel] = Math.min(low[channel]!, value);
      high[channel] = Math.max(high[channel]!, value);
      sum[channel] = sum[channel]! + value;
    }
  if (low.some((value, channel) => high[channel]! - value > UNEVEN)) return null;
  const mean = sum.map((value) => Math.round(value / (width * height)));
  return `#${mean.map((value) => value.toString(16).padStart(2, "0")).join("")}`;
}

/** Of 255: what packing as JPEG does to a plain square. Our choice. */
const UNEVEN = 6;
