/** When nothing that follows the hand is waited for any more: what may come later comes then. */
import { useEffect, useState } from "react";
import { useBench } from "./bench.ts";

/** True from the first time that the bench has settled. */
export function useCalm(): boolean {
  const { settled } = useBench();
  const [calm, setCalm] = useState(false);
  useEffect(() => {
    if (settled) setCalm(true);
  }, [settled]);
  return calm;
}
