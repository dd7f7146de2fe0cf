/** Reads the charts of files, whatever kinds of file they are, and puts the parts of one chart together. */
import { isFault, type Problem } from "../base/problem.ts";
import { readChartPage } from "../intake/chartPage.ts";
import { readChartPicture } from "../intake/chartPicture.ts";
import { readChartText } from "../intake/chartText.ts";
import { joinCharts, type Joint } from "../intake/joinCharts.ts";
import { showsMore, type PagePrimitives } from "../intake/pagePrimitives.ts";
import type { ReadChart, ReadCharts } from "../intake/readChart.ts";
import { pageOfSvg } from "../intake/svgPage.ts";
import { textOfTable } from "../intake/tableText.ts";
import type { Pixels } from "../raster/pixels.ts";
import type { Given } from "./args.ts";
import type { OptionSpec } from "./command.ts";
import { readBytes } from "./files.ts";
import { EXIT, Refusal } from "./io.ts";
import { keyedCharts } from "./keyOption.ts";
import { openPdf } from "./pdf.ts";
import { decodePixels, kindOfFile } from "./pictures.ts";
import { badInput, only } from "./projectFile.ts";
import { counted } from "./words.ts";

export interface FileCharts extends ReadCharts {
  /** How charts were put together; empty where none were. */
  joints: readonly Joint[];
}

/** For commands that read charts. */
export const CHART_OPTIONS = {
  page: { value: "N", help: "which pages of a PDF, from 1: 3, 2-5 or 2,4; all of them by default" },
  colours: { value: "N", help: "how many colours a picture's chart has; found out by default" },
  key: {
    value: "TEXT",
    help: 'a colour of the key and its shade: "A = #e8e2d2 hoar"; by letter, sign or name; may be given again',
    many: true,
  },
  join: { help: "the charts are parts of one: put them together" },
} as const satisfies Record<string, OptionSpec>;

/**
 * The charts of all files, in order. Refuses with 66 what cannot be opened, with 65 what holds no chart, and parts that do
 * not fit; with 64 pages that are none.
 */
export async function readChartFiles(paths: readonly string[], given: Given): Promise<FileCharts> {
  const colours = given.number("colours", { least: 2, most: 60, whole: true });
  const pages = pagesOf(given.text("page"));
  const charts: ReadChart[] = [];
  const problems: Problem[] = [];
  for (const path of paths) {
    const read = await readChartFile(path, colours, pages);
    if (read.charts.length === 0 && read.problems.some(isFault)) throw badInput(path, read.problems);
    charts.push(...read.charts);
    const from = (problem: Problem): Problem => ({ ...problem, where: `${path}, ${problem.where}` });
    problems.push(...(paths.length > 1 ? read.problems.map(from) : read.problems));
  }
  const read = given.flag("join") ? joined(charts, problems, paths) : { charts, problems, joints: [] };
  return { ...read, charts: keyedCharts(read.charts, given.texts("key")) };
}

function joined(charts: readonly ReadChart[], problems: readonly Problem[], paths: readonly string[]): FileCharts {
  const none: Problem = { where: "the charts", expected: "several to put together", got: "one", severity: "note" };
  if (charts.length < 2) return { charts: [...charts], problems: [...problems, none], joints: [] };
  const together = joinCharts(charts, { areOne: true });
  if (together)
    return { charts: [together.chart], problems: [...problems, ...together.problems], joints: together.joints };
  const sizes = charts.map(({ rows, firstRow }) => {
    const from = firstRow === undefined ? "" : ` from row ${firstRow}`;
    return `${rows[0]!.length} × ${rows.length}${from}`;
  });
  throw new Refusal(
    EXIT.badInput,
    `${paths.join(", ")}: expected parts of one chart that fit together, found ${charts.length} charts of ${sizes.join(", ")}. Leave out what does not belong to it: --page chooses pages.`,
  );
}

const READABLE = "Charts are read from text, SVG, PDF, and pictures in PNG, JPEG, WebP or AVIF";

async function readChartFile(
  path: string,
  colours: number | undefined,
  pages: readonly number[] | null,
): Promise<ReadCharts> {
  const bytes = await readBytes(path);
  const kind = kindOfFile(bytes);
  const read = await readKind(path, bytes, kind, { colours, pages });
  if (pages === null || kind === "pdf") return read;
  const unused: Problem = {
    where: "--page",
    expected: "a PDF",
    got: "a file without pages; it is read whole",
    severity: "note",
  };
  return { charts: read.charts, problems: [...read.problems, unused] };
}

interface Asked {
  readonly colours: number | undefined;
  readonly pages: readonly number[] | null;
}

async function readKind(
  path: string,
  bytes: Uint8Array,
  kind: ReturnType<typeof kindOfFile>,
  { colours, pages }: Asked,
): Promise<ReadCharts> {
  switch (kind) {
    case "picture":
      return pictureCharts(await decodePixels(path, bytes), colours);
    case "text":
      return textCharts(bytes);
    case "pdf":
      return pdfCharts(path, bytes, { colours, pages });
    case "svg":
      return svgCharts(bytes, colours);
    case "web page":
      throw new Refusal(EXIT.badInput, `${path} is a web page. ${READABLE}: save the chart's picture alone.`);
    case "nothing":
      throw new Refusal(EXIT.badInput, `${path} is empty. ${READABLE}.`);
    case "other picture":
      throw new Refusal(EXIT.badInput, `${path} is a picture of another kind. ${READABLE}: save it as PNG.`);
  }
}

function pictureCharts(pixels: Pixels, colours: number | undefined): ReadCharts {
  const { charts, problems } = readChartPicture(pixels, only({ colours }));
  return { charts, problems };
}

function textCharts(bytes: Uint8Array): ReadCharts {
  const { value, problems } = textOfTable(bytes);
  if (!value) return { charts: [], problems };
  const read = readChartText(value.text);
  return { charts: read.charts, problems: [...problems, ...read.problems] };
}

async function svgCharts(bytes: Uint8Array, colours: number | undefined): Promise<ReadCharts> {
  const { value: text, problems: lost } = textOfTable(bytes);
  const { value: page, problems } = text ? pageOfSvg(text.text) : { value: null, problems: [] };
  if (!page) return { charts: [], problems: [...lost, ...problems] };
  const none = page.pictures.length > 0 ? pictureWithin : noChart("the drawing");
  const read = drawnCharts(page, colours) ?? { charts: [], problems: [none] };
  return { charts: read.charts, problems: [...lost, ...problems, ...read.problems] };
}

/** What is drawn on a page, or a picture that lies on it; null where neither is a chart. */
function drawnCharts(page: PagePrimitives, colours: number | undefined): ReadCharts | null {
  const drawn = readChartPage(page);
  if (drawn) return drawn;
  const pictures = page.pictures.map(({ pixels }) => pixels).filter((pixels) => pixels !== null);
  const reads = pictures.map((pixels) => pictureCharts(pixels, colours)).filter(({ charts }) => charts.length > 0);
  if (reads.length === 0) return null;
  return { charts: reads.flatMap(({ charts }) => charts), problems: reads.flatMap(({ problems }) => problems) };
}

const noChart = (where: string): Problem => ({
  where,
  expected: "a chart: cells side by side in rows, two kinds of them at least",
  got: "nothing drawn that is one",
  severity: "fault",
});

const pictureWithin: Problem = {
  where: "the drawing",
  expected: "a chart that is drawn",
  got: "a picture laid into it: save that picture by itself as PNG, and take that",
  severity: "fault",
};

async function pdfCharts(path: string, bytes: Uint8Array, { colours, pages }: Asked): Promise<ReadCharts> {
  const { value: pdf, problems } = await openPdf(bytes);
  if (!pdf) return { charts: [], problems };
  try {
    const wanted = pages ?? Array.from({ length: Math.min(pdf.pages, MOST_PAGES) }, (_, index) => index + 1);
    const beyond = wanted.find((page) => page > pdf.pages);
    if (beyond !== undefined)
      throw new Refusal(EXIT.usage, `--page: expected 1 to ${pdf.pages}, the pages of ${path}, found ${beyond}.`);
    const charts: ReadChart[] = [];
    const told: Problem[] = [];
    for (const page of wanted) {
      const read = await pageCharts(pdf, page, colours);
      charts.push(...read.charts.map((chart) => ({ ...chart, page })));
      told.push(...read.problems.map((problem) => ({ ...problem, where: `page ${page}, ${problem.where}` })));
    }
    if (pages === null && pdf.pages > MOST_PAGES) told.push(tooMany(pdf.pages));
    // Pages without a chart are told only where a chart was looked for on them, or where no page has one.
    const faults = charts.length > 0 && pages === null ? told.filter((problem) => !isFault(problem)) : told;
    return { charts, problems: [...problems, ...faults] };
  } finally {
    pdf.close();
  }
}

type OpenPdf = NonNullable<Awaited<ReturnType<typeof openPdf>>["value"]>;

async function pageCharts(pdf: OpenPdf, page: number, colours: number | undefined): Promise<ReadCharts> {
  const drawn = await pdf.primitives(page);
  const read = drawn.value && readChartPage(drawn.value);
  if (read) return { charts: read.charts, problems: [...drawn.problems, ...read.problems] };
  // Words and tables drawn large look like charts to who reads pictures, and take their time.
  if (drawn.value && !showsMore(drawn.value)) return { charts: [], problems: [...drawn.problems, noChart("the page")] };
  const picture = await pdf.picture(page, PICTURE_LONGER);
  if (!picture.value) return { charts: [], problems: [...drawn.problems, ...picture.problems, noChart("the page")] };
  const { charts, problems } = pictureCharts(picture.value, colours);
  return { charts, problems: [...drawn.problems, ...picture.problems, ...problems] };
}

const tooMany = (pages: number): Problem => ({
  where: "the PDF",
  expected: `at most ${counted(MOST_PAGES, "page")} at once`,
  got: `${pages}; the first ${MOST_PAGES} were read, --page chooses others`,
  severity: "doubt",
});

/** "3", "2-5", "2,4"; null where nothing was said. Refuses with 64. */
function pagesOf(text: string | undefined): number[] | null {
  if (text === undefined) return null;
  const pages = text.split(",").flatMap((part) => {
    const [, from, to] = /^\s*(\d{1,4})(?:\s*[-–]\s*(\d{1,4}))?\s*$/.exec(part) ?? [];
    const [first, last] = [Number(from ?? 0), Number(to ?? from ?? 0)];
    return first < 1 || last < first ? [0] : Array.from({ length: last - first + 1 }, (_, index) => first + index);
  });
  if (pages.includes(0))
    throw new Refusal(EXIT.usage, `--page: expected pages like 3, 2-5 or 2,4, found ${JSON.stringify(text)}.`);
  return [...new Set(pages)];
}

/** Pages that are read where none are named: a pattern is rarely longer. Our choice. */
const MOST_PAGES = 40;
/** Pixels, the longer side of a page that has to be drawn: squared paper of 2 mm on A3 still has 10 pixels to a square. Our choice. */
const PICTURE_LONGER = 2400;
