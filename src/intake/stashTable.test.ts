import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { problemSentence } from "../base/problem.ts";
import { decimalSignOf, readNumber, readQuantity, readThickness } from "./quantity.ts";
import { readStashTable } from "./stashTable.ts";

const HEAD = "name,hex,grams,m/100g";
const one = (header: string, row: string): unknown => readStashTable(`${header}\n${row}\n`).yarns[0];

describe("a plain table", () => {
  it("becomes yarns", () => {
    const { yarns, columns, problems } = readStashTable(
      "Name,Hex,Grams,m per 100 g,Dye lot,Maker,Fibre,Notes\nHoar,#E8E2D2,43,420,17,Sample Mill,wool,from the hat\n",
    );
    expect(yarns).toEqual([
      {
        id: "hoar",
        name: "Hoar",
        shade: { hex: "#e8e2d2" },
        metresPer100g: 420,
        lots: [{ id: "l1", lot: "17", grams: 43 }],
        maker: "Sample Mill",
        fibre: "wool",
        note: "from the hat",
      },
    ]);
    expect(columns).toEqual({
      Name: "name",
      Hex: "hex",
      Grams: "grams",
      "m per 100 g": "metres per 100 g",
      "Dye lot": "lot",
      Maker: "maker",
      Fibre: "fibre",
      Notes: "note",
    });
    expect(problems).toEqual([]);
  });

  it.each<[string, string]>([
    ["semicolons", "name;hex;grams;m/100g\nhoar;#e8e2d2;43,5;420\n"],
    ["tabs", "name\thex\tgrams\tm/100g\nhoar\t#e8e2d2\t43.5\t420\n"],
    ["bars", "name|hex|grams|m/100g\nhoar|#e8e2d2|43.5|420\n"],
    ["quotes", '"name","hex","grams","m/100g"\n"hoar","#e8e2d2","43,5","420"\n'],
    ["a byte order mark and Windows line ends", "\uFEFFname,hex,grams,m/100g\r\nhoar,#e8e2d2,43.5,420\r\n"],
    ["units in cells", "name,hex,grams,m/100g\nhoar,e8e2d2,43.5 g,420 m/100g\n"],
    ["blank rows and a title", "My stash\n,,,\nname,hex,grams,m/100g\n\nhoar,#e8e2d2,43.5,420\n,,,\n"],
    ["other headings", "Yarn,Colour,Amount left,Length per weight\nhoar,#e8e2d2,43.5g,105 m/25 g\n"],
    ["balls", "yarn,colour hex,metres per ball,grams per ball,weight\nhoar,#e8e2d2,105,25,43.5\n"],
    ["units in headings", "yarn,rgb,Weight (g),m / 25 g\nhoar,#e8e2d2,43.5,105\n"],
    ["no headings", "hoar,#e8e2d2,43.5 g,420 m/100g\n"],
  ])("%s", (_, table) => {
    expect(readStashTable(table).yarns).toEqual([
      { id: "hoar", name: "hoar", shade: { hex: "#e8e2d2" }, metresPer100g: 420, grams: 43.5 },
    ]);
  });
});

describe("shades", () => {
  it.each<[string, string, string, object]>([
    ["three columns", "name,L*,a*,b*", "moss,54,-12,20.5", { lab: [54, -12, 20.5] }],
    ["one column", "name,Lab", "moss,54 -12 20.5", { lab: [54, -12, 20.5] }],
    ["one column, commas", "name,Lab", 'moss,"54, -12, 20"', { lab: [54, -12, 20] }],
    ["one column, close commas", "name,CIELAB", 'moss,"54,12,20"', { lab: [54, 12, 20] }],
    ["decimal commas", "name;Lab;grams", "moss;54,5 -12,1 20,2;3,5", { lab: [54.5, -12.1, 20.2] }],
    ["short hex", "name,hex", "moss,#7a4", { hex: "#77aa44" }],
    ["bytes", "name,rgb", 'moss,"232, 226, 210"', { hex: "#e8e2d2" }],
    ["with its doubt", "name,hex,uncertainty", "moss,#7a4,3", { hex: "#77aa44", uncertainty: 3 }],
  ])("%s", (_, header, row, shade) => {
    expect(one(header, row)).toMatchObject({ name: "moss", shade });
  });

  it("both are kept, and told where they disagree", () => {
    const { yarns, problems } = readStashTable("name,hex,L,a,b\nmoss,#ffffff,20,0,0\n");
    expect(yarns[0]!.shade).toEqual({ hex: "#ffffff", lab: [20, 0, 0] });
    expect(problems[0]).toMatchObject({ line: 2, severity: "doubt" });
  });

  it("a row without one is a problem, and kept aside", () => {
    const { yarns, unshaded, problems } = readStashTable(
      `${HEAD}\nhoar,#e8e2d2,43,420\nmoss,,12,420\nrust,#12345g,9,420\n`,
    );
    expect(yarns.map(({ name }) => name)).toEqual(["hoar"]);
    expect(unshaded.map(({ name, grams }) => [name, grams])).toEqual([
      ["moss", 12],
      ["rust", 9],
    ]);
    expect(problems.map((problem) => [problem.line, problemSentence(problem)])).toEqual([
      [3, "Line 3, the shade of moss: expected a hex code or Lab, found none."],
      [4, 'Line 4, the hex code: expected a colour such as "#e8e2d2", found "#12345g".'],
    ]);
  });
});

describe("names and lots", () => {
  it("two lots of a yarn are one yarn", () => {
    const { yarns, problems } = readStashTable(
      "name,hex,grams,lot\nhoar,#e8e2d2,43,17\nmoss,#7a4,10,\nHoar,#e7e2d1,20,18\n",
    );
    expect(yarns).toHaveLength(2);
    expect(yarns[0]!.lots).toEqual([
      { id: "l1", lot: "17", grams: 43 },
      { id: "l2", lot: "18", grams: 20 },
    ]);
    expect(yarns[1]).toMatchObject({ id: "moss", grams: 10 });
    expect(problems).toEqual([]);
  });
  it("the same row twice is two lots, and told", () => {
    const { yarns, problems } = readStashTable("name,hex,grams\nhoar,#e8e2d2,43\nhoar,#e8e2d2,20\n");
    expect(yarns[0]!.lots).toEqual([
      { id: "l1", grams: 43 },
      { id: "l2", grams: 20 },
    ]);
    expect(problems[0]).toMatchObject({ line: 3, severity: "note" });
  });
  it("one name for two shades is two yarns with ids of their own", () => {
    const { yarns, problems } = readStashTable("name,hex\nhoar,#e8e2d2\nhoar,#111111\n");
    expect(yarns.map(({ id }) => id)).toEqual(["hoar", "hoar-2"]);
    expect(problems[0]).toMatchObject({ line: 3, severity: "doubt" });
  });
  it("a quality in several shades is named by both", () => {
    const { yarns } = readStashTable("Yarn,Shade,Hex\nJumper weight,hoar,#e8e2d2\nJumper weight,peat,#332211\n");
    expect(yarns.map(({ id, name }) => [id, name])).toEqual([
      ["jumper-weight-hoar", "Jumper weight hoar"],
      ["jumper-weight-peat", "Jumper weight peat"],
    ]);
  });
  it("another maker's yarn of that name is another yarn", () => {
    const { yarns } = readStashTable("name,hex,maker\nhoar,#e8e2d2,Sample Mill\nhoar,#e8e2d2,Other Mill\n");
    expect(yarns.map(({ id }) => id)).toEqual(["hoar", "hoar-2"]);
  });
  it("ids are slugs", () => {
    const { yarns } = readStashTable("name,hex\nÉclair & Sky 3,#fff\n雪,#eee\n");
    expect(yarns.map(({ id }) => id)).toEqual(["eclair-sky-3", "yarn"]);
  });
});

describe("cells that are wrong", () => {
  it.each<[string, string, string, object]>([
    [
      "negative grams",
      "hoar,#e8e2d2,-4,420",
      "Line 2, the grams: expected 0 or more, found -4.",
      { metresPer100g: 420 },
    ],
    [
      "a formula",
      "hoar,#e8e2d2,=20+23,420",
      'Line 2, the grams: expected a weight such as "43 g", found "=20+23".',
      { metresPer100g: 420 },
    ],
    [
      "a word",
      "hoar,#e8e2d2,some,420",
      'Line 2, the grams: expected a weight such as "43 g", found "some".',
      { metresPer100g: 420 },
    ],
    [
      "a length that cannot be",
      "hoar,#e8e2d2,4,42000",
      "Line 2, the length by weight: expected 15 to 3000 m per 100 g, found 42000 (42000).",
      { grams: 4 },
    ],
  ])("%s", (_, row, sentence, rest) => {
    const { yarns, problems } = readStashTable(`${HEAD}\n${row}\n`);
    expect(problems.map(problemSentence)).toEqual([sentence]);
    expect(yarns[0]).toMatchObject({ name: "hoar", ...rest });
  });
  it("a name that is a formula stays text", () => {
    expect(one("name,hex", '"=HYPERLINK(""x"")",#fff')).toMatchObject({ name: '=HYPERLINK("x")' });
  });
  it("a line is counted in the file, over quoted line ends", () => {
    const { problems } = readStashTable('name,hex,note\nhoar,#fff,"two\nlines"\n\nmoss,red,\n');
    expect(problems.map(({ line }) => line)).toEqual([5]);
  });
  it("metres per ball without grams per ball is told", () => {
    const { yarns, problems } = readStashTable("name,hex,metres per ball\nhoar,#fff,105\n");
    expect(yarns[0]!.metresPer100g).toBeUndefined();
    expect(problems[0]!.line).toBe(2);
  });
  it.each([
    ["", "nothing"],
    ["\n\n", "nothing"],
    ["\u0000\u0001", "what looks like a file of another kind"],
  ])("%j is no table", (text, got) => {
    expect(readStashTable(text)).toMatchObject({ yarns: [], problems: [{ severity: "fault", got }] });
  });
});

describe("what she says of a table", () => {
  const TABLE = "Sorte;Ton;Kiste;Menge\nHoar;#e8e2d2;7;1,234\nPeat;#332211;9;12\n";
  it("is shown with what was made of it", () => {
    const { preview, decimal, separator, headings } = readStashTable(TABLE);
    expect(preview.map(({ header, meaning, sure, samples }) => [header, meaning, sure, samples])).toEqual([
      ["Sorte", "not used", "known", ["Hoar", "Peat"]],
      ["Ton", "hex", "cells", ["#e8e2d2", "#332211"]],
      ["Kiste", "not used", "known", ["7", "9"]],
      ["Menge", "grams", "known", ["1,234", "12"]],
    ]);
    expect([decimal, separator, headings]).toEqual([".", ";", 1]);
  });
  it("counts: columns by heading or by number, decimals and lines", () => {
    const columns = { Sorte: "name", 3: "lot" } as const;
    const { yarns, preview } = readStashTable(TABLE, { columns, decimal: ",", skip: [3] });
    expect(yarns).toEqual([
      { id: "hoar", name: "Hoar", shade: { hex: "#e8e2d2" }, lots: [{ id: "l1", lot: "7", grams: 1.234 }] },
    ]);
    expect(preview.map(({ meaning, sure }) => `${meaning} ${sure}`)).toEqual([
      "name chosen",
      "hex cells",
      "lot chosen",
      "grams known",
    ]);
  });
  it("takes the meaning from the column that had it", () => {
    const text = "name,hex,weight,left over in the box\nHoar,#e8e2d2,50,43\n";
    expect(readStashTable(text).yarns[0]!.grams).toBe(50);
    const chosen = readStashTable(text, { columns: { "left over in the box": "grams" } });
    expect(chosen.yarns[0]!.grams).toBe(43);
    expect(chosen.columns).toMatchObject({ weight: "not used", "left over in the box": "grams" });
  });
  it("may be another separator, or that there are no headings", () => {
    expect(readStashTable("name;hex\nHoar;#fff\n", { separator: "," }).yarns).toEqual([]);
    const { yarns, headings } = readStashTable("grams,#fff\nHoar,#e8e2d2\n", { headings: null });
    expect([headings, yarns.map(({ name }) => name)]).toEqual([null, ["grams", "Hoar"]]);
    expect(readStashTable("name,hex\nyarn,shade\nHoar,#fff\n", { headings: 2 }).headings).toBe(2);
  });
});

describe("a colour that is only named", () => {
  it("has a shade by its name, with a wide range, in several languages", () => {
    const { byName, unshaded } = readStashTable(
      "id,name,colour\n1,Socks,dark green\n2,Hat,hellblau\n3,Lue,mørkeblå\n4,Scarf,Night sky\n5,Pull,bleu clair\n",
    );
    expect(unshaded.map(({ id }) => [id, byName[id]?.name ?? null])).toEqual([
      ["1", "dark green"],
      ["2", "light blue"],
      ["3", "dark blue"],
      ["4", null],
      ["5", "light blue"],
    ]);
    for (const { uncertainty } of Object.values(byName)) expect(uncertainty).toBeGreaterThan(8);
  });
});

describe("amounts", () => {
  // Units: yard 0.9144 m, ounce 28.349523125 g (international yard and pound, 1959); the rest by hand.
  it.each<[string, number, string]>([
    ["43 g", 43, "g"],
    ["43g.", 43, "g"],
    ["~ 43 grams", 43, "g"],
    ["0.043 kg", 43, "g"],
    ["1.5 oz", 42.52428, "g"],
    ["2 x 50 g", 100, "g"],
    ["2 balls of 50g", 100, "g"],
    ["3 balls", 3, "balls"],
    ["115 yds", 105.156, "m"],
    ["1,234.5 g", 1234.5, "g"],
    ["1.234,5 g", 1234.5, "g"],
    ["12 g left", 12, "g"],
  ])("%s", (text, value, unit) => {
    const quantity = readQuantity(text, ".");
    expect(quantity?.value).toBeCloseTo(value, 4);
    expect(quantity?.unit).toBe(unit);
  });
  it.each(["", "g", "a lot", "=2+3", "4 5 6 x", "43 cats", "1.2.3"])("%j is none", (text) => {
    expect(readQuantity(text, ".")).toBeNull();
  });
  it.each<[string, number]>([
    ["420 m/100g", 420],
    ["105 m/25 g", 420],
    ["105m per 25 g", 420],
    ["25 g = 105 m", 420],
    ["4.2 m/g", 420],
    ["230 yds / 50 g", 420.624],
  ])("thickness %s", (text, expected) => {
    expect(readThickness(text, ".")?.metresPer100g).toBeCloseTo(expected, 3);
  });
  it("decimal signs are the table's own", () => {
    expect(decimalSignOf(["43,5", "12"])).toBe(",");
    expect(decimalSignOf(["43.5", "12,"])).toBe(".");
    expect(readNumber("1,234", ".")).toBe(1234);
    expect(readNumber("1,234", ",")).toBe(1.234);
    expect(readNumber("43,5", ".")).toBe(43.5);
  });
});

describe("laws", () => {
  const word = fc.stringMatching(/^[a-z]{2,8}$/);
  it("every row ends as a yarn, a lot or a problem with its line", () => {
    const row = fc.tuple(
      fc.oneof(word, fc.constantFrom("moss", "peat")),
      fc.constantFrom("#e8e2d2", "#333", "", "red", "#12345"),
      fc.constantFrom("43", "-1", "x", "", "5,5"),
    );
    const isHex = (cell: string): boolean => /^#(?:...|......)$/.test(cell);
    fc.assert(
      fc.property(fc.array(row, { minLength: 1, maxLength: 20 }), (rows) => {
        const table = readStashTable(`name;hex;grams\n${rows.map((cells) => cells.join(";")).join("\n")}\n`);
        const all = [...table.yarns, ...table.unshaded];
        expect(all.reduce((sum, yarn) => sum + Math.max(1, yarn.lots?.length ?? 0), 0)).toBe(rows.length);
        expect(new Set(all.map(({ id }) => id)).size).toBe(all.length);
        const told = new Set(table.problems.map(({ line }) => line));
        for (const [index, [, hex]] of rows.entries()) if (hex !== "" && !isHex(hex)) expect(told).toContain(index + 2);
        for (const yarn of table.unshaded) expect(table.lines[yarn.id]!.some((line) => told.has(line))).toBe(true);
        // Every line went into one yarn.
        expect(
          Object.values(table.lines)
            .flat()
            .sort((one, other) => one - other),
        ).toEqual(rows.map((_, index) => index + 2));
      }),
      { seed: 7, numRuns: 200 },
    );
  });
  it("whatever comes in, nothing is thrown", () => {
    const anything = fc.oneof(
      fc.string({ unit: "binary", maxLength: 200 }),
      fc.string({ unit: fc.constantFrom(...'name,;\t|\n\r"#=-123.hexgrams '), maxLength: 200 }),
      fc.uint8Array({ maxLength: 200 }).map((bytes) => String.fromCharCode(...bytes)),
      fc
        .array(
          fc.constantFrom(
            "name",
            "hex",
            "lab",
            "grams",
            "m/100g",
            ",",
            "\n",
            "#fff",
            "__proto__",
            "constructor",
            '"',
            "43 g",
            "1e999",
          ),
          { maxLength: 60 },
        )
        .map((parts) => parts.join("")),
    );
    fc.assert(
      fc.property(anything, (text) => {
        const { yarns, problems } = readStashTable(text);
        expect(yarns.length + problems.length).toBeGreaterThan(0);
        for (const yarn of yarns) expect(yarn.shade).toBeDefined();
      }),
      { seed: 7, numRuns: 600 },
    );
  });
});
