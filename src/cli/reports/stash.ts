/** What `stash` tells people: the yarns as they were understood. */
import { plainName } from "../../colour/names.ts";
import type { StashTable } from "../../intake/stashTable.ts";
import { gramsOwned } from "../../yarn/lots.ts";
import { labOfYarn, type Yarn } from "../../yarn/yarn.ts";
import { counted, paragraph, table } from "../words.ts";

/** With the lot and the grams of all lots beside each other, and null where nothing is known, as a table has them. */
export const stashJson = (table: StashTable): object => ({
  ...table,
  yarns: table.yarns.map(yarnJson),
  unshaded: table.unshaded.map(yarnJson),
});

const yarnJson = (yarn: Yarn): object => ({
  ...yarn,
  grams: gramsOwned(yarn),
  metresPer100g: yarn.metresPer100g ?? null,
  lot: yarn.lots?.flatMap(({ lot }) => lot ?? []).join(", ") || null,
});

export function stashReport({ yarns, unshaded, columns }: StashTable): string {
  const severalLots = yarns.some(({ lots }) => lots !== undefined && lots.length > 1);
  const lines = yarns.map((yarn) => {
    const lab = labOfYarn(yarn);
    const grams = gramsOwned(yarn);
    return [
      yarn.name,
      plainName(lab),
      lab[0].toFixed(0),
      grams === null ? "?" : `${grams} g`,
      yarn.metresPer100g === undefined ? "?" : `${Math.round(yarn.metresPer100g)}`,
      ...(severalLots ? [String(yarn.lots?.length ?? 1)] : []),
    ];
  });
  const headings = [
    { heading: "yarn", elastic: true },
    { heading: "colour", elastic: true },
    { heading: "L*", align: "right" },
    { heading: "have", align: "right" },
    { heading: "m/100 g", align: "right" },
    ...(severalLots ? [{ heading: "lots", align: "right" } as const] : []),
  ] as const;
  const meant = Object.entries(columns).map(([heading, meaning]) => `${heading} as ${meaning}`);
  return [
    `${counted(yarns.length, "yarn")}${unshaded.length > 0 ? `, and ${unshaded.length} without a shade` : ""}.`,
    ...(meant.length > 0 ? [paragraph(`Columns: ${meant.join(", ")}.`)] : []),
    ...(lines.length > 0 ? [table(headings, lines)] : []),
  ].join("\n\n");
}
