/** Holds the documents to the house: links lead somewhere, paths exist, rooms are told, and what is shown as run does run. */
import { execFileSync, spawnSync } from "node:child_process";
import {
  cpSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join, resolve } from "node:path";
import { pathToFileURL } from "node:url";
import ts from "typescript";
import { afterAll, beforeAll, describe, expect, it, vi } from "vitest";

const documents = [
  ...readdirSync(".").filter((name) => name.endsWith(".md")),
  ...readdirSync("docs").flatMap((name) => (name.endsWith(".md") ? [`docs/${name}`] : [])),
  "examples/README.md",
  "src/print/fonts/README.md",
];
const read = (file: string): string => readFileSync(file, "utf8");

/** Fenced blocks in order, with the language they are marked with. */
const blocksOf = (markdown: string): { language: string; text: string }[] =>
  Array.from(markdown.matchAll(/^```(\w+)\n([^]*?)^```$/gm), ([, language, text]) => ({
    language: language!,
    text: text!,
  }));

describe("links and paths", () => {
  it.each(documents)("%s links to what there is", (file) => {
    const links = Array.from(read(file).matchAll(/\]\(([^)\s]+)\)/g), ([, to]) => to!)
      .filter((to) => !/^(https?:|mailto:|#)/.test(to))
      .map((to) => join(dirname(file), to.replace(/#.*$/, "")));
    expect(links.filter((to) => !existsSync(to))).toEqual([]);
  });

  it.each(["ARCHITECTURE.md", "CONTRIBUTING.md"])("every path that %s names exists", (file) => {
    const named = Array.from(read(file).matchAll(/`([\w./*-]+)`/g), ([, name]) => name!);
    const paths = named.filter((name) => /\/|\.(ts|tsx|mjs|json|md|css)$/.test(name) && !name.includes("*"));
    const missing = paths.filter((name) => ![name, join("src", name)].some((place) => existsSync(place)));
    // What CONTRIBUTING tells one to make is not there yet.
    expect(missing.filter((name) => !/strands|NAME/.test(name))).toEqual([]);
    expect(paths.length).toBeGreaterThan(10);
  });

  it("every page and section that a comment cites is in docs", () => {
    const code = ["src", "test"].flatMap((folder) =>
      readdirSync(folder, { recursive: true, encoding: "utf8" }).map((file) => join(folder, file)),
    );
    const cited = code
      .filter((file) => /\.tsx?$/.test(file))
      .flatMap((file) =>
        Array.from(read(file).matchAll(/\b([a-z]+\.md)(?: (?:section )?([A-F]\d?a?|\d(?:\.\d)?)\b)?/g)),
      );
    expect(cited.length).toBeGreaterThan(20);
    const missing = cited.flatMap(([citation, page, section]) => {
      const text = existsSync(join("docs", page!)) ? read(join("docs", page!)) : "";
      const heading = new RegExp(`^(## |\\*\\*)${section ?? "\\w+"}[. ]`, "m");
      return heading.test(text) ? [] : [citation];
    });
    expect([...new Set(missing)]).toEqual([]);
  });

  it("ARCHITECTURE fits in 300 lines and has a paragraph on each room", () => {
    const text = read("ARCHITECTURE.md");
    expect(text.split("\n").length).toBeLessThanOrEqual(300);
    const rooms = readdirSync("src", { withFileTypes: true }).flatMap((entry) =>
      entry.isDirectory() ? [entry.name] : [],
    );
    const told = Array.from(text.matchAll(/^#{2,3} `?([\w.]+)`?/gm), ([, room]) => room!);
    expect(rooms.filter((room) => !told.includes(room))).toEqual([]);
  });
});

describe("the commands of the documents", () => {
  const folder = mkdtempSync(join(tmpdir(), "twostrand-docs-"));
  afterAll(() => rmSync(folder, { recursive: true }));

  /** The test run builds first; alone, this file builds what is missing or older than its source. */
  beforeAll(() => {
    const sources = readdirSync("src", { recursive: true, encoding: "utf8" }).filter(
      (file) => file.endsWith(".ts") && !file.startsWith("app") && !file.endsWith(".test.ts"),
    );
    const newest = Math.max(...sources.map((file) => statSync(join("src", file)).mtimeMs));
    if (!existsSync("dist/cli/main.js") || statSync("dist/cli/main.js").mtimeMs < newest)
      execFileSync("npx", ["vite", "build", "--mode", "node", "--logLevel", "error"], { stdio: "inherit" });
    cpSync("examples", join(folder, "examples"), { recursive: true });
  }, 120_000);

  const commandsOf = (text: string): string[] =>
    Array.from(text.matchAll(/^ *((?:node dist\/cli\/main\.js|twostrand) .*)$/gm), ([, command]) => command!.trim());

  const start = (command: string): string => {
    const program = `node ${resolve("dist/cli/main.js")}`;
    const { status, stdout, stderr } = spawnSync(command.replace(/^(node dist\/cli\/main\.js|twostrand)/, program), {
      cwd: folder,
      shell: true,
      encoding: "utf8",
    });
    expect({ command, status, stderr: status ? stderr : "" }).toEqual({ command, status: 0, stderr: "" });
    return stdout;
  };

  it.each(["README.md", "examples/README.md"])(
    "%s: each runs, in the order in which they stand",
    { timeout: 240_000 },
    (file) => {
      const commands = commandsOf(read(file));
      expect(commands.length).toBeGreaterThan(3);
      for (const command of commands) start(command);
    },
  );

  it("what README shows as printed is printed", { timeout: 60_000 }, () => {
    const blocks = blocksOf(read("README.md"));
    const shown = blocks.flatMap((block, index) =>
      block.language === "text" ? [{ command: blocks[index - 1]!.text.trim(), text: block.text }] : [],
    );
    expect(shown.length).toBeGreaterThan(0);
    for (const { command, text } of shown) {
      const printed = start(command);
      let from = 0;
      for (const part of text.split(/^…\n/m)) {
        const at = printed.indexOf(part, from);
        expect(
          at,
          `README shows, and the program does not print:\n${part}\nIt prints:\n${printed}`,
        ).toBeGreaterThanOrEqual(0);
        from = at + part.length;
      }
    }
  });
});

describe("the snippets of the documents", () => {
  const folder = join("dist", "snippets");
  const typescriptOf = (file: string): string[] =>
    blocksOf(read(file)).flatMap(({ language, text }) => (language === "ts" ? [text] : []));
  const library = typescriptOf("README.md").map((text, index) => ({
    name: `README ${index + 1}`,
    path: join(folder, `readme-${index + 1}.ts`),
    text: text.replace('from "twostrand"', 'from "../../src/index.ts"'),
  }));
  /** The recipe's check and its cases, as if they stood in src/audit; the cases run where they are imported. */
  const recipe = typescriptOf("CONTRIBUTING.md").map((text, index) => ({
    path: join(folder, ["strands.ts", "strandsCases.ts"][index]!),
    text: text
      .replaceAll('from "../', 'from "../../src/')
      .replaceAll('from "./', 'from "../../src/audit/')
      .replaceAll('"../../src/audit/strands.ts"', '"./strands.ts"')
      .replace(
        'import { describe, expect, it } from "vitest";',
        'import { expect } from "vitest";\nconst describe = (_: string, body: () => void) => body();\nconst it = describe;',
      ),
  }));
  const snippets = [...library, ...recipe];
  const start = (path: string): Promise<unknown> => import(/* @vite-ignore */ pathToFileURL(resolve(path)).href);

  beforeAll(() => {
    mkdirSync(folder, { recursive: true });
    for (const { path, text } of snippets) writeFileSync(path, `${text}\nexport {};\n`);
  });
  afterAll(() => rmSync(folder, { recursive: true }));

  it("compile", { timeout: 120_000 }, () => {
    const { config } = ts.readConfigFile("tsconfig.base.json", ts.sys.readFile);
    const { options } = ts.convertCompilerOptionsFromJson(
      { ...config.compilerOptions, lib: ["ES2023"], types: ["node"] },
      ".",
    );
    const program = ts.createProgram(
      snippets.map(({ path }) => path),
      options,
    );
    const mistakes = snippets.flatMap(({ path }) =>
      program
        .getSemanticDiagnostics(program.getSourceFile(path))
        .map(({ messageText }) => `${path}: ${ts.flattenDiagnosticMessageText(messageText, "\n")}`),
    );
    expect(mistakes).toEqual([]);
  });

  it.each(library)("$name prints what its comments say", { timeout: 60_000 }, async ({ path, text }) => {
    const printed: string[] = [];
    const log = vi.spyOn(console, "log").mockImplementation((...words) => void printed.push(words.join(" ")));
    await start(path).finally(() => log.mockRestore());
    expect(printed).toEqual(Array.from(text.matchAll(/^\/\/ (.*)$/gm), ([, line]) => line));
    expect(printed.length).toBeGreaterThan(0);
  });

  it("the recipe of CONTRIBUTING holds its own three cases", { timeout: 60_000 }, async () => {
    expect(recipe).toHaveLength(2);
    await start(recipe[1]!.path);
    expect.assertions(4);
  });
});
