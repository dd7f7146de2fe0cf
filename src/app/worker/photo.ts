/** Photographs off the main thread: opened by the browser, cut to what is asked about, and measured. */
import type { Outcome } from "../../base/problem.ts";
import { plainSwatch, type PlainSwatch, type PlainSwatchQuestion } from "../../jobs/plainSwatch.ts";
import { rasterFromBytes, type Box } from "../../raster/raster.ts";

/** Only the two areas are ever copied out of the photograph, however large it is. */
export async function plainSwatchOn(
  photo: Blob,
  question: PlainSwatchQuestion & { readonly area: Box },
): Promise<Outcome<PlainSwatch>> {
  const { area, yarn } = question;
  const whole = yarn ? around(area, yarn) : area;
  const bitmap = await createImageBitmap(photo).catch(() => null);
  if (!bitmap) {
    const problem = {
      where: "the photograph",
      expected: "a picture that this browser can open, such as PNG, JPEG or WebP",
      got: photo.type || "a file of another kind",
      severity: "fault" as const,
    };
    return { value: null, problems: [problem] };
  }
  const canvas = new OffscreenCanvas(Math.max(1, whole.width), Math.max(1, whole.height));
  const context = canvas.getContext("2d", { willReadFrequently: true })!;
  context.drawImage(bitmap, -whole.x, -whole.y);
  bitmap.close();
  const { width, height, data } = context.getImageData(0, 0, canvas.width, canvas.height);
  const inside = (box: Box): Box => ({ ...box, x: box.x - whole.x, y: box.y - whole.y });
  return plainSwatch(rasterFromBytes(width, height, data), {
    ...question,
    area: inside(area),
    ...(yarn ? { yarn: inside(yarn) } : {}),
  });
}

function around(one: Box, other: Box): Box {
  const x = Math.min(one.x, other.x);
  const y = Math.min(one.y, other.y);
  const right = Math.max(one.x + one.width, other.x + other.width);
  const bottom = Math.max(one.y + one.height, other.y + other.height);
  return { x, y, width: right - x, height: bottom - y };
}
