/** The edit that gives a garment its shape: its sizes and sections, and the charts that they need and the pattern has not got. */
import type { Chart } from "../chart/chart.ts";
import type { Section, Size } from "../garment/sections.ts";
import { patched } from "./patched.ts";
import type { Knitting, Project } from "./project.ts";
import { withPlaces } from "./withPlaces.ts";

/**
 * The sections in place of all that there were, and the sizes with them. A section or size that stays by its id keeps fields that we do not know;
 * what was said of a section that goes (other yarns, what is sewn on, looks, weighings) goes with it.
 */
export interface SectionsEdit {
  readonly kind: "setSections";
  readonly sizes: readonly Size[];
  readonly sections: readonly Section[];
  /** Those that the pattern does not have yet, in its own colours. */
  readonly charts: readonly Chart[];
}

export function withSections(project: Project, { sizes, sections, charts }: SectionsEdit): Project {
  const { pattern, knitting } = project;
  const stays = new Set(sections.map(({ id }) => id));
  const kept = withPlaces(project, (at) => ("chart" in at || stays.has(at.section) ? at : null));
  return {
    ...kept,
    pattern: {
      ...pattern,
      charts: charts.length > 0 ? [...pattern.charts, ...charts] : pattern.charts,
      sizes: sizes.map((size) => onKept(size, pattern.sizes, SIZE_FIELDS)),
      sections: sections.map((section) => onKept(section, pattern.sections, SECTION_FIELDS)),
    },
    ...(knitting && { knitting: knittingIn(knitting, stays) }),
  };
}

/** What a garment loses where sections go: exceptions and stitches sewn on in colourways, looks at swatches, weighings. */
export function lostWithSections(project: Project, sections: readonly Section[]): number {
  const stays = new Set(sections.map(({ id }) => id));
  const said = [
    ...project.colourways.flatMap(({ changes = [], overStitched = [] }) => [...changes, ...overStitched]),
    ...(project.swatches ?? []).flatMap(({ looks = [] }) => looks),
  ];
  return (
    said.filter(({ at }) => "section" in at && !stays.has(at.section)).length +
    (project.knitting?.weighed ?? []).filter(({ after }) => !stays.has(after.section)).length
  );
}

const SIZE_FIELDS: Readonly<Record<keyof Size, true>> = { id: true, name: true, chestCm: true };
const SECTION_FIELDS: Readonly<Record<keyof Section, true>> = {
  id: true,
  name: true,
  chart: true,
  startRow: true,
  rounds: true,
  stitches: true,
  startColumn: true,
  decreases: true,
  gauge: true,
  on: true,
  beside: true,
  from: true,
};

function onKept<T extends { id: string }>(item: T, before: readonly T[] | undefined, known: object): T {
  const old = before?.find(({ id }) => id === item.id);
  if (!old) return item;
  return { ...Object.fromEntries(Object.entries(old).filter(([field]) => !Object.hasOwn(known, field))), ...item };
}

/** Where she is, and what she weighed, as far as its section is still there. */
function knittingIn(knitting: Knitting, stays: ReadonlySet<string>): Knitting {
  const { section, weighed } = knitting;
  const gone = section !== undefined && !stays.has(section);
  return {
    ...(gone ? patched<Knitting>(knitting, { section: null, round: null }) : knitting),
    ...(weighed && { weighed: weighed.filter(({ after }) => stays.has(after.section)) }),
  };
}
