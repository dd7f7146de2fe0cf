/** The house rules that a machine can check: openings, sizes, words, sources and the purity of the domain. */
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";

const SHELLS = /^src\/(app|cli)\//;
const isTest = (file: string): boolean => /\.test\.tsx?$/.test(file);
const isCode = (file: string): boolean => /\.(ts|tsx|mjs|mts|css)$/.test(file);

/** Every file of a folder but what begins with a dot. */
const filesOf = (folder: string): string[] =>
  readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && !entry.name.startsWith("."))
    .map((entry) => join(entry.parentPath, entry.name))
    .sort();

const ROOT = readdirSync(".", { withFileTypes: true })
  .filter((entry) => entry.isFile() && !entry.name.startsWith("."))
  .map(({ name }) => name);
const all = [...ROOT, ...["src", "test", "bench", "scripts", "examples", "docs", ".ci"].flatMap(filesOf)];
const read = (file: string): string => readFileSync(file, "utf8");
const code = all.filter(isCode);
const source = code.filter((file) => file.startsWith("src/") && !isTest(file) && !file.endsWith(".css"));
const domain = source.filter((file) => !SHELLS.test(file));
// The rules name what they forbid, so this file is not held to them.
const wordy = code.filter((file) => file !== "test/tidy.test.ts");

/** "file:line" of each line that matches. */
const linesWith = (files: readonly string[], pattern: RegExp): string[] =>
  files.flatMap((file) =>
    read(file)
      .split("\n")
      .flatMap((line, index) => (pattern.test(line) ? [`${file}:${index + 1}: ${line.trim().slice(0, 100)}`] : [])),
  );

describe("files", () => {
  it("every file of src opens with a sentence on why it exists", () => {
    const opening = /^(#![^\n]+\n)?\/\*\*\s([^]*?)\*\//;
    const mute = source.filter((file) => {
      const sentence = opening.exec(read(file))?.[2] ?? "";
      return sentence.split(/\s+/).length < 5 || !/[.?:]/.test(sentence);
    });
    expect(mute).toEqual([]);
  });

  it("no file of code is longer than 500 lines", () => {
    // A style sheet is one list; it is read by its headings.
    const long = code.filter((file) => !file.endsWith(".css") && read(file).split("\n").length > 501);
    expect(long).toEqual([]);
  });

  it("no name is a drawer for anything", () => {
    const drawer = /(^|[/.-])(utils?|helpers?|misc|common|shared|managers?|stuff)([/.-]|$)/i;
    expect(all.filter((file) => drawer.test(file))).toEqual([]);
    expect(linesWith(wordy, /\b(function|const|class|interface|type) \w*(Utils?|Helpers?|Manager|Misc)\b/)).toEqual([]);
  });
});

describe("words", () => {
  it("nothing is left to do later", () => {
    expect(linesWith(wordy, /\b(TODO|FIXME|XXX|HACK)\b/)).toEqual([]);
  });

  it("no comment leans on a paper that is not in the house", () => {
    expect(linesWith(wordy, /\bDESIGN\b|\b(issue|ticket) #?\d/)).toEqual([]);
  });

  it("a chart colour is called so", () => {
    expect(linesWith(wordy, /\bslot|Slot/)).toEqual([]);
  });

  it("our own names spell colour, grey and centre as she does", () => {
    const declared = /\b(function|const|let|class|interface|type) \w*([cC]olor(?!s?js)|[gG]ray|[cC]enter)/;
    expect(linesWith(source, declared)).toEqual([]);
  });

  it("no text knows the machine it was written on, or where packages come from", () => {
    // The names of hosts are put together here, so that this file does not hold them either.
    const hosts = [
      ["npm", "js"],
      ["un", "pkg"],
      ["js", "delivr"],
      ["py", "pi.org"],
    ].map((parts) => parts.join(""));
    const places = new RegExp(`registry\\.\\w|${hosts.join("|")}|(^|[^\\w.])/(work|root|home)/`);
    const texts = all.filter((file) => /\.(ts|tsx|mts|mjs|js|css|html|json|md|txt|csv)$|run$/.test(file));
    expect(linesWith(texts, places)).toEqual([]);
  });
});

describe("numbers", () => {
  it("every table of constants has its source", () => {
    const tables = all.filter((file) => /^src\/.*\/data\/[^/]+\.json$|^test\/tables\/[^/]+\.json$/.test(file));
    expect(tables.length).toBeGreaterThan(5);
    const homeless = tables.filter((file) => {
      const { source: said } = JSON.parse(read(file)) as { source?: unknown };
      return typeof said !== "string" || said.length < 20;
    });
    expect(homeless).toEqual([]);
    const typed = source.filter((file) => /\/data\/[^/]+\.ts$/.test(file));
    expect(typed.filter((file) => !read(file).includes("Source:"))).toEqual([]);
  });

  it("no expected value claims more than twelve digits", () => {
    const literals = code
      .filter(isTest)
      .flatMap((file) =>
        Array.from(read(file).matchAll(/(?<![\w#.])\d[\d_]*\.\d+(?:e[-+]?\d+)?/g), ([literal]) => ({ file, literal })),
      );
    const significant = (literal: string): number =>
      literal.replace(/e.*$/, "").replace(/[_.]/g, "").replace(/^0+/, "").length;
    expect(literals.filter(({ literal }) => significant(literal) > 12)).toEqual([]);
  });
});

describe("the domain", () => {
  it("has no chance and no clock but those it is handed", () => {
    expect(linesWith(domain, /Math\.random|Date\.now|new Date\(|performance\.now|setTimeout|console\./)).toEqual([]);
  });

  it("explains every formula that colour and vision give to other rooms", () => {
    const formulas = domain.filter((file) => /^src\/(colour|vision)\//.test(file));
    const bare = formulas.flatMap((file) => {
      const lines = read(file).split("\n");
      return lines.flatMap((line, index) =>
        /^export function/.test(line) && !/\*\/$/.test(lines[index - 1]!.trim()) ? [`${file}: ${line}`] : [],
      );
    });
    expect(bare).toEqual([]);
  });
});
