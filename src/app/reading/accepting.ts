/** What becomes of charts that were read: another chart of this pattern, or a new project that begins with them. */
import { deltaE2000 } from "../../colour/difference.ts";
import { labOfShade, type Shade } from "../../colour/shade.ts";
import type { Chart } from "../../chart/chart.ts";
import type { Edit } from "../../document/edit.ts";
import { tryEdit } from "../../document/edit.ts";
import { isFault, type Outcome, type Problem } from "../../base/problem.ts";
import type { Project } from "../../document/project.ts";
import type { PatternColour } from "../../fabric/pattern.ts";
import { freeIds, type ReadChart, type ReadColour } from "../../intake/readChart.ts";
import { newProject } from "../../jobs/start.ts";
import { hasShade } from "../../yarn/stash.ts";
import { laidOut } from "../../yarn/shelf.ts";
import type { Yarn } from "../../yarn/yarn.ts";
import { freeId } from "../shell/words.ts";
import { colourWords } from "./words.ts";

/** A colour of one of the charts, whichever of them have it. */
export interface ComingColour {
  readonly key: string;
  readonly colour: ReadColour;
  readonly symbol: NonNullable<ReadChart["symbols"]>[string] | undefined;
  /** In each chart, by its place, the letter it has there. */
  readonly ids: readonly (string | null)[];
  readonly stitches: number;
}

/** A chart as it goes on: what she says of it beside its stitches. */
export interface ComingChart {
  readonly name: string;
  readonly worked: "round" | "flat";
  readonly rows: readonly string[];
}

/** What she has said while a chart was about to go on, kept while she looks at it once more. */
export interface AcceptDraft {
  readonly named: readonly ComingChart[];
  readonly into: "pattern" | "project";
  readonly projectName: string;
  /** By coming colour: as it was read, and as she has it. */
  readonly colours: ReadonlyMap<string, { readonly read: ReadColour; readonly hers: ReadColour }>;
  /** By coming colour: a colour of the pattern, or "" for a new one. */
  readonly said: ReadonlyMap<string, string>;
}

/** Her names and shades, where what was read is still the same. */
export function withHerWord(coming: readonly ComingColour[], draft: AcceptDraft | null): readonly ComingColour[] {
  return coming.map((one) => {
    const kept = draft?.colours.get(one.key);
    const isSame = kept && kept.read.hex === one.colour.hex && kept.read.name === one.colour.name;
    return isSame ? { ...one, colour: kept.hers } : one;
  });
}

/** ΔE00 below which colours of two charts, or of a chart and the pattern, are one. About what two prints of one colour differ; our choice. */
const SAME = 4;

/** Colours of all charts: those of one name are one, and without names those of one printed sign, or of one shade. */
export function comingColours(charts: readonly ReadChart[]): ComingColour[] {
  const coming: {
    key: string;
    colour: ReadColour;
    symbol: ComingColour["symbol"];
    ids: (string | null)[];
    stitches: number;
  }[] = [];
  charts.forEach((chart, at) => {
    const text = chart.rows.join("");
    for (const [id, colour] of Object.entries(chart.colours)) {
      const stitches = text.split(id).length - 1;
      if (stitches === 0) continue;
      const symbol = chart.symbols?.[id];
      const known = coming.find((one) => one.ids[at] === null && isSame(one, { colour, symbol }));
      if (known) {
        known.ids[at] = id;
        known.stitches += stitches;
      } else {
        const ids = charts.map((_, index) => (index === at ? id : null));
        coming.push({ key: `${at} ${id}`, colour, symbol, ids, stitches });
      }
    }
  });
  return coming;
}

type Seen = Pick<ComingColour, "colour" | "symbol">;

function isSame(one: Seen, other: Seen): boolean {
  const [name, otherName] = [one, other].map(({ colour }) => colour.name?.trim().toLowerCase());
  if (name && otherName) return name === otherName;
  if (one.symbol || other.symbol) return Boolean(one.symbol?.text) && one.symbol?.text === other.symbol?.text;
  return !one.colour.assumed && !other.colour.assumed && deltaE2000(one.colour.lab, other.colour.lab) < SAME;
}

/** By coming colour, the pattern's colour that it is: of that name, else the nearest in shade; each is given once. */
export function matchedColours(
  coming: readonly ComingColour[],
  pattern: readonly PatternColour[],
): Map<string, string> {
  const matched = new Map<string, string>();
  const taken = new Set<string>();
  const give = (key: string, id: string): void => {
    matched.set(key, id);
    taken.add(id);
  };
  for (const { key, colour } of coming) {
    const name = colour.name?.trim().toLowerCase();
    const found = name
      ? pattern.find((one) => one.name?.trim().toLowerCase() === name && !taken.has(one.id))
      : undefined;
    if (found) give(key, found.id);
  }
  const pairs = coming
    .filter(({ key, colour }) => !matched.has(key) && !colour.assumed)
    .flatMap(({ key, colour }) =>
      pattern.map(({ id, shade }) => ({ key, id, away: deltaE2000(colour.lab, labOfShade(shade)) })),
    )
    .filter(({ away }) => away < SAME)
    .sort((one, other) => one.away - other.away);
  for (const { key, id } of pairs) if (!matched.has(key) && !taken.has(id)) give(key, id);
  return matched;
}

/** A hex code where the shade was read or typed, Lab where it is what a name means. */
export function shadeOfRead({ hex, lab, uncertainty, assumed }: ReadColour): Shade {
  if (uncertainty === undefined) return { hex };
  return { lab: lab.map(rounded), uncertainty: rounded(uncertainty), ...(assumed ? { from: "eye" as const } : {}) };
}
const rounded = (value: number): number => Math.round(100 * value) / 100 + 0;

/** What comes into the pattern: letters that are free there, its own colours where they are the same. */
export function edits(
  project: Project,
  charts: readonly ComingChart[],
  coming: readonly ComingColour[],
  matched: ReadonlyMap<string, string>,
): { readonly edits: Edit[]; readonly charts: readonly string[] } {
  const taken = new Set(project.pattern.colours.map(({ id }) => id));
  const letters = new Map<string, string>();
  const fresh: PatternColour[] = [];
  for (const { key, colour, ids } of coming) {
    const is = matched.get(key);
    if (is !== undefined) {
      letters.set(key, is);
      continue;
    }
    const own = ids.find((id) => id !== null && !taken.has(id));
    const id = own ?? freeIds(taken)[0];
    if (id === undefined || id === null) continue;
    taken.add(id);
    letters.set(key, id);
    fresh.push({ id, name: colourWords(id, colour), role: "contrast", shade: shadeOfRead(colour) });
  }
  const made: Edit[] = [];
  const names: { id: string }[] = [...project.pattern.charts];
  charts.forEach((chart, at) => {
    const id = freeId("c", names);
    names.push({ id });
    const record: Chart = {
      id,
      name: chart.name,
      worked: chart.worked,
      rows: relettered(chart.rows, at, coming, letters),
    };
    made.push({ kind: "addChart", chart: record, colours: at === 0 ? fresh : [] });
  });
  return { edits: made, charts: names.slice(project.pattern.charts.length).map(({ id }) => id) };
}

function relettered(
  rows: readonly string[],
  chart: number,
  coming: readonly ComingColour[],
  letters: ReadonlyMap<string, string>,
): string[] {
  const to = new Map(
    coming.flatMap(({ key, ids }) => {
      const id = ids[chart];
      return typeof id === "string" ? [[id, letters.get(key)!]] : [];
    }),
  );
  return rows.map((row) => Array.from(row, (id) => to.get(id) ?? id).join(""));
}

/** A new project with these charts, every yarn of the shelf that has a shade laid out, and a first colourway by value. */
export function begunProject(
  name: string,
  charts: readonly ComingChart[],
  coming: readonly ComingColour[],
  shelf: readonly Yarn[],
): Outcome<Project> {
  const letters = lettersOfAll(coming);
  const lettered = charts.map((chart, at) => ({ ...chart, rows: relettered(chart.rows, at, coming, letters) }));
  const [first, ...others] = lettered;
  if (!first) return { value: null, problems: [] };
  const colours = Object.fromEntries(
    coming.map(({ key, colour }) => {
      const id = letters.get(key)!;
      return [id, { ...shadeOfRead(colour), name: colourWords(id, colour) }] as const;
    }),
  );
  const inFirst = new Set(first.rows.join(""));
  const own = Object.fromEntries(Object.entries(colours).filter(([id]) => inFirst.has(id)));
  const { value, problems } = newProject({
    name,
    chart: { name: first.name, rows: first.rows, colours: own },
    yarns: laidOut([], shelf, shelf.filter(hasShade)),
  });
  if (!value) return { value, problems };
  const rest = Object.entries(colours)
    .filter(([id]) => !inFirst.has(id))
    .map(([id, { name: called, ...shade }]): PatternColour => ({ id, name: called, role: "contrast", shade }));
  const more: Edit[] = [
    { kind: "setWorked", chart: value.pattern.charts[0]!.id, worked: first.worked },
    ...others.map((chart, at): Edit => ({
      kind: "addChart",
      chart: { id: `c${at + 2}`, name: chart.name, worked: chart.worked, rows: [...chart.rows] },
      colours: at === 0 ? rest : [],
    })),
  ];
  return withEdits(value, more, problems);
}

function withEdits(project: Project, all: readonly Edit[], before: readonly Problem[]): Outcome<Project> {
  let now = project;
  for (const edit of all) {
    const { value, problems } = tryEdit(now, edit);
    if (!value) return { value: null, problems: problems.filter(isFault) };
    now = value;
  }
  return { value: now, problems: [...before] };
}

/** Each keeps the letter it was read with where no other colour has it. */
function lettersOfAll(coming: readonly ComingColour[]): Map<string, string> {
  const letters = new Map<string, string>();
  const taken = new Set<string>();
  for (const { key, ids } of coming) {
    const own = ids.find((id) => id !== null && !taken.has(id)) ?? freeIds(taken)[0];
    if (own === undefined || own === null) continue;
    taken.add(own);
    letters.set(key, own);
  }
  return letters;
}
