/** Sixty tables as people have them, each with what a person reads in it: written by hand beside the file, not taken from the reader. */
import { readdirSync, readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { readShelf, writeShelf } from "../../src/document/shelf.ts";
import { EMPTY_SHELF } from "../../src/document/shelfEdit.ts";
import { problemSentence } from "../../src/base/problem.ts";
import { readStashTable, type StashTable } from "../../src/intake/stashTable.ts";
import { textOfTable } from "../../src/intake/tableText.ts";
import type { Yarn } from "../../src/yarn/yarn.ts";

const FOLDER = "test/files/tables";

interface Expected {
  /** "name shade length amount", as `told` writes it. */
  yarns: string[];
  unshaded?: string[];
  /** Line and severity of every problem, in order. */
  problems?: string[];
  /** Words that stand in what is told. */
  says?: string[];
  /** More of what is read, by the name of a yarn. */
  more?: Record<string, Partial<Yarn>>;
  columns?: Record<string, string>;
  table?: Partial<StashTable>;
  encoding?: string;
}

const round = (value: number): number => Math.round(value * 100) / 100;
function told({ name, shade, metresPer100g, grams, lots }: Yarn): string {
  const colour = shade?.lab ? `lab ${shade.lab.map((part) => round(part)).join(" ")}` : (shade?.hex ?? "no shade");
  const amounts = lots
    ?.map((lot) => `${lot.lot ?? ""}: ${lot.grams === undefined ? "?" : round(lot.grams)}`)
    .join(", ");
  const length = metresPer100g === undefined ? "?" : round(metresPer100g);
  return [name, colour, length, amounts ?? (grams === undefined ? "?" : round(grams))].join(" | ");
}

/** Hoar and Peat with their usual amounts, as many files have them. */
const TWO = ["Hoar | #e8e2d2 | ? | 43", "Peat | #332211 | ? | 12"];
const HOAR = ["Hoar | #e8e2d2 | 420 | 43.5"];

// Units: yard 0.9144 m, ounce 28.349523125 g, pound 453.59237 g (international yard and pound, 1959); all else by hand.
const FILES: Record<string, Expected> = {
  "plain.csv": { yarns: ["Hoar | #e8e2d2 | 420 | 43", "Peat | #332211 | 420 | 12.5"], encoding: "utf-8" },
  "norwegian-bom.csv": {
    yarns: ["Sjøgrønn | #5f8f7f | 420 | 17: 43.5", "Blåbær | #3b3f5c | 420 | 12"],
    more: { Sjøgrønn: { note: "fra lua" } },
    columns: {
      Navn: "name",
      Farge: "hex",
      "Vekt (g)": "grams",
      Løpelengde: "metres per 100 g",
      Parti: "lot",
      Merknad: "note",
    },
    table: { decimal: ",", separator: ";" },
    encoding: "utf-8",
  },
  "german-windows-1252.csv": {
    yarns: ["Grüner Tümpel | #4d6b4f | 420 | 0417: 50", "Weiß | #f2efe6 | 420 | 30"],
    more: {
      "Grüner Tümpel": { maker: "Sample Mill", fibre: "Schurwolle", note: "für Fäustlinge" },
      Weiß: { note: "5 € Rest" },
    },
    encoding: "windows-1252",
  },
  // 1.5 oz is 42.52 g; 200 m in 50 g is 400 m in 100 g.
  "french-utf16.txt": {
    yarns: ["Forêt | #2f4a3a | 400 | 12: 42.52", "Écume | #d8e0dc | 420 | 40"],
    columns: { Nom: "name", Couleur: "hex", Poids: "grams", Métrage: "metres per 100 g", Bain: "lot" },
    table: { decimal: ",", separator: "\t" },
    encoding: "utf-16le",
  },
  "danish-utf16le-no-mark.csv": {
    yarns: ["Rødgrød | #a3243b | 400 | 8: 38", "Æblegrøn | #8fae5d | 400 | 12.5"],
    encoding: "utf-16le",
  },
  "swedish-utf16be-no-mark.csv": { yarns: ["Ängsull | #c9b458 | 420 | 3: 25"], encoding: "utf-16be" },
  "finnish-utf16be.csv": {
    yarns: ["Tähti | #e6e3d4 | 420 | 5: 20"],
    more: { Tähti: { fibre: "villa" } },
    encoding: "utf-16be",
  },
  "sep-line.csv": { yarns: ["Hoar, frost | #e8e2d2 | 420 | 43"], table: { separator: ";", headings: 2 } },
  "decimal-commas.csv": {
    yarns: ["Moss | lab 54.5 -12.1 20.2 | ? | 3.5", "Peat | lab 20 6 10 | ? | 1234.5"],
    more: { Moss: { shade: { lab: [54.5, -12.1, 20.2], uncertainty: 2.5 } } },
    table: { decimal: "," },
  },
  "tabs.tsv": { yarns: HOAR, table: { separator: "\t", decimal: "." } },
  "pipes.csv": { yarns: HOAR, table: { separator: "|" } },
  "pipes-framed.csv": { yarns: ["Hoar | #e8e2d2 | ? | 43.5", "Peat | #332211 | ? | 12"] },
  // The quoted cells hold two line ends, so that the second yarn stands on line 5.
  "quoted-line-ends.csv": {
    yarns: ["Hoar\n(old) | #e8e2d2 | ? | 43"],
    unshaded: ["Peat | no shade | ? | 7"],
    more: { "Hoar\n(old)": { note: 'first line\nsecond "line"' } },
    problems: ["5 fault"],
    says: ["#33221"],
  },
  "duplicate-headings.csv": {
    yarns: ["Hoar | #e8e2d2 | ? | 43"],
    more: { Hoar: { note: "soft from the hat" } },
    columns: { name: "name", hex: "hex", note: "note", "note (2)": "note", grams: "grams", "grams (2)": "not used" },
  },
  "no-headings.csv": {
    yarns: ["Hoar | #e8e2d2 | 420 | 43.5", "Peat | #332211 | 420 | 12"],
    problems: ["1 doubt"],
    table: { headings: null },
  },
  "title-above.csv": { yarns: ["Hoar | #e8e2d2 | 420 | 43"], problems: ["1 note"], table: { headings: 3 } },
  "extra-cells.csv": { yarns: TWO, problems: ["2 doubt"], says: ["soft, warm"] },
  "short-rows.csv": { yarns: ["Hoar | #e8e2d2 | ? | ?", "Peat | #332211 | ? | 12"] },
  "empty-lines.csv": { yarns: TWO, table: { headings: 3, lines: { hoar: [5], peat: [8] } } },
  "total.csv": { yarns: TWO, problems: ["4 note"], says: ["a total"] },
  "total-german.csv": { yarns: TWO, problems: ["4 note"] },
  "notes.csv": {
    yarns: ["Hoar | #e8e2d2 | ? | 43.5", "Peat | #332211 | ? | 1.5"],
    more: { Hoar: { note: "1,5 balls; from 2,3 hats" } },
    table: { decimal: "." },
  },
  "lots.csv": {
    yarns: ["Hoar | #e8e2d2 | 420 | 17: 43, 18: 20, 19: 5", "Peat | #332211 | 420 | 12"],
    table: { lines: { hoar: [2, 4, 5], peat: [3] } },
  },
  "fractions.csv": {
    yarns: [
      "Hoar | #e8e2d2 | ? | 25",
      "Peat | #332211 | ? | 25",
      "Moss | #54662b | ? | 125",
      "Rust | #a5502a | ? | 37.5",
      "Fog | #b9bdbd | ? | 75",
    ],
  },
  "about.csv": {
    yarns: [
      "Hoar | #e8e2d2 | ? | 30",
      "Peat | #332211 | ? | 12.5",
      "Moss | #54662b | ? | 28.35",
      "Rust | #a5502a | ? | 12",
      "Fog | #b9bdbd | ? | 30",
      "Snow | #f4f4f0 | ? | 62",
      "Slate | #505a63 | ? | 43",
    ],
  },
  "negative.csv": {
    yarns: ["Hoar | #e8e2d2 | 420 | ?", "Peat | #332211 | ? | 12"],
    problems: ["2 fault", "3 doubt"],
    says: ["0 or more"],
  },
  "absurd.csv": {
    yarns: ["Hoar | #e8e2d2 | 420 | 43000", "Peat | #332211 | 42000 | 12", "Moss | #54662b | 420 | ?"],
    problems: ["2 doubt", "3 doubt", "4 fault"],
    says: ["20 kg of one yarn", "15 to 3000 m"],
  },
  "bare-hex.csv": {
    yarns: [...TWO, "Moss | #54662b | ? | 7"],
    columns: { name: "name", colour: "hex", grams: "grams" },
  },
  // 232, 226, 210 are e8, e2, d2; 84, 102, 43 are 54, 66, 2b.
  "rgb.csv": {
    yarns: [...TWO, "Moss | #54662b | ? | 7"],
    unshaded: ["Rust | no shade | ? | 9"],
    problems: ["5 fault"],
  },
  // LCh 50 20 90° is Lab 50 0 20.
  "lab.csv": {
    yarns: ["Moss | lab 54 -12 20.5 | ? | 3", "Hoar | lab 90 0.5 8 | ? | 43", "Peat | lab 50 0 20 | ? | 12"],
    unshaded: ["Rust | no shade | ? | 9"],
    problems: ["5 fault"],
  },
  "colour-names.csv": {
    yarns: [],
    unshaded: ["Sock ends | no shade | ? | 12", "Hat | no shade | ? | 30", "Scarf Night sky | no shade | ? | 20"],
    problems: ["2 fault", "3 fault", "4 fault"],
  },
  "words-as-hex.csv": {
    yarns: ["Hoar | #e8e2d2 | ? | 43"],
    unshaded: ["Hat | no shade | ? | 30"],
    problems: ["3 fault"],
    says: ["dark green"],
  },
  "saved-page.csv": {
    yarns: ["Sjøgrønn | #5f8f7f | ? | 43.5", "Peat & bog | #332211 | ? | 12"],
    more: { Sjøgrønn: { note: "soft\nwarm" } },
    table: { separator: null, headings: 3 },
  },
  "formulas.csv": {
    yarns: ["=cmd|'/c calc'!A1 | #e8e2d2 | ? | 0017: 43", "=Moss | #54662b | ? | -3: ?"],
    more: { "=Moss": { note: "+1" } },
    problems: ["3 fault"],
    says: ["=20+23"],
  },
  // 459 yd in 3.5 oz: 419.71 m in 99.22 g; 230 yd in 50 g: 420.62 m in 100 g.
  "imperial.csv": {
    yarns: ["Hoar | #e8e2d2 | 422.99 | 42.52", "Peat | #332211 | 420.62 | 7.09", "Moss | #54662b | ? | 453.59"],
  },
  "per-ball.csv": {
    yarns: [
      "Hoar | #e8e2d2 | 420 | 50",
      "Peat | #332211 | 400 | 25",
      "Moss | #54662b | 400 | 0",
      "Rust | #a5502a | ? | ?",
    ],
    problems: ["5 doubt"],
  },
  // 84 m of 420 m in 100 g are 20 g; 84 yd are 76.81 m and 18.29 g.
  "metres-owned.csv": {
    yarns: ["Hoar | #e8e2d2 | 420 | 20", "Peat | #332211 | 420 | 18.29", "Moss | #54662b | ? | ?"],
    problems: ["4 doubt"],
  },
  // Classes and their overlaps: the council's categories, trade.md 2 ("baby" is 1 and 2; 300 m in 100 g lies in 2).
  "weight-classes.csv": {
    yarns: [
      "Hoar | #e8e2d2 | 420 | ?",
      "Peat | #332211 | 230 | ?",
      "Moss | #54662b | ? | ?",
      "Rust | #a5502a | ? | ?",
      "Fog | #b9bdbd | 300 | ?",
      "Snow | #f4f4f0 | ? | ?",
      "Slate | #505a63 | ? | ?",
    ],
    more: {
      Hoar: { weightClass: 1, plies: 2 },
      Peat: { weightClass: 3 },
      Moss: { weightClass: 1, plies: 4 },
      Rust: { weightClass: 3 },
      Fog: { weightClass: 2 },
    },
    problems: ["7 doubt", "8 doubt"],
    says: ["1 or 2"],
  },
  // 8 ply is the Australian word for class 3, 4 ply for class 1.
  "plies-australian.csv": {
    yarns: ["Hoar | #e8e2d2 | ? | ?", "Peat | #332211 | ? | ?"],
    more: { Hoar: { weightClass: 3 }, Peat: { weightClass: 1 } },
    columns: { name: "name", hex: "hex", ply: "weight class" },
  },
  "wash.csv": {
    yarns: ["Hoar | #e8e2d2 | ? | : 43", "Peat | #332211 | ? | 12", "Moss | #54662b | ? | : 7"],
    more: {
      Hoar: { superwash: true, handDyed: false, lots: [{ id: "l1", grams: 43, weighed: true }] },
      Peat: { superwash: false, handDyed: true },
      Moss: { handDyed: true, lots: [{ id: "l1", grams: 7, weighed: false }] },
    },
    problems: ["4 doubt"],
    says: ["hand wash"],
  },
  "spanish.csv": {
    yarns: ["Musgo | #54662b | 420 | 4: 37.5"],
    more: { Musgo: { maker: "Sample Mill", fibre: "lana", note: "suave" } },
  },
  "french-count.csv": { yarns: ["Mousse | #54662b | 400 | 77: 75"], more: { Mousse: { maker: "Sample Mill" } } },
  "dutch.csv": { yarns: ["Mos | #54662b | 420 | 9: 43"], more: { Mos: { fibre: "wol", note: "zacht" } } },
  "italian.csv": { yarns: ["Muschio | #54662b | 420 | 9: 43"], more: { Muschio: { fibre: "lana", note: "morbido" } } },
  "icelandic.csv": { yarns: ["Mosi | #54662b | 420 | 9: 43"], more: { Mosi: { maker: "Sample Mill", note: "mjúkt" } } },
  "stray-quote.csv": {
    yarns: ['"Hoar | #e8e2d2 | ? | 43', "Peat | #332211 | ? | 12", '5" ends | #54662b | ? | 7'],
    problems: ["2 doubt"],
  },
  "headings-again.csv": { yarns: TWO, problems: ["3 note"] },
  "old-mac.csv": { yarns: [TWO[0]!], unshaded: ["Peat | no shade | ? | 12"], problems: ["3 fault"] },
  "thousands.csv": { yarns: ["Hoar | #e8e2d2 | 1200 | 1234.5", "Peat | #332211 | 420 | 1050.25"] },
  "nothing.csv": { yarns: [], problems: ["undefined fault"], says: ["found nothing"] },
  "quality-and-shade.csv": {
    yarns: ["Jumper weight Hoar | #e8e2d2 | ? | 43", "Jumper weight Peat | #332211 | ? | 12"],
    more: { "Jumper weight Hoar": { note: "Shade 104." } },
  },
  "shade-code.csv": {
    yarns: ["Hoar | #e8e2d2 | ? | ?", "Peat | #332211 | ? | ?"],
    columns: { name: "name", "colour code": "shade number", hex: "hex" },
  },
  "sheet-errors.csv": {
    yarns: ["Peat | #332211 | ? | ?"],
    unshaded: ["Hoar | no shade | 420 | 43"],
    problems: ["2 fault", "3 doubt", "3 fault"],
  },
  // 2/8.4 Nm: 420 m in 100 g; 238 tex: 420.17; Nm 4.2: 420 (trade.md 2).
  "counts.csv": {
    yarns: ["Hoar | #e8e2d2 | 420 | 43", "Peat | #332211 | 420.17 | 12", "Moss | #54662b | 420 | 7"],
  },
  "same-name.csv": { yarns: ["Hoar | #e8e2d2 | ? | 43", "Hoar | #111111 | ? | 20"], problems: ["3 doubt"] },
  "another-maker.csv": { yarns: ["Hoar | #e8e2d2 | ? | ?", "Hoar | #e8e2d2 | ? | ?"] },
  "no-name.csv": { yarns: ["yarn | #e8e2d2 | ? | 43"], problems: ["3 fault", "4 fault"], says: ["neither; left out"] },
  "own-table.csv": {
    yarns: ["Tweed | #705c4a | 420 | : 40, 9: 10"],
    more: {
      Tweed: {
        id: "y1",
        shade: { hex: "#705c4a", uncertainty: 3, from: "photo" },
        lots: [
          { id: "l1", grams: 40, weighed: true },
          { id: "l4", lot: "9", grams: 10 },
        ],
        plies: 2,
        weightClass: 1,
        superwash: false,
        handDyed: true,
        flecks: [
          { shade: { hex: "#d8c070" }, share: 0.12, lengthMm: 4 },
          { shade: { hex: "#202020" }, share: 0.05 },
        ],
      },
    },
  },
  "damaged-utf8.csv": {
    yarns: ["Sjøgrønn blåbær æble | #5f8f7f | ? | 43", "Pe\uFFFDat | #332211 | ? | 12"],
    encoding: "utf-8",
    problems: ["undefined doubt"],
    says: ["a letter that cannot be read"],
  },
  "code-or-lab.csv": {
    yarns: ["Hoar | #e8e2d2 | ? | 43", "Silver | lab 81 -1 -2 | ? | 74", "Bee | #c9b458 | ? | 9"],
  },
  "trailing-commas.csv": { yarns: TWO },
};

/** Files in which there is no table at all. */
const REFUSED: Record<string, string> = {
  "workbook.csv": "CSV UTF-8",
  "old-workbook.csv": "CSV UTF-8",
  "prose.csv": "found",
};

describe("tables as people have them", () => {
  it("every file has its outcome", () => {
    expect([...Object.keys(FILES), ...Object.keys(REFUSED)].sort()).toEqual(readdirSync(FOLDER).sort());
    expect(readdirSync(FOLDER).length).toBeGreaterThanOrEqual(40);
  });

  it.each(Object.entries(FILES))("%s", (file, expected) => {
    const { value, problems } = textOfTable(readFileSync(`${FOLDER}/${file}`));
    const table = readStashTable(value!.text);
    const all = [...problems, ...table.problems];
    expect(table.yarns.map(told)).toEqual(expected.yarns);
    expect(table.unshaded.map(told)).toEqual(expected.unshaded ?? []);
    expect(all.map(({ line, severity }) => `${line} ${severity}`)).toEqual(expected.problems ?? []);
    const sentences = all.map(problemSentence).join("\n");
    for (const words of expected.says ?? []) expect(sentences).toContain(words);
    for (const [name, more] of Object.entries(expected.more ?? {}))
      expect(table.yarns.find((yarn) => yarn.name === name)).toMatchObject(more);
    if (expected.columns) expect(table.columns).toEqual(expected.columns);
    if (expected.encoding) expect(value!.encoding).toBe(expected.encoding);
    if (expected.table) expect(table).toMatchObject(expected.table);
  });

  it.each(Object.entries(REFUSED))("%s is refused with a sentence", (file, words) => {
    const { value, problems } = textOfTable(readFileSync(`${FOLDER}/${file}`));
    const table = value ? readStashTable(value.text) : null;
    const all = [...problems, ...(table?.problems ?? [])];
    expect(table?.yarns ?? []).toEqual([]);
    expect(all.some(({ severity }) => severity === "fault")).toBe(true);
    expect(all.map(problemSentence).join(" ")).toContain(words);
  });
});

describe("bytes that somebody has damaged", () => {
  const files = readdirSync(FOLDER).map((file) => readFileSync(`${FOLDER}/${file}`));
  /** A file of the folder with bytes put in, taken away and turned over. */
  const damaged = fc
    .tuple(
      fc.constantFrom(...files),
      fc.array(
        fc.tuple(
          fc.double({ min: 0, max: 1, noNaN: true }),
          fc.constantFrom(0, 1, 2),
          fc.integer({ min: 0, max: 255 }),
        ),
        {
          maxLength: 12,
        },
      ),
    )
    .map(([file, changes]) => {
      const bytes = [...file];
      for (const [place, kind, byte] of changes)
        bytes.splice(Math.floor(place * bytes.length), kind === 0 ? 0 : 1, ...(kind === 1 ? [] : [byte]));
      return Uint8Array.from(bytes);
    });
  it("never throw, and what is read can be kept", () => {
    fc.assert(
      fc.property(fc.oneof(damaged, fc.uint8Array({ maxLength: 300 })), (bytes) => {
        const { value, problems } = textOfTable(bytes);
        const table = value ? readStashTable(value.text) : null;
        expect((table?.yarns.length ?? 0) + (table?.problems.length ?? 0) + problems.length).toBeGreaterThan(0);
        const shelf = { ...EMPTY_SHELF, yarns: table?.yarns ?? [] };
        expect(readShelf(writeShelf(shelf)).problems).toEqual([]);
      }),
      { seed: 7, numRuns: 1200 },
    );
  });
});
