/** A chart colour as it is seen: its shade, and the sign that stands for it. */
import { useEffect, useRef, type ReactNode } from "react";
import type { ReadColour, ReadSymbol } from "../../intake/readChart.ts";
import { signPicture } from "./sheetDraw.ts";

interface ColourMarkProps {
  /** null: no stitch. */
  readonly colour: ReadColour | null;
  readonly symbol?: ReadSymbol | undefined;
}

/** Pixels; shown at half of it. */
const SIDE = 52;

export function ColourMark({ colour, symbol }: ColourMarkProps): ReactNode {
  const canvas = useRef<HTMLCanvasElement>(null);
  const hex = colour?.hex ?? "#919191";
  useEffect(() => {
    const context = canvas.current?.getContext("2d");
    if (!context || !symbol) return;
    context.fillStyle = hex;
    context.fillRect(0, 0, SIDE, SIDE);
    const sign = signPicture(symbol, hex);
    if (sign) context.drawImage(sign, 4, 4, SIDE - 8, SIDE - 8);
  }, [hex, symbol]);
  if (!colour) return <span className="colour-mark none" aria-hidden="true" />;
  if (!symbol) return <span className="colour-mark" style={{ background: hex }} aria-hidden="true" />;
  return <canvas ref={canvas} className="colour-mark" width={SIDE} height={SIDE} aria-hidden="true" />;
}
