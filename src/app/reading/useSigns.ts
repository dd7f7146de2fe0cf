/** The signs of a chart as small pictures, dark on light grounds and light on dark ones; made once for each state of its colours. */
import { useMemo } from "react";
import type { ReadColour, ReadSymbol } from "../../intake/readChart.ts";
import { signPicture } from "./sheetDraw.ts";

const NONE: ReadonlyMap<string, HTMLCanvasElement> = new Map();

export function useSigns(
  symbols: Readonly<Record<string, ReadSymbol>> | undefined,
  colours: Readonly<Record<string, ReadColour>> | undefined,
): ReadonlyMap<string, HTMLCanvasElement> {
  return useMemo(() => {
    if (!symbols || !colours) return NONE;
    return new Map(
      Object.entries(symbols).flatMap(([id, symbol]) => {
        const picture = signPicture(symbol, colours[id]?.hex ?? "#ffffff");
        return picture ? [[id, picture] as const] : [];
      }),
    );
  }, [symbols, colours]);
}
