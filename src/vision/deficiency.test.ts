/** Colour-deficient vision against the published matrices. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import table from "../../test/tables/machado2009.json" with { type: "json" };
import { createRaster } from "../raster/raster.ts";
import { deficiencyMatrix, deficientColour, deficientRaster, type Deficiency } from "./deficiency.ts";

const TYPES: Deficiency[] = ["protan", "deutan", "tritan"];
/** The table has six decimals. */
const SIX_DECIMALS = 1e-6;

describe("colour-vision deficiency", () => {
  it.each(TYPES)("%s: every published matrix (Machado 2009, as in the table's source)", (type) => {
    const published = Object.entries(table.matrices[type]);
    expect(published.length).toBe(11);
    for (const [severity, rows] of published) {
      const matrix = deficiencyMatrix(type, Number(severity));
      rows.flat().forEach((cell, at) => expect(Math.abs(matrix[at]! - cell)).toBeLessThan(SIX_DECIMALS));
    }
  });

  it("is linear between the published severities", () => {
    // Half-way between 0.856167 (0.1) and 0.734766 (0.2), by hand.
    expect(deficiencyMatrix("protan", 0.15)[0]).toBeCloseTo(0.7954665, 6);
  });

  it("leaves greys grey and the ordinary eye as it is", () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...TYPES),
        fc.float({ min: 0, max: 1, noNaN: true }),
        fc.float({ min: 0, max: 1, noNaN: true }),
        (type, grey, severity) => {
          for (const light of deficientColour([grey, grey, grey], type, severity)) expect(light).toBeCloseTo(grey, 4);
          expect(deficientColour([grey, grey / 2, 0], type, 0)).toEqual([grey, grey / 2, 0]);
        },
      ),
      { seed: 7, numRuns: 100 },
    );
  });

  it("brings red and green wool nearer each other for deutan, not for tritan", () => {
    const apart = (type: Deficiency): number => {
      const red = deficientColour([0.43, 0.04, 0.04], type, 1);
      const green = deficientColour([0.03, 0.2, 0.07], type, 1);
      return Math.abs(Math.log(red[0] / red[1]) - Math.log(green[0] / green[1]));
    };
    expect(apart("deutan")).toBeLessThan(apart("tritan") / 2);
  });

  it("shows a picture as it shows its colours", () => {
    const raster = createRaster(2, 1, 0.5);
    raster.data.set([0.4, 0.1, 0.05, 0.02, 0.3, 0.9]);
    const seen = deficientRaster(raster, "protan", 0.63);
    const colours = [
      ...deficientColour([0.4, 0.1, 0.05], "protan", 0.63),
      ...deficientColour([0.02, 0.3, 0.9], "protan", 0.63),
    ];
    seen.data.forEach((light, at) => expect(light).toBeCloseTo(colours[at]!, 5));
    expect(seen.millimetresPerPixel).toBe(0.5);
  });
});
