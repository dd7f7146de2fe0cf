/** What a structure cannot say alone: that ids are unique, that names name something, that ranges lie inside. */
import { isFault, type Problem, type Severity } from "../base/problem.ts";
import { NO_STITCH, type Chart, type ChartBand } from "../chart/chart.ts";
import type { Colourway } from "../fabric/colourway.ts";
import type { Place } from "../garment/place.ts";
import { stitchesBeside, type Section } from "../garment/sections.ts";
import type { Yarn } from "../yarn/yarn.ts";
import { foundWords } from "./foundWords.ts";
import type { Project } from "./project.ts";

/** Faults where later work would have nothing to stand on, doubts where it has. The project's structure was checked. */
export function checkReferences(project: Project): Problem[] {
  const notes = new Notes();
  const { pattern } = project;
  keptKeys(notes, project);
  if (notes.problems.length > 0) return notes.problems;
  const known = knownIn(project);
  uniqueIds(notes, "pattern.colours", pattern.colours, "colour");
  uniqueIds(notes, "pattern.charts", pattern.charts, "chart");
  uniqueIds(notes, "pattern.sizes", pattern.sizes ?? [], "size");
  uniqueIds(notes, "pattern.sections", pattern.sections ?? [], "section");
  uniqueIds(notes, "yarns", project.yarns, "yarn");
  uniqueIds(notes, "colourways", project.colourways, "colourway");
  uniqueIds(notes, "swatches", project.swatches ?? [], "swatch");
  mainColours(notes, project);
  pattern.charts.forEach((chart, index) => checkChart(notes, `pattern.charts[${index}]`, chart, known.colours));
  pattern.sections?.forEach((section, index) => checkSection(notes, `pattern.sections[${index}]`, section, known));
  garmentSize(notes, pattern.sections ?? []);
  project.yarns.forEach((yarn, index) => checkYarn(notes, `yarns[${index}]`, yarn));
  project.colourways.forEach((colourway, index) => checkColourway(notes, `colourways[${index}]`, colourway, known));
  if (!notes.problems.some(isFault)) checkInks(notes, project);
  checkSwatches(notes, project, known);
  checkKnitting(notes, project, known);
  return notes.problems;
}

interface Known {
  readonly colours: ReadonlySet<string>;
  /** Colours of the key that some chart knits with. */
  readonly coloursUsed: readonly string[];
  readonly charts: ReadonlyMap<string, { width: number; height: number }>;
  readonly sizes: ReadonlySet<string>;
  readonly sections: ReadonlyMap<string, Section>;
  readonly yarns: ReadonlySet<string>;
  readonly colourways: ReadonlySet<string>;
}

function knownIn({ pattern, yarns, colourways }: Project): Known {
  const used = new Set(pattern.charts.flatMap(({ rows }) => [...firstRows(rows).keys()]));
  return {
    colours: new Set(pattern.colours.map(({ id }) => id)),
    coloursUsed: pattern.colours.map(({ id }) => id).filter((id) => used.has(id)),
    charts: new Map(pattern.charts.map(({ id, rows }) => [id, { width: rows[0]?.length ?? 0, height: rows.length }])),
    sizes: new Set((pattern.sizes ?? []).map(({ id }) => id)),
    sections: new Map((pattern.sections ?? []).map((section) => [section.id, section])),
    yarns: new Set(yarns.map(({ id }) => id)),
    colourways: new Set(colourways.map(({ id }) => id)),
  };
}

class Notes {
  readonly problems: Problem[] = [];
  add(severity: Severity, where: string, expected: string, found: unknown): void {
    this.problems.push({ where, expected, got: foundWords(found), severity });
  }
  addWords(severity: Severity, where: string, expected: string, got: string): void {
    this.problems.push({ where, expected, got, severity });
  }
}

/** zod passes over a field named __proto__, so nothing is known of what it holds; where ids are looked up it cannot stay. */
function keptKeys(notes: Notes, { pattern, colourways }: Project): void {
  const check = (where: string, record: object | undefined): void => {
    if (record && Object.hasOwn(record, "__proto__")) notes.add("fault", where, "ids only", "__proto__");
  };
  pattern.sections?.forEach((section, index) => {
    for (const field of SIZE_FIELDS) check(`pattern.sections[${index}].${field}`, section[field]);
    section.beside?.forEach((beside, number) => {
      for (const field of BESIDE_FIELDS) check(`pattern.sections[${index}].beside[${number}].${field}`, beside[field]);
    });
  });
  colourways.forEach(({ yarns }, index) => check(`colourways[${index}].yarns`, yarns));
}

const BESIDE_FIELDS = ["stitches", "after", "skips"] as const;
const SIZE_FIELDS = ["rounds", "stitches", "startColumn", "decreases"] as const;

function uniqueIds(notes: Notes, where: string, items: readonly { id: string }[], word: string): void {
  const seen = new Set<string>();
  items.forEach(({ id }, index) => {
    if (seen.has(id)) notes.add("fault", `${where}[${index}].id`, `an id that no other ${word} has`, id);
    seen.add(id);
  });
}

function mainColours(notes: Notes, { pattern }: Project): void {
  const [, second] = pattern.colours.flatMap(({ role }, index) => (role === "main" ? [index] : []));
  if (second !== undefined)
    notes.addWords("doubt", `pattern.colours[${second}].role`, "only one main colour", "a second one");
}

function checkChart(notes: Notes, where: string, chart: Chart, colours: ReadonlySet<string>): void {
  const { rows } = chart;
  const rowName = (index: number): string => `chart ${chart.id}, row ${rows.length - index}`;
  const width = usualLength(rows);
  // From the bottom, as she reads it.
  for (let index = rows.length - 1; index >= 0; index--) {
    const { length } = rows[index]!;
    if (length !== width)
      notes.addWords("fault", rowName(index), width === 1 ? "1 stitch" : `${width} stitches`, String(length));
  }
  const used = firstRows(rows);
  for (const [colour, index] of used)
    if (!colours.has(colour))
      notes.add("fault", rowName(index), `the chart's colours only (${[...colours].join(" ")}) or -`, colour);
  if (used.size === 0) notes.addWords("fault", `${where}.rows`, "at least one stitch", "none");
  if (used.size > NO_STITCH)
    notes.addWords("fault", `${where}.rows`, `at most ${NO_STITCH} colours in a chart`, String(used.size));
  let last = 0;
  const bands = (chart.bands ?? []).map((band, index) => ({ band, index }));
  for (const { band, index } of bands.toSorted((a, b) => a.band.rows[0] - b.band.rows[0])) {
    const bandWhere = `${where}.bands[${index}].rows`;
    checkRange(notes, bandWhere, band.rows, rows.length, `rows between 1 and ${rows.length}`);
    if (band.rows[0] <= last) notes.addWords("doubt", bandWhere, "rows that no other band has", `row ${band.rows[0]}`);
    last = Math.max(last, band.rows[1]);
    checkSaid(notes, `${where}.bands[${index}]`, band, { width, height: rows.length, colours });
  }
}

/** What she says of a band is let be where it cannot be: it is her word, and a chart may have been changed under it. */
function checkSaid(
  notes: Notes,
  where: string,
  { ground = [], repeat, axis, echoOf }: ChartBand,
  chart: { readonly width: number; readonly height: number; readonly colours: ReadonlySet<string> },
): void {
  const { width, height, colours } = chart;
  for (const id of ground) if (!colours.has(id)) notes.add("doubt", `${where}.ground`, "chart colours only", id);
  if (repeat !== undefined && repeat > width)
    notes.add("doubt", `${where}.repeat`, `a repeat of at most ${width} stitches`, repeat);
  if (typeof axis === "number" && axis >= width + 1)
    notes.add("doubt", `${where}.axis`, `a column below ${width + 1}`, axis);
  if (echoOf && echoOf[1] > height)
    notes.addWords("doubt", `${where}.echoOf`, `rows between 1 and ${height}`, `[${echoOf.join(", ")}]`);
}

/** Each sign of the chart but "-", with the index of the lowest row that has it. A table of flags: a chart has many stitches. */
function firstRows(rows: readonly string[]): Map<string, number> {
  const seen = new Uint8Array(65_536);
  seen["-".charCodeAt(0)] = 1;
  const first = new Map<string, number>();
  for (let index = rows.length - 1; index >= 0; index--) {
    const row = rows[index]!;
    for (let at = 0; at < row.length; at++) {
      const code = row.charCodeAt(at);
      if (seen[code]) continue;
      seen[code] = 1;
      first.set(row[at]!, index);
    }
  }
  return first;
}

/** The length most rows have: the odd one out is what she wants to hear of. */
function usualLength(rows: readonly string[]): number {
  const counts = new Map<number, number>();
  for (const { length } of rows) counts.set(length, (counts.get(length) ?? 0) + 1);
  return [...counts].reduce((best, entry) => (entry[1] > best[1] ? entry : best))[0];
}

function checkRange(notes: Notes, where: string, range: readonly number[], most: number, expected: string): void {
  if (range[1]! > most) notes.addWords("fault", where, expected, `[${range.join(", ")}]`);
}

function checkSection(notes: Notes, where: string, section: Section, known: Known): void {
  const chart = known.charts.get(section.chart);
  if (!chart) notes.add("fault", `${where}.chart`, "the id of one of the charts", section.chart);
  else if ((section.startRow ?? 1) > chart.height)
    notes.add("fault", `${where}.startRow`, `a row between 1 and ${chart.height}`, section.startRow);
  for (const field of SIZE_FIELDS)
    for (const size of Object.keys(section[field] ?? {}))
      if (!known.sizes.has(size)) notes.add("doubt", `${where}.${field}`, "the ids of sizes only", size);
  for (const [index, beside] of (section.beside ?? []).entries())
    for (const field of BESIDE_FIELDS)
      for (const size of Object.keys(beside[field] ?? {}))
        if (!known.sizes.has(size))
          notes.add("doubt", `${where}.beside[${index}].${field}`, "the ids of sizes only", size);
  for (const other of section.from ?? [])
    if (!known.sections.has(other)) notes.add("doubt", `${where}.from`, "the ids of sections only", other);
  for (const [size, rounds] of Object.entries(section.rounds)) {
    if (!Object.hasOwn(section.stitches, size))
      notes.addWords("fault", `${where}.stitches`, `a number of stitches for size ${size}`, "nothing");
    for (const [index, { round }] of (own(section.decreases, size) ?? []).entries())
      if (round > rounds)
        notes.add("doubt", `${where}.decreases.${size}[${index}].round`, `a round between 1 and ${rounds}`, round);
  }
  for (const [size, column] of Object.entries(section.startColumn ?? {}))
    if (chart && column > chart.width)
      notes.add("fault", `${where}.startColumn.${size}`, `a column between 1 and ${chart.width}`, column);
}

/** A garment of ten million stitches is some kilometres of blanket: a slip of the finger, and more than a computer would hold. Our choice. */
const MOST_STITCHES = 10_000_000;

function garmentSize(notes: Notes, sections: readonly Section[]): void {
  const stitches = new Map<string, number>();
  sections.forEach((section, index) => {
    for (const [size, rounds] of Object.entries(section.rounds)) {
      const widest = Math.max(
        own(section.stitches, size) ?? 0,
        ...(own(section.decreases, size) ?? []).map(({ to }) => to),
      );
      const before = stitches.get(size) ?? 0;
      const sum = before + rounds * (widest + stitchesBeside(section, size));
      stitches.set(size, sum);
      if (before <= MOST_STITCHES && sum > MOST_STITCHES)
        notes.addWords(
          "fault",
          `pattern.sections[${index}].rounds.${size}`,
          `a garment of at most ${MOST_STITCHES} stitches`,
          `${rounds} rounds of up to ${widest}`,
        );
    }
  });
}

const own = <T>(record: Record<string, T> | undefined, key: string): T | undefined =>
  record && Object.hasOwn(record, key) ? record[key] : undefined;

function checkYarn(notes: Notes, where: string, yarn: Yarn): void {
  uniqueIds(notes, `${where}.lots`, yarn.lots ?? [], "lot of this yarn");
  const total = (yarn.flecks ?? []).reduce((sum, { share }) => sum + share, 0);
  // Shares typed as rounded percentages may miss 1 by a little.
  if (total > 1.005) notes.addWords("doubt", `${where}.flecks`, "shares that add up to at most 1", total.toFixed(2));
}

function checkColourway(notes: Notes, where: string, colourway: Colourway, known: Known): void {
  const checkYarnId = (place: string, id: string): void => {
    if (!known.yarns.has(id)) notes.add("fault", place, "the id of one of the yarns", id);
  };
  for (const [colour, yarn] of Object.entries(colourway.yarns)) {
    checkYarnId(`${where}.yarns.${colour}`, yarn);
    if (!known.colours.has(colour)) notes.add("doubt", `${where}.yarns`, "the ids of chart colours only", colour);
  }
  const bare = known.coloursUsed.filter((colour) => !Object.hasOwn(colourway.yarns, colour));
  if (bare.length > 0)
    notes.addWords("doubt", `${where}.yarns`, "a yarn for every chart colour", `none for ${bare.join(", ")}`);
  if (typeof colourway.from === "string" && !known.colourways.has(colourway.from))
    notes.add("doubt", `${where}.from`, "the id of one of the colourways, or null", colourway.from);
  colourway.changes?.forEach((change, index) => {
    const at = `${where}.changes[${index}]`;
    checkPlace(notes, `${at}.at`, change.at, known, "fault");
    if (!known.colours.has(change.colour))
      notes.add("fault", `${at}.colour`, "the id of one of the chart's colours", change.colour);
    checkYarnId(`${at}.yarn`, change.yarn);
  });
  colourway.overStitched?.forEach((stitched, index) => {
    const at = `${where}.overStitched[${index}]`;
    checkPlace(notes, `${at}.at`, stitched.at, known, "fault");
    checkYarnId(`${at}.yarn`, stitched.yarn);
    const chart = "chart" in stitched.at ? known.charts.get(stitched.at.chart) : undefined;
    if (!chart) return;
    const inside = ([row, column]: readonly [number, number]): boolean => row <= chart.height && column <= chart.width;
    const words = `inside the chart, ${chart.height} rows by ${chart.width} stitches`;
    stitched.cells?.forEach((cell, number) => {
      if (!inside(cell)) notes.addWords("fault", `${at}.cells[${number}]`, `a stitch ${words}`, `[${cell.join(", ")}]`);
    });
    stitched.lines?.forEach((line, number) => {
      const outside = line.find((corner) => !inside(corner));
      if (outside) notes.addWords("fault", `${at}.lines[${number}]`, `corners ${words}`, `[${outside.join(", ")}]`);
    });
  });
}

/** A chart colour in a yarn is an ink, and one byte a stitch says which: more kinds than that no cloth can hold. */
function checkInks(notes: Notes, { pattern, colourways }: Project): void {
  colourways.forEach((colourway, index) => {
    for (const chart of pattern.charts) {
      const colours = new Set(firstRows(chart.rows).keys());
      const ownSections = (pattern.sections ?? []).filter((section) => section.chart === chart.id).map(({ id }) => id);
      const isHere = (at: Place): boolean => ("chart" in at ? at.chart === chart.id : ownSections.includes(at.section));
      const inks = new Set([...colours].map((colour) => JSON.stringify([colour, colourway.yarns[colour] ?? null])));
      for (const { at, colour, yarn } of colourway.changes ?? [])
        if (colours.has(colour) && isHere(at)) inks.add(JSON.stringify([colour, yarn]));
      for (const { at, cells, yarn } of colourway.overStitched ?? []) {
        if (!isHere(at)) continue;
        for (const [row, column] of cells ?? []) {
          const signs = chart.rows[chart.rows.length - row];
          inks.add(JSON.stringify([signs?.[signs.length - column], yarn, "on top"]));
        }
      }
      if (inks.size > NO_STITCH)
        notes.addWords(
          "fault",
          `colourways[${index}]`,
          `at most ${NO_STITCH} kinds of stitch, by colour and yarn, in chart ${chart.id}`,
          String(inks.size),
        );
    }
  });
}

function checkPlace(notes: Notes, where: string, place: Place, known: Known, unknown: Severity): void {
  if ("chart" in place) {
    const chart = known.charts.get(place.chart);
    if (!chart) notes.add(unknown, `${where}.chart`, "the id of one of the charts", place.chart);
    else if (place.rows && place.rows[1] > chart.height)
      notes.addWords(unknown, `${where}.rows`, `rows between 1 and ${chart.height}`, `[${place.rows.join(", ")}]`);
    return;
  }
  const section = known.sections.get(place.section);
  if (!section) return notes.add(unknown, `${where}.section`, "the id of one of the sections", place.section);
  const most = Math.max(0, ...Object.values(section.rounds));
  if (place.rounds && place.rounds[1] > most)
    notes.addWords("doubt", `${where}.rounds`, `rounds between 1 and ${most}`, `[${place.rounds.join(", ")}]`);
}

/** A swatch is a memory: what it names may be gone, and that keeps nothing else from working. */
function checkSwatches(notes: Notes, project: Project, known: Known): void {
  project.swatches?.forEach((swatch, index) => {
    const where = `swatches[${index}]`;
    const { chart, rows } = swatch;
    checkPlace(notes, where, rows ? { chart, rows } : { chart }, known, "doubt");
    if (!known.colourways.has(swatch.colourway))
      notes.add("doubt", `${where}.colourway`, "the id of one of the colourways", swatch.colourway);
    swatch.looks?.forEach((look, number) => checkPlace(notes, `${where}.looks[${number}].at`, look.at, known, "doubt"));
  });
}

function checkKnitting(notes: Notes, { knitting }: Project, known: Known): void {
  if (knitting?.section !== undefined && !known.sections.has(knitting.section))
    notes.add("doubt", "knitting.section", "the id of one of the sections", knitting.section);
  knitting?.weighed?.forEach(({ yarn, after }, index) => {
    const where = `knitting.weighed[${index}]`;
    if (!known.yarns.has(yarn)) notes.add("doubt", `${where}.yarn`, "the id of one of the yarns", yarn);
    if (!known.sections.has(after.section))
      notes.add("doubt", `${where}.after.section`, "the id of one of the sections", after.section);
  });
}
