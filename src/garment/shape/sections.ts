/** The parts of a garment in several sizes as the sections of a pattern. */
import type { Beside, Section } from "../sections.ts";
import type { ShapedPart } from "./parts.ts";

export interface SizedParts {
  readonly size: string;
  readonly parts: readonly ShapedPart[];
}

/**
 * One section a part, with the counts of every size. What a section has but once (its chart and first row, gauge, what it goes on from) must be the
 * same in all sizes of it: a size that differs gets a section of its own, called after it.
 * @param plainChart id of the chart for plain knitting
 */
export function sectionsOf(sized: readonly SizedParts[], plainChart: string): Section[] {
  const found: { section: Section; once: string; part: string }[] = [];
  for (const { size, parts } of sized) {
    const idOf = new Map<string, string>();
    let after = -1;
    for (const part of parts) {
      const own = sectionOf({ ...part, from: part.from.map((id) => idOf.get(id) ?? id) }, size, plainChart);
      const once = onceOf(own);
      const same = found.findIndex((one) => one.part === part.id && one.once === once);
      if (same >= 0) {
        found[same] = { ...found[same]!, section: withSize(found[same]!.section, own) };
        after = same;
      } else {
        const isFirst = !found.some((one) => one.part === part.id);
        const section = isFirst ? own : { ...own, id: `${part.id}-${size}`, name: `${part.name}, size ${size}` };
        // In the order of knitting: after the part before it.
        after = isFirst ? found.length : lastOf(found, part.id, after) + 1;
        found.splice(after, 0, { section, once, part: part.id });
      }
      idOf.set(part.id, found[after]!.section.id);
    }
  }
  return found.map(({ section }) => section);
}

const lastOf = (found: readonly { part: string }[], part: string, after: number): number =>
  Math.max(
    after,
    found.findLastIndex((one) => one.part === part),
  );

const onceOf = ({ chart, startRow = 1, gauge, from }: Section): string =>
  JSON.stringify([chart, startRow, gauge, from]);

/** A part as a section in one size. */
function sectionOf(part: ShapedPart, size: string, plainChart: string): Section {
  const bySize = <T>(value: T): Record<string, T> => ({ [size]: value });
  return {
    id: part.id,
    name: part.name,
    chart: part.chart ?? plainChart,
    ...(part.startRow !== 1 && { startRow: part.startRow }),
    rounds: bySize(part.rounds),
    stitches: bySize(part.stitches),
    startColumn: bySize(part.startColumn),
    ...(part.decreases.length > 0 && { decreases: bySize(part.decreases.map((decrease) => ({ ...decrease }))) }),
    gauge: part.gauge,
    ...(part.beside.length > 0 && {
      beside: part.beside.map(({ kind, name, stitches, after, skips }) => ({
        kind,
        name,
        stitches: bySize(stitches),
        after: bySize(after),
        ...(skips !== undefined && { skips: bySize(skips) }),
      })),
    }),
    from: [...part.from],
  };
}

function withSize(section: Section, own: Section): Section {
  const decreases = { ...section.decreases, ...own.decreases };
  return {
    ...section,
    rounds: { ...section.rounds, ...own.rounds },
    stitches: { ...section.stitches, ...own.stitches },
    startColumn: { ...section.startColumn, ...own.startColumn },
    ...(Object.keys(decreases).length > 0 && { decreases }),
    ...withBeside(section.beside, own.beside),
  };
}

/** A size may lack what others have beside the chart, and have what they lack. */
function withBeside(before: readonly Beside[] = [], own: readonly Beside[] = []): Pick<Section, "beside"> {
  const same = (one: Beside, other: Beside): boolean => one.kind === other.kind && one.name === other.name;
  const kept = before.map((one): Beside => {
    const other = own.find((found) => same(one, found));
    if (!other) return one;
    return {
      ...one,
      stitches: { ...one.stitches, ...other.stitches },
      after: { ...one.after, ...other.after },
      ...((one.skips ?? other.skips) && { skips: { ...one.skips, ...other.skips } }),
    };
  });
  const added = own.filter((other) => !before.some((one) => same(one, other)));
  const beside = [...kept, ...added];
  return beside.length > 0 ? { beside } : {};
}
