/** Shows on the fabric what an entry of a list would do, when it has been rested on. */
import { useEffect, useRef } from "react";

/** Fast fingers pass many yarns; only one that is rested on is shown. */
const REST_MS = 120;

interface GlimpseProps {
  readonly yarn: string;
  readonly wanted: boolean;
  readonly onTry: (yarn: string | null) => void;
}

export function Glimpse({ yarn, wanted, onTry }: GlimpseProps): null {
  const latest = useRef(onTry);
  latest.current = onTry;
  useEffect(() => {
    if (!wanted) return;
    const timer = setTimeout(() => latest.current(yarn), REST_MS);
    return () => clearTimeout(timer);
  }, [wanted, yarn]);
  return null;
}
