/** Invented vests with a fault planted in one colourway: motifs on bands, quiet colours from light to dark, and a shelf of leftovers. */
import { seededRandom, type Random } from "../src/base/random.ts";
import type { Lab } from "../src/colour/lab.ts";
import type { Project } from "../src/document/project.ts";
import type { Colourway } from "../src/fabric/colourway.ts";
import type { Yarn } from "../src/yarn/yarn.ts";

export type Planted = "lost row" | "lost colour" | "takes over" | "float" | "turned pair";
export const PLANTED: readonly Planted[] = ["lost row", "lost colour", "takes over", "float", "turned pair"];

export interface Vest {
  readonly project: Project;
  /** The colourway "good" follows the pattern's values; "bad" differs from it in the planted fault alone. */
  readonly planted: Planted;
  /** Where the fault must be found: rows from 1 at the bottom, and a chart colour. */
  readonly rows: readonly [number, number];
  readonly colour: string;
}

const WIDTH = 24;

/** `#` is the figure, `.` its ground; top row first. No strand passes more than six stitches but in "far". */
const MOTIFS: Readonly<Record<string, readonly string[]>> = {
  line: ["#."],
  checks: ["##..", "##..", "..##", "..##"],
  diamond: ["...#....", "..###...", ".##.##..", "##...##.", ".##.##..", "..###...", "...#...."],
  zigzag: ["#.....", ".#...#", "..#.#.", "...#.."],
  ladder: ["####..", "#..#..", "####..", "#..#.."],
  far: ["#..........."],
};

export function inventedVest(seed: number): Vest {
  const random = seededRandom(1000 + seed);
  const planted = PLANTED[seed % PLANTED.length]!;
  const lights: [string, Lab][] = [
    ["A", quiet(random, 86 + 3 * random())],
    ["B", quiet(random, 73 + 3 * random())],
  ];
  const darks = ["C", "D", "E"].map((id, index): [string, Lab] => [id, quiet(random, 20 + 12 * index + 2 * random())]);
  const chart = drawnChart(random, planted === "float");
  const yarns = [
    ...[...lights, ...darks].map(([id, [L, a, b]]): Yarn => skein(`own ${id}`, [L + 2 * random() - 1, a + 1, b])),
    ...Array.from({ length: 16 }, (_, index) =>
      skein(`leftover ${index + 1}`, quiet(random, 12 + 5 * index + 4 * random())),
    ),
  ];
  const good: Colourway = {
    id: "good",
    yarns: Object.fromEntries([...lights, ...darks].map(([id]) => [id, idOf(`own ${id}`)])),
  };
  const fault = plant(planted, { good, chart, yarns, random });
  return {
    planted,
    rows: fault.rows,
    colour: fault.colour,
    project: {
      format: "twostrand-project",
      version: 1,
      name: `Invented vest ${seed}`,
      pattern: {
        gauge: { stitches: 28, rows: 30 },
        colours: [...lights, ...darks].map(([id, lab]) => ({
          id,
          role: id === "A" ? ("main" as const) : ("contrast" as const),
          shade: { lab },
        })),
        charts: [{ id: "c1", rows: chart.map(({ text }) => text).toReversed() }],
        sizes: [{ id: "M" }],
        sections: [{ id: "s1", chart: "c1", rounds: { M: chart.length }, stitches: { M: 240 } }],
      },
      yarns: [...yarns, ...fault.yarns],
      colourways: [good, { ...fault.colourway, id: "bad" }],
    },
  };
}

interface DrawnRow {
  readonly text: string;
  readonly motif: string;
  readonly figure: string;
  readonly ground: string;
}

/** Bands between plain rows, from the bottom; every dark colour is the figure of three bands. */
function drawnChart(random: Random, far: boolean): DrawnRow[] {
  const plain: DrawnRow = { text: "A".repeat(WIDTH), motif: "plain", figure: "", ground: "A" };
  const rows: DrawnRow[] = [plain];
  const names = shuffled(random, [
    "line",
    "checks",
    "diamond",
    "zigzag",
    "ladder",
    "diamond",
    "zigzag",
    "checks",
    "ladder",
  ]);
  names.forEach((motif, index) => {
    const figure = "CDE"[index % 3]!;
    const ground = random() < 0.5 ? "A" : "B";
    rows.push(...bandOf(motif, figure, ground), plain);
  });
  return far ? [...rows, ...bandOf("far", "C", "A"), plain] : rows;
}

const bandOf = (motif: string, figure: string, ground: string): DrawnRow[] =>
  MOTIFS[motif]!.toReversed().map((line) => ({
    text: line
      .repeat(WIDTH / line.length)
      .replaceAll("#", figure)
      .replaceAll(".", ground),
    motif,
    figure,
    ground,
  }));

interface Parts {
  readonly good: Colourway;
  readonly chart: readonly DrawnRow[];
  readonly yarns: readonly Yarn[];
  readonly random: Random;
}

interface Fault {
  readonly colourway: Colourway;
  readonly yarns: readonly Yarn[];
  readonly rows: readonly [number, number];
  readonly colour: string;
}

function plant(planted: Planted, { good, chart, yarns, random }: Parts): Fault {
  const rowOf = (motif: string): number => chart.findIndex((row) => row.motif === motif) + 1;
  const lightnessOf = (colour: string): number => labOf(yarns, good.yarns[colour]!)[0];
  switch (planted) {
    case "lost row": {
      const row = rowOf("line");
      const { figure, ground } = chart[row - 1]!;
      // Common practice: what lies under 8 apart in L* vanishes.
      const near = skein("planted", quiet(random, lightnessOf(ground) - 3));
      const changes = [{ at: { chart: "c1", rows: [row, row] as [number, number] }, colour: figure, yarn: near.id }];
      return { colourway: { ...good, changes }, yarns: [near], rows: [row, row], colour: figure };
    }
    case "lost colour": {
      const row = rowOf("line");
      const { figure, ground } = chart[row - 1]!;
      const near = skein("planted", quiet(random, lightnessOf(ground) - 2));
      return { colourway: withYarn(good, figure, near), yarns: [near], rows: [row, row], colour: figure };
    }
    case "takes over": {
      const [L] = labOf(yarns, good.yarns.E!);
      const bright = skein("planted", [L, 45, 45]);
      return { colourway: withYarn(good, "E", bright), yarns: [bright], rows: [1, chart.length], colour: "E" };
    }
    case "float": {
      const row = rowOf("far");
      return { colourway: good, yarns: [], rows: [row, row], colour: "C" };
    }
    case "turned pair": {
      const [B, C] = [good.yarns.B!, good.yarns.C!];
      const yarnsTurned = { ...good.yarns, B: C, C: B };
      return { colourway: { ...good, yarns: yarnsTurned }, yarns: [], rows: [1, chart.length], colour: "B" };
    }
  }
}

const withYarn = (colourway: Colourway, colour: string, { id }: Yarn): Colourway => ({
  ...colourway,
  yarns: { ...colourway.yarns, [colour]: id },
});

const labOf = (yarns: readonly Yarn[], id: string): Lab => yarns.find((yarn) => yarn.id === id)!.shade!.lab as Lab;

const idOf = (name: string): string => name.replaceAll(" ", "-");

const skein = (name: string, lab: Lab): Yarn => ({
  id: idOf(name),
  name,
  shade: { lab, uncertainty: 2 },
  metresPer100g: 400,
  grams: 300,
});

/** A colour of that lightness with little chroma. */
const quiet = (random: Random, L: number): Lab => [L, 8 * random() - 4, 8 * random() - 2];

function shuffled<T>(random: Random, items: readonly T[]): T[] {
  const left = [...items];
  return items.map(() => left.splice(Math.floor(random() * left.length), 1)[0]!);
}
