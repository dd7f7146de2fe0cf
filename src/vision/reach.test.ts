/** What is found at every distance at once against looking distance by distance. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { spectrumOf } from "../fabric/spectra.ts";
import { pieceOfMotif, sceneFor, USUAL_EYE } from "../fabric/visibility.ts";
import type { Lab } from "../colour/lab.ts";
import { farthestOf, reachOf, seenThings } from "./reach.ts";
import { farthest, figureVisibility, gainsOf, join, patternVisibility, type RadialSpectrum } from "./visibility.ts";

const lab = fc.tuple(
  fc.double({ min: 8, max: 95, noNaN: true }),
  fc.double({ min: -45, max: 45, noNaN: true }),
  fc.double({ min: -45, max: 45, noNaN: true }),
);
const piece = fc
  .record({
    count: fc.integer({ min: 2, max: 5 }),
    width: fc.integer({ min: 2, max: 12 }),
    height: fc.integer({ min: 1, max: 9 }),
  })
  .chain(({ count, width, height }) =>
    fc.record({
      labs: fc.array(lab, { minLength: count, maxLength: count }),
      motif: fc.array(fc.array(fc.integer({ min: 0, max: count - 1 }), { minLength: width, maxLength: width }), {
        minLength: height,
        maxLength: height,
      }),
    }),
  )
  .filter(({ motif }) => new Set(motif.flat()).size > 1);

const spectra = (motif: readonly (readonly number[])[], count: number, rows: "once" | "tiled"): RadialSpectrum =>
  spectrumOf(
    pieceOfMotif(
      motif.map((row) => row.join("")),
      count,
    ),
    { stitch: { widthMm: 100 / 28, heightMm: 100 / 30 }, rows },
  );

const ASKED = [
  { hueWeight: 0.5, threshold: 3 },
  { hueWeight: 0, threshold: 5 },
  { hueWeight: 1, threshold: 1 },
];

describe("how far things read", () => {
  it.each(["once", "tiled"] as const)("is what looking at every distance says: %s", (rows) => {
    let compared = 0;
    fc.assert(
      fc.property(piece, fc.constantFrom(50, 500, 10_000), ({ labs, motif }, lux) => {
        const spectrum = spectra(motif, labs.length, rows);
        const { field } = sceneFor(spectrum, labs as readonly Lab[], lux, USUAL_EYE);
        const reach = reachOf(spectrum, USUAL_EYE);
        const [area, against] = [motif.flat()[0]!, motif.flat().find((other) => other !== motif.flat()[0])!];
        for (const figure of [undefined, { area, against }]) {
          const found = farthestOf(reach, seenThings(spectrum, field, USUAL_EYE, figure), ASKED);
          ASKED.forEach(({ hueWeight, threshold }, which) => {
            const visible = (distanceMm: number): number => {
              const gains = gainsOf(spectrum, distanceMm, field.luminance, USUAL_EYE);
              const channels = figure
                ? figureVisibility(spectrum, field, gains, figure, USUAL_EYE.contrastCap)
                : patternVisibility(spectrum, field, gains);
              return join(channels, hueWeight);
            };
            const plain = farthest(spectrum, visible, threshold);
            const { distanceMm, beyond } = found[which]!;
            // A threshold that is met by a hair may be met at a step or not.
            const edge = plain.distanceMm > 0 && Math.abs(visible(plain.distanceMm) / threshold - 1) > 0.01;
            if (distanceMm === 0 || plain.distanceMm === 0) {
              const nearest = Math.max(distanceMm, plain.distanceMm);
              if (nearest > 0) expect(Math.abs(visible(nearest) / threshold - 1)).toBeLessThan(0.005);
              return;
            }
            compared += 1;
            expect(beyond).toBe(plain.beyond);
            const off = Math.abs(Math.log(distanceMm / plain.distanceMm));
            // Where frequencies meet 60 cycles per degree V falls in steps, and a step of distance is all that is known.
            const steep = Math.abs(visible(plain.distanceMm * 1.03) / visible(plain.distanceMm) - 1) > 0.2 || edge;
            // Between two steps single frequencies fall away, and where V hardly changes a hair of it is a good deal of distance.
            const same = Math.abs(visible(distanceMm) / threshold - 1) < 2e-3;
            expect(same ? 0 : off).toBeLessThanOrEqual(steep ? 0.031 : 5e-3);
          });
        }
      }),
      { seed: 19, numRuns: 60 },
    );
    expect(compared).toBeGreaterThan(150);
  });

  it("a pattern too fine to be seen at the nearest reads nowhere", () => {
    const spectrum = { ...spectra([[0, 1]], 2, "once"), lowest: 100 };
    const { field } = sceneFor(
      spectrum,
      [
        [90, 0, 0],
        [10, 0, 0],
      ],
      500,
      USUAL_EYE,
    );
    const reach = reachOf(spectrum, USUAL_EYE);
    expect(farthestOf(reach, seenThings(spectrum, field, USUAL_EYE), ASKED)).toEqual(
      ASKED.map(() => ({ distanceMm: 0, beyond: false })),
    );
  });
});
