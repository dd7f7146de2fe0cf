/** Rows of a yarn table gathered into yarns: several rows of one yarn are its lots. */
import type { Problem, Severity } from "../base/problem.ts";
import { deltaE2000 } from "../colour/difference.ts";
import type { NamedShade } from "../colour/namedShade.ts";
import { labOfShade, type Shade } from "../colour/shade.ts";
import { hasShade } from "../yarn/stash.ts";
import { DEFAULT_UNCERTAINTY, type Lot, type Yarn } from "../yarn/yarn.ts";
import { isPlainColour, shadeByWords } from "./colourWords.ts";
import type { RowYarn } from "./stashRow.ts";

export interface Gathered {
  yarns: Yarn[];
  /** Yarns that nothing gave a shade. */
  unshaded: Yarn[];
  /** By the id of an unshaded yarn: the shade that its colour's name would mean. */
  byName: Record<string, NamedShade>;
  /** By the id of an unshaded yarn: that it has none, where that is not told by a cell. */
  noShade: Record<string, Problem>;
  /** By the id of a yarn: the lines that it was read from. */
  lines: Record<string, number[]>;
}

interface Entry {
  readonly line: number;
  readonly row: RowYarn;
}

interface Group {
  readonly yarn: Yarn;
  readonly lines: number[];
  readonly explicitId: string | undefined;
  /** Where a colour's name may stand. */
  readonly words: (string | undefined)[];
  toldShade: boolean;
}

export function gatherYarns(entries: readonly Entry[], problems: Problem[]): Gathered {
  const nameBoth = sharedNames(entries);
  const groups: Group[] = [];
  const byKey = new Map<string, Group[]>();
  const ids = new Map<string, number>();
  for (const { line, row } of entries) {
    const name = nameOf(row, nameBoth);
    const key = name.toLowerCase().replace(/\s+/g, " ");
    const others = byKey.get(key) ?? [];
    const group = name === "" ? undefined : sameYarn(others, row);
    if (group) {
      group.lines.push(line);
      group.toldShade ||= row.toldShade;
      addRow(group.yarn, row, line, problems);
      continue;
    }
    const other = others.find(
      ({ yarn }) => row.id === undefined && sameText(yarn.maker, row.maker) && sameText(yarn.fibre, row.fibre),
    );
    const shade = other?.yarn.shade;
    if (shade && row.shade) {
      const apart = deltaE2000(labOfShade(shade), labOfShade(row.shade)).toFixed(0);
      const got = `another shade, ${apart} apart (CIEDE2000); kept as a yarn of its own`;
      problems.push(problem(line, `the yarn ${name}`, "the shade it had before", got, "doubt"));
    }
    const made: Group = {
      yarn: newYarn(uniqueId(row.id, name, ids), name, row),
      lines: [line],
      explicitId: row.id,
      words: [row.colourWords, row.shadeName, name, row.note],
      toldShade: row.toldShade,
    };
    groups.push(made);
    byKey.set(key, [...others.slice(-MOST_COMPARED), made]);
  }
  // The cell that could not be read has had its say; a missing one is told here.
  const noShade = Object.fromEntries(
    groups
      .filter(({ yarn, toldShade }) => !hasShade(yarn) && !toldShade)
      .map(({ yarn, lines }) => [
        yarn.id,
        problem(lines[0]!, `the shade of ${yarn.name}`, "a hex code or Lab", "none", "fault"),
      ]),
  );
  problems.push(...Object.values(noShade));
  const unshaded = groups.filter(({ yarn }) => !hasShade(yarn));
  return {
    yarns: groups.filter(({ yarn }) => hasShade(yarn)).map(({ yarn }) => yarn),
    unshaded: unshaded.map(({ yarn }) => yarn),
    byName: Object.fromEntries(
      unshaded.flatMap(({ yarn, words }) => {
        const named = shadeByWords(words);
        return named ? [[yarn.id, named] as const] : [];
      }),
    ),
    noShade,
    lines: Object.fromEntries(groups.map(({ yarn, lines }) => [yarn.id, lines])),
  };
}

/** True where one name stands for several shades, as the name of a quality does; then a yarn needs both words. */
function sharedNames(entries: readonly Entry[]): boolean {
  const shades = new Map<string, string>();
  return entries.some(({ row: { name, shadeName } }) => {
    if (!name || !shadeName) return false;
    const before = shades.get(name);
    shades.set(name, shadeName);
    return before !== undefined && before !== shadeName;
  });
}

function nameOf({ name, shadeName, shadeNumber }: RowYarn, both: boolean): string {
  if (name && shadeName && !name.toLowerCase().includes(shadeName.toLowerCase()) && (both || !isPlainColour(shadeName)))
    return `${name} ${shadeName}`;
  return name ?? shadeName ?? shadeNumber ?? "";
}

function sameYarn(others: readonly Group[], row: RowYarn): Group | undefined {
  if (row.id !== undefined) return others.find(({ explicitId }) => explicitId === row.id);
  return others.find(
    ({ yarn }) => sameText(yarn.maker, row.maker) && (!row.shade || !yarn.shade || nearEnough(yarn.shade, row.shade)),
  );
}

const sameText = (one: string | undefined, other: string | undefined): boolean =>
  one === undefined || other === undefined || one.toLowerCase() === other.toLowerCase();

/** Two dye lots of one shade differ, but not by more than the doubt about a stated shade. */
const nearEnough = (one: Shade, other: Shade): boolean =>
  deltaE2000(labOfShade(one), labOfShade(other)) <= DEFAULT_UNCERTAINTY;

function newYarn(id: string, name: string, row: RowYarn): Yarn {
  const { metresPer100g, ...label } = labelOf(row);
  const lots = hasLot(row) ? [lotOf("l1", row)] : undefined;
  const grams = row.gramsOfAllLots ?? (lots ? undefined : row.grams);
  return {
    id,
    name: name || id,
    ...(row.shade ? { shade: row.shade } : {}),
    ...(metresPer100g === undefined ? {} : { metresPer100g }),
    ...(lots ? { lots } : {}),
    ...(grams === undefined ? {} : { grams }),
    ...label,
    ...noteOf(name, row),
  };
}

const hasLot = ({ lot, lotId, weighed }: RowYarn): boolean =>
  lot !== undefined || lotId !== undefined || weighed !== undefined;

function labelOf({
  metresPer100g,
  maker,
  fibre,
  plies,
  weightClass,
  superwash,
  handDyed,
  flecks,
}: RowYarn): Partial<Yarn> {
  const label = { metresPer100g, maker, fibre, plies, weightClass, superwash, handDyed, flecks };
  return Object.fromEntries(Object.entries(label).filter(([, value]) => value !== undefined));
}

/** A shade's name that did not become part of the yarn's is not lost. */
function noteOf(name: string, { note, shadeName }: RowYarn): { note?: string } {
  const shade = shadeName && !name.toLowerCase().includes(shadeName.toLowerCase()) ? `Shade ${shadeName}.` : "";
  const whole = [note, note?.includes(shade) ? "" : shade].filter(Boolean).join(" ");
  return whole === "" ? {} : { note: whole };
}

function lotOf(id: string, { lot, lotId, grams, weighed }: RowYarn): Lot {
  return {
    id: lotId ?? id,
    ...(lot === undefined ? {} : { lot }),
    ...(grams === undefined ? {} : { grams }),
    ...(weighed === undefined ? {} : { weighed }),
  };
}

function addRow(yarn: Yarn, row: RowYarn, line: number, problems: Problem[]): void {
  const thickness = yarn.metresPer100g;
  const { note, ...told } = { ...labelOf(row), ...noteOf(yarn.name, row) };
  for (const [field, value] of Object.entries(told)) if (!(field in yarn)) Object.assign(yarn, { [field]: value });
  if (!yarn.shade && row.shade) yarn.shade = row.shade;
  if (note !== undefined && !yarn.note?.includes(note)) yarn.note = yarn.note ? `${yarn.note} ${note}` : note;
  if (thickness !== undefined && row.metresPer100g !== undefined && Math.abs(thickness - row.metresPer100g) > 1) {
    const expected = `${Math.round(thickness)} m per 100 g as before`;
    problems.push(
      problem(line, `the yarn ${yarn.name}`, expected, `${Math.round(row.metresPer100g)}; left out`, "doubt"),
    );
  }
  addLot(yarn, row, line, problems);
}

function addLot(yarn: Yarn, row: RowYarn, line: number, problems: Problem[]): void {
  const before: Lot[] = yarn.lots ?? [{ id: "l1", ...(yarn.grams === undefined ? {} : { grams: yarn.grams }) }];
  if (row.lotId !== undefined && before.some(({ id }) => id === row.lotId)) {
    problems.push(problem(line, `the yarn ${yarn.name}`, "each lot once", "the same lot again; left out", "note"));
    return;
  }
  const repeated = row.lotId === undefined && before.some(({ lot }) => lot === row.lot);
  if (!yarn.lots) delete yarn.grams;
  if (row.gramsOfAllLots !== undefined) yarn.grams = row.gramsOfAllLots;
  yarn.lots = [...before, lotOf(freeLotId(before), row)];
  if (repeated)
    problems.push(
      problem(line, `the yarn ${yarn.name}`, "each lot once", "the same again; kept as another lot", "note"),
    );
}

function freeLotId(lots: readonly Lot[]): string {
  let number = lots.length + 1;
  while (lots.some(({ id }) => id === `l${number}`)) number++;
  return `l${number}`;
}

/** Her own id where she gave one; else a slug that the same name always gives, the second of a name with "-2". */
function uniqueId(own: string | undefined, name: string, taken: Map<string, number>): string {
  const wanted = own ?? slugOf(name);
  const base = Object.getOwnPropertyNames(Object.prototype).includes(wanted) ? `yarn-${wanted}` : wanted;
  let number = taken.get(base) ?? 0;
  let id = base;
  while (taken.has(id)) id = `${base}-${(number = Math.max(2, number + 1))}`;
  taken.set(base, Math.max(1, number));
  taken.set(id, taken.get(id) ?? 1);
  return id;
}

const slugOf = (name: string): string =>
  name
    .normalize("NFD")
    .replace(/\p{M}/gu, "")
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, "-")
    .slice(0, LONGEST_ID)
    .replace(/^-+|-+$/g, "") || "yarn";

export const problem = (line: number, where: string, expected: string, got: string, severity: Severity): Problem => ({
  where: `line ${line}, ${where}`,
  expected,
  got,
  severity,
  line,
});

/** Letters; long enough to know a yarn by. */
const LONGEST_ID = 40;
/** Yarns of one name that a row is held against: more of them are no longer told apart by hand either. Our choice. */
const MOST_COMPARED = 40;
