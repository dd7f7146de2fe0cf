/** The machinery of migrations, held to its rules by steps that are handed in; version 1 has none of its own. */
import { describe, expect, it } from "vitest";
import { MIGRATIONS, migrate, type Migration } from "./migrations.ts";
import { PROJECT_VERSION } from "./project.ts";

const renamed: Migration = {
  to: 2,
  description: "The title is called name.",
  up: ({ title, ...rest }) => ({ ...rest, name: title }),
};
const counted: Migration = {
  to: 3,
  description: "Yarns are counted.",
  up: (file) => ({ ...file, count: (file["yarns"] as unknown[]).length }),
};
const first = Object.freeze({ version: 1, title: "vest", yarns: Object.freeze([1, 2]), unknown: { kept: true } });

describe("migrations", () => {
  it("are as many as there are versions after the first, numbered without a gap and described", () => {
    expect(MIGRATIONS.map(({ to }) => to)).toEqual(
      Array.from({ length: PROJECT_VERSION - 1 }, (_, index) => index + 2),
    );
    for (const { description } of MIGRATIONS) expect(description).toMatch(/\.$/);
  });

  it("bring a file forward step by step, keep unknown fields and leave what they were given alone", () => {
    expect(migrate(first, 1, [renamed, counted], 3)).toEqual({
      version: 3,
      name: "vest",
      yarns: [1, 2],
      unknown: { kept: true },
      count: 2,
    });
    expect(first.title).toBe("vest");
  });

  it("begin at the file's own version", () => {
    const second = { version: 2, name: "vest", yarns: [] };
    expect(migrate(second, 2, [renamed, counted], 3)).toEqual({ version: 3, name: "vest", yarns: [], count: 0 });
    const third = { version: 3 };
    expect(migrate(third, 3, [renamed, counted], 3)).toBe(third);
  });

  it("with a gap are our own mistake", () => {
    expect(() => migrate(first, 1, [counted], 2)).toThrow("numbered without a gap");
    expect(() => migrate(first, 1, [renamed], 3)).toThrow("every version");
  });
});
