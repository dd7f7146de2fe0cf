/** Runs the command line inside the test, with streams that remember, in a folder of its own. */
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll } from "vitest";
import { main } from "../../src/cli/main.ts";

export interface Ran {
  readonly code: number;
  readonly out: string;
  readonly err: string;
}

/** A folder that goes when the tests are over. Arguments that begin with "@" are files in it. */
export function bench(files: Readonly<Record<string, string | Uint8Array>>) {
  const folder = mkdtempSync(join(tmpdir(), "twostrand-"));
  const at = (name: string): string => join(folder, name);
  for (const [name, content] of Object.entries(files)) writeFileSync(at(name), content);
  afterAll(() => rmSync(folder, { recursive: true }));
  const run = async (...argv: string[]): Promise<Ran> => {
    let [out, err] = ["", ""];
    const code = await main(
      argv.map((argument) => argument.replace(/^@/, `${folder}/`)),
      { out: (text) => (out += text), err: (text) => (err += text), now: () => performance.now() },
    );
    return { code, out, err: err.replaceAll(folder, "DIR") };
  };
  /** What a command prints with --json, which must be all that it prints. */
  const json = async <T = Record<string, unknown>>(...argv: string[]): Promise<T> => {
    const { out, err, code } = await run(...argv, "--json");
    if (code > 1) throw new Error(`exit ${code}: ${err}`);
    return JSON.parse(out) as T;
  };
  return { folder, at, run, json };
}
