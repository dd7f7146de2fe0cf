/** Findings of a chart into which rows have come, under the rows and bands that they would have without them: so that old and new can be compared. */
import { goneOut, renumberedRange, type Renumbering } from "../../chart/renumbering.ts";
import type { AuditContext } from "../context.ts";
import type { Finding, MendEdit, RowsInserted } from "../finding.ts";

export function asBefore(
  findings: readonly Finding[],
  edits: readonly MendEdit[],
  [before, after]: readonly [AuditContext, AuditContext],
): readonly Finding[] {
  const inserted = edits.filter((edit): edit is RowsInserted => edit.kind === "insertRows");
  return inserted.reduceRight<readonly Finding[]>((known, { chart, at, rows }) => {
    const without = goneOut([at, at + rows.length - 1]);
    const bands = bandsBefore(chart, without, [before, after]);
    return known.map((finding) => (finding.where.chart === chart ? renamed(finding, without, bands) : finding));
  }, findings);
}

/** By a band's id afterwards the one that it had. */
function bandsBefore(
  chart: string,
  without: Renumbering,
  contexts: readonly [AuditContext, AuditContext],
): ReadonlyMap<string, string> {
  const [before, after] = contexts.map(
    ({ charts }) => charts.find((judged) => judged.chart.id === chart && judged.section === null)?.now.bands ?? [],
  );
  return new Map(
    after!.flatMap(({ band: { id, rows } }): [string, string][] => {
      const row = renumberedRange(without, rows)?.[0];
      const was = before!.find(({ band }) => row !== undefined && band.rows[0] <= row && row <= band.rows[1]);
      return was ? [[id, was.band.id]] : [];
    }),
  );
}

/** What is found in the new rows themselves keeps its name, which nothing had before. */
function renamed(finding: Finding, without: Renumbering, bands: ReadonlyMap<string, string>): Finding {
  const { where, id } = finding;
  const rows = renumberedRange(without, where.rows);
  if (!rows) return finding;
  const head = `alignment/${where.chart}/`;
  const number = (text: string): string => String(without.from(Number(text)));
  return {
    ...finding,
    // Of how bands lie the rows of both are part of the name.
    id: id.startsWith(head) ? head + id.slice(head.length).replaceAll(/\d+/g, number) : id,
    where: {
      ...where,
      rows,
      ...(where.band === undefined ? {} : { band: bands.get(where.band) ?? where.band }),
    },
  };
}
