/** Names for yarns whose labels are lost: plain names of their shades, numbered where several would be called the same. */
import type { Lab } from "../../colour/lab.ts";
import { plainName } from "../../colour/names.ts";

/**
 * One for each shade, "" for none; no two the same and none that is taken.
 * Numbers follow the order of the shades, so that a name stays with its yarn when a later one is added.
 */
export function suggestedNames(shades: readonly (Lab | null)[], taken: Iterable<string>): string[] {
  const used = new Set(Array.from(taken, (name) => name.trim().toLowerCase()));
  const plain = shades.map((lab) => (lab ? plainName(lab) : ""));
  return plain.map((name) => {
    if (name === "") return "";
    const isAlone = plain.filter((other) => other === name).length === 1 && !used.has(name);
    if (isAlone) return name;
    let number = 1;
    while (used.has(`${name} ${number}`)) number++;
    used.add(`${name} ${number}`);
    return `${name} ${number}`;
  });
}
