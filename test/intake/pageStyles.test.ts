/** Charts drawn on pages in ways that programs have and a painter of cells would not think of: each cell by cell. */
import { describe, expect, it } from "vitest";
import { openPdf } from "../../src/cli/pdf.ts";
import { readChartPage } from "../../src/intake/chartPage.ts";
import { showsMore } from "../../src/intake/pagePrimitives.ts";
import type { ReadChart } from "../../src/intake/readChart.ts";
import { pageOfSvg } from "../../src/intake/svgPage.ts";
import { pdfOfContent } from "./pdfByHand.ts";

const ROWS = [
  "..#...#...#.",
  ".###.###.###",
  "..#...#...#.",
  "............",
  "oo.oo.oo.oo.",
  "o.oo.oo.oo.o",
  "............",
  "#..#..#..#..",
  ".##.##.##.##",
];
const HEX: Record<string, string> = { ".": "#e8e2d2", "#": "#3d4a2c", o: "#c05a3c" };
const [LEFT, TOP, WIDE, HIGH] = [60, 90, 12, 10];

/** Calls for every cell, with its place. */
const each = (paint: (letter: string, x: number, y: number) => string, skip = ""): string =>
  ROWS.flatMap((row, down) =>
    [...row].map((letter, across) =>
      skip.includes(letter) ? "" : paint(letter, LEFT + across * WIDE, TOP + down * HIGH),
    ),
  ).join("");
const rect = (x: number, y: number, width: number, height: number, fill: string, more = ""): string =>
  `<rect x="${x}" y="${y}" width="${width}" height="${height}" fill="${fill}" ${more}/>`;
const cells = (skip = ""): string => each((letter, x, y) => rect(x, y, WIDE, HIGH, HEX[letter]!), skip);
const ground = rect(LEFT, TOP, ROWS[0]!.length * WIDE, ROWS.length * HIGH, HEX["."]!);
const lines = (colour = "#444", width = 0.4): string =>
  [
    ...Array.from({ length: ROWS[0]!.length + 1 }, (_, at) => `M${LEFT + at * WIDE} ${TOP}v${ROWS.length * HIGH}`),
    ...Array.from({ length: ROWS.length + 1 }, (_, at) => `M${LEFT} ${TOP + at * HIGH}h${ROWS[0]!.length * WIDE}`),
  ]
    .map((path) => `<path d="${path}" stroke="${colour}" stroke-width="${width}" fill="none"/>`)
    .join("");

function chartsOf(content: string): readonly ReadChart[] | null {
  const { value } = pageOfSvg(
    `<svg xmlns="http://www.w3.org/2000/svg" width="500" height="400" viewBox="0 0 500 400">${content}</svg>`,
  );
  return readChartPage(value!)?.charts ?? null;
}

/** Each id for the letter it stands for where it is first met; the same letters then say the same chart. */
function lettersOf({ rows }: ReadChart, drawn: readonly string[]): string[] {
  const letters = new Map<string, string>([["-", "-"]]);
  for (const [down, row] of rows.entries())
    for (const [across, id] of [...row].entries()) {
      const letter = drawn[down]?.[across] ?? "?";
      if (!letters.has(id) && ![...letters.values()].includes(letter)) letters.set(id, letter);
    }
  return rows.map((row) => [...row].map((id) => letters.get(id) ?? "!").join(""));
}

function expectDrawn(charts: readonly ReadChart[] | null | undefined, how: { colours?: boolean } = {}): ReadChart {
  expect(charts).toHaveLength(1);
  const chart = charts![0]!;
  expect(lettersOf(chart, ROWS)).toEqual(ROWS);
  if (how.colours !== false)
    expect(
      Object.values(chart.colours)
        .map(({ hex }) => hex)
        .sort(),
    ).toEqual(Object.values(HEX).sort());
  return chart;
}

describe("cells drawn in ways of their own", () => {
  it("only what differs from a ground, which goes on above and below them", () => {
    const cut = ROWS.map((row, at) => (at === 0 || at === 8 ? row.replaceAll(/[#o]/g, ".") : row));
    const some = cut.flatMap((row, down) => [...row].map((letter, across) => letter === "." ? "" : rect(LEFT + across * WIDE, TOP + down * HIGH, WIDE, HIGH, HEX[letter]!, 'stroke="#000"'))); // prettier-ignore
    const charts = chartsOf(ground + some.join(""));
    expect(charts).toHaveLength(1);
    expect(lettersOf(charts![0]!, cut)).toEqual(cut);
  });

  it.each([0.08, 0.25, 0.4])("each apart from the next by %d of a cell", (gap) => {
    const apart = (letter: string, x: number, y: number): string =>
      rect(x + (gap * WIDE) / 2, y + (gap * HIGH) / 2, WIDE * (1 - gap), HIGH * (1 - gap), HEX[letter]!);
    expectDrawn(chartsOf(each(apart)));
  });

  it("dots, and squares with cut corners, without a line", () => {
    expectDrawn(chartsOf(each((letter, x, y) => `<circle cx="${x + 6}" cy="${y + 5}" r="4.4" fill="${HEX[letter]!}"/>`))); // prettier-ignore
    expectDrawn(chartsOf(each((letter, x, y) => `<path d="M${x + 2} ${y}h8l2 2v6l-2 2h-8l-2 -2v-6z" fill="${HEX[letter]!}"/>`))); // prettier-ignore
  });

  it("stitches of two leaves", () => {
    const leaves = (letter: string, x: number, y: number): string =>
      `<path d="M${x + 0.6} ${y}l5.4 5v5l-5.4 -5z" fill="${HEX[letter]!}"/><path d="M${x + 11.4} ${y}l-5.4 5v5l5.4 -5z" fill="${HEX[letter]!}"/>`;
    expectDrawn(chartsOf(each(leaves)));
    expectDrawn(chartsOf(lines("#999", 0.2) + each(leaves)));
  });

  it("on a card with a shadow, under a bar with its name, with a broken line at its middle", () => {
    const card = rect(LEFT - 20, TOP - 40, 12 * WIDE + 60, 9 * HIGH + 70, "#f5f3ec", 'stroke="#777"');
    const shadow = rect(LEFT + 3, TOP + 3, 12 * WIDE, 9 * HIGH, "#c8c8c8");
    const frame = rect(LEFT, TOP, 12 * WIDE, 9 * HIGH, "none", 'stroke="#000" stroke-width="1.2"');
    const words = `<text x="${LEFT}" y="${TOP - 14}" font-size="12">Snow line</text>`;
    expect(expectDrawn(chartsOf(card + words + shadow + cells() + frame)).name).toBe("Snow line");
    const bar = rect(LEFT, TOP - 20, 12 * WIDE, 20, "#28405a") + `<text x="64" y="85" font-size="12" fill="#fff">Snow line</text>`; // prettier-ignore
    expect(expectDrawn(chartsOf(bar + cells() + lines())).name).toBe("Snow line");
    // As printers write a broken line: each dash for itself.
    const dashes = Array.from({ length: 20 }, (_, at) => `<path d="M${LEFT + 6 * WIDE} ${TOP - 6 + at * 5}v3" stroke="#00c" stroke-width="1.2"/>`); // prettier-ignore
    expectDrawn(chartsOf(cells() + lines() + dashes.join("")));
  });

  it("on bare paper, where nothing ties some of them to the others", () => {
    const charts = chartsOf(cells("."));
    expect(charts).toHaveLength(1);
    expect(lettersOf(charts![0]!, ROWS)).toEqual(ROWS);
  });

  it("a name above its key is the chart's, and no name in the key", () => {
    const key = Object.entries(HEX).map(([, hex], at) => rect(60 + at * 100, 60, 10, 10, hex, 'stroke="#000"') + `<text x="${76 + at * 100}" y="68" font-size="9">${["Hoar", "Moss", "Rowan"][at]}</text>`); // prettier-ignore
    const chart = expectDrawn(chartsOf(`<text x="60" y="30" font-size="14">Wind band</text>` + key.join("") + cells()));
    expect(chart.name).toBe("Wind band");
    expect(new Set(Object.values(chart.colours).map(({ name }) => name))).toEqual(new Set(["Hoar", "Moss", "Rowan"]));
  });
});

describe("fillings that are no plain colour", () => {
  const filled = (letter: string, x: number, y: number): string =>
    rect(x, y, WIDE, HIGH, letter === "." ? "#fff" : `url(#${letter === "#" ? "one" : "two"})`);
  const hatching = (id: string, d: string): string =>
    `<pattern id="${id}" width="3" height="3" patternUnits="userSpaceOnUse"><path d="${d}" stroke="#000" stroke-width="0.5"/></pattern>`;

  it("hatchings as dark as one another are two kinds", () => {
    const defs = hatching("one", "M0 0L3 3") + hatching("two", "M0 3L3 0");
    const chart = expectDrawn(chartsOf(`<defs>${defs}</defs>` + each(filled) + lines()), { colours: false });
    // A stroke of 3√2 × 0.5 in a tile of 9 covers 0.2357 of it: 255 × (1 − 0.2357) = 195 = c3, worked by hand.
    expect(Object.values(chart.colours).map(({ hex }) => hex)).toContain("#c3c3c3");
  });

  it("a run of colours stands for its mean", () => {
    const run = (id: string, from: string, to: string): string =>
      `<linearGradient id="${id}"><stop offset="0" stop-color="${from}"/><stop offset="1" stop-color="${to}"/></linearGradient>`;
    const defs = run("one", "#404040", "#606060") + run("two", "#a00000", "#c00000");
    const chart = expectDrawn(chartsOf(`<defs>${defs}</defs>` + each(filled)), { colours: false });
    const hexes = Object.values(chart.colours).map(({ hex }) => hex);
    expect(new Set(hexes)).toEqual(new Set(["#ffffff", "#505050", "#b00000"]));
  });

  it("let through by a window of many cells", () => {
    const windows = Object.entries(HEX).map(([letter, hex], at) => {
      const own = each((_, x, y) => rect(x, y, WIDE, HIGH, "#000"), Object.keys(HEX).filter((other) => other !== letter).join("")); // prettier-ignore
      return `<clipPath id="w${at}">${own}</clipPath>${rect(LEFT, TOP, 12 * WIDE, 9 * HIGH, hex, `clip-path="url(#w${at})"`)}`;
    });
    expectDrawn(chartsOf(windows.join("")));
  });

  it("where a filling is not known nothing is read, and the page is one to be looked at", () => {
    const defs = `<pattern id="one" width="3" height="3" patternUnits="userSpaceOnUse"><image href="data:," width="3" height="3"/></pattern>${hatching("two", "M0 3L3 0")}`;
    const { value } = pageOfSvg(
      `<svg xmlns="http://www.w3.org/2000/svg" width="500" height="400"><defs>${defs}</defs>${each(filled)}${lines()}</svg>`,
    );
    expect(readChartPage(value!)).toBeNull();
    expect(showsMore(value!)).toBe(true);
  });
});

describe("in a PDF", () => {
  const rgb = (hex: string): string =>
    [1, 3, 5].map((at) => (Number.parseInt(hex.slice(at, at + 2), 16) / 255).toFixed(5)).join(" ");
  const content = (paint: (letter: string, x: number, y: number) => string): string =>
    each((letter, x, y) => `${paint(letter, x, 400 - y - HIGH)}\n`);
  async function chartsOfPdf(text: string, parts: Parameters<typeof pdfOfContent>[1] = {}) {
    const { value: file } = await openPdf(pdfOfContent(text, parts));
    const { value: page } = await file!.primitives(1);
    file!.close();
    return readChartPage(page!)?.charts ?? null;
  }

  it("cells that are pictures of one colour, in the content or beside it", async () => {
    const within = content((letter, x, y) => `q ${WIDE} 0 0 ${HIGH} ${x} ${y} cm BI /W 1 /H 1 /CS /RGB /BPC 8 /F /AHx ID ${HEX[letter]!.slice(1)}> EI Q`); // prettier-ignore
    expectDrawn(await chartsOfPdf(within));
    const beside = content((letter, x, y) => `q ${WIDE} 0 0 ${HIGH} ${x} ${y} cm /I${letter.charCodeAt(0)} Do Q`);
    const pictures = Object.entries(HEX).map(([letter, hex]) => ({
      name: `I${letter.charCodeAt(0)}`,
      dictionary: "/Type /XObject /Subtype /Image /Width 2 /Height 2 /ColorSpace /DeviceRGB /BitsPerComponent 8",
      data: Uint8Array.from(Buffer.from(hex.slice(1).repeat(4), "hex")),
    }));
    expectDrawn(await chartsOfPdf(beside, { XObject: pictures }));
  });

  it("cells filled with tiles and with runs of colour", async () => {
    const tiles = Object.entries(HEX).map(([letter, hex]) => ({
      name: `P${letter.charCodeAt(0)}`,
      dictionary:
        "/Type /Pattern /PatternType 1 /PaintType 1 /TilingType 1 /BBox [0 0 4 4] /XStep 4 /YStep 4 /Resources << >>",
      data: Uint8Array.from(Buffer.from(`${rgb(hex)} rg 0 0 4 4 re f`)),
    }));
    const filled = content(
      (letter, x, y) => `/Pattern cs /P${letter.charCodeAt(0)} scn ${x} ${y} ${WIDE} ${HIGH} re f`,
    );
    expectDrawn(await chartsOfPdf(filled, { Pattern: tiles }));
    const runs = Object.entries(HEX).map(([letter, hex]) => ({
      name: `S${letter.charCodeAt(0)}`,
      dictionary: `/ShadingType 2 /ColorSpace /DeviceRGB /Coords [0 0 0 1] /Extend [true true] /Function << /FunctionType 2 /Domain [0 1] /N 1 /C0 [${rgb(hex)}] /C1 [${rgb(hex)}] >>`,
    }));
    const shaded = content((letter, x, y) => `q ${x} ${y} ${WIDE} ${HIGH} re W n ${WIDE} 0 0 ${HIGH} ${x} ${y} cm /S${letter.charCodeAt(0)} sh Q`); // prettier-ignore
    expectDrawn(await chartsOfPdf(shaded, { Shading: runs }));
  });
});

it("a diagram of bars, and a table of many sizes, are no charts, and their pages nothing to be looked into", () => {
  const bars = Array.from({ length: 9 }, (_, at) => rect(80 + at * 45, 400 - (53 + ((at * 71) % 97) * 2.3), 30, 53 + ((at * 71) % 97) * 2.3, `#${(at * 1_100_003 + 0x204060).toString(16).padStart(6, "0").slice(-6)}`)); // prettier-ignore
  const ruled = Array.from({ length: 6 }, (_, at) => `<path d="M60 ${90 + at * 60}h440" stroke="#ccc"/>`).join("");
  expect(chartsOf(`<path d="M60 90v310h440" stroke="#000" fill="none"/>${bars.join("")}${ruled}`)).toBeNull();
  const table = Array.from({ length: 48 }, (_, at) => rect(20 + (at % 6) * 70, 20 + Math.floor(at / 6) * 18, 70, 18, at < 6 ? "#e6e6f0" : "none", 'stroke="#000"') + `<text x="${24 + (at % 6) * 70}" y="${33 + Math.floor(at / 6) * 18}" font-size="9">${at < 6 ? ["Size", "Chest", "Length", "Sleeve", "Metres", "Balls"][at] : `${at * 7 + 12} cm`}</text>`).join(""); // prettier-ignore
  const { value } = pageOfSvg(`<svg xmlns="http://www.w3.org/2000/svg" width="500" height="400">${table}</svg>`);
  expect(readChartPage(value!)).toBeNull();
  expect(showsMore(value!)).toBe(false);
});
