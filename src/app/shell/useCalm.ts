/** When there is time for what nobody waits for: its parts are no part of the first load. */
import { useEffect, useState } from "react";
import { useBench } from "./bench.ts";

const FIRST_SIGNS = ["pointermove", "pointerdown", "keydown", "wheel"] as const;

/** True from when the bench has once settled and a hand has come near it. */
export function useCalm(): boolean {
  const { settled } = useBench();
  const [wasSettled, setWasSettled] = useState(false);
  const [wasTouched, setWasTouched] = useState(false);
  useEffect(() => {
    if (settled) setWasSettled(true);
  }, [settled]);
  useEffect(() => {
    if (wasTouched) return;
    const come = () => setWasTouched(true);
    for (const sign of FIRST_SIGNS) addEventListener(sign, come, { passive: true });
    return () => {
      for (const sign of FIRST_SIGNS) removeEventListener(sign, come);
    };
  }, [wasTouched]);
  return wasSettled && wasTouched;
}
