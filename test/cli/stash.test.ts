/** The stash on the command line: a table onto a shelf, the same again, a column put right, and a shelf as a table. */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { readShelf } from "../../src/document/shelf.ts";
import { bench } from "./program.ts";

const SHELF = {
  format: "twostrand-shelf",
  version: 1,
  yarns: [
    { id: "y1", name: "Hoar", shade: { lab: [90, 0, 7], uncertainty: 2, from: "photo" }, grams: 43 },
    { id: "y2", name: "Peat", shade: { hex: "#332211" }, grams: 12, own: "kept" },
  ],
  theta: 0.2,
};
const { run, json, at } = bench({
  "mine.twostrand-shelf.json": JSON.stringify(SHELF),
  "leftovers.csv":
    "Name;Farbe;Gewicht\r\nHoar;#dddddd;43\r\nPeat;#332211;20\r\nMoos;#54662b;7,5\r\nHut;dunkelrot;9\r\n",
  "odd.csv": "Sorte,Ton,Kiste\nMoss,#54662b,17\n",
  "euro.csv": Buffer.from("name,hex,note\nK\xe4se,#e8d080,5 \x80\n", "latin1"),
  "workbook.csv": Buffer.from("PK\x03\x04\x14\0\x06\0", "latin1"),
  "formula.csv": 'name,hex,note\n"=1+1",#54662b,@x\n',
});
interface Told {
  yarns: { name: string; shade: { lab?: number[]; uncertainty?: number; from?: string } }[];
  unshaded: { name: string }[];
  merge?: { added: { id: string }[]; changed: { fields: string[] }[]; same: string[]; doubts: unknown[] };
  reading: { encoding: string };
}
const AGAINST = ["--shelf", "@mine.twostrand-shelf.json"];
const shelfAt = (name: string) => readShelf(readFileSync(at(name), "utf8")).value!;

describe("stash", () => {
  it("holds a table against a shelf and writes what there is then; the same again changes nothing", async () => {
    const first = await json<Told>("stash", "@leftovers.csv", ...AGAINST, "--out", "@new.twostrand-shelf.json");
    expect(first.merge!.added.map(({ id }) => id)).toEqual(["moos"]);
    expect(first.merge!.changed.map(({ fields }) => fields)).toEqual([["grams"]]);
    expect([first.merge!.same, first.merge!.doubts.length]).toEqual([["y1"], 1]);
    expect(first.unshaded.map(({ name }) => name)).toEqual(["Hut"]);
    const shelf = shelfAt("new.twostrand-shelf.json");
    // What was photographed is kept, what the table does not know of stays, and so do the shelf's own numbers.
    expect(shelf).toMatchObject({
      theta: 0.2,
      yarns: [SHELF.yarns[0], { id: "y2", grams: 20, own: "kept" }, { grams: 7.5 }],
    });
    const again = await json<Told>("stash", "@leftovers.csv", "--shelf", "@new.twostrand-shelf.json");
    expect(again.merge).toMatchObject({ added: [], changed: [], same: ["y1", "y2", "moos"] });
  });

  it("tells people what would change, and where hers was kept", async () => {
    const { out, err, code } = await run("stash", "@leftovers.csv", ...AGAINST);
    expect(code).toBe(0);
    expect(out).toContain("Against the shelf: 1 new, 1 changed, 1 the same.");
    expect(out).toContain("Peat, amount: 12 g → 20 g");
    expect(out).toContain("--by-name would estimate 1");
    expect(err).toContain("Hoar, its shade");
    expect(err).toContain("by a photograph");
  });

  it("estimates a shade by its name where that is wanted", async () => {
    const { yarns } = await json<Told>("stash", "@leftovers.csv", "--by-name");
    const { shade } = yarns.find(({ name }) => name === "Hut")!;
    expect(shade.from).toBe("eye");
    expect(shade.uncertainty).toBeGreaterThan(8);
  });

  it("takes a column as she says, by heading or number", async () => {
    const { yarns } = await json<{ yarns: { name: string; lot: string }[] }>(
      "stash",
      "@odd.csv",
      "--column",
      "Sorte=name",
      "--column",
      "3=lot",
    );
    expect(yarns.map(({ name, lot }) => [name, lot])).toEqual([["Moss", "17"]]);
    const slip = await run("stash", "@odd.csv", "--column", "Sorte=nmae");
    expect([slip.code, slip.err.includes("Did you mean name?")]).toEqual([64, true]);
  });

  it("reads Windows-1252 with its euro sign", async () => {
    const told = await json<Told & { yarns: { note: string }[] }>("stash", "@euro.csv");
    expect([told.reading.encoding, told.yarns[0]!.name, told.yarns[0]!.note]).toEqual(["windows-1252", "Käse", "5 €"]);
  });

  it("makes a table of a shelf, guarded, which reads back as the same", async () => {
    expect((await run("stash", "@mine.twostrand-shelf.json", "--out", "@mine.csv")).code).toBe(0);
    const { merge } = await json<Told>("stash", "@mine.csv", ...AGAINST);
    expect(merge).toEqual({ added: [], changed: [], same: ["y1", "y2"], doubts: [] });
    await run("stash", "@formula.csv", "--out", "@guarded.csv");
    expect(readFileSync(at("guarded.csv"), "utf8")).toContain("'=1+1");
    expect(readFileSync(at("guarded.csv"), "utf8")).toContain("'@x");
  });

  it("refuses a workbook with what to do, and another kind of name to write to", async () => {
    const workbook = await run("stash", "@workbook.csv");
    expect([workbook.code, workbook.err.includes("CSV UTF-8")]).toEqual([65, true]);
    expect((await run("stash", "@odd.csv", "--out", "@mine.xlsx")).code).toBe(64);
    expect((await run("stash", "@odd.csv", ...AGAINST, "--out", "@mine.twostrand-shelf.json", "--force")).code).toBe(
      73,
    );
  });
});
