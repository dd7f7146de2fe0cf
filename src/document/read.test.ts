/** What is told of files that are wrong, sentence by sentence, and that nothing at all makes the reader throw. */
import { readdirSync, readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { isFault, problemSentence } from "../base/problem.ts";
import { readProject } from "./read.ts";
import { writeProject } from "./write.ts";

const folder = "test/files/v1/";
const everyField = readFileSync(`${folder}every-field.twostrand.json`, "utf8");

/** The frozen file with one field replaced; `undefined` takes it out. */
function withField(path: string, value: unknown): string {
  const file = JSON.parse(everyField) as Record<string, unknown>;
  const steps = path.split("/");
  const last = steps.pop()!;
  let place: Record<string, unknown> = file;
  for (const step of steps) place = place[step] as Record<string, unknown>;
  if (value === undefined) delete place[last];
  else place[last] = value;
  return JSON.stringify(file);
}

const sentences = (text: string): string[] =>
  readProject(text).problems.map((problem) => `${problem.severity}: ${problemSentence(problem)}`);

describe("files of every released version open for ever", () => {
  it.each(readdirSync(folder))("%s opens without a problem and saves to the same bytes", (name) => {
    const text = readFileSync(folder + name, "utf8");
    const { value, problems } = readProject(text);
    expect(problems).toEqual([]);
    expect(writeProject(value!)).toBe(text);
  });
});

describe("what a wrong file is told", () => {
  const head = '{ "format": "twostrand-project", "version": 1,\n  ';
  it.each([
    ["", "fault: Line 1, column 1: expected a value, found the end of the file."],
    ["{", 'fault: Line 1, column 2: expected a name in quotes ", found the end of the file.'],
    [`${head}"name" "x" }`, 'fault: Line 2, column 10: expected ":", found "\\"".'],
    [`${head}"name": "x"\n  "yarns": [] }`, 'fault: Line 3, column 3: expected "," or "}", found "\\"".'],
    [`${head}"name": 'x' }`, 'fault: Line 2, column 11: expected a value, found "\'".'],
    [
      `${head}"name": "x\n" }`,
      'fault: Line 2, column 13: expected a quote " that ends the text, found the end of the line.',
    ],
    ["[1, 2", 'fault: Line 1, column 6: expected "," or "]", found the end of the file.'],
    ["[1, ]", 'fault: Line 1, column 5: expected a value, found "]".'],
    ["{} {}", 'fault: Line 1, column 4: expected the end of the file, found "{".'],
    ["[NaN]", 'fault: Line 1, column 2: expected a value, found "N".'],
    ["[01]", 'fault: Line 1, column 3: expected "," or "]", found "1".'],
    ["[]", 'fault: The file: expected an object with "format": "twostrand-project", found an empty list.'],
    ["null", 'fault: The file: expected an object with "format": "twostrand-project", found null.'],
    ["{}", 'fault: Format: expected "twostrand-project", found nothing.'],
    ['{"format":"twostrand-shelf"}', 'fault: Format: expected "twostrand-project", found "twostrand-shelf".'],
    ['{"format":"twostrand-project","version":0}', "fault: Version: expected a whole number from 1, found 0."],
    [
      '{"format":"twostrand-project","version":2}',
      "fault: Version: expected at most 1, found 2: a newer Twostrand wrote this file, open it there; it has been left as it was.",
    ],
    [
      `${"[".repeat(5000)}${"]".repeat(5000)}`,
      "fault: The file: expected objects and lists nested at most 100 deep, found deeper ones.",
    ],
  ])("%s", (text, sentence) => expect(sentences(text)).toEqual([sentence]));

  it.each<[string, unknown, string]>([
    ["name", 7, "fault: Name: expected a text, found 7."],
    ["yarns", undefined, "fault: Yarns: expected a list of yarns, found nothing."],
    ["pattern/gauge/rows", 0, "fault: Pattern.gauge.rows: expected a number above 0, found 0."],
    ["pattern/gauge/rows", 1e-9, "fault: Pattern.gauge.rows: expected a number of 0.1 or more, found 1e-9."],
    ["pattern/gauge/rows", 1e9, "fault: Pattern.gauge.rows: expected a number up to 1000, found 1000000000."],
    ["yarns/0/metresPer100g", 1e300, "fault: Yarns[0].metresPer100g: expected a number up to 1000000, found 1e+300."],
    ["pattern/colours", [], "fault: Pattern.colours: expected at least one colour, found an empty list."],
    [
      "pattern/colours/0/id",
      " ",
      'fault: Pattern.colours[0].id: expected one printable character that is not a space, a quote, a backslash or "-", found " ".',
    ],
    ["pattern/gauge/rows", null, "fault: Pattern.gauge.rows: expected a number above 0, found null."],
    [
      "pattern/colours/0/shade/hex",
      "#12345",
      'fault: Pattern.colours[0].shade.hex: expected a colour like #e8e2d2, found "#12345".',
    ],
    [
      "pattern/colours/0/shade",
      {},
      "fault: Pattern.colours[0].shade: expected a shade with hex or lab, found an object.",
    ],
    ["yarns/0/shade/lab", [101, 0, 0], "fault: Yarns[0].shade.lab[0]: expected L* between 0 and 100, found 101."],
    ["yarns/0/shade/lab", [50, 0], "fault: Yarns[0].shade.lab: expected three numbers, L* a* b*, found a list of 2."],
    ["yarns/0/shade/lab", [50, null, 0], "fault: Yarns[0].shade.lab[1]: expected a* between -160 and 160, found null."],
    ["yarns/0/grams", -1, "fault: Yarns[0].grams: expected a number of 0 or more, found -1."],
    ["yarns/2/flecks/1/share", 1.5, "fault: Yarns[2].flecks[1].share: expected a share between 0 and 1, found 1.5."],
    [
      "yarns/2/flecks",
      [],
      "fault: Yarns[2]: expected a yarn with a shade, or with flecks that have a share, found an object.",
    ],
    ["colourways/1/id", "w1", 'fault: Colourways[1].id: expected an id that no other colourway has, found "w1".'],
    [
      "yarns/1/id",
      "",
      'fault: Yarns[1].id: expected an id (a text that is not empty and no word kept by the program), found "".',
    ],
    [
      "yarns/1/id",
      "__proto__",
      'fault: Yarns[1].id: expected an id (a text that is not empty and no word kept by the program), found "__proto__".',
    ],
    ["colourways/1/yarns/b", "y99", 'fault: Colourways[1].yarns.b: expected the id of one of the yarns, found "y99".'],
    [
      "colourways/1/changes/0/yarn",
      "y9",
      'fault: Colourways[1].changes[0].yarn: expected the id of one of the yarns, found "y9".',
    ],
    [
      "colourways/1/changes/0/colour",
      "Z",
      'fault: Colourways[1].changes[0].colour: expected the id of one of the chart\'s colours, found "Z".',
    ],
    [
      "colourways/1/changes/1/at",
      { chart: "c9" },
      'fault: Colourways[1].changes[1].at.chart: expected the id of one of the charts, found "c9".',
    ],
    [
      "colourways/1/changes/1/at",
      {},
      "fault: Colourways[1].changes[1].at: expected a place with either a section or a chart, found an object.",
    ],
    [
      "colourways/1/overStitched/0/cells/0",
      [7, 1],
      "fault: Colourways[1].overStitched[0].cells[0]: expected a stitch inside the chart, 6 rows by 4 stitches, found [7, 1].",
    ],
    [
      "colourways/1/overStitched/0/lines/0/1",
      [0, 5],
      "fault: Colourways[1].overStitched[0].lines[0]: expected corners inside the chart, 6 rows by 4 stitches, found [0, 5].",
    ],
    [
      "pattern/colours/1/id",
      "bb",
      'fault: Pattern.colours[1].id: expected one printable character that is not a space, a quote, a backslash or "-", found "bb".',
    ],
    ["pattern/charts/0/rows", [], "fault: Pattern.charts[0].rows: expected at least one row, found an empty list."],
    ["pattern/charts/0/rows/2", "Abb", "fault: Chart c1, row 4: expected 4 stitches, found 3."],
    [
      "pattern/charts/0/rows/5",
      "AAAZ",
      'fault: Chart c1, row 1: expected the chart\'s colours only (A b +) or -, found "Z".',
    ],
    ["pattern/charts/1/rows", ["--", "--"], "fault: Pattern.charts[1].rows: expected at least one stitch, found none."],
    ["pattern/charts/1/rows", [""], "fault: Pattern.charts[1].rows: expected at least one stitch, found none."],
    [
      "pattern/charts/0/bands/0/rows",
      [4, 2],
      "fault: Pattern.charts[0].bands[0].rows: expected two whole numbers [from, to], from 1, in this order, found a list of 2.",
    ],
    [
      "pattern/charts/0/bands/1/rows",
      [6, 7],
      "fault: Pattern.charts[0].bands[1].rows: expected rows between 1 and 6, found [6, 7].",
    ],
    [
      "pattern/sections/0/chart",
      "c9",
      'fault: Pattern.sections[0].chart: expected the id of one of the charts, found "c9".',
    ],
    ["pattern/sections/0/startRow", 7, "fault: Pattern.sections[0].startRow: expected a row between 1 and 6, found 7."],
    [
      "pattern/sections/0/stitches/38",
      undefined,
      "fault: Pattern.sections[0].stitches: expected a number of stitches for size 38, found nothing.",
    ],
    [
      "swatches/0/looks/0/verdict",
      "nice",
      'fault: Swatches[0].looks[0].verdict: expected lost, faint, clear or strong, found "nice".',
    ],
  ])("%s = %j", (path, value, sentence) => expect(sentences(withField(path, value))).toEqual([sentence]));

  it("a field named __proto__ where ids are looked up is a fault and pollutes nothing", () => {
    const text = everyField.replace('"yarns": { "A": "y1"', '"yarns": { "__proto__": { "grams": 1 }, "A": "y1"');
    expect(sentences(text)).toEqual(['fault: Colourways[0].yarns: expected ids only, found "__proto__".']);
    expect(({} as Record<string, unknown>)["grams"]).toBeUndefined();
  });
});

describe("what is doubted, and opens", () => {
  it.each<[string, unknown, string]>([
    [
      "colourways/0/yarns/b",
      undefined,
      "doubt: Colourways[0].yarns: expected a yarn for every chart colour, found none for b.",
    ],
    ["colourways/0/yarns/Z", "y1", 'doubt: Colourways[0].yarns: expected the ids of chart colours only, found "Z".'],
    [
      "colourways/1/from",
      "gone",
      'doubt: Colourways[1].from: expected the id of one of the colourways, or null, found "gone".',
    ],
    [
      "colourways/1/changes/0/at/rounds",
      [60, 300],
      "doubt: Colourways[1].changes[0].at.rounds: expected rounds between 1 and 120, found [60, 300].",
    ],
    [
      "pattern/colours/1/role",
      "main",
      "doubt: Pattern.colours[1].role: expected only one main colour, found a second one.",
    ],
    [
      "pattern/charts/0/bands/1/rows",
      [4, 6],
      "doubt: Pattern.charts[0].bands[1].rows: expected rows that no other band has, found row 4.",
    ],
    [
      "pattern/sections/0/startColumn/XL",
      1,
      'doubt: Pattern.sections[0].startColumn: expected the ids of sizes only, found "XL".',
    ],
    ["yarns/2/flecks/1/share", 0.2, "doubt: Yarns[2].flecks: expected shares that add up to at most 1, found 1.10."],
    [
      "swatches/0/colourway",
      "gone",
      'doubt: Swatches[0].colourway: expected the id of one of the colourways, found "gone".',
    ],
    [
      "knitting/weighed/0/yarn",
      "gone",
      'doubt: Knitting.weighed[0].yarn: expected the id of one of the yarns, found "gone".',
    ],
  ])("%s = %j", (path, value, sentence) => {
    const text = withField(path, value);
    expect(sentences(text)[0]).toBe(sentence);
    expect(readProject(text).value).toEqual(JSON.parse(text));
  });
});

describe("laws of reading", () => {
  /** Every place in the frozen file, as a path of keys. */
  const paths: string[][] = [];
  const walk = (value: unknown, path: string[]): void => {
    if (path.length > 0) paths.push(path);
    if (typeof value === "object" && value !== null)
      for (const [key, inner] of Object.entries(value)) walk(inner, [...path, key]);
  };
  walk(JSON.parse(everyField), []);

  it("never throws on any text", () => {
    const text = fc.oneof(fc.string({ unit: "binary" }), fc.json(), fc.mixedCase(fc.constant(everyField)));
    fc.assert(
      fc.property(text, (source) => {
        const { value, problems } = readProject(source);
        expect(value === null).toBe(problems.some(isFault));
      }),
      { seed: 7, numRuns: 300 },
    );
  });

  it("never throws when text is cut off or a character is changed, and always names the line", () => {
    fc.assert(
      fc.property(fc.nat(everyField.length - 2), fc.string({ maxLength: 1 }), (at, character) => {
        const cut = readProject(everyField.slice(0, at)).problems;
        expect(cut).toHaveLength(1);
        expect(cut[0]!.line).toBe(everyField.slice(0, at).split("\n").length);
        const { value, problems } = readProject(everyField.slice(0, at) + character + everyField.slice(at + 1));
        expect(value === null).toBe(problems.some(isFault));
      }),
      { seed: 7, numRuns: 300 },
    );
  });

  it("never throws when any part is replaced by any value, and what it lets through is the file's own value", () => {
    const anything = fc.oneof(
      fc.jsonValue(),
      fc.constantFrom(null, -1, 0, 1, 1e9, 0.5, "", "y1", "A", "c1", "__proto__", [], {}, [1, 2], [2, 1]),
    );
    fc.assert(
      fc.property(fc.constantFrom(...paths), anything, (path, value) => {
        const text = withField(path.join("/"), value);
        const outcome = readProject(text);
        expect(outcome.value === null).toBe(outcome.problems.some(isFault));
        if (outcome.value) expect(outcome.value).toEqual(JSON.parse(text));
      }),
      { seed: 7, numRuns: 1000 },
    );
  });
});

describe("more than a computer would hold", () => {
  const small = {
    format: "twostrand-project",
    version: 1,
    name: "",
    pattern: {
      gauge: { stitches: 28, rows: 30 },
      colours: [{ id: "A", shade: { hex: "#fff" } }],
      charts: [{ id: "c1", rows: ["A".repeat(300)] }],
    },
    yarns: Array.from({ length: 300 }, (_, index) => ({ id: `y${index}`, name: "", shade: { hex: "#000" } })),
    colourways: [{ id: "w1", yarns: { A: "y0" } }],
  };
  const found = (fields: object): string[] => sentences(JSON.stringify({ ...small, ...fields }));

  it("is a garment of ten thousand million stitches, which is refused where it goes too far", () => {
    const section = (id: string, rounds: number, stitches: number) => ({
      id,
      chart: "c1",
      rounds: { M: rounds },
      stitches: { M: stitches },
    });
    const sized = (sections: object[]) => ({ pattern: { ...small.pattern, sizes: [{ id: "M" }], sections } });
    expect(found(sized([section("s1", 2000, 4000), section("s2", 100_000, 100_000)]))).toEqual([
      "fault: Pattern.sections[1].rounds.M: expected a garment of at most 10000000 stitches, found 100000 rounds of up to 100000.",
    ]);
    expect(found(sized([section("s1", 2000, 5000)]))).toEqual([]);
  });

  it("is a chart in more kinds of stitch than one byte tells apart", () => {
    const stitched = (count: number) => ({
      colourways: [
        {
          id: "w1",
          yarns: { A: "y0" },
          overStitched: small.yarns
            .slice(0, count)
            .map(({ id }, index) => ({ at: { chart: "c1" }, cells: [[1, index + 1]], yarn: id })),
        },
      ],
    });
    expect(found(stitched(254))).toEqual([]);
    expect(found(stitched(255))).toEqual([
      "fault: Colourways[0]: expected at most 255 kinds of stitch, by colour and yarn, in chart c1, found 256.",
    ]);
  });
});
