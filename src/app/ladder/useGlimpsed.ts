/** The fabric shows what would be when a hand has rested above a place, and what is when it has gone on. */
import { useEffect } from "react";
import type { Edit } from "../../document/edit.ts";
import type { Colourway } from "../../fabric/colourway.ts";
import { useBench } from "../shell/bench.ts";
import { swapEdit } from "./swaps.ts";
import type { CarryEnd } from "./useCarry.ts";

/** Milliseconds that a hand rests before the fabric shows it. */
const REST_MS = 120;

/** `busy` as long as there is something in the hand. */
export function useGlimpsed(edit: Edit | null, busy: boolean): void {
  const { glimpse } = useBench();
  const key = edit && JSON.stringify(edit);
  useEffect(() => {
    if (key === null) return;
    const timer = setTimeout(() => glimpse([JSON.parse(key) as Edit]), REST_MS);
    return () => clearTimeout(timer);
  }, [key, glimpse]);
  const away = busy && key === null;
  useEffect(() => {
    if (away) glimpse(null);
  }, [away, glimpse]);
  useEffect(() => {
    if (!busy) return;
    return () => glimpse(null);
  }, [busy, glimpse]);
}

/** What laying a thing down at a place would do to the project. */
export function editOf(colourway: Colourway | null, from: CarryEnd, to: CarryEnd | null): Edit | null {
  if (!colourway || !to) return null;
  if (from.side === "yarn" && to.side === "yarn") return swapEdit(colourway, from.id, to.id);
  const [colour, yarn] = from.side === "colour" ? [from.id, to.id] : [to.id, from.id];
  return { kind: "assignYarn", colourway: colourway.id, colour, yarn };
}
