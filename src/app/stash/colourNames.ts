/** The plain names of all her colours, so that "blue" finds the blue ones: worked out a few at a time while the page is idle. */
import { useEffect, useState } from "react";
import { plainName } from "../../colour/names.ts";
import type { StashLine } from "./lines.ts";

/** By hex: a shade that is changed and changed back need not be named again. */
const known = new Map<string, string>();

/** Names in one go: a few milliseconds. Our choice. */
const AT_ONCE = 60;
/** Milliseconds after a change, so that the change itself is on the screen first. */
const LATER = 200;

/** By id; those of before until all are known. */
export function useColourNames(lines: readonly StashLine[]): ReadonlyMap<string, string> {
  const [names, setNames] = useState<ReadonlyMap<string, string>>(new Map());
  useEffect(() => {
    let at = 0;
    const go = (): void => {
      for (let named = 0; at < lines.length && named < AT_ONCE; at++) {
        const { hex, lab } = lines[at]!;
        if (known.has(hex)) continue;
        known.set(hex, plainName(lab));
        named++;
      }
      if (at < lines.length) timer = window.setTimeout(go);
      else setNames(new Map(lines.map(({ id, hex }) => [id, known.get(hex)!])));
    };
    let timer = window.setTimeout(go, LATER);
    return () => clearTimeout(timer);
  }, [lines]);
  return names;
}
