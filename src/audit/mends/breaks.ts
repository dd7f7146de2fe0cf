/** Whether other yarns would lose a row that shows today: what most changes fail by, asked before a whole audit is spent on them. */
import { rowContrast } from "../../fabric/contrast.ts";
import type { Yarn } from "../../yarn/yarn.ts";
import type { AuditContext } from "../context.ts";
import type { Case, JudgeMemory } from "../judge.ts";
import { dressed, reachOfRow } from "./target.ts";
import type { Troubles } from "./troubles.ts";

/** @param yarns for some chart colours, wherever these are knitted in the yarn that they have everywhere */
export function breaksARow(
  yarns: ReadonlyMap<string, Yarn>,
  { charts, limits, viewing, colourway }: AuditContext,
  { doubt }: Case,
  memory: JudgeMemory,
  before: Troubles,
): boolean {
  return charts.some(({ chart, section, now, was }) => {
    const cloth = dressed(now.cloth, yarns, colourway.yarns);
    return now.rows.some(({ row, band, contrast: { areas, V } }, index) => {
      if (V === null || areas.length < 2 || before.has(`legibility/${chart.id}@${section ?? ""}/${row}`)) return false;
      if (!areas.some((area) => area.colours.some((colour) => yarns.has(colour)))) return false;
      const contrast = rowContrast(cloth, row, viewing, memory, doubt);
      return reachOfRow(contrast, was.rows[index]!.contrast, now.bands[band]!.band.want, limits) < 1;
    });
  });
}
