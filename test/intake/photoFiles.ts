/** The same two balls of yarn in every kind of picture file that people have, and files that are no pictures: whoever decodes reads them alike. */
import sharp from "sharp";
import { seededRandom } from "../../src/base/random.ts";

export interface PhotoFile {
  readonly name: string;
  readonly mimeType: string;
  readonly buffer: Buffer;
}

export const PHOTO_SIZE = { width: 360, height: 240 } as const;

/** Encoded sRGB bytes of the two balls' lit strands, and the boxes within them. Colours that every kind of file can hold. */
export const BALLS = [
  { bytes: [150, 92, 74], box: { x: 75, y: 85, width: 70, height: 70 } },
  { bytes: [92, 118, 140], box: { x: 215, y: 85, width: 70, height: 70 } },
] as const;

/** Two balls on pale cloth; strands every seven pixels, a little noise. */
function paintedBalls(): Buffer {
  const { width, height } = PHOTO_SIZE;
  const random = seededRandom(11);
  const pixels = Buffer.alloc(width * height * 3);
  for (let at = 0; at < width * height; at++) {
    const [x, y] = [at % width, Math.floor(at / width)];
    const ball = BALLS.find(({ box }) => Math.hypot(x - box.x - 35, y - box.y - 35) < 62);
    const strand = ball ? 0.86 + 0.14 * Math.abs(Math.sin((Math.PI * (x + y)) / 10)) : 1;
    const noise = 5 * (random() - 0.5);
    for (let channel = 0; channel < 3; channel++) {
      const base = ball ? ball.bytes[channel]! : [196, 192, 184][channel]!;
      pixels[at * 3 + channel] = Math.round(Math.min(255, Math.max(0, base * strand + noise)));
    }
  }
  return pixels;
}

/** The first is the one that the others are held against; "grey" says that only light is left in it. */
export async function photoFiles(): Promise<readonly (PhotoFile & { readonly isGrey?: true })[]> {
  const { width, height } = PHOTO_SIZE;
  const plain = () => sharp(paintedBalls(), { raw: { width, height, channels: 3 } });
  const fine = { quality: 98, chromaSubsampling: "4:4:4" } as const;
  const lying = await plain().rotate(-90).toBuffer();
  return [
    { name: "plain.png", mimeType: "image/png", buffer: await plain().png().toBuffer() },
    { name: "wide.jpg", mimeType: "image/jpeg", buffer: await plain().withIccProfile("p3").jpeg(fine).toBuffer() },
    {
      name: "turned.jpg",
      mimeType: "image/jpeg",
      // Stored lying on its side with the note that says so: orientation 6, to be turned right by a quarter.
      buffer: await sharp(lying, { raw: { width: height, height: width, channels: 3 } })
        .withMetadata({ orientation: 6 })
        .jpeg(fine)
        .toBuffer(),
    },
    {
      name: "sixteen.png",
      mimeType: "image/png",
      buffer: await plain().toColourspace("rgb16").png().toBuffer(),
    },
    { name: "web.webp", mimeType: "image/webp", buffer: await plain().webp({ quality: 98 }).toBuffer() },
    { name: "new.avif", mimeType: "image/avif", buffer: await plain().avif({ quality: 92, effort: 1 }).toBuffer() },
    { name: "grey.jpg", mimeType: "image/jpeg", buffer: await plain().greyscale().jpeg(fine).toBuffer(), isGrey: true },
  ];
}

/** Made over for print. */
export const inksFile = async (): Promise<PhotoFile> => ({
  name: "inks.jpg",
  mimeType: "image/jpeg",
  buffer: await sharp(paintedBalls(), { raw: { ...PHOTO_SIZE, channels: 3 } })
    .toColourspace("cmyk")
    .withIccProfile("cmyk")
    .jpeg()
    .toBuffer(),
});

const latin = (text: string): Buffer => Buffer.from(text, "latin1");

/** Files that are refused, with a word of the sentence that must be said of each. */
export function refusedFiles(): readonly (PhotoFile & { readonly says: string })[] {
  const png = Buffer.alloc(33);
  latin("\x89PNG\r\n\x1a\n\0\0\0\rIHDR").copy(png);
  png.writeUInt32BE(12_000, 16);
  png.writeUInt32BE(9000, 20);
  return [
    {
      name: "phone.heic",
      mimeType: "image/heic",
      buffer: latin("\0\0\0\x18ftypheic\0\0\0\0mif1heic\0\0\0\0meta"),
      says: "most compatible",
    },
    { name: "scan.tif", mimeType: "image/tiff", buffer: latin("II*\0\x08\0\0\0\0\0"), says: "export it" },
    { name: "shade-card.pdf", mimeType: "application/pdf", buffer: latin("%PDF-1.7\n"), says: "pages" },
    { name: "notes.txt", mimeType: "text/plain", buffer: latin("knit one, purl one"), says: "save it there as JPEG" },
    { name: "broken.jpg", mimeType: "image/jpeg", buffer: latin("\xff\xd8\xff\xe0\0\x10JFIF"), says: "damaged" },
    { name: "wall.png", mimeType: "image/png", buffer: png, says: "108 megapixels" },
  ];
}
