import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { mergedStash, mergeStash } from "../yarn/mergeStash.ts";
import type { Lot, Yarn } from "../yarn/yarn.ts";
import { guarded, unguarded } from "./formulaCell.ts";
import { readStashTable } from "./stashTable.ts";
import { stashTableText } from "./stashTableText.ts";

const hoar: Yarn = {
  id: "hoar",
  name: "Hoar",
  shade: { hex: "#e8e2d2", lab: [90.125, -0.5, 8], uncertainty: 2.5, from: "photo" },
  metresPer100g: 420,
  lots: [
    { id: "l1", lot: "0017", grams: 43.5, weighed: true },
    { id: "l2", lot: "18" },
  ],
  maker: "Sample Mill",
  plies: 2,
  weightClass: 1,
  superwash: false,
  note: 'the "good" one; from the hat',
};

describe("a table written", () => {
  // Written out by hand, by RFC 4180 and the columns that the reader knows.
  it("has a row for each lot, and only the columns that are needed", () => {
    expect(stashTableText([hoar, { id: "y2", name: "=Peat", shade: { hex: "#332211" }, grams: 12 }])).toBe(
      [
        "\uFEFFid,name,maker,hex,L*,a*,b*,uncertainty,shade from,m per 100 g,grams,lot,weighed,plies,weight class,superwash,note",
        'hoar,Hoar,Sample Mill,#e8e2d2,90.1250,-0.5,8,2.5,photo,420,43.5,0017,yes,2,1,no,"the ""good"" one; from the hat"',
        'hoar,Hoar,Sample Mill,#e8e2d2,90.1250,-0.5,8,2.5,photo,420,,18,,2,1,no,"the ""good"" one; from the hat"',
        "y2,'=Peat,,#332211,,,,,,,12,,,,,,",
        "",
      ].join("\r\n"),
    );
  });
  it("may have semicolons and decimal commas", () => {
    const text = stashTableText([hoar], { decimal: "," });
    expect(text).toContain(";90,1250;-0,5;8;2,5;photo;420;43,5;0017;");
    expect(readStashTable(text)).toMatchObject({ yarns: [hoar], decimal: ",", separator: ";", problems: [] });
  });
  it("guards what a spreadsheet would calculate", () => {
    // Openings by the OWASP verification standard 5.0, 1.2.10, and its page on CSV injection.
    for (const opening of ["=", "+", "-", "@", "\t", "\r"]) {
      expect(guarded(`${opening}1+1`)).toBe(`'${opening}1+1`);
      expect(unguarded(guarded(`${opening}1+1`))).toBe(`${opening}1+1`);
    }
    expect(guarded("plain - text")).toBe("plain - text");
    expect(unguarded('="0017"')).toBe("0017");
    expect(unguarded("'tis")).toBe("'tis");
  });
});

const word = fc
  .oneof(
    fc.string({ unit: "grapheme", minLength: 1, maxLength: 12 }),
    fc.stringMatching(/^[=+\-@'"#;,|\t 0-9a-fA-F.\r\n]{1,10}$/),
    fc.constantFrom("Hoar", "hoar", "grams", "Total", "0017", "1/2", "#fff", "Bee", "x".repeat(60), "constructor"),
  )
  .map((text) => text.replaceAll("\0", "").trim())
  .filter((text) => text !== "" && text.isWellFormed());
const number = (min: number, max: number) =>
  fc
    .oneof(fc.double({ min, max, noNaN: true }), fc.integer({ min: Math.ceil(min), max: Math.floor(max) }))
    .map((value) => value + 0);
const optional = <T>(key: string, arbitrary: fc.Arbitrary<T>) =>
  fc.option(arbitrary, { nil: undefined }).map((value) => (value === undefined ? {} : { [key]: value }));
const hex = fc.stringMatching(/^#[0-9a-f]{6}$/);
const shade = fc
  .tuple(
    fc.oneof(
      hex.map((value) => ({ hex: value })),
      fc.tuple(number(0, 100), number(-160, 160), number(-160, 160)).map((lab) => ({ lab })),
      fc
        .tuple(hex, fc.tuple(number(0, 100), number(-160, 160), number(-160, 160)))
        .map(([value, lab]) => ({ hex: value, lab })),
    ),
    optional("uncertainty", number(0, 100)),
    optional("from", fc.constantFrom("label", "photo", "screen", "eye", "picture")),
  )
  .map((parts) => Object.assign({}, ...parts) as NonNullable<Yarn["shade"]>);
const lots = fc
  .uniqueArray(
    fc.tuple(
      word,
      fc.option(word, { nil: undefined }),
      fc.option(number(0, 5000), { nil: undefined }),
      fc.option(fc.boolean(), { nil: undefined }),
    ),
    {
      selector: ([id]) => id.toLowerCase(),
      minLength: 1,
      maxLength: 3,
    },
  )
  .map((list) =>
    list.map(([id, lot, grams, weighed]): Lot => ({
      id,
      ...(lot === undefined ? {} : { lot }),
      ...(grams === undefined ? {} : { grams }),
      ...(weighed === undefined ? {} : { weighed }),
    })),
  );
const fleck = fc
  .tuple(shade, number(0, 1), optional("lengthMm", number(0.001, 500)))
  .map(([own, share, length]) => ({ shade: own, share, ...length }));
const yarn = fc
  .tuple(
    word,
    fc.oneof(
      shade.map((own) => ({ shade: own })),
      fc.tuple(shade, fc.array(fleck, { minLength: 1, maxLength: 2 })).map(([own, flecks]) => ({ shade: own, flecks })),
    ),
    optional("metresPer100g", number(0.001, 100_000)),
    fc.oneof(
      optional("grams", number(0, 5000)),
      fc.tuple(optional("lots", lots), fc.constant({})).map(([own]) => own),
      fc.tuple(lots, number(0, 5000)).map(([own, grams]) => ({ lots: own, grams })),
    ),
    optional("maker", word),
    optional("fibre", word),
    optional("note", word),
    optional("plies", fc.integer({ min: 1, max: 100_000 })),
    optional("weightClass", fc.integer({ min: 0, max: 7 })),
    optional("superwash", fc.boolean()),
    optional("handDyed", fc.boolean()),
  )
  .map(([name, ...parts]) => ({ name, ...Object.assign({}, ...parts) }) as Omit<Yarn, "id">);
const kept = new Set(Object.getOwnPropertyNames(Object.prototype));
const stash = fc
  .uniqueArray(
    fc.tuple(
      word.filter((id) => !kept.has(id)),
      yarn,
    ),
    { selector: ([id]) => id, minLength: 1, maxLength: 6 },
  )
  .map((list) => list.map(([id, own]): Yarn => ({ id, ...own })));

describe("laws", () => {
  it.each<["." | ",", string]>([
    [".", ","],
    [",", ";"],
    [".", "\t"],
    [",", ","],
  ])("what was written is what is read: decimals with %s, cells parted by %j", (decimal, separator) => {
    fc.assert(
      fc.property(stash, (yarns) => {
        const read = readStashTable(stashTableText(yarns, { decimal, separator }));
        expect(read.yarns).toEqual(yarns);
        expect(read.unshaded).toEqual([]);
      }),
      { seed: 7, numRuns: 120 },
    );
  });

  it("no cell of a written table begins as a formula, but for plain numbers", () => {
    fc.assert(
      fc.property(stash, (yarns) => {
        const text = stashTableText(yarns, { separator: "\t" }).replace(/"(?:[^"]|"")*"/g, (cell) =>
          cell.slice(1, 2) === "'" || !/^"[=+\-@\t\r\n]/.test(cell) ? "q" : "=",
        );
        for (const cell of text.split(/[\t\r\n]/)) expect(cell).not.toMatch(/^[=@]|^[+-](?!\d+(?:\.\d+)?(?:e-?\d+)?$)/);
      }),
      { seed: 7, numRuns: 120 },
    );
  });

  it("the same table in again changes nothing", () => {
    fc.assert(
      fc.property(stash, stash, (have, incoming) => {
        const first = readStashTable(stashTableText(incoming)).yarns;
        const shelf = mergedStash(have, mergeStash(have, first));
        expect(new Set(shelf.map(({ id }) => id)).size).toBe(shelf.length);
        const again = mergeStash(shelf, first);
        expect([again.added, again.changed]).toEqual([[], []]);
        expect(mergedStash(shelf, again)).toEqual(shelf);
      }),
      { seed: 7, numRuns: 120 },
    );
  });
  it("her own shelf in again is the same throughout, with no doubt", () => {
    fc.assert(
      fc.property(stash, (have) => {
        const { added, changed, same, doubts } = mergeStash(have, readStashTable(stashTableText(have)).yarns);
        expect([added, changed, doubts]).toEqual([[], [], []]);
        expect(same).toHaveLength(have.length);
      }),
      { seed: 7, numRuns: 120 },
    );
  });
});
