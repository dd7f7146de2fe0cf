/** How a chart shows, from a drawing of it: flat stitches on a raster, transformed, weighed frequency by frequency, added up. */
import { emptyPicture, transformPicture } from "./fourier.ts";
import { CAP, opponentOf, VEIL, weigher, xyzOf, type PlainLook, type Triple } from "./plainEye.ts";

export interface DrawnChart {
  readonly width: number;
  readonly height: number;
  /** Row after row, an index of `labs`; −1 for no stitch. */
  readonly cells: readonly number[];
  readonly labs: readonly Triple[];
  readonly stitch: { readonly widthMm: number; readonly heightMm: number };
  readonly rows: "tiled" | "once";
  readonly distanceMm: number;
  readonly lux: number;
}

/** V of each channel; `masked` and `bare` are light–dark on cloth and on smooth paper. */
export interface Shown {
  masked: number;
  bare: number;
  redGreen: number;
  yellowViolet: number;
}

/** With every detail of the drawing, and with none finer than six cycles to a stitch along either side, where src stops. */
export interface BothShown {
  readonly all: Shown;
  readonly coarse: Shown;
}

/** Pixels to a stitch, at least, where nothing is said. */
export const FINENESS = 16;
/** A small chart is drawn finer, twice and twice again, while its drawing has no more pixels than this. */
const PIXELS = 2 ** 16;
/** Heights of nothing that an isolated chart is laid in, at least. */
const LONELINESS = 8;

/** The chart as a whole. */
export function chartShown(chart: DrawnChart, fineness?: number): BothShown {
  const ground = groundOf(chart);
  const colours = chart.labs.map(opponentOf);
  const seen = chart.cells.filter((cell) => cell >= 0).map((cell) => colours[cell]![0]);
  const range = (Math.max(...seen) - Math.min(...seen)) / ground.background;
  return shown(chart, ground, colours, Math.min(1, CAP / range), fineness);
}

/** Figure of one colour against another: the chart less the chart with the one knitted in the other. */
export function figureShown(chart: DrawnChart, figure: number, against: number, fineness?: number): BothShown {
  const ground = groundOf(chart);
  const colours = chart.labs.map(opponentOf);
  const changed = colours.map((colour, at) => (at === figure ? colours[against]! : colour));
  const lost = colours.map((colour, at) =>
    colour.map((part, channel) => part - changed[at]![channel]!),
  ) as unknown as Triple[];
  const range = Math.abs(colours[figure]![0] - colours[against]![0]) / ground.background;
  return shown(chart, ground, lost, Math.min(1, CAP / range), fineness);
}

interface Ground {
  readonly background: number;
  readonly luminance: number;
}

function groundOf({ cells, labs, lux }: DrawnChart): Ground {
  const stitches = cells.filter((cell) => cell >= 0);
  const mean = (of: (lab: Triple) => number): number =>
    stitches.reduce((sum, cell) => sum + of(labs[cell]!), 0) / stitches.length;
  const white = opponentOf([100, 0, 0])[0];
  return {
    background: mean((lab) => opponentOf(lab)[0]) + VEIL * white,
    luminance: (lux * (mean((lab) => xyzOf(lab)[1]) + VEIL)) / Math.PI,
  };
}

const powerOfTwo = (least: number): number => 2 ** Math.ceil(Math.log2(least));

/** Sides of the drawing in pixels, powers of two. */
const sidesOf = ({ width, height, rows }: DrawnChart, fineness: number) => ({
  across: powerOfTwo(fineness * width),
  up: powerOfTwo(fineness * height * (rows === "once" ? LONELINESS : 1)),
});

function fitting(chart: DrawnChart): number {
  const { across, up } = sidesOf(chart, FINENESS);
  return FINENESS * 2 ** Math.max(0, Math.floor(Math.log2(PIXELS / (across * up)) / 2));
}

function shown(
  chart: DrawnChart,
  ground: Ground,
  values: readonly Triple[],
  capFactor: number,
  fineness = fitting(chart),
): BothShown {
  const { width, height, cells, stitch, rows, distanceMm } = chart;
  const { across, up } = sidesOf(chart, fineness);
  // Alone, a chart has a whole number of pixels to the stitch upwards; tiled, the tile has.
  const rowsInAll = rows === "once" ? up / fineness : height;
  const look: PlainLook = { distanceMm, luminance: ground.luminance, stitch, patchMm2: width * height * stitch.widthMm * stitch.heightMm }; // prettier-ignore
  const weightOf = weigher(look);
  const all = { masked: 0, bare: 0, redGreen: 0, yellowViolet: 0 };
  const coarse = { ...all };
  const stitches = cells.filter((cell) => cell >= 0);
  const planes = [0, 1, 2].map((channel) => {
    const mean = stitches.reduce((sum, cell) => sum + values[cell]![channel]!, 0) / stitches.length;
    const ofCells = cells.map((cell) => (cell < 0 ? 0 : values[cell]![channel]! - mean));
    const picture = drawn(ofCells, { width, height, across, up, rowsInAll });
    transformPicture(picture);
    return picture.data;
  });
  const norm = (2 * (rowsInAll / height)) / (across * up) ** 2;
  const acrossBlur = pixelBlur(across);
  const upBlur = pixelBlur(up);
  // A real plane has the same power at (k, l) and (−k, −l), and the eye the same for all four quarters: one quarter is weighed.
  for (let l = 0; l <= up / 2; l++) {
    const y = l / rowsInAll;
    for (let k = l === 0 ? 1 : 0; k <= across / 2; k++) {
      const x = k / width;
      const weights = weightOf(Math.hypot(x / stitch.widthMm, y / stitch.heightMm));
      if (!weights) break;
      const here = 2 * (l * across + k);
      const mirrored = k === 0 || k === across / 2 ? null : here + 2 * (across - 2 * k);
      const part = ((l === 0 || l === up / 2 ? 1 : 2) * norm) / (acrossBlur[k]! * upBlur[l]!);
      const [lightDark, redGreen, yellowViolet] = planes.map((data) => {
        const power = data[here]! ** 2 + data[here + 1]! ** 2;
        return part * (mirrored === null ? power : power + data[mirrored]! ** 2 + data[mirrored + 1]! ** 2);
      }) as [number, number, number];
      for (const sums of x <= 6 && y <= 6 ? [all, coarse] : [all]) {
        sums.masked += lightDark * weights.masked;
        sums.bare += lightDark * weights.bare;
        sums.redGreen += redGreen * weights.redGreen;
        sums.yellowViolet += yellowViolet * weights.yellowViolet;
      }
    }
  }
  for (const sums of [all, coarse]) {
    sums.masked = (capFactor * Math.sqrt(sums.masked)) / ground.background;
    sums.bare = (capFactor * Math.sqrt(sums.bare)) / ground.background;
    sums.redGreen = Math.sqrt(sums.redGreen) / ground.background;
    sums.yellowViolet = Math.sqrt(sums.yellowViolet) / ground.background;
  }
  return { all, coarse };
}

/** What is left of each frequency's power where a pixel holds the mean of what lies under it: taken off again. */
const pixelBlur = (pixels: number): Float64Array =>
  Float64Array.from({ length: pixels / 2 + 1 }, (_, k) => {
    const angle = (Math.PI * k) / pixels;
    return k === 0 ? 1 : (Math.sin(angle) / angle) ** 2;
  });

interface Raster {
  readonly width: number;
  readonly height: number;
  readonly across: number;
  readonly up: number;
  readonly rowsInAll: number;
}

/** Each pixel holds the mean of what lies under it; above an isolated chart lies nothing. */
function drawn(ofCells: readonly number[], { width, height, across, up, rowsInAll }: Raster) {
  const picture = emptyPicture(across, up);
  const columns = under(across, width);
  const lines = under(up, rowsInAll);
  for (let row = 0; row < up; row++) {
    for (let column = 0; column < across; column++) {
      let sum = 0;
      for (const [y, partY] of lines[row]!)
        if (y < height) for (const [x, partX] of columns[column]!) sum += partX * partY * ofCells[y * width + x]!;
      picture.data[2 * (row * across + column)] = sum;
    }
  }
  return picture;
}

/** For each pixel along a side: the stitches under it and their parts of it. */
function under(pixels: number, stitches: number): [number, number][][] {
  const size = stitches / pixels;
  return Array.from({ length: pixels }, (_, pixel) => {
    const from = Math.floor(pixel * size + 1e-9);
    const edge = (from + 1 - pixel * size) / size;
    if (edge >= 1 || from + 1 >= stitches) return [[from, 1]];
    return [[from, edge], [from + 1, 1 - edge]]; // prettier-ignore
  });
}
