/** What a finding complains of, piece by piece, so that it is known again when its yarns, its rows or its sentence have changed. */
import type { Severity } from "../../base/problem.ts";
import { atLeast } from "../audit.ts";
import type { Finding } from "../finding.ts";

/** Each trouble with how bad it is: 2 a doubt, 3 a fault. Notes are no trouble. */
export type Troubles = ReadonlyMap<string, number>;

const WEIGHT: Record<Severity, number> = { note: 1, doubt: 2, fault: 3 };

export function troublesIn(findings: readonly Finding[]): Troubles {
  const troubles = new Map<string, number>();
  for (const finding of findings)
    if (atLeast(finding, "doubt"))
      for (const trouble of [...troublesOf(finding), ...movesOf(finding)])
        troubles.set(trouble, Math.max(troubles.get(trouble) ?? 0, WEIGHT[finding.severity]));
  return troubles;
}

/** The findings that tell of something that was no trouble before, or a lesser one. */
export const freshIn = (findings: readonly Finding[], before: Troubles): Finding[] =>
  findings.filter(
    (finding) =>
      atLeast(finding, "doubt") &&
      !movesOf(finding).some((move) => before.has(move)) &&
      troublesOf(finding).some((trouble) => (before.get(trouble) ?? 0) < WEIGHT[finding.severity]),
  );

/** A colour that has gone up or down the ladder: what it was told to have passed may be more or fewer after another one has moved. */
const movesOf = (finding: Finding): string[] =>
  kindOf(finding) === "valueOrder"
    ? [`moved/${finding.where.colours?.[0]}/${Math.sign(finding.numbers.deltaL as number)}`]
    : [];

/** "legibility", "figure" …: the first part of a finding's id. */
export const kindOf = ({ id }: Pick<Finding, "id">): string => id.slice(0, id.indexOf("/"));

/** Rows one by one, bands with their colours, pairs of the ladder, a colour that takes over, a yarn that runs short: never by name of a yarn that may change. */
export function troublesOf(finding: Finding): string[] {
  const kind = kindOf(finding);
  const { chart, section = "", rows, band = "", colours = [], yarns = [] } = finding.where;
  const place = `${kind}/${chart}@${section}`;
  switch (kind) {
    case "legibility":
    case "floats":
      return Array.from({ length: rows[1] - rows[0] + 1 }, (_, index) => `${place}/${rows[0] + index}`);
    case "figure":
    case "part":
      return [`${place}/${band}/${colours.toSorted().join("")}`];
    case "flecks":
      return [`${place}/${colours.toSorted().join("")}`];
    case "visualWeight":
      return colours.map((colour) => `${place}/${colour}`);
    case "valueOrder":
      return finding.id.slice(kind.length + 1).split("+");
    case "amounts":
      return yarns.map((yarn) => `${kind}/${yarn}`);
    default:
      return [`${place}/${band}`];
  }
}
