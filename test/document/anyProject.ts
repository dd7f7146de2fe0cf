/** Projects for laws of edits: small ones in which much is named by row, column and round, with fields of a later time at every level. */
import fc from "fast-check";
import { judgeProject } from "../../src/document/judgeProject.ts";
import type { Project } from "../../src/document/project.ts";
import type { Place } from "../../src/garment/place.ts";

export const between = (least: number, most: number) => fc.integer({ min: least, max: most });
export const rangeTo = (most: number) =>
  fc.tuple(between(1, most), between(1, most)).map(([a, b]): [number, number] => [Math.min(a, b), Math.max(a, b)]);
const strange = fc.constant({ "x-later": [1, { deep: true }] });

export const anyProject: fc.Arbitrary<Project> = fc.tuple(between(2, 7), between(2, 7)).chain(([height, width]) => {
  const row = fc.string({ unit: fc.constantFrom("A", "B", "C"), minLength: width, maxLength: width });
  const rounds = between(0, 3 * height);
  const place: fc.Arbitrary<Place> = fc.oneof(
    fc.record({ chart: fc.constant("c1"), rows: rangeTo(height) }, { requiredKeys: ["chart"] }),
    fc.record({ section: fc.constant("s1"), rounds: rangeTo(3 * height) }, { requiredKeys: ["section"] }),
    fc.constant({ chart: "c2", rows: [1, 1] as [number, number] }),
  );
  const decreases = fc.array(fc.record({ round: between(1, 3 * height), to: between(1, 30) }), { maxLength: 3 });
  const corner = fc.tuple(between(0, height), between(0, width));
  return fc
    .record({
      rows: fc.array(row, { minLength: height, maxLength: height }),
      cut: between(1, height),
      echoOf: fc.option(rangeTo(height)),
      axis: fc.option(between(2, 2 * width + 1).map((halves) => halves / 2)),
      startRow: between(1, height),
      rounds: fc.record({ S: rounds, M: rounds }),
      startColumn: fc.record({ S: between(1, width), M: between(1, width) }),
      decreases: fc.record({ S: decreases, M: decreases }),
      changes: fc.array(fc.record({ at: place, colour: fc.constantFrom("A", "B"), yarn: fc.constant("y1") }), {
        maxLength: 3,
      }),
      overStitched: fc.array(
        fc.record({
          at: place,
          cells: fc.array(fc.tuple(between(1, height), between(1, width)), { maxLength: 4 }),
          lines: fc.array(fc.tuple(corner, corner), { maxLength: 4 }),
          yarn: fc.constant("y1"),
        }),
        { maxLength: 2 },
      ),
      kept: fc.array(fc.record({ colour: fc.constant("A"), yarn: fc.constant("y1"), at: place }), { maxLength: 2 }),
      swatchRows: rangeTo(height),
      lookedAt: place,
      round: between(0, 3 * height),
      strange,
    })
    .map(
      (made) =>
        ({
          format: "twostrand-project",
          version: 1,
          name: "any",
          ...made.strange,
          pattern: {
            gauge: { stitches: 28, rows: 30 },
            colours: ["A", "B", "C"].map((id) => ({ id, shade: { hex: "#808080" }, ...made.strange })),
            charts: [
              {
                id: "c1",
                rows: made.rows,
                ...made.strange,
                bands: [
                  { rows: [1, made.cut], axis: made.axis, echoOf: made.echoOf, ...made.strange },
                  ...(made.cut < height ? [{ rows: [made.cut + 1, height], name: "upper" }] : []),
                ],
              },
              { id: "c2", rows: ["AB"] },
            ],
            sizes: [{ id: "S" }, { id: "M" }],
            sections: [
              {
                id: "s1",
                chart: "c1",
                startRow: made.startRow,
                rounds: made.rounds,
                stitches: { S: 24, M: 30 },
                startColumn: made.startColumn,
                decreases: made.decreases,
                ...made.strange,
              },
              { id: "s2", chart: "c2", rounds: { M: 4 }, stitches: { M: 24 } },
            ],
          },
          yarns: [{ id: "y1", name: "Fog", shade: { hex: "#cccccc" } }],
          colourways: [
            {
              id: "w1",
              yarns: { A: "y1" },
              changes: made.changes.map((change) => ({ ...change, ...made.strange })),
              overStitched: made.overStitched,
              wish: { keep: made.kept, mood: "quiet" },
            },
          ],
          swatches: [
            {
              id: "t1",
              chart: "c1",
              rows: made.swatchRows,
              colourway: "w1",
              looks: [{ at: made.lookedAt, distanceM: 1.5, verdict: "faint" }],
            },
          ],
          knitting: {
            section: "s1",
            round: made.round,
            weighed: [{ yarn: "y1", grams: 3, after: { section: "s1", round: made.round } }],
          },
        }) as unknown as Project,
    )
    .filter((project) => judgeProject(project).value !== null);
});
