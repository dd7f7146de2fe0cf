/** A yarn as a small ball: its shade, its flecks wound about it, and a few strands so that it is wool and not a dot. */
import { hexFromLab } from "../../colour/lab.ts";
import { partsOfYarn } from "../../yarn/flecks.ts";
import type { Yarn } from "../../yarn/yarn.ts";

interface Ball {
  readonly x: number;
  readonly y: number;
  /** CSS pixels. */
  readonly radius: number;
}

/** CSS pixels under which strands would only darken the shade. */
const STRANDS_FROM = 9;

export function paintBall(context: CanvasRenderingContext2D, yarn: Yarn, hex: string, { x, y, radius }: Ball): void {
  context.beginPath();
  context.arc(x, y, radius, 0, 2 * Math.PI);
  context.fillStyle = hex;
  context.fill();
  if (radius >= STRANDS_FROM) {
    context.save();
    context.clip();
    if (yarn.flecks?.length) paintFlecks(context, yarn, { x, y, radius });
    paintStrands(context, { x, y, radius });
    context.restore();
  }
  context.lineWidth = 1;
  context.strokeStyle = "rgb(0 0 0 / 0.22)";
  context.beginPath();
  context.arc(x, y, Math.max(0.5, radius - 0.5), 0, 2 * Math.PI);
  context.stroke();
}

/** Three turns of the strand, as thin and as faint as they can be and still be seen. */
function paintStrands(context: CanvasRenderingContext2D, { x, y, radius }: Ball): void {
  context.lineWidth = 1;
  context.strokeStyle = "rgb(0 0 0 / 0.13)";
  for (const bend of [0.35, 0.75, 1.15]) {
    context.beginPath();
    context.ellipse(x - radius * 0.55, y + radius * 0.55, radius * bend * 1.25, radius * bend * 1.25, 0, -1.9, 0.4);
    context.stroke();
  }
}

/** Its colours as bands of the winding, each as broad as its share. */
function paintFlecks(context: CanvasRenderingContext2D, yarn: Yarn, { x, y, radius }: Ball): void {
  const period = radius * 0.8;
  context.save();
  context.translate(x, y);
  context.rotate(-0.7);
  for (let from = -radius; from < radius; from += period) {
    let at = from;
    for (const { lab, share } of partsOfYarn(yarn)) {
      context.fillStyle = hexFromLab(lab);
      context.fillRect(-radius, at, 2 * radius, share * period + 0.5);
      at += share * period;
    }
  }
  context.restore();
}

/** The same for a rule of style: one colour, or bands by share for a yarn with flecks. */
export function yarnPaint(yarn: Yarn, hex: string): string {
  if (!yarn.flecks?.length) return hex;
  const period = 9;
  let at = 0;
  const bands = partsOfYarn(yarn).map(({ lab, share }) => {
    const from = at;
    at += share * period;
    return `${hexFromLab(lab)} ${from.toFixed(1)}px ${at.toFixed(1)}px`;
  });
  return `repeating-linear-gradient(135deg, ${bands.join(", ")})`;
}
