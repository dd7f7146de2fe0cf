/** Which yarns of a project can be knitted with: a colour picked off a picture stands there as one, to be compared with, and nobody has it. */
import { gramsOwned } from "./lots.ts";
import type { Yarn } from "./yarn.ts";

/** Not where its shade comes from a picture of something knitted and no weight of it is known. */
export const isOwned = (yarn: Yarn): boolean => yarn.shade?.from !== "picture" || gramsOwned(yarn) !== null;

/** Those that may be proposed: her own, and what stands in place already. The same list where that is all of them. */
export function toChooseFrom(yarns: readonly Yarn[], inUse: ReadonlySet<string | null>): readonly Yarn[] {
  const chosen = yarns.filter((yarn) => isOwned(yarn) || inUse.has(yarn.id));
  return chosen.length === yarns.length ? yarns : chosen;
}
