/** How wide a name is on the page, measured once a name. */

const measured = new Map<string, number>();
let context: CanvasRenderingContext2D | null = null;

/** CSS pixels, as `.plane-name` writes it. */
export function nameWidth(name: string): number {
  let width = measured.get(name);
  if (width !== undefined) return width;
  if (!context) {
    context = document.createElement("canvas").getContext("2d")!;
    context.font = "13px Bench, 'Helvetica Neue', Arial, sans-serif";
  }
  width = Math.ceil(context.measureText(name).width) + 2;
  measured.set(name, width);
  return width;
}
