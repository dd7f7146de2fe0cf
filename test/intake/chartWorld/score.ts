/** How near what was read is to what was drawn. */
import { deltaE2000 } from "../../../src/colour/difference.ts";
import { labFromHex } from "../../../src/colour/lab.ts";
import { cornersOfGrid, crossing, type ChartGrid } from "../../../src/intake/chartGrid.ts";
import type { ReadChart, ReadCharts } from "../../../src/intake/readChart.ts";

export interface TruthChart {
  /** Top row first, "-" for no stitch. */
  readonly rows: string[];
  /** The cells' ground; where charts are of signs on white, every id has the same. */
  readonly palette: Readonly<Record<string, string>>;
  /** Ids drawn with a sign, and its name. */
  readonly signs: Readonly<Record<string, string>>;
  /** In the picture as it is handed over. */
  readonly grid: ChartGrid;
}

export interface Truth {
  readonly family: string;
  readonly charts: TruthChart[];
  /** Middle of each swatch or sign of the key, in the picture. */
  readonly legend: { readonly id: string; readonly at: readonly [number, number] }[];
  /** The style had lines; the picture is flat and whole-pixelled. For who tells the readers. */
  readonly lined: boolean;
}

export interface ChartScore {
  /** Counts are equal and no corner is further off than 0.3 of a cell. */
  readonly found: boolean;
  readonly countsRight: boolean;
  /** Largest distance of a corner, in cells; Infinity where nothing was read there. */
  readonly cornersOff: number;
  readonly cells: number;
  /** All of them where the counts are wrong. */
  readonly wrong: number;
  /** [row, column] in knitters' numbers. */
  readonly wrongAt: [number, number][];
  /** ΔE00 of each drawn colour that was read. */
  readonly differences: number[];
  readonly uncertain: number;
  readonly wrongUncertain: number;
  readonly confidence: number;
}

export interface Score {
  readonly charts: ChartScore[];
  /** Charts that were read where none is. */
  readonly extra: number;
  /** Every cell of every chart, and nothing besides. */
  readonly fileRight: boolean;
}

export function score(truth: Truth, read: ReadCharts): Score {
  const free = new Set(read.charts);
  const charts = truth.charts.map((chart) => {
    const middle = middleOf(cornersOfGrid(chart.grid));
    const [cell] = cellOf(chart.grid);
    let best: ReadChart | null = null;
    let near = Infinity;
    for (const candidate of free) {
      const corners = cornersOf(candidate);
      const [x, y] = corners ? middleOf(corners) : middle;
      const off = Math.hypot(x - middle[0], y - middle[1]) / cell;
      if (off < near) [near, best] = [off, candidate];
    }
    // A chart whose middle lies as far off as the drawn one is wide is another one.
    if (best && near > Math.max(3, chart.rows[0]!.length, chart.rows.length)) best = null;
    if (best) free.delete(best);
    return scoreChart(chart, best);
  });
  return { charts, extra: free.size, fileRight: free.size === 0 && charts.every(({ wrong }) => wrong === 0) };
}

export function scoreChart(truth: TruthChart, read: ReadChart | null): ChartScore {
  const [height, width] = [truth.rows.length, truth.rows[0]!.length];
  const cells = width * height;
  const nothing: ChartScore = {
    found: false, countsRight: false, cornersOff: Infinity, cells, wrong: cells, wrongAt: [], differences: [],
    uncertain: 0, wrongUncertain: 0, confidence: read?.confidence ?? 0,
  }; // prettier-ignore
  if (!read) return nothing;
  const cornersOff = worstCorner(truth.grid, read);
  if (read.rows.length !== height || read.rows[0]!.length !== width) return { ...nothing, cornersOff };
  const name = matching(truth.rows, read.rows);
  const doubted = new Set(read.uncertain.map(([row, column]) => `${row},${column}`));
  const wrongAt: [number, number][] = [];
  let wrongUncertain = 0;
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      if (name.get(read.rows[y]![x]!) === truth.rows[y]![x]) continue;
      wrongAt.push([height - y, width - x]);
      if (doubted.has(`${height - y},${width - x}`)) wrongUncertain++;
    }
  const differences: number[] = [];
  for (const [id, known] of name) {
    const colour = read.colours[id];
    const drawn = truth.palette[known];
    if (colour && drawn !== undefined) differences.push(deltaE2000(colour.lab, labFromHex(drawn)!));
  }
  return {
    found: cornersOff <= 0.3, countsRight: true, cornersOff, cells, wrong: wrongAt.length, wrongAt, differences,
    uncertain: read.uncertain.length, wrongUncertain, confidence: read.confidence,
  }; // prettier-ignore
}

/** Which drawn id each read one is: most stitches in common first, each taken once; "no stitch" is itself. */
export function matching(truth: readonly string[], read: readonly string[]): Map<string, string> {
  const common = new Map<string, number>();
  for (const [y, row] of truth.entries())
    for (let x = 0; x < row.length; x++) {
      const pair = read[y]![x]! + row[x]!;
      common.set(pair, (common.get(pair) ?? 0) + 1);
    }
  const name = new Map([["-", "-"]]);
  const taken = new Set(["-"]);
  for (const [pair] of [...common].sort((one, other) => other[1] - one[1])) {
    const [from, to] = Array.from(pair) as [string, string];
    if (name.has(from) || taken.has(to)) continue;
    name.set(from, to);
    taken.add(to);
  }
  return name;
}

type Corners = readonly (readonly [number, number])[];

const cornersOf = (chart: ReadChart): Corners | null => (chart.grid ? cornersOfGrid(chart.grid) : chart.box);

const middleOf = (corners: Corners): [number, number] => [
  corners.reduce((sum, [x]) => sum + x, 0) / corners.length,
  corners.reduce((sum, [, y]) => sum + y, 0) / corners.length,
];

/** Width and height of a usual cell, in pixels. */
function cellOf(grid: ChartGrid): [number, number] {
  const [one, two, , four] = cornersOfGrid(grid);
  return [
    Math.hypot(two[0] - one[0], two[1] - one[1]) / grid.columns,
    Math.hypot(four[0] - one[0], four[1] - one[1]) / grid.rows,
  ];
}

/** In cells as they are at that corner. */
function worstCorner(truth: ChartGrid, read: ReadChart): number {
  const corners = cornersOf(read);
  if (!corners) return Infinity;
  const { columns, rows } = truth;
  const places = [[0, 0], [0, columns], [rows, columns], [rows, 0]] as const; // prettier-ignore
  return Math.max(
    ...places.map(([row, column], index) => {
      const own = crossing(truth, row, column);
      const beside = crossing(truth, row, column === 0 ? 1 : column - 1);
      const below = crossing(truth, row === 0 ? 1 : row - 1, column);
      const cell = Math.min(
        Math.hypot(beside[0] - own[0], beside[1] - own[1]),
        Math.hypot(below[0] - own[0], below[1] - own[1]),
      );
      const [x, y] = corners[index]!;
      return Math.hypot(x - own[0], y - own[1]) / cell;
    }),
  );
}
