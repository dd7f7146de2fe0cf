/** The swatch's own chart: its rows in order, edge stitches and all, with a key in yarns. */
import type { Chart } from "../chart/chart.ts";
import { isColourId } from "../chart/text.ts";
import type { Cloth } from "../fabric/cloth.ts";
import type { Colourway, OverStitch } from "../fabric/colourway.ts";
import { rowsToKnit } from "./coveringProblem.ts";
import type { Laid } from "./swatchLaid.ts";
import type { MannerOf } from "./swatchManner.ts";
import type { SwatchQuestion } from "./swatchQuestion.ts";
import { rowInks } from "./swatchRows.ts";

/** A colour of the swatch's chart: one yarn. */
export interface SwatchKey {
  readonly colour: string;
  /** The first chart colour of the pattern that is in it; the same one may stand in two yarns. */
  readonly of: string;
  /** null where none is chosen yet. */
  readonly yarn: string | null;
}

export interface SwatchKnitted {
  readonly chart: Chart;
  readonly key: readonly SwatchKey[];
  readonly colourway: Colourway;
  /** Runs of the pattern's rows from the bottom; where two meet in alike rows both have that row of the swatch. */
  readonly rows: readonly {
    readonly chart: string;
    readonly section: string | null;
    readonly rows: readonly [number, number];
    readonly swatchRows: readonly [number, number];
  }[];
  /** Row of the swatch, from 1 at the bottom, by index of the covering's rows. */
  readonly rowOf: ReadonlyMap<number, number>;
}

export function swatchChart(
  { cloths }: SwatchQuestion,
  { problem, places }: Laid,
  chosen: readonly number[],
  { width, manner: { edges, reads } }: { readonly width: number; readonly manner: MannerOf },
): SwatchKnitted {
  const isChosen = Uint8Array.from(places, (_, at) => Number(chosen.includes(at)));
  const knitted = rowsToKnit(problem, isChosen);
  const rowOf = new Map(knitted.flatMap((indices, at) => indices.map((index) => [index, at + 1] as const)));
  const letters = lettersFor();
  const laidOn = new Map<string, [number, number][]>();
  const rows = knitted.map(([index], at) => {
    const { cloth: which, row, repeat } = places[index!]!;
    const { cloth } = cloths[which]!;
    const inks = rowInks(cloth, row, repeat, width);
    inks.seen.forEach((ink, step) => {
      const { over, yarn } = cloth.inks[ink]!;
      if (over && yarn !== null) laidOn.set(yarn, [...(laidOn.get(yarn) ?? []), [at + 1, step + 1 + edges[0]]]);
    });
    return withEdges(
      inks.knitted.map((ink) => letters.letterOf(cloth, ink)),
      edges,
    );
  });
  const chart: Chart = {
    id: SWATCH,
    name: "swatch",
    worked: reads,
    rows: rows.map((cells) => cells.toReversed().join("")).toReversed(),
  };
  const key = letters.key();
  return {
    chart,
    key,
    colourway: {
      id: SWATCH,
      yarns: Object.fromEntries(key.flatMap(({ colour, yarn }) => (yarn === null ? [] : [[colour, yarn]]))),
      overStitched: Array.from(laidOn, ([yarn, cells]): OverStitch => ({ at: { chart: SWATCH }, cells, yarn })),
    },
    rows: runsOf(chosen, problem.follows).map(([from, to]) => {
      const { cloth, section } = cloths[places[from]!.cloth]!;
      return {
        chart: cloth.chart.id,
        section,
        rows: [places[from]!.row, places[to]!.row] as const,
        swatchRows: [rowOf.get(from)!, rowOf.get(to)!] as const,
      };
    }),
    rowOf,
  };
}

const SWATCH = "swatch";

/** A letter for each yarn, or for each chart colour that has none: the chart colour's own where that is free. */
function lettersFor() {
  const known = new Map<string, SwatchKey>();
  const letterOf = ({ inks }: Cloth, at: number): string => {
    const { colour: of, yarn } = inks[at]!;
    const id = JSON.stringify(yarn === null ? [of] : [null, yarn]);
    let entry = known.get(id);
    if (!entry) {
      const taken = new Set([...known.values()].map(({ colour }) => colour));
      entry = { colour: taken.has(of) ? freeLetter(taken) : of, of, yarn };
      known.set(id, entry);
    }
    return entry.colour;
  };
  return { letterOf, key: () => [...known.values()] };
}

/** The first of the letters, then of all characters that can stand in a chart. */
function freeLetter(taken: ReadonlySet<string>): string {
  let code = "A".charCodeAt(0);
  while (taken.has(String.fromCharCode(code)) || !isColourId(String.fromCharCode(code))) code += 1;
  return String.fromCharCode(code);
}

/** A single edge stitch goes with the row's most stitches; several are worked with its strands by turns. */
function withEdges(cells: readonly string[], [right, left]: readonly [number, number]): string[] {
  const counts = new Map<string, number>();
  for (const cell of cells) counts.set(cell, (counts.get(cell) ?? 0) + 1);
  const strands = [...counts.keys()].sort((a, b) => counts.get(b)! - counts.get(a)!);
  const edge = (stitches: number): string[] =>
    Array.from({ length: stitches }, (_, step) => strands[step % strands.length]!);
  return [...edge(right), ...cells, ...edge(left)];
}

/** Chosen rows that lie on one another: indices of the first and the last. */
function runsOf(chosen: readonly number[], follows: readonly boolean[]): [number, number][] {
  const runs: [number, number][] = [];
  for (const index of chosen) {
    const last = runs.at(-1);
    if (last && last[1] === index - 1 && follows[index]) last[1] = index;
    else runs.push([index, index]);
  }
  return runs;
}
