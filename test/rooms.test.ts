/** Holds the house to its table: a room imports only the rooms that its line in ARCHITECTURE.md names. */
import { readdirSync, readFileSync } from "node:fs";
import { dirname, join, relative, resolve, sep } from "node:path";
import ts from "typescript";
import { describe, expect, it } from "vitest";

const source = resolve("src");

/** room → rooms it may import, as the table says. */
export function readRooms(markdown: string): Map<string, Set<string>> {
  const rooms = new Map<string, Set<string>>();
  const lines = markdown.split("\n");
  const start = lines.findIndex((line) => /^\| room \| holds \|/.test(line));
  for (const line of lines.slice(start + 2)) {
    if (!line.startsWith("|")) break;
    const [, room, , allowed] = line.split("|").map((cell) => cell.trim());
    rooms.set(room!, new Set(allowed === "–" ? [] : allowed!.split(/\s+/)));
  }
  return rooms;
}

function roomOf(file: string): string {
  return relative(source, file).split(sep)[0]!;
}

const rooms = readRooms(readFileSync("ARCHITECTURE.md", "utf8"));
const files = readdirSync(source, { recursive: true, encoding: "utf8" })
  .filter((file) => /\.tsx?$/.test(file) && !/\.test\.tsx?$/.test(file))
  .map((file) => join(source, file));

describe("rooms", () => {
  it("every folder and file of src has its line in the table, and every line its room", () => {
    const found = new Set(files.map(roomOf));
    expect([...found].sort()).toEqual([...rooms.keys()].sort());
  });

  it.each(files.map((file) => [relative(source, file), file]))("%s imports only what its room may", (_, file) => {
    const room = roomOf(file);
    const allowed = rooms.get(room);
    const strangers = ts
      .preProcessFile(readFileSync(file, "utf8"), true, true)
      .importedFiles.map(({ fileName }) => fileName)
      .filter((name) => name.startsWith("."))
      .map((name) => roomOf(resolve(dirname(file), name)))
      .filter((other) => other !== room && !allowed?.has(other));
    expect(strangers).toEqual([]);
  });
});
