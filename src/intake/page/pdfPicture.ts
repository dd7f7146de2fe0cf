/** A scanned page: the picture that is the page, as it is kept in the file and not as it would be drawn. */
import { pixelsOf, type Pixels } from "../../raster/pixels.ts";
import type { PagePicture, PagePrimitives } from "../pagePrimitives.ts";

/** As pdfjs unpacks one. */
export interface PdfImage {
  readonly width: number;
  readonly height: number;
  /** 1: black and white, a bit to a pixel; 2: red, green, blue; 3: with opacity. */
  readonly kind?: number;
  readonly data?: Uint8Array | Uint8ClampedArray | null;
}

/** Upright; null where no one picture is what the page shows. */
export async function pictureOfPage(
  page: PagePrimitives,
  unpack: (id: string) => Promise<PdfImage | null>,
): Promise<Pixels | null> {
  const large = page.pictures.filter((picture) => area(picture) >= LARGE * page.width * page.height);
  const [only] = large;
  if (!only?.id || large.length > 1 || !isUpright(only)) return null;
  const image = await unpack(only.id);
  const pixels = image && pixelsOfImage(image);
  return pixels && asPlaced(pixels, only);
}

/** Null where its kind or size is none that pdfjs gives. */
export function pixelsOfImage({ width, height, kind, data }: PdfImage): Pixels | null {
  if (!data || !(width > 0 && height > 0)) return null;
  const rgba = new Uint8ClampedArray(width * height * 4).fill(255);
  if (kind === 3 && data.length >= rgba.length) rgba.set(data.subarray(0, rgba.length));
  else if (kind === 2 && data.length >= width * height * 3) {
    for (let from = 0, to = 0; to < rgba.length; from += 3, to += 4) {
      rgba[to] = data[from]!;
      rgba[to + 1] = data[from + 1]!;
      rgba[to + 2] = data[from + 2]!;
    }
  } else if (kind === 1 && data.length >= Math.ceil(width / 8) * height) {
    const bytes = Math.ceil(width / 8);
    for (let at = 0, to = 0; at < width * height; at++, to += 4) {
      const x = at % width;
      const bit = (data[((at - x) / width) * bytes + (x >> 3)]! >> (7 - (x & 7))) & 1;
      rgba.fill(bit * 255, to, to + 3);
    }
  } else return null;
  return pixelsOf(width, height, rgba);
}

/** Small pictures unpacked, and those that are equal given one identity: cells may be such, each kept in the file for itself. */
export async function withSmallPictures(
  page: PagePrimitives,
  unpack: (id: string) => Promise<PdfImage | null>,
): Promise<PagePrimitives> {
  const small = (picture: PagePicture): boolean => area(picture) < SMALL * page.width * page.height;
  const ids = [...new Set(page.pictures.filter(small).flatMap(({ id, pixels }) => (id && !pixels ? [id] : [])))];
  const known = new Map<string, Pixels>();
  for (const id of ids.slice(0, MOST_SMALL)) {
    const image = await unpack(id);
    const pixels = image && image.width * image.height <= SMALL_PIXELS ? pixelsOfImage(image) : null;
    if (pixels) known.set(id, pixels);
  }
  const pictures = page.pictures.map((picture): PagePicture => {
    const pixels = picture.pixels ?? (picture.id === undefined ? undefined : known.get(picture.id));
    return pixels ? { ...picture, pixels, id: fingerprint(pixels) } : picture;
  });
  return { ...page, pictures };
}

/** Equal for equal pictures, and by chance for one in some thousand million others. Source: the FNV-1a hash, offset and prime of 32 bits. */
function fingerprint({ width, height, rgba }: Pixels): string {
  let hash = 0x811c9dc5;
  for (const byte of rgba) hash = Math.imul(hash ^ byte, 0x01000193) >>> 0;
  return `${width}x${height}-${hash.toString(16)}`;
}

/** As it lies on the page: turned by quarters and mirrored as its corners say. */
function asPlaced(pixels: Pixels, { corners }: PagePicture): Pixels {
  const [origin, right, , down] = corners;
  const across = Math.abs(right[0] - origin[0]) > Math.abs(right[1] - origin[1]);
  const flipX = across ? right[0] < origin[0] : down[0] < origin[0];
  const flipY = across ? down[1] < origin[1] : right[1] < origin[1];
  if (across && !flipX && !flipY) return pixels;
  const [width, height] = across ? [pixels.width, pixels.height] : [pixels.height, pixels.width];
  const from = new Uint32Array(pixels.rgba.buffer, pixels.rgba.byteOffset, pixels.width * pixels.height);
  const to = new Uint32Array(width * height);
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      const [placedX, placedY] = [flipX ? width - 1 - x : x, flipY ? height - 1 - y : y];
      to[y * width + x] = across ? from[placedY * width + placedX]! : from[placedX * pixels.width + placedY]!;
    }
  return { width, height, rgba: new Uint8ClampedArray(to.buffer) };
}

function area({ corners: [origin, right, , down] }: PagePicture): number {
  const [a, b, c, d] = [right[0] - origin[0], right[1] - origin[1], down[0] - origin[0], down[1] - origin[1]];
  return Math.abs(a * d - b * c);
}

/** Whether its sides run along the page's. */
function isUpright({ corners: [origin, right, , down] }: PagePicture): boolean {
  return [right, down].every(([x, y]) => {
    const [dx, dy] = [Math.abs(x - origin[0]), Math.abs(y - origin[1])];
    return Math.min(dx, dy) <= SKEW * Math.max(dx, dy);
  });
}

/** Part of the page that a picture must cover to be what the page is about. */
const LARGE = 0.3;
/** Part of the page below which a picture may be a cell or a sign; how many pixels it then has at most, and how many are looked into. */
const SMALL = 0.01;
export const SMALL_PIXELS = 10_000;
const MOST_SMALL = 2000;
const SKEW = 0.002;
