/** Laws of rows and columns that come into a chart or go: what was named is still named, and what comes in and goes again leaves no trace. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { problemSentence } from "../base/problem.ts";
import type { LinesEdit } from "../chart/chartLines.ts";
import { roundsOf } from "../garment/sections.ts";
import { anyProject, between, rangeTo } from "../../test/document/anyProject.ts";
import { tryEdit, type Edit } from "./edit.ts";
import type { Project } from "./project.ts";
import { readProject } from "./read.ts";
import { writeProject } from "./write.ts";

const sizeOf = ({ pattern }: Project) => ({
  height: pattern.charts[0]!.rows.length,
  width: pattern.charts[0]!.rows[0]!.length,
});

const withInsertion = anyProject.chain((project) => {
  const { height, width } = sizeOf(project);
  const text = (length: number) =>
    fc.string({ unit: fc.constantFrom("A", "B", "C"), minLength: length, maxLength: length });
  const insertion: fc.Arbitrary<Extract<LinesEdit, { at: number }>> = fc.oneof(
    fc.record({
      kind: fc.constant("insertRows" as const),
      chart: fc.constant("c1"),
      at: between(1, height + 1),
      rows: fc.array(text(width), { minLength: 1, maxLength: 3 }),
    }),
    between(1, 3).chain((count) =>
      fc.record({
        kind: fc.constant("insertColumns" as const),
        chart: fc.constant("c1"),
        at: between(1, width + 1),
        stitches: fc.array(text(count), { minLength: height, maxLength: height }),
      }),
    ),
  );
  return fc.record({ project: fc.constant(project), insertion });
});

const withRemoval = anyProject.chain((project) => {
  const { height, width } = sizeOf(project);
  const removal: fc.Arbitrary<LinesEdit> = fc.oneof(
    fc.record({ kind: fc.constant("removeRows" as const), chart: fc.constant("c1"), rows: rangeTo(height) }),
    fc.record({ kind: fc.constant("removeColumns" as const), chart: fc.constant("c1"), columns: rangeTo(width) }),
  );
  return fc.record({ project: fc.constant(project), removal });
});

const runs = { seed: 7, numRuns: 400 };
const done = (project: Project, edit: Edit): Project => {
  const { value, problems } = tryEdit(project, edit);
  if (!value) throw new Error(problems.map(problemSentence).join(" "));
  return value;
};

describe("rows and columns that come in", () => {
  it("and go again leave the project as it was", () => {
    fc.assert(
      fc.property(withInsertion, ({ project, insertion }) => {
        const { at } = insertion;
        const removal: Edit =
          insertion.kind === "insertRows"
            ? { kind: "removeRows", chart: "c1", rows: [at, at + insertion.rows.length - 1] }
            : { kind: "removeColumns", chart: "c1", columns: [at, at + insertion.stitches[0]!.length - 1] };
        expect(done(done(project, insertion), removal)).toEqual(project);
      }),
      runs,
    );
  });

  it("can be written and read again", () => {
    fc.assert(
      fc.property(withInsertion, ({ project, insertion }) => {
        const after = done(project, insertion);
        expect(readProject(writeProject(after)).value).toEqual(after);
      }),
      { seed: 7, numRuns: 100 },
    );
  });
});

/**
 * Every stitch of the chart by a name of its own, which only array splicing moves: the plain reference for all renumbering. null is new.
 * Lowest row first, column 1 first.
 */
type Named = readonly (readonly (string | null)[])[];

function namedStitches(project: Project): Named {
  const { height, width } = sizeOf(project);
  return Array.from({ length: height }, (_, row) => Array.from({ length: width }, (_c, column) => `${row}/${column}`));
}

function namedAfter(before: Named, edit: LinesEdit): Named {
  const none = (count: number): null[] => Array.from({ length: count }, () => null);
  switch (edit.kind) {
    case "insertRows":
      return before.toSpliced(edit.at - 1, 0, ...edit.rows.map(() => none(before[0]!.length)));
    case "removeRows":
      return before.toSpliced(edit.rows[0] - 1, edit.rows[1] - edit.rows[0] + 1);
    case "insertColumns":
      return before.map((row) => row.toSpliced(edit.at - 1, 0, ...none(edit.stitches[0]!.length)));
    case "removeColumns":
      return before.map((row) => row.toSpliced(edit.columns[0] - 1, edit.columns[1] - edit.columns[0] + 1));
  }
}

const rowName = (row: Named[number]): string | undefined => row.find((name) => name !== null)?.split("/")[0];
const columnName = (named: Named, column: number): string | undefined =>
  named
    .map((row) => row[column - 1])
    .find((name) => name !== null)
    ?.split("/")[1];

/** Names of the rows of a range, without new ones. */
const rowsNamed = (named: Named, [from, to]: readonly [number, number]): string[] =>
  named.slice(from - 1, to).flatMap((row) => rowName(row) ?? []);

/** The rounds of a size as the nth time that a row is knitted: "row/nth"; new rows null. */
function roundsNamed(project: Project, named: Named, size: string): (string | null)[] {
  const times = new Map<string, number>();
  return roundsOf(project.pattern.sections![0]!, named.length, size).map(({ chartRow }) => {
    const name = rowName(named[chartRow - 1]!);
    if (name === undefined) return null;
    times.set(name, (times.get(name) ?? 0) + 1);
    return `${name}/${times.get(name)!}`;
  });
}

const anyLines = fc.oneof(
  withInsertion.map(({ project, insertion }) => ({ project, edit: insertion as LinesEdit })),
  withRemoval.map(({ project, removal }) => ({ project, edit: removal })),
);

/** Each case that is not refused, with the names before and after, and whether a name is still there. */
function checkAll(
  check: (one: { before: Project; after: Project; was: Named; now: Named; edit: LinesEdit }) => void,
): void {
  let tried = 0;
  fc.assert(
    fc.property(anyLines, ({ project, edit }) => {
      const after = tryEdit(project, edit).value;
      if (!after) return;
      tried += 1;
      const was = namedStitches(project);
      check({ before: project, after, was, now: namedAfter(was, edit), edit });
    }),
    runs,
  );
  expect(tried).toBeGreaterThan(runs.numRuns / 2);
}

describe("what is named, after rows or columns came in or went", () => {
  it("stitches have the colours they had", () => {
    checkAll(({ before, after, was, now }) => {
      const colourOf = (project: Project, row: number, column: number): string => {
        const { rows } = project.pattern.charts[0]!;
        return rows[rows.length - 1 - row]!.at(-1 - column)!;
      };
      const colours = new Map(was.flatMap((row, r) => row.map((name, c) => [name, colourOf(before, r, c)])));
      now.forEach((row, r) =>
        row.forEach((name, c) => name !== null && expect(colourOf(after, r, c)).toBe(colours.get(name))),
      );
      expect(sizeOf(after)).toEqual({ height: now.length, width: now[0]!.length });
    });
  });

  it("bands and what they echo have the rows they had, of those that are left", () => {
    checkAll(({ before, after, was, now }) => {
      const left = new Set(rowsNamed(now, [1, now.length]));
      const rowsOf = (project: Project, named: Named, part: "rows" | "echoOf") =>
        project.pattern.charts[0]!.bands!.map((band) => (band[part] ? rowsNamed(named, band[part]!) : []));
      const kept = rowsOf(before, was, "rows").map((rows) => rows.filter((row) => left.has(row)));
      expect(rowsOf(after, now, "rows")).toEqual(kept.filter((rows) => rows.length > 0));
      const echoes = rowsOf(before, was, "echoOf").filter((_, index) => kept[index]!.length > 0);
      expect(rowsOf(after, now, "echoOf")).toEqual(echoes.map((rows) => rows.filter((row) => left.has(row))));
    });
  });

  it("a line of mirroring has the columns beside it that it had", () => {
    checkAll(({ before, after, was, now }) => {
      const [axis, moved] = [before, after].map((project) => project.pattern.charts[0]!.bands![0]?.axis);
      if (typeof axis !== "number" || typeof moved !== "number") return;
      const lefts = (named: Named, at: number) =>
        Array.from({ length: named[0]!.length }, (_, index) => index + 1).flatMap((column) =>
          column > at ? (columnName(named, column) ?? []) : [],
        );
      const left = new Set(now.flatMap((row) => row.flatMap((name) => name?.split("/")[1] ?? [])));
      // At the right edge it closes to the left edge, where nothing is left of it.
      if (moved > now[0]!.length) return;
      expect(lefts(now, moved)).toEqual(lefts(was, axis).filter((column) => left.has(column)));
    });
  });

  it("rounds are knitted in the order they were, new ones between them, and none of the old is lost", () => {
    checkAll(({ before, after, was, now, edit }) => {
      const left = new Set(rowsNamed(now, [1, now.length]));
      for (const size of ["S", "M"]) {
        const old = roundsNamed(before, was, size).filter((name) => left.has(name!.split("/")[0]!));
        const all = roundsNamed(after, now, size);
        expect(all.filter((name) => name !== null)).toEqual(old);
        if (edit.kind !== "insertRows") expect(all).not.toContain(null);
      }
    });
  });

  it("places by rounds, decreases and the round she is at keep their rounds", () => {
    checkAll(({ before, after, was, now }) => {
      const long = (project: Project): Project => ({
        ...project,
        pattern: {
          ...project.pattern,
          sections: [{ ...project.pattern.sections![0]!, rounds: { S: 99, M: 99 } }],
        },
      });
      const [old, all] = [roundsNamed(long(before), was, "M"), roundsNamed(long(after), now, "M")];
      const left = new Set(rowsNamed(now, [1, now.length]));
      const kept = (names: (string | null)[]) => names.filter((name) => name !== null && left.has(name.split("/")[0]!));
      const [from, to] = [before, after].map(({ colourways }) =>
        colourways[0]!.changes!.map(({ at }) => ("section" in at ? (at.rounds ?? []) : null)),
      );
      const fromRounds = from!.flatMap((rounds) =>
        rounds?.length === 2 ? [kept(old.slice(rounds[0]! - 1, rounds[1]))] : [],
      );
      const toRounds = to!.flatMap((rounds) =>
        rounds?.length === 2 ? [kept(all.slice(rounds[0]! - 1, rounds[1]))] : [],
      );
      expect(toRounds).toEqual(fromRounds.filter((names) => names.length > 0));
      const { round } = before.knitting!;
      expect(kept(all.slice(0, after.knitting!.round))).toEqual(kept(old.slice(0, round)));
      expect(after.knitting!.weighed![0]!.after.round).toBe(after.knitting!.round);
      for (const size of ["S", "M"]) {
        const [one, other] = [before, after].map(({ pattern }) => {
          const section = pattern.sections![0]!;
          const stitches = roundsOf(section, pattern.charts[0]!.rows.length, size).map((round) => round.stitches);
          const names = roundsNamed(
            pattern === before.pattern ? before : after,
            pattern === before.pattern ? was : now,
            size,
          );
          return new Map(names.flatMap((name, index) => (name === null ? [] : [[name, stitches[index]]])));
        });
        for (const [name, stitches] of other!) expect([name, one!.get(name)]).toEqual([name, stitches]);
      }
    });
  });

  it("stitches laid on lie on the stitches they lay on, and rounds begin with the stitch they began with", () => {
    checkAll(({ before, after, was, now }) => {
      const left = new Set(now.flat());
      const laid = (project: Project, named: Named) =>
        project.colourways[0]!.overStitched!.flatMap(({ at, cells }) =>
          ("chart" in at ? at.chart === "c1" : true) ? cells!.map(([row, column]) => named[row - 1]![column - 1]) : [],
        );
      const gone = (project: Project) => project.colourways[0]!.overStitched!.length;
      if (gone(before) === gone(after))
        expect(laid(after, now)).toEqual(laid(before, was).filter((name) => left.has(name!)));
      for (const size of ["S", "M"]) {
        const [one, other] = [before, after].map((project) => project.pattern.sections![0]!.startColumn![size]!);
        const name = columnName(was, one!);
        const isLeft = now.some((row) => row.some((stitch) => stitch?.split("/")[1] === name));
        if (one !== 1 && isLeft) expect(columnName(now, other!)).toBe(name);
        if (one === 1) expect(other).toBe(1);
      }
    });
  });

  it("fields of a later time stay", () => {
    checkAll(({ after }) => {
      const later = { "x-later": [1, { deep: true }] };
      expect(after).toMatchObject(later);
      expect(after.pattern.charts[0]).toMatchObject(later);
      expect(after.pattern.sections![0]).toMatchObject(later);
      for (const change of after.colourways[0]!.changes!) expect(change).toMatchObject(later);
      expect(after.colourways[0]!.wish).toMatchObject({ mood: "quiet" });
    });
  });
});
