/** Paints what is drawn on a page, for the eye and for the reader of pictures: a drawing is never handed to a browser that would run it. */
import type { PagePrimitives } from "../../intake/pagePrimitives.ts";

/** @param longer pixels of the longer side */
export function paintPage(page: PagePrimitives, longer: number): OffscreenCanvas {
  const scale = longer / Math.max(page.width, page.height);
  const canvas = new OffscreenCanvas(
    Math.max(1, Math.round(page.width * scale)),
    Math.max(1, Math.round(page.height * scale)),
  );
  const context = canvas.getContext("2d", { willReadFrequently: true })!;
  context.fillStyle = "#fff";
  context.fillRect(0, 0, canvas.width, canvas.height);
  for (const { corners, pixels } of page.pictures) {
    if (!pixels) continue;
    const piece = new OffscreenCanvas(pixels.width, pixels.height);
    piece
      .getContext("2d")!
      .putImageData(new ImageData(pixels.rgba as Uint8ClampedArray<ArrayBuffer>, pixels.width, pixels.height), 0, 0);
    const [[x, y], [rightX, rightY], , [downX, downY]] = corners;
    const [across, down] = [scale / pixels.width, scale / pixels.height];
    context.setTransform(
      (rightX - x) * across,
      (rightY - y) * across,
      (downX - x) * down,
      (downY - y) * down,
      x * scale,
      y * scale,
    );
    context.drawImage(piece, 0, 0);
  }
  context.setTransform(scale, 0, 0, scale, 0, 0);
  for (const { outline, fill, stroke, lineWidth } of page.shapes) {
    const path = new Path2D();
    for (const run of outline) {
      run.forEach(([x, y], at) => (at === 0 ? path.moveTo(x, y) : path.lineTo(x, y)));
      const [first, last] = [run[0], run.at(-1)];
      if (run.length > 2 && first![0] === last![0] && first![1] === last![1]) path.closePath();
    }
    if (fill) {
      context.fillStyle = fill;
      context.fill(path);
    }
    if (stroke) {
      context.strokeStyle = stroke;
      context.lineWidth = lineWidth;
      context.stroke(path);
    }
  }
  for (const { text, x, y, size, colour, turned } of page.glyphs) {
    const angle = (turned * Math.PI) / 180;
    const [cos, sin] = [Math.cos(angle) * scale, Math.sin(angle) * scale];
    context.setTransform(cos, sin, -sin, cos, x * scale, y * scale);
    context.font = `${size}px sans-serif`;
    context.fillStyle = colour;
    context.fillText(text, 0, 0);
  }
  return canvas;
}
