/** The key of a working sheet: every yarn with its mark and patch, light to dark, the same for all charts of the piece. */
import { cellAt, NO_STITCH } from "../chart/chart.ts";
import { hexFromLab, type Lab } from "../colour/lab.ts";
import { labOfShade } from "../colour/shade.ts";
import type { Colourway } from "../fabric/colourway.ts";
import type { Pattern } from "../fabric/pattern.ts";
import type { Amounts, YarnAmount } from "../plan/amounts.ts";
import { isUnassigned, UNASSIGNED } from "../plan/tallySection.ts";
import { labOfYarn, type Yarn } from "../yarn/yarn.ts";
import type { ChartUse } from "./chartUses.ts";
import { BLACK, WHITE, type Operation, type Point } from "./drawing.ts";
import { drawSymbol, symbolsFor, type ChartSymbol } from "./symbols.ts";

export interface KeyEntry {
  /** A yarn's id, or UNASSIGNED and a chart colour. */
  readonly strand: string;
  /** Chart colours that it stands for, in the pattern's order; none for a yarn that is only sewn on. */
  readonly letters: readonly string[];
  readonly name: string;
  /** Empty where it is not known. */
  readonly maker: string;
  /** "lot 12, lot 14"; empty where no lot is known. */
  readonly lots: string;
  readonly lab: Lab;
  readonly shadeKnown: boolean;
  /** Colour of its cells, and of the mark on them. */
  readonly fill: string;
  readonly ink: string;
  /** A shape, a number where there are more yarns than shapes, or nothing for the main colour. */
  readonly mark: ChartSymbol | string | null;
  readonly amount: YarnAmount | null;
}

export interface KeyParts {
  readonly pattern: Pattern;
  readonly yarns: readonly Yarn[];
  readonly colourway: Colourway;
  readonly amounts: Amounts;
  readonly uses: readonly ChartUse[];
  readonly inkColours: "colour" | "mono";
}

export function sheetKey({ pattern, yarns, colourway, amounts, uses, inkColours }: KeyParts): KeyEntry[] {
  const letters = lettersByStrand(pattern, uses);
  const sewn = (colourway.overStitched ?? []).map(({ yarn }) => yarn);
  const strands = [...new Set([...letters.keys(), ...amounts.yarns.map(({ yarn }) => yarn), ...sewn])];
  const main = mainStrand(pattern, uses);
  const shown = strands.map((strand) => ({ strand, ...shadeOfStrand(strand, pattern, yarns) }));
  shown.sort((a, b) => b.lab[0] - a.lab[0]);
  const marked = shown.filter(({ strand }) => strand !== main);
  const symbols = symbolsFor(marked.length);
  return shown.map(({ strand, lab, shadeKnown, name, maker, lots }): KeyEntry => {
    const rank = marked.findIndex((other) => other.strand === strand);
    const fill = inkColours === "mono" ? greyOf(lab) : hexFromLab(lab);
    return {
      strand,
      letters: letters.get(strand) ?? [],
      name,
      maker,
      lots,
      lab,
      shadeKnown,
      fill,
      ink: inkColours === "mono" || lab[0] > INK_TURNS ? BLACK : WHITE,
      mark: strand === main ? null : (symbols[rank] ?? String(rank + 1)),
      amount: amounts.yarns.find(({ yarn }) => yarn === strand) ?? null,
    };
  });
}

/** The mark of an entry in a box about a centre. */
export function drawMark(entry: KeyEntry, centre: Point, size: number, colour = entry.ink): Operation[] {
  if (entry.mark === null) return [];
  if (typeof entry.mark !== "string") return drawSymbol(entry.mark, centre, size, colour);
  const at: Point = [centre[0], centre[1] + size * 0.36];
  return [{ kind: "text", at, text: entry.mark, size, weight: "bold", anchor: "middle", fill: colour }];
}

/** Black and white stand out equally well (4.6 : 1) on a grey of L* 50. Source: WCAG 2.1 contrast ratio, by arithmetic. */
const INK_TURNS = 50;

/** The grey of a print without colour: the lightness, compressed so that a black mark reads on the darkest at 3 : 1 and more. */
const DARKEST_GREY = 45;
function greyOf([lightness]: Lab): string {
  return hexFromLab([100 - ((100 - lightness) * (100 - DARKEST_GREY)) / 100, 0, 0]);
}

/** The yarn of the main colour: by role, else the strand of most stitches. Its cells stay blank. */
function mainStrand(pattern: Pattern, uses: readonly ChartUse[]): string | undefined {
  const counts = new Map<string, number>();
  const role = pattern.colours.find(({ role: found }) => found === "main")?.id;
  for (const { grid, strands } of uses) {
    for (const [at, cell] of strands.cells.entries()) {
      if (cell === NO_STITCH || (role !== undefined && grid.ids[grid.cells[at]!] !== role)) continue;
      const strand = strands.ids[cell]!;
      counts.set(strand, (counts.get(strand) ?? 0) + 1);
    }
  }
  return [...counts].sort((a, b) => b[1] - a[1])[0]?.[0];
}

function lettersByStrand(pattern: Pattern, uses: readonly ChartUse[]): Map<string, string[]> {
  const found = new Map<string, Set<string>>();
  for (const { grid, strands, rows } of uses) {
    for (let row = rows[0]; row <= rows[1]; row++) {
      for (let column = 1; column <= grid.width; column++) {
        const cell = cellAt(strands, row, column);
        if (cell === NO_STITCH) continue;
        const strand = strands.ids[cell]!;
        const letters = found.get(strand) ?? new Set<string>();
        letters.add(grid.ids[cellAt(grid, row, column)]!);
        found.set(strand, letters);
      }
    }
  }
  const order = new Map(pattern.colours.map(({ id }, index) => [id, index]));
  const place = (letter: string): number => order.get(letter) ?? pattern.colours.length;
  return new Map([...found].map(([strand, letters]) => [strand, [...letters].sort((a, b) => place(a) - place(b))]));
}

interface Shown {
  readonly name: string;
  readonly maker: string;
  readonly lots: string;
  readonly lab: Lab;
  readonly shadeKnown: boolean;
}

function shadeOfStrand(strand: string, pattern: Pattern, yarns: readonly Yarn[]): Shown {
  if (isUnassigned(strand)) {
    const colour = pattern.colours.find(({ id }) => id === strand.slice(UNASSIGNED.length));
    const name = `no yarn yet (${colour?.name ?? `pattern colour ${strand.slice(UNASSIGNED.length)}`})`;
    return {
      name,
      maker: "",
      lots: "",
      lab: colour ? labOfShade(colour.shade) : UNKNOWN_SHADE,
      shadeKnown: colour !== undefined,
    };
  }
  const yarn = yarns.find(({ id }) => id === strand);
  if (!yarn) return { name: strand, maker: "", lots: "", lab: UNKNOWN_SHADE, shadeKnown: false };
  const shadeKnown = yarn.shade !== undefined || (yarn.flecks ?? []).some(({ share }) => share > 0);
  const lots = (yarn.lots ?? []).map(({ lot }) => lot).filter((lot) => lot !== undefined && lot !== "");
  return {
    name: yarn.name || yarn.id,
    maker: yarn.maker ?? "",
    lots: lots.map((lot) => `lot ${lot}`).join(", "),
    lab: shadeKnown ? labOfYarn(yarn) : UNKNOWN_SHADE,
    shadeKnown,
  };
}

/** A middle grey stands where nobody has said what a yarn looks like; the key says so. */
const UNKNOWN_SHADE: Lab = [60, 0, 0];
