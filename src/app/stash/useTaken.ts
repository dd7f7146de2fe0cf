/** What the project on the bench takes of each of her yarns, beside what stands on the shelf of it. */
import { useMemo } from "react";
import type { Amounts } from "../../plan/amounts.ts";
import { gramsFromMetres } from "../../yarn/lengths.ts";
import { gramsPromised } from "../../yarn/lots.ts";
import { onShelf } from "../../yarn/shelf.ts";
import { useAmounts } from "../amounts/useAmounts.ts";
import { useBench } from "../shell/bench.ts";
import type { StashLine } from "./lines.ts";
import { useShelf } from "./useShelf.ts";

export interface TakenYarn {
  /** Id in the project. */
  readonly id: string;
  readonly name: string;
  readonly hex: string | null;
  /** Where it stands on the shelf; null: it does not. */
  readonly line: StashLine | null;
  readonly metres: number;
  /** Grams without reserve and with it; null where the yarn's thickness is not known. */
  readonly grams: number | null;
  readonly withReserve: number | null;
  /** Grams on the shelf that no other project was promised; null where they are not known. */
  readonly free: number | null;
  /** Grams promised to this project. */
  readonly promised: number | null;
}

export function useTaken(
  lines: readonly StashLine[],
  size: string | null,
): { readonly taken: readonly TakenYarn[] | null; readonly amounts: Amounts | null; readonly failed: string | null } {
  const { project } = useBench();
  const { shelf } = useShelf();
  const { value, failed } = useAmounts(size);
  const taken = useMemo(() => {
    if (!value || !project) return null;
    const promised = shelf.promised ?? [];
    return value.yarns.map(({ yarn: id, name, metres, grams, reserve }): TakenYarn => {
      const yarn = project.yarns.find((one) => one.id === id);
      const original = yarn ? onShelf(shelf.yarns, yarn) : null;
      const line = (original && lines.find((one) => one.id === original.id)) ?? null;
      const thickness = yarn?.metresPer100g;
      const own = promised.find((one) => one.yarn === line?.id && one.project === project.name);
      return {
        id,
        name,
        hex: line?.hex ?? null,
        line,
        metres,
        grams,
        withReserve: thickness === undefined ? null : gramsFromMetres(metres + reserve, thickness),
        free: !line || line.grams === null ? null : line.grams - gramsPromised(promised, line.id, project.name),
        promised: own ? (own.grams ?? 0) : null,
      };
    });
  }, [value, project, shelf, lines]);
  return { taken, amounts: value, failed };
}
