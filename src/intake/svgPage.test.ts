/** An SVG drawing read as data: what it draws, and what it may not do. */
import { parse, formatHex } from "culori";
import { describe, expect, it } from "vitest";
import { problemSentence } from "../base/problem.ts";
import { readChartPage } from "./chartPage.ts";
import type { PagePrimitives } from "./pagePrimitives.ts";
import { cssColour } from "./svg/colour.ts";
import { pageOfSvg } from "./svgPage.ts";

const svg = (content: string, more = ""): string =>
  `<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" width="96" height="96" ${more}>${content}</svg>`;
const pageOf = (content: string, more = ""): PagePrimitives => pageOfSvg(svg(content, more)).value!;
const boxOf = ({ shapes }: PagePrimitives, at = 0): number[] => {
  const points = shapes[at]!.outline.flat();
  const [xs, ys] = [points.map(([x]) => x), points.map(([, y]) => y)];
  return [Math.min(...xs), Math.min(...ys), Math.max(...xs), Math.max(...ys)].map(
    (value) => Math.round(value * 100) / 100,
  );
};
const sentenceOf = (text: string): string => pageOfSvg(text).problems.map(problemSentence).join(" ");

describe("what is drawn", () => {
  // 96 user units are an inch, which is 72 points (CSS Values and Units, 6.2): 3/4 point to a unit.
  it.each([
    ["a box", '<rect x="4" y="8" width="12" height="16"/>', [3, 6, 12, 18]],
    ["a path with relative orders", '<path d="m4 8h12v16h-12z"/>', [3, 6, 12, 18]],
    ["a polygon", '<polygon points="4,8 16,8 16,24 4,24"/>', [3, 6, 12, 18]],
    ["a circle", '<circle cx="40" cy="40" r="20"/>', [15, 15, 45, 45]],
    ["an arc's half circle", '<path d="M20 40A20 20 0 0 1 60 40"/>', [15, 15, 45, 30]],
    ["millimetres", '<rect width="25.4mm" height="12.7mm"/>', [0, 0, 72, 36]],
    [
      "transforms, the inner one first",
      '<g transform="translate(8 8)"><rect transform="scale(2)" width="4" height="4"/></g>',
      [6, 6, 12, 12],
    ],
    [
      "a turn about a point",
      '<rect x="10" y="10" width="20" height="4" transform="rotate(90 10 10)"/>',
      [4.5, 7.5, 7.5, 22.5],
    ],
    [
      "something used again",
      '<defs><rect id="a" width="4" height="4"/></defs><use xlink:href="#a" x="8" y="4"/>',
      [6, 3, 9, 6],
    ],
    [
      "what a clip leaves of it",
      '<clipPath id="c"><rect width="8" height="8"/></clipPath><rect width="40" height="4" clip-path="url(#c)"/>',
      [0, 0, 6, 3],
    ],
  ])("%s lies where it should", (_, content, box) => expect(boxOf(pageOf(content))).toEqual(box));

  it("a view box is fitted in its middle", () => {
    // 10 × 20 into 96 × 96 at 4.8, 24 units left free on each side.
    expect(boxOf(pageOf('<rect width="10" height="20"/>', 'viewBox="0 0 10 20"'))).toEqual([18, 0, 54, 72]);
  });

  it("paint comes from attributes, then style sheets, then its own style; what is not shown is not there", () => {
    const { shapes } = pageOf(
      "<style>/* sheet */ .m{fill:#112233} rect{fill:#445566} #one{fill:rgb(1,2,3)} g .m{fill:red}</style>" +
        '<g fill="blue"><rect class="m" width="9" height="9"/><rect width="9" height="9"/><rect id="one" class="m" width="9" height="9"/>' +
        '<circle r="4"/><circle r="4" style="fill:hsl(120 100% 25%)"/><circle r="4" display="none"/><circle r="4" fill="none"/></g>',
    );
    expect(shapes.map(({ fill }) => fill)).toEqual(["#112233", "#445566", "#010203", "#0000ff", "#008000"]);
  });

  it("colours by name are the standard's, as an independent library has them", () => {
    for (const name of "rebeccapurple lightgoldenrodyellow peru darkslategrey tomato white oldlace mediumaquamarine olivedrab".split(
      " ",
    ))
      expect(cssColour(name)?.hex, name).toBe(formatHex(parse(name)));
  });

  it("a chart of a unit to a stitch, without lines, is read", () => {
    const rows = ["abab", "bbaa", "abba", "aabb"];
    const cells = rows.flatMap((row, y) =>
      [...row].map((id, x) => `<rect x="${x}" y="${y}" width="1" height="1" class="${id}"/>`),
    );
    const page = pageOfSvg(
      `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 4 4"><style>.a{fill:#223344}.b{fill:#ddccbb}</style>${cells.join("")}</svg>`,
    ).value!;
    const [chart] = readChartPage(page)!.charts;
    const hexes = chart!.rows.map((row) =>
      [...row].map((id) => (chart!.colours[id]!.hex === "#223344" ? "a" : "b")).join(""),
    );
    expect(hexes).toEqual(rows);
  });
});

describe("what a drawing may not do", () => {
  it("words of its own making (entities) are refused, as they swell", () => {
    const laughs = Array.from({ length: 9 }, (_, n) => `<!ENTITY l${n + 1} "${`&l${n};`.repeat(10)}">`).join("");
    expect(sentenceOf(`<!DOCTYPE svg [<!ENTITY l0 "ha">${laughs}]><svg><text>&l9;</text></svg>`)).toContain("entities");
    expect(sentenceOf('<!DOCTYPE svg [<!ENTITY f SYSTEM "file:///etc/passwd">]><svg><text>&f;</text></svg>')).toContain(
      "entities",
    );
  });

  it("parts that use one another without end, or swell by use, end", () => {
    const round = '<g id="a"><use href="#b"/></g><g id="b"><use href="#a"/><rect width="4" height="4"/></g>';
    expect(pageOf(round).shapes.length).toBeLessThan(100);
    const swell = Array.from(
      { length: 12 },
      (_, n) => `<g id="s${n + 1}">${`<use href="#s${n}"/>`.repeat(10)}</g>`,
    ).join("");
    expect(sentenceOf(svg(`<defs><rect id="s0" width="1" height="1"/>${swell}</defs><use href="#s8"/>`))).toContain(
      "swells",
    );
  });

  it("scripts are not run, nothing is fetched, and both are told", () => {
    const asked =
      '<script>throw 1</script><image href="https://example.invalid/a.png" width="9" height="9"/><use href="other.svg#a"/><rect width="4" height="4" fill="url(https://example.invalid/#p)"/>';
    const { value, problems } = pageOfSvg(svg(asked));
    expect(value!.shapes).toEqual([]);
    expect(problems.map(({ severity }) => severity)).toEqual(["note"]);
    expect(sentenceOf(svg(asked))).toContain("neither run nor fetched");
  });

  it("what is damaged, deep, large or something else is told in a sentence", () => {
    expect(sentenceOf("<svg><rect")).toContain("The drawing: expected a whole SVG file, found damage");
    expect(sentenceOf("<html><body/></html>")).toContain("expected an SVG drawing");
    expect(sentenceOf("no drawing")).toContain("The drawing: expected");
    expect(sentenceOf(svg("<g>".repeat(300) + "</g>".repeat(300)))).toContain("at most 200 deep");
    expect(sentenceOf('<svg width="1e9" height="4"/>')).toContain("expected a size");
    expect(
      pageOf(
        '<rect width="1e999" height="4"/><path d="M0 0L1e400 5"/><rect width="4" height="4" transform="scale(1e308) scale(1e308)"/>',
      ).shapes,
    ).toEqual([]);
  });
});
