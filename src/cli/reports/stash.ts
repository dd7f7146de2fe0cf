/** What `stash` tells people: the yarns as they were understood, and what they would change on the shelf. */
import type { Problem } from "../../base/problem.ts";
import { plainName } from "../../colour/names.ts";
import type { StashAnswer, StashChange } from "../../jobs.ts";
import { FIELD_NAMES, fieldWords } from "../../yarn/fieldWords.ts";
import { gramsOwned } from "../../yarn/lots.ts";
import { labOfYarn, type Yarn } from "../../yarn/yarn.ts";
import { counted, paragraph, table } from "../words.ts";
import { savedReport } from "./saved.ts";

interface StashTold {
  /** Whether it was held against a shelf of hers. */
  readonly against: boolean;
}

/** With the lot and the grams of all lots beside each other, and null where nothing is known, as a table has them. */
export function stashJson(answer: StashAnswer, told: StashTold & { readonly problems: readonly Problem[] }): object {
  const { table: read, yarns, merge, encoding } = answer;
  const { unshaded, columns, preview, byName, separator, decimal, headings } = read;
  const { added, changed, same, doubts } = merge;
  return {
    yarns: yarns.map(yarnJson),
    unshaded: unshaded.map(yarnJson),
    columns,
    problems: told.problems,
    preview,
    byName,
    reading: { encoding, separator, decimal, headings },
    ...(told.against ? { merge: { added: added.map(yarnJson), changed, same: same.map(({ id }) => id), doubts } } : {}),
  };
}

const yarnJson = (yarn: Yarn): object => ({
  ...yarn,
  grams: gramsOwned(yarn),
  metresPer100g: yarn.metresPer100g ?? null,
  lot: yarn.lots?.flatMap(({ lot }) => lot ?? []).join(", ") || null,
});

export function stashReport(
  { table: read, yarns, merge, estimated }: StashAnswer,
  { against, out, kept }: StashTold & { readonly out: string | undefined; readonly kept: number },
): string {
  const left = merge.unshaded.length - estimated.length;
  const severalLots = yarns.some(({ lots }) => lots !== undefined && lots.length > 1);
  const lines = yarns.map((yarn) => yarnLine(yarn, severalLots));
  const headings = [
    { heading: "yarn", elastic: true },
    { heading: "colour", elastic: true },
    { heading: "L*", align: "right" },
    { heading: "have", align: "right" },
    { heading: "m/100 g", align: "right" },
    ...(severalLots ? [{ heading: "lots", align: "right" } as const] : []),
  ] as const;
  const meant = Object.entries(read.columns).map(([heading, meaning]) => `${heading} as ${meaning}`);
  return [
    `${counted(yarns.length, "yarn")}${left > 0 ? `, and ${left} without a shade${nameHint(read.byName, merge.unshaded, left)}` : ""}.`,
    ...(meant.length > 0 ? [paragraph(`Columns: ${meant.join(", ")}.`)] : []),
    ...(lines.length > 0 ? [table(headings, lines)] : []),
    ...(against ? [againstShelf(merge.added.length, merge.changed, merge.same.length)] : []),
    ...(out === undefined ? [] : [savedReport(out, counted(kept, "yarn"))]),
  ].join("\n\n");
}

function nameHint(byName: object, unshaded: readonly Yarn[], left: number): string {
  const named = Math.min(left, unshaded.filter(({ id }) => id in byName).length);
  return named > 0 ? ` (--by-name would estimate ${named} by the name of the colour)` : "";
}

function yarnLine(yarn: Yarn, severalLots: boolean): string[] {
  const lab = labOfYarn(yarn);
  const grams = gramsOwned(yarn);
  return [
    yarn.name,
    plainName(lab),
    lab[0].toFixed(0),
    grams === null ? "?" : `${Math.round(grams * 10) / 10} g`,
    yarn.metresPer100g === undefined ? "?" : `${Math.round(yarn.metresPer100g)}`,
    ...(severalLots ? [String(yarn.lots?.length ?? 1)] : []),
  ];
}

function againstShelf(added: number, changed: readonly StashChange[], same: number): string {
  const changes = changed.flatMap(({ before, after, fields }) =>
    fields.map((field) => {
      const [was, is] = [before, after].map((yarn) => fieldWords(yarn, field) ?? "nothing");
      return paragraph(`${before.name}, ${FIELD_NAMES[field] ?? field}: ${was} → ${is}`, "  ");
    }),
  );
  const counts = `Against the shelf: ${added} new, ${changed.length} changed, ${same} the same.`;
  return [counts, ...changes].join("\n");
}
