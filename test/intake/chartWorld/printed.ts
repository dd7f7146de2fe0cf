/** Charts as our own working sheet prints them, with what is on every page. */
import { seededRandom } from "../../../src/base/random.ts";
import type { Colourway } from "../../../src/fabric/colourway.ts";
import type { Pattern } from "../../../src/fabric/pattern.ts";
import { gridOfLines } from "../../../src/intake/chartGrid.ts";
import { amountsOf } from "../../../src/plan/amounts.ts";
import type { RectOperation } from "../../../src/print/drawing.ts";
import type { Page } from "../../../src/print/page.ts";
import { svgOfPage } from "../../../src/print/svg.ts";
import { workingSheet } from "../../../src/print/workingSheet.ts";
import type { Yarn } from "../../../src/yarn/yarn.ts";
import { rawOf } from "./camera.ts";
import { chanceOf } from "./chance.ts";
import { design } from "./designs.ts";
import type { Painted } from "../chartWorld.ts";
import sharp from "sharp";
import type { TruthChart } from "./score.ts";

export interface PrintedSheet {
  readonly pages: Page[];
  /** Of each page, in mm from its top left corner. */
  readonly truths: TruthChart[][];
}

export function printedSheet(seed: number, size?: readonly [number, number]): PrintedSheet {
  const chance = chanceOf(seededRandom(seed * 31 + 5));
  const { rows, palette } = design(chance, {
    width: size?.[0] ?? chance.whole(8, 40),
    height: size?.[1] ?? chance.whole(8, 70),
    colours: chance.whole(2, 8),
    apart: 9,
    kind: chance.pick(["figures", "figures", "mixed", "chance"] as const),
  });
  const ids = Object.keys(palette);
  const yarns = ids.map((id): Yarn => ({ id: `y${id}`, name: `Leftover ${id}`, shade: { hex: palette[id]! }, metresPer100g: 420, grams: 50 })); // prettier-ignore
  const pattern: Pattern = {
    gauge: { stitches: chance.whole(22, 32), rows: chance.whole(24, 36) },
    colours: ids.map((id) => ({ id, shade: { hex: palette[id]! } })),
    charts: [{ id: "c1", rows, worked: chance.pick(["round", "flat"] as const) }],
  };
  const colourway: Colourway = { id: "w1", yarns: Object.fromEntries(ids.map((id) => [id, `y${id}`])) };
  const amounts = amountsOf({ pattern, yarns, colourway });
  const pages = workingSheet({ name: "Station vest", pattern, yarns, colourway, amounts, mono: chance.odds(0.25) });
  return { pages, truths: pages.map((page) => truthOf(page, rows)) };
}

/** The stitches that the page says it draws. */
function truthOf({ operations }: Page, rows: readonly string[]): TruthChart[] {
  const stitches = operations.filter(
    (operation): operation is RectOperation => operation.kind === "rect" && operation.stitch !== undefined,
  );
  if (stitches.length === 0) return [];
  const lefts = [...new Set(stitches.map(({ x }) => x))].sort((one, other) => one - other);
  const tops = [...new Set(stitches.map(({ y }) => y))].sort((one, other) => one - other);
  const { width, height } = stitches[0]!;
  const text = tops.map(() => lefts.map(() => "-"));
  const palette: Record<string, string> = {};
  for (const { x, y, fill, stitch } of stitches) {
    const id = rows[rows.length - stitch!.row]![rows[0]!.length - stitch!.column]!;
    text[tops.indexOf(y)]![lefts.indexOf(x)] = id;
    palette[id] = fill!;
  }
  const grid = gridOfLines([...lefts, lefts.at(-1)! + width], [...tops, tops.at(-1)! + height]);
  return [{ rows: text.map((row) => row.join("")), palette, signs: {}, grid }];
}

const MILLIMETRES_PER_INCH = 25.4;

/** A page as a printer's or a viewer's picture of so many pixels to the inch. */
export async function pictureOfPage(page: Page, charts: readonly TruthChart[], dotsPerInch: number): Promise<Painted> {
  const svg = svgOfPage(page);
  const scale = dotsPerInch / MILLIMETRES_PER_INCH;
  const [width, height] = [Math.round(page.widthMm * scale), Math.round(page.heightMm * scale)];
  const sized = svg.replace(
    /width="[^"]*" height="[^"]*"/,
    `width="${width}" height="${height}" preserveAspectRatio="none"`,
  );
  const pixels = await rawOf(sharp(Buffer.from(sized)));
  return {
    pixels,
    truth: { family: "printed", charts: inPixels(charts, page, width, height), legend: [], lined: true },
  };
}

/** Charts of a page whose picture is so large. */
export function inPixels(charts: readonly TruthChart[], page: Page, width: number, height: number): TruthChart[] {
  return charts.map((chart) => ({
    ...chart,
    grid: {
      ...chart.grid,
      corners: chart.grid.corners.map((part, at) =>
        at % 2 === 0 ? (part * width) / page.widthMm : (part * height) / page.heightMm,
      ),
    },
  }));
}
