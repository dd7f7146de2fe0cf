/** The program as it is installed: built, started by Node, talking through real streams. */
import { execFileSync, spawnSync } from "node:child_process";
import { existsSync, readdirSync, readFileSync, statSync, symlinkSync } from "node:fs";
import { join } from "node:path";
import { beforeAll, describe, expect, it } from "vitest";
import { bench } from "./program.ts";

const PROGRAM = "dist/cli/main.js";
const { at } = bench({ "vest.json": readFileSync("test/files/v1/every-field.twostrand.json", "utf8") });

/** The test run builds first; alone, this file builds what is missing or older than its source. */
beforeAll(() => {
  const sources = readdirSync("src", { recursive: true, encoding: "utf8" }).filter(
    (file) => file.endsWith(".ts") && !file.startsWith("app") && !file.endsWith(".test.ts"),
  );
  const newest = Math.max(...sources.map((file) => statSync(join("src", file)).mtimeMs));
  if (!existsSync(PROGRAM) || statSync(PROGRAM).mtimeMs < newest)
    execFileSync("npx", ["vite", "build", "--mode", "node", "--logLevel", "error"], { stdio: "inherit" });
}, 120_000);

const start = (program: string, ...argv: string[]) => spawnSync("node", [program, ...argv], { encoding: "utf8" });

describe("the built program", () => {
  it("answers on standard output with one JSON value and ends with 0", () => {
    const { status, stdout } = start(PROGRAM, "check", at("vest.json"), "--json");
    expect(status).toBe(0);
    expect(JSON.parse(stdout)).toHaveProperty("ladder");
  });

  it("carries what a sheet needs", () => {
    const { status, stdout, stderr } = start(PROGRAM, "sheet", at("vest.json"), "--out", at("vest.pdf"), "--json");
    expect([status, stderr]).toEqual([0, ""]);
    expect(JSON.parse(stdout)).toMatchObject({ file: at("vest.pdf") });
    expect(readFileSync(at("vest.pdf")).subarray(0, 5).toString()).toBe("%PDF-");
  });

  it("tells mistakes on standard error", () => {
    const { status, stdout, stderr } = start(PROGRAM, "check", at("gone.json"), "--json");
    expect([status, stdout]).toEqual([66, ""]);
    expect(stderr).toContain("it is not there");
  });

  it("starts through a link, as installed packages are", () => {
    symlinkSync(join(process.cwd(), PROGRAM), at("twostrand"));
    const { status, stdout } = start(at("twostrand"), "schema");
    expect(status).toBe(0);
    expect(JSON.parse(stdout)).toHaveProperty("$schema");
  });

  it("can be piped into a reader that stops early", () => {
    const { status, stderr } = spawnSync("sh", ["-c", `node ${PROGRAM} schema | head -1`], { encoding: "utf8" });
    expect([status, stderr]).toEqual([0, ""]);
  });

  it("begins with the line that makes it a program", () => {
    expect(readFileSync(PROGRAM, "utf8").startsWith("#!/usr/bin/env node\n")).toBe(true);
  });
});
